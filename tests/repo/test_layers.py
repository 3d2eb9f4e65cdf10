"""Who may import whom, who may touch the machine, and what every module and rule says about itself."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import firstfix
from firstfix.pipeline import compile_plan
from firstfix.rules.all_kinds import all_kinds
from firstfix.rules.registry import ALL_RULES
from firstfix.rules.rule import Rule

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "compiler" / "firstfix"
MODULES = sorted(path.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py"))
PLANS = sorted(path for path in (ROOT / "plans").glob("*.yaml") if "." not in path.stem)

# A module may import those of a lower rank, and of its own package. The build is the waist: plan and resolve are above it, and
# what reads it must not reach past it.
RANKS = {
    "": 0, "span": 0, "units": 0, "algorithms": 0, "resources": 0,
    "finding": 1,
    "standards": 2,
    "physics": 3,
    "source": 4, "offers": 4.5, "parts": 5, "allocations": 6, "plan": 6, "progress": 6.5, "build": 7, "resolve": 8, "graphs": 9,
    "rules": 10, "purchase": 10, "work": 10, "compare": 10,
    "changeover": 10.5, "growth": 10.5, "remaining": 10.5, "schedule": 10.5, "spending": 10.5,
    "explaining": 11, "documents": 12, "pipeline": 13, "cli": 14, "__main__": 15,
}  # fmt: skip
# What only looks at a build may not see how a plan is written or resolved, although those rank lower. growth/ writes grown plans,
# which are compiled for it.
BLIND_TO = {
    package: frozenset({"plan", "resolve"})
    for package in (
        "graphs",
        "rules",
        "purchase",
        "work",
        "compare",
        "changeover",
        "remaining",
        "schedule",
        "spending",
        "explaining",
        "documents",
    )
} | {"build": frozenset({"plan"})}


def _package(module: str) -> str:
    first = module.partition("/")[0].removesuffix(".py")
    return "" if first == "__init__" else first


def _imported(path: Path) -> Iterator[tuple[int, str]]:
    """Line and first name below `firstfix`, wherever in the module the import stands: type-checking blocks and functions too."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, (
                f"{path.name}:{node.lineno} imports relatively; names are written out here"
            )
            if node.module == "firstfix":
                yield from ((node.lineno, each.name if each.name in RANKS else "") for each in node.names)
            elif node.module is not None and node.module.startswith("firstfix."):
                yield node.lineno, node.module.split(".")[1]
        elif isinstance(node, ast.Import):
            for each in node.names:
                if each.name.startswith("firstfix."):
                    yield node.lineno, each.name.split(".")[1]


@pytest.mark.parametrize("module", MODULES)
def test_imports_go_down(module: str) -> None:
    own = _package(module)
    assert own in RANKS, (
        f"{own} has no rank; give it one where it belongs in the chain from text to documents"
    )
    for line, other in _imported(PACKAGE / module):
        why = f"{module}:{line} imports {other}, which stands above or beside {own}: nothing flows back up"
        assert other == own or RANKS[other] < RANKS[own], why
        blind = f"{module}:{line} imports {other}: below the build only the build is read, never the plan"
        assert other not in BLIND_TO.get(own, ()), blind


# The edges of the core, each with its reason. Everything else is a function of what it is given.
MAY_READ_FILES = {
    "source/load.py": "the plan and its includes",
    "parts/library_files.py": "the parts that come with firstfix",
    "standards/table.py": "the published tables that come with firstfix",
    "documents/output_folder.py": "writes the results, for the command only",
}
_FILE_CALLS = {"open", "read_text", "read_bytes", "write_text", "write_bytes"}
_NEVER_CALLS = {"print", "input", "breakpoint", "exec", "eval"}
_NEVER_ATTRIBUTES = {
    ("os", "environ"), ("os", "getenv"), ("time", "time"), ("time", "monotonic"), ("datetime", "now"), ("date", "today"),
    ("datetime", "today"), ("datetime", "utcnow"), ("sys", "stdout"), ("sys", "stderr"), ("sys", "argv"), ("random", "random"),
}  # fmt: skip
_NEVER_MODULES = {"socket", "subprocess", "urllib.request", "http.client", "locale", "random", "secrets", "uuid", "requests"}  # fmt: skip


def _is_core(module: str) -> bool:
    # The font is made by hand with a program of its own when it changes.
    return _package(module) not in ("cli", "__main__") and module != "documents/font/make_font.py"


