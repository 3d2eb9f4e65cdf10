"""What is around a device: as far as asked, and no further; nothing that is left out is hidden."""

import pytest

from documents.drawing.reading import everything_said
from documents.drawing.sketch import CAMERA, Sketch, switch
from firstfix.build.model import Build
from firstfix.documents.drawing.network.around import around_drawings


def _line(count: int) -> Build:
    """Switches in a row, a camera on each: s1 - s2 - s3 ..."""
    sketch = Sketch("row")
    room = sketch.room("home", "house", "attic")
    for number in range(1, count + 1):
        sketch.device(f"switch-{number}", switch(8), room)
        sketch.device(f"cam-{number}", CAMERA, room)
        sketch.wire(f"cam-{number}", f"switch-{number}/1")
    for number in range(1, count):
        sketch.wire(f"switch-{number}/8", f"switch-{number + 1}/7")
    return sketch.build()


def _shown(build: Build, device: str, hops: int) -> set[str]:
    said = "".join(drawing.alt for drawing in around_drawings(build, f"device:{device}", hops))
    return {
        each.name
        for each in build.devices.values()
        if f"{each.name}" in said.replace("/", " ").replace(":", " ").split()
    }


@pytest.mark.parametrize(
    ("device", "hops", "expected"),
    [
        ("cam-1", 1, {"cam-1", "switch-1"}),
        ("cam-1", 2, {"cam-1", "switch-1", "switch-2"}),
        ("switch-3", 1, {"switch-3", "cam-3", "switch-2", "switch-4"}),
        (
            "switch-3",
            2,
            {"switch-3", "cam-3", "switch-2", "cam-2", "switch-1", "switch-4", "cam-4", "switch-5"},
        ),
    ],
)
def test_as_far_as_asked(device: str, hops: int, expected: set[str]) -> None:
    """By hand: hops are channels, counted from the device."""
    assert _shown(_line(5), device, hops) == expected


def test_far_enough_is_everything() -> None:
    build = _line(4)
    assert _shown(build, "cam-1", 9) == {device.name for device in build.devices.values()}


def test_a_jack_whose_run_is_left_out_is_counted_and_not_called_free() -> None:
    said = everything_said(around_drawings(_line(5), "device:cam-1", 1)[0].svg)
    assert "1 more wired, not on this drawing" in said
    assert "free: 2–7" in said


def test_nothing_is_around_what_no_channel_reaches() -> None:
    sketch = Sketch()
    sketch.device("alone", switch(8), sketch.room("home", "house", "attic"))
    assert around_drawings(sketch.build(), "device:alone", 3) == ()
