"""The reference of the plan language as Markdown, out of its JSON Schema: each key, what it holds, its form, an example.

Takes the schema as read from schemas/plan.schema.json. Nothing is said here of any key: what is wrong on the page is mended in the schema.
"""

import json
import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from firstfix.parts.yaml_text import flow_value, scalar

Schema = Mapping[str, Any]

_INTRODUCTION = """\
# The plan language

<!-- Made by `make pages` from plan.schema.json; what is changed here by hand is lost. -->

A plan is one YAML file (YAML 1.2), or several by [`include`](#keys-of-a-plan). What you leave out is worked out; what you write is honoured.
This page is made from `plan.schema.json` (JSON Schema 2020-12): any editor that takes JSON Schemas shows its words and completes its keys.

- **Names** are small letters, digits and single dashes, at most 63 characters: `hall-camera`. References are by name; a room is
  `site/room` where there are several sites, a jack is `core/3`, any free one of several is `core/1-8`.
- **Series.** `cam-1..4` names four things. In its entry, and in a link, a range of the same length counts with it: `panel/5..8`.
  It works in `devices`, `cabinets`, `ways`, `rooms`, `links`, and in lists of devices.
- **Quantities** carry their unit, as on a data sheet: see [Quantities](#quantities).
- **`note`** holds words for people, and `x-…` keys are yours, everywhere. An empty value is as good as none.
- **`was`** gives a thing's name before, so that a renamed one keeps what was chosen for it.
- A key that is not on this page is an error. Ranges, dates and names that don't exist are told by `firstfix check`.
"""
_COLUMNS = "| key | what it says | form | left out | example |\n|---|---|---|---|---|\n"
# A line of YAML longer than this is broken at its keys.
_LINE = 100


class _Table(NamedTuple):
    """A table of keys that the schema defines, and the way to it: `sites: NAME: rooms: NAME`."""

    way: tuple[str, ...]
    schema: Schema
    needed: tuple[str, ...]


def reference(schema: Schema) -> str:
    """The whole page. Same schema, same bytes."""
    page = _Page(schema)
    return "\n".join(
        (
            _INTRODUCTION,
            page.contents(),
            page.single_keys(),
            *page.sections(),
            page.quantities(),
            page.lists(),
        )
    )


