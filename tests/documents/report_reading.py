"""A page read the way a browser would: tags, ids, headings, words; by the standard library's parser, not by our templates."""

from collections.abc import Iterator
from html.parser import HTMLParser


class Page(HTMLParser):
    """What a test asks a page for. `text` has the words between tags, `headings` (level, words) in their order."""

    def __init__(self, source: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.headings: list[tuple[int, str]] = []
        self._words: list[str] = []
        self._open: int = 0
        self.feed(source)
        self.close()

    @property
    def text(self) -> str:
        return " ".join(" ".join(self._words).split())

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, {name: value or "" for name, value in attrs}))
        if tag in ("h1", "h2", "h3", "h4", "h5", "h6"):
            self._open = int(tag[1])
            self.headings.append((self._open, ""))

    def handle_endtag(self, tag: str) -> None:
        if self._open and tag == f"h{self._open}":
            self._open = 0

    def handle_data(self, data: str) -> None:
        self._words.append(data)
        if self._open:
            level, words = self.headings[-1]
            self.headings[-1] = (level, words + data)

    def attributes(self, name: str) -> Iterator[str]:
        return (attributes[name] for _, attributes in self.tags if name in attributes)
