"""What holds for every step of a stage, said once at its head instead of at each step, with its source."""

from collections.abc import Mapping

from firstfix.standards.installation import bend_radii, installation_limits
from firstfix.units import metres, number
from firstfix.work.model import Stage

TITLES: Mapping[Stage, str] = {
    Stage.OWN: "Your own steps",
    Stage.UNPACK: "Unpack and set up on the bench",
    Stage.PREPARE: "Building work",
    Stage.CABINET: "Cabinets up, dust away",
    Stage.HEAVY: "Heavy things, while the cabinet is open and empty",
    Stage.PULL: "Pull and label cable",
    Stage.FITTINGS: "Panels and shelves",
    Stage.TERMINATE: "Terminate",
    Stage.TEST: "Test every run",
    Stage.CLOSE: "Close up",
    Stage.MOUNT: "Mount what is left",
    Stage.BOND: "Earth",
    Stage.PATCH: "Patch",
    Stage.PLUG_IN: "Mains plugs, sources first",
    Stage.FEED: "Power over the data cable, sources first",
    Stage.SET_UP: "Set up in place",
    Stage.PROVE: "Prove it",
    Stage.FINISH: "Finish",
}


def rules_of(stage: Stage) -> tuple[str, ...]:
    """Sentences, each with its source."""
    return _RULES[stage]() if stage in _RULES else ()


def _pulling() -> tuple[str, ...]:
    limits = installation_limits()
    rest, pulled = bend_radii()["twisted-pair", "at rest"], bend_radii()["twisted-pair", "pulling"]
    pull, mark = limits.pull_tension, limits.label_from_end
    return (
        f"Pull a data cable of four pairs with at most {number(pull.value)} {pull.unit} ({pull.basis}).",
        f"Bend it no tighter than {number(rest.times_diameter)} times its diameter ({rest.basis}), "
        f"{number(pulled.times_diameter)} times while it is pulled ({pulled.basis}).",
        f"Label both ends, within {metres(mark.value)} of the end ({mark.basis}); labels/labels.pdf has all labels to print.",
    )


def _terminating() -> tuple[str, ...]:
    untwist = installation_limits().untwist
    return (
        "One order of colours, T568A or T568B, at all ends (ANSI/TIA-568).",
        f"Pairs stay twisted up to the last {metres(untwist.value)} ({untwist.basis}).",
    )


def _testing() -> tuple[str, ...]:
    return (
        "A run that fails is terminated again, and pulled again if that does not help; nothing is closed before.",
    )


_RULES = {Stage.PULL: _pulling, Stage.TERMINATE: _terminating, Stage.TEST: _testing}
