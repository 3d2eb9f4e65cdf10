"""One table of keys over another: what an entry says itself counts, what it leaves out comes from the table below."""

from firstfix.source.node import Mapping, Node, Scalar, is_null


def overlaid(own: Node, below: Node, further: dict[str, tuple[Scalar, Node]] | None = None) -> Node:
    """`own` with the entries of `below` that it lacks, and `further` over both. It stands where `own` stands.

    Every entry keeps its own place in the file, so that a message about it points there. What is no table stays as it is.
    """
    if not isinstance(below, Mapping) or not (isinstance(own, Mapping) or is_null(own)):
        return own
    made = Mapping(own.file, own.line, own.column)
    made.end_line, made.end_column = own.end_line, own.end_column
    entries = own.entries if isinstance(own, Mapping) else {}
    made.entries = {**below.entries, **entries, **(further or {})}
    return made
