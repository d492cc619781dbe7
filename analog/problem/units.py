"""Units as an engineer writes them: from the table of common ones, else from pint."""

from __future__ import annotations

import difflib
import re

from analog.errors import InputError
from analog.model.units import BASES, COMMON, CommonUnit, common, plain_unit

__all__ = ["BASES", "COMMON", "CommonUnit", "common", "plain_unit", "read_unit", "to_kelvin"]


_FLOWS = {"flow rate": "m**3/s", "viscosity": "Pa*s"}
"""What else is read off a unit, and its base unit."""
_ABBREVIATED = {
    "gpm": "gallon/minute",
    "lpm": "liter/minute",
    "cfm": "foot**3/minute",
    "gph": "gallon/hour",
    "lph": "liter/hour",
}
"""Flow rates as they stand on pumps and fans."""
_POWER = re.compile(r"(?<=[A-Za-z])(?=\d)")


def read_unit(text: str) -> CommonUnit:
    """The unit behind a spelling: from the table, else from pint.

    Raises InputError naming the unit and those that come near.
    """
    if (known := common(text)) is not None:
        return known
    return _from_pint(text)


def _from_pint(text: str) -> CommonUnit:
    from analog.model.quantity import is_unit, registry

    unit = plain_unit(text)
    spellings = [_ABBREVIATED.get(unit.lower(), unit), text.strip(), _POWER.sub("**", unit)]
    name = next((s for s in spellings if s and len(s) <= 40 and s.isascii() and is_unit(s)), None)
    if name is None:
        near = difflib.get_close_matches(unit, COMMON, 4, 0.5) or ["um", "mm", "m/s", "degC", "percent"]
        raise InputError(f"Unknown unit {text.strip()[:40]!r}; nearest: {', '.join(near)}")
    one = registry().Quantity(1.0, name)
    for dimension, base in (BASES | _FLOWS).items():
        if dimension != "temperature" and one.check(registry().Quantity(1, base).dimensionality):
            root = str(one.to_root_units().units)
            if dimension == "share" and name != "dimensionless" and "radian" in root:
                continue
            if dimension == "angle" and "radian" not in root:
                continue  # a decibel or a share has no dimension either, and is no angle
            factor = float(one.to(base).magnitude)
            twice = float(registry().Quantity(2.0, name).to(base).magnitude)
            if abs(twice - 2 * factor) <= 1e-9 * abs(factor):  # a logarithmic unit is no multiple of its base
                return CommonUnit(name, dimension, factor)
    return CommonUnit(name, "", 1.0)


def to_kelvin(value: float, unit: CommonUnit) -> float:
    """A point on a temperature scale in kelvin, rounded to a micro-kelvin to hide the last bits of the sum."""
    return round(value * unit.factor + unit.offset, 6)
