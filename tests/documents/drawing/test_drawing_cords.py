"""Every cable in a cabinet is in a row of each of its two jacks: where it goes, its colour in letters and words, its length."""

from dataclasses import replace

import pytest

from documents.drawing.plans_drawn import example
from documents.drawing.reading import SVG, parse, texts
from documents.drawing.sample_build import farm, school
from documents.drawing.sketch import GATEWAY, SMALL_COMPUTER, Sketch, panel, switch
from firstfix.build.model import Build
from firstfix.documents.drawing.cabinet import cabinet_drawings
from firstfix.documents.drawing.cabinet.columns import Space, head_strip, pour, rest_of, strips_of, text_strip
from firstfix.documents.drawing.cabinet.cords import blocks
from firstfix.documents.drawing.cabinet.jack_rows import fit
from firstfix.documents.drawing.cabinet.standing import CLASH, REAR, face_of, standings
from firstfix.documents.drawing.kit.paints import PAINTS
from firstfix.documents.drawing.kit.squares import POWERED, WIRED, Square
from firstfix.documents.drawing.kit.themes import PRINT
from firstfix.documents.drawing.network.wiring import device_of, shown_jack
from firstfix.plan.colours import COLOURS


@pytest.mark.parametrize("build", [farm(), school()], ids=["farm", "school"])
def test_each_end_of_each_cable_in_a_cabinet_has_its_row(build: Build) -> None:
    """Counted from the pieces, not from what the drawing reads: a square and where it goes, once for each end."""
    said = " ".join(drawing.alt for drawing in cabinet_drawings(build))
    for piece in build.pieces.values():
        for end, other in (piece.ends, piece.ends[::-1]):
            device = build.devices[device_of(build, end)]
            if device.cabinet:
                assert f"{build.jacks[end].name} to {shown_jack(build, other)}" in said


def _patched() -> Build:
    sketch = Sketch()
    attic = sketch.room("home", "house", "attic")
    hall = sketch.room("home", "house", "hall")
    riser = sketch.way("riser", attic, hall, 7, "riser")
    cabinet = sketch.cabinet("c", attic, 6)
    for name, part, height in (("gateway", GATEWAY, 6), ("panel", panel(8), 5), ("core", switch(8), 4)):
        sketch.device(name, part, attic, cabinet)
        sketch.mount(cabinet, f"device:{name}", height)
    sketch.device("desk", SMALL_COMPUTER, hall)
    sketch.wire("gateway/1", "core/8")
    sketch.wire("desk", "panel/3", "core/2", lengths=(9.2, 0.5), route=(riser,))
    return sketch.build()


def _rows(build: Build, name: str, is_back: bool = False) -> dict[str, tuple[str, str, str]]:
    cabinet = build.cabinets["cabinet:c"]
    (block,) = blocks(build, cabinet, [("U1", face_of(build, f"device:{name}", is_back))])
    return {row.square.name: (row.to, row.length, row.beyond) for row in block.rows}


def test_a_row_says_both_ends_and_what_is_beyond() -> None:
    build = _patched()
    assert _rows(build, "core") == {"2": ("panel/3", "0.5 m", "desk, hall"), "8": ("gateway/1", "1 m", "")}
    assert _rows(build, "panel") == {"3": ("core/2", "0.5 m", "desk, hall")}
    assert _rows(build, "panel", is_back=True) == {"3": ("desk, hall", "9.2 m", "riser")}


def test_the_ways_of_a_cable_are_in_order_from_the_jack_of_the_row_on() -> None:
    """The first way named begins in the room of the cabinet, whichever end of the run is there."""
    build = example("school")
    seen = 0
    for cabinet in build.cabinets.values():
        faces = [("U1", stand.face) for stand in standings(build, cabinet, REAR) if stand.face]
        for row in (row for block in blocks(build, cabinet, faces) for row in block.rows):
            names = row.beyond.split(", ")
            ways = [way for way in build.ways.values() if way.name == names[0]]
            if len(names) > 1 and ways:
                assert any(cabinet.room in way.ends for way in ways), row
                seen += 1
    assert seen


def test_the_far_end_is_found_whichever_end_a_channel_begins_with() -> None:
    build = _patched()
    turned = replace(
        build,
        channels={id_: each._replace(ends=each.ends[::-1]) for id_, each in build.channels.items()},
    )
    assert _rows(turned, "core") == _rows(build, "core")


