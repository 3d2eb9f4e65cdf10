"""The files that a comparison is written as, by their names in one folder."""

from collections.abc import Mapping, Sequence

from firstfix.documents.changes import ComparedPlans
from firstfix.documents.changes_json import changes_json
from firstfix.documents.changes_markdown import changes_markdown


def changes_files(
    compared: ComparedPlans,
    further: Mapping[str, bytes],
    pictures: Mapping[str, str] | None = None,
    way: Sequence[str] = (),
) -> Mapping[str, bytes]:
    """`further`: more files for the same folder (drawings, the way there), which the Markdown then leads to. Of these `pictures` are
    shown in it, each with what it says in words; what lies in a folder beside them is not told one by one. `way`: the way there in a
    few lines.
    """
    shown = pictures or {}
    beside = [each for each in sorted(further) if "/" not in each]
    return {
        "changes.md": changes_markdown(compared, beside, shown, way).encode(),
        "changes.json": changes_json(compared).encode(),
        **further,
    }
