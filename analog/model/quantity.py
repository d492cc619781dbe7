"""Units. pint is imported only where the table of common units does not do: a plain search never pays for it."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from analog.model.units import common


@lru_cache(maxsize=1)
def registry() -> Any:
    """The one unit registry of the program (pint). Temperatures are converted with their offset."""
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@lru_cache(maxsize=4096)
def is_unit(text: str) -> bool:
    """Whether `text` is a unit pint knows ("dimensionless" and "1/s" count; a number does not)."""
    import pint

    if not text or (text[0].isdigit() and not text.startswith("1/")):
        return False
    try:
        registry().parse_units(text)
    except (pint.errors.PintError, ValueError, TypeError, AttributeError, SyntaxError, KeyError, RecursionError):
        return False
    except Exception as error:  # the tokenizer under pint raises its own kinds for garbage
        if type(error).__module__.startswith(("tokenize", "pint", "_")):
            return False
        raise
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

    try:
        return float(registry().Quantity(value, unit).to(to_unit).magnitude)
    except (pint.errors.PintError, ValueError, AttributeError) as error:
        raise ValueError(f"cannot convert {unit!r} to {to_unit!r}: {error}") from None
