"""`firstfix draw PLAN`: one drawing, for a write-up."""

import argparse
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from firstfix.cli.arguments import Arguments
from firstfix.cli.draw_size import Width, dots_of, pixel_scale, too_small, width_of
from firstfix.cli.one_file import replace_file
from firstfix.cli.reading import compiled, shown
from firstfix.cli.showing import exit_code, refuse_unreadable
from firstfix.cli.streams import is_terminal, put, put_bytes, say
from firstfix.cli.trouble import FINE, TroubleError
from firstfix.finding.fit import cut

if TYPE_CHECKING:
    from firstfix.build.model import Build
    from firstfix.documents.drawing.kit.svg import Drawing
    from firstfix.pipeline import Compiled

_PURPOSE = """\
Makes one drawing of a plan: a sheet of its drawings by name, or what is around a device, a cabinet, a VLAN,
or one run from end to end. It prints an SVG, or writes the file that -o names; the file's ending says whether
that is SVG, PNG or PDF. A snippet shows the written file in a page of yours, with the drawing in words."""

_EXAMPLE = """\
  firstfix draw my-network.yaml -o network.svg
  firstfix draw my-network.yaml --cabinet main --theme dark -o cabinet.png
  firstfix draw my-network.yaml --run desk--core --width 190mm -o run.pdf
  firstfix draw my-network.yaml --around core --snippet markdown -o core.svg"""

_FORMATS = ("svg", "png", "pdf")
_NETWORK = "network"
_FOCUSES = ("sheet", "around", "cabinet", "vlan", "run")
_LONGEST_WORDS = 400


def run(given: Sequence[str]) -> int:
    chosen = _arguments().read(given)
    width, dots = _sizes(chosen)
    form = _format(chosen.output, chosen.format)
    _agree(chosen, form)
    result = compiled(Path(chosen.plan), chosen.plan)
    if result.build is None:
        refuse_unreadable(result, shown(chosen.plan))
    if chosen.list:
        return _show_list(result)
    drawn = _dressed(result, _of_part(_drawings(result.build, chosen), chosen.part, form), chosen)
    _deliver(_content(result.build, drawn, form, width, dots), chosen.output)
    if chosen.snippet:
        put(_snippet(result.build, drawn[0], chosen, width))
    _remarks(result, drawn[0], chosen, width)
    return exit_code(result)


def _arguments() -> Arguments:
    from firstfix.documents.drawing.kit.themes import THEMES

    arguments = Arguments("draw", _PURPOSE, _EXAMPLE)
    add = arguments.add_argument
    add("plan", metavar="PLAN", help="the plan file")
    add("--sheet", metavar="NAME", help=f"a sheet of the plan's drawings (default: {_NETWORK})")
    add("--list", action="store_true", help="print the names of all sheets, and draw nothing")
    add("--around", metavar="DEVICE", help="a device and its neighbourhood")
    add("--hops", metavar="N", help="with --around: how many channels far (default: 1)")
    add("--cabinet", metavar="NAME", help="a cabinet, from the front")
    add("--vlan", metavar="NAME", help="a VLAN: its members, and what carries it")
    add("--run", metavar="RUN", help="one run from end to end, such as desk--core or core/3")
    add("--part", metavar="N", help="which sheet, of what takes several (default: the first; of a PDF, all)")
    add("-o", "--output", metavar="FILE", help="the file to write (default: print it)")
    add(
        "--format",
        choices=_FORMATS,
        metavar="FORMAT",
        help="svg, png or pdf (default: FILE's ending, or svg)",
    )
    add("--width", metavar="WIDTH", help="how wide, as in 160mm or 1200px (default: print size)")
    add("--resolution", metavar="DOTS", help="of a PNG, in dots per inch (default: 144)")
    add("--theme", choices=THEMES, metavar="THEME", help="light, dark or print (default: the plan's)")
    add(
        "--background",
        choices=("paper", "transparent"),
        default="paper",
        metavar="GROUND",
        help="paper (the default) or transparent",
    )
    add("--caption", metavar="WORDS", default="", help="what stands at its foot")
    add("--credit", metavar="WORDS", help="by whom it is (default: the plan's credit)")
    add(
        "--snippet",
        choices=("markdown", "html"),
        metavar="SYNTAX",
        help="with -o: print a snippet, markdown or html, that shows the file",
    )
    return arguments  # fmt: skip


def _sizes(chosen: argparse.Namespace) -> tuple[Width | None, int | None]:
    return (
        width_of(chosen.width) if chosen.width is not None else None,
        dots_of(chosen.resolution) if chosen.resolution is not None else None,
    )


def _format(output: str | None, asked: str | None) -> str:
    """An existing file is replaced, so its name must say that it is a drawing."""
    if output is None:
        if asked in ("png", "pdf") and is_terminal():
            raise TroubleError(f"a {asked.upper()} cannot be shown here; name a file with -o")
        return asked or _FORMATS[0]
    ending = Path(output).suffix.lower().removeprefix(".")
    if ending not in _FORMATS or asked not in (None, ending):
        wanted = f".{asked}" if asked else ".svg, .png or .pdf"
        raise TroubleError(f"the file to write ends in {wanted}; {cut(shown(output), 60)} does not")
    return ending


