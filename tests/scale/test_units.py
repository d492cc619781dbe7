"""Units are read as pint reads them, with angles kept apart from shares and turns from radians."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.locate import corpus_folder, principles_folder
from analog.model.load import load_corpus, load_principles
from analog.model.quantity import registry
from analog.scale.units import read, same_dimension, spell, spell_range, to_si


def _units_in_use() -> list[str]:
    units = {s.unit for p in load_principles(principles_folder()).values() for s in p.symbols}
    for model in load_corpus(Path(corpus_folder())).models:
        units |= {q.unit for part in model.parts for q in part.properties} | {q.unit for q in model.sizes}
        units |= {need.unit for t in model.transitions for need in t.needs if hasattr(need, "unit")}
    return sorted(units)


def test_every_unit_of_corpus_and_principles_has_pints_factor_and_offset() -> None:
    units = registry()
    for unit in _units_in_use():
        ours = read(unit)
        zero = units.Quantity(0.0, unit).to_base_units().magnitude
        one = units.Quantity(1.0, unit).to_base_units().magnitude
        assert ours.factor == pytest.approx(one - zero, rel=1e-9), unit
        assert ours.offset == pytest.approx(zero, abs=1e-9), unit


def test_units_of_like_dimension_are_those_pint_converts_save_for_angles() -> None:
    units = registry()
    used = _units_in_use()
    angles = [unit for unit in used if read(unit).dimension[-1]]
    for first in used:
        for second in used:
            if first in angles or second in angles:
                continue
            pints = units.Quantity(1, first).dimensionality == units.Quantity(1, second).dimensionality
            assert same_dimension(first, second) == pints, (first, second)


@pytest.mark.parametrize(
    ("value", "unit", "into", "expected"),
    [
        (2, "mm", "m", 0.002),
        (90, "degree", "radian", math.pi / 2),
        (-30, "degC", "K", 243.15),
        (5, "percent", "dimensionless", 0.05),
        (60, "rpm", "Hz", 1.0),  # sixty turns a minute are one a second; pint would give 6.28 through radians
        (1, "mPa*s", "Pa*s", 1e-3),
        (1, "W/(m*K)", "W/m/K", 1),
        (1, "mol/(m**2*s)", "mol/m**2/s", 1),
        (72.8, "mN/m", "N/m", 0.0728),
        (3, "furlong", "m", 603.504),  # through pint: 220 yards of 0.9144 m
    ],
)
def test_values_are_converted_to_the_symbols_unit(value: float, unit: str, into: str, expected: float) -> None:
    assert to_si(value, unit, into) == pytest.approx(expected, rel=1e-5)


def test_a_difference_of_temperature_has_no_offset() -> None:
    assert to_si(5, "degC", "K", difference=True) == pytest.approx(5)


@pytest.mark.parametrize(
    ("unit", "into"), [("kg", "m"), ("dimensionless", "radian"), ("radian", "Hz"), ("nosuch", "m")]
)
def test_other_quantities_are_refused_by_name(unit: str, into: str) -> None:
    with pytest.raises(ValueError, match=unit):
        to_si(1.0, unit, into)


@settings(max_examples=50, deadline=None)
@given(st.floats(1e-12, 1e12), st.sampled_from(["nm", "um", "mm", "cm", "m", "km", "inch"]))
def test_there_and_back_is_the_same_value(value: float, unit: str) -> None:
    assert to_si(to_si(value, unit, "m"), "m", unit) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (0.00273, "m", "2.73 mm"),
        (243.15, "K", "-30 °C"),
        (math.radians(110), "radian", "110°"),
        (101325, "Pa", "101 kPa"),
        (2e-10, "N", "200 pN"),
        (998.2, "kg/m**3", "998 kg/m³"),
        (1.8e-5, "Pa*s", "1.8·10⁻⁵ Pa·s"),
        (0.25, "dimensionless", "0.25"),
    ],
)
def test_values_are_written_as_people_write_them(value: float, unit: str, text: str) -> None:
    assert spell(value, unit) == text


def test_a_range_of_one_value_is_told_once() -> None:
    assert spell_range(0.001, 0.001, "m") == "1 mm"
    assert spell_range(0.001, 0.002, "m") == "1 mm to 2 mm"


@pytest.mark.parametrize(
    ("value", "text"),
    [(9999.0, "10 000"), (12345.0, "12 300"), (1234.0, "1 230"), (1e5, "10⁵"), (2.5e-7, "2.5·10⁻⁷"), (-3e6, "-3·10⁶")],
)
def test_large_and_small_numbers_are_written_one_way(value: float, text: str) -> None:
    """Three digits at most; a blank between thousands (SI Brochure 5.4.4), powers of ten beyond."""
    assert spell(value, "dimensionless") == text
