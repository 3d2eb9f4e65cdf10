"""How sheets of VLANs name things: numbers, jacks, who may open connections to whom."""

from collections.abc import Iterable
from itertools import groupby

from firstfix.build.logical import Vlan
from firstfix.build.model import Build

# What a VLAN may reach beside other VLANs, as `reaches` names it.
BEYOND = {"internet": "the internet", "names": "name servers"}


def titled(vlan: Vlan) -> str:
    """`VLAN 30 till`"""
    return f"VLAN {vlan.vid} {vlan.name}" if vlan.vid else f"VLAN {vlan.name}, no number"


def numbered_name(build: Build, name: str) -> str:
    """`30 till` for a VLAN's name; what lies beyond in words of its own."""
    if name in BEYOND:
        return BEYOND[name]
    vlan = build.vlans.get(f"vlan:{name}")
    return f"{vlan.vid} {name}" if vlan and vlan.vid else name


def jack_names(build: Build, jacks: Iterable[str]) -> str:
    """`1, 3–6, sfp1`: jacks of one device, in their order, neighbours together."""
    shown: list[str] = []
    for is_number, run in groupby((build.jacks[each].name for each in jacks), key=_is_number):
        names = list(run)
        shown += _ranges([int(each) for each in names]) if is_number else names
    return ", ".join(shown)


def _is_number(name: str) -> bool:
    return name.isascii() and name.isdigit()


def _ranges(numbers: list[int]) -> list[str]:
    found: list[list[int]] = []
    for number in numbers:
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    return [str(each[0]) if len(each) == 1 else f"{each[0]}–{each[-1]}" for each in found]


def and_so(names: Iterable[str], nothing: str) -> str:
    return ", ".join(names) or nothing
