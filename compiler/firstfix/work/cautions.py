"""What can hurt at a step, in the usual words of the trade. Every caution is printed at the step itself.

All of it is common practice without a source of its own, and gives way to local codes and licensed practice.
"""

MAINS = (
    "Mains: local codes and a licensed electrician come first. Use plugs and outlets that are there, with dry hands; "
    "leave everything behind a cover closed."
)
EARTH = (
    "Earthing: local codes and a licensed electrician come first; have the connection to the building's earth made, or "
    "at least checked, by one."
)
LIGHTNING = (
    "Lightning: local codes and a licensed electrician come first. Do not touch cables that leave the building while a "
    "thunderstorm is near; surge protectors without earth protect nothing."
)
LADDER = "Ladder: on firm level ground, with a second person to hold it; not outdoors in wind or wet."
DRILL = (
    "Drilling: cables or pipes may run in the wall; search for them first, stay clear above, below and beside outlets and "
    "taps, and wear eye protection. Local codes and a licensed electrician come first."
)
LIFT = "Lifting: this is heavy; two people, and nothing else in the way."
BURIED = (
    "Digging and ducts: have buried services located before any digging; keep the distance to mains cable that local "
    "codes ask for."
)
OUTDOOR = "Outdoors: slope the hole down to the outside and leave a drip loop, so that no water follows the cable in."
POE = "PoE: no power on this run while its wires are bare; unplug its source before terminating again."
LASER = "Fibre: never look into a fibre or its jack; the light may be invisible. Collect the splinters."
HOT_NETWORK = "The running network: whoever uses it now is cut off while this is done."

_BY_VERB = {
    "box": (DRILL,),
    "anchor": (DRILL,),
    "hang": (LIFT,),
    "bond": (EARTH,),
    "power": (MAINS,),
}


def static_cautions(verb: str) -> tuple[str, ...]:
    """What always holds for work of this kind."""
    return _BY_VERB.get(verb, ())
