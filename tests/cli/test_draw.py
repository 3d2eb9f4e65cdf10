"""One drawing into a file or to standard output: which, how large, in which look; and each misuse in one sentence."""

import re
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest

from cli.running import BROKEN_PLAN, firstfix, is_one_sentence

PNG_SIGNATURE = b"\x89PNG\r\n\x1a\n"  # ISO/IEC 15948, 5.2
FARM = Path(__file__).parents[2] / "plans" / "honey-farm.yaml"
# A name and a note that would break out of Markdown or HTML if they were let.
HOSTILE_PLAN = """\
name: "</figcaption><script>alert(1)</script> *bold* [a](b) | `c`"
sites: {home: {rooms: {study: {mains: 4}}}}
devices:
  core: {part: switch-8, room: study}
  desk: {part: computer-desktop, room: study, plugs-into: core}
"""


@pytest.fixture(scope="module")
def plans(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Plans that are only read."""
    folder = tmp_path_factory.mktemp("plans")
    (folder / "broken.yaml").write_text(BROKEN_PLAN)
    (folder / "hostile.yaml").write_text(HOSTILE_PLAN)
    for name in ("honey-farm.yaml", "honey-farm.allocations.yaml"):
        (folder / name).write_bytes((FARM.parent / name).read_bytes())
    return folder


def _root(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)  # noqa: S314 - our own output


@pytest.mark.parametrize(
    ("given", "title"),
    [
        ((), "Network of Honey farm"),
        (("--sheet", "tree"), "Tree of Honey farm"),
        (("--sheet", "cabinet-main-rear"), "Cabinet main, from behind"),
        (("--around", "cam-yard", "--hops", "2"), "Around cam-yard · within 2 channels"),
        (("--cabinet", "barn"), "Cabinet barn, front"),
        (("--vlan", "guests"), "VLAN 30 guests of Honey farm"),
        (("--run", "desk--core"), "desk to core/10"),
        (("--run", "core to desk"), "core/10 to desk"),
        (("--run", "panel/1"), "core/10 to desk"),
    ],
)
def test_what_is_asked_for_is_drawn(plans: Path, given: tuple[str, ...], title: str) -> None:
    run = firstfix("draw", "honey-farm.yaml", *given, cwd=plans)
    assert run.code == 0
    assert not run.err or "sheets" in run.err
    said = _root(run.out)[0].text or ""
    assert said == title or (given[:2] == ("--sheet", "tree") and "ree" in said)


def test_the_list_names_every_sheet_and_each_can_be_drawn(plans: Path) -> None:
    run = firstfix("draw", "honey-farm.yaml", "--list", cwd=plans)
    names = [line.split()[0] for line in run.out.splitlines()]
    assert run.code == 0
    assert {"network", "cabinet-main", "poe", "ways-1"} <= set(names)
    last = firstfix("draw", "honey-farm.yaml", "--sheet", names[-1], cwd=plans)
    assert f"sheet {names[-1]}" in last.out


def test_a_group_of_several_sheets_gives_the_one_asked_for_and_says_that_there_are_more(plans: Path) -> None:
    first = firstfix("draw", "honey-farm.yaml", "--sheet", "ways", cwd=plans)
    assert "sheet ways-1" in first.out
    assert "this is ways-1, the first of 2 sheets up to ways-2; --part 2" in first.err
    second = firstfix("draw", "honey-farm.yaml", "--sheet", "ways", "--part", "2", cwd=plans)
    assert "sheet ways-2" in second.out
    assert second.err == ""


def test_a_png_by_the_files_ending_replaces_the_old_one(plans: Path, tmp_path: Path) -> None:
    (tmp_path / "n.png").write_bytes(b"old")
    run = firstfix("draw", str(plans / "honey-farm.yaml"), "-o", "n.png", cwd=tmp_path)
    assert (run.code, run.err) == (0, "firstfix: n.png is written\n")
    assert (tmp_path / "n.png").read_bytes().startswith(PNG_SIGNATURE)
    assert [path.name for path in tmp_path.iterdir()] == ["n.png"]


def test_a_pdf_has_a_page_for_each_sheet(plans: Path, tmp_path: Path) -> None:
    firstfix("draw", str(plans / "honey-farm.yaml"), "--sheet", "ways", "-o", "w.pdf", cwd=tmp_path)
    content = (tmp_path / "w.pdf").read_bytes()
    assert content.startswith(b"%PDF-")
    assert len(re.findall(rb"/Type\s*/Page\b", content)) == 2


def _png_size(content: bytes) -> tuple[int, int]:
    """ISO/IEC 15948, 11.2.2: width and height stand first in IHDR."""
    return int.from_bytes(content[16:20]), int.from_bytes(content[20:24])


@pytest.mark.parametrize(
    ("given", "pixels"),
    [
        (("--width", "900px"), 900),
        (("--width", "900px", "--resolution", "300"), 900),
        # 127 mm are 5 inches.
        (("--width", "127mm", "--resolution", "100"), 500),
        (("--width", "127 mm"), 720),
    ],
)
def test_a_png_is_as_wide_as_asked(plans: Path, tmp_path: Path, given: tuple[str, ...], pixels: int) -> None:
    firstfix("draw", str(plans / "honey-farm.yaml"), *given, "-o", "n.png", cwd=tmp_path)
    assert abs(_png_size((tmp_path / "n.png").read_bytes())[0] - pixels) <= 1


def test_an_svg_has_the_width_asked_for_in_its_unit_and_says_where_letters_get_too_small(plans: Path) -> None:
    run = firstfix("draw", "honey-farm.yaml", "--width", "120mm", cwd=plans)
    root = _root(run.out)
    left, top, wide, high = map(float, root.attrib["viewBox"].split())
    assert (left, top, root.attrib["width"]) == (0, 0, "120mm")
    assert float(root.attrib["height"].removesuffix("mm")) == pytest.approx(120 * high / wide, abs=0.01)
    # 7 pt letters on a sheet of so many points: redone by hand from the viewBox.
    size = 7 * 120 / (wide / 72 * 25.4)
    assert f"the smallest letters are {size:.1f} pt" in run.err
    enough = re.search(r"from (\d+) mm on", run.err)
    assert enough is not None
    assert firstfix("draw", "honey-farm.yaml", "--width", f"{enough[1]}mm", cwd=plans).err == ""
    less = firstfix("draw", "honey-farm.yaml", "--width", f"{int(enough[1]) - 4}mm", cwd=plans)
    assert "too" in less.err or "smallest letters" in less.err


def test_theme_background_caption_and_credit(plans: Path) -> None:
    given = ("--background", "transparent", "--caption", "The yard", "--credit", "by K")
    light = firstfix("draw", "honey-farm.yaml", *given, cwd=plans).out
    words = [each.text for each in _root(light).iter() if each.tag.endswith("}text")]
    assert "Honey farm · The yard · by K" in words
    ground = next(each for each in _root(light) if each.tag.endswith("}rect"))
    assert ground.attrib["fill"] == "none"
    themes = {
        firstfix("draw", "honey-farm.yaml", "--theme", theme, cwd=plans).out
        for theme in ("light", "dark", "print")
    }
    assert len(themes) == 3


def test_a_caption_too_long_for_the_foot_is_said_to_be_cut(plans: Path) -> None:
    run = firstfix("draw", "honey-farm.yaml", "--caption", "what the yard looks like " * 12, cwd=plans)
    assert "the foot has no room" in run.err


@pytest.mark.parametrize("syntax", ["markdown", "html"])
def test_a_snippet_shows_the_file_and_says_in_words_what_is_on_it(
    plans: Path, tmp_path: Path, syntax: str
) -> None:
    plan = str(plans / "honey-farm.yaml")
    run = firstfix(
        "draw",
        plan,
        "--run",
        "desk--core",
        "--caption",
        "Desk",
        "--snippet",
        syntax,
        "-o",
        "d.svg",
        cwd=tmp_path,
    )
    assert run.code == 0
    assert (tmp_path / "d.svg").is_file()
    assert "d.svg" in run.out
    assert "Desk" in run.out
    assert "out-workroom" in run.out
    assert "<details>" in run.out


class _Tags(HTMLParser):
    """Every tag that a browser would see, with its attributes."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))


def test_a_snippet_does_nothing_but_show(plans: Path, tmp_path: Path) -> None:
    plan = str(plans / "hostile.yaml")
    given = ("--caption", "<img src=x> *a* ](javascript:b)", "-o", "java:a b)(.svg")
    html = firstfix("draw", plan, *given, "--snippet", "html", cwd=tmp_path).out
    tags = _Tags()
    tags.feed(html)
    assert {name for name, _ in tags.found} <= {"figure", "img", "figcaption", "details", "summary", "p"}
    images = [attributes for name, attributes in tags.found if name == "img"]
    assert [attributes["src"] for attributes in images] == ["java%3Aa%20b%29%28.svg"]
    assert set(images[0]) == {"src", "alt", "width", "height"}
    markdown = firstfix("draw", plan, *given, "--snippet", "markdown", cwd=tmp_path).out
    assert not re.search(r"(?<!\\)<(?!/?details|/?summary)", markdown)
    assert re.findall(r"(?<!\\)\]\(([^)]*)\)", markdown) == ["java%3Aa%20b%29%28.svg"]


def test_a_link_is_not_written_through(plans: Path, tmp_path: Path) -> None:
    (tmp_path / "kept.yaml").write_text("kept")
    (tmp_path / "n.svg").symlink_to("kept.yaml")
    assert firstfix("draw", str(plans / "honey-farm.yaml"), "-o", "n.svg", cwd=tmp_path).code == 2
    assert (tmp_path / "kept.yaml").read_text() == "kept"


MISUSES = {
    "an unknown sheet, with the nearest": (("--sheet", "netwrok"), "; did you mean 'network'?"),
    "an unknown sheet, with all": (("--sheet", "nothing-like-it"), "there is network, cabinet-barn, "),
    "a cabinet that is no sheet": (("--sheet", "main"), "--cabinet main draws the cabinet"),
    "a device that is no sheet": (("--sheet", "core"), "--around core draws"),
    "an unknown device": (("--around", "cam-yrad"), "no device 'cam-yrad'; did you mean 'cam-yard'?"),
    "a device off the network": (("--around", "strip"), "no channel of the network reaches or passes 'strip'"),
    "an unknown cabinet": (("--cabinet", "attic"), "no cabinet 'attic'; there is barn, main"),
    "an unknown VLAN": (("--vlan", "guest"), "no VLAN 'guest'; did you mean 'guests'?"),
    "an unknown run": (("--run", "dsek"), "nothing in the plan is called 'dsek'; did you mean 'desk'?"),
    "something that is no run": (("--run", "yard-duct"), "no run from end to end goes by 'yard-duct'"),
    "many runs": (("--run", "core"), "'core' is on 8 runs, and one is drawn: "),
    "two at a time": (("--vlan", "farm", "--run", "desk"), "--vlan and --run don't go together"),
    "hops without a device": (("--hops", "2"), "goes with --around"),
    "no hops": (("--around", "core", "--hops", "0"), "from 1 to 99, not '0'"),
    "a part that is not there": (("--sheet", "ways", "--part", "3"), "from 1 to 2, not '3'"),
    "a part of one": (("--part", "2"), "network is a single sheet"),
    "an ending": (("-o", "n.gif"), "ends in .svg, .png or .pdf; n.gif does not"),
    "an ending that is not the format": (("-o", "n.svg", "--format", "png"), "ends in .png"),
    "a width without a unit": (("--width", "160"), "written as 160mm or 1200px, not '160'"),
    "a width like a wall": (("--width", "99999mm"), "20 mm to 3000 mm"),
    "a resolution of no PNG": (("--resolution", "300"), "only a PNG has a resolution"),
    "a resolution too high": (("-o", "n.png", "--resolution", "9999"), "36 to 720 dots per inch"),
    "too many pixels": (("-o", "n.png", "--width", "3000mm", "--resolution", "720"), "more pixels than"),
    "a snippet of no file": (("--snippet", "html"), "-o must name the file"),
    "a snippet of a PDF": (("--snippet", "html", "-o", "n.pdf"), "a snippet shows an SVG or a PNG"),
    "a caption like a book": (("--caption", "w" * 401), "--caption takes at most 400 characters"),
}  # fmt: skip


@pytest.mark.parametrize(("given", "said"), MISUSES.values(), ids=MISUSES.keys())
def test_a_misuse_is_one_sentence_and_writes_nothing(
    plans: Path, tmp_path: Path, given: tuple[str, ...], said: str
) -> None:
    run = firstfix("draw", str(plans / "honey-farm.yaml"), *given, cwd=tmp_path)
    assert (run.code, run.out) == (2, "")
    assert is_one_sentence(run.err)
    assert said in run.err
    assert list(tmp_path.iterdir()) == []


def test_a_plan_with_errors_is_drawn_as_a_draft_and_said_to_have_them(plans: Path, tmp_path: Path) -> None:
    run = firstfix("draw", str(plans / "broken.yaml"), "-o", "n.svg", cwd=tmp_path)
    assert run.code == 1
    assert "the plan has errors" in run.err
    assert "draft: the plan has errors" in (tmp_path / "n.svg").read_text()
