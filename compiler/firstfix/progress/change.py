"""A progress file's text with records put in, replaced or taken out; all else stays to the letter.

Edits are by the places that the reader gives, never by writing the file anew, so that comments, order and
layout are the author's. What is written is read again: if it doesn't say exactly what it should, nothing
is changed.
"""

from collections.abc import Iterable

from firstfix.finding.collector import Collector
from firstfix.progress.edits import CannotChangeError, Change, Edit, Editor, entries_of, says_only_done
from firstfix.source.load import holds_nothing
from firstfix.source.node import Mapping as Table
from firstfix.source.node import Node, Scalar, is_null
from firstfix.source.reader import parse

__all__ = ("CannotChangeError", "Change", "changed")
Plain = dict[str, dict[str, dict[str, str]]]


def changed(text: str, changes: Iterable[Change]) -> str:
    """`text` with `changes` made, each record at most once. Raises CannotChangeError."""
    wanted = tuple(changes)
    root = _table(text)
    expected = _expected(_plain(root), wanted)
    edits = sorted(Editor(text, root).edits(wanted), key=lambda edit: edit.start)
    made = _with_edits(text, edits)
    try:
        came_out = _plain(_table(made))
    except CannotChangeError:
        raise CannotChangeError("its layout leaves no safe place for it") from None
    if came_out != expected:
        raise CannotChangeError("its layout leaves no safe place for it")
    return made


def _table(text: str) -> Table | None:
    if holds_nothing(text.encode()):
        return None
    faults = Collector()
    root = parse(text.encode(), "", faults)
    if faults.findings or not isinstance(root, Table):
        raise CannotChangeError("it cannot be read as it is")
    return root


def _plain(root: Table | None) -> Plain:
    """Sections, their records, their values as text; what a record says by a single value stands under ""."""
    sections = {} if root is None else root.entries
    return {
        section: {name: _record(value) for name, (_, value) in entries_of(node).items()}
        if isinstance(node, Table) or is_null(node)
        else {"": {"": _words(node)}}
        for section, (_, node) in sections.items()
    }


def _record(node: Node) -> dict[str, str]:
    if isinstance(node, Table):
        return {key: _words(value) for key, (_, value) in node.entries.items()}
    return {} if says_only_done(node) else {"": _words(node)}


def _words(node: Node) -> str:
    """A value as text: enough to tell whether it is still the same."""
    if isinstance(node, Table):
        return repr([(key, _words(value)) for key, (_, value) in node.entries.items()])
    if isinstance(node, Scalar):
        return node.text
    return repr([_words(each) for each in getattr(node, "items", ())])


def _expected(before: Plain, changes: Iterable[Change]) -> Plain:
    for change in changes:
        section = before.setdefault(change.section, {})
        if change.values is None:
            section.pop(change.name, None)
            continue
        record = section.setdefault(change.name, {})
        date = record.pop("", "")
        if date:
            record["on"] = date
        record.update(change.values)
    return before


def _with_edits(text: str, edits: Iterable[Edit]) -> str:
    parts: list[str] = []
    position = 0
    for edit in edits:
        if edit.start < position:
            raise CannotChangeError("its layout leaves no safe place for it")
        parts += [text[position : edit.start], edit.text]
        position = edit.end
    return "".join([*parts, text[position:]])