@pytest.mark.parametrize("module", [each for each in MODULES if _is_core(each)])
def test_core_is_pure(module: str) -> None:
    for node in ast.walk(ast.parse((PACKAGE / module).read_text("utf-8"))):
        where = f"{module}:{getattr(node, 'lineno', 0)}"
        if isinstance(node, ast.Call):
            name = node.func.id if isinstance(node.func, ast.Name) else ""
            name = name or (node.func.attr if isinstance(node.func, ast.Attribute) else "")
            assert not (isinstance(node.func, ast.Name) and name in _NEVER_CALLS), (
                f"{where} calls {name}; only cli speaks"
            )
            reads = name in _FILE_CALLS and module not in MAY_READ_FILES and not _is_template_file(module)
            assert not reads, (
                f"{where} calls {name}; only {', '.join(MAY_READ_FILES)} touch files, so that the rest is repeatable"
            )
        elif isinstance(node, ast.Attribute):
            holder = node.value.id if isinstance(node.value, ast.Name) else getattr(node.value, "attr", "")
            assert (holder, node.attr) not in _NEVER_ATTRIBUTES, (
                f"{where} uses {holder}.{node.attr}; only cli sees the machine"
            )
        elif isinstance(node, ast.Import | ast.ImportFrom):
            names = (
                [node.module or ""]
                if isinstance(node, ast.ImportFrom)
                else [each.name for each in node.names]
            )
            assert not _NEVER_MODULES.intersection(names), (
                f"{where} imports {names}; the core has no network, chance or locale"
            )


def _is_template_file(module: str) -> bool:
    """Fonts and templates that come with firstfix are read where they are used, found by resources.py."""
    return module.startswith(("documents/font/", "documents/templates"))


@pytest.mark.parametrize("module", MODULES)
def test_module_says_what_it_is_for(module: str) -> None:
    if module == "__init__.py":
        return
    doc = ast.get_docstring(ast.parse((PACKAGE / module).read_text("utf-8")))
    assert doc is not None
    assert len(doc.split()) >= 3


# What a rule's id must not be: an id names the matter, so that it stays right when the remedy changes.
_REMEDIES = {"add", "use", "fix", "mend", "move", "remove", "replace", "avoid", "should", "must", "do"}


@pytest.mark.parametrize("rule", ALL_RULES, ids=lambda rule: rule.kind.id)
def test_rule_explains_itself(rule: Rule) -> None:
    kind = rule.kind
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", kind.id)
    assert not _REMEDIES.intersection(kind.id.split("-"))
    assert kind.summary.endswith(".")
    assert len(kind.summary) <= 160
    headings = set(
        re.findall(r"^ *(Because|Compares|Skips|Cannot tell|Remedy|Example):", kind.help, re.MULTILINE)
    )
    assert "Because" in headings or kind.basis.document.startswith(("IEC", "IEEE", "RFC", "ISO", "ANSI"))
    assert headings & {"Compares", "Remedy"}
    assert "Remedy" in headings


def test_kinds_have_one_id_each() -> None:
    ids = [kind.id for kind in all_kinds()]
    assert len(ids) == len(set(ids))


def test_no_rule_is_left_out_of_the_registry() -> None:
    """Every decorated check and every RULES tuple of a module in rules/ is in ALL_RULES."""
    import importlib

    known = {id(rule.check) for rule in ALL_RULES}
    for module in MODULES:
        if module.startswith("rules/") and module != "rules/__init__.py":
            loaded = importlib.import_module("firstfix." + module.removesuffix(".py").replace("/", "."))
            for name, value in vars(loaded).items():
                if isinstance(value, Rule):
                    assert id(value.check) in known, f"{module} defines {name}, which is not in ALL_RULES"


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_shipped_plan_has_no_error(path: Path) -> None:
    compiled = compile_plan(path, path.name)
    assert [each.message for each in compiled.report.findings if each.level.value == "error"] == []


def test_there_are_shipped_plans() -> None:
    assert PLANS


def test_version_is_the_newest_in_the_changelog() -> None:
    changelog = ROOT / "CHANGELOG.md"
    if not changelog.exists():
        pytest.skip("no changelog yet")
    newest = re.search(r"^## \[?v?(\d+\.\d+\.\d+)", changelog.read_text("utf-8"), re.MULTILINE)
    assert newest is not None
    assert newest.group(1) == firstfix.__version__
