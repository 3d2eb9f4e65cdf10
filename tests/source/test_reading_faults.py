"""Each fault of a file's text, at its place, in its words."""

import pytest

from firstfix.finding.collector import MOST_FAULTS, Collector
from firstfix.source.fields import Fields
from firstfix.source.node import Mapping
from firstfix.source.reader import parse

CASES = (
    (b"", "1:1 empty-file: the file is empty"),
    (b"a: [b\n", "1:4 syntax: this bracket '[' is never closed; write ']' at the end of its entry"),
    (b"a: [b-{1..4}, c]\n", "1:7 syntax: within brackets, YAML takes these braces for a table of their own; write the series without them: cam-1..4"),
    (b"a: {b-{1..4}: {}}\n", "1:7 syntax: within brackets, YAML takes these braces for a table of their own; write the series without them: cam-1..4"),
    (b"a: caf\xe9\n", "1:7 encoding: the byte 0xe9 is not UTF-8 text; save the file as UTF-8"),
    (b"x: 1\na: \xc3\xa9\xff\n", "2:5 encoding: the byte 0xff is not UTF-8 text; save the file as UTF-8"),
    (b"a:\n\tb: c\n", "2:1 syntax: a tab stands here; YAML is indented with spaces only"),
    (b"a: b\na: c\n", "2:1 key-duplicate: the key 'a' stands twice in this table"),
    (b"a: !x b\n", "1:4 tag: the tag !x stands here; a plan has none: put a text that begins with '!' in quotes"),
    (b"[a]: b\n", "1:1 key-form: a list or table stands where a key belongs"),
    (b"?\n: b\n", "1:2 key-form: a key is missing before this colon"),
    (b"a: &a {b: c}\nd:\n  <<: *a\n", "3:3 key-form: the merge key '<<' belongs to YAML 1.1; use `defaults:` or write the keys out"),
    (b"a: b\n---\nc: d\n", "2:1 document-count: a second document begins here; remove this line"),
    (b"a: *b\n", "1:4 syntax: the alias *b has no anchor above it; put a text that begins with '*' in quotes"),
    (b"a: &a [*a]\n", "1:8 syntax: the alias *a stands inside its own anchor"),
    (b"a: b: c\n", "1:4 syntax: a second colon stands in this text; put the text in quotes"),
    (b"a: 'b\n", "1:4 syntax: this quote is opened and never closed"),
    (b"a: @b\n", "1:4 syntax: no text can begin with '@'; put it in quotes"),
    (b"a: " + b"[" * 65 + b"]" * 65, "1:67 nesting-depth: values nest deeper than 64 levels here"),
)  # fmt: skip


@pytest.mark.parametrize(("data", "said"), CASES, ids=range(len(CASES)))
def test_fault_is_named_at_its_place(data: bytes, said: str) -> None:
    faults = Collector()
    parse(data, "plan.yaml", faults)
    first = faults.findings[0]
    assert str(first.primary).removeprefix("plan.yaml:") + f" {first.rule}: {first.message}" == said


def test_a_byte_order_mark_is_no_fault() -> None:
    faults = Collector()
    assert isinstance(parse(b"\xef\xbb\xbfa: b\n", "plan.yaml", faults), Mapping)
    assert faults.findings == []


def test_only_so_many_names_are_compared(monkeypatch: pytest.MonkeyPatch) -> None:
    """Comparing is slow, so that a stranger's plan must not be able to ask for it at will."""
    import firstfix.source.unknown_keys as unknown_keys

    asked: list[str] = []
    monkeypatch.setattr(unknown_keys, "nearest", lambda name, _: asked.append(name))
    faults = Collector()
    tree = parse("".join(f"wrong-{n}: a\n" for n in range(1000)).encode(), "plan.yaml", faults)
    assert tree is not None
    Fields(tree, faults, "a plan", ("name",))
    assert len(faults.findings) == MOST_FAULTS
    assert faults.dropped == 1000 - MOST_FAULTS
    assert 0 < len(asked) < 50
