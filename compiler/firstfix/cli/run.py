"""Picks the command, and turns whatever ends it into an exit code and, if need be, one sentence."""

import gc
import os
import sys
from collections.abc import Sequence
from importlib import import_module

from firstfix.cli.overview import COMMANDS, overview
from firstfix.cli.streams import prepare, put, say
from firstfix.cli.trouble import FINE, OUR_FAULT, TROUBLE, TroubleError

_ALONE = "firstfix alone lists the commands"


def run(given: Sequence[str]) -> int:
    prepare()
    # A command lives for a moment and its data hold no cycles: looking for them takes longer than a big plan's rules.
    gc.disable()
    try:
        _heed_orderly_stops()
        return _command(list(given))
    except TroubleError as trouble:
        say(str(trouble))
        return TROUBLE
    except KeyboardInterrupt:
        say("stopped; no output is left half written")
        return TROUBLE
    except Exception as fault:
        _confess(fault)
        return OUR_FAULT


def _heed_orderly_stops() -> None:
    """A stop asked for from outside cleans up just like Ctrl-C."""
    import signal

    signal.signal(signal.SIGTERM, signal.default_int_handler)


def _command(given: list[str]) -> int:
    if given[:1] == ["help"]:
        given = [*given[1:2], "--help"] if given[1:] else []
    if not given or given[0] in ("-h", "--help"):
        put(overview())
        return FINE
    name, *rest = given
    if name not in COMMANDS:
        raise TroubleError(_no_command(name))
    code: int = import_module(f"firstfix.cli.{name}").run(rest)
    return code


def _no_command(name: str) -> str:
    from firstfix.finding.fit import cut
    from firstfix.source.nearest import did_you_mean

    shown = cut(name, 40)
    if name.startswith("-"):
        return f"there is no option {shown} before a command; {_ALONE}"
    return f"there is no command '{shown}'{did_you_mean(name, COMMANDS) or f'; {_ALONE}'}"


def _confess(fault: Exception) -> None:
    """One sentence for a fault of ours, with the place to look at; the whole trace for who asks for it."""
    what = " ".join(str(fault).split())[:200]
    say(
        f"this is a fault in firstfix, not in your plan: {type(fault).__name__}"
        f"{f' ({what})' if what else ''} in {_place(fault)}; FIRSTFIX_DEBUG=1 shows the whole trace"
    )
    if os.environ.get("FIRSTFIX_DEBUG"):
        import traceback

        traceback.print_exception(fault, file=sys.stderr)


def _place(fault: Exception) -> str:
    """The innermost line of our own code."""
    package = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))  # noqa: PTH100, PTH120 - pathlib is slow to load
    place = "an unknown place"
    trace = fault.__traceback__
    while trace is not None:
        file = trace.tb_frame.f_code.co_filename
        if file.startswith(package):
            place = f"{file[len(package) + 1 :].replace(os.sep, '/')}, line {trace.tb_lineno}"
        trace = trace.tb_next
    return place
