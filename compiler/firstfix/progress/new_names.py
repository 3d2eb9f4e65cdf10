"""Records under the old name of a thing (`was:` in the plan) count for it under its new one. The file itself stays as it is."""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import TypeVar

from firstfix.progress.model import Progress

_Record = TypeVar("_Record")


def with_new_names(progress: Progress, renames: Mapping[str, str]) -> Progress:
    """`renames`: id of a thing to its old id. A record under the new name goes before one under the old."""
    if not renames or not progress.is_kept:
        return progress
    names = _Names({old: new for new, old in sorted(renames.items())})
    done = (
        each._replace(id=names.step(each.id), as_planned=names.words(each.as_planned))
        for each in progress.done.values()
    )
    labels = (each._replace(device=names.path("device", each.device)) for each in progress.labels.values())
    measured = (
        each._replace(run=names.path("piece", each.run), as_planned=names.words(each.as_planned))
        for each in progress.measured.values()
    )
    return replace(
        progress,
        done=_by_name(progress.done, done, lambda each: each.id),
        labels=_by_name(progress.labels, labels, lambda each: each.device),
        measured=_by_name(progress.measured, measured, lambda each: each.run),
    )


def _by_name(
    written: Iterable[str], renamed: Iterable[_Record], name: Callable[[_Record], str]
) -> dict[str, _Record]:
    """A record whose name stays is put over one that came to that name."""
    pairs = [(name(each) == before, each) for before, each in zip(written, renamed, strict=True)]
    moved = {name(each): each for stays, each in pairs if not stays}
    return moved | {name(each): each for stays, each in pairs if stays}


class _Names:
    """From what things were called to what they are called; an id is made of the names of devices, ways, rooms and so on."""

    def __init__(self, new_ids: Mapping[str, str]) -> None:
        self._new = new_ids
        last = {old.rpartition("/")[2].rpartition(":")[2]: new for old, new in new_ids.items()}
        self._words = {old: new.rpartition("/")[2].rpartition(":")[2] for old, new in last.items()}
        some = "|".join(map(re.escape, sorted(self._words)))
        self._any = re.compile(rf"(?<![a-z0-9-])(?:{some})(?![a-z0-9-])")

    def words(self, as_planned: str) -> str:
        """What comes first is a part or a kind of way, and no name: `riser` may be both."""
        first, space, rest = as_planned.partition(" ")
        return first + space + self._any.sub(lambda found: self._words[found.group()], rest)

    def step(self, step: str) -> str:
        """`fit:device/gateway` once the gateway is called router: `fit:device/router`."""
        verb, _, subject = step.partition(":")
        kind, slash, path = subject.partition("/")
        return f"{verb}:{kind}/{self.path(kind, path)}" if slash else step

    def path(self, kind: str, path: str) -> str:
        """The path of an id of `kind`, with every name in it that is an old one."""
        if kind == "piece":
            link, _, hop = path.rpartition("/")
            return f"{self._link(link)}/{hop}"
        if kind == "link":
            return self._link(path)
        if kind in ("jack", "fitting"):
            holder, slash, rest = path.partition("/")
            return self._known("device" if kind == "jack" else "cabinet", holder) + slash + rest
        name, at, phase = path.partition("@")
        return self._known(kind, name) + at + phase

    def _link(self, path: str) -> str:
        """`gateway/1--core#2`: its two ends, sorted as the build sorts them."""
        ends, mark, ordinal = path.partition("#")
        return "--".join(sorted(self.path("jack", end) for end in ends.split("--"))) + mark + ordinal

    def _known(self, kind: str, path: str) -> str:
        return self._new.get(f"{kind}:{path}", f"{kind}:{path}").partition(":")[2]