def test_colours_have_letters_words_and_a_swatch_and_the_print_without_colour_keeps_the_letters() -> None:
    build = _patched()
    blue = replace(build, pieces={id_: each._replace(colour="blue") for id_, each in build.pieces.items()})
    front = next(drawing for drawing in cabinet_drawings(blue) if drawing.name == "cabinet-c")
    shown = [box.words for box in texts(front.svg)]
    assert shown.count("BU") == 4
    assert "BU blue" in shown
    paint = next(each for each in PAINTS if each.word == "blue")
    fills = [each.get("fill") for each in parse(front.svg).iter(f"{SVG}rect")]
    # A swatch in each row and in the key, and a band on each jack.
    assert fills.count(paint.colour) == 4 + 1 + 4
    plain = replace(front, theme=PRINT)
    assert paint.colour not in plain.svg
    assert [box.words for box in texts(plain.svg)].count("BU") == 4


def test_every_colour_of_the_language_has_letters_of_its_own() -> None:
    assert [paint.word for paint in PAINTS] == list(COLOURS)
    assert len({paint.letters for paint in PAINTS}) == len(PAINTS)
    assert len({paint.role for paint in PAINTS}) == len(PAINTS)


def test_forty_eight_jacks_keep_their_numbers_at_the_usual_scale() -> None:
    """342 pt less the ears: what a panel 482.6 mm wide leaves at 1 : 4, in one unit less its name."""
    names = [*map(str, range(1, 49)), "sfp1", "sfp2", "sfp3", "sfp4"]
    for state in (WIRED, POWERED):
        arranged = fit(tuple(Square(name, state) for name in names), 315.0, 19.2)
        assert arranged.names_fit
        assert [square.name for row in arranged.rows for square in row] == names
        assert arranged.size[0] <= 315.0
        assert arranged.size[1] <= 19.3


def test_a_name_too_wide_for_its_thing_is_not_drawn_over_its_edge() -> None:
    arranged = fit((Square("device", WIRED),), 12.0, 12.0)
    assert arranged.size[0] <= 12.0


def test_what_is_poured_is_all_there_once_and_in_order() -> None:
    groups = [
        [head_strip(f"group {g}"), *(text_strip(f"row {g}.{n}", "") for n in range(9))] for g in range(4)
    ]
    strips = strips_of(groups)
    words: list[str] = []
    index, sheets = 0, 0
    while index < len(strips):
        poured = pour(strips, index, Space(200, 80), is_rest_kept=False)
        assert poured.picture.height <= 80
        words += poured.words
        index, sheets = poured.following, sheets + 1
    assert words == [strip.words for strip in strips]
    assert sheets > 4
    assert [strip.words for group in rest_of(strips, 14) for strip in group if strip.words] == [
        strip.words for strip in strips[14:]
    ]


def test_at_the_rear_front_things_show_their_backs_and_clashes_stay() -> None:
    build = school()
    stands = standings(build, build.cabinets["cabinet:tall"], REAR)
    seen = {stand.face.name: stand for stand in stands if stand.face}
    assert seen["strip-rear"].is_seen
    assert seen["strip-rear"].mark == ""
    assert not seen["strip-front"].is_seen
    assert seen["first"].mark == CLASH
    assert seen["panel-1"].mark == "back"


def test_jacks_at_the_back_of_a_panel_are_mirrored() -> None:
    rear = next(drawing for drawing in cabinet_drawings(_patched()) if drawing.name == "cabinet-c-rear")
    front = next(drawing for drawing in cabinet_drawings(_patched()) if drawing.name == "cabinet-c")
    numbers = [str(number) for number in range(1, 9)]

    def order(svg: str, title: str) -> list[str]:
        group = next(
            each
            for each in parse(svg).iter(f"{SVG}g")
            if (said := each.find(f"{SVG}title")) is not None and (said.text or "").startswith(title)
        )
        found = [each for each in group.iter(f"{SVG}text") if each.text in numbers]
        return [each.text or "" for each in sorted(found, key=lambda each: float(each.attrib["x"]))]

    assert order(front.svg, "panel, Panel") == numbers
    assert order(rear.svg, "panel, 90 mm deep") == numbers[::-1]


def test_the_rear_says_which_cables_enter_by_which_way_and_what_is_not_known() -> None:
    words = next(each.alt for each in cabinet_drawings(_patched()) if each.name == "cabinet-c-rear")
    assert "riser riser: 1 × Installation cable, category 6. panel/3 to desk, hall" in words
    assert "no brush panel in the plan" in words
    assert "parts do not say on which side they are" in words
    assert "nothing is mounted there; the part does not say whether it has any" in words
