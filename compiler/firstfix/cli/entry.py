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


def leave() -> None:
    """Run the program's own command line and end the process.

    What has been printed is flushed; then the process goes at once, since taking the million small objects of a big plan apart one by
    one takes longer than its rules.
    """
    import os

    code = main()
    try:
        sys.stdout.flush()
        sys.stderr.flush()
    except OSError:
        code = code or 2
    os._exit(code)
