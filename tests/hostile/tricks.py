"""Plans that a stranger could send: each a name, the bytes of the file, the rule that must catch it ("" for none), the exit code.

They are made here, since most would not survive an editor. `HOUSE` is a small sound plan that tricks are put into.
"""

from collections.abc import Callable, Iterator
from typing import NamedTuple

HOUSE = """\
sites: {home: {rooms: {study: {}}}}
devices:
  router: {part: gateway-1u}
  core: {part: switch-8}
links:
  - {run: [router, core]}
"""


class Trick(NamedTuple):
    name: str
    make: Callable[[], bytes]
    rule: str
    code: int = 1


def _text(name: str, text: str, rule: str, code: int = 1) -> Trick:
    return Trick(name, text.encode, rule, code)


def _device(text: str) -> str:
    return HOUSE.replace("links:", f"  odd: {text}\nlinks:")


def _named(name: str) -> str:
    return HOUSE.replace("links:", f"  {name}: {{part: switch-8}}\nlinks:")


def _linked(run: str) -> str:
    return HOUSE + f"  - {{run: {run}}}\n"


TEXTS: tuple[Trick, ...] = (
    Trick("empty", lambda: b"", "empty-file"),
    Trick("not-yaml", lambda: b"name: [unclosed\n", "syntax"),
    Trick("latin-1", lambda: "name: Caf\u00e9\n".encode("latin-1"), "encoding"),
    Trick("utf-16", lambda: "name: x\n".encode("utf-16"), "encoding"),
    Trick("utf-16-without-mark", lambda: "name: x\n".encode("utf-16-le"), "syntax"),
    Trick("zero-bytes", lambda: b"\0" * 4096, "syntax"),
    _text("only-comments", "# nothing\n# at all\n", "empty-file"),
    _text("a-list-at-the-top", "- a\n- b\n", "empty-file"),
    _text("a-word-at-the-top", "hello\n", "empty-file"),
    _text("tabs", "devices:\n\tcore: {part: switch-8}\n", "syntax"),
    _text("key-twice", HOUSE + "name: a\nname: b\n", "key-duplicate"),
    _text("key-that-is-a-list", "? [a, b]\n: c\n", "key-form"),
    _text("merge-key", "a: &a {b: c}\nd: {<<: *a}\n", "key-form"),
    _text("second-document", "name: a\n---\nname: b\n", "document-count"),
    _text("tag-that-would-run-code", "name: !!python/object/apply:os.system ['true']\n", "tag"),
    _text("tag-of-our-own", "name: !secret x\n", "tag"),
    _text("alias-of-nothing", "name: *nobody\n", "syntax"),
    _text("alias-inside-itself", "name: &a [*a]\n", "syntax"),
    _text("control-character", 'name: "a\x07b"\n', "syntax"),
)

LARGE: tuple[Trick, ...] = (
    Trick("brackets-20000-deep", lambda: b"[" * 20_000, "syntax", 2),
    Trick("braces-20000-deep", lambda: b"{a: " * 20_000, "nesting-depth", 2),
    Trick(
        "blocks-2000-deep",
        lambda: "\n".join(" " * n + "a:" for n in range(2000)).encode(),
        "nesting-depth",
        2,
    ),
    Trick("50-MB", lambda: b"a: b\n" * 10_000_000, "file-size", 2),
    Trick("ten-million-values", lambda: b"links: [" + b"a," * 10_000_000 + b"]", "file-size", 2),
    Trick("alias-bomb", lambda: _bomb(), "alias-expansion", 2),
    Trick("10000-unknown-names", lambda: _unknown_names(), "name-unknown"),
    Trick("10000-unknown-keys", lambda: _unknown_keys(), "key-unknown"),
    Trick("ten-million-jacks", lambda: _many_jacks(), "plan-size"),
    Trick("a-name-of-a-million-letters", lambda: _named(f"? {'a' * 1_000_000}\n  ").encode(), "value-kind"),
    Trick("a-text-of-a-million-letters", lambda: (HOUSE + "name: " + "b" * 1_000_000).encode(), "value-kind"),
    Trick("a-hop-of-a-million-letters", lambda: _linked(f"[core, {'c' * 1_000_000}]").encode(), "value-kind"),
    Trick("60000-includes", lambda: (HOUSE + "include: [" + "a.yaml," * 60_000 + "]").encode(), "include"),
)


def _bomb() -> bytes:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 12)]
    return "\n".join(lines).encode()


def _unknown_names() -> bytes:
    devices = "".join(f"  dev-{n}: {{part: switch-8}}\n" for n in range(10_000))
    links = "".join(f"  - {{run: [dav-{n}, dev-{n}]}}\n" for n in range(10_000))
    return HOUSE.replace("links:\n", devices + "links:\n" + links).encode()


