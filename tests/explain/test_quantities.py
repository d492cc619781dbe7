"""Quantities for readers. Signs of units: SI Brochure (BIPM, 9th edition, tables 2, 4 and 8; from memory)."""

from __future__ import annotations

import pytest

from analog.explain.quantities import number, span, unit_words, value_words
from analog.model.types import Quantity


@pytest.mark.parametrize(
    ("unit", "sign"),
    [
        *(("um", "µm"), ("degC", "°C"), ("percent", "%"), ("kg/m**3", "kg/m³"), ("mm**-2", "mm⁻²"), ("N*m", "N·m")),
        *(("dimensionless", ""), ("degree", "°"), ("ohm", "Ω"), ("W/m**2/K", "W/m²/K"), ("uL", "µl"), ("1/s", "1/s")),
    ],
)
def test_units_bear_their_signs(unit: str, sign: str) -> None:
    assert unit_words(unit) == sign


@pytest.mark.parametrize(
    ("low", "high", "unit", "told"),
    [
        (5, 50, "um", "5 to 50 µm"),
        (4, None, "degree", "at least 4°"),
        (None, 30, "cm", "at most 30 cm"),
        (1, 1, "day", "1 day"),
        (2, 3, "day", "2 to 3 days"),
        (0.1, 0.1, "dimensionless", "0.1"),
        (None, None, "m", "any value"),
    ],
)
def test_ranges_are_told_in_words(low: float | None, high: float | None, unit: str, told: str) -> None:
    assert span(low, high, unit) == told


def test_numbers_keep_their_digits_and_lose_their_noise() -> None:
    assert [number(x) for x in (3400, 0.1 + 0.2, 2.5e-7, 1e9, -40)] == ["3400", "0.3", "2.5·10⁻⁷", "10⁹", "-40"]


def test_a_quantity_is_told_with_its_unit() -> None:
    quantity = Quantity(name="length", low=60, high=110, unit="um", source="a")
    assert value_words(quantity) == "60 to 110 µm"
