"""Plans that a stranger could send and that are too large for files: each a name, a maker of its bytes, the rule that must catch it ("" for
none), the exit code. Those small enough to look at are files in `tricks/`.

`LARGE` are large in bytes or in what they ask for. `TOILSOME` are of moderate size, and would keep a careless method busy for minutes.
`HOUSE` is a small sound plan that tricks are put into.
"""

import random
from collections.abc import Callable
from typing import NamedTuple

HOUSE = """\
sites: {home: {rooms: {study: {}}}}
devices:
  router: {part: gateway-1u}
  core: {part: switch-8}
links:
  - {run: [router, core]}
"""
BIG = """\
parts:
  big: {like: switch-24, jacks: {1-1024: {family: rj45, rate: 1 Gb/s}}}
  big-poe:
    like: switch-24-poe
    jacks: {1-1024: {family: rj45, rate: 1 Gb/s}}
    gives-poe: {ports: 1-10, class: 4, budget: 600 W}
"""


class Trick(NamedTuple):
    name: str
    make: Callable[[], bytes]
    rule: str
    code: int = 1


def _devices(text: str) -> str:
    return HOUSE.replace("links:", f"{text}links:")


def _named(name: str) -> str:
    return _devices(f"  {name}: {{part: switch-8}}\n")


def _linked(run: str) -> str:
    return HOUSE + f"  - {{run: {run}}}\n"


def _bomb() -> str:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 12)]
    return "\n".join(lines)


def unknown_names(count: int = 10_000) -> str:
    """Wrong in every reference that a device can make."""
    wrong = "part: switch-8, room: studdy-{0}, vlan: vlam-{0}, power: pover-{0}, plugs-into: [dav-{0}]"
    return _devices("".join(f"  dev-{n}: {{{wrong.format(n)}}}\n" for n in range(count)))


def _unknown_ends() -> str:
    devices = "".join(f"  dev-{n}: {{part: switch-8}}\n" for n in range(10_000))
    return _devices(devices) + "".join(f"  - {{run: [dav-{n}, dev-{n}]}}\n" for n in range(10_000))


def _unknown_keys() -> str:
    return _devices("".join(f"  d-{n}: {{prat: a, rom: b}}\n" for n in range(5_000)))


def _many_jacks() -> str:
    return BIG + _devices("".join(f"  dev-{n}: {{part: big}}\n" for n in range(10_000)))


def _large(name: str, make: Callable[[], str], rule: str, code: int = 1) -> Trick:
    return Trick(name, lambda: make().encode(), rule, code)


LARGE: tuple[Trick, ...] = (
    Trick("brackets-20000-deep", lambda: b"[" * 20_000, "nesting-depth", 2),
    Trick("braces-20000-deep", lambda: b"{a: " * 20_000, "nesting-depth", 2),
    _large("blocks-2000-deep", lambda: "\n".join(" " * n + "a:" for n in range(2000)), "nesting-depth", 2),
    Trick("50-MB", lambda: b"a: b\n" * 10_000_000, "file-size", 2),
    Trick("ten-million-values", lambda: b"links: [" + b"a," * 10_000_000 + b"]", "file-size", 2),
    _large("a-million-keys", lambda: HOUSE + "".join(f"k{n}: a\n" for n in range(1_000_000)), "file-size", 2),
    _large("300000-keys", lambda: HOUSE + "".join(f"k{n}: a\n" for n in range(300_000)), "fault-count"),
    _large("alias-bomb", _bomb, "alias-expansion", 2),
    _large("10000-unknown-names", unknown_names, "name-unknown"),
    _large("10000-unknown-ends", _unknown_ends, "name-unknown"),
    _large("10000-unknown-keys", _unknown_keys, "key-unknown"),
    _large("ten-million-jacks", _many_jacks, "plan-size"),
    _large("a-name-of-a-million-letters", lambda: _named(f"? {'a' * 1_000_000}\n  "), "value-kind"),
    _large("a-text-of-a-million-letters", lambda: HOUSE + "name: " + "b" * 1_000_000, "value-kind"),
    _large("a-hop-of-a-million-letters", lambda: _linked(f"[core, {'c' * 1_000_000}]"), "value-kind"),
    _large("60000-includes", lambda: HOUSE + "include: [" + "a.yaml," * 60_000 + "]", "include"),
    _large("parts-like-one-another", lambda: _parts_in_a_row(5_000), "", 0),
    _large("strips-behind-one-another", lambda: _strips_in_a_row(4_000), "mains-outlets"),
    _large("old-names-in-a-ring", lambda: _old_names_in_a_ring(20_000), ""),
)


def _parts_in_a_row(count: int) -> str:
    last = f"  p{count}: {{like: switch-8}}\n"
    return HOUSE + "parts:\n" + "".join(f"  p{n}: {{like: p{n + 1}}}\n" for n in range(count)) + last


def _strips_in_a_row(count: int) -> str:
    strips = (f"  s{n}: {{part: power-strip-desk-4, power: s{n + 1}}}\n" for n in range(count))
    return _devices("".join(strips) + f"  s{count}: {{part: power-strip-desk-4, power: wall}}\n")


