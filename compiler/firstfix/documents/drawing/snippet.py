"""A few lines that show a written drawing in a page of one's own, with the drawing in words for who can't see it.

Takes a drawing, the file's name as the page is to call it, and a caption; gives Markdown (CommonMark 0.31.2) or HTML. All that a plan says is
escaped for the syntax it stands in. Long words go into a fold-up (`details`) below, and the alternative text says so.
"""

from html import escape
from urllib.parse import quote

from firstfix.documents.drawing.kit import font
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.markdown import inline

MARKDOWN, HTML = "markdown", "html"
SNIPPETS = (MARKDOWN, HTML)
# Screen readers read an alternative text in one go; what is longer is better folded up. Common practice, no source.
_LONGEST_ALT = 280
_LONGEST = 20_000
_SUMMARY = "The drawing in words"


def snippet(drawing: Drawing, file: str, form: str, words: tuple[str, ...] = (), width: float = 0.0) -> str:
    """`form` is one of SNIPPETS. `words`: caption, credit and the like, the drawing's title where there are none. `width` in CSS pixels,
    0 for as large as the file is."""
    shown = [font.clean(each) for each in words if font.clean(each)] or [font.clean(drawing.title)]
    alt, whole = _alt(drawing)
    # What isn't plain in a name, such as a colon or a bracket, is written as its code: it can't be a scheme, nor end the link.
    address = quote(file, safe="/")
    if form == MARKDOWN:
        return _markdown(address, alt, whole, shown)
    return _html(address, alt, whole, shown, _size(drawing, width))


def _alt(drawing: Drawing) -> tuple[str, str]:
    """The alternative text, and the whole where that is more."""
    whole = font.clean(drawing.alt, _LONGEST)
    title = font.clean(drawing.title)
    if len(title) + len(whole) <= _LONGEST_ALT:
        return f"{title}. {whole}", ""
    room = _LONGEST_ALT - len(title)
    start = whole[:room].rpartition(" ")[0].rstrip(" ,;:.") or whole[:room]
    return f"{title}. {start} … (all of it in words below)", whole


def _size(drawing: Drawing, width: float) -> str:
    """So that a page doesn't jump when the picture comes; 96 CSS pixels are 72 points."""
    wide = width or drawing.width * 96 / 72
    return f'width="{wide:.0f}" height="{wide * drawing.height / drawing.width:.0f}"'


def _markdown(address: str, alt: str, whole: str, words: list[str]) -> str:
    parts = [f"![{inline(alt)}]({address})", " ".join(f"*{inline(each)}*" for each in words)]
    if whole:
        parts += [f"<details><summary>{_SUMMARY}</summary>", inline(whole), "</details>"]
    return "\n\n".join(parts) + "\n"


def _html(address: str, alt: str, whole: str, words: list[str], size: str) -> str:
    caption = " · ".join(escape(each) for each in words)
    details = (
        f"\n    <details><summary>{_SUMMARY}</summary><p>{escape(whole)}</p></details>\n  " if whole else ""
    )
    return (
        "<figure>\n"
        f'  <img src="{address}" alt="{escape(alt)}" {size}>\n'
        f"  <figcaption>{caption}{details}</figcaption>\n"
        "</figure>\n"
    )
