"""Damages a plan: at single bytes, at whole lines, and as a tree (values swapped, names changed, sections doubled or lost).

`mutant(text, other, chance)` takes the bytes of a plan, those of another one to splice from, and a generator of chances; it gives the
bytes of a damaged plan. The same generator gives the same damage.
"""

import random
from collections.abc import Callable, Iterator
from typing import Any

import yaml
from yaml.cyaml import CBaseLoader, CEmitter  # type: ignore[attr-defined]  # the stubs hide it
from yaml.representer import SafeRepresenter
from yaml.resolver import BaseResolver

from fuzz.odd_values import ODD_BYTES, ODD_TEXTS, ODD_TREES

Tree = Any
Place = tuple[Any, Any]
"""A table or list, and the key or index of one of its values."""


class _PlainDumper(CEmitter, SafeRepresenter, BaseResolver):
    """Writes every text plain where it can be plain, numbers too: to our reader all values are texts."""

    def __init__(self, stream: Any, **_: Any) -> None:
        CEmitter.__init__(self, stream, width=200, allow_unicode=True)
        SafeRepresenter.__init__(self, sort_keys=False)
        BaseResolver.__init__(self)

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002 - as PyYAML calls it
        return True


def mutant(text: bytes, other: bytes, chance: random.Random) -> bytes:
    """One to six damages of one sort; often small ones, since a plan damaged all over only meets the first check."""
    times = chance.choice((1, 1, 1, 2, 3, 6))
    if chance.random() < 0.6:
        damaged = _mutated_tree(text, other, times, chance)
        if damaged is not None:
            return damaged
    for _ in range(times):
        text = chance.choice(_TEXT_DAMAGES)(text, other, chance)
    return text


# Damages of the text


def _drop_bytes(text: bytes, other: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(text) + 1)
    return text[:at] + text[at + chance.choice((1, 1, 2, 8, 64)) :]


def _strew(text: bytes, other: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(text) + 1)
    return text[:at] + chance.choice(ODD_BYTES) + text[at + chance.randrange(3) :]


def _change_byte(text: bytes, other: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(text) + 1)
    return text[:at] + bytes((chance.randrange(256),)) + text[at + 1 :]


def _odd_word(text: bytes, other: bytes, chance: random.Random) -> bytes:
    at = chance.randrange(len(text) + 1)
    end = min([found for mark in b" ,}]\n" if (found := text.find(mark, at)) >= 0], default=len(text))
    return text[:at] + chance.choice(ODD_TEXTS).encode() + text[end:]


def _drop_line(text: bytes, other: bytes, chance: random.Random) -> bytes:
    lines = text.splitlines(keepends=True) or [b""]
    del lines[chance.randrange(len(lines))]
    return b"".join(lines)


def _double_line(text: bytes, other: bytes, chance: random.Random) -> bytes:
    lines = text.splitlines(keepends=True) or [b""]
    lines.insert(chance.randrange(len(lines)), chance.choice(lines))
    return b"".join(lines)


def _swap_words(text: bytes, other: bytes, chance: random.Random) -> bytes:
    """A word of one line in the place of a word of another: what slips of a writer look like."""
    lines = text.split(b"\n")
    here = chance.randrange(len(lines))
    words = lines[here].split(b" ")
    words[chance.randrange(len(words))] = chance.choice(chance.choice(lines).split(b" "))
    lines[here] = b" ".join(words)
    return b"\n".join(lines)


def _indent(text: bytes, other: bytes, chance: random.Random) -> bytes:
    lines = text.split(b"\n")
    here = chance.randrange(len(lines))
    lines[here] = lines[here][2:] if chance.random() < 0.5 else b"  " + lines[here]
    return b"\n".join(lines)


def _lines_of_another(text: bytes, other: bytes, chance: random.Random) -> bytes:
    lines, others = text.splitlines(keepends=True) or [b""], other.splitlines(keepends=True) or [b""]
    begin = chance.randrange(len(others))
    at = chance.randrange(len(lines))
    lines[at:at] = others[begin : begin + chance.choice((1, 1, 3, 12))]
    return b"".join(lines)


