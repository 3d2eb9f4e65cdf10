"""Quantities in and out: "41 m" to 41.0 metres, 41.0 metres to "41 m". Leaf: imports nothing of ours.

Every quantity is held as a float in the base unit of its dimension:
metre, watt, megabit per second, kilogram, kelvin difference or degree Celsius, second, rack unit, volt, ampere, watt hour,
cubic metre per hour;
a wire's cross-section in square millimetres, a wavelength in nanometres, a length in millimetres never.
Conversion factors are exact by definition (international yard and pound agreement of 1959) unless noted.
"""

import math
import re
from collections.abc import Mapping
from typing import NamedTuple, NewType

Metres = NewType("Metres", float)
Watts = NewType("Watts", float)
MegabitsPerSecond = NewType("MegabitsPerSecond", float)
Kilograms = NewType("Kilograms", float)
Celsius = NewType("Celsius", float)
Seconds = NewType("Seconds", float)
RackUnits = NewType("RackUnits", float)
Ohms = NewType("Ohms", float)
Volts = NewType("Volts", float)
Amperes = NewType("Amperes", float)
Decibels = NewType("Decibels", float)


class Unit(NamedTuple):
    """value in the base unit = value * factor + offset"""

    factor: float
    offset: float = 0.0


class Dimension(NamedTuple):
    """One kind of quantity: its name in a sentence, its units, and the ones worth offering to who left the unit out."""

    name: str
    units: Mapping[str, Unit]
    likely: tuple[str, ...]
    example: str


LENGTH = Dimension(
    "a length",
    {
        "m": Unit(1.0),
        "mm": Unit(0.001),
        "cm": Unit(0.01),
        "km": Unit(1000.0),
        "ft": Unit(0.3048),
        "feet": Unit(0.3048),
        "in": Unit(0.0254),
        "inch": Unit(0.0254),
        "inches": Unit(0.0254),
        "yd": Unit(0.9144),
    },
    ("m", "mm", "ft"),
    "41 m",
)
POWER = Dimension(
    "a power",
    # 1 BTU/h = 1055.05585262 J / 3600 s, the international table BTU.
    {"W": Unit(1.0), "kW": Unit(1000.0), "mW": Unit(0.001), "BTU/h": Unit(1055.05585262 / 3600.0)},
    ("W",),
    "15.4 W",
)
APPARENT_POWER = Dimension("an apparent power", {"VA": Unit(1.0), "kVA": Unit(1000.0)}, ("VA",), "900 VA")
RATE = Dimension(
    "a data rate",
    {
        "Mb/s": Unit(1.0),
        "Gb/s": Unit(1000.0),
        "kb/s": Unit(0.001),
        "Mbit/s": Unit(1.0),
        "Gbit/s": Unit(1000.0),
    },
    ("Mb/s", "Gb/s"),
    "1 Gb/s",
)
MASS = Dimension(
    "a mass",
    {"kg": Unit(1.0), "g": Unit(0.001), "lb": Unit(0.45359237), "oz": Unit(0.028349523125)},
    ("kg", "g", "lb"),
    "4.2 kg",
)
TEMPERATURE = Dimension(
    "a temperature",
    {
        "°C": Unit(1.0),
        "C": Unit(1.0),
        "°F": Unit(5.0 / 9.0, -160.0 / 9.0),
        "F": Unit(5.0 / 9.0, -160.0 / 9.0),
        "K": Unit(1.0, -273.15),
    },
    ("°C", "°F"),
    "27 °C",
)
DURATION = Dimension(
    "a duration",
    {
        "s": Unit(1.0),
        "min": Unit(60.0),
        "minute": Unit(60.0),
        "minutes": Unit(60.0),
        "h": Unit(3600.0),
        "hour": Unit(3600.0),
        "hours": Unit(3600.0),
        "day": Unit(86400.0),
        "days": Unit(86400.0),
        "week": Unit(604800.0),
        "weeks": Unit(604800.0),
    },
    ("min", "h", "days"),
    "3 days",
)
RACK_HEIGHT = Dimension("a height in rack units", {"U": Unit(1.0)}, ("U",), "2U")
VOLTAGE = Dimension("a voltage", {"V": Unit(1.0)}, ("V",), "230 V")
AIR_FLOW = Dimension(
    "an air flow",
    # 1 ft³/min = 0.3048³ m³ x 60 /h.
    {
        "m3/h": Unit(1.0),
        "m³/h": Unit(1.0),
        "l/s": Unit(3.6),
        "CFM": Unit(0.3048**3 * 60.0),
    },
    ("m3/h", "l/s"),
    "100 m3/h",
)
CURRENT = Dimension("a current", {"A": Unit(1.0), "mA": Unit(0.001)}, ("A",), "16 A")

