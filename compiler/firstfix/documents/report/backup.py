"""What stays up when the mains goes, in words: a row for each UPS."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.graphs.backup import BY_MAINS, Held, backup_domains


class BackupRow(NamedTuple):
    """`holds`: each thing and what feeds it, a phrase each."""

    ups: str
    holds: tuple[str, ...]


def backup_rows(build: Build) -> tuple[BackupRow, ...]:
    """In order of the UPSs' ids; nothing for a plan without one."""
    return tuple(
        BackupRow(ids.path(domain.ups), tuple(_words(held) for held in domain.holds))
        for domain in backup_domains(build)
    )


def _words(held: Held) -> str:
    over = "" if held.how == BY_MAINS else "PoE from "
    return f"{ids.path(held.device)} ({over}{ids.path(held.source)})"
