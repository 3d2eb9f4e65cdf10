"""What the rules on channels share: the rate a channel is to carry, its worst category, its lengths, names to show.

Takes a build; `ChannelFacts` indexes it once. Where something is not known, the answer is Unknown and says what is missing.
"""

import math
from collections import defaultdict
from functools import cache
from typing import NamedTuple

from firstfix.build.cabling import Channel, Piece
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import CableForm, Part
from firstfix.span import Span
from firstfix.standards.twisted_pair import category


class Grade(NamedTuple):
    """The worst category along a channel, the part that brings it, and whether all of the cable is screened."""

    category: str
    part: str
    is_screened: bool


class _Material(NamedTuple):
    """What one cable, cord or piece of hardware brings to a channel."""

    category: str
    part: str
    is_screened: bool


class InLine(NamedTuple):
    """What a thing between the ends brings to a channel: its materials, and the rate that it bears [Mb/s]."""

    materials: tuple[_Material, ...]
    borne: float


@cache
def _rank(name: str) -> int | None:
    known = category(name)
    return None if known is None else known.rank


class ChannelFacts:
    """One pass over a build's jack modules; then each question costs little."""

    def __init__(self, build: Build) -> None:
        self._build = build
        # Openings are filled by modules, which are items: the panel itself has no category.
        self._modules: dict[str, list[str]] = {}
        is_module: dict[str, bool] = {}
        for item in build.items:
            if item.part not in is_module:
                part = build.library.get(item.part)
                is_module[item.part] = part is not None and part.kind == "jack-module"
            if is_module[item.part]:
                self._modules.setdefault(item.for_id, []).append(item.part)
        self._in_line: dict[str, InLine] = {}
        self._borne_by: dict[str, float] = {}
        self._grades: dict[tuple[object, ...], Grade | Unknown] = {}
        self._sent: defaultdict[str, set[float]] | None = None

    def shown(self, channel: Channel) -> str:
        near, far = (self._build.jacks[jack] for jack in channel.ends)
        devices = self._build.devices
        return f"'{devices[near.device].name}/{near.name}' to '{devices[far.device].name}/{far.name}'"

    def at(self, channel: Channel) -> Span | None:
        return self._build.provenance.span(channel.link)

    def pieces(self, channel: Channel) -> tuple[tuple[Piece, CableForm], ...]:
        """The channel's pieces with what they are made of; resolve lets none through that is no cable or cord."""
        found = []
        for piece_id in channel.pieces:
            piece = self._build.pieces[piece_id]
            form = self._build.library[piece.part].cable
            assert form is not None
            found.append((piece, form))
        return tuple(found)

    def wavelengths(self, channel: Channel) -> frozenset[float]:
        """What the modules that the build has at the channel's ends send at [nm]; nothing of those that do not say it."""
        if self._sent is None:
            self._sent = defaultdict(set)
            for item in self._build.items:
                part = self._build.library.get(item.part)
                if part is not None and part.optics is not None and isinstance(part.optics.wavelength, Fact):
                    self._sent[item.for_id].add(part.optics.wavelength.typical)
        return frozenset().union(*(self._sent.get(each, ()) for each in channel.pieces))

    def rate(self, channel: Channel) -> float | Unknown:
        """The rate the ends will agree on [Mb/s]: the lower of their highest ones, and no more than what stands in line bears."""
        for jack_id in channel.ends:
            jack = self._build.jacks[jack_id]
            if isinstance(jack.rate, Unknown):
                name = self._build.devices[jack.device].name
                return Unknown(f"the rate of '{name}/{jack.name}' is not known")
        return self.rate_at_most(channel)

    def rate_at_most(self, channel: Channel) -> float | Unknown:
        """As `rate`, but from what is known alone: the ends cannot agree on more. Unknown if nothing is known."""
        found = [self._build.jacks[jack].rate for jack in channel.ends]
        rates = [each.low for each in found if isinstance(each, Fact)]
        if not rates:
            return Unknown("no rate is known of either end")
        rates.extend([self.in_line(device).borne for device in channel.through])
        return min(rates)

    def in_line(self, device_id: str) -> InLine:
        found = self._in_line.get(device_id)
        if found is None:
            part = self._build.devices[device_id].part
            found = self._in_line[device_id] = InLine(self._materials(device_id, part), self._borne(part))
        return found

    def _borne(self, part: Part) -> float:
        """The rate that a thing in line bears; no bound where its jacks are passive."""
        found = self._borne_by.get(part.name)
        if found is None:
            rates = [spec.rate.low for spec in part.jacks if isinstance(spec.rate, Fact)]
            found = self._borne_by[part.name] = min(rates, default=math.inf)
        return found

    def grade(self, channel: Channel) -> Grade | Unknown:
        """The worst category of cables, cords and connecting hardware: mixed ones take the worst (ANSI/TIA-568.2-D).

        Screened is only what is screened all along; hardware that does not say so is taken as unscreened, the stricter.
        """
        parts = [self._build.pieces[piece].part for piece in channel.pieces]
        hardware = [self.in_line(device).materials for device in channel.through]
        key = (*parts, *hardware)
        found = self._grades.get(key)
        if found is None:
            found = self._grades[key] = self._graded(parts, hardware)
        return found

    def _graded(self, parts: list[str], hardware: list[tuple[_Material, ...]]) -> Grade | Unknown:
        forms = [(part, form) for part in parts if (form := self._build.library[part].cable) is not None]
        made_of = [_Material(form.category, part, form.is_screened) for part, form in forms]
        made_of.extend(each for device in hardware for each in device)
        worst: tuple[int, _Material] | None = None
        for material in made_of:
            rank = _rank(material.category)
            if rank is None:
                return Unknown(f"the part '{material.part}' does not say its category")
            if worst is None or rank < worst[0]:
                worst = (rank, material)
        assert worst is not None
        return Grade(worst[1].category, worst[1].part, all(each.is_screened for each in made_of))

    def _materials(self, device_id: str, part: Part) -> tuple[_Material, ...]:
        modules = [self._build.library[name] for name in sorted(set(self._modules.get(device_id, ())))]
        if modules:
            return tuple(_Material(each.category, each.name, each.screened is True) for each in modules)
        if part.category:
            return (_Material(part.category, part.name, part.screened is True),)
        if any(isinstance(spec.rate, Fact) for spec in part.jacks):
            return ()  # An injector: its jacks' rate says what it bears.
        return (_Material("", part.name, False),)


channel_facts = once_per_build(ChannelFacts)
"""The facts about one build, made once for all rules that ask."""


@once_per_build
def powered_channels(build: Build) -> frozenset[str]:
    """Ids of the channels that carry PoE."""
    return frozenset(run.channel for run in build.power_runs.values())
