"""What can hurt at a step, in the usual words of the trade. Every caution is printed at the step itself.

All of it is common practice without a source of its own, and gives way to local codes and licensed
practice.
"""

_CODES_FIRST = "local codes and a licensed electrician come first"

MAINS = (
    f"Mains: {_CODES_FIRST}. Use plugs and outlets that are there, with dry hands; leave everything behind a "
    "cover closed."
)
EARTH = (
    f"Earthing: {_CODES_FIRST}; have the connection to the building's earth made by one, or at least checked."
)
LIGHTNING = (
    f"Lightning: {_CODES_FIRST}. Do not touch cables that leave the building while a thunderstorm is near; "
    "a surge protector without earth protects nothing."
)
LADDER = "Ladder: on firm level ground, with a second person to hold it; not outdoors in wind or wet."
DRILL = (
    f"Drilling: {_CODES_FIRST}. Cables or pipes may run in the wall: search for them, stay clear above, "
    "below and beside outlets and taps, and wear eye protection."
)
LIFT = "Lifting: this is heavy; two people, and nothing else in the way."
BURIED = (
    f"In the ground: {_CODES_FIRST}. Have buried services located before any digging, and keep the distance "
    "to mains cable that the codes ask for."
)
OUTDOOR = (
    "Outdoors: holes slope down to the outside, cables hang in a drip loop, so that no water follows them in."
)
POE = "PoE: no power on this run while its wires are bare; unplug its source before terminating again."
LASER = "Fibre: never look into a fibre or its jack; its light may be invisible. Collect the splinters."
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
