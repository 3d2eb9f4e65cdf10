"""Parts of a build that are made when somebody first looks at them, and are then the same for good.

For what documents want and no rule asks for: checking a big plan would spend more on it than on many rules.
"""

from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar, overload

_Thing = TypeVar("_Thing")


class Later(Sequence[_Thing]):
    """Behaves as the tuple that `make` gives, and equals it. `make` is a pure function of what never changes, and is called once."""

    __slots__ = ("_made", "_make")

    def __init__(self, make: Callable[[], tuple[_Thing, ...]]) -> None:
        self._make = make
        self._made: tuple[_Thing, ...] | None = None

    def _all(self) -> tuple[_Thing, ...]:
        if self._made is None:
            self._made = self._make()
        return self._made

    @overload
    def __getitem__(self, index: int) -> _Thing: ...
    @overload
    def __getitem__(self, index: slice) -> tuple[_Thing, ...]: ...
    def __getitem__(self, index: int | slice) -> _Thing | tuple[_Thing, ...]:
        return self._all()[index]

    def __len__(self) -> int:
        return len(self._all())

    def __iter__(self) -> Iterator[_Thing]:
        return iter(self._all())

    def __eq__(self, other: object) -> bool:
        return self._all() == (other._all() if isinstance(other, Later) else other)

    def __hash__(self) -> int:
        return hash(self._all())

    def __repr__(self) -> str:
        return repr(self._all())
