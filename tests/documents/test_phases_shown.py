"""Phases on the shopping list and the checklist, and cords with their colours in the report."""

from pathlib import Path

from firstfix.pipeline import compile_plan, results

PLAN = """\
sites: {home: {rooms: {den: {mains: 9}}}}
vlans: {all: {id: 5, subnet: 10.1.5.0/24, colour: pink}}
devices:
  core: {part: switch-8, room: den, vlan: all}
  pc:   {part: computer-desktop, room: den, vlan: all, plugs-into: core, phase: spring}
phases:
  now:    {by: 2027-02-28, budget: 500}
  spring: {by: 2027-04-30}
"""


def _written(folder: Path, plan: str = PLAN) -> dict[str, str]:
    path = folder / "plan.yaml"
    path.write_text(plan, "utf-8")
    found = results(compile_plan(path, "plan.yaml"))
    names = ("shopping-list.md", "shopping-list.csv", "install-checklist.md", "report.html")
    return {name: found[name].decode() for name in names}


def test_the_list_says_the_phase_of_each_line_and_what_each_comes_to(tmp_path: Path) -> None:
    shown = _written(tmp_path)
    rows = [line for line in shown["shopping-list.md"].splitlines() if line.startswith("| ")]
    assert next(row for row in rows if "computer-desktop" in row).endswith("| spring |")
    assert next(row for row in rows if row.startswith("| now |")).startswith("| now | 2027-02-28 | ")
    assert next(row for row in rows if row.startswith("| now |")).endswith("| 500.00 EUR |")
    header, *lines = shown["shopping-list.csv"].split("\r\n")
    assert header.endswith(',"phase","line"')
    assert next(line for line in lines if '"switch-8"' in line).endswith(',"now","switch-8"')


def test_without_phases_nothing_is_said_of_them(tmp_path: Path) -> None:
    plan = PLAN.partition("phases:")[0].replace(", phase: spring", "")
    assert "phase" not in _written(tmp_path, plan)["shopping-list.md"]


def test_a_phase_stands_apart_from_the_step(tmp_path: Path) -> None:
    checklist = _written(tmp_path)["install-checklist.md"]
    assert "** (phase spring) ·" in checklist
    assert "**(phase" not in checklist


def test_cords_have_their_colours_in_the_report(tmp_path: Path) -> None:
    report = _written(tmp_path)["report.html"]
    _, _, table = report.partition('aria-label="Cords"')
    assert "<td>pink</td>" in table.partition("</table>")[0]
