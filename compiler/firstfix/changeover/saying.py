"""A job in words: what to do, where, how to go back, and what to look out for."""

from collections.abc import Iterable, Iterator

from firstfix.build import ids
from firstfix.build.cabling import Piece
from firstfix.changeover.job import Job, Kind
from firstfix.changeover.model import Act
from firstfix.changeover.moving import Moving, jack_words
from firstfix.changeover.settings import device_of
from firstfix.changeover.sides import PLAIN, Laid, Setting, Side
from firstfix.changeover.ways import opening_words
from firstfix.units import metres
from firstfix.work import cautions
from firstfix.work.cautions import static_cautions
from firstfix.work.handling import HIGH_UP_KINDS, is_heavy
from firstfix.work.preparing import DIRECT_BURIAL, closing_words, way_cautions

_BACK_TO_OLD = "set them as they were"
_MOST_JACKS = 6


class Saying:
    """Words for the jobs between two sides; devices and jacks under their new names."""

    def __init__(self, old: Side, new: Side) -> None:
        self._old, self._new = old, new
        self._moving = Moving(old, new)
        self._vlan = {PLAIN: "none"}
        for side in (old, new):
            self._vlan |= {vlan.vid: f"{vlan.name} ({vlan.vid})" for vlan in side.build.vlans.values()}

    def act(self, job: Job) -> Act:
        what, back = self._piece(job) if job.ends or job.kind is Kind.PULL else self._thing(job)
        return Act(job.id, what, self._room(job), back)

    def acts(self, jobs: Iterable[Job]) -> Iterator[Act]:
        """A cord or run that is drawn at one end and plugged in elsewhere is one thing to do."""
        waiting = list(jobs)
        while waiting:
            job = waiting.pop(0)
            pair = next((each for each in waiting if self._is_pair(job, each)), None)
            if pair is None:
                yield self.act(job)
            else:
                waiting.remove(pair)
                yield self._repatch(job, pair) if pair.kind is Kind.PLUG else self._replug(job, pair)

    def _is_pair(self, out: Job, into: Job) -> bool:
        if self._moving.is_same(out, into):
            return True
        if out.kind is not Kind.UNPLUG or into.kind is not Kind.PLUG:
            return False
        one, other = self._cable(out), self._cable(into)
        return one.is_cord and other.is_cord and not {*one.ends}.isdisjoint(other.ends)

    def _replug(self, out: Job, into: Job) -> Act:
        what, back = self._moving.whole(out, into)
        return Act(into.id, what, self._room(into), back)

    def _repatch(self, out: Job, into: Job) -> Act:
        gone, come = self._cable(out), self._cable(into)
        (stays,) = {*gone.ends} & {*come.ends} if len({*gone.ends} & {*come.ends}) == 1 else ("",)
        if not stays:
            what = f"Replace the cord {_between(gone.ends)} by {_a_cord(come.piece)}"
            return Act(into.id, what, self._room(into), "plug the old cord in again")
        (leaves,), (goes) = {*gone.ends} - {stays}, next(iter({*come.ends} - {stays}))
        cord = (
            ""
            if gone.piece.length.sold == come.piece.length.sold and gone.piece.colour == come.piece.colour
            else f", with {_a_cord(come.piece)}"
        )
        what = f"Draw the cord of {jack_words(stays)} at {jack_words(leaves)} and plug it in at {jack_words(goes)}{cord}"
        return Act(into.id, what, self._room(into), f"plug it in at {jack_words(leaves)} again")

    def _cable(self, job: Job) -> Laid:
        return self._new.laid.get(job.subject) or self._old.laid[job.subject]

    def _piece(self, job: Job) -> tuple[str, str]:
        laid = self._cable(job)
        between = _between(laid.ends)
        if self._moving.is_moved(job):
            return self._moving.half(job)
        if job.kind is Kind.UNPLUG:
            if laid.is_cord:
                return f"Draw the cord {between}", "plug it in again"
            return f"Take the installed run {between} off at both ends", "connect it again"
        if job.kind is Kind.PULL:
            ways = ", ".join(ids.path(way) for way in laid.piece.route)
            return (
                f"Pull the run {between}{' through ' + ways if ways else ''}, make its ends and test it",
                "nothing hangs on it yet",
            )
        if job.kind is Kind.JOIN:
            return f"Connect the new run {between} at both ends", "take it off again"
        return f"Plug in {_a_cord(laid.piece)} {between}", "draw it again"

    def _thing(self, job: Job) -> tuple[str, str]:
        name = ids.path(job.subject)
        if job.is_setting:
            return self._setting(job, name)
        words = {
            Kind.PREPARE: (f"Make the way {name} ready", "nothing hangs on it yet"),
            Kind.OPEN: (f"Open the way {name} again{self._opening(job)}", "close it again"),
            Kind.CLOSE: (f"Close the way {name}{self._closing(job)}", "open it again"),
            Kind.HANG: (f"Put up the cabinet {name}", "nothing hangs on it yet"),
            Kind.FIT_IN: (f"Fit shelves and covers into the cabinet {name}", "take them out again"),
            Kind.FIT_OUT: (f"Take what is no longer needed out of the cabinet {name}", "fit it again"),
            Kind.TAKE_DOWN: (f"Take the empty cabinet {name} down", "put it up again"),
            Kind.TAKE_OUT: (f"Take out {name}", "put it back and plug its cords in again"),
        }
        return words[job.kind] if job.kind in words else self._device(job, name)

    def _opening(self, job: Job) -> str:
        build = self._new.build
        return f": {opening_words(build, build.ways[job.subject])}" if job.kind is Kind.OPEN else ""

    def _closing(self, job: Job) -> str:
        return f": {closing_words(self._new.build.ways[job.subject])}" if job.kind is Kind.CLOSE else ""

    def _device(self, job: Job, name: str) -> tuple[str, str]:
        new = self._new.devices[job.subject]
        where = f" {place}" if (place := self._place(job.subject)) else ""
        feeds = " and ".join(map(self._room_name, self._new.feeds.get(job.subject, ())))
        fed = f", on the mains of {feeds}" if feeds else ""
        bench = self._bench(job)
        if job.kind is Kind.FEED:
            return (
                f"Switch {name} off and feed it {'from ' + feeds if feeds else 'by PoE'}",
                "feed it as before",
            )
        if job.kind is Kind.MOVE:
            return (
                f"Move {name}{where.replace(' in ', ' to ', 1)}{fed}, with the cords that stay in it",
                "put it back where it was",
            )
        if job.kind is Kind.SWAP:
            old = self._old.devices[job.subject].part.name
            return (
                f"Replace {name} ({old}) by a {new.part.name}{where}{fed}{bench}; plug its cords in as they were",
                "put the old one back",
            )
        return f"Put in {name} ({new.part.name}){where}{fed}{bench}", "take it out again"

    def _bench(self, job: Job) -> str:
        kind = self._new.devices[job.subject].part.kind
        return ", set up on the bench before" if kind in ("switch", "gateway", "access-point") else ""

    def _place(self, device: str) -> str:
        room, cabinet, *rest = self._new.places[device]
        if cabinet:
            units = f", units {rest[1]}" if len(rest) > 1 else ""
            return f"into the cabinet {ids.path(cabinet)}{units}"
        return f"in {self._room_name(room)}" if room else ""

    def _setting(self, job: Job, name: str) -> tuple[str, str]:
        if job.kind is Kind.RULES:
            return f"Set in {name} who may reach whom, and which addresses it leases", _BACK_TO_OLD
        if job.kind in (Kind.NEW_NET, Kind.OLD_NET):
            return self._net(job, name), _BACK_TO_OLD
        if job.kind is Kind.ADDRESS:
            return f"Give {name} {self._address(job.subject)}", "give it its old address again"
        words = {
            Kind.READY: f"Set jacks of {name} before they are used",
            Kind.CLEAR: f"Clear jacks of {name} that are no longer used",
            Kind.WIDEN: f"Add VLANs at {name} on its link to {ids.path(job.towards)}",
            Kind.NARROW: f"Take VLANs off at {name} on its link to {ids.path(job.towards)}",
            Kind.TURN: f"Turn the link of {name} to {ids.path(job.towards)}",
            Kind.ACCESS: f"Set jacks of {name}",
        }
        said = [f"{_jack_name(jack)} {self._set(setting)}" for jack, setting in job.sets[:_MOST_JACKS]]
        if len(job.sets) > _MOST_JACKS:
            said.append(f"and {len(job.sets) - _MOST_JACKS} more as the plan says")
        detail = "" if job.kind is Kind.CLEAR else f": {'; '.join(said)}"
        jacks = f" ({', '.join(_jack_name(jack) for jack, _ in job.sets)})" if job.kind is Kind.CLEAR else ""
        return words[job.kind] + detail + jacks, _BACK_TO_OLD

    def _net(self, job: Job, name: str) -> str:
        """The VLANs that a router gets addresses in, or no longer has any in."""
        vlans = [side.vlans.get(job.subject, frozenset()) for side in (self._new, self._old)]
        if job.kind is Kind.OLD_NET:
            gone = ", ".join(self._vlan[vid] for vid in sorted(vlans[1] - vlans[0]))
            return f"Take the addresses of {name} in {gone} away"
        claims = self._new.claims.get(job.subject, {})
        said = [
            f"{claims.get(vid, 'its address')} in {self._vlan[vid]}" for vid in sorted(vlans[0] - vlans[1])
        ]
        return f"Give {name} also {', '.join(said)}"

    def _set(self, setting: Setting) -> str:
        tagged = ", ".join(self._vlan[vid] for vid in sorted(setting.tagged))
        lane = f", a lane of {ids.path(setting.group)}" if setting.group else ""
        return f"untagged {self._vlan[setting.untagged]}, tagged {tagged or 'none'}{lane}"

    def _address(self, device: str) -> str:
        """Its new ones where it has any of its own; else the VLAN in which it is managed."""
        had = self._old.claims.get(device, {})
        claims = {
            vid: address
            for vid, address in self._new.claims.get(device, {}).items()
            if had.get(vid) != address
        }
        if claims:
            return ", ".join(
                f"the address {claims[vid]} in {self._vlan.get(vid, str(vid))}" for vid in sorted(claims)
            )
        vid = self._new.own_vlan.get(device, PLAIN)
        return f"an address in {self._vlan[vid]}" if vid != PLAIN else "the addresses that the plan says"

    def _room(self, job: Job) -> str:
        if job.ends or job.kind is Kind.PULL:
            ends = [device_of(end) for end in self._moving.at(self._cable(job))]
            return " and ".join(dict.fromkeys(filter(None, (self._room_of(each) for each in ends))))
        return self._room_of(job.subject)

    def _room_of(self, subject: str) -> str:
        for side in (self._new, self._old):
            if subject in side.places:
                return self._room_name(side.places[subject][0])
            if subject in side.build.cabinets:
                return self._room_name(side.build.cabinets[subject].room)
            if subject in side.build.ways:
                return " and ".join(map(self._room_name, side.build.ways[subject].ends))
        return ""

    def _room_name(self, room: str) -> str:
        for side in (self._new, self._old):
            if room in side.build.rooms:
                return side.build.rooms[room].name
        return ids.path(room)

    def cautions(self, job: Job) -> Iterator[str]:
        """In the usual words; each once for a step."""
        if job.kind is Kind.HANG:
            yield from (*static_cautions("anchor"), *static_cautions("hang"))
        elif job.kind is Kind.TAKE_DOWN:
            yield cautions.LIFT
        elif job.kind in (Kind.PREPARE, Kind.OPEN, Kind.CLOSE):
            yield from self._of_hole(job)
        elif job.ends or job.kind is Kind.PULL:
            yield from self._of_cable(self._cable(job), is_connected=job.kind is not Kind.PULL)
        elif not job.is_setting and ids.kind(job.subject) == "device":
            yield from self._of_device(job.subject)

    def _of_hole(self, job: Job) -> Iterator[str]:
        """Holes are drilled where a way is made, and nothing is dug where one is closed."""
        way = self._new.build.ways[job.subject]
        usual = way_cautions(way)
        if job.kind is Kind.PREPARE or way.kind == DIRECT_BURIAL:
            yield from usual
        else:
            yield from (each for each in usual if each in (cautions.LADDER, cautions.OUTDOOR))

    def _of_device(self, device: str) -> Iterator[str]:
        sides = [side for side in (self._old, self._new) if device in side.devices]
        if any(device in side.feeds for side in sides):
            yield cautions.MAINS
        parts = [side.devices[device].part for side in sides]
        if any(part.kind in HIGH_UP_KINDS for part in parts):
            yield cautions.LADDER
        if any(map(is_heavy, parts)):
            yield cautions.LIFT
        if any(part.kind == "surge-protector" for part in parts):
            yield from (cautions.EARTH, cautions.LIGHTNING)

    def _of_cable(self, laid: Laid, *, is_connected: bool) -> Iterator[str]:
        side = self._new if laid.key in self._new.laid else self._old
        part = side.build.library.get(laid.piece.part)
        if part is not None and part.cable is not None and part.cable.medium == "fibre":
            yield cautions.LASER
        ways = [side.build.ways[way] for way in laid.piece.route]
        if any(way.exposure != "indoor" for way in ways):
            yield cautions.LIGHTNING
        if is_connected and not laid.is_cord and any(laid.key in feed.pieces for feed in side.poe):
            yield cautions.POE
        kinds = {side.devices[device_of(end)].part.kind for end in self._moving.at(laid)}
        if not kinds.isdisjoint(HIGH_UP_KINDS):
            yield cautions.LADDER


def _a_cord(piece: Piece) -> str:
    length = f" of {metres(piece.length.sold)}" if piece.length.sold else ""
    return f"a {piece.colour} cord{length}" if piece.colour else f"a cord{length}"


def _jack_name(jack: str) -> str:
    return jack_words(jack).partition("/")[2]


def _between(ends: Iterable[str]) -> str:
    return " – ".join(map(jack_words, ends))
