"""Which outlet of its strip or UPS each plug takes where adaptors cover their neighbours: the arrangement that `outlets-covered` counts.

Takes the feeds as they were handed out, lowest free outlet first; gives them with outlets that nothing covers, if the row has room for
that. Rows without adaptors stay as they are. What has an outlet from before keeps it while an arrangement around it exists.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence

from firstfix.algorithms.outlet_row import Plug, outlet_row
from firstfix.allocations.choices import KeptFeed
from firstfix.build.hardware import Device
from firstfix.build.power import MainsFeed
from firstfix.parts.facts import Fact
from firstfix.resolve.kept import Kept

Served = tuple[MainsFeed, KeptFeed | None]


def covered_by(device: Device) -> int:
    """Outlets that its adaptor covers beside its own, as far as that is known."""
    mains = device.part.mains
    return int(mains.blocks.high) if mains.inlet == "adaptor" and isinstance(mains.blocks, Fact) else 0


def beside_adaptors(
    served: Iterable[Served], devices: dict[str, Device], can_turn: bool, kept: Kept
) -> list[MainsFeed]:
    """Every feed, in any order; `can_turn`: whether an adaptor may be plugged in either way round."""
    rows: defaultdict[str, list[Served]] = defaultdict(list)
    found: list[MainsFeed] = []
    for each in served:
        if each[0].source in devices:
            rows[each[0].source].append(each)
        else:
            found.append(each[0])
    for source, row in rows.items():
        outlets = devices[source].part.mains.outlets
        found += _row([covered_by(devices[feed.device]) for feed, _ in row], row, outlets, can_turn, kept)
    return found


def _row(
    blocks: list[int], row: list[Served], outlets: int, can_turn: bool, kept: Kept
) -> Iterable[MainsFeed]:
    feeds = [feed for feed, _ in row]
    handed_out = [Plug(block, feed.outlet) for block, feed in zip(blocks, feeds, strict=True)]
    if not any(blocks) or outlet_row(handed_out, outlets, can_turn) is not None:
        return feeds
    stays = [was is not None and was.outlet == feed.outlet for feed, was in row]
    places = _around(blocks, [feed.outlet if each else 0 for feed, each in zip(feeds, stays, strict=True)], outlets, can_turn)  # fmt: skip
    if places is None:
        return feeds
    for (feed, was), place in zip(row, places, strict=True):
        if was is not None and was.outlet == feed.outlet != place:
            message = f"{was.chosen} was kept for '{was.device}', and there an adaptor covers an outlet that is used"
            kept.impossible(was, message)
    return [feed._replace(outlet=place) for feed, place in zip(feeds, places, strict=True)]


def _around(blocks: Sequence[int], fixed: list[int], outlets: int, can_turn: bool) -> tuple[int, ...] | None:
    """The row around as many of `fixed`, the first ones first, as leave room for all."""
    best = outlet_row([Plug(block) for block in blocks], outlets, can_turn)
    held = [0] * len(fixed)
    for index, at in enumerate(fixed if best is not None else ()):
        if at:
            held[index] = at
            more = outlet_row([Plug(*each) for each in zip(blocks, held, strict=True)], outlets, can_turn)
            held[index] = at if more is not None else 0
            best = more or best
    return best