def _unknown_keys() -> bytes:
    return HOUSE.replace(
        "links:", "".join(f"  d-{n}: {{prat: a, rom: b}}\n" for n in range(5_000)) + "links:"
    ).encode()


def _many_jacks() -> bytes:
    part = "parts: {big: {like: switch-24, jacks: {1-1024: {family: rj45, rate: 1 Gb/s}}}}\n"
    devices = "".join(f"  dev-{n}: {{part: big}}\n" for n in range(10_000))
    return (part + HOUSE.replace("links:", devices + "links:")).encode()


VALUES: tuple[Trick, ...] = (
    _text("huge-number", _device("{part: switch-8, drop: 99999999999999999999999 m}"), "quantity"),
    _text("not-a-number", _device("{part: switch-8, drop: .nan}"), "quantity"),
    _text("infinite", _device("{part: switch-8, drop: .inf}"), "quantity"),
    _text("digits-of-another-script", _device("{part: switch-8, drop: \u0664\u0661 m}"), "quantity"),
    _text("power-of-ten", _device("{part: switch-8, drop: 1e3 m}"), "quantity"),
    _text("negative", _device("{part: switch-8, drop: -3 m}"), "quantity"),
    _text("superscript-host", HOUSE + "vlans: {a: {id: 3, subnet: 10.0.0.0/24, gateway: \u00b2}}\n", "address-form"),
    _text("scope-in-a-subnet", HOUSE + "vlans: {a: {id: 3, subnet: 'fe80::%<b>/64'}}\n", "subnet-form"),
    _text("scope-in-an-address", HOUSE + "vlans: {a: {id: 3, subnet: 'fd00::/64', gateway: 'fd00::1%=x'}}\n", "address-form"),
    _text("name-that-climbs", _named("../../x"), "name-form"),
    _text("name-that-is-a-formula", _named('"=cmd()"'), "name-form"),
    _text("name-that-is-markup", _named('"<script>alert(1)</script>"'), "name-form"),
    _text("name-that-is-a-template", _named('"{{ 7*7 }}"'), "name-form"),
    _text("name-with-a-newline", _named('"a\\nb"'), "name-form"),
    _text("name-with-an-escape", _named('"a\\eb"'), "name-form"),
    _text("include-that-climbs", HOUSE + "include: ../other.yaml\n", "include"),
    _text("include-that-is-absolute", HOUSE + "include: /etc/passwd\n", "include"),
    _text("include-of-itself", HOUSE + "include: plan.yaml\n", "include"),
    _text("include-with-a-zero", HOUSE + 'include: "a\\0b"\n', "include"),
    _text("include-of-nothing", HOUSE + "include: nobody.yaml\n", "include"),
    _text("include-of-a-table", HOUSE + "include: {a: b}\n", "include"),
)  # fmt: skip


def networks() -> Iterator[Trick]:
    """Odd wirings: none may end in anything but findings."""
    tail = HOUSE.replace(
        "links:", "  tail: {part: computer-desktop}\n  pan: {part: keystone-panel-24-1u}\nlinks:"
    )
    yield _text(
        "a-panel-twice-in-one-run", tail + "  - {run: [tail, pan/1, pan/2, core]}\n", "jack-used-twice"
    )
    yield _text(
        "a-jack-twice-in-one-run", tail + "  - {run: [tail, pan/1, pan/1, core]}\n", "jack-used-twice"
    )
    yield _text("a-device-to-itself", _linked("[core, core]"), "layer2-loop")
    yield _text("a-jack-to-itself", _linked("[core/3, core/3]"), "jack-used-twice")
    yield _text("lanes-on-one-jack", tail + "  - {run: [tail, core], lanes: 4}\n", "jacks-exhausted")
    yield _text("a-range-the-wrong-way-round", _linked("[core/8-3, router]"), "value-kind")
    yield _text("a-range-beyond-the-jacks", _linked("[core/3-99, router]"), "name-unknown")
    yield _text("a-run-of-one", _linked("[core]"), "value-kind")
    yield _text("a-run-of-hundreds", _linked("[" + "core, " * 300 + "core]"), "value-kind")
    ring = "".join(f"  in-{n}: {{part: injector-class-3}}\n" for n in range(3))
    around = "".join(f"  - {{run: [in-{n}/out, in-{(n + 1) % 3}/data]}}\n" for n in range(3))
    yield _text("a-ring-of-injectors", HOUSE.replace("links:", ring + "links:") + around, "")
    fed = "".join(f"  fed-{n}: {{part: switch-5-poe-fed}}\n" for n in range(3))
    around = "".join(f"  - {{run: [fed-{n}/1, fed-{(n + 1) % 3}/in]}}\n" for n in range(3))
    yield _text(
        "switches-that-feed-each-other", HOUSE.replace("links:", fed + "links:") + around, "power-ring"
    )
