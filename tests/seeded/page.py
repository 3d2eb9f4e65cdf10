"""A plan's text while a fault is put into it: rows that remember being touched, so that the fault's lines are known at the end.

Takes the text of a plan in the layout of our example plans (one entry to a row). Gives the edited text and the touched line numbers.
"""

import random
import re
from collections.abc import Iterator

_VALUE = r"(?:\[[^\]]*\]|\{[^}]*\}|[^,}]*)"


class NotHere(Exception):
    """The plan has no place for this fault."""


class Row:
    def __init__(self, text: str) -> None:
        self.text = text
        self.touched = False

    @property
    def key(self) -> str:
        return self.text.strip().partition(":")[0].strip("- {")

    def value(self, key: str) -> str:
        found = re.search(rf"\b{key}: ({_VALUE})", self.text)
        if found is None:
            raise NotHere(key)
        return found[1].strip()

    def swap(self, pattern: str, new: str) -> "Row":
        """Put `new` for the first match of `pattern`; NotHere where that changes nothing."""
        text = re.sub(pattern, new, self.text, count=1)
        if text == self.text:
            raise NotHere(pattern)
        self.text = text
        return self.touch()

    def set(self, key: str, value: str) -> "Row":
        """Give `key` another value, or add it at the end of the entry."""
        if re.search(rf"\b{key}: ", self.text):
            return self.swap(rf"\b{key}: {_VALUE}", f"{key}: {value}")
        return self.swap(r"\}(\s*(?:#.*)?)$", rf", {key}: {value}}}\1")

    def unset(self, key: str) -> "Row":
        return self.swap(rf", {key}: {_VALUE}", "")

    def touch(self) -> "Row":
        self.touched = True
        return self


class Page:
    def __init__(self, text: str, rng: random.Random) -> None:
        self.rows = [Row(line) for line in text.splitlines()]
        self.rng = rng

    @property
    def text(self) -> str:
        return "\n".join(row.text for row in self.rows) + "\n"

    @property
    def touched(self) -> frozenset[int]:
        return frozenset(number for number, row in enumerate(self.rows, 1) if row.touched)

    def section(self, name: str) -> Iterator[Row]:
        """The rows below a top-level key, or the one that holds it whole."""
        inside = False
        for row in self.rows:
            if row.text[:1] not in (" ", "#", ""):
                inside = row.text.startswith(f"{name}:")
            if inside and row.text.strip() and not row.text.lstrip().startswith("#"):
                yield row

    def having(self, section: str, pattern: str) -> list[Row]:
        return [row for row in self.section(section) if re.search(pattern, row.text)]

    def pick(self, section: str, pattern: str = "") -> Row:
        """Some row of a section that matches; NotHere if none does."""
        rows = [row for row in self.having(section, pattern) if row.text.startswith(" ")]
        if not rows:
            raise NotHere(f"{section}: {pattern}")
        return self.rng.choice(rows)

    def the(self, section: str, key: str) -> Row:
        """The entry of that name."""
        return self.pick(section, rf"^\s+(?:- )?{re.escape(key)}:")

    def whole(self, section: str) -> Row:
        """A section that is written in one row."""
        for row in self.rows:
            if row.text.startswith(f"{section}: {{"):
                return row
        raise NotHere(section)

    def device(self, pattern: str = "") -> Row:
        return self.pick("devices", pattern)

    def link(self, pattern: str = "") -> Row:
        return self.pick("links", pattern)

    def add(self, section: str, text: str) -> Row:
        """A new first row of a section; with the section, at the end, where the plan has none."""
        row = Row(f"  {text}").touch()
        for index, head in enumerate(self.rows):
            if head.text.startswith(f"{section}:"):
                if head.text.rstrip() != f"{section}:":
                    raise NotHere(section)
                self.rows.insert(index + 1, row)
                return row
        self.rows += [Row(f"{section}:"), row]
        return row

    def after(self, row: Row, text: str) -> Row:
        """A new row behind another."""
        new = Row(text).touch()
        self.rows.insert(self.rows.index(row) + 1, new)
        return new

    def drop(self, row: Row) -> None:
        self.rows.remove(row)

    def own_part(self, row: Row, facts: str) -> None:
        """Give the entry a part of the plan's own: what it had, with other facts. Both rows are where the fault is."""
        name = f"seeded-{row.value('part')}"
        like = row.value("part")
        row.set("part", name)
        own = self.having("parts", rf"^  {like}:")
        text = f"  {name}: {{like: {like}, {facts}}}"
        if own:
            self.after(own[0], text)
        else:
            self.add("parts", text.strip())

    def stands(self, name: str) -> Row:
        """The row of a layout on which a device stands, alone or on a shelf; touched."""
        return self.pick("cabinets", rf"^\s+[\d-]+:.*[\s\[]{re.escape(name)}(?:[,\]\s]|$)").touch()
