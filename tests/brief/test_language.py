"""Quantities and conditions as they are printed."""

from __future__ import annotations

import pytest

from analog.brief.language import condition_text, span_text, typeset
from analog.problem.types import Condition


@pytest.mark.parametrize(
    ("low", "high", "unit", "told"),
    [
        (5, 50, "um", "5 to 50 µm"),
        (4, None, "degree", "at least 4°"),
        (None, 0.1, "dimensionless", "at most 0.1"),
        (0.30000000000000004, 0.30000000000000004, "kg/m**3", "0.3 kg/m³"),
        (1e-9, 1e-9, "m", "10⁻⁹ m"),
        (-20, -20, "degC", "−20 °C"),
        (60, 60, "percent", "60 %"),
    ],
)
def test_quantities_have_sensible_digits_and_readable_units(
    low: float | None, high: float | None, unit: str, told: str
) -> None:
    """The space before %, and none before the degree of angle: SI Brochure (9th ed., 2019), section 5.4.3."""
    assert span_text(low, high, unit) == told


@pytest.mark.parametrize(
    ("condition", "told"),
    [
        (Condition(type="absent", text="no water", kind="liquid-water"), "there is no liquid water"),
        (Condition(type="medium", text="under water", kind="water"), "it happens in water"),
        (Condition(type="temperature", text="-20 degC", low=253.15, high=253.15, unit="K"),
         "the temperature is −20 °C"),
        (Condition(type="range", text="x", about="particle", quantity="particle size", low=5, high=50, unit="um"),
         "the particle size is 5 to 50 µm"),
        (Condition(type="note", text="blue"), "not understood; it is kept with the problem and decides nothing"),
    ],
)  # fmt: skip
def test_conditions_are_told_as_understood(condition: Condition, told: str) -> None:
    assert condition_text(condition) == told


def test_what_other_rooms_wrote_is_set_for_print() -> None:
    """Signs of units and the minus sign: SI Brochure (9th ed., 2019), section 5.4.3; ISO 80000-1 (from memory)."""
    assert (
        typeset("between -0.6 degC and 10 degC, 5 um wide, 60 percent") == "between −0.6 °C and 10 °C, 5 µm wide, 60 %"
    )
    assert typeset("one-way flow of 3-5 drops") == "one-way flow of 3-5 drops"
