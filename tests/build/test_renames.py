"""An id with the names in it exchanged."""

import pytest

from firstfix.build.renames import backwards, renamed

NAMES = {
    "device:core": "device:hub",
    "cabinet:main": "cabinet:rack",
    "room:farm/den": "room:farm/study",
    "device:main": "device:x",
}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("device:core", "device:hub"),
        ("device:core-2", "device:core-2"),
        ("room:farm/den", "room:farm/study"),
        ("jack:core/3@rear", "jack:hub/3@rear"),
        ("jack:core-2/3", "jack:core-2/3"),
        ("fitting:main/7-rear", "fitting:rack/7-rear"),
        ("units:main/4-6", "units:rack/4-6"),
        ("link:core--desk", "link:desk--hub"),
        ("link:core/1-8--desk#2", "link:desk--hub/1-8#2"),
        ("piece:core/3--desk/2.1", "piece:desk--hub/3/2.1"),
        ("piece:core--desk#3/1", "piece:desk--hub#3/1"),
        ("channel:core/3--panel/4@rear", "channel:hub/3--panel/4@rear"),
        ("vlan:core", "vlan:core"),
    ],
)
def test_every_name_in_an_id_follows(old: str, new: str) -> None:
    assert renamed(old, NAMES) == new
    assert renamed(new, backwards(NAMES)) == old


def test_without_renames_nothing_changes() -> None:
    assert renamed("link:b--a", {}) == "link:b--a"
