"""Every table at once, for tests and for whoever asks what we rest on. Slow: it reads all files."""

from firstfix.finding.model import Basis
from firstfix.standards.table import FOLDER, Record, read


def table_names() -> tuple[str, ...]:
    return tuple(sorted(path.stem for path in FOLDER.glob("*.csv")))


def all_records() -> tuple[Record, ...]:
    return tuple(record for name in table_names() for record in read(name))


def all_bases() -> frozenset[Basis]:
    """Each document and clause that some row of some table rests on."""
    return frozenset(record.basis for record in all_records())
