"""Which rules cannot tell without which fact of a part, for who fills in a part of their own.

Only for printing: a rule asks for what it needs whatever stands here. Found by trial, and tests/rules/test_facts_needed.py holds each
pair against the rule itself.
"""

RULES_ON: dict[str, tuple[str, ...]] = {
    "bridges": ("layer2-loop", "vlan-island"),
    "cable.gauge": ("channel-length", "poe-budget", "poe-reach"),
    "depth": ("cabinet-depth",),
    "draw": ("poe-class",),
    "gives-poe.budget": ("poe-budget",),
    "gives-poe.class": ("poe-budget", "poe-class", "poe-reach"),
    "gives-poe.counts": ("poe-budget",),
    "routes": ("vlan-island",),
    "spanning-tree": ("layer2-loop",),
    "takes-poe.class": ("poe-budget", "poe-class", "poe-reach"),
    "usable-depth": ("cabinet-depth",),
    "vlan-aware": ("vlan-island",),
}
