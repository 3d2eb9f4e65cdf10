"""Labels that the author wrote: two that say the same."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Finding, Label, Level
from firstfix.graphs.administration import called_alike
from firstfix.rules.rule import FineMany, Outcome, Rule, rule

_UNIQUE = Basis("ANSI/TIA-606-B and -C", "every identifier is there once; from memory, through digests")


@rule("label-clash", Level.WARNING, _UNIQUE)
def label_clash(build: Build) -> Iterator[Outcome]:
    """Every label that the plan writes says what no other label in its place says.

    Because: who looks for a cable by its label pulls the wrong one; the second is given a number, which nobody wrote.
    Compares: each `label:` with the labels and names of what is identified beside it: with the simple scheme all cabinets and devices,
        and the rooms of a site; by `tia-606` the rooms of a building, the cabinets of a room, what stands in one cabinet or room.
    Skips: what has no `label:`.
    Remedy: write another label.
    """
    places = ((id_, build.provenance.written(id_, "label")) for id_ in build.administration.own)
    written = {id_: at for id_, at in places if at is not None}
    if not written:
        return
    wrong = 0
    for called, alike in called_alike(build):
        ours = sorted((id_ for id_ in alike if id_ in written), key=lambda id_: written[id_])
        if not ours:
            continue
        # A name stands where nobody wrote a label; so what is to change is what was written.
        first = next((id_ for id_ in alike if id_ not in ours), ours[0])
        for id_ in ours:
            if id_ != first:
                wrong += 1
                yield _finding(build, called, first, id_)
    yield FineMany(len(written) - wrong)


def _finding(build: Build, called: str, first: str, second: str) -> Finding:
    at = build.provenance.written(second, "label")
    there = build.provenance.written(first, "label") or build.provenance.span(first)
    message = f"the label of {_named(second)} says '{called}', and so does that of {_named(first)}"
    cures = (Cure("write another label"),)
    return label_clash.finding(message, second, at, (Label(there, "it says so, too"),), cures=cures)


def _named(id_: str) -> str:
    return f"the {ids.kind(id_)} '{ids.path(id_)}'"


RULES: tuple[Rule, ...] = (label_clash,)
