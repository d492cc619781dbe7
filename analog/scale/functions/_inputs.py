"""Checks of inputs shared by the functions of surfaces and contacts.

They take a float, an array or a quantity with a unit; a value that is not a number fails every check.
"""

from __future__ import annotations

import numpy as np


def positive(**values: float) -> None:
    """Raise ValueError, naming the input, unless every value is above zero."""
    for name, value in values.items():
        if not np.all(value > 0):
            raise ValueError(f"expected {_words(name)} above zero, found {_shown(value)}")


def not_negative(**values: float) -> None:
    """Raise ValueError, naming the input, unless every value is zero or more."""
    for name, value in values.items():
        if not np.all(value >= 0):
            raise ValueError(f"expected {_words(name)} of zero or more, found {_shown(value)}")


def at_least(low: float, **values: float) -> None:
    """Raise ValueError, naming the input, if a value is below `low` (same unit)."""
    for name, value in values.items():
        if not np.all(value >= low):
            raise ValueError(f"expected {_words(name)} of at least {low}, found {_shown(value)}")


def share(**values: float) -> None:
    """Raise ValueError, naming the input, unless every value lies above 0 and at most at 1."""
    for name, value in values.items():
        if not np.all((value > 0) & (value <= 1)):
            raise ValueError(f"expected {_words(name)} between 0 and 1, found {_shown(value)}")


def half_turn(**values: float) -> None:
    """Raise ValueError, naming the input, unless every angle (radian) lies from 0 to π."""
    for name, value in values.items():
        if not np.all((value >= 0) & (value <= np.pi * (1 + 1e-12))):
            raise ValueError(
                f"expected {_words(name)} from 0 to 180 degrees, found {_shown(np.degrees(value))} degrees"
            )


def _shown(value: float) -> str:
    """A number without the last bits of its conversion; of an array, all of it."""
    return f"{float(value):.6g}" if np.ndim(value) == 0 else str(value)


def cosine(angle: float) -> float:
    """Cosine of an angle in radians."""
    value: float = np.cos(angle)
    return value


def arc_cosine(value: float, what: str) -> float:
    """Angle in radians. Raises ValueError, saying `what` it means, if no angle has this cosine."""
    if not np.all(abs(value) <= 1):
        raise ValueError(f"expected a cosine from -1 to 1, found {_shown(value)}: {what}")
    angle: float = np.arccos(value)
    return angle


def power(value: float, exponent: float) -> float:
    """value to a power that need not be whole (roots are powers below 1)."""
    result: float = value**exponent
    return result


def _words(name: str) -> str:
    words = name.replace("_", " ")
    return f"{'an' if words[0] in 'aeio' else 'a'} {words}"
