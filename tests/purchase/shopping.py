"""The honey farm's plan with invented shops beside it, compiled; its needs and its order."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from firstfix.build.model import Build
from firstfix.pipeline import Compiled, compile_plan
from firstfix.purchase.needs import Need, needs
from firstfix.purchase.order import Order, order

ROOT = Path(__file__).parents[2]
FARM = (ROOT / "plans" / "honey-farm.yaml").read_text("utf-8")
SHOPS = (Path(__file__).parent / "plans" / "shops.yaml").read_text("utf-8")
_PURCHASE = "purchase: {aim: least-cost, energy-price: 0.30}"


@cache
def compiled(purchase: str = _PURCHASE, shops: str = SHOPS, *beside: tuple[str, str]) -> Compiled:
    """`beside`: further files, by name. Where they are included is up to `purchase`."""
    assert _PURCHASE in SHOPS
    with TemporaryDirectory() as folder:
        for name, text in beside:
            (Path(folder) / name).write_text(text, "utf-8")
        path = Path(folder) / "farm.yaml"
        path.write_text(FARM + shops.replace(_PURCHASE, purchase), "utf-8")
        return compile_plan(path, "farm.yaml")


def build_of(made: Compiled) -> Build:
    assert made.build is not None
    return made.build


def farm(purchase: str = _PURCHASE, shops: str = SHOPS) -> Build:
    return build_of(compiled(purchase, shops))


def ordered(build: Build, already: dict[str, float] | None = None) -> tuple[tuple[Need, ...], Order]:
    to_buy = needs(build)
    found = order(build, to_buy, already or {})
    assert found is not None
    return to_buy, found
