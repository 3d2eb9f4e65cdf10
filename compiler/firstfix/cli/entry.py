"""Where the command `firstfix` begins. Imports next to nothing, so that `--version` is quick."""

import sys

from firstfix import __version__


def main(given: list[str] | None = None) -> int:
    """Run the command line `given` (by default the program's own) and return its exit code.

    0: no error finding · 1: an error finding; for diff a difference · 2: misuse, unreadable · 3: our fault
    """
    arguments = sys.argv[1:] if given is None else given
    if arguments == ["--version"]:
        print(f"firstfix {__version__}")
        return 0
    from firstfix.cli.run import run

    return run(arguments)
