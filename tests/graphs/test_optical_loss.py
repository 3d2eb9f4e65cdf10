"""Loss of a channel of fibre, held against a sum by hand from the published figures."""

from firstfix.graphs.optical_loss import optical_losses
from firstfix.parts.facts import Fact
from firstfix.pipeline import compile_plan
from proof.sheets import PLANS

# ANSI/TIA-568.3-D: 0.75 dB a connector pair, 0.3 dB a splice, 0.4 dB/km outdoors and 0.5 or 1.0 dB/km else for single-mode fibre.
_PAIR, _SPLICE = 0.75, 0.3


def test_a_trunk_by_hand() -> None:
    """Two panels are two pairs, one installed run two splices."""
    build = compile_plan(PLANS / "rowing-club.yaml", "plan.yaml").build
    assert build is not None
    channel = next(each for each in build.channels.values() if each.medium == "fibre")
    losses = optical_losses(build, channel)
    assert [each.wavelength_nm for each in losses] == sorted({each.wavelength_nm for each in losses})
    figures = [build.pieces[each].length.figure for each in channel.pieces]
    metres = sum(figure.high for figure in figures if isinstance(figure, Fact))
    for each in losses:
        joints = 2 * _PAIR + 2 * _SPLICE
        assert joints + 0.0004 * metres - 1e-9 <= each.loss.loss_db <= joints + 0.001 * metres + 1e-9


def test_copper_and_unknown_lengths_have_none() -> None:
    build = compile_plan(PLANS / "rowing-club.yaml", "plan.yaml").build
    assert build is not None
    copper = next(each for each in build.channels.values() if each.medium == "copper")
    assert optical_losses(build, copper) == ()