class _Page:
    def __init__(self, schema: Schema) -> None:
        self._schema = schema
        self._definitions: Mapping[str, Schema] = schema["$defs"]
        self._shown: set[int] = set()
        self._single = [key for key, each in schema["properties"].items() if not self._holds_more(each)]
        self._sections = [key for key in schema["properties"] if key not in self._single]

    def _holds_more(self, schema: Schema) -> bool:
        """Whether a key of a plan holds a table or a list of them."""
        while "$ref" in schema:
            schema = self._at(schema["$ref"])
        return "additionalProperties" in schema or "items" in schema

    def contents(self) -> str:
        names = ("keys of a plan", *self._sections, "quantities", "closed lists")
        return " · ".join(f"[{name}](#{name.replace(' ', '-')})" for name in names) + "\n"

    def single_keys(self) -> str:
        """The keys of a plan that hold one value each."""
        rows = (self._row(key, self._schema["properties"][key], False) for key in self._single)
        return f"## Keys of a plan\n\nAll may be left out; those that hold more than a value have sections of their own.\n\n{_COLUMNS}{''.join(rows)}"

    def sections(self) -> Iterator[str]:
        return map(self._section, self._sections)

    def _section(self, key: str) -> str:
        """One key of the plan: what it holds, an example, and a list of keys for each kind of table below it."""
        schema = self._schema["properties"][key]
        lines = [f"## {key}\n", f"{schema['description']}\n", "```yaml"]
        lines += [f"{key}:{block(each, 2)}" for each in schema["examples"]]
        lines += ["```", ""]
        for table in self._tables_below(schema, (key,)):
            lines.append(self._keys(table))
        return "\n".join(lines)

    def _keys(self, table: _Table) -> str:
        rows = (self._row(key, each, key in table.needed) for key, each in table.schema["properties"].items())
        facts = self._facts_of_kinds(table.schema)
        heading = (
            f"### `{': '.join(table.way)}`\n\n{table.schema['description']}\n\n" if len(table.way) > 1 else ""
        )
        return f"{heading}{_COLUMNS}{''.join(rows)}{facts}"

    def _row(self, key: str, schema: Schema, is_needed: bool) -> str:
        default = schema.get("default")
        left_out = "needed" if is_needed else "" if default is None else f"`{flow_value(default)}`"
        examples = ", ".join(f"`{flow_value(each)}`" for each in schema["examples"])
        return f"| `{key}` | {schema['description']} | {self._form(schema)} | {left_out} | {examples} |\n"

    def _form(self, schema: Schema) -> str:
        """In words, what a value looks like."""
        while "title" not in schema and "$ref" in schema:
            schema = self._at(schema["$ref"])
        if "title" in schema:
            return str(schema["title"])
        if "anyOf" in schema:
            forms = (self._form(each) for each in schema["anyOf"] if each != {"type": "null"})
            return " or ".join(dict.fromkeys(forms))
        if "const" in schema:
            return f"`{schema['const']}`"
        if "enum" in schema:
            return _listed(schema["enum"])
        if "minimum" in schema:
            return f"a whole number, {schema['minimum']:,} to {schema['maximum']:,}"
        return "a table"

    def _at(self, ref: str) -> Schema:
        """`#/$defs/room`, `#/$defs/device/properties/room`."""
        found: Any = self._schema
        for step in ref.removeprefix("#/").split("/"):
            found = found[step]
        return found  # type: ignore[no-any-return]

    def _tables_below(
        self, schema: Any, way: tuple[str, ...], needed: Iterable[str] = ()
    ) -> Iterator[_Table]:
        """Tables of keys that a value holds, each shown at the first place that has it.

        `needed`: keys that the table which holds it wants in each of its entries.
        """
        if isinstance(schema, list):
            for each in schema:
                yield from self._tables_below(each, way)
        if not isinstance(schema, dict) or id(schema) in self._shown:
            return
        if "$ref" in schema:
            yield from self._tables_below(self._at(schema["$ref"]), way, needed)
        if "properties" in schema and "title" in schema:
            self._shown.add(id(schema))
            yield _Table(way, schema, (*needed, *schema.get("required", ())))
            for key, each in schema["properties"].items():
                yield from self._tables_below(each, (*way, key))
            return
        name = schema.get("propertyNames", {}).get("title", "NAME")
        of_each = schema.get("then", {}).get("additionalProperties", {}).get("required", ())
        yield from self._tables_below(schema.get("additionalProperties"), (*way, name), of_each)
        yield from self._tables_below(schema.get("items"), (*way, "[…]"))
        for word in ("anyOf", "else", "then"):
            yield from self._tables_below(schema.get(word), way)

    def _facts_of_kinds(self, schema: Schema) -> str:
        """What a part that is like no other states, by its kind."""
        rows = []
        for each in schema.get("allOf", ()):
            kinds = each.get("if", {}).get("properties", {}).get("kind", {}).get("enum")
            if kinds:
                named = ", ".join(f"`{kind}`" for kind in kinds)
                rows.append(f"| {named} | {', '.join(_facts(each['then']))} |\n")
        if not rows:
            return ""
        return f"\nBesides `price`, a part that is `like` no other states at least (or says `unknown`):\n\n| kind | facts |\n|---|---|\n{''.join(rows)}"

    def quantities(self) -> str:
        lines = ["## Quantities\n", "| what | units | example |\n|---|---|---|"]
        for each in self._definitions.values():
            units = re.search(r"\(([^()]*)\)(?:\\s\*)?\$$", each.get("pattern", ""))
            if units and "examples" in each:
                named = ", ".join(f"`{unit}`" for unit in units[1].split("|"))
                lines.append(f"| {each['title']} | {named} | `{each['examples'][0]}` |")
        lines.append(
            "\nA figure of a part may have a spread, `{least: 3 W, typical: 5 W, most: 8 W}`, or be `unknown`.\n"
        )
        return "\n".join(lines)

    def lists(self) -> str:
        rows = [
            f"- {each['description'].removesuffix('.')}: {_listed(each['enum'])}.\n"
            for each in self._definitions.values()
            if "enum" in each and "description" in each
        ]
        return f"## Closed lists\n\n{''.join(rows)}"


def _listed(values: Iterable[Any]) -> str:
    return ", ".join(
        f"`{each if isinstance(each, str) else json.dumps(each)}`" for each in values if each is not None
    )


def _facts(needed: Schema) -> Iterator[str]:
    below = needed.get("properties", {})
    for key in needed["required"]:
        yield f"`{key}: {{{', '.join(below[key]['required'])}}}`" if key in below else f"`{key}`"
    for either in needed.get("allOf", ()):
        yield " or ".join(fact for each in either["anyOf"] for fact in _facts(each))


def block(value: Any, indent: int) -> str:
    """`value` as YAML behind a colon: in one line where it is short, else an entry to a line."""
    line = f" {flow_value(value)}"
    if indent + len(line) <= _LINE and indent > 2:
        return line
    pad = "\n" + " " * indent
    if isinstance(value, dict):
        return "".join(f"{pad}{scalar(key)}:{block(each, indent + 2)}" for key, each in value.items())
    if isinstance(value, list) and any(isinstance(each, dict) for each in value):
        return "".join(f"{pad}- {flow_value(each)}" for each in value)
    return line
