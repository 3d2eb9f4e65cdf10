"""One run from end to end: everything that the channel passes stands on the strip, in order, and lengths and losses add up."""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest

from documents.drawing.reading import everything_said, overlapping, texts
from documents.drawing.sample_build import farm
from documents.drawing.sketch import Sketch, switch
from firstfix.build.cabling import Channel
from firstfix.build.model import Build
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.network.around import around_drawings
from firstfix.documents.drawing.run import run_drawings
from firstfix.documents.drawing.run.stops import stops
from firstfix.documents.drawing.set import dressed
from firstfix.graphs.administration import identifiers
from firstfix.parts.facts import Fact
from firstfix.pipeline import compile_plan
from proof.faults import CHECKS
from proof.hostile_names import TEXTS, plan_of_long_names, plan_with
from proof.reading import read
from proof.sheets import PLANS

_FARM = farm()


@pytest.fixture(scope="module", params=["honey-farm", "rowing-club"])
def plan(request: pytest.FixtureRequest) -> Build:
    build = compile_plan(PLANS / f"{request.param}.yaml", "plan.yaml").build
    assert build is not None
    return build


def test_every_stop_and_every_piece_of_every_run_is_on_its_strip(plan: Build) -> None:
    labels = identifiers(plan)
    for channel in plan.channels.values():
        shown = [box.words for each in run_drawings(plan, channel.id) for box in texts(each.svg)]
        passed = [channel.ends[0], *channel.through, channel.ends[1]]
        names = [
            plan.devices[plan.jacks[each].device if each in plan.jacks else each].name for each in passed
        ]
        assert [words for words in shown if words in set(names)] == names
        for piece in channel.pieces:
            found = plan.pieces[piece]
            assert {labels.cable(found, end) for end in found.ends} & set(shown)
        said = " ".join(shown)
        assert all(plan.ways[way].name in said for each in channel.pieces for way in plan.pieces[each].route)


def test_lengths_add_up_to_the_channels(plan: Build) -> None:
    for channel in plan.channels.values():
        figures = [plan.pieces[each].length.figure for each in channel.pieces]
        total = sum(figure.high for figure in figures if isinstance(figure, Fact))
        reached = stops(plan, channel)[-1].reached
        value = float(reached.split()[0]) / (1000 if reached.endswith("mm") else 1)
        assert value == pytest.approx(total, abs=0.006)


def test_it_can_be_read_from_either_end(plan: Build) -> None:
    for channel in plan.channels.values():
        there, back = stops(plan, channel), stops(plan, channel, is_turned=True)
        assert [stop.name for stop in there] == [stop.name for stop in back][::-1]


def test_no_strip_has_a_fault(plan: Build) -> None:
    drawn = [each for channel in plan.channels for each in run_drawings(plan, channel)]
    faults = [
        f"{each.name}: {fault}"
        for each in dressed(plan, drawn)
        for check in CHECKS
        for fault in check(read(each.svg))
    ]
    assert faults == []


def test_power_is_drawn_from_what_gives_it_to_what_takes_it_and_no_further() -> None:
    """In the example an injector stands next to the switch: the cord between the two carries data alone."""
    build = compile_plan(PLANS / "honey-farm.yaml", "plan.yaml").build
    assert build is not None
    channel = next(each for each in build.channels.values() if "device:injector" in each.through)
    along = {stop.name: stop for stop in stops(build, channel, channel.ends[0] == "jack:core/9")}
    is_powered = [
        stop.along.stroke == palette.wire_stroke("copper", False, True)
        for stop in along.values()
        if stop.along
    ]
    assert is_powered == [True, True, True, False]
    assert along["injector"].power.startswith("gives PoE")
    assert along["barn-switch"].power.startswith("takes PoE")
    assert along["core"].power == ""


def test_what_is_not_known_is_said() -> None:
    sketch = Sketch()
    room = sketch.room("home", "house", "attic")
    for name in ("a", "b"):
        sketch.device(name, switch(8), room)
    channel = sketch.wire("a/1", "b/1", lengths=(0,))
    drawing = run_drawings(sketch.build(), channel)[0]
    said = everything_said(drawing.svg)
    assert "length not known" in said
    assert "? m" in said


def test_a_run_of_many_pieces_goes_on_on_the_next_sheet() -> None:
    build = _FARM
    channel = max(build.channels.values(), key=lambda each: len(each.pieces))
    long = channel._replace(pieces=channel.pieces * 3)
    many = run_drawings(_with(build, long), channel.id)
    assert len(many) > 1
    assert many[0].onward == (many[1].name,)
    for drawing in many:
        assert (drawing.width, drawing.height) <= (palette.SHEET_SHORT, palette.SHEET_LONG)
        assert drawing.height <= palette.SHEET_LONG
        assert overlapping(texts(drawing.svg)) == []


def _with(build: Build, channel: Channel) -> Build:
    return replace(build, channels={**build.channels, channel.id: channel})


def test_light_that_is_lost_is_the_sum_of_its_terms(plan: Build) -> None:
    for channel in plan.channels.values():
        if channel.medium == "fibre":
            said = "\n".join(box.words for box in texts(run_drawings(plan, channel.id)[0].svg))
            lost = re.findall(r"at most ([\d.]+) dB lost at \d+ nm = ([^\n]+)", said)
            assert lost
            for total, terms in lost:
                parts = [float(each) for each in re.findall(r"([\d.]+) dB", terms)]
                assert sum(parts) == pytest.approx(float(total), abs=0.011)


HOSTILE = {
    "long names": plan_of_long_names(),
    "markup": plan_with(TEXTS["markup"]),
    "letters": plan_with(TEXTS["200 letters"]),
}


@pytest.mark.parametrize("kind", HOSTILE)
def test_names_of_any_kind_and_length_stay_in_their_places(kind: str, tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(json.dumps(HOSTILE[kind]), encoding="utf-8")
    build = compile_plan(path, "plan.yaml").build
    assert build is not None
    drawn = [each for channel in build.channels for each in run_drawings(build, channel)]
    drawn += [each for device in build.devices for each in around_drawings(build, device, 1)]
    assert drawn
    faults = [
        f"{each.name}: {fault}"
        for each in dressed(build, drawn)
        for check in CHECKS
        for fault in check(read(each.svg))
    ]
    assert faults == []
