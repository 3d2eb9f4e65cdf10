"""A command's arguments: argparse, with faults as one sentence and no guessing at shortened options."""

import argparse
from collections.abc import Sequence
from typing import NoReturn

from firstfix.cli.streams import put
from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cut


class Arguments(argparse.ArgumentParser):
    """`command` alone is its name after `firstfix`; `purpose` one paragraph; `example` lines to type."""

    def __init__(self, command: str, purpose: str, example: str) -> None:
        super().__init__(
            prog=f"firstfix {command}",
            description=purpose,
            epilog=f"for example:\n{example}",
            formatter_class=_Help,
            allow_abbrev=False,
            exit_on_error=False,
        )
        self._optionals.title = "options"
        self._positionals.title = "arguments"

    def print_help(self, _file: object = None) -> None:
        put(self.format_help())

    def error(self, message: str) -> NoReturn:
        raise TroubleError(f"{cut(message, 160)}; {self.prog} --help shows how it is used")

    def read(self, given: Sequence[str]) -> argparse.Namespace:
        try:
            return self._whole(self.parse_args(given))
        except argparse.ArgumentError as fault:
            self.error(_plain(fault))

    def _whole(self, found: argparse.Namespace) -> argparse.Namespace:
        """Python 3.11 takes the `--` of `--option=--` for the end of the options, and gives an empty list in its stead."""
        for action in self._actions:
            value = getattr(found, action.dest, None)
            several = value if isinstance(action.default, list) else [value]
            if action.nargs is None and [] in (several or ()):
                raise argparse.ArgumentError(action, "expected one argument")
        return found

    def add_format(self, *formats: str) -> None:
        listed = " or ".join([", ".join(formats[:-1]), formats[-1]])
        self.add_argument(
            "--format",
            choices=formats,
            metavar="FORMAT",
            default=formats[0],
            help=f"{listed} (default: {formats[0]})",
        )


class _Help(argparse.RawDescriptionHelpFormatter):
    def __init__(self, prog: str) -> None:
        super().__init__(prog, max_help_position=24, width=100)


def _plain(fault: argparse.ArgumentError) -> str:
    name = f"{fault.argument_name}: " if fault.argument_name else ""
    return f"{name}{fault.message}"
