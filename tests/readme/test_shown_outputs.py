"""Every output on the page of a command about a plan that ships is what the command prints now."""

import re

import pytest

from cli.running import firstfix
from readme.test_readme import README, ROOT

_SHOWN = re.findall(r"<!-- output: firstfix ([^\n]* plans/[^\n]*) -->\n```text\n(.*?)```", README, re.DOTALL)


@pytest.mark.parametrize(("command", "shown"), _SHOWN, ids=[command for command, _ in _SHOWN])
def test_the_page_shows_what_is_printed(command: str, shown: str) -> None:
    assert firstfix(*command.split(), cwd=ROOT).out == shown
