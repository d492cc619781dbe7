"""A check of inputs: a closed range. A value that is not a number fails it."""

from __future__ import annotations

import numpy


def between(low: float, high: float, **values: float) -> None:
    """Raise ValueError, naming the input, unless every value (number, array or quantity) lies in [low, high]."""
    for name, value in values.items():
        if not numpy.all((value >= low) & (value <= high)):
            raise ValueError(f"expected a {name.replace('_', ' ')} between {low:g} and {high:g}, found {value}")
