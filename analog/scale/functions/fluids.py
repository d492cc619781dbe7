"""Flow of fluids: resistance, draught, sorting of particles, pressure of standing fluid, grains.

Every function takes and returns plain numbers in SI units (or arrays of them, element by element).
"""

from __future__ import annotations

import math

from analog.scale.registry import computes

GAS_CONSTANT_OF_DRY_AIR = 287.042
"""J/kg/K: molar gas constant 8.314463 J/mol/K over the molar mass 0.028966 kg/mol of dry air."""


def _require_positive(**values: float) -> None:
    """Raise ValueError if a value is not above zero; the message names it."""
    import numpy

    for name, value in values.items():
        if not numpy.all(numpy.asarray(value, dtype=float) > 0):
            raise ValueError(f"expected {name.replace('_', ' ')} above 0, found {value}")


def _require_not_negative(**values: float) -> None:
    """Raise ValueError if a value is below zero; the message names it."""
    import numpy

    for name, value in values.items():
        if not numpy.all(numpy.asarray(value, dtype=float) >= 0):
            raise ValueError(f"expected {name.replace('_', ' ')} of 0 or more, found {value}")


@computes("ratio")
def ratio(numerator: float, denominator: float) -> float:
    """One quantity over another of the same unit; the denominator must not be 0."""
    if denominator == 0:
        raise ValueError("expected a denominator other than 0, found 0")
    return numerator / denominator


@computes("reynolds-number")
def reynolds_number(fluid_density: float, speed: float, length: float, viscosity: float) -> float:
    """ρVL/μ; density kg/m³, speed m/s, length m, viscosity Pa·s. Reynolds 1883."""
    return fluid_density * speed * length / viscosity
