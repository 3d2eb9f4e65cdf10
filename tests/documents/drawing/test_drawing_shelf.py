"""What a shelf carries is drawn as large as its part says it is, on the scale of the cabinet, and stays readable."""

from dataclasses import replace
from xml.etree.ElementTree import Element

import pytest

from documents.drawing.reading import SVG, everything_said, overlapping, parse, texts
from documents.drawing.sample_build import farm
from documents.drawing.sketch import fact
from firstfix.build.model import Build
from firstfix.documents.drawing import cabinet_elevation
from firstfix.parts.facts import NOT_SAID, Figure
from firstfix.parts.forms import Size

_NOTE = "On a shelf, what has no known size is drawn as large as there is room."


def _sized(**sizes: tuple[Figure, Figure]) -> Build:
    build = farm()
    devices = dict(build.devices)
    for name, (width, height) in sizes.items():
        device = devices[f"device:{name.replace('_', '-')}"]
        devices[device.id] = device._replace(part=replace(device.part, size=Size(width=width, height=height)))
    return replace(build, devices=devices)


def _box(svg: str, name: str) -> tuple[float, float]:
    """Width and height in millimetres at 1 : 4 of the outline of a thing on the shelf."""
    group = next(
        each
        for each in parse(svg).iter(f"{SVG}g")
        if (title := each.find(f"{SVG}title")) is not None
        and (title.text or "").startswith(f"{name}, ")
        and "on the shelf" in (title.text or "")
    )
    rect: Element | None = group.find(f"{SVG}rect")
    assert rect is not None
    return tuple(float(rect.attrib[each]) / 72 * 25.4 * 4 for each in ("width", "height"))  # type: ignore[return-value]


def test_things_of_known_size_are_drawn_to_scale_and_no_note_is_needed() -> None:
    build = _sized(names_1=(fact(0.085), fact(0.030)), storage=(fact(0.110), fact(0.038)))
    drawing = cabinet_elevation(build, "cabinet:main")
    assert _box(drawing.svg, "names-1") == pytest.approx((85, 30), abs=0.5)
    assert _box(drawing.svg, "storage") == pytest.approx((110, 38), abs=0.5)


def test_only_what_has_no_known_size_is_noted() -> None:
    build = farm()
    carried = {device.name: device for device in build.devices.values() if device.carried_by}
    assert _NOTE in everything_said(cabinet_elevation(build, "cabinet:main").svg)
    known = {name.replace("-", "_"): (fact(0.06), fact(0.03)) for name in carried}
    assert _NOTE not in everything_said(cabinet_elevation(_sized(**known), "cabinet:main").svg)
    known[next(iter(known))] = (fact(0.06), NOT_SAID)
    assert _NOTE in everything_said(cabinet_elevation(_sized(**known), "cabinet:main").svg)


@pytest.mark.parametrize("width", [0.001, 0.03, 0.2, 3.0])
@pytest.mark.parametrize("height", [0.001, 0.02, 0.03, 0.2, 3.0])
def test_no_size_makes_texts_lie_on_one_another(width: float, height: float) -> None:
    names = [device.name.replace("-", "_") for device in farm().devices.values() if device.carried_by]
    drawing = cabinet_elevation(
        _sized(**{name: (fact(width), fact(height)) for name in names}), "cabinet:main"
    )
    boxes = texts(drawing.svg)
    assert overlapping(boxes) == []
    assert all(box.left >= 0 and box.right <= drawing.width + 0.1 for box in boxes)
