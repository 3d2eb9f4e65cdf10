"""A comparison in words, section by section: the same for a terminal and for a review comment.

Takes a ComparedPlans; gives sections of plain lines, without layout and without markup. Names of the plan's are cut short, not escaped: that is
for whoever lays them out.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from firstfix.build import ids
from firstfix.compare.categories import ADDED, CATEGORIES, RELABELLED, REMOVED
from firstfix.compare.changes import Renamed
from firstfix.compare.delta import Records
from firstfix.compare.room_left import RoomLeft
from firstfix.compare.values import OUSTED, Names, shown
from firstfix.compare.verdicts import APPEARS, TURNS, VANISHES, Verdict, VerdictChange
from firstfix.documents.changes import ComparedPlans
from firstfix.finding.figures import margin_words
from firstfix.graphs.headroom import BATTERY, Headroom
from firstfix.source.node import clip
from firstfix.units import number

_LONGEST = 100
# What is told with the thing that it belongs to.
_WITH_OTHERS = ("link", "piece", "jack")
_COUNTED = {"link": ("run", "runs"), "piece": ("cable", "cables"), "jack": ("port set-up", "port set-ups")}
_KINDS = {
    "piece": "cable",
    "jack": "port",
    "vlan": "VLAN",
    "wifi": "wireless network",
    "units": "units kept free",
}
_VERDICTS = {APPEARS: "appears", VANISHES: "no longer said", TURNS: "changes"}


class Section(NamedTuple):
    title: str
    lines: tuple[str, ...]


def thing(id_: str) -> str:
    """
    >>> thing("vlan:guests"), thing("piece:core--desk/1"), thing("internet:")
    ('VLAN guests', 'cable core--desk/1', 'internet')
    """
    kind, path = ids.kind(id_), clip(ids.path(id_).removesuffix(OUSTED), _LONGEST)
    return f"{_KINDS.get(kind, kind)} {path}".strip()


def change_sections(compared: ComparedPlans) -> list[Section]:
    """What is different in the networks, by the sort of the change."""
    changes = compared.changes
    made = {
        ADDED: _whole(changes.delta.new),
        REMOVED: _whole(changes.delta.gone),
        RELABELLED: [renamed_words(each) for each in changes.renamed],
    }
    sections = []
    for name in CATEGORIES:
        lines = made[name] if name in made else list(_by_thing(compared, name))
        sections.append(Section(name[0].upper() + name[1:], tuple(lines)))
    strangers = tuple(
        f"{thing(each.new)}: {clip(ids.path(each.old), _LONGEST)}" for each in changes.strangers
    )
    sections.append(Section("Not in the old plan under the name that `was:` gives", strangers))
    return [each for each in sections if each.lines]


def renamed_words(each: Renamed) -> str:
    words = f"{thing(each.old)} → {clip(ids.path(each.new), _LONGEST)}"
    if each.is_guess:
        words += f" (looks renamed, a guess; `was: {clip(_last(each.old), _LONGEST)}` in the new plan would say so)"
    return words


def _last(id_: str) -> str:
    """A thing's own name: `was:` of a room is said without its site."""
    return ids.path(id_).rpartition("/")[2]


def _by_thing(compared: ComparedPlans, category: str) -> Iterator[str]:
    """One line for each thing, with all of the sort that changed in it."""
    found: defaultdict[str, list[str]] = defaultdict(list)
    for each in compared.changes.of(category):
        found[each.id].append(f"{each.attribute} {value_words(each.old)} → {value_words(each.new)}")
    for id_ in sorted(found, key=ids.natural):
        yield f"{thing(id_)}: {'; '.join(found[id_])}"


def value_words(shown_value: str) -> str:
    """
    >>> value_words("desk/1 – panel/1@rear")
    'desk/1 – panel/1 (rear)'
    """
    return clip(shown_value.replace("@rear", " (rear)"))


def _whole(records: Records) -> list[str]:
    return [words for _, words in came_and_went(records)]


def came_and_went(records: Records) -> list[tuple[str, str]]:
    """Ids and words of things, each with its runs, cables and port set-ups; what belongs to none of them stands alone."""
    owner_of = _owners(records)
    belonging: defaultdict[str, Counter[str]] = defaultdict(Counter)
    for id_, owner in owner_of.items():
        belonging[owner][ids.kind(id_)] += 1
    order = sorted(
        (id_ for id_ in records if id_ not in owner_of),
        key=lambda each: (ids.kind(each) in _WITH_OTHERS, ids.kind(each), ids.natural(each)),
    )
    return [(id_, _described(id_, records[id_], belonging.get(id_, Counter()))) for id_ in order]


