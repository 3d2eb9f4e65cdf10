"""Each key of a part, and what becomes of it."""

from typing import Any

import pytest

from firstfix.parts.facts import AUTHOR, MEASURED, NOT_SAID, Fact, Unknown, exactly
from firstfix.parts.forms import (
    Battery,
    CabinetForm,
    Cooling,
    CoverForm,
    EarthLead,
    Exposure,
    FastenerForm,
    LowVoltage,
    Optics,
    PathwayForm,
    ShelfForm,
    Size,
    SurgeForm,
)  # fmt: skip
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
    ("mains", "mains: {inlet: unknown}", "mains", Mains("", 0)),
    ("mains", "mains: {inlet: coupler, inlets: 2, shape: C14, leakage: 0.8 mA, sockets: C13, current: 10 A, "
     "protection: breaker, surge: true}", "mains",
     Mains("coupler", 0, NOT_SAID, 2, "C14", "C13", said(10.0), "breaker", said(0.0008), NOT_SAID, True)),
    ("mains", "mains: {inlet: adaptor, shape: unknown, blocks: 2}", "mains",
     Mains("adaptor", 0, blocks=said(2))),
    ("takes-poe", f"{{{FOUR}, takes-poe: {{class: 6, pairs: 4}}}}", "takes_poe", TakesPoe(("1",), said(6), said(4))),
    ("gives-poe", f"{{{FOUR}, gives-poe: {{jacks: 1, type: 3, pairs: 4, jack-limit: 60 W, counts: unknown}}}}",
     "gives_poe", GivesPoe(("1",), NOT_SAID, NOT_SAID, (), NOT_SAID, NOT_SAID, said(3), said(4), said(60.0))),
    ("front-depth", "{height: 1U, front-depth: 50 mm, plug-space: 60 mm, ears: included}", "rack",
     RackForm(1, "full", NOT_SAID, said(0.05), said(0.06), "included")),
    ("plug-space", "plug-space: unknown", "rack", RackForm(0, "none", NOT_SAID)),
    ("ears", "{height: 1U, ears: bought apart}", "rack",
     RackForm(1, "full", NOT_SAID, NOT_SAID, NOT_SAID, "bought apart")),
    ("exposure", "exposure: {place: outdoor, uv: true, ingress: IP66, coldest: -30 °C, warmest: 131 °F}", "exposure",
     Exposure("outdoor", True, "IP66", said(-30.0), said(55.0))),
    ("exposure", "exposure: {place: unknown, ingress: unknown, coldest: unknown}", "exposure", Exposure()),
    ("cooling", "cooling: {by: passive, above: 1 in, below: 0 mm}", "cooling",
     Cooling("passive", said(0.0254), said(0.0))),
    ("size", "size: {width: 160 mm, height: 28 mm}", "size", Size(said(0.16), said(0.028))),
    ("cabinet", "cabinet: {mounting: wall, front: glass door, load: 60 kg, before-rails: 60 mm, swing: 520 mm, "
     "clear-width: 450 mm}", "cabinet",
     CabinetForm("wall", "glass door", said(60.0), said(0.06), said(0.52), said(0.45))),
    ("shelf", "shelf: {load: 12 kg, clear-width: 430 mm, tie-slots: true}", "shelf",
     ShelfForm(said(12.0), said(0.43), True)),
    ("cover", "cover: {form: hinged, clear-under: 60 mm, swing: 45 mm, screw-head: 5 mm}", "cover",
     CoverForm("hinged", said(0.06), said(0.045), said(0.005))),
    ("fastener", "fastener: {form: clip stud, head: stud, head-height: 14 mm, length: 16 mm}", "fastener",
     FastenerForm("clip stud", "stud", said(0.014), said(0.016))),
    ("optics", "optics: {wavelength: 850 nm, sends: -9.5 dBm, reads: -17 dBm}", "optics",
     Optics(said(850.0), said(-9.5), said(-17.0))),
    ("battery", "battery: {apparent: 0.6 kVA, energy: 84 Wh, lasts: {300 W: 3 min, 100 W: 20 min}}", "battery",
     Battery(said(600.0), said(84.0), ((100.0, 1200.0), (300.0, 180.0)))),
    ("surge", f"{{{AB}, surge: {{line: a, guarded: b, earth: lead, poe-class: 4}}}}", "surge",
     SurgeForm("a", "b", "lead", said(4))),
    ("low-voltage", "low-voltage: {voltage: 12 V, power: 10 W, efficiency: 0.85}", "gives_low_voltage",
     LowVoltage(said(12.0), said(10.0), said(0.85))),
    ("pathway", "pathway: {form: conduit, inside: 21 mm, outside: 25 mm, length: 3 m, clamps: unknown}", "pathway",
     PathwayForm("conduit", said(0.021), said(0.025), said(3.0))),
    ("earth", "earth: {area: 6 mm², length: 1 m}", "earth", EarthLead(said(6.0), said(1.0))),
    ("screened", "screened: false", "screened", False),
    ("wire", "wire: solid", "wire", "solid"),
    ("spacing", "spacing: 0.5 m", "spacing", said(0.5)),
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
    ("cable",
     "cable: {medium: mains, gauge: unknown, bend: 30 mm, bend-pulling: 50 mm, fire-class: Eca, plug-length: 55 mm, "
     "ends: [local, C13], current: 10 A, reels: 100 m}", "cable",
     CableForm("mains", "", NOT_SAID, False, False, "copper", "indoor", (), "mains", NOT_SAID, said(0.03), said(0.05),
               "Eca", said(0.055), 0, (100.0,), ("local", "C13"), said(10.0))),
    ("cable", "cable: {medium: fibre, fibres: 4}", "cable",
     CableForm("fibre", "", NOT_SAID, False, False, "glass", "indoor", (), "lc", fibres=4)),
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


