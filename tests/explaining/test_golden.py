"""What `--why` prints, whole: a few pages, each read by eye before it was kept.

After a wanted change: `KEEP_GOLDEN=1 pytest tests/explaining/test_golden.py`, then read the difference.
"""

import os
from pathlib import Path

import pytest

from explaining.sample import build_of_mill
from firstfix.cli.why import why_text
from firstfix.explaining.explain import explain

GOLDEN = Path(__file__).parent / "golden"
# The name asked about, and the file that holds the answer.
ASKED = {
    "core": "device.txt",
    "core/9": "jack.txt",
    "bench-switch--core/1": "piece.txt",
    "desk--core": "run.txt",
    "cameras": "vlan.txt",
    "10.40.20.10": "address.txt",
    "cat6-buried": "line-to-buy.txt",
}


@pytest.mark.parametrize("name", ASKED)
def test_page_is_as_read_by_eye(name: str) -> None:
    page = why_text(explain(build_of_mill(), name))
    kept = GOLDEN / ASKED[name]
    if os.environ.get("KEEP_GOLDEN"):
        kept.parent.mkdir(exist_ok=True)
        kept.write_text(page, "utf-8")
    assert page == kept.read_text("utf-8")
