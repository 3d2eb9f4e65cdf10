"""Templates are filled in a sandbox, and what goes into Markdown is escaped on its way."""

import pytest
from jinja2 import TemplateNotFound, UndefinedError, nodes
from jinja2.exceptions import SecurityError

from firstfix import resources
from firstfix.documents.templates import environment, render

MARKDOWN = sorted(path.name for path in resources.templates().glob("*.md.jinja"))


def test_both_kinds_of_resources_are_found() -> None:
    assert resources.templates().is_dir()
    assert resources.schemas().is_dir()


@pytest.mark.parametrize("name", MARKDOWN)
def test_every_value_in_a_markdown_template_goes_through_md(name: str) -> None:
    """Else a plan's text could become markup. What is a number of ours, or a fixed word, may go without."""
    source = (resources.templates() / name).read_text(encoding="utf-8")
    tree = environment().parse(source)
    for output in tree.find_all(nodes.Output):
        for value in output.nodes:
            if not isinstance(value, nodes.TemplateData):
                assert is_harmless(value), f"{name}:{value.lineno}"


def is_harmless(value: nodes.Node) -> bool:
    if isinstance(value, nodes.Filter):
        return value.name == "md"
    if isinstance(value, nodes.CondExpr):
        return isinstance(value.expr1, nodes.Const) and isinstance(value.expr2, nodes.Const)
    name = (
        value.attr
        if isinstance(value, nodes.Getattr)
        else value.name
        if isinstance(value, nodes.Name)
        else ""
    )
    return name in ("number", "count", "unpriced", "typical")


def test_a_value_is_never_template_source() -> None:
    text = render(
        "shopping-list.md.jinja",
        name="{{ 7 * 7 }}",
        count=0,
        known="",
        unpriced=0,
        typical=0,
        sections=(),
        owned=(),
        spares="",
        stock=(),
        ordered=0,
        phases=(),
        share="",
        from_before=(),
        tools={"rows": ()},
        left_out=(),
    )
    assert "{{ 7 \\* 7 }}" in text


def test_a_missing_value_is_a_fault() -> None:
    with pytest.raises(UndefinedError):
        render("shopping-list.md.jinja", name="x")


@pytest.mark.parametrize("source", ["{{ ().__class__.__bases__ }}", "{{ values.append(1) }}"])
def test_the_sandbox_lets_nothing_out_and_nothing_be_changed(source: str) -> None:
    with pytest.raises(SecurityError):
        environment().from_string(source).render(values=[])


@pytest.mark.parametrize("name", ["../pyproject.toml", "/etc/hostname"])
def test_only_templates_are_loaded(name: str) -> None:
    with pytest.raises(TemplateNotFound):
        environment().get_template(name)


def test_markup_is_escaped_by_itself() -> None:
    assert environment().from_string("{{ name }}").render(name="<b>") == "&lt;b&gt;"
