"""The sheets look as they did when somebody last looked at them, and each change since has its sentence."""

import re

import pytest

from golden.pictures.pictures import apart, changes, decoded, digest, drawn_now, kept, picture

KEPT = kept()
# Together they are cloned with every checkout.
_MOST_BYTES = 600_000


def test_each_picture_is_there_and_no_other() -> None:
    assert set(KEPT) == set(drawn_now())
    assert sum(map(len, KEPT.values())) < _MOST_BYTES


@pytest.mark.parametrize("name", KEPT)
def test_it_looks_as_it_did(name: str) -> None:
    found = apart(decoded(KEPT[name]), picture(drawn_now()[name]))
    assert found.is_the_same, (
        f'{found}: look at it, then: python tests/golden/pictures/write.py "Why it changed."'
    )


@pytest.mark.parametrize("name", KEPT)
def test_its_latest_change_has_a_sentence(name: str) -> None:
    latest = [change for change in changes() if change.picture == name][-1]
    assert latest.digest == digest(KEPT[name])
    assert len(latest.why.split()) >= 4
    assert latest.why.endswith(".")


@pytest.mark.parametrize("name", KEPT)
def test_one_figure_more_or_less_is_a_difference(name: str) -> None:
    """The tolerance is too narrow for another digit in a text, or a text that is moved by one point."""
    svg = drawn_now()[name]
    before = picture(svg)
    assert apart(before, before).is_the_same
    other = re.sub(
        r"(>[^<>]*)([1-8])([^<>]*</text>)",
        lambda found: f"{found[1]}{int(found[2]) + 1}{found[3]}",
        svg,
        count=1,
    )
    moved = re.sub(r'<text x="([\d.]+)"', lambda found: f'<text x="{float(found[1]) + 1:g}"', svg, count=1)
    for changed in (other, moved):
        assert changed != svg
        assert not apart(before, picture(changed)).is_the_same


def test_another_size_is_a_difference() -> None:
    pixels = decoded(next(iter(KEPT.values())))
    assert not apart(pixels, pixels[:-1]).is_the_same
