"""drawings.pdf read back by another library: pages of the paper asked for, text that can be searched, words for each picture."""

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader
from pypdf.generic import Destination, DictionaryObject

from documents.drawing.reading import texts
from documents.drawing.sample_build import farm
from firstfix.build.looks import Looks
from firstfix.documents.drawing.bound import bound
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.pdf import Leaf, pdf
from firstfix.documents.drawing.set import sheets

HOSTILE = '#panic("x") $x$ ] ) \\" {{7*7}} <script>'


def _read(content: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(content))


@pytest.mark.parametrize(("paper", "size"), [("a4", (841.89, 595.28)), ("letter", (792, 612))])
def test_every_sheet_has_a_page_of_the_paper_asked_for(paper: str, size: tuple[float, float]) -> None:
    build = replace(farm(), looks=Looks(paper=paper))
    drawn = sheets(build)
    pages = _read(bound(build, drawn)).pages
    assert len(pages) == len(drawn)
    for found, drawing in zip(pages, drawn, strict=True):
        wanted = size if drawing.height <= palette.SHEET_SHORT + 0.1 else size[::-1]
        assert (float(found.mediabox.width), float(found.mediabox.height)) == pytest.approx(wanted, abs=0.1)


def test_a_sheet_larger_than_the_paper_has_a_page_of_its_own_size() -> None:
    build = farm()
    large = replace(sheets(build)[0], width=1200, height=900)
    box = _read(bound(build, (large,))).pages[0].mediabox
    assert float(box.width) == pytest.approx(1200 + 2 * 10 * 72 / 25.4, abs=0.1)


def test_its_text_is_text_in_the_shipped_font() -> None:
    build = farm()
    drawn = sheets(build)
    pages = _read(bound(build, drawn)).pages
    for found, drawing in zip(pages, drawn, strict=True):
        said = "".join(found.extract_text().split())
        missing = [box.words for box in texts(drawing.svg) if "".join(box.words.split()) not in said]
        assert missing == [], drawing.name
        fonts = _below(found, "/Resources", "/Font").values()
        assert fonts, drawing.name
        for font in fonts:
            said_of_it = font.get_object()
            assert isinstance(said_of_it, DictionaryObject)
            assert "FirstfixSans" in str(said_of_it["/BaseFont"])
            assert "/ToUnicode" in said_of_it


def test_the_document_has_its_title_and_no_date() -> None:
    build = farm()
    reader = _read(bound(build, sheets(build)))
    assert reader.metadata is not None
    assert reader.metadata.title == f"Drawings of {build.name}"
    assert reader.metadata.creation_date is None
    assert [each.title for each in reader.outline if isinstance(each, Destination)] == [
        drawing.title for drawing in sheets(build)
    ]


def test_each_picture_has_its_words_for_who_cannot_see_it() -> None:
    build = farm()
    drawn = sheets(build)
    reader = _read(bound(build, drawn))
    said = {str(each["/Alt"]) for each in _structure(_below(reader.trailer, "/Root", "/StructTreeRoot"))}
    assert {drawing.alt for drawing in drawn} <= said


def _below(found: DictionaryObject, *keys: str) -> DictionaryObject:
    for key in keys:
        inner = found[key].get_object()
        assert isinstance(inner, DictionaryObject), key
        found = inner
    return found


def _structure(node: object) -> list[dict[str, object]]:
    found: list[dict[str, object]] = []
    pending = [node]
    while pending:
        each = pending.pop()
        each = each.get_object() if hasattr(each, "get_object") else each
        if isinstance(each, list):
            pending += each
        elif isinstance(each, dict):
            found += [each] if "/Alt" in each else []
            pending += [each["/K"]] if "/K" in each else []
    return found


def test_the_same_bytes_twice_and_nothing_of_a_picture_of_the_page() -> None:
    build = farm()
    once = bound(build, sheets(build))
    assert once == bound(build, sheets(build))
    assert all(not found.images for found in _read(once).pages)


def test_a_plans_words_are_words_there_too() -> None:
    build = replace(farm(), name=HOSTILE, looks=Looks(credit=HOSTILE))
    reader = _read(bound(build, sheets(build)))
    assert reader.metadata is not None
    assert reader.metadata.title == f"Drawings of {HOSTILE}"


def test_pages_of_any_svg_for_labels() -> None:
    leaf = Leaf(
        '<svg xmlns="http://www.w3.org/2000/svg" width="100pt" height="50pt" viewBox="0 0 100 50"/>', 100, 50
    )
    boxes = [found.mediabox for found in _read(pdf([leaf, leaf], "labels")).pages]
    assert [(float(box.width), float(box.height)) for box in boxes] == [(100, 50), (100, 50)]


@pytest.mark.parametrize("markup", ["", "plain words", "<svg"])
def test_what_is_no_svg_is_refused(markup: str) -> None:
    with pytest.raises(ValueError, match="no pdf can be made"):
        pdf([Leaf(markup, 10, 10)], "x")


def test_no_page_is_no_pdf() -> None:
    with pytest.raises(ValueError, match="at least one page"):
        pdf([], "x")
