"""What only the reader can see, and the little that only the schema minds. Anything else on which they differ is a fault of one."""

import re
from collections.abc import Sequence

# The beginning of the reader's message without the kind of fault, and why a schema cannot know.
ONLY_THE_READER = (
    (r".* (is|of .* is) (less|more|beyond)", "a bound that is given in one unit and met in another"),
    (r".*: at (least|most) ", "a bound that is given in one unit and met in another"),
    (r"the part .* does not say ", "what a part needs besides what its kind needs follows from other facts of it"),
    (r"the part .* has no jack ", "the jacks of a part may be those of another that it is like"),
    (r"jack .* of the part ", "the jacks of a part may be those of another that it is like"),
    (r"there is no part .* to be like", "which parts there are"),
    (r"'(shape|depth|front-depth|plug-space|ears|width)' ", "which facts suit follows from the part that it is like"),
    (r"a cabinet has ", "which facts suit follows from the part that it is like"),
    (r".* needs 'typical' or 'most', and its figures rise", "which of two quantities is more"),
    (r"'(size|position|ambient)' is such as ", "a bound that is given in one unit and met in another; which of two is more"),
    (r".* is to be done by .*; phases stand in order", "which of two days is later"),
    (r"there still is a |.* is the old name of another|.* is what it is called now", "which names there are"),
    (r".* is a member of the series ", "which names a series stands for"),
    (r".* is to count with a series of |a series has one range|.*its range runs backwards|.* members; at most", "what a range stands for"),
    (r"the (device|way|cabinet) .* needs '(part|between)'", "whether a series of the table says it for this member"),
    (r"the run goes from .* to itself", "which of two places are on one device"),
    (r".* stands twice in 'power'", "the wall may stand twice, nothing else may"),
    (r"(a length of|how many of) .* in stock|.* is counted, not measured|.* in stock is a list", "whether a part is counted or measured"),
    (r".* is no (jack and no range|place on a run)", "a range that runs backwards"),
    (r"'address' is an address with its prefix", "how long a prefix may be"),
    (r".* is a (whole )?number from ", "how a number is written: 1e3, 0x10 and 4.0 are lost before a schema sees them"),
    (r"'.*' (says nothing without|lies before) the plan's 'start'", "when the plan starts"),
    (r"'lead' of ", "how long it is from one day to another"),
    (r"a price in .* has at most .* decimals", "how many decimals a currency has"),
    (r"from .* packs on, each costs no less", "which of two prices is more"),
    (r".* is no length of ", "a bound that is given in one unit and met in another"),
    (r"'least-change' keeps to an earlier order", "whether anything was ordered"),
    (r"an SSID has at most |.* holds a character that nobody can see", "how many bytes a text takes; what can be shown"),
    (r"with this one, ", "how many jacks ranges stand for"),
)  # fmt: skip
# The schema's message, and why the reader lets it pass.
ONLY_THE_SCHEMA = (
    (r"[^:]*: '([+-]?[0-9]+(\.[0-9]+)?|true|false)' is not ", "a number, or true and false, in quotes: text to YAML, and clear to the reader"),
    (r"[^:]*: '-0[^']*' (is|does) not ", "minus nothing is nothing"),
    (r"cabinets/.*/carries: ", "in a series of cabinets, a name that is none is told when names are looked up"),
    (r"stock/", "what there is of a part that doesn't exist is told when names are looked up"),
)  # fmt: skip


def explained(reader: Sequence[str], schema: Sequence[str]) -> bool:
    """Whether both take it or both refuse it, or it is plain why not. Takes what each said: nothing where it takes it."""
    if bool(reader) == bool(schema):
        return True
    if reader:
        return all(_is_known(each.partition(": ")[2], ONLY_THE_READER) for each in reader)
    return all(_is_known(each, ONLY_THE_SCHEMA) for each in schema)


def _is_known(message: str, known: Sequence[tuple[str, str]]) -> bool:
    return any(re.match(pattern, message) for pattern, _ in known)