ENERGY = Dimension("an energy", {"Wh": Unit(1.0), "kWh": Unit(1000.0)}, ("Wh",), "84 Wh")
AREA = Dimension("a cross-section", {"mm2": Unit(1.0), "mm²": Unit(1.0)}, ("mm2",), "6 mm2")
WAVELENGTH = Dimension("a wavelength", {"nm": Unit(1.0)}, ("nm",), "850 nm")
LEVEL = Dimension("a level of light", {"dBm": Unit(1.0)}, ("dBm",), "-9.5 dBm")

DIMENSIONS: tuple[Dimension, ...] = (
    LENGTH, POWER, APPARENT_POWER, RATE, MASS, TEMPERATURE, DURATION, RACK_HEIGHT, VOLTAGE, CURRENT, ENERGY,
    AREA, WAVELENGTH, LEVEL, AIR_FLOW,
)  # fmt: skip

# Plain decimal notation only: data sheets don't write 1e3, and a limit on digits keeps absurd input cheap.
# [0-9], since \d takes the digits of every script.
_TOO_LONG = re.compile(r"[+-]?(?:[0-9]{16}|[0-9]{1,15}\.[0-9]{16})")
_QUANTITY = re.compile(r"([+-]?[0-9]{1,15}(?:\.[0-9]{1,15})?)\s*(\S.*)?")


class QuantityFault(NamedTuple):
    """Why a text is no quantity of the dimension asked for, and how it could have been written, if that can be told."""

    problem: str
    suggestions: tuple[str, ...]


# What people write for a unit, in small letters, and the units that they may mean; each dimension takes those it has.
_MEANT: Mapping[str, tuple[str, ...]] = {
    '"': ("in",), "\u2033": ("in",), "\u201d": ("in",), "''": ("in",), "'": ("ft",), "\u2032": ("ft",), "\u2019": ("ft",), "foot": ("ft",),
    "metre": ("m",), "metres": ("m",), "meter": ("m",), "meters": ("m",), "mtr": ("m",), "yards": ("yd",),
    "watt": ("W",), "watts": ("W",), "amp": ("A",), "amps": ("A",), "volt": ("V",), "volts": ("V",), "v~": ("V",),
    "gbps": ("Gb/s",), "gbit": ("Gb/s",), "gig": ("Gb/s",), "gb": ("Gb/s",), "g": ("Gb/s", "g"), "gbe": ("Gb/s",),
    "mbps": ("Mb/s",), "mbit": ("Mb/s",), "mb": ("Mb/s",), "kilo": ("kg",), "kilos": ("kg",), "kgs": ("kg",), "lbs": ("lb",),
    "pounds": ("lb",), "deg": ("\u00b0C", "\u00b0F"), "degrees": ("\u00b0C", "\u00b0F"), "celsius": ("\u00b0C",), "\u00b0": ("\u00b0C", "\u00b0F"),
    "mm": ("mm2",), "sqmm": ("mm2",), "qmm": ("mm2",), "units": ("U",), "unit": ("U",),
    "hr": ("h",), "hrs": ("h",), "mins": ("min",), "secs": ("s",), "d": ("days",),
}  # fmt: skip
_COMMA = re.compile(r"([+-]?[0-9]{1,12}),([0-9]{1,12})\s*(\S.*)?")
_SPREAD = re.compile(r"([0-9.]{1,12})\s*(?:-|\u2013|\.\.|to)\s*([0-9.]{1,12})\s*(\S.*)?")
_LEAD_IN = re.compile(r"[^0-9+-]{1,20}([0-9].{0,40})")


def parse_quantity(text: str, dimension: Dimension) -> float | QuantityFault:
    """The value of `text` in the base unit of `dimension`, or what is wrong with it.

    >>> parse_quantity("135 ft", LENGTH)
    41.148
    >>> parse_quantity("41", LENGTH)
    QuantityFault(problem="'41' has no unit", suggestions=('41 m', '41 mm', '41 ft'))
    >>> parse_quantity("1,5 m", LENGTH)
    QuantityFault(problem="'1,5 m' has a comma, and decimals are written with a point", suggestions=('1.5 m',))
    """
    if _TOO_LONG.match(text.strip()):
        return QuantityFault(f"{_shown(text)} has more digits than any quantity here", ())
    match = _QUANTITY.fullmatch(text.strip())
    if match is None:
        return QuantityFault(f"{_shown(text)} is not {dimension.name}", _within(text, dimension))
    number, unit_name = match.group(1), match.group(2)
    unit = dimension.units.get(unit_name) if unit_name is not None else None
    if unit is None:
        return _unlike(text.strip(), number, unit_name, dimension)
    value = float(number) * unit.factor + unit.offset
    # Factors such as 0.3048 leave dust in the last binary digits; what people write has far fewer digits.
    return round(value, 9)


def base_unit(dimension: Dimension) -> str:
    """The unit that values of the dimension are held in.

    >>> base_unit(LENGTH), base_unit(RATE)
    ('m', 'Mb/s')
    """
    return next(name for name, unit in dimension.units.items() if unit == Unit(1.0))


