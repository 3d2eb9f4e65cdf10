"""Each key of a part, and what becomes of it."""

from typing import Any

import pytest

from firstfix.parts.facts import AUTHOR, MEASURED, NOT_SAID, Fact, Unknown, exactly
from firstfix.parts.part import CableForm, GivesPoe, JackSpec, Mains, Outside, Pass, RackForm, TakesPoe
from firstfix.parts.read import PART_KEYS
from firstfix.parts.read_jacks import PASSIVE
from parts.reading import one, read


def said(value: float) -> Fact:
    return exactly(value, AUTHOR)


AB = "jacks: {a: rj45, b: rj45}"
FOUR = "jacks: {1-4: rj45}"

# The key that is meant, the body of a part of kind switch, the attribute, and its value.
VALUES: list[tuple[str, str, str, Any]] = [
    ("kind", "kind: camera", "kind", "camera"),
    ("title", "title: A thing", "title", "A thing"),
    ("title", "title: 12", "title", "12"),
    ("note", "note: no", "note", "no"),
    ("basis", "basis: measured", "basis", MEASURED),
    ("basis", "{basis: measured, weight: 2 kg}", "weight", exactly(2.0, MEASURED)),
    ("height", "{height: 2U, depth: 25 cm}", "rack", RackForm(2, "full", said(0.25))),
    ("width", "{height: 1U, width: half}", "rack", RackForm(1, "half", NOT_SAID)),
    ("depth", "depth: 110 mm", "rack", RackForm(0, "none", said(0.11))),
    ("weight", "weight: 450 g", "weight", said(0.45)),
    ("weight", "weight: unknown", "weight", NOT_SAID),
    ("draw", "draw: 8 W", "draw", said(8.0)),
    ("draw", "draw: {least: 3 W, typical: 5 W, most: 8 W}", "draw", Fact(3.0, 5.0, 8.0, AUTHOR)),
    ("draw", "draw: {typical: 5 W, most: 8 W}", "draw", Fact(5.0, 5.0, 8.0, AUTHOR)),
    ("draw", "draw: {least: 3 W, most: 8 W}", "draw", Fact(3.0, 8.0, 8.0, AUTHOR)),
    ("draw", "draw: {typical: 0 W, most: 8 W}", "draw", Fact(0.0, 0.0, 8.0, AUTHOR)),
    ("draw", "draw: {most: 8 W, basis: measured}", "draw", exactly(8.0, MEASURED)),
    ("price", "price: 12.5", "price", said(12.5)),
    ("price", "price: unknown", "price", NOT_SAID),
    ("jacks", "jacks: {1-2: rj45}", "jacks", (JackSpec("1", "rj45", PASSIVE), JackSpec("2", "rj45",
     PASSIVE))),
    ("jacks", "jacks: {sfp1: {family: sfp-plus, rate: 10 Gb/s}}", "jacks",
     (JackSpec("sfp1", "sfp-plus", said(10_000.0)),)),
    ("jacks", "jacks: {1: {family: rj45}}", "jacks", (JackSpec("1", "rj45", NOT_SAID),)),
    ("jacks", "jacks: {1: {family: rj45, rate: unknown}}", "jacks", (JackSpec("1", "rj45", NOT_SAID),)),
    ("openings", "openings: {1: keystone}", "jacks", (JackSpec("1", "rj45", PASSIVE, "keystone"),)),
    ("passes", f"{{{AB}, passes: {{a: {{to: b, power: passes}}}}}}", "passes", (Pass("a", "b", "passes"),)),
    ("takes-poe", f"{{{FOUR}, takes-poe: {{class: 3}}}}", "takes_poe", TakesPoe(("1",), said(3))),
    ("takes-poe", f"{{{FOUR}, takes-poe: {{jacks: 2, class: unknown}}}}", "takes_poe",
     TakesPoe(("2",), NOT_SAID)),
    ("gives-poe",
     f"{{{FOUR}, gives-poe: {{jacks: [1-2, 4], class: 4, budget: 65 W, counts: draw, efficiency: 0.9}}}}",
     "gives_poe", GivesPoe(("1", "2", "4"), said(4), said(65.0), (), "draw", said(0.9))),
    ("gives-poe", f"{{{FOUR}, gives-poe: {{jacks: 1, when-fed: {{6: 38 W, 4: 14 W}}}}}}", "gives_poe",
     GivesPoe(("1",), NOT_SAID, NOT_SAID, ((4, 14.0), (6, 38.0)), NOT_SAID, NOT_SAID)),
    ("mains", "mains: {inlet: plug, outlets: 8, rating: 2.3 kW}", "mains", Mains("plug", 8, said(2300.0))),
    ("mains", "mains: {inlet: none}", "mains", Mains("", 0)),
    ("bridges", "bridges: true", "bridges", True),
    ("spanning-tree", "spanning-tree: unknown", "spanning_tree", NOT_SAID),
    ("vlan-aware", "vlan-aware: false", "vlan_aware", False),
    ("routes", "routes: true", "routes", True),
    ("cable",
     "cable: {medium: copper, category: 6a, gauge: 26, stranded: true, screened: true, rating: outdoor, "
     "lengths: [2 m, 500 mm], diameter: 6 mm}", "cable",
     CableForm("copper", "6a", said(26), True, True, "copper", "outdoor", (0.5, 2.0), "rj45", said(0.006))),
    ("cable", "cable: {medium: fibre, category: os2}", "cable",
     CableForm("fibre", "os2", NOT_SAID, False, False, "glass", "indoor", (), "lc", NOT_SAID)),
    ("cable", "cable: {medium: twinax, lengths: 3 m}", "cable",
     CableForm("twinax", "", NOT_SAID, False, False, "copper", "indoor", (3.0,), "sfp-plus", NOT_SAID)),
    ("fits", "fits: keystone", "fits", "keystone"),
    ("category", "category: 6", "category", "6"),
    ("usable-depth", "usable-depth: 400 mm", "usable_depth", said(0.4)),
    ("outside", "outside: {width: 600 mm, depth: 50 cm}", "outside", Outside(said(0.6), NOT_SAID, said(0.5))),
    ("rails", "rails: square holes", "rails", "square holes"),
    ("thread", "thread: 10-32", "thread", "10-32"),
    ("fixings", "fixings: 4", "fixings", 4),
    ("pack", "pack: 50", "pack", 50),
    ("in-box", "in-box: {power-cord-c13: 1, cage-nut-set-m6: 0}", "in_box", (("power-cord-c13", 1),)),
    ("needs", "needs: {wall-box: 2}", "needs", (("wall-box", 2),)),
]  # fmt: skip


