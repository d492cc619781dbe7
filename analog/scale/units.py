"""Units of the scale check: conversion to the SI unit of a symbol, and values written for people.

Ordinary units are read from a small table, because importing pint costs half a second and a search should not pay for
it; every other unit goes to pint. A test proves the table equal to pint.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import lru_cache

from analog.problem.units import BASES, COMMON

Dimension = tuple[int, ...]
_NONE: Dimension = (0, 0, 0, 0, 0, 0, 0, 0)
# metre, kilogram, second, kelvin, mole, ampere, candela, and the angle, kept apart so that 90 degrees is no share
_SI: dict[str, Dimension] = {
    "m": (1, 0, 0, 0, 0, 0, 0, 0),
    "kg": (0, 1, 0, 0, 0, 0, 0, 0),
    "s": (0, 0, 1, 0, 0, 0, 0, 0),
    "K": (0, 0, 0, 1, 0, 0, 0, 0),
    "mol": (0, 0, 0, 0, 1, 0, 0, 0),
    "A": (0, 0, 0, 0, 0, 1, 0, 0),
    "radian": (0, 0, 0, 0, 0, 0, 0, 1),
    "dimensionless": _NONE,
    "Hz": (0, 0, -1, 0, 0, 0, 0, 0),
    "N": (1, 1, -2, 0, 0, 0, 0, 0),
    "Pa": (-1, 1, -2, 0, 0, 0, 0, 0),
    "J": (2, 1, -2, 0, 0, 0, 0, 0),
    "W": (2, 1, -3, 0, 0, 0, 0, 0),
    "V": (2, 1, -3, 0, 0, -1, 0, 0),
    "C": (0, 0, 1, 0, 0, 1, 0, 0),
    "ohm": (2, 1, -3, 0, 0, -2, 0, 0),
    "S": (-2, -1, 3, 0, 0, 2, 0, 0),
    "T": (0, 1, -2, 0, 0, -1, 0, 0),
    "cd": (0, 0, 0, 0, 0, 0, 1, 0),
    "lux": (-2, 0, 0, 0, 0, 0, 1, 2),  # candela times solid angle over area
    "F": (-2, -1, 4, 0, 0, 2, 0, 0),
}
_PREFIXES = {"G": 1e9, "M": 1e6, "k": 1e3, "m": 1e-3, "u": 1e-6, "n": 1e-9, "p": 1e-12}
_SHOWN = {"m": "m", "s": "s", "Pa": "Pa", "N": "N", "J": "J", "W": "W", "Hz": "Hz", "V": "V", "mol": "mol", "C": "C"}
_SHOWN_PREFIXES = (
    *(("G", 1e9), ("M", 1e6), ("k", 1e3), ("", 1.0)),
    *(("m", 1e-3), ("µ", 1e-6), ("n", 1e-9), ("p", 1e-12)),
)
_ATOM = re.compile(r"([*/]?)\s*([A-Za-z_]+|1)\s*(?:\*\*\s*(-?\d)|\^(-?\d))?\s*")
_TIMES = re.compile(r"(?<!\*)\*(?!\*)")
_GROUPED = re.compile(r"/\s*\(([^()]*)\)")


@dataclass(frozen=True)
class UnitValue:
    """A unit as dimension and as `SI value = value * factor + offset`."""

    dimension: Dimension
    factor: float
    offset: float = 0.0


@lru_cache(maxsize=1)
def _atoms() -> dict[str, UnitValue]:
    atoms = {name: UnitValue(dimension, 1.0) for name, dimension in _SI.items()}
    for spelling, unit in COMMON.items():
        base = "radian" if unit.dimension == "angle" else BASES[unit.dimension]
        scale = math.pi / 180 if unit.dimension == "angle" else 1.0
        dimension = _dimension_of(base)
        for name in (spelling, unit.pint):
            if name.isalpha():
                atoms.setdefault(name, UnitValue(dimension, unit.factor * scale, unit.offset))
    # pint holds a turn for 2π radian, so that 60 turns a minute would be 6.28 Hz; a frequency counts turns
    atoms["rpm"] = UnitValue(_SI["Hz"], 1 / 60)
    atoms["atm"] = UnitValue(_SI["Pa"], 101325.0)
    atoms["month"] = UnitValue(_SI["s"], 31557600.0 / 12)
    atoms["delta_degC"] = UnitValue(_SI["K"], 1.0)
    for name, factor in _PREFIXES.items():
        for base in ("m", "s", "N", "Pa", "J", "W", "V", "Hz", "mol", "C", "A", "K"):
            atoms.setdefault(name + base, UnitValue(_SI[base], factor))
    return atoms


def _dimension_of(text: str) -> Dimension:
    total = list(_NONE)
    for sign, power, atom in _split(text) or ():
        for i, exponent in enumerate(_SI[atom]):
            total[i] += sign * power * exponent
    return tuple(total)


def _split(text: str) -> list[tuple[int, int, str]] | None:
    """(1 or -1, exponent, atom) for "kg/m**3", or None if the text is more than a product of powers."""
    text = _GROUPED.sub(lambda match: "/" + _TIMES.sub("/", match[1]), text.strip())
    pieces, position = [], 0
    while position < len(text):
        match = _ATOM.match(text, position)
        if match is None or (match[1] == "") != (position == 0):
            return None
        if match[2] != "1":
            pieces.append((-1 if match[1] == "/" else 1, int(match[3] or match[4] or 1), match[2]))
        position = match.end()
    return pieces


@lru_cache(maxsize=4096)
def read(unit: str) -> UnitValue:
    """A unit as dimension and factor to SI. Raises ValueError for a unit that nobody knows."""
    pieces = _split(unit)
    if pieces is not None and all(atom in _atoms() for _, _, atom in pieces):
        if len(pieces) == 1 and pieces[0][:2] == (1, 1):
            return _atoms()[pieces[0][2]]
        total, factor = list(_NONE), 1.0
        for sign, power, atom in pieces:
            value = _atoms()[atom]
            factor *= value.factor ** (sign * power)
            for i, exponent in enumerate(value.dimension):
                total[i] += sign * power * exponent
        return UnitValue(tuple(total), factor)
    return _from_pint(unit)


def _from_pint(unit: str) -> UnitValue:
    from analog.model.quantity import is_unit, registry

    try:
        known = is_unit(unit)
    except AssertionError:  # pint's way of saying that brackets do not pair
        known = False
    if not known:
        raise ValueError(f"unknown unit {unit!r}")
    units = registry()
    quantity = units.Quantity(1.0, unit)
    if "revolution" in str(quantity.units) or "turn" in str(quantity.units):
        raise ValueError(f"cannot tell turns from radians in {unit!r}; write rpm, Hz or radian/s")
    angle = 0
    for name, power in quantity.unit_items() if hasattr(quantity, "unit_items") else ():
        if units.Quantity(1, name).to_root_units().units == units.radian:
            angle += int(power)
    base = quantity.to_base_units()
    names = ("[length]", "[mass]", "[time]", "[temperature]", "[substance]", "[current]", "[luminosity]")
    powers = dict(quantity.dimensionality)
    dimension = (*(int(powers.get(name, 0)) for name in names), angle)
    if set(powers) - set(names) or any(powers.get(name, 0) % 1 for name in names):
        raise ValueError(f"no symbol has a unit like {unit!r}")
    offset = float(units.Quantity(0.0, unit).to_base_units().magnitude)
    return UnitValue(dimension, float(base.magnitude) - offset, offset)


@lru_cache(maxsize=4096)
def same_dimension(unit: str, other: str) -> bool:
    """Whether two units measure the same thing; an unknown unit measures nothing."""
    try:
        return read(unit).dimension == read(other).dimension
    except ValueError:
        return False


def to_si(value: float, unit: str, symbol_unit: str, *, difference: bool = False) -> float:
    """`value` in `unit` as a number in `symbol_unit`. difference : 5 degC apart is 5 K, not 278 K.

    Raises ValueError, naming both units, if they measure different things.
    """
    if unit == symbol_unit:
        return value
    given, wanted = read(unit), read(symbol_unit)
    if given.dimension != wanted.dimension:
        raise ValueError(f"expected a unit like {friendly_unit(symbol_unit)!r}, found {unit!r}")
    offset = 0.0 if difference else given.offset - wanted.offset
    return (value * given.factor + offset) / wanted.factor


def friendly_unit(unit: str) -> str:
    """A unit as written for people: kg/m**3 -> kg/m³."""
    if unit == "dimensionless":
        return ""
    powers = str.maketrans("23456-", "²³⁴⁵⁶⁻")
    text = re.sub(r"\*\*(-?\d)", lambda match: match[1].translate(powers), unit)
    return {"radian": "degree"}.get(text, text.replace("*", "·"))


_SUPERSCRIPT = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def _digits(value: float) -> str:
    if value == 0:
        return "0"
    magnitude = abs(value)
    if 1e-3 <= magnitude < 1e5:
        digits = ",.0f" if magnitude >= 1e4 else ",g"
        return format(float(f"{value:.3g}"), digits).replace(",", " ")
    mantissa, _, power = f"{value:.3g}".partition("e")
    if not power:
        return mantissa
    ten = f"10{str(int(power)).translate(_SUPERSCRIPT)}"
    return ten if mantissa == "1" else f"{mantissa}·{ten}"


def spell(value: float, unit: str, *, difference: bool = False) -> str:
    """A value in the unit of a symbol for people: (0.0027, "m") -> "2.7 mm", kelvin as °C, radian as degree."""
    if not math.isfinite(value):
        return "∞" if value > 0 else "−∞"
    if unit == "radian":
        return f"{_digits(math.degrees(value))}°"
    if unit == "K" and not difference:
        return f"{_digits(round(value - 273.15, 6))} °C"
    if unit in _SHOWN and value != 0:
        for prefix, factor in (
            ("G", 1e9),
            ("M", 1e6),
            ("k", 1e3),
            ("", 1.0),
            ("m", 1e-3),
            ("µ", 1e-6),
            ("n", 1e-9),
            ("p", 1e-12),
        ):
            if prefix in {"k", "M", "G"} and unit in {"m", "s", "mol"}:
                continue  # nobody says kiloseconds
            if abs(value) >= factor * 0.9995:
                return f"{_digits(value / factor)} {prefix}{_SHOWN[unit]}"
    return f"{_digits(value)} {friendly_unit(unit)}".rstrip()


def spell_range(low: float, high: float, unit: str, *, difference: bool = False) -> str:
    """A range for people; a single value where both ends read the same."""
    first, last = spell(low, unit, difference=difference), spell(high, unit, difference=difference)
    return first if first == last else f"{first} to {last}"
