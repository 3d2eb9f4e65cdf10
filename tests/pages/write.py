"""Writes every generated page into the repository: `make pages`."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from pages.generated import PAGES, ROOT

for place, text in PAGES.items():
    (ROOT / place).parent.mkdir(parents=True, exist_ok=True)
    (ROOT / place).write_bytes(text().encode("utf-8"))
