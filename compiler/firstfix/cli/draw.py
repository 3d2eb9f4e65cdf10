"""`firstfix draw PLAN`: one drawing, for a write-up."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from firstfix.cli.arguments import Arguments
from firstfix.cli.one_file import replace_file
from firstfix.cli.reading import compiled, shown
from firstfix.cli.showing import exit_code, refuse_unreadable
from firstfix.cli.streams import is_terminal, put_bytes, say
from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cut

if TYPE_CHECKING:
    from firstfix.build.model import Build
    from firstfix.documents.drawing.kit.svg import Drawing

_PURPOSE = """\
Makes one drawing of a plan: the network, or the front of a cabinet. It prints an SVG, or writes the
file that -o names; the file's ending, .svg or .png, says which of the two it is."""

_EXAMPLE = """\
  firstfix draw my-network.yaml -o network.svg
  firstfix draw my-network.yaml --sheet main -o cabinet.png"""

_FORMATS = ("svg", "png")
_NETWORK = "network"


def run(given: Sequence[str]) -> int:
    arguments = Arguments("draw", _PURPOSE, _EXAMPLE)
    arguments.add_argument("plan", metavar="PLAN", help="the plan file")
    arguments.add_argument(
        "--sheet", metavar="NAME", default=_NETWORK, help="network (the default), or a cabinet's name"
    )
    arguments.add_argument("-o", "--output", metavar="FILE", help="the file to write (default: print it)")
    arguments.add_argument(
        "--format", choices=_FORMATS, metavar="FORMAT", help="svg or png (default: FILE's ending, or svg)"
    )
    chosen = arguments.read(given)
    form = _format(chosen.output, chosen.format)
    result = compiled(Path(chosen.plan), chosen.plan)
    if result.build is None:
        refuse_unreadable(result, shown(chosen.plan))
    _deliver(_content(_drawing(result.build, chosen.sheet), form), chosen.output)
    if result.report.has_errors:
        say(f"the plan has errors; firstfix check {shown(chosen.plan)} lists them")
    return exit_code(result)


def _format(output: str | None, asked: str | None) -> str:
    """An existing file is replaced, so its name must say that it is a drawing."""
    if output is None:
        if asked == "png" and is_terminal():
            raise TroubleError("a PNG cannot be shown here; name a file with -o")
        return asked or _FORMATS[0]
    ending = Path(output).suffix.lower().removeprefix(".")
    if ending not in _FORMATS or asked not in (None, ending):
        wanted = f".{asked}" if asked else ".svg or .png"
        raise TroubleError(f"the file to write ends in {wanted}; {cut(shown(output), 60)} does not")
    return ending


def _drawing(build: "Build", sheet: str) -> "Drawing":
    from firstfix.build import ids
    from firstfix.documents.drawing.cabinet.elevation import cabinet_elevation
    from firstfix.documents.drawing.network.drawings import network_drawing

    if sheet == _NETWORK:
        return network_drawing(build)
    if ids.cabinet(sheet) in build.cabinets:
        return cabinet_elevation(build, ids.cabinet(sheet))
    names = [_NETWORK, *(cabinet.name for cabinet in build.cabinets.values())]
    raise TroubleError(f"there is no sheet '{cut(sheet, 40)}'; there is {cut(', '.join(names), 200)}")


def _content(drawing: "Drawing", form: str) -> bytes:
    if form == "svg":
        return drawing.svg.encode()
    from firstfix.documents.drawing.kit.raster import png

    return png(drawing.svg)


def _deliver(content: bytes, output: str | None) -> None:
    if output is None:
        put_bytes(content)
    else:
        replace_file(Path(output), shown(output), content)
        say(f"{shown(output)} is written")
