"""What the rules on channels share: the rate a channel is to carry, its worst category, its lengths, names to show.

Takes a build; `ChannelFacts` indexes it once. Where something is not known, the answer is Unknown and says what is missing.
"""

from functools import cache
from typing import NamedTuple

from firstfix.build.cabling import Channel, Piece
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import CableForm
from firstfix.span import Span
from firstfix.standards.twisted_pair import category


class Grade(NamedTuple):
    """The worst category along a channel, the part that brings it, and whether all of the cable is screened."""

    category: str
    part: str
    is_screened: bool


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
        is_module = {name: part.kind == "jack-module" for name, part in build.library.items()}
        for item in build.items:
            if is_module.get(item.part, False):
                self._modules.setdefault(item.for_id, []).append(item.part)
        self._of_device: dict[str, tuple[tuple[str, str], ...]] = {}

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

    def rate(self, channel: Channel) -> float | Unknown:
        """The rate the ends will agree on [Mb/s]: the lower of their highest ones, and no more than what stands in line bears."""
        rates: list[float] = []
        for jack_id in channel.ends:
            jack = self._build.jacks[jack_id]
            if isinstance(jack.rate, Unknown):
                name = self._build.devices[jack.device].name
                return Unknown(f"the rate of '{name}/{jack.name}' is not known")
            rates.append(jack.rate.low)
        for device_id in channel.through:
            rates.extend(
                spec.rate.low
                for spec in self._build.devices[device_id].part.jacks
                if isinstance(spec.rate, Fact)
            )
        return min(rates)

    def grade(self, channel: Channel) -> Grade | Unknown:
        """The worst category of cables, cords and connecting hardware: mixed ones take the worst (ANSI/TIA-568.2-D)."""
        forms = self.pieces(channel)
        worst: tuple[int, str, str] | None = None
        stated = [(form.category, piece.part) for piece, form in forms]
        for device_id in channel.through:
            stated.extend(self._hardware(device_id))
        for name, part in stated:
            rank = _rank(name)
            if rank is None:
                return Unknown(f"the part '{part}' does not say its category")
            if worst is None or rank < worst[0]:
                worst = (rank, name, part)
        assert worst is not None
        return Grade(worst[1], worst[2], all(form.is_screened for _, form in forms))

    def _hardware(self, device_id: str) -> tuple[tuple[str, str], ...]:
        found = self._of_device.get(device_id)
        if found is None:
            found = self._of_device[device_id] = self._hardware_of(device_id)
        return found

    def _hardware_of(self, device_id: str) -> tuple[tuple[str, str], ...]:
        part = self._build.devices[device_id].part
        modules = sorted(set(self._modules.get(device_id, ())))
        if modules:
            return tuple((self._build.library[name].category, name) for name in modules)
        if part.category:
            return ((part.category, part.name),)
        if any(isinstance(spec.rate, Fact) for spec in part.jacks):
            return ()  # An injector: its jacks' rate says what it bears.
        return (("", part.name),)


channel_facts = once_per_build(ChannelFacts)
"""The facts about one build, made once for all rules that ask."""
