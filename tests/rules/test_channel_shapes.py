"""A channel's verdict does not hang on which others there are: many of one shape are judged once, and each as if it were alone."""

from dataclasses import replace
from pathlib import Path

import pytest

from benchmarks.big_plan import big_plan
from firstfix.pipeline import compile_plan
from firstfix.rules.channels import channel_length_kept
from firstfix.rules.run import examine
from repo.editing import PLANS


def _plans(folder: Path) -> dict[str, Path]:
    """Those of the repository, and two floors of a campus in which the ways of one are too long."""
    text = big_plan(129)
    campus = folder / "campus.yaml"
    campus.write_text(text.replace("closet-1], length: 21 m", "closet-1], length: 91 m"), encoding="utf-8")
    return {path.stem: path for path in PLANS} | {"campus": campus}


@pytest.mark.parametrize("name", [*(path.stem for path in PLANS), "campus"])
def test_each_is_judged_as_if_it_were_alone(name: str, tmp_path: Path) -> None:
    build = compile_plan(_plans(tmp_path)[name], name).build
    assert build is not None
    whole = examine(build, (channel_length_kept,))
    alone = [
        examine(replace(build, channels={channel.id: channel}), (channel_length_kept,))
        for channel in build.channels.values()
    ]
    assert set(whole.findings) == {each for one in alone for each in one.findings}
    assert set(whole.undetermined) == {each for one in alone for each in one.undetermined}
    assert whole.examined["channel-length"] == sum(one.examined["channel-length"] for one in alone)
    assert name != "campus" or len(whole.findings) == 62
