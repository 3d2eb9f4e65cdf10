"""The sheet of all addresses: `addresses`, in as many parts as it takes."""

from firstfix.documents.drawing.addresses.sheets import address_drawings

__all__ = ["address_drawings"]
