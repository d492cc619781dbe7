"""Units as an engineer writes them: from the table of common ones, else from pint."""

from __future__ import annotations

import difflib

from analog.errors import InputError
from analog.model.units import BASES, COMMON, CommonUnit, common, plain_unit

__all__ = ["BASES", "COMMON", "CommonUnit", "common", "plain_unit", "read_unit", "to_kelvin"]


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
    spellings = [unit, text.strip()]
    name = next((s for s in spellings if s and len(s) <= 40 and s.isascii() and is_unit(s)), None)
    if name is None:
        near = difflib.get_close_matches(unit, COMMON, 4, 0.5) or ["um", "mm", "m/s", "degC", "percent"]
        raise InputError(f"Unknown unit {text.strip()[:40]!r}; nearest: {', '.join(near)}")
    one = registry().Quantity(1.0, name)
    for dimension, base in BASES.items():
        if dimension != "temperature" and one.check(registry().Quantity(1, base).dimensionality):
            if dimension == "share" and name != "dimensionless" and "radian" in str(one.to_root_units().units):
                continue
            return CommonUnit(name, dimension, float(one.to(base).magnitude))
    return CommonUnit(name, "", 1.0)


def to_kelvin(value: float, unit: CommonUnit) -> float:
    """A point on a temperature scale in kelvin, rounded to a micro-kelvin to hide the last bits of the sum."""
    return round(value * unit.factor + unit.offset, 6)
