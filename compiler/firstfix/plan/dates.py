"""Days as ISO 8601 writes them, year-month-day. The core reads no clock: a plan's days are all it knows."""

import datetime
import re

from firstfix.source.fields import Fields
from firstfix.source.node import clip

# ISO 8601 has shorter forms too (20270301, 2027-W09-1); people misread them.
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def date(fields: Fields, key: str) -> str:
    """The day at `key` such as 2027-03-01, or "" where it is absent or faulty."""
    text = fields.text(key)
    if text is None:
        return ""
    try:
        if _DAY.fullmatch(text):
            return datetime.date.fromisoformat(text).isoformat()
    except ValueError:
        pass
    node = fields.value(key)
    assert node is not None
    instead = _day_first(text)
    hint = f"; write '{instead}'" if instead else ""
    fields.wrong(
        node, f"'{key}' is a date such as 2027-03-01 (year-month-day), not '{clip(text)}'{hint}", instead
    )
    return ""


def _day_first(text: str) -> str:
    """The date in a text such as `1.3.2027`. With slashes either of the two may be the day."""
    found = re.fullmatch(r"([0-9]{1,2})\.\s*([0-9]{1,2})\.\s*([0-9]{4})", text)
    try:
        return (
            datetime.date(*(int(each) for each in found.groups()[::-1])).isoformat()
            if found is not None
            else ""
        )
    except ValueError:
        return ""
