"""How long each job of a changeover takes: by the new plan's own `takes`, the table of usual durations, or that of changeovers."""

import math

from firstfix.build.cabling import Piece
from firstfix.build.model import Build
from firstfix.build.places import Way
from firstfix.parts.facts import Fact, Figure
from firstfix.parts.part import TERMINATION_KINDS
from firstfix.standards.work import changeover_durations, work_durations
from firstfix.work.preparing import DIRECT_BURIAL, is_dug

SOURCE = "common practice, no source: the tables of usual durations, or the plan's own `takes`"


class Minutes:
    """Of a build whose plan may say for itself what a kind of step takes."""

    def __init__(self, build: Build) -> None:
        self._build = build
        self._said = dict(build.working.takes)

    def usual(self, step: str, of: str = "", metres: Figure | None = None) -> int:
        """Of a kind of step that a first installation knows too."""
        if step in self._said:
            return self._said[step]
        rows = work_durations()
        row = rows.get((step, of)) or rows[step, ""]
        return math.ceil(row.minutes + (metres.typical * row.per_m if isinstance(metres, Fact) else 0.0))

    def of_change(self, step: str) -> int:
        return math.ceil(changeover_durations()[step].minutes)

    def way_made(self, way: Way) -> int:
        """A duct that is bought takes a trench, as cable in the ground does."""
        return self.usual("prepare", DIRECT_BURIAL if is_dug(way) else way.kind, way.length)

    def way_closed(self, way: Way) -> int:
        return self.usual("close", way.kind, way.length)

    def way_opened(self, way: Way) -> int:
        """Taken for as long as closing it (common practice, no source); where cable lies in the ground it is dug for again."""
        return self.way_made(way) if way.kind == DIRECT_BURIAL else self.way_closed(way)

    def pull(self, piece: Piece) -> int:
        """With its two ends made and tested."""
        medium = self._medium(piece)
        pulled = self.usual("pull", medium, piece.length.as_planned.figure) + self.usual("test", medium)
        return pulled + len(self._terminated(piece)) * self.usual("terminate", medium)

    def join(self, piece: Piece) -> int:
        """Plugging a run in at what it serves; at a panel or outlet, pushing in the jack that is wired already."""
        return self.usual("connect") * max(1, 2 - len(self._terminated(piece)))

    def rejoin(self, piece: Piece, plugged: int, wired: int) -> int:
        """Plugging or pushing in so many ends of a run that lies there, and making so many of them anew, which is tested."""
        medium = self._medium(piece)
        made = wired * self.usual("terminate", medium) + (self.usual("test", medium) if wired else 0)
        return plugged * self.usual("connect") + made

    def _terminated(self, piece: Piece) -> list[str]:
        jacks, devices = self._build.jacks, self._build.devices
        return [end for end in piece.ends if devices[jacks[end].device].part.kind in TERMINATION_KINDS]

    def _medium(self, piece: Piece) -> str:
        part = self._build.library.get(piece.part)
        return part.cable.medium if part is not None and part.cable is not None else ""
