"""Parts that are fetched when they are first asked for, and a plan's own laid over a library so that none is read for nothing."""

from collections.abc import Callable, Iterable, Iterator
from collections.abc import ItemsView as Items
from collections.abc import KeysView as Keys
from collections.abc import ValuesView as Values

from firstfix.parts.part import Library, Part


class PartsOnDemand(dict[str, Part]):
    """All of `names`, in their order; `fetch` is called once for each that is asked for, `kind_of` tells kinds without it.

    A dict, so that what was asked for once costs no more than in any other: large plans look parts up by the 100,000.
    Everything but `[]` goes by the names.
    """

    def __init__(
        self, names: Iterable[str], fetch: Callable[[str], Part], kind_of: Callable[[str], str]
    ) -> None:
        super().__init__()
        self._names = dict.fromkeys(names)
        self._fetch = fetch
        self.kind_of = kind_of

    def __missing__(self, name: str) -> Part:
        if name not in self._names:
            raise KeyError(name)
        part = self._fetch(name)
        self[name] = part
        return part

    @property
    def count_fetched(self) -> int:
        return super().__len__()

    def get(self, name: str, default: Part | None = None) -> Part | None:  # type: ignore[override]
        return self[name] if name in self._names else default

    def __contains__(self, name: object) -> bool:
        return name in self._names

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)

    def __eq__(self, other: object) -> bool:
        return dict(self.items()) == other

    __hash__ = None

    def keys(self) -> Keys[str]:  # type: ignore[override]
        return Keys(self)

    def values(self) -> Values[Part]:  # type: ignore[override]
        return Values(self)

    def items(self) -> Items[str, Part]:  # type: ignore[override]
        return Items(self)


def parts_of_kind(library: Library, kind: str) -> Iterator[Part]:
    """The parts of one kind, in the library's order, without fetching others."""
    kind_of = kind_of_names(library)
    return (library[name] for name in library if kind_of(name) == kind)


def kind_of_names(library: Library) -> Callable[[str], str]:
    """What tells the kind of each part by its name."""
    return library.kind_of if isinstance(library, PartsOnDemand) else lambda name: library[name].kind


def laid_over(own: Library, below: Library) -> Library:
    """By name: the part of `own`, else that of `below`; in the order of `below`, then what only `own` has."""
    if not own:
        return below
    kind_below = kind_of_names(below)
    return PartsOnDemand(
        (*below, *own),
        lambda name: own[name] if name in own else below[name],
        lambda name: own[name].kind if name in own else kind_below(name),
    )
