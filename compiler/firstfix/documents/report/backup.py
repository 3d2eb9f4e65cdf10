"""What stays up when the mains goes, in words: a row for each UPS."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.documents.report.air import spread_words
from firstfix.documents.stubs.figures import NOTHING
from firstfix.graphs.backup import BY_MAINS, Held, backup_domains
from firstfix.graphs.backup_time import BackupTime, backup_times
from firstfix.units import watts


class BackupRow(NamedTuple):
    """`holds`: each thing and what feeds it, a phrase each. `load` and `lasts` from the least load to the most."""

    ups: str
    holds: tuple[str, ...]
    load: str
    lasts: str


def backup_rows(build: Build) -> tuple[BackupRow, ...]:
    """In order of the UPSs' ids; nothing for a plan without one."""
    times = {time.ups: time for time in backup_times(build)}
    return tuple(
        BackupRow(
            ids.path(domain.ups),
            tuple(_words(held) for held in domain.holds),
            spread_words(times[domain.ups].load, _watts),
            _lasts(times[domain.ups]),
        )
        for domain in backup_domains(build)
    )


def _watts(value: float) -> str:
    return watts(round(value, 1))


def _lasts(time: BackupTime) -> str:
    shown = ["cannot tell" if each is None else f"{each // 60:.0f} min" for each in time.lasts]
    words = shown[0] if len(set(shown)) == 1 else f" {NOTHING} ".join(shown)
    return f"{words} (by {time.by})"


def _words(held: Held) -> str:
    over = "" if held.how == BY_MAINS else "PoE from "
    return f"{ids.path(held.device)} ({over}{ids.path(held.source)})"
