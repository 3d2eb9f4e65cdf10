"""The tree that a plan file is read into. A node knows where it stands; a scalar keeps its text, untyped."""

from firstfix.span import Span


class Node:
    """What all nodes share: their place. Plain slots, for a large plan has half a million of them."""

    __slots__ = ("column", "end_column", "end_line", "file", "line")

    def __init__(self, file: str, line: int, column: int, end_line: int, end_column: int) -> None:
        self.file = file
        self.line = line
        self.column = column
        self.end_line = end_line
        self.end_column = end_column

    @property
    def span(self) -> Span:
        return Span(self.file, self.line, self.column, self.end_line, self.end_column)


class Scalar(Node):
    """A single value as written. `plain` is false where the author quoted it."""

    __slots__ = ("plain", "text")

    def __init__(
        self, file: str, line: int, column: int, end_line: int, end_column: int, text: str, plain: bool
    ) -> None:
        self.file = file
        self.line = line
        self.column = column
        self.end_line = end_line
        self.end_column = end_column
        self.text = text
        self.plain = plain

    def saying(self, text: str) -> "Scalar":
        """The same place with another text: a part of what stands there, read by itself."""
        return Scalar(self.file, self.line, self.column, self.end_line, self.end_column, text, self.plain)


class Sequence(Node):
    __slots__ = ("items",)

    def __init__(self, file: str, line: int, column: int) -> None:
        super().__init__(file, line, column, line, column)
        self.items: list[Node] = []

    def holding(self, items: list[Node]) -> "Sequence":
        """The same place with other items."""
        made = Sequence(self.file, self.line, self.column)
        made.end_line, made.end_column = self.end_line, self.end_column
        made.items = items
        return made


class Mapping(Node):
    """Keys in the author's order. `entries` gives for each key's text the key's node and the value."""

    __slots__ = ("entries",)

    def __init__(self, file: str, line: int, column: int) -> None:
        super().__init__(file, line, column, line, column)
        self.entries: dict[str, tuple[Scalar, Node]] = {}

    def value(self, key: str) -> Node | None:
        entry = self.entries.get(key)
        return None if entry is None else entry[1]

    def holding(self, entries: dict[str, tuple[Scalar, Node]]) -> "Mapping":
        """The same place with other entries."""
        made = Mapping(self.file, self.line, self.column)
        made.end_line, made.end_column = self.end_line, self.end_column
        made.entries = entries
        return made


def describe(node: Node) -> str:
    """What a node is, in words for a message."""
    if isinstance(node, Mapping):
        return "a table of keys and values"
    if isinstance(node, Sequence):
        return "a list"
    assert isinstance(node, Scalar)
    return "nothing" if is_null(node) else f"'{clip(node.text)}'"


def is_null(node: Node) -> bool:
    """YAML 1.2 core schema, section 10.3.2: what is read as null."""
    return isinstance(node, Scalar) and node.plain and node.text in ("", "~", "null", "Null", "NULL")


def clip(text: str, limit: int = 60) -> str:
    """`text` fit for one line of a message: control characters shown as escapes, cut at `limit` characters."""
    if len(text) <= limit and text.isprintable():
        return text
    shown = "".join(c if c.isprintable() else f"\\x{ord(c):02x}" for c in text[: limit + 1])
    return shown if len(text) <= limit else shown[:limit] + "…"
