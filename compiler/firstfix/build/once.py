"""Views of a build that several readers need are made once."""

from collections.abc import Callable
from typing import TypeVar

from firstfix.build.model import Build

_View = TypeVar("_View")


def once_per_build(view: Callable[[Build], _View]) -> Callable[[Build], _View]:
    """Remembers the view of the build that was looked at last. A build never changes, so its view doesn't either."""
    last: list[tuple[Build, _View]] = []

    def remembered(build: Build) -> _View:
        if not last or last[0][0] is not build:
            last[:] = [(build, view(build))]
        return last[0][1]

    return remembered
