"""The kinds of faults in a file's text, its keys and its single values."""

from firstfix.finding.kinds import Kind, error

ENCODING = error(
    "encoding",
    """A plan file is text in UTF-8.

    Because: in another encoding, names and units with accents or degree signs would be read as something else.
    Compares: the bytes of the file with UTF-8 (RFC 3629).
    Remedy: save the file as UTF-8 in your editor.
    """,
)
SYNTAX = error(
    "syntax",
    """A plan file is YAML 1.2.

    Because: a tree that cannot be told for certain is not guessed at.
    Compares: the text with YAML's grammar. Indent with spaces, never tabs.
    Remedy: look at the marked place and the line above it: a missing colon, quote or bracket, or a tab.
    """,
)
FILE_SIZE = error(
    "file-size",
    """A plan file has a greatest size.

    Because: a plan may come from a stranger, and must not be able to fill the machine.
    Compares: the file's size with the limit, and its count of values with another.
    Remedy: split the plan with `include:`; a plan of ten thousand devices takes about 3 MB.
    """,
)
NESTING = error(
    "nesting-depth",
    """Values in a plan nest to a greatest depth.

    Because: the plan language needs about ten levels; a file with far more is a mistake or an attack.
    Compares: the depth of nesting with the limit.
    Remedy: close the brackets, or look for a line that is indented too far.
    """,
)
ALIASES = error(
    "alias-expansion",
    """Aliases may repeat only so much.

    Because: a few lines of nested aliases can stand for billions of values.
    Compares: the count of values with all aliases written out, with the limit.
    Remedy: write the values out, or use `defaults:`.
    """,
)
TAG = error(
    "tag",
    """A plan has no YAML tags.

    Because: a tag (`!something`) asks the reader for a type of the writer's choice; a plan only holds text.
    Remedy: remove the tag; put a text that begins with an exclamation mark in quotes.
    """,
)
KEY_FORM = error(
    "key-form",
    """A key is one word or name, not a list, a table or nothing.

    Remedy: write the key as plain text before the colon.
    """,
)
KEY_DUPLICATE = error(
    "key-duplicate",
    """A key stands once in its table.

    Because: YAML readers differ on which of two equal keys they keep; the other's contents vanish unseen.
    Compares: the keys of one table with each other.
    Remedy: rename one, or merge the two.
    """,
)
DOCUMENT_COUNT = error(
    "document-count",
    """A plan file holds one YAML document.

    Remedy: remove the line `---` that begins the second, or split the file and use `include:`.
    """,
)
EMPTY = error(
    "empty-file",
    """A plan file holds a table of keys and values.

    Remedy: `firstfix new` prints a plan to begin with.
    """,
)
INCLUDE = error(
    "include",
    """An included file lies in the plan's own folder or below it, can be read, and is included once.

    Because: a plan from a stranger must not be able to read other files of yours.
    Remedy: copy the file next to the plan and name it by a relative path.
    """,
)

KEY_UNKNOWN = error(
    "key-unknown",
    """A key is one that the plan language knows at this place.

    Because: a misspelt key would otherwise be left out of the build without a word.
    Compares: each key with the keys that may stand in its table. Keys that begin with `x-` are yours and are not read.
    Remedy: take the nearest key, move it to the table it belongs to, or put `x-` before it.
    """,
)
KEY_MISSING = error(
    "key-missing",
    """A key that cannot be worked out is written.

    Remedy: add the key to the table at the marked place.
    """,
)
VALUE_KIND = error(
    "value-kind",
    """A value is of the kind that its key asks for: a word, a number, a list, a table, one of a closed list of words.

    Remedy: write it as the message shows.
    """,
)
QUANTITY = error(
    "quantity",
    """A quantity carries its unit, as on a data sheet: `41 m`, `135 ft`, `15.4 W`, `2U`, `1 Gb/s`.

    Because: 41 could be metres or feet, and the cable is bought by it.
    Compares: the unit with the units of what is asked for, and the figure with what is possible at all.
    Remedy: add or mend the unit.
    """,
)
NAME_FORM = error(
    "name-form",
    """A name is made of small letters, digits and single dashes, and has at most 63 characters.

    Because: names become labels, host names (RFC 1123) and file names, and must stay the same in all of them.
    Remedy: write `hall-camera`, not `Hall Camera`.
    """,
)
WAS = error(
    "was",
    """An old name (`was:`) is free, and one thing claims it.

    Because: a thing that was renamed keeps its jack, its address and its place; two things cannot keep the same one's.
    Compares: each old name with the names of the same kind in the plan, and with the other old names. Two things may swap names.
    Remedy: remove the `was:` of the thing that is new, or mend the old name.
    """,
)

FAULT_COUNT = error(
    "fault-count",
    """The faults of reading a plan can be listed one by one.

    Because: a file with hundreds of faults is not a plan yet; mend the first ones, and most of the others go with them.
    Compares: the count of faults with the number that is listed.
    Remedy: begin with the first findings; a missing indent or quote near the top often explains all.
    """,
)

SOURCE_KINDS: tuple[Kind, ...] = (
    ENCODING, SYNTAX, FILE_SIZE, NESTING, ALIASES, TAG, KEY_FORM, KEY_DUPLICATE, DOCUMENT_COUNT, EMPTY, INCLUDE,
    KEY_UNKNOWN, KEY_MISSING, VALUE_KIND, QUANTITY, NAME_FORM, WAS, FAULT_COUNT,
)  # fmt: skip