def _body(body: str) -> str:
    inner = body[1:-1] if body.startswith("{") else body
    return inner if inner.startswith("kind:") else f"kind: switch, {inner}"


@pytest.mark.parametrize(("key", "body", "attribute", "value"), VALUES)
def test_value(key: str, body: str, attribute: str, value: object) -> None:
    part = one(f"p: {{{_body(body)}}}\n")
    assert getattr(part, attribute) == value


def test_each_key_is_seen_in_use() -> None:
    assert set(PART_KEYS) - {"like"} - {key for key, _, _, _ in VALUES} == set()


def test_left_out_is_unknown_and_not_zero() -> None:
    part = one("p: {kind: switch}\n")
    assert (part.weight, part.draw, part.price, part.usable_depth) == (NOT_SAID, NOT_SAID, NOT_SAID, NOT_SAID)
    assert (part.rack, part.takes_poe, part.gives_poe, part.cable, part.outside) == (
        None,
        None,
        None,
        None,
        None,
    )
    assert isinstance(part.mains.rating, Unknown)
    assert part.title == "p"


def test_cabinet_takes_height_and_width_as_its_own() -> None:
    part = one("p: {kind: cabinet, height: 8U, width: half}\nq: {like: p, height: 9U}\n")
    assert (part.units, part.rail_width, part.rack) == (9, "half", None)
    assert one("p: {kind: cabinet, height: 8U}\n").rail_width == "full"


def test_like_takes_what_is_not_said_anew() -> None:
    parts, faults = read(
        "p: {kind: switch, title: One, height: 1U, depth: 200 mm, draw: 9 W, jacks: {1-4: rj45}}\n"
        "q: {like: p, depth: 230 mm, basis: data sheet}\n"
        "r: {like: q, kind: gateway, title: Three}\n"
    )
    assert faults == []
    q, r = parts["q"], parts["r"]
    assert (q.kind, q.like, q.title, q.basis) == ("switch", "p", "q", "data sheet")
    assert q.rack == RackForm(1, "full", exactly(0.23, "data sheet"))
    assert (q.draw, q.jacks) == (said(9.0), parts["p"].jacks)
    assert (r.kind, r.like, r.title, r.basis) == ("gateway", "q", "Three", AUTHOR)


def test_like_may_point_to_the_library_and_a_plan_may_change_what_it_points_to() -> None:
    known = {"shelf": one("shelf: {kind: shelf, weight: 2 kg}\n")}
    assert one("mine: {like: shelf, price: 3}\n", known).weight == said(2.0)
    assert one("shelf: {like: shelf, weight: 5 kg}\nmine: {like: shelf}\n", known).weight == said(5.0)


def test_key_without_a_value_leaves_what_it_is_like() -> None:
    parts, faults = read(
        "p: {kind: switch, jacks: {1-4: rj45}, draw: 9 W}\nq:\n  like: p\n  jacks:\n  draw: ~\n"
    )
    assert faults == []
    assert (parts["q"].jacks, parts["q"].draw) == (parts["p"].jacks, parts["p"].draw)


def test_the_authors_own_keys_are_not_read() -> None:
    parts, faults = read("x-mine: 3\np: {kind: switch, x-bought: yesterday}\n")
    assert (list(parts), faults) == (["p"], [])
