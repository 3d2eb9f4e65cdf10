"""What a plan says of mains: feeds, circuits. Faults stand where the slip is."""

import pytest

from plan.reading import plan, read

FAULTS = (
    (
        "devices: {c: {part: switch-8, power: [ups, ups]}}\n",
        "1:44: 'ups' stands twice in 'power'; two feeds come from two things",
    ),
    (
        "circuits: {ring-1: {rating: 3680 W}}\n",
        "1:29: 'rating' is a current: 'W' is a unit of power, not of current; write it such as '16 A'",
    ),
    (
        "mains: {plug: Q}\n",
        "1:15: 'plug' is one of 'A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'I', 'J', 'K', 'L', 'M', 'N', 'O', not 'Q'",
    ),
    ("circuits: {ring-1: {volts: 230 V}}\n", "1:20: the circuit 'ring-1' needs 'rating'"),
    (
        "parts: {p: {like: switch-8, mains: {inlet: coupler, inlets: 9}}}\n",
        "1:61: 'inlets' is a whole number from 1 to 4, not '9'",
    ),
)


@pytest.mark.parametrize(("text", "said"), FAULTS, ids=[text.strip()[:40] for text, _ in FAULTS])
def test_fault_is_named_at_its_place(text: str, said: str) -> None:
    assert read(text)[1] == [said]


def test_feeds_are_one_or_several() -> None:
    text = "devices: {a: {part: switch-8}, b: {part: switch-8, power: ups}, c: {part: switch-8, power: [ups, wall]}}"
    assert [each.power for each in plan(text).devices] == [(), ("ups",), ("ups", "wall")]


def test_circuits() -> None:
    given = plan(
        "circuits: {ring-1: {rating: 16 A, volts: 230 V}, spur: {rating: 500 mA}}\n"
        "sites: {home: {rooms: {study: {circuit: ring-1}}}}"
    )
    assert [(each.name, each.rating, each.volts) for each in given.circuits] == [
        ("ring-1", 16.0, 230.0),
        ("spur", 0.5, None),
    ]
    assert given.sites[0].buildings[0].rooms[0].circuit == "ring-1"


def test_the_mains_of_a_house() -> None:
    assert plan("mains: {plug: F, volts: 230 V}").mains == ("F", 230.0)
    assert plan("mains: {volts: 120 V, note: {whose: words}}").mains == ("", 120.0)
    assert plan("name: none").mains == ("", None)
