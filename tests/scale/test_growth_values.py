"""Branching, body size and packing against published relations, optimisation and simulation.

CHECKS: function, inputs in SI units, expected value, kind of source (it sets the tolerance), source.
"""

from __future__ import annotations

from math import acos, degrees, pi

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.model.quantity import registry
from analog.scale.registry import function
from tests.scale.record_checks import (
    assert_groups_are_dimensionless,
    assert_inside_regime,
    assert_records_fit,
    assert_unit_of_equation,
    assert_value,
)

FIELDS = frozenset({"growth and branching"})

CHECKS = [
    (
        "cost-minimal-parent-radius",
        (2.0, 0.793701e-3),
        1e-3,
        "arithmetic",
        "equal daughters r/r0 = 2^(-1/3) = 0.793701",
    ),
    ("cost-minimal-parent-radius", (8.0, 1e-3), 2e-3, "exact", "cube root of 8"),
    ("cubes-ratio", (2.0, 0.793701, 1.0), 1.0, "arithmetic", "2 x 0.793701³"),
    ("cubes-ratio", (2.0, 0.707107, 1.0), 0.707107, "arithmetic", "kept areas: 2 / 2^1.5"),
    ("resting-metabolic-rate", (70.0,), 82.035, "arithmetic", "70 x 70^0.75 kcal/day = 1694 kcal/day, by pint"),
    ("resting-metabolic-rate", (0.02,), 0.180, "memory", "mouse of 20 g, 0.18 W"),
    ("spiral-radius", (2e-3, 100.0), 0.02, "exact", "2 mm x 10"),
    ("relative-conductance", (2.0, 1.0, 1.5), 2.828427, "arithmetic", "2^1.5"),
    ("relative-conductance", (-3.0, 1.0, 1.0), 3.0, "exact", "the direction of flow does not count"),
    ("centring-pull", (1e-6, 60e-6, 40e-6), 20e-12, "exact", "1 pN/um x 20 um"),
    ("centring-pull", (1e-6, 50e-6, 50e-6), 0.0, "exact", "at rest in the middle"),
    ("pattern-wavelength", (1.0, 16.0, 1.0, 1.0), 4 * pi, "exact", "fourth root of 16 is 2"),
    ("pattern-wavelength", (1e-14, 1e-12, 0.1, 0.01), 1.1173e-5, "arithmetic", "2π x (1e-26 / 1e-3)^(1/4)"),
    (
        "stream-incision-rate",
        (1e-4, 1e8, 1e4, 0.5, 0.01, 1.0),
        1e-4,
        "exact",
        "1e-6 a year x √1e8 m x 0.01, in m a year",
    ),
    ("stream-incision-rate", (2.0, 1.0, 1.0, 0.4, 0.5, 2.0), 0.5, "exact", "at the source area: 2 x 0.25"),
    ("wall-growth-rate", (1e-11, 5e5, 2e5), 3e-6, "exact", "1e-11 x 3e5"),
    ("wall-growth-rate", (1e-11, 1e5, 2e5), 0.0, "exact", "below the threshold the wall only stretches"),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "kind", "source"), CHECKS)
def test_value(name: str, inputs: tuple, expected: float, kind: str, source: str) -> None:
    assert_value(name, inputs, expected, kind, source)


def test_records_and_functions_fit() -> None:
    assert_records_fit("growth", FIELDS, {check[0] for check in CHECKS})


# Kleiber's coefficient holds for kilograms and watts only and carries no unit.
@pytest.mark.parametrize("principle", ["murray-branching", "phyllotaxis-packing", "flow-reinforced-conductance"])
def test_units_of_equation_and_groups(principle: str) -> None:
    assert_unit_of_equation(principle)
    assert_groups_are_dimensionless(principle)


def test_kilocalories_a_day_in_watts() -> None:
    """70 M^0.75 kcal a day, converted by pint."""
    unit = registry()
    for mass in (0.02, 1.0, 70.0, 4000.0):
        expected = (70 * mass**0.75 * unit.kcal / unit.day).to("W").magnitude
        assert function("resting-metabolic-rate")(mass) == pytest.approx(expected, rel=1e-6)


