"""Who is fed by PoE, by which class; what each giver has to give, from the mains or from its own feed; and what is taken of it.

Grants are settled from the mains outwards, since a device hands on only what it was granted; what is taken, from the far
ends inwards, since a device that hands power on draws what is taken of it. A figure that hangs on a missing fact runs from its
least to its most, and the fact is named among its doubts.
"""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import Channel, Piece
from firstfix.build.hardware import Device
from firstfix.build.places import Way
from firstfix.build.power import PowerRun, PowerSource
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.parts.part import GivesPoe, Library, Part, TakesPoe
from firstfix.plan.model import Plan
from firstfix.resolve.jacks import JackField
from firstfix.resolve.notes import Notes
from firstfix.resolve.poe_counting import Counted, Counting, counted_power, counting_of
from firstfix.resolve.poe_feeds import Feed, find_feeds, root_to_leaf
from firstfix.resolve.poe_grants import Grant, settle
from firstfix.resolve.poe_handing_on import Budget, Need, budget_of, need_at_jack
from firstfix.resolve.poe_loss import NO_CLASS, Resistance, Resistances
from firstfix.standards.poe import USUAL_PRIORITY


class PowerOverEthernet(NamedTuple):
    runs: dict[str, PowerRun]
    sources: dict[str, PowerSource]


def resolve_poe(
    plan: Plan,
    channels: dict[str, Channel],
    pieces: dict[str, Piece],
    ways: dict[str, Way],
    field: JackField,
    devices: dict[str, Device],
    library: Library,
    notes: Notes,
) -> PowerOverEthernet:
    feeds = find_feeds(plan, channels, pieces, field, devices)
    by_source: dict[str, list[Feed]] = {}
    for each in feeds:
        by_source.setdefault(field.jacks[each.source].device, []).append(each)
    priorities = {ids.device(spec.name): spec.poe_priority for spec in plan.devices if spec.poe_priority}
    work = _Work(field, devices, Resistances(pieces, ways, library), priorities)
    order = root_to_leaf(feeds, field, devices, notes)
    for source in order:
        work.grant(source, by_source.get(source, []))
    for source in reversed(order):
        work.count(source)
    return PowerOverEthernet(dict(sorted(work.runs.items())), dict(sorted(work.sources.items())))


class _Work:
    """What settling the givers one by one reads and fills."""

    def __init__(
        self,
        field: JackField,
        devices: dict[str, Device],
        resistances: Resistances,
        priorities: dict[str, str],
    ) -> None:
        self._field = field
        self._devices = devices
        self._resistances = resistances
        self._priorities = priorities
        # Big sites repeat the same few pairs of parts; each pair agrees once, and counts once over each shape of run.
        self._agreed: dict[tuple[str, str], Grant] = {}
        self._counted: dict[tuple[str, str, int], tuple[Need, Counted]] = {}
        self._grants: dict[str, list[Grant]] = {}
        self._budgets: dict[str, Budget] = {}
        self._grant_to: dict[str, Grant] = {}
        self.runs: dict[str, PowerRun] = {}
        self.sources: dict[str, PowerSource] = {}

    def grant(self, device_id: str, feeds: list[Feed]) -> None:
        part, gives = self._giving(device_id)
        fed_by = self._grant_to.get(device_id)
        granted = None if fed_by is None else (fed_by.row, fed_by.granted)
        self._budgets[device_id] = budget_of(part, gives, granted)
        grants = self._grants[device_id] = [self._agree(feed, part, gives) for feed in feeds]
        for each in grants:
            self._grant_to.setdefault(self._field.jacks[each.feed.sink].device, each)

    def count(self, device_id: str) -> None:
        """What is taken of a giver; those that it feeds and that hand power on were counted before it."""
        part, gives = self._giving(device_id)
        budget = self._budgets[device_id]
        counting = counting_of(gives, part)
        runs = [self._run(each, part, counting) for each in self._grants[device_id]]
        self.runs.update([(run.id, run) for run in runs])
        fed_by = self._grant_to.get(device_id)
        self.sources[device_id] = PowerSource(
            device_id, budget.watts, budget.terms, counting.word, counting.basis,
            _run_id(fed_by.feed) if fed_by else "", tuple(sorted([run.id for run in runs])), _sum(runs), budget.doubts,
        )  # fmt: skip

    def _giving(self, device_id: str) -> tuple[Part, GivesPoe]:
        part = self._devices[device_id].part
        assert part.gives_poe is not None
        return part, part.gives_poe

    def _taking(self, feed: Feed) -> tuple[Device, TakesPoe]:
        device = self._devices[self._field.jacks[feed.sink].device]
        assert device.part.takes_poe is not None
        return device, device.part.takes_poe

    def _agree(self, feed: Feed, part: Part, gives: GivesPoe) -> Grant:
        sink, takes = self._taking(feed)
        found = self._agreed.get((part.name, sink.part.name))
        if found is None:
            found = self._agreed[part.name, sink.part.name] = settle(feed, gives, takes)
        return found._replace(feed=feed)

    def _run(self, grant: Grant, part: Part, counting: Counting) -> PowerRun:
        feed = grant.feed
        sink, takes = self._taking(feed)
        lost = (
            NO_CLASS
            if grant.row is None
            else self._resistances.of(feed.pieces, feed.connections, grant.pairs)
        )
        need, counted = self._count(grant, part, sink, takes, counting, lost)
        priority = self._priorities.get(feed.lead_to) or self._priorities.get(sink.id, USUAL_PRIORITY)
        return PowerRun(
            _run_id(feed), feed.source, feed.sink, feed.channel, feed.pieces, feed.connections,
            grant.asked, grant.offered, grant.assigned, grant.granted, counted.watts, need.drawn,
            grant.pairs, grant.volts, lost.loop, lost.terms, counted.how, counted.doubts,
            lost.doubts, priority, feed.lead_to,
        )  # fmt: skip

    def _count(
        self,
        grant: Grant,
        part: Part,
        sink: Device,
        takes: TakesPoe,
        counting: Counting,
        lost: Resistance,
    ) -> tuple[Need, Counted]:
        source, fed = self.sources.get(sink.id), self._devices.get(grant.feed.lead_to)
        # A resistance is kept as long as this pass runs, so that its identity stands for its shape of run.
        shape = (part.name, sink.part.name, id(lost))
        found = self._counted.get(shape) if source is None and fed is None else None
        if found is None:
            given, at_lead = source.taken if source else None, fed.part if fed else None
            need = need_at_jack(sink.part, grant.granted, given, at_lead)
            found = need, counted_power(grant, takes, counting, need, lost)
            if source is None and fed is None:
                self._counted[shape] = found
        return found


def _run_id(feed: Feed) -> str:
    return f"power-run:{ids.path(feed.sink)}"


def _sum(runs: list[PowerRun]) -> Figure:
    unknown = [run for run in runs if isinstance(run.reserved, Unknown)]
    if unknown:
        return Unknown(f"what {', '.join(ids.path(run.sink) for run in unknown)} takes is not known")
    known = [run.reserved for run in runs if isinstance(run.reserved, Fact)]
    low, high = sum([each.low for each in known]), sum([each.high for each in known])
    return Fact(low, high, high, "sum of what its devices take")
