"""The file of kept choices beside a plan, as `build` changes it: names to choose anew, and the new text put in place of the old."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from firstfix.cli.one_file import replace_file
from firstfix.cli.reading import shown
from firstfix.cli.streams import say
from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cut

if TYPE_CHECKING:
    from firstfix.allocations.choices import Choices
    from firstfix.pipeline import Compiled


def forgetting(names: Sequence[str]) -> "Callable[[Choices], Choices]":
    """What becomes of the kept choices when some names are to be chosen anew.

    It raises TroubleError for a name about which nothing is kept.
    """

    def change(choices: "Choices") -> "Choices":
        from firstfix.allocations.forget import known_names, without
        from firstfix.source.nearest import did_you_mean

        known = known_names(choices) if names else frozenset[str]()
        for name in sorted(frozenset(names) - known):
            raise TroubleError(f"nothing is kept about '{cut(name, 60)}'{did_you_mean(name, known)}")
        return without(choices, frozenset(names))

    return change


class ChoicesFile:
    """The file beside `plan`, which the user called `given`."""

    def __init__(self, plan: Path, given: str) -> None:
        from firstfix.pipeline import CHOICES_ENDING
        from firstfix.source.load import beside_name

        self._path = plan.with_name(plan.stem + CHOICES_ENDING)
        self._shown = beside_name(shown(given), CHOICES_ENDING)

    def check(self) -> None:
        """Before any work is done: a file that would not be replaced in the end."""
        if self._path.is_symlink():
            raise TroubleError(
                f"{self._shown} is a symbolic link, so it is not replaced; put the file itself there"
            )

    def settled(self, result: "Compiled") -> tuple["Compiled", bytes | None]:
        """The plan compiled with all of its choices kept, as the next build will see it, and the file's new text, or None if it stays."""
        from firstfix.allocations.choices import NO_CHOICES
        from firstfix.allocations.write import choices_text
        from firstfix.pipeline import choices_to_keep, compile_again

        choices = choices_to_keep(result)
        text = choices_text(choices).encode()
        if self._path.exists():
            if self._path.read_bytes() == text:
                return result, None
        elif choices == NO_CHOICES:
            return result, None
        return compile_again(result, choices), text

    def replace(self, text: bytes) -> None:
        replace_file(self._path, self._shown, text)
        say(f"what was chosen is kept in {self._shown}")