_TextDamage = Callable[[bytes, bytes, random.Random], bytes]
_TEXT_DAMAGES: tuple[_TextDamage, ...] = (
    _drop_bytes, _strew, _change_byte, _odd_word, _drop_line, _double_line, _swap_words, _swap_words, _indent, _lines_of_another,
)  # fmt: skip


# Damages of the tree


def _mutated_tree(text: bytes, other: bytes, times: int, chance: random.Random) -> bytes | None:
    tree, stranger = _tree(text), _tree(other)
    if not isinstance(tree, dict):
        return None
    for _ in range(times):
        places = list(_places(tree))
        if not places:
            return None
        chance.choice(_TREE_DAMAGES)(places, stranger, chance)
    written: str = yaml.dump(tree, Dumper=_PlainDumper)
    return written.encode("utf-8", "surrogatepass")


def _tree(text: bytes) -> Tree:
    try:
        return yaml.load(text, Loader=CBaseLoader)  # noqa: S506 - every value a text
    except (yaml.YAMLError, ValueError, TypeError):
        return None


def _places(tree: Tree) -> Iterator[Place]:
    waiting = [tree]
    while waiting:
        here = waiting.pop()
        for key in list(here) if isinstance(here, dict) else range(len(here)):
            yield here, key
            if isinstance(here[key], dict | list):
                waiting.append(here[key])


def _copy(tree: Tree) -> Tree:
    if isinstance(tree, dict):
        return {key: _copy(value) for key, value in tree.items()}
    return [_copy(value) for value in tree] if isinstance(tree, list) else tree


def _swap(places: list[Place], stranger: Tree, chance: random.Random) -> None:
    (one, key), (two, other) = chance.choice(places), chance.choice(places)
    first, second = _copy(one[key]), _copy(two[other])
    one[key], two[other] = second, first


def _replace(places: list[Place], stranger: Tree, chance: random.Random) -> None:
    here, key = chance.choice(places)
    here[key] = chance.choice(ODD_TEXTS) if chance.random() < 0.8 else _copy(chance.choice(ODD_TREES))


def _rename(places: list[Place], stranger: Tree, chance: random.Random) -> None:
    """A key gets another's name or an odd one: references to it lead nowhere, or two things are one."""
    tables = [place for place in places if isinstance(place[0], dict)]
    here, key = chance.choice(tables)
    new = chance.choice(tables)[1] if chance.random() < 0.7 else chance.choice(ODD_TEXTS)
    value = here.pop(key)
    here[new] = value


def _forget(places: list[Place], stranger: Tree, chance: random.Random) -> None:
    here, key = chance.choice(places)
    del here[key]


def _double(places: list[Place], stranger: Tree, chance: random.Random) -> None:
    """Something stands twice: under a second name, or twice in its list."""
    here, key = chance.choice(places)
    if isinstance(here, dict):
        here[f"{key}-2"] = _copy(here[key])
    else:
        here.insert(chance.randrange(len(here) + 1), _copy(here[key]))


def _splice(places: list[Place], stranger: Tree, chance: random.Random) -> None:
    """A value of another plan, most often of the same key."""
    others = list(_places(stranger)) if isinstance(stranger, dict) else []
    here, key = chance.choice(places)
    alike = [place for place in others if place[1] == key]
    if alike or others:
        source, name = chance.choice(alike or others)
        here[key] = _copy(source[name])


def _move(places: list[Place], stranger: Tree, chance: random.Random) -> None:
    """A value under a key of another table, where it doesn't belong."""
    tables = [place for place in places if isinstance(place[0], dict)]
    (here, key), (there, _) = chance.choice(tables), chance.choice(tables)
    there[key] = _copy(here[key])


def _shuffle(places: list[Place], stranger: Tree, chance: random.Random) -> None:
    lists = [here[key] for here, key in places if isinstance(here[key], list)]
    if lists:
        chance.shuffle(chance.choice(lists))


_TreeDamage = Callable[[list[Place], Tree, random.Random], None]
_TREE_DAMAGES: tuple[_TreeDamage, ...] = (
    _swap, _swap, _replace, _replace, _replace, _rename, _rename, _forget, _double, _splice, _splice, _move, _shuffle,
)  # fmt: skip