def _owners(records: Records) -> dict[str, str]:
    """Runs and cables to the device at an end of theirs that came or went with them; ports to their own device, or to that of the cable."""
    devices = {id_ for id_ in records if ids.kind(id_) == "device"}
    found: dict[str, str] = {}
    at_jack: dict[str, str] = {}
    for id_, record in records.items():
        if ids.kind(id_) not in ("link", "piece"):
            continue
        owner = next((each for each in _ends(id_) if each in devices), "")
        if owner:
            found[id_] = owner
            joins = record.get("joins")
            at_jack |= dict.fromkeys(joins.ids if isinstance(joins, Names) else (), owner)
    for id_ in records:
        if ids.kind(id_) == "jack":
            own = f"device:{ids.path(id_).partition('/')[0]}"
            owner = own if own in devices else at_jack.get(id_, "")
            found |= {id_: owner} if owner else {}
    return found


def _ends(id_: str) -> list[str]:
    """The devices at the two ends of a run, which are in its id and in those of its cables."""
    path = ids.path(id_)
    run = path.rpartition("/")[0] if ids.kind(id_) == "piece" else path
    return [f"device:{each.partition('/')[0]}" for each in run.partition("#")[0].split("--")]


def _described(id_: str, record: Mapping[str, object], belonging: Counter[str]) -> str:
    words = thing(id_)
    part, room = record.get("part"), record.get("room")
    about = [clip(str(part))] if part is not None else []
    if isinstance(room, Names):
        about.append(f"in {clip(shown(room), _LONGEST)}")
    joins = record.get("joins") or record.get("passes")
    if isinstance(joins, Names) and not belonging:
        about.append(clip(value_words(shown(joins)), _LONGEST))
    if about:
        words += f": {' '.join(about) if room is not None else ', '.join(about)}"
    counted = [f"{count} {_COUNTED[kind][count > 1]}" for kind, count in sorted(belonging.items())]
    return f"{words} (with {', '.join(counted)})" if counted else words


def verdict_lines(verdicts: Iterable[VerdictChange]) -> list[str]:
    return [
        f"{_VERDICTS[each.how]}: {_levels(each)} {each.verdict.rule}: {clip(each.verdict.message, 300)}{_margins(each)}"
        for each in verdicts
    ]


def _levels(each: VerdictChange) -> str:
    if each.old is not None and each.new is not None and each.old.level != each.new.level:
        return f"{each.old.level} → {each.new.level}"
    return each.verdict.level


def _margins(each: VerdictChange) -> str:
    margins = [_margin(verdict) for verdict in (each.old, each.new) if verdict is not None]
    known = [margin for margin in margins if margin]
    return f" ({' → '.join(known)})" if known else ""


def _margin(verdict: Verdict) -> str:
    return "" if verdict.measurement is None else margin_words(verdict.measurement)


class RoomRow(NamedTuple):
    """One row of the headroom as words: what is left before and after, of how much, and a remark."""

    what: str
    of: str
    before: str
    after: str
    limit: str
    remark: str


def room_row(row: RoomLeft) -> RoomRow:
    kind = clip(ids.path(row.id), _LONGEST) + (f", {row.of}" if row.of else "")
    now = row.new or row.old
    limit = "" if now is None or now.limit is None else _figure(now.limit, row.unit)
    remarks = [each for each in ("among the tightest" if row.is_tight else "", _why(row.new)) if each]
    return RoomRow(row.what, kind, _left(row.old), _left(row.new), limit, "; ".join(remarks))


def _why(row: Headroom | None) -> str:
    return f"not known: {clip(row.why, 120)}" if row is not None and row.why else ""


def _left(row: Headroom | None) -> str:
    if row is None:
        return "–"
    if row.left is None:
        return "not known"
    if row.what == BATTERY or row.left >= 0:
        return _figure(row.left, row.unit)
    return f"{_figure(-row.left, row.unit)} too much"


def _figure(value: float, unit: str) -> str:
    shown_number = number(value, 1)
    if not unit:
        return shown_number
    return f"{shown_number}{unit}" if unit == "U" else f"{shown_number} {unit}"


def summary(compared: ComparedPlans) -> str:
    """One line: how much of what."""
    changes = compared.changes
    counts = [
        (RELABELLED, len(changes.renamed)),
        (ADDED, len(_whole(changes.delta.new))),
        (REMOVED, len(_whole(changes.delta.gone))),
    ]
    counts += [
        (name, len({each.id for each in changes.of(name)}))
        for name in CATEGORIES
        if name not in (ADDED, REMOVED, RELABELLED)
    ]
    order = {name: place for place, name in enumerate(CATEGORIES)}
    said = [f"{count} {name}" for name, count in sorted(counts, key=lambda each: order[each[0]]) if count]
    return ", ".join(said) or "the network stays as it is"
