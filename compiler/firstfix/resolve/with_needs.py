"""Small parts bring what they need along: a clip its screw, a pigtail the sleeve over its splice."""

from collections.abc import Iterator

from firstfix.build.hardware import Item
from firstfix.parts.part import Library


def with_needs(item: Item, library: Library, above: tuple[str, ...] = ()) -> Iterator[Item]:
    """The item, then what its part needs, as often as there are of it. What the library lacks, or needs itself, is left out."""
    yield item
    above = (*above, item.part)
    for name, count in library[item.part].needs:
        if name in library and name not in above:
            each = item._replace(
                id=f"{item.id}+{name}", part=name, count=item.count * count, why="goes with it"
            )
            yield from with_needs(each, library, above)
