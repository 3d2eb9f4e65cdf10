"""The rule on things that get no power at all, neither by PoE nor from the mains, with the reason why.

Takes a build; yields an outcome for each device that needs power.
"""

from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Cure, Label, Level
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import ACTIVE_KINDS
from firstfix.rules.power_path import device_of, name_of
from firstfix.rules.rule import Fine, Outcome, Rule, rule


@rule("unpowered", Level.ERROR, COMMON_PRACTICE)
def unpowered(build: Build) -> Iterator[Outcome]:
    """Whether each thing that needs power gets any, by PoE or from the mains.

    Because: everything is on the wall, and one thing stays dark since its channel ends at a jack that gives no PoE.
    Compares: the count of its feeds >= 1
    Skips: passive things, and those that draw nothing; devices that are denied a class (poe-class has those).
    Cannot tell: a device on a link that has a fault, one that does not say how it is fed.
    Remedy: a jack that gives PoE, an injector in the run, a mains outlet.
    """
    by_poe = {device_of(build, run.sink) for run in build.power_runs.values()}
    by_poe |= {run.feeds for run in build.power_runs.values() if run.feeds}
    by_mains = {feed.device for feed in build.mains_feeds}
    unsure = _unsettled(build)
    wired: _Wired | None = None
    for device in build.devices.values():
        if not _needs_power(device):
            continue
        if device.id in by_poe or device.id in by_mains:
            yield Fine(device.id)
            continue
        at = build.provenance.span(device.id, "part")
        if device.id in unsure or (build.rooms and not device.room):
            yield unpowered.waits(device.id, at, "what should feed it has a fault of its own")
        elif device.part.takes_poe is None and not device.part.mains.inlet:
            yield unpowered.cannot_tell(
                device.id, at, f"the part '{device.part.name}' does not say how it is fed"
            )
        else:
            wired = wired or _Wired(build)
            yield unpowered.finding(
                wired.why(device), device.id, at, related=wired.places(device), cures=_feeding_cures(device)
            )


def _needs_power(device: Device) -> bool:
    part = device.part
    if part.takes_poe is not None or part.mains.inlet:
        return True
    if part.kind not in ACTIVE_KINDS:
        return False
    return isinstance(part.draw, Unknown) or part.draw.high > 0


def _unsettled(build: Build) -> frozenset[str]:
    """Devices whose feed may hang on a fault that has its own finding already."""
    found = set(build.unsettled)
    for gap in build.gaps:
        link = build.links.get(gap.subject)
        found.update(link.hops if link is not None else (gap.subject,))
    return frozenset(found)


class _Wired:
    """What is plugged in at each jack, to say why a device gets no power."""

    def __init__(self, build: Build) -> None:
        self._build = build
        self._beyond: dict[str, tuple[str, str]] = {}
        for channel in build.channels.values():
            near, far = channel.ends
            self._beyond[near] = (far, channel.id)
            self._beyond[far] = (near, channel.id)
        self._loose = {
            jack: end.jack for end in build.open_ends for piece in end.pieces for jack in build.pieces[piece].ends
        }  # fmt: skip

    def why(self, device: Device) -> str:
        takes = device.part.takes_poe
        if takes is None:
            return f"'{device.name}' needs mains, and no outlet feeds it"
        if device.part.kind == "splitter":
            return f"'{device.name}' splits PoE from its data, and {self._around(device)}"
        only = (
            "PoE or mains, and no outlet feeds it; as to PoE, it"
            if device.part.mains.inlet
            else "PoE only and"
        )
        return f"'{device.name}' takes {only} {self._at_jacks(device, takes.jacks)}"

    def _at_jacks(self, device: Device, taking: tuple[str, ...]) -> str:
        jacks = [self._build.jacks[each] for each in self._build.jacks_of[device.id]]
        used = [jack for jack in jacks if jack.id in self._beyond]
        for jack in used:
            if jack.power == "takes":
                far, channel = self._beyond[jack.id]
                blocker, how = self._blocker(channel)
                if blocker:
                    return f"has '{blocker}' in its channel, which {how}"
                end = self._build.jacks[far]
                return f"its channel ends at '{name_of(self._build, far)}/{end.name}', which gives none"
        loose = [self._loose[jack.id] for jack in jacks if jack.id in self._loose]
        if loose:
            end = self._build.jacks[loose[0]]
            return f"its cable ends at '{name_of(self._build, end.id)}/{end.name}' and leads no further"
        if used:
            return f"is plugged in at jack '{used[0].name}', but takes power at '{', '.join(taking)}'"
        return "is plugged into nothing"

    def _around(self, splitter: Device) -> str:
        """Why a thing in the middle of a run gets nothing: what its run leads to on the side that it takes power from."""
        channels = self._build.channels.values()
        channel = next((each for each in channels if splitter.id in each.through), None)
        if channel is None:
            return "its run leads nowhere"
        ends = " and ".join(
            f"'{name_of(self._build, end)}/{self._build.jacks[end].name}'" for end in channel.ends
        )
        taking = splitter.part.takes_poe.jacks[0] if splitter.part.takes_poe else ""
        return f"nothing towards its jack '{taking}' gives any; its run joins {ends}"

    def _blocker(self, channel: str) -> tuple[str, str]:
        """What keeps power from the device, and how. An injector that doesn't feed it stands the wrong way round."""
        hows = {
            "blocks": "lets no power pass",
            "injects": "is the wrong way round and gives power the other way",
        }
        for each in self._build.channels[channel].through:
            device = self._build.devices[each]
            for one in device.part.passes:
                if one.power in hows:
                    return device.name, hows[one.power]
        return "", ""

    def places(self, device: Device) -> tuple[Label, ...]:
        found = []
        for jack in self._build.jacks_of[device.id]:
            if jack in self._beyond:
                far = self._build.jacks[self._beyond[jack][0]].device
                span = self._build.provenance.span(far, "part")
                found.append(Label(span, f"'{self._build.devices[far].name}' is at the other end"))
        return tuple(found)


def _feeding_cures(device: Device) -> tuple[Cure, ...]:
    takes = device.part.takes_poe
    if takes is None:
        return (Cure(f"say where '{device.name}' is plugged in with 'power:', or count a free outlet in its room with 'mains:'"),)  # fmt: skip
    jack = f"'{device.name}/{takes.jacks[0]}'" if takes.jacks else f"'{device.name}'"
    asked = f" of class {int(takes.poe_class.typical)}" if isinstance(takes.poe_class, Fact) else ""
    return (Cure(f"run {jack} to a jack that gives PoE{asked}, or put an injector{asked} in its run"),)


RULES: tuple[Rule, ...] = (unpowered,)
