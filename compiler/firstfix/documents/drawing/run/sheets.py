"""The strip on as many standing sheets as it takes."""

from firstfix.build import ids
from firstfix.build.cabling import Channel
from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, svg
from firstfix.documents.drawing.kit.page import picture_room
from firstfix.documents.drawing.kit.palette import QUIET, SMALL_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.svg import Drawing, safe_name
from firstfix.documents.drawing.network.wiring import shown_jack
from firstfix.documents.drawing.numbered import Block, Content, as_one, flow, numbered
from firstfix.documents.drawing.run.picture import WIDTH, stop_block
from firstfix.documents.drawing.run.stops import stops
from firstfix.documents.drawing.run.whole import about

_LINE = 10.0
_INDENT = 46.0
_MOST_LINES = 4
_TALLEST = picture_room(is_lying=False, key_lines=2, onward_lines=1)[1]


def run_drawings(
    build: Build, channel_id: str, is_turned: bool = False, prefix: str = ""
) -> tuple[Drawing, ...]:
    """The run of one channel from its first end to its second, or the other way round. KeyError where there is no such channel."""
    channel = build.channels[channel_id]
    whole = _whole(build, channel)
    room = _TALLEST - whole.picture.height - 10
    blocks = [stop_block(stop) for stop in stops(build, channel, is_turned)]
    sheets = [as_one(sheet) for sheet in flow(blocks, room, gap=0)]
    ends = channel.ends[::-1] if is_turned else channel.ends
    near, far = (shown_jack(build, each) for each in ends)
    first, *others = sheets
    under = f"in {build.name}, from end to end"
    contents = [Content((whole.picture, first.picture), f"{whole.words} {first.words}", under)]
    contents += [Content((sheet.picture,), sheet.words, under) for sheet in others]
    stem = f"run-{safe_name(ids.path(ends[0]))}-{safe_name(ids.path(ends[1]))}"
    return numbered(stem, f"{near} to {far}", contents, prefix)


def _whole(build: Build, channel: Channel) -> Block:
    said, parts, base = [], [], 8.0
    for each in about(build, channel):
        parts.append(svg.text(0, base, each.of, SMALL_SIZE, is_bold=True))
        for line in font.wrap(each.words, WIDTH - _INDENT, SMALL_SIZE, _MOST_LINES):
            parts.append(svg.text(_INDENT, base, line, SMALL_SIZE, colour=QUIET))
            base += _LINE
        said.append(f"{each.of}: {each.words}.")
    return Block(Picture("".join(parts), WIDTH, base - 6), " ".join(said))
