"""The one way to fill a template: sandboxed, strict about names, and with escapes for where a text lands.

Templates are files of ours. A plan's text reaches them only as a value, never as template source.
"""

from functools import lru_cache
from typing import TYPE_CHECKING

from firstfix import resources
from firstfix.documents.markdown import inline

if TYPE_CHECKING:
    from jinja2 import Environment  # slow to import, so only where a document is written

_MARKUP_ENDINGS = (".html.jinja", ".svg.jinja", ".xml.jinja")


@lru_cache(maxsize=1)
def environment() -> "Environment":
    """Loads from templates/ only. HTML and other markup is escaped by itself; for Markdown there is `md`."""
    from jinja2 import FileSystemLoader, StrictUndefined
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    made = ImmutableSandboxedEnvironment(
        loader=FileSystemLoader(resources.templates()),
        undefined=StrictUndefined,
        autoescape=_is_markup,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
    )
    made.filters["md"] = inline
    return made


def render(template: str, **values: object) -> str:
    """The text of `template`, a file below templates/, with `values` in it; ends with one line feed."""
    return environment().get_template(template).render(**values).rstrip("\n") + "\n"


def _is_markup(name: str | None) -> bool:
    """What has no name is escaped: the safe side."""
    return name is None or name.endswith(_MARKUP_ENDINGS)
