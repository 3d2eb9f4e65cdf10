"""What can hurt at a step, in the usual words of the trade. Every caution is printed at the step itself.

All of it is common practice without a source of its own, and gives way to local codes and licensed
practice.
"""

_CODES_FIRST = "local codes and a licensed electrician come first"

MAINS = (
    f"Mains: {_CODES_FIRST}. Use plugs and outlets that are there; leave everything behind a cover closed."
)
EARTH = f"Earthing: {_CODES_FIRST}; have it made by one, or at least checked."
LIGHTNING = (
    f"Lightning: {_CODES_FIRST}. Hands off cables that go outdoors while a thunderstorm is near; a surge "
    "protector without earth protects nothing."
)
LADDER = (
    "Ladder: local rules for work at height come first. On firm ground, a second person to hold it, not in wind "
    "or wet."
)
DRILL = (
    "Drilling: search the wall for cables and pipes first, and wear eye protection. Near mains, "
    f"{_CODES_FIRST}."
)
LIFT = "Lifting: local rules come first. This is heavy; two people, and nothing in the way."
BURIED = (
    "In the ground: local codes come first, on digging and on the distance to mains cable. Have buried services "
    "located before digging; leave mains cable to a licensed electrician."
)
OUTDOOR = (
    "Outdoors: holes slope down to the outside, cables hang in a drip loop, so that no water follows them in."
)
POE = "PoE: unplug the source before this run is terminated again."
LASER = (
    "Fibre: local rules for lasers come first. Never look into a fibre or its jack; its light may be invisible. "
    "Glass splinters: wear eye protection, and collect them."
)
HOT_NETWORK = "The running network: whoever uses it now is cut off while this is done."

_BY_VERB = {
    "box": (DRILL,),
    "anchor": (DRILL,),
    "bond": (EARTH,),
}


def static_cautions(verb: str) -> tuple[str, ...]:
    """What always holds for work of this kind."""
    return _BY_VERB.get(verb, ())