def _agree(chosen: argparse.Namespace, form: str) -> None:
    """Options that don't go together."""
    asked = [f"--{focus}" for focus in _FOCUSES if getattr(chosen, focus) is not None]
    if len(asked) > 1:
        raise TroubleError(f"one thing is drawn at a time, so {' and '.join(asked)} don't go together")
    if chosen.hops is not None and chosen.around is None:
        raise TroubleError("--hops says how far around a device, so it goes with --around")
    if chosen.resolution is not None and form != "png":
        raise TroubleError(
            f"only a PNG has a resolution, and this is {form.upper()}; take --width to set its size"
        )
    if chosen.snippet and (chosen.output is None or form == "pdf"):
        raise TroubleError("a snippet shows an SVG or a PNG, so -o must name the file to write")
    for option in ("caption", "credit"):
        if len(getattr(chosen, option) or "") > _LONGEST_WORDS:
            raise TroubleError(f"--{option} takes at most {_LONGEST_WORDS} characters")


def _show_list(result: "Compiled") -> int:
    """Each sheet's name and title."""
    from firstfix.cli.columns import columns
    from firstfix.documents.drawing.set import undressed

    assert result.build is not None
    rows = [(drawing.name, cut(drawing.title, 80)) for drawing in undressed(result.build)]
    put(columns(rows))
    return FINE


def _count(text: str | None, option: str, most: int) -> int:
    """1 where the option isn't given."""
    if text is None:
        return 1
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:6]) <= most):
        raise TroubleError(f"{option} takes a number from 1 to {most}, not '{cut(text, 20)}'")
    return int(text)


def _drawings(build: "Build", chosen: argparse.Namespace) -> "tuple[Drawing, ...]":
    from firstfix.cli import draw_choice

    if chosen.around is not None:
        return draw_choice.around(build, chosen.around, _count(chosen.hops, "--hops", 99))
    if chosen.cabinet is not None:
        return draw_choice.cabinet(build, chosen.cabinet)
    if chosen.vlan is not None:
        return draw_choice.vlan(build, chosen.vlan)
    if chosen.run is not None:
        return draw_choice.run(build, chosen.run)
    return draw_choice.sheet(build, _NETWORK if chosen.sheet is None else chosen.sheet)


def _of_part(drawn: "tuple[Drawing, ...]", part: str | None, form: str) -> "tuple[Drawing, ...]":
    """The one asked for; a PDF has room for all."""
    if part not in (None, "1") and len(drawn) == 1:
        raise TroubleError(f"{drawn[0].name} is a single sheet, so --part {cut(part, 20)} is none of it")
    number = _count(part, "--part", len(drawn))
    if part is None and form == "pdf":
        return drawn
    if part is None and len(drawn) > 1:
        say(
            f"this is {drawn[0].name}, the first of {len(drawn)} sheets up to {drawn[-1].name}; --part 2 draws the next one,"
            " and a PDF has all of them"
        )
    return (drawn[number - 1],)


def _dressed(
    result: "Compiled", drawn: "tuple[Drawing, ...]", chosen: argparse.Namespace
) -> "tuple[Drawing, ...]":
    from firstfix.documents.drawing.kit.foot import foot_words, with_foot
    from firstfix.documents.drawing.set import DRAFT

    assert result.build is not None
    looks = result.build.looks
    credit = looks.credit if chosen.credit is None else chosen.credit
    words = foot_words(DRAFT if result.report.has_errors else "", result.build.name, chosen.caption, credit)
    return tuple(
        with_foot(
            replace(
                each, theme=chosen.theme or looks.theme, is_transparent=chosen.background == "transparent"
            ),
            words,
            f"sheet {each.name}",
        )
        for each in drawn
    )


def _content(
    build: "Build", drawn: "tuple[Drawing, ...]", form: str, width: Width | None, dots: int | None
) -> bytes:
    from firstfix.documents.drawing.sized import sized_pdf, sized_svg

    first = drawn[0]
    if form == "pdf":
        scale = width.points / first.width if width else 1.0
        return sized_pdf(drawn, f"{first.title}, of {build.name}", scale)
    if form == "svg":
        return (sized_svg(first, width.value, width.unit) if width else first.svg).encode()
    from firstfix.documents.drawing.kit.raster import png

    return png(first.svg, pixel_scale(first, width, dots))


def _snippet(build: "Build", drawing: "Drawing", chosen: argparse.Namespace, width: Width | None) -> str:
    from firstfix.documents.drawing.snippet import snippet

    pixels = width.points * 96 / 72 if width else 0.0
    credit = build.looks.credit if chosen.credit is None else chosen.credit
    return snippet(drawing, shown(chosen.output), chosen.snippet, (chosen.caption, credit), pixels)


def _remarks(result: "Compiled", drawing: "Drawing", chosen: argparse.Namespace, width: Width | None) -> None:
    from firstfix.documents.drawing.kit.font import ELLIPSIS

    small = too_small(drawing, width)
    if small:
        say(small)
    if ELLIPSIS in drawing.foot and ELLIPSIS not in f"{chosen.caption}{chosen.credit}":
        say(
            "the foot has no room for all of the caption and the credit, and ends in …; a snippet has all of them"
        )
    if result.report.has_errors:
        say(f"the plan has errors; firstfix check {shown(chosen.plan)} lists them")


def _deliver(content: bytes, output: str | None) -> None:
    if output is None:
        put_bytes(content)
    else:
        replace_file(Path(output), shown(output), content)
        say(f"{shown(output)} is written")
