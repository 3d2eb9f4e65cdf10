"""Worked checks 25 to 32: lengths of twisted-pair channels."""

from firstfix.physics.channel import (
    ChannelLength,
    Cord,
    FixedCable,
    channel_length,
    iso_fixed_length,
    longest_cords,
    longest_link,
    longest_work_area_cord,
    reach_verdict,
)
from firstfix.standards.twisted_pair import pair_reach
from standards.worked import Calculations, Check, parametrized, verify


def channel(fixed_m: float, cord_m: float, awg: int) -> ChannelLength:
    return channel_length([FixedCable("cable", fixed_m)], [Cord("cords", cord_m, awg)])


def reach(rate_mbps: float, category: str | int, length_m: float) -> str:
    row = pair_reach(rate_mbps, str(category), screened=False)
    return "unsupported" if row is None else reach_verdict(length_m, row).value


CALCULATIONS: Calculations = {
    "cords": longest_cords,
    "work area cord": longest_work_area_cord,
    "equivalent length": lambda **given: channel(**given).equivalent_m,
    "channel as laid": lambda **given: channel(**given).channel_m,
    "international fixed length": iso_fixed_length,
    "warm link": lambda celsius, screened: longest_link(celsius, screened, [Cord("cords", 10, 24)]),
    "reach": reach,
}


@parametrized("channel")
def test_channel(check: Check) -> None:
    verify(check, CALCULATIONS)
