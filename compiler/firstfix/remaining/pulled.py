"""Which runs are pulled, by what is recorded, and the shopping list with its cable as it is cut by then."""

from firstfix.build.cabling import RUN
from firstfix.build.model import Build
from firstfix.progress.model import Progress
from firstfix.purchase.as_cut import needs_as_cut
from firstfix.purchase.needs import Need, needs
from firstfix.remaining.reckon import ordered_already, run_id
from firstfix.work.model import task_id


def pulled(build: Build, progress: Progress) -> frozenset[str]:
    """Ids of runs whose pulling is done, or that were measured: those are cut off their boxes."""
    if not (progress.done or progress.measured):
        return frozenset()
    return frozenset(
        piece.id
        for piece in build.pieces.values()
        if piece.kind == RUN
        and (task_id("pull", piece.id) in progress.done or run_id(piece) in progress.measured)
    )


def needs_now(build: Build, progress: Progress) -> tuple[Need, ...]:
    """The shopping list: what is here and cut stays cut."""
    listed = needs(build)
    if not progress.is_kept:
        return listed
    return needs_as_cut(build, listed, pulled(build, progress), ordered_already(listed, progress))