def _old_names_in_a_ring(count: int) -> str:
    return _devices("".join(f"  d{n}: {{part: switch-8, was: d{(n + 1) % count}}}\n" for n in range(count)))


def _rooms(ways: list[str], count: int, partner: Callable[[int], int]) -> str:
    """A switch in each room, wired to that in the partner's."""
    rooms = "".join(f"      r{n}: {{}}\n" for n in range(count))
    devices = "".join(f"  d{n}: {{part: switch-8, room: r{n}}}\n" for n in range(count))
    runs = "".join(f"  - {{run: [d{n}, d{partner(n)}]}}\n" for n in range(count) if partner(n) != n)
    return f"sites:\n  home:\n    rooms:\n{rooms}ways:\n{''.join(ways)}devices:\n{devices}links:\n{runs}"


def _way(number: int, a: int, b: int, metres: int) -> str:
    return f"  w{number}: {{between: [r{a}, r{b}], length: {metres} m, kind: wall}}\n"


def _thousands_of_routes(count: int) -> str:
    """Each room is wired to another one: as many searches as there are rooms, through a tangle of ways."""
    chance = random.Random(1)  # noqa: S311 - repeatable, no secret
    ways = [_way(n, chance.randrange(max(0, n - 50), n), n, chance.randrange(1, 40)) for n in range(1, count)]
    for n in range(count):
        a, b = chance.sample(range(count), 2)
        ways.append(_way(count + n, a, b, chance.randrange(1, 400)))
    return _rooms(ways, count, lambda n: (n * 7 + 13) % count)


def _long_routes(count: int) -> str:
    """Rooms in one row, each wired to its mirror image: routes of a thousand ways."""
    return _rooms([_way(n, n - 1, n, 3) for n in range(1, count)], count, lambda n: count - 1 - n)


def _equal_routes(side: int) -> str:
    """Rooms in a square, all ways alike: more shortest routes than atoms."""
    ways = [_way(n, n, n + 1, 3) for n in range(side * side) if (n + 1) % side]
    ways += [_way(side * side + n, n, n + side, 3) for n in range(side * (side - 1))]
    return _rooms(ways, side * side, lambda n: side * side - 1 - n)


def _on_a_big_switch(count: int, asked: Callable[[int], str], big: str, small: str) -> str:
    devices = "".join(f"  d{n:05}: {{part: {small}, room: study}}\n" for n in range(count))
    runs = "".join(f"  - {{run: [d{n:05}, big{asked(n)}]}}\n" for n in range(count))
    return BIG + _devices(f"  big: {{part: {big}}}\n{devices}") + runs


def _mesh(switches: int, links: int) -> str:
    chance = random.Random(2)  # noqa: S311 - repeatable, no secret
    pairs = [(a, b) for a in range(switches) for b in range(a)]
    chance.shuffle(pairs)
    devices = "".join(f"  s{n}: {{part: big}}\n" for n in range(switches))
    return BIG + _devices(devices) + "".join(f"  - {{run: [s{a}, s{b}]}}\n" for a, b in pairs[:links])


def _ring_with_chords(count: int) -> str:
    runs = [(n, (n + 1) % count) for n in range(count)] + [(n, n + count // 2) for n in range(count // 2)]
    devices = "".join(f"  s{n}: {{part: switch-8}}\n" for n in range(count))
    return _devices(devices) + "".join(f"  - {{run: [s{a}, s{b}]}}\n" for a, b in runs)


def _all_reach_all(count: int) -> str:
    everyone = ", ".join(f"v{n}" for n in range(count))
    return HOUSE + "vlans:\n" + "".join(
        f"  v{n}: {{id: {n + 1}, subnet: 10.{n // 256}.{n % 256}.0/24, reaches: [{everyone}]}}\n"
        for n in range(count)
    )  # fmt: skip


TOILSOME: tuple[Trick, ...] = (
    _large("thousands-of-routes", lambda: _thousands_of_routes(3_000), "plan-size"),
    _large("routes-of-a-thousand-ways", lambda: _long_routes(3_000), "plan-size"),
    _large("routes-all-alike", lambda: _equal_routes(60), "plan-size"),
    _large("11000-links-between-150-switches", lambda: _mesh(150, 11_000), "layer2-loop"),
    _large("a-ring-of-3000-switches", lambda: _ring_with_chords(3_000), "device-cut-off"),
    _large(
        "10000-runs-on-one-switch",
        lambda: _on_a_big_switch(10_000, lambda _: "", "big", "end-device"),
        "jacks-exhausted",
    ),
    _large(
        "runs-that-ask-in-spite-of-others",
        lambda: _on_a_big_switch(1024, lambda n: "/1-512" if n % 2 else "/1-1024", "big", "end-device"),
        "device-cut-off",
    ),
    _large(
        "runs-that-ask-for-less-and-less",
        lambda: _on_a_big_switch(1024, lambda n: f"/1-{1024 - n}" if n < 1023 else "/1", "big", "end-device"),
        "device-cut-off",
    ),
    _large(
        "1000-cameras-and-ten-jacks-with-power",
        lambda: _on_a_big_switch(1000, lambda _: "", "big-poe", "camera"),
        "unpowered",
    ),
    _large("1500-vlans-that-all-reach-all", lambda: _all_reach_all(1_500), "file-size", 2),
)
