"""What is to be said of a cabinet's rear: what is there and how deep, what feeds it, which cables enter and by which way.

Takes a build and standings as seen from behind; gives strips.
"""

from collections import Counter

from firstfix.build import ids
from firstfix.build.cabling import Piece
from firstfix.build.hardware import Cabinet
from firstfix.build.model import Build
from firstfix.documents.drawing.cabinet.columns import Strip, head_strip, text_strip
from firstfix.documents.drawing.cabinet.cords import leaving, placed
from firstfix.documents.drawing.cabinet.front import View
from firstfix.documents.drawing.cabinet.listing import height_words
from firstfix.documents.drawing.cabinet.standing import CLASH, REAR, Face, Standing, empty_units, feeds, reach
from firstfix.documents.drawing.network.wiring import shown_jack
from firstfix.parts.facts import Fact
from firstfix.units import millimetres

# What is more would be a wall of words; the rows of the jacks say the same.
_MOST_NAMED, _MOST_LETTERS = 8, 250


def there(build: Build, cabinet: Cabinet, stands: tuple[Standing, ...], view: View) -> list[Strip]:
    """One line a thing, from the top down."""
    found = [(stand.mount.high, _strips(build, cabinet, stand)) for stand in stands if view.shows(stand)]
    found += [
        (high, [text_strip(f"{height_words(max(low, view.low), min(high, view.high))} empty", "")])
        for low, high in empty_units(build, cabinet)
        if low <= view.high and high >= view.low
    ]
    ordered = sorted(found, key=lambda each: -each[0])
    head = head_strip("What is there, at the front unless it says rear")
    return [head, *(strip for _, strips in ordered for strip in strips)]


def _strips(build: Build, cabinet: Cabinet, stand: Standing) -> list[Strip]:
    height = height_words(stand.mount.low, stand.mount.high)
    if stand.face is None or stand.mount.is_kept_free:
        return [text_strip(f"{height} kept free", stand.mount.what)]
    carried = [text_strip(f"on it {face.name}", _said(build, cabinet, face)) for face in stand.carried]
    return [text_strip(f"{height} {stand.face.name}", _thing(build, cabinet, stand, stand.face)), *carried]


def _thing(build: Build, cabinet: Cabinet, stand: Standing, face: Face) -> str:
    mounted = "mounted at the rear" if stand.mount.face == REAR else ""
    unseen = (
        ""
        if stand.is_seen
        else "no back to see"
        if stand.mount.is_over
        else "hidden by what is mounted at the rear"
    )
    clash = "clash: two things want these units" if stand.mark == CLASH else ""
    return "; ".join(filter(None, (clash, mounted, unseen, _said(build, cabinet, face))))


def _said(build: Build, cabinet: Cabinet, face: Face) -> str:
    deep = reach(face.part) if face.part else None
    depth = "depth not known" if deep is None else f"{millimetres(deep)} deep"
    if deep is not None and isinstance(cabinet.usable_depth, Fact):
        left = cabinet.usable_depth.low - deep
        over = f"{millimetres(-left)} more than the cabinet has"
        depth += f", {millimetres(left)} left" if left >= 0 else f", {over}"
    fed = [f"mains from {each}" for each in feeds(build).get(face.id, ())]
    return "; ".join((depth, *fed))


def rear_rails(cabinet: Cabinet, stands: tuple[Standing, ...]) -> list[Strip]:
    """What nobody said of rear rails, of the wall behind, and of where inlets are, said as not known."""
    names = [stand.face.name for stand in stands if stand.face and stand.mount.face == REAR]
    rails = (
        f"{', '.join(names)} {'needs' if len(names) == 1 else 'need'} them; the part does not say that there are any"
        if names
        else "nothing is mounted there; the part does not say whether it has any"
    )
    found = [head_strip("Rear"), text_strip("Rear rails", rails)]
    form = cabinet.part.cabinet
    if form is not None and form.mounting == "wall":
        found.append(text_strip("On a wall", "its rear is out of reach once it hangs; do this side first"))
    found.append(text_strip("Mains inlets", "parts do not say on which side they are"))
    return found


def entering(build: Build, cabinet: Cabinet) -> list[Strip]:
    """The cables with one end in the cabinet, by the way they take."""
    found = [head_strip("Cables that enter"), text_strip("Entry", _entry(build, cabinet))]
    for way_id, pieces in leaving(build, cabinet).items():
        way = build.ways.get(way_id)
        room = build.rooms.get(cabinet.room)
        name = way.name if way else f"from {room.name if room else 'the room'} itself"
        kind = f"{way.kind.replace('-', ' ')}: " if way else ""
        found.append(
            text_strip(
                name,
                f"{kind}{by_part(build, [piece for piece, _, _ in pieces])}. {_named(build, cabinet, pieces)}",
            )
        )
    mains = [
        f"{build.devices[device].name} from {source}"
        for device, sources in sorted(feeds(build).items())
        if device in build.devices and build.devices[device].cabinet == cabinet.id
        for source in sources
        if not _is_inside(build, cabinet, device)
    ]
    if mains:
        found.append(text_strip("mains leads", "; ".join(mains)))
    return found


def _is_inside(build: Build, cabinet: Cabinet, device: str) -> bool:
    """Whether all that feeds it is in the cabinet too."""
    sources = [feed.source for feed in build.mains_feeds if feed.device == device]
    return all(source in build.devices and build.devices[source].cabinet == cabinet.id for source in sources)


def _entry(build: Build, cabinet: Cabinet) -> str:
    brushes = sorted(
        (
            mount.low
            for mount in build.mounts
            if mount.cabinet == cabinet.id
            and (fitting := build.fittings.get(mount.item))
            and fitting.part.cover is not None
            and fitting.part.cover.form == "brush"
        ),
        reverse=True,
    )
    through = (
        f"through the brush at {', '.join(f'U{unit}' for unit in brushes)}"
        if brushes
        else "no brush panel in the plan"
    )
    return f"{through}; where the cabinet itself has openings is not in the plan"


def _named(build: Build, cabinet: Cabinet, pieces: list[tuple[Piece, str, str]]) -> str:
    said = [
        f"{shown_jack(build, inside)} to {placed(build, cabinet, outside)}" for _, inside, outside in pieces
    ]
    if len(said) > _MOST_NAMED or sum(map(len, said)) > _MOST_LETTERS:
        return "each is in the rows of its jack"
    return "; ".join(said)


def by_part(build: Build, pieces: list[Piece]) -> str:
    """ "4 × Installation cable, category 6", the most first."""
    counted = Counter(piece.part for piece in pieces)
    return ", ".join(
        f"{count} × {build.library[part].title if part in build.library else ids.path(part)}"
        for part, count in sorted(counted.items(), key=lambda each: (-each[1], each[0]))
    )
