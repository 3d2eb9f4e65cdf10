"""A part as plain data for JSON. Figures carry their spread and basis; what is not known says why."""

from typing import Any

from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import Part

# Names as in part.py, with the base unit that units.py holds the figure in.
_WITH_UNIT = {
    "weight": "weight_kg",
    "draw": "draw_w",
    "budget": "budget_w",
    "depth": "depth_m",
    "usable_depth": "usable_depth_m",
    "rate": "rate_mb_s",
    "lengths": "lengths_m",
    "rating": "rating_w",
    "diameter": "diameter_m",
    "when_fed": "when_fed_class_and_w",
    "front_depth": "front_depth_m",
    "plug_space": "plug_space_m",
    "spacing": "spacing_m",
    "load": "load_kg",
    "coldest": "coldest_c",
    "warmest": "warmest_c",
    "current": "current_a",
    "leakage": "leakage_a",
    "jack_limit": "jack_limit_w",
    "energy": "energy_wh",
    "lasts": "lasts_w_and_s",
    "bend": "bend_m",
    "bend_pulling": "bend_pulling_m",
    "plug_length": "plug_length_m",
    "reels": "reels_m",
    "wavelength": "wavelength_nm",
    "sends": "sends_dbm",
    "reads": "reads_dbm",
    "area": "area_mm2",
    "voltage": "voltage_v",
}


def part_data(part: Part) -> dict[str, Any]:
    """Every field of `part` that says something; fields that do not apply to its kind are left out."""
    fields = ((name, getattr(part, name)) for name in part.__slots__ if name != "said")
    found = {_key(name, value): _plain(value) for name, value in fields if value not in (None, "", ())}
    if isinstance(part.price, Fact):
        found["price"] = {"example": part.price.typical, "basis": "invented"}
    return found


def _key(name: str, value: object) -> str:
    """A cable has a rating in words, a power strip one in watts."""
    return name if isinstance(value, str) else _WITH_UNIT.get(name, name)


def _plain(value: object) -> Any:
    if isinstance(value, Fact):
        return {"low": value.low, "typical": value.typical, "high": value.high, "basis": value.basis}
    if isinstance(value, Unknown):
        return {"unknown": value.why}
    if isinstance(value, tuple):
        if hasattr(value, "_asdict"):
            return {_key(name, each): _plain(each) for name, each in value._asdict().items()}
        return [_plain(each) for each in value]
    return value
