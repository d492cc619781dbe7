"""Common units without pint: importing pint and its definitions costs half a second or more.

The table below is only a short cut. A test proves every entry equal to pint; every unit outside the table goes
to pint itself.
"""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True)
class CommonUnit:
    """A unit as pint spells it. factor, offset : value_in_base = value * factor + offset, in the base unit.

    dimension : what is measured, as one word; its base unit stands in BASES.
    """

    pint: str
    dimension: str
    factor: float
    offset: float = 0.0


BASES = {
    "length": "m", "temperature": "K", "angle": "degree", "speed": "m/s", "share": "dimensionless", "pressure": "Pa",
    "time": "s", "mass": "kg", "force": "N", "frequency": "Hz", "area": "m**2", "volume": "m**3", "power": "W",
    "energy": "J", "voltage": "V", "current": "A", "density": "kg/m**3",
    "acceleration": "m/s**2", "surface tension": "N/m", "thermal conductivity": "W/(m*K)", "heat flux": "W/m**2",
}  # fmt: skip
"""The unit to which `factor` leads, for every dimension of the table."""

_NEAR_ZERO_FAHRENHEIT = 459.67 * 5 / 9


def _table() -> dict[str, CommonUnit]:
    rows: list[tuple[str, str, str, float, float]] = [
        # spellings, pint's spelling, dimension, factor, offset
        ("nm nanometre nanometres nanometer nanometers", "nm", "length", 1e-9, 0),
        ("um micron microns micrometre micrometres micrometer micrometers", "um", "length", 1e-6, 0),
        ("mm millimetre millimetres millimeter millimeters", "mm", "length", 1e-3, 0),
        ("cm centimetre centimetres centimeter centimeters", "cm", "length", 1e-2, 0),
        ("m metre metres meter meters", "m", "length", 1, 0),
        ("km kilometre kilometres kilometer kilometers", "km", "length", 1e3, 0),
        ("inch inches", "inch", "length", 0.0254, 0),
        ("ft foot feet", "foot", "length", 0.3048, 0),
        ("K kelvin kelvins", "K", "temperature", 1, 0),
        ("degC °C celsius", "degC", "temperature", 1, 273.15),
        ("degF °F fahrenheit", "degF", "temperature", 5 / 9, _NEAR_ZERO_FAHRENHEIT),
        ("deg ° degree degrees", "degree", "angle", 1, 0),
        ("rad radian radians", "radian", "angle", 57.29577951308232, 0),
        ("m/s", "m/s", "speed", 1, 0),
        ("mm/s", "mm/s", "speed", 1e-3, 0),
        ("cm/s", "cm/s", "speed", 1e-2, 0),
        ("um/s", "um/s", "speed", 1e-6, 0),
        ("km/h kph", "km/hour", "speed", 1 / 3.6, 0),
        ("% percent", "percent", "share", 0.01, 0),
        ("ppm", "ppm", "share", 1e-6, 0),
        ("Pa pascal pascals", "Pa", "pressure", 1, 0),
        ("hPa", "hPa", "pressure", 1e2, 0),
        ("kPa", "kPa", "pressure", 1e3, 0),
        ("MPa", "MPa", "pressure", 1e6, 0),
        ("GPa", "GPa", "pressure", 1e9, 0),
        ("mbar", "mbar", "pressure", 1e2, 0),
        ("bar bars", "bar", "pressure", 1e5, 0),
        ("psi", "psi", "pressure", 6894.757293168361, 0),
        ("us microsecond microseconds", "us", "time", 1e-6, 0),
        ("ms millisecond milliseconds", "ms", "time", 1e-3, 0),
        ("s sec second seconds", "s", "time", 1, 0),
        ("min minute minutes", "min", "time", 60, 0),
        ("h hour hours", "hour", "time", 3600, 0),
        ("d day days", "day", "time", 86400, 0),
        ("year years", "year", "time", 31557600, 0),
        ("ug microgram micrograms", "ug", "mass", 1e-9, 0),
        ("mg milligram milligrams", "mg", "mass", 1e-6, 0),
        ("g gram grams", "g", "mass", 1e-3, 0),
        ("kg kilogram kilograms", "kg", "mass", 1, 0),
        ("t tonne tonnes", "tonne", "mass", 1e3, 0),
        ("uN", "uN", "force", 1e-6, 0),
        ("mN", "mN", "force", 1e-3, 0),
        ("N newton newtons", "N", "force", 1, 0),
        ("kN", "kN", "force", 1e3, 0),
        ("MN", "MN", "force", 1e6, 0),
        ("Hz hertz", "Hz", "frequency", 1, 0),
        ("kHz", "kHz", "frequency", 1e3, 0),
        ("MHz", "MHz", "frequency", 1e6, 0),
        ("GHz", "GHz", "frequency", 1e9, 0),
        ("mm2", "mm**2", "area", 1e-6, 0),
        ("cm2", "cm**2", "area", 1e-4, 0),
        ("m2", "m**2", "area", 1, 0),
        ("ul uL", "microliter", "volume", 1e-9, 0),
        ("ml mL", "milliliter", "volume", 1e-6, 0),
        ("l L litre litres liter liters", "liter", "volume", 1e-3, 0),
        ("m3", "m**3", "volume", 1, 0),
        ("mW", "mW", "power", 1e-3, 0),
        ("W watt watts", "W", "power", 1, 0),
        ("kW", "kW", "power", 1e3, 0),
        ("MW", "MW", "power", 1e6, 0),
        ("J joule joules", "J", "energy", 1, 0),
        ("kJ", "kJ", "energy", 1e3, 0),
        ("MJ", "MJ", "energy", 1e6, 0),
        ("kWh", "kWh", "energy", 3.6e6, 0),
        ("mV", "mV", "voltage", 1e-3, 0),
        ("V volt volts", "V", "voltage", 1, 0),
        ("kV", "kV", "voltage", 1e3, 0),
        ("mA", "mA", "current", 1e-3, 0),
        ("A ampere amperes amp amps", "A", "current", 1, 0),
        ("g/cm3", "g/cm**3", "density", 1e3, 0),
        ("kg/m3", "kg/m**3", "density", 1, 0),
        ("m/s2", "m/s**2", "acceleration", 1, 0),
        ("mN/m", "mN/m", "surface tension", 1e-3, 0),
        ("N/m", "N/m", "surface tension", 1, 0),
        ("W/m2", "W/m**2", "heat flux", 1, 0),
        ("W/(m*K)", "W/(m*K)", "thermal conductivity", 1, 0),
    ]
    return {
        spelling: CommonUnit(name, dimension, factor, offset)
        for spellings, name, dimension, factor, offset in rows
        for spelling in spellings.split()
    }


COMMON = _table()

_SUPERSCRIPTS = str.maketrans({"²": "2", "³": "3", "·": "*", "⋅": "*", "µ": "u", "μ": "u", "℃": "°C", "℉": "°F"})


_POWER = re.compile(r"(?:\*\*|\^)(?=-?\d)")


def plain_unit(text: str) -> str:
    """A unit as it is looked up: Greek mu as u, superscripts as digits, one spelling of the degree sign."""
    text = text.strip().replace("℃", "°C").replace("℉", "°F").translate(_SUPERSCRIPTS)
    text = _POWER.sub("", text.replace("º", "°").replace("˚", "°"))
    return text.replace("° C", "°C").replace("° F", "°F").replace("deg C", "degC").replace("deg F", "degF")


def common(text: str) -> CommonUnit | None:
    """The entry of the table, or None. Case counts (mN is not MN), save for whole words such as Celsius."""
    unit = plain_unit(text)
    if unit in COMMON:
        return COMMON[unit]
    return COMMON.get(unit.lower()) if len(unit) > 3 and unit.isalpha() and unit.lower() in COMMON else None
