"""One elementary job of a changeover: what is different once it is done, what is off meanwhile, what must be done before."""

from enum import IntEnum
from typing import NamedTuple

from firstfix.changeover.sides import Setting


class Kind(IntEnum):
    """In the order in which one would like to do them where nothing else decides: first what adds, last what takes away."""

    PREPARE = 1
    HANG = 2
    FIT_IN = 3
    OPEN = 4
    PULL = 5
    CLOSE = 6
    RULES = 7
    READY = 8
    NEW_NET = 9
    WIDEN = 10
    PUT_IN = 11
    JOIN = 12
    PLUG = 13
    ACCESS = 14
    ADDRESS = 15
    TURN = 16
    FEED = 17
    MOVE = 18
    SWAP = 19
    UNPLUG = 20
    NARROW = 21
    OLD_NET = 22
    CLEAR = 23
    TAKE_OUT = 24
    FIT_OUT = 25
    TAKE_DOWN = 26


# What is done in a device's settings, from afar if it can be reached.
SETTINGS = frozenset(
    (
        Kind.RULES, Kind.READY, Kind.NEW_NET, Kind.WIDEN, Kind.ACCESS, Kind.TURN, Kind.ADDRESS, Kind.NARROW,
        Kind.OLD_NET, Kind.CLEAR,
    )
)  # fmt: skip


class Job(NamedTuple):
    """`subject`: id of a device, cabinet or way, or the key of a piece. `adds`, `drops`: keys of pieces that are live from then on,
    or no longer. `turned`: the device that is then as the new plan has it; it is off meanwhile. `sets`: jacks and how they are
    set then. `after`: ids of jobs that must be done before. `towards`: the bridge at the other end. `ends`: of a piece.
    `faces`: the devices at the other ends of the jacks that are set. `inert`: nobody's service can depend on when it is done.
    `phase`: of a way that is opened and closed, for it can be in several.
    """

    kind: Kind
    subject: str
    minutes: int
    adds: tuple[str, ...] = ()
    drops: tuple[str, ...] = ()
    turned: str = ""
    sets: tuple[tuple[str, Setting], ...] = ()
    after: frozenset[str] = frozenset()
    inert: bool = False
    towards: str = ""
    ends: tuple[str, ...] = ()
    faces: tuple[str, ...] = ()
    phase: str = ""

    @property
    def id(self) -> str:
        towards = f">{self.towards}" if self.towards else ""
        return f"{self.kind.name}:{self.subject}{towards}{'@' + self.phase if self.phase else ''}"

    @property
    def is_setting(self) -> bool:
        return self.kind in SETTINGS
