"""What is forgotten when one asks for a device's jacks anew: cords at it, and no installed run."""

from firstfix.allocations.choices import NO_CHOICES, Choices, KeptRun, KeptStop
from firstfix.allocations.forget import without


def _kept(*runs: str) -> Choices:
    """Each run as its places, such as "core/1 panel/2 desk/1"."""
    return NO_CHOICES._replace(runs=tuple(_run(each) for each in runs))


def _run(text: str) -> KeptRun:
    places = [each.split("/") for each in text.split()]
    stops = tuple(KeptStop(device, (jack,) if jack else ()) for device, jack in places)
    return KeptRun(run=f"{places[0][0]}--{places[-1][0]}", stops=stops, says="", at=None)


DESK, HALL, GATEWAY = "core/1 panel/2 outlet/1 desk/1", "cam/1 panel/3 core/2", "core/3 gateway/4"
KEPT = _kept(DESK, HALL, GATEWAY)


def test_at_a_switch_only_its_own_jacks() -> None:
    assert without(KEPT, ["core"]) == _kept(
        "core/ panel/2 outlet/1 desk/1", "cam/1 panel/3 core/", "core/ gateway/4"
    )


def test_at_what_ends_one_run_both_ends_of_that() -> None:
    assert without(KEPT, ["desk"]) == _kept("core/ panel/2 outlet/1 desk/", HALL, GATEWAY)


def test_at_a_panel_what_ends_there() -> None:
    assert without(KEPT, ["panel"]) == _kept("core/1 panel/ outlet/1 desk/1", "cam/1 panel/ core/2", GATEWAY)


def test_of_a_run_everything() -> None:
    assert without(KEPT, ["core--desk"]) == _kept("core/ panel/ outlet/ desk/", HALL, GATEWAY)
