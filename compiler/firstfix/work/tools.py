"""What to have in hand for each kind of work, by the verb of its task. Common practice, no source."""

TOOLS: dict[str, tuple[str, ...]] = {
    "unpack": ("box knife", "pen"),
    "unbox": ("box knife", "pen"),
    "prepare": ("drill and bits", "cable and pipe detector", "draw cord or rods", "ladder"),
    "box": ("cable and pipe detector", "saw or hole cutter", "spirit level", "screwdrivers"),
    "anchor": ("cable and pipe detector", "drill and bits", "spirit level", "tape measure"),
    "hang": ("spirit level", "spanners"),
    "sweep": ("vacuum cleaner",),
    "pull": ("draw cord or rods", "label printer or marker", "cable cutter", "tape measure"),
    "terminate": ("sheath stripper", "cutter", "punch-down or crimping tool for the part"),
    "test": ("cable tester with length measurement", "pen"),
    "close": ("sealant or fire stop as local codes ask", "screwdrivers"),
    "fit": ("screwdrivers",),
    "bond": ("spanners", "crimping tool for earth lugs", "continuity meter"),
    "patch": ("hook-and-loop ties",),
    "connect": ("hook-and-loop ties",),
    "power": (),
    "set-up": ("computer with a network cord", "settings of the device"),
    "prove": ("computer with a network cord",),
    "prove-names": ("computer with a network cord",),
    "finish": ("hook-and-loop ties", "screwdrivers"),
    "record": ("pen",),
}  # fmt: skip

# What glass asks for instead, by the verb: pigtails are spliced on, and light shows whether they pass.
FIBRE_TOOLS: dict[str, tuple[str, ...]] = {
    "terminate": ("sheath stripper", "fibre splicer and cleaver", "fibre cleaner", "eye protection"),
    "test": ("red light for fibre", "fibre cleaner", "pen"),
}

# Where the ground is opened, and where one pair of hands is not enough.
DIGGING_TOOLS = ("spade", "tape measure")
HELPER = ("a second person",)
LADDER_TOOLS = ("ladder",)
# What is screwed to a ceiling or high up on a wall.
DRILLING_TOOLS = ("drill and bits", "cable and pipe detector")

# Where a cable is laid into an open trench, nothing is drawn through.
DRAWING_TOOLS = ("draw cord or rods",)


def without_drawing(tools: tuple[str, ...]) -> tuple[str, ...]:
    """
    >>> without_drawing(TOOLS["pull"])
    ('label printer or marker', 'cable cutter', 'tape measure')
    """
    return tuple(tool for tool in tools if tool not in DRAWING_TOOLS)
