"""`firstfix parts WORDS`: the parts that a plan can use; in full where only one is left or named exactly."""

import json
from collections.abc import Iterable, Sequence
from itertools import groupby

from firstfix.cli.arguments import Arguments
from firstfix.cli.columns import columns
from firstfix.cli.part_data import part_data
from firstfix.cli.part_text import part_page
from firstfix.cli.streams import put
from firstfix.cli.trouble import FINE, TroubleError
from firstfix.finding.fit import cut
from firstfix.parts.part import Part

_PURPOSE = """\
Lists the parts that come with firstfix whose name, kind, title or note holds all the words given; without
words, all of them. A single one is shown in full, with the basis of each figure and what is not known.
A plan adds its own under `parts:`. --new makes such an entry out of what a data sheet says, each fact as
FACT=VALUE; what you leave out is a form to fill in, with what each fact takes and what nobody can judge
without it."""

_EXAMPLE = """\
  firstfix parts switch poe
  firstfix parts wall cabinet
  firstfix parts --new camera yard-cam
  firstfix parts --new camera yard-cam draw='9 W' poe-class=3 -o yard-cam.yaml"""


def run(given: Sequence[str]) -> int:
    from firstfix.parts.library_files import library

    arguments = Arguments("parts", _PURPOSE, _EXAMPLE)
    arguments.add_argument("words", metavar="WORDS", nargs="*", help="words that must all occur")
    arguments.add_argument(
        "--new",
        nargs="+",
        metavar=("KIND NAME", "FACT=VALUE"),
        help="a part of your own: its kind, its name, and facts as FACT=VALUE",
    )
    arguments.add_argument(
        "--like", metavar="PART", default="", help="with --new: a part of the library that it is like"
    )
    arguments.add_argument(
        "-o", "--output", metavar="FILE", help="with --new: the file to make (default: print it)"
    )
    arguments.add_format("text", "json")
    chosen = arguments.read(given)
    if chosen.new is not None:
        from firstfix.cli.new_part import show_new_part

        return show_new_part([*chosen.new, *chosen.words], chosen.like, chosen.output)
    if chosen.like or chosen.output is not None:
        raise TroubleError("--like and -o go with --new")
    found = _found(library().values(), chosen.words)
    if not found:
        raise TroubleError(f"no part has {_quoted(chosen.words)}; firstfix parts lists them all")
    if chosen.format == "json":
        put(json.dumps([part_data(part) for part in found], indent=2) + "\n")
    else:
        put(_page(found[0], library().values()) if len(found) == 1 else _table(found))
    return FINE


def _page(part: Part, parts: Iterable[Part]) -> str:
    """A part in full; then, where its name is also a word for others, these."""
    others = [each for each in _matching(parts, [part.name]) if each.name != part.name]
    if not others:
        return part_page(part)
    rows = columns([(each.name, each.title) for each in others], "  ")
    return f"{part_page(part)}\nothers that '{part.name}' finds\n{rows}"


def _found(parts: Iterable[Part], words: Sequence[str]) -> list[Part]:
    wanted = [word.casefold() for word in words]
    if len(wanted) == 1:
        exact = [part for part in parts if part.name == wanted[0]]
        if exact:
            return exact
    return _matching(parts, wanted)


def _matching(parts: Iterable[Part], wanted: Sequence[str]) -> list[Part]:
    found = [part for part in parts if all(word in _searched(part) for word in wanted)]
    return sorted(found, key=lambda part: (part.kind, part.name))


def _searched(part: Part) -> str:
    return f"{part.name} {part.kind} {part.title} {part.note}".casefold()


def _quoted(words: Sequence[str]) -> str:
    return " and ".join(f"'{cut(word, 40)}'" for word in words[:5])


def _table(parts: Sequence[Part]) -> str:
    """By kind; `parts` are sorted so."""
    blocks = []
    for kind, group in groupby(parts, key=lambda part: part.kind):
        blocks.append(f"{kind}\n{columns([(part.name, part.title) for part in group], '  ')}")
    blocks.append(f"{len(parts)} parts; firstfix parts NAME shows one in full\n")
    return "\n".join(blocks)
