"""`firstfix parts --new KIND NAME FACT=VALUE ...`: a part entry out of what a data sheet says."""

from collections.abc import Sequence
from pathlib import Path

from firstfix.cli.making import make_file
from firstfix.cli.reading import shown
from firstfix.cli.streams import put, say
from firstfix.cli.trouble import FINE, TroubleError
from firstfix.finding.fit import cut


def show_new_part(given: Sequence[str], like: str, output: str | None) -> int:
    """`given`: the kind, the name, and FACT=VALUE pairs."""
    from firstfix.parts.data_sheet import SheetFault

    try:
        text = _entry(given, like)
    except SheetFault as fault:
        raise TroubleError(f"{fault}; {_example(given)}") from None
    if output is None:
        put(text)
    else:
        make_file(Path(output), shown(output), text)
        say(f"{shown(output)} is made; fill in what is unknown, and copy it below the 'parts:' of your plan")
    return FINE


def _entry(given: Sequence[str], like: str) -> str:
    from firstfix.parts.data_sheet import Asked, part_entry
    from firstfix.parts.data_sheet_words import facts_given
    from firstfix.rules.facts_needed import RULES_ON

    if len(given) < 2:
        raise TroubleError("--new takes a kind and a name, such as: firstfix parts --new camera yard-cam")
    kind, name, *pairs = given
    _check(kind, name, like)
    return part_entry(Asked(kind, name, like, facts_given(kind, pairs)), RULES_ON)


def _check(kind: str, name: str, like: str) -> None:
    from firstfix.parts.library_files import library
    from firstfix.parts.part import KINDS
    from firstfix.source.fields import LONGEST_NAME, NAME
    from firstfix.source.nearest import did_you_mean

    if kind not in KINDS:
        hint = did_you_mean(kind, KINDS)
        raise TroubleError(
            f"there is no kind of part '{cut(kind, 40)}'{hint or '; the kinds are ' + ', '.join(KINDS)}"
        )
    if not NAME.fullmatch(name) or len(name) > LONGEST_NAME:
        raise TroubleError(f"'{cut(name, 40)}' is no name: small letters, digits and single dashes, at most {LONGEST_NAME}")  # fmt: skip
    known = library()
    if name in known:
        raise TroubleError(f"the library has a part '{name}' already; give yours another name")
    if not like:
        return
    if like not in known:
        raise TroubleError(f"there is no part '{cut(like, 40)}' to be like{did_you_mean(like, known)}")
    if known[like].kind != kind:
        raise TroubleError(f"'{like}' is a part of the kind {known[like].kind}, not {kind}")


def _example(given: Sequence[str]) -> str:
    return f"firstfix parts --new {cut(given[0], 40)} NAME shows what this kind of part can say"