def _unlike(text: str, number: str, unit_name: str | None, dimension: Dimension) -> QuantityFault:
    """What is wrong with a text that begins with a number."""
    comma, spread = _COMMA.fullmatch(text), _SPREAD.fullmatch(text)
    if comma is not None:
        problem = f"{_shown(text)} has a comma, and decimals are written with a point"
        # 1,500 may be one and a half or fifteen hundred.
        figures = [f"{comma[1]}.{comma[2]}"] + [comma[1] + comma[2]] * (len(comma[2]) == 3)
        return QuantityFault(problem, _written(figures, comma[3], dimension))
    if spread is not None:
        problem = f"{_shown(text)} is a range, and one figure is asked for"
        return QuantityFault(problem, _written([spread[2]], spread[3], dimension))
    if unit_name is None:
        return QuantityFault(f"{_shown(text)} has no unit", _written([number], None, dimension))
    return _unknown_unit(number, unit_name, dimension)


def _written(figures: list[str], unit_name: str | None, dimension: Dimension) -> tuple[str, ...]:
    """The figures with the unit that stands there, where it is one; else with what it may mean, or with the likely ones."""
    units = (unit_name,) if unit_name in dimension.units else _meant(unit_name or "", dimension)
    texts = tuple(f"{figure} {unit}" for figure in figures for unit in units or dimension.likely)
    return tuple(each for each in texts if isinstance(parse_quantity(each, dimension), float))


def _meant(unit_name: str, dimension: Dimension) -> tuple[str, ...]:
    return tuple(each for each in _MEANT.get(unit_name.lower(), ()) if each in dimension.units)


def _within(text: str, dimension: Dimension) -> tuple[str, ...]:
    """The quantity that begins later in a text such as '~8 m' or 'about 8 m'."""
    found = _LEAD_IN.fullmatch(text.strip())
    if found is None or not found[1].isascii():
        return ()
    inner = parse_quantity(found[1], dimension)
    return inner.suggestions if isinstance(inner, QuantityFault) else (found[1],)


def _unknown_unit(number: str, unit_name: str, dimension: Dimension) -> QuantityFault:
    by_lower = {name.lower(): name for name in reversed(tuple(dimension.units))}
    near = by_lower.get(unit_name.lower())
    if near is not None:
        return QuantityFault(
            f"{_shown(unit_name)} is not a unit; its letters' case matters", (f"{number} {near}",)
        )
    meant = _meant(unit_name, dimension)
    other = next((_bare(each) for each in DIMENSIONS if unit_name in each.units), "")
    if other and not meant:
        return QuantityFault(f"{_shown(unit_name)} is a unit of {other}, not of {_bare(dimension)}", ())
    # In `1e3 m` the figure goes on where the unit was expected.
    likely = () if re.search(r"[0-9]", unit_name) else dimension.likely
    suggestions = tuple(f"{number} {unit}" for unit in meant or likely)
    return QuantityFault(f"{_shown(unit_name)} is not a unit of {_bare(dimension)}", suggestions)


def _bare(dimension: Dimension) -> str:
    return dimension.name.removeprefix("an ").removeprefix("a ")


def _shown(text: str, limit: int = 40) -> str:
    return repr(text if len(text) <= limit else text[: limit - 1] + "…")


def number(value: float, digits: int = 2) -> str:
    """`value` rounded half-even to at most `digits` decimals, without trailing zeros: 12.50 is "12.5", 3.0 is "3".

    >>> number(12.5), number(3.0), number(-0.0001)
    ('12.5', '3', '0')
    """
    if not math.isfinite(value):
        return "unbounded"
    text = f"{value:.{digits}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def metres(value: float) -> str:
    """A length for people: millimetres below half a metre.

    >>> metres(41.148), metres(0.4)
    ('41.15 m', '400 mm')
    """
    if 0 < abs(value) < 0.5:
        return f"{number(value * 1000, 1)} mm"
    return f"{number(value)} m"


def millimetres(value: float) -> str:
    """A length given in metres, printed in millimetres."""
    return f"{number(value * 1000, 1)} mm"


def watts(value: float) -> str:
    return f"{number(value)} W"


def rate(value: float) -> str:
    """A data rate given in Mb/s.

    >>> rate(1000), rate(100), rate(2500)
    ('1 Gb/s', '100 Mb/s', '2.5 Gb/s')
    """
    return f"{number(value / 1000, 3)} Gb/s" if value >= 1000 else f"{number(value, 3)} Mb/s"


def kilograms(value: float) -> str:
    return f"{number(value)} kg"


def celsius(value: float) -> str:
    return f"{number(value, 1)} °C"


def air_flow(value: float) -> str:
    return f"{number(value, 1)} m³/h"


def rack_units(value: float) -> str:
    return f"{number(value)}U"
