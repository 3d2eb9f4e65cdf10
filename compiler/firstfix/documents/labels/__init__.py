"""Labels as files: a table for label printers, and sheets to print, each label at its true size."""

from firstfix.documents.labels.files import label_files

__all__ = ["label_files"]