NATURE = [
    ("murray-branching", "cubes-ratio", (2.0, 0.8, 1.0), "arterioles, about 0.8"),
    ("flow-reinforced-conductance", "growth-over-decay-time", (6 * 3600.0, 3600.0), "slime mould after six hours"),
]


@pytest.mark.parametrize(("principle", "group", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle: str, group: str, inputs: tuple, case: str) -> None:
    assert_inside_regime(principle, group, inputs, case)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("cubes-ratio", (2.0, 1.0, 0.0), "parent radius above zero, found 0"),
        ("resting-metabolic-rate", (-1.0,), "body mass of zero or more, found -1"),
        ("relative-conductance", (1.0, 0.0, 1.0), "reference flow other than zero"),
        ("spiral-radius", (float("nan"), 1.0), "found nan"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


def test_the_cube_law_is_the_least_cost_of_flow_and_volume() -> None:
    """Pumping a Q²/r⁴ plus upkeep b r² of each vessel, minimised by scipy: radii follow the cube root of the flow."""
    from scipy.optimize import minimize_scalar

    def best(flow: float) -> float:
        return minimize_scalar(lambda r: flow**2 / r**4 + 3 * r**2, bounds=(1e-3, 10), method="bounded",
                               options={"xatol": 1e-10}).x  # fmt: skip

    parent, daughter = best(1.0), best(0.5)
    assert function("cost-minimal-parent-radius")(2.0, daughter) == pytest.approx(parent, rel=1e-5)


def test_angle_of_a_least_cost_fork() -> None:
    """cos of half the angle is r0²/(2 r1²) for equal daughters (Murray 1926b); texts print 75 degrees for the whole."""
    daughter = 1 / function("cost-minimal-parent-radius")(2.0, 1.0)
    assert 2 * degrees(acos(1 / (2 * daughter**2))) == pytest.approx(74.93, abs=0.01)


def test_spiral_by_the_golden_angle_packs_evenly() -> None:
    """Turns of π(3 - √5): the nearest neighbours of inner and outer elements are equally far (Vogel 1979)."""
    numbers = numpy.arange(1, 1001)
    radii = function("spiral-radius")(1.0, numbers)

    def nearest(turn: float) -> numpy.ndarray:
        points = radii * numpy.exp(1j * turn * numbers)
        distance = abs(points[:, None] - points[None, :])
        numpy.fill_diagonal(distance, numpy.inf)
        return distance.min(axis=1)

    golden = nearest(pi * (3 - 5**0.5))
    assert golden[100:900].min() > 1.5
    assert golden[100:900].max() / golden[100:900].min() < 1.3
    # a tenth of a degree more makes rows that crowd in one direction and leave gaps in the other
    assert nearest(pi * (3 - 5**0.5) + pi / 1800)[100:900].min() < 1.0


@pytest.mark.parametrize(("exponent", "kept"), [(0.5, True), (1.5, False)])
def test_two_equal_ends_keep_both_ways_below_an_exponent_of_one_and_one_above(exponent: float, kept: bool) -> None:
    """dD/dt = |Q|^μ - D for two parallel channels that share a flow of one (Tero and others 2007), stepped to rest."""
    first, second = 0.55, 0.45
    for _ in range(20000):
        flow = first / (first + second)
        first += 0.01 * (flow**exponent - first)
        second += 0.01 * ((1 - flow) ** exponent - second)
    assert (second > 0.1) is kept
    if kept:
        assert first / second == pytest.approx(function("relative-conductance")(flow, 1 - flow, exponent), rel=1e-3)


@settings(max_examples=25, deadline=None)
@given(mass=st.floats(1e-3, 1e4), factor=st.floats(1.1, 100.0))
def test_a_larger_body_needs_more_in_all_and_less_for_each_kilogram(mass: float, factor: float) -> None:
    rate = function("resting-metabolic-rate")
    assert rate(factor * mass) > rate(mass)
    assert rate(factor * mass) / (factor * mass) < rate(mass) / mass


def test_arrays_are_computed_element_by_element() -> None:
    assert list(function("cubes-ratio")(2.0, numpy.array([0.5, 1.0]), 1.0)) == pytest.approx([0.25, 2.0])