def test_a_table_is_laid_over_what_the_part_is_like() -> None:
    parts, faults = read(
        "p: {kind: switch, jacks: {1-4: rj45}, gives-poe: {jacks: 1-2, class: 4, budget: 60 W, counts: draw}, "
        "mains: {inlet: plug, outlets: 4, rating: 100 W}, cable: {medium: copper, category: 6, gauge: 23}, "
        "exposure: {place: indoor, coldest: 0 °C}, takes-poe: {jacks: 3, class: 4}}\n"
        "q: {like: p, gives-poe: {budget: 45 W}, mains: {rating: 90 W}, cable: {gauge: 24}, "
        "exposure: {coldest: -10 °C}, takes-poe: {class: 3}}\n"
        "r: {like: q, mains: {inlet: coupler}, cable: {medium: fibre}}\n"
    )
    assert faults == []
    q, r = parts["q"], parts["r"]
    assert q.gives_poe == GivesPoe(("1", "2"), said(4), said(45.0), (), "draw", NOT_SAID)
    assert (q.mains, q.takes_poe) == (Mains("plug", 4, said(90.0)), TakesPoe(("3",), said(3)))
    assert q.cable is not None
    assert (q.cable.category, q.cable.gauge_awg) == ("6", said(24))
    assert q.exposure == Exposure("indoor", NOT_SAID, NOT_SAID, said(-10.0))
    assert (r.mains, r.cable) == (
        Mains("coupler", 0),
        CableForm("fibre", "", NOT_SAID, False, False, "glass", "indoor", (), "lc"),
    )


def test_what_is_put_between_rails_has_lost_its_own_size() -> None:
    model = "p: {kind: switch, size: {width: 160 mm, height: 28 mm}, depth: 100 mm}\n"
    assert one(model + "q: {like: p, height: 1U}\n").size is None
    assert one(model + "q: {like: p, title: Two}\n").size == Size(said(0.16), said(0.028))


@pytest.mark.parametrize(
    ("depth", "plugs", "together"),
    [("200 mm", "60 mm", 0.26), ("unknown", "60 mm", None), ("200 mm", "unknown", None)],
)
def test_depth_with_plugs(depth: str, plugs: str, together: float | None) -> None:
    rack = one(f"p: {{kind: switch, height: 1U, depth: {depth}, plug-space: {plugs}}}\n").rack
    assert rack is not None
    assert rack.depth_with_plugs == together


def test_light_left_for_the_fibre() -> None:
    """1000BASE-SX: 7.5 dB (IEEE Std 802.3-2018, Clause 38, Table 38-5, from memory)."""
    assert Optics(said(850.0), said(-9.5), said(-17.0)).budget_db == 7.5
    assert Optics(said(850.0), NOT_SAID, said(-17.0)).budget_db is None
    assert Optics(said(850.0), said(-9.5), NOT_SAID).budget_db is None


def test_key_without_a_value_leaves_what_it_is_like() -> None:
    parts, faults = read(
        "p: {kind: switch, jacks: {1-4: rj45}, draw: 9 W}\nq:\n  like: p\n  jacks:\n  draw: ~\n"
    )
    assert faults == []
    assert (parts["q"].jacks, parts["q"].draw) == (parts["p"].jacks, parts["p"].draw)


def test_the_authors_own_keys_are_not_read() -> None:
    parts, faults = read("x-mine: 3\np: {kind: switch, x-bought: yesterday}\n")
    assert (list(parts), faults) == (["p"], [])
