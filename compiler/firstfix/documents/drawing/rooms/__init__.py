"""The sheets of rooms: `rooms`, in as many parts as it takes."""

from firstfix.documents.drawing.rooms.sheets import room_drawings

__all__ = ["room_drawings"]
