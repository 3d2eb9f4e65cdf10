"""Rules over what the resolver could not settle: each gap is a finding of the rule that it names."""

from collections.abc import Callable, Iterable, Iterator, Sized

from firstfix.build.model import Build
from firstfix.build.reasons import Gap
from firstfix.finding.kinds import Kind
from firstfix.finding.model import COMMON_PRACTICE, PLAN_LANGUAGE, Basis, Cure, Edit, Level, Safety
from firstfix.graphs.wired import wired_jacks
from firstfix.parts.facts import Unknown
from firstfix.parts.part import Part
from firstfix.rules.rule import FineMany, Outcome, Rule
from firstfix.rules.unsettled_cures import outlet_cures, room_cures

Subjects = Callable[[Build], Iterable[str]]


def _count(subjects: Iterable[str]) -> int:
    return len(subjects) if isinstance(subjects, Sized) else sum(1 for _ in subjects)


def _named(build: Build) -> Iterable[str]:
    return (*build.devices, *build.links, *build.cabinets, *build.ways, *build.vlans)


def _rooms(build: Build) -> Iterable[str]:
    return build.rooms


def _placed(build: Build) -> Iterable[str]:
    return (*build.devices, *build.cabinets)


def _links(build: Build) -> Iterable[str]:
    return build.links


def _plugged(build: Build) -> Iterable[str]:
    open_ = _uncounted(build)
    return [feed.device for feed in build.mains_feeds if feed.source not in open_]


def _givers(build: Build) -> Iterable[str]:
    return build.power_sources


def _subnets(build: Build) -> Iterable[str]:
    return (vlan.id for vlan in build.vlans.values())


def _claims(build: Build) -> Iterable[str]:
    return sorted({claim.device for claim in build.addresses})


def _fitted(build: Build) -> Iterable[str]:
    return build.cabinets


def _openings(build: Build) -> Iterable[str]:
    kinds = ("panel", "outlet")
    return [
        each.id for each in build.devices.values() if each.part.kind in kinds and _has_openings(each.part)
    ]


def _has_openings(part: Part) -> bool:
    return bool(part.jacks) and part.jacks[0].needs_module != ""


def _uncounted(build: Build) -> dict[str, str]:
    """Rooms into whose own outlets things are plugged, though nobody counted them."""
    sources = {feed.source for feed in build.mains_feeds}
    rooms = (room for room in build.rooms.values() if room.id in sources)
    why = "how many mains outlets are free there (`mains:` of the room)"
    return {room.id: why for room in rooms if isinstance(room.mains_outlets, Unknown)}


def _written_instead(gap: Gap) -> tuple[Cure, ...]:
    if not gap.instead or gap.at is None:
        return ()
    return (Cure(f"write '{gap.instead}'", (Edit(gap.at, gap.instead),), Safety.NEEDS_REVIEW),)


def _gap_rule(
    id: str,
    basis: Basis,
    subjects: Subjects,
    help: str,
    unknown: Callable[[Build], dict[str, str]] | None = None,
    level: Level = Level.ERROR,
    cures: Callable[[Build, Gap], tuple[Cure, ...]] | None = None,
) -> Rule:
    def check(build: Build) -> Iterator[Outcome]:
        gaps = [gap for gap in build.gaps if gap.rule == id]
        for gap in gaps:
            yield each.finding(
                gap.why,
                gap.subject,
                gap.at or build.provenance.span(gap.subject),
                cures=_written_instead(gap) or (cures(build, gap) if cures is not None else ()),
            )
        open_ = {} if unknown is None else unknown(build)
        for subject, missing in open_.items():
            yield each.cannot_tell(subject, build.provenance.span(subject), missing)
        faulty = {gap.subject for gap in gaps}
        yield FineMany(len(set(subjects(build)) - faulty) if faulty else _count(subjects(build)))

    check.__doc__ = help
    each = Rule(Kind(id, level, help, basis), check)
    return each


