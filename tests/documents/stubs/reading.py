"""Settings sheets as a reader sees them: by heading, by table, by row and cell."""

from collections.abc import Mapping

from firstfix.build.model import Build
from firstfix.documents.stubs.files import stub_files


def sheets(build: Build) -> Mapping[str, str]:
    return {
        path.split("/")[1]: text.decode() for path, text in stub_files(build).items() if path.endswith(".md")
    }


def table(sheet: str, heading: str) -> list[list[str]]:
    """The rows of the table under a heading, as a reader of Markdown sees them, without its head."""
    lines = [line for line in section(sheet, heading).splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in line.strip("|").split(" | ")] for line in lines[2:]]


def section(sheet: str, heading: str) -> str:
    return sheet.split(f"## {heading}\n", 1)[1].split("\n## ", 1)[0]
