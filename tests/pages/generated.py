"""Every page that is made from the program itself: its place below the repository, and the function that gives its text."""

import json
from collections.abc import Callable, Mapping
from pathlib import Path

from firstfix.documents.drawing.language import language_page, language_sample
from firstfix.documents.plan_reference import reference
from firstfix.documents.rules_page import rules_page
from firstfix.rules.all_kinds import all_kinds, kind_families
from firstfix.rules.facts_needed import RULES_ON
from pages.examples import examples
from pages.gallery import gallery, pictures

ROOT = Path(__file__).parents[2]


def page_of_rules() -> str:
    needed = {rule: [fact for fact, rules in RULES_ON.items() if rule in rules] for rule in _rules_on_facts()}
    return rules_page(kind_families(), needed, examples(tuple(kind.id for kind in all_kinds())))


def page_of_the_plan() -> str:
    return reference(json.loads((ROOT / "schemas/plan.schema.json").read_text("utf-8")))


def _rules_on_facts() -> set[str]:
    return {rule for rules in RULES_ON.values() for rule in rules}


PAGES: Mapping[str, Callable[[], str]] = {
    "schemas/plan-reference.md": page_of_the_plan,
    "schemas/rules.md": page_of_rules,
    "schemas/visual-language.md": language_page,
    "plans/pictures/visual-language.svg": lambda: language_sample().svg,
    "plans/README.md": gallery,
    **pictures(),
}
