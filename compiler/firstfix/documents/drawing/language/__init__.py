"""The visual language on one page, in words and as a drawing of every sign. Takes nothing; all is read off the kit."""

from firstfix.documents.drawing.language.page import language_page
from firstfix.documents.drawing.language.sample import language_sample

__all__ = ["language_page", "language_sample"]