RULES: tuple[Rule, ...] = (
    _gap_rule(
        "plan-size", PLAN_LANGUAGE, _placed,
        """A plan has no more jacks, and no more rooms wired to one another, than can be worked out on an ordinary machine.

    Because: a plan may come from a stranger, and must not be able to fill the machine or to keep it busy.
    Compares: the jacks of all devices together, fronts and rears, with the limit of one million; and how often the search for routes
    between rooms looks at a way, with the limit of three million.
    Remedy: split the plan by site.
    """,
    ),
    _gap_rule(
        "name-unknown", PLAN_LANGUAGE, _named,
        """A name that the plan uses is one that it declares.

    Because: a run to a device that does not exist is neither bought nor drawn.
    Compares: each reference with the names of the kind that is expected there; the nearest is offered.
    Remedy: mend the name, or declare the thing.
    """,
    ),
    _gap_rule(
        "name-duplicate", PLAN_LANGUAGE, _rooms,
        """A room's name stands once in its site.

    Because: a reference to it would mean either of two rooms.
    Remedy: rename one.
    """,
    ),
    _gap_rule(
        "part-kind", PLAN_LANGUAGE, _placed,
        """A part is of the kind that its place asks for.

    Because: a camera cannot be a cabinet, nor a jack a cable.
    Remedy: `firstfix parts` searches the library by words and kinds.
    """,
    ),
    _gap_rule(
        "room-unsaid", PLAN_LANGUAGE, _placed,
        """Every device and cabinet is in a room.

    Because: without it no cable length can be told.
    Skips: a plan that declares no rooms; with one room, that one is taken.
    Remedy: write `room:`, or put the device into a cabinet's layout.
    """,
    ),
    _gap_rule(
        "room-conflict", PLAN_LANGUAGE, _placed,
        """A device that stands in a cabinet is in the cabinet's room.

    Because: one of the two is a slip, and cable lengths follow from the room.
    Remedy: remove the device's `room:`, or take it out of the layout.
    """,
        cures=room_cures,
    ),
    _gap_rule(
        "mounted-twice", PLAN_LANGUAGE, _placed,
        """A device stands in one place of one cabinet.

    Because: it would be bought once and be missing at the other place.
    Remedy: remove it from one of the two places; a taller device takes a range of units such as `4-6`.
    """,
    ),
    _gap_rule(
        "jack-used-twice", PLAN_LANGUAGE, wired_jacks,
        """A jack takes one plug, and a panel's or outlet's jack one cord at its front and one installed run at its rear.

    Because: two cables cannot be in one jack, and the plan means something else.
    Compares: all ends of all runs with each other.
    Remedy: leave the jack out and let a free one be found, or write another.
    """,
    ),
    _gap_rule(
        "jacks-exhausted", PLAN_LANGUAGE, _links,
        """Every run finds a free jack that suits it at each of its ends.

    Because: jacks are assigned so that as many runs as possible find one; if one still finds none, there are too few.
    Compares: the runs that end at a device with its jacks, by family, by power and by what is written.
    Remedy: a device with more jacks, a second one, or a wider range in the run.
    """,
    ),
    _gap_rule(
        "no-way", PLAN_LANGUAGE, _links,
        """An installed run has a way from its one room to the other.

    Because: without it there is no length and no check of what it passes.
    Remedy: add the missing way under `ways:` with its length, or mend the room of one of the devices.
    """,
    ),
    _gap_rule(
        "cord-length", COMMON_PRACTICE, _links,
        """A cord as long as needed is sold.

    Because: a cord that is too short hangs across the front or cannot be plugged at all.
    Compares: the needed length (units apart, across the front, dressing) with the lengths the part is sold in.
    Remedy: put the two closer together, or use a cord part that is sold longer.
    """,
    ),
    _gap_rule(
        "length-unplaced", PLAN_LANGUAGE, _links,
        """A link's `length` is that of its one installed run, or, where it has none, of its one cord.

    Because: with several it would be anybody's guess which of them was measured.
    Remedy: write the link's other runs as links of their own, or leave `length` out and mend the ways' lengths.
    """,
    ),
    _gap_rule(
        "power-ring", COMMON_PRACTICE, _givers,
        """Devices that hand PoE on get it from outside themselves.

    Because: two devices that each wait for the other's power never start.
    Remedy: feed one of them from the mains or from an injector.
    """,
    ),
    _gap_rule(
        "mains-outlets", COMMON_PRACTICE, _plugged,
        """Everything with a mains plug finds a free outlet.

    Because: the missing outlet shows on the last day, and chained strips are a fire risk.
    Compares: plugs with the outlets of strips and UPSs in reach, and with `mains:` of the room. No strip is plugged into another,
        nor anything into what it feeds itself, nor into a strip or UPS in another room.
    Cannot tell: a room that does not say how many outlets are free is taken to have enough.
    Remedy: a strip with more outlets, or have outlets added by a licensed electrician.
    """,
        unknown=_uncounted, cures=outlet_cures,
    ),
    _gap_rule(
        "subnet-form", Basis("RFC 4632"), _subnets,
        """A subnet is a network address and a prefix length, without host bits.

    Remedy: write the network itself, such as 10.20.30.0/24.
    """,
    ),
    _gap_rule(
        "lease-range", Basis("RFC 2131"), _subnets,
        """A range of leases lies within the hosts of its subnet.

    Remedy: write the first and the last host number, such as 100-199.
    """,
    ),
    _gap_rule(
        "address-form", Basis("RFC 4632"), _claims,
        """A host is a number within its subnet, or an address.

    Because: network and broadcast addresses belong to no host (RFC 1122, section 3.2.1.3).
    Remedy: write the host number alone (`host: 53`).
    """,
    ),
    _gap_rule(
        "address-outside-subnet", Basis("RFC 4632"), _claims,
        """A device's address lies in the subnet of its VLAN.

    Because: nobody in the VLAN would find it.
    Remedy: write the host number alone, or mend the device's VLAN.
    """,
    ),
    _gap_rule(
        "addresses-exhausted", Basis("RFC 4632"), _claims,
        """Every device that needs an address finds a free one in its subnet.

    Remedy: a larger subnet, or fewer addresses lent out by `dhcp:`.
    """,
    ),
    _gap_rule(
        "fastener-unknown", COMMON_PRACTICE, _fitted,
        """The fasteners for a cabinet's rails are known.

    Because: a missing set of nuts and screws stops the work for days.
    Remedy: say `rails:` and `thread:` of the cabinet's part.
    """,
    ),
    _gap_rule(
        "module-fits", COMMON_PRACTICE, _openings,
        """The jack modules of the cabling fit the openings of panels and outlets, and its plugs the wires that they go on.

    Because: a module that does not click into its opening is found out with the panel already on the rails, and a plug whose
        teeth are made for strands works loose on a solid wire within a year or two.
    Compares: what the module of `cabling: jacks:` says that it `fits` with the name of each opening that a run comes to; `wire` of
        `cabling: plugs:` with whether the cable of a run that ends in a plug is stranded.
    Remedy: another module or plug under `cabling:`, or a panel with such openings.
    """,
    ),
    _gap_rule(
        "module-category", Basis("ANSI/TIA-568.2-D (2018)", "channel: no better than its worst component; from memory"),
        _openings,
        """A jack module is of no lower category than the cable on its block.

    Because: the better cable is paid for, and the channel is no better than its module.
    Compares: the ranks of the two categories (3, 5, 5e, 6, 6a, 7, 7a, 8), each of which may replace those below it.
    Skips: categories that the tables do not know.
    Remedy: a module of the cable's category under `cabling: jacks:`, or the plainer cable.
    """,
        level=Level.NOTE,
    ),
    _gap_rule(
        "transceiver-unknown", COMMON_PRACTICE, _links,
        """A fibre in a cage has a transceiver that fits both.

    Because: the run is pulled and cannot be lit.
    Remedy: add a part of kind transceiver with `fits:` the cage and `category:` the fibre.
    """,
    ),
)  # fmt: skip
