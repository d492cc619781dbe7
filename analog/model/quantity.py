"""Units. pint is imported only where the table of common units does not do: a plain search never pays for it."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from analog.model.units import common

LONGEST_UNIT = 60

_POWER = r"(?:\*\*|\^) ?\(?[-+]?[0-9]{1,2}(?:[./][0-9]{1,4})?\)?(?! ?(?:\*\*|\^))"
_FORM = re.compile(rf"(?:{_POWER}|[^\W\d]\w*+|1(?![0-9])|[*/·⋅() %°])+")
_SUPERSCRIPTS = re.compile(r"[⁰¹²³⁴⁵⁶⁷⁸⁹]{3}")


@lru_cache(maxsize=1)
def registry() -> Any:
    """The one unit registry of the program (pint). Temperatures are converted with their offset."""
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@lru_cache(maxsize=4096)
def is_unit(text: str) -> bool:
    """Whether `text` is a unit pint knows ("dimensionless" and "1/s" count; a number does not)."""
    if not text.strip() or text[-1] in "*/^(" or (text[0].isdigit() and not text.startswith("1/")):
        return False
    # pint works out powers of powers, so that m**9**9**9 would keep it busy for ever: only single short powers pass
    if len(text) > LONGEST_UNIT or not _FORM.fullmatch(text) or _SUPERSCRIPTS.search(text):
        return False
    try:
        registry().parse_units(text)
    except Exception:  # for brackets that do not pair, a division by zero and the like it has no error of its own
        return False
    return True


def convert(value: float, unit: str, to_unit: str) -> float:
    """`value` in `unit` as a number in `to_unit`.

    Raises ValueError, naming both units, if they measure different things or are unknown.
    """
    if unit == to_unit:
        return value
    mine, theirs = common(unit), common(to_unit)
    if mine is not None and theirs is not None and mine.dimension == theirs.dimension:
        return (value * mine.factor + mine.offset - theirs.offset) / theirs.factor
    import pint

    for name in (unit, to_unit):
        if not is_unit(name):
            raise ValueError(f"cannot convert {unit!r} to {to_unit!r}: {name!r} is no unit")
    try:
        return float(registry().Quantity(value, unit).to(to_unit).magnitude)
    except (pint.errors.PintError, ValueError, AttributeError, ArithmeticError) as error:
        raise ValueError(f"cannot convert {unit!r} to {to_unit!r}: {error}") from None


def convertible(unit: str, to_unit: str) -> bool:
    """Whether two units measure the same thing."""
    try:
        convert(1.0, unit, to_unit)
    except ValueError:
        return False
    return True
