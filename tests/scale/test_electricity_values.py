"""Sensing and signals against textbooks, hand arithmetic and simulation.

CHECKS: function, inputs in SI units, expected value, kind of source (it sets the tolerance), source.
"""

from __future__ import annotations

from math import exp, pi, radians, tanh

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.scale.registry import function
from tests.scale.record_checks import (
    assert_groups_are_dimensionless,
    assert_inside_regime,
    assert_records_fit,
    assert_unit_of_equation,
    assert_value,
)

FIELDS = frozenset({"electricity and sensing"})
BODY = 310.15
BOLTZMANN = 1.380649e-23

CHECKS = [
    ("slit-narrowing", (1e-4, 100e-6), 20e-9, "exact", "2 x 1e-4 x 100 um"),
    (
        "nernst-potential",
        (BODY, 1.0, 5.0, 140.0),
        -89.059e-3,
        "arithmetic",
        "potassium 5 / 140 at 37 °C: RT/F ln with scipy.constants; texts print -89 to -90 mV",
    ),
    (
        "nernst-potential",
        (BODY, 1.0, 145.0, 12.0),
        66.598e-3,
        "arithmetic",
        "sodium 145 / 12 at 37 °C with scipy.constants; texts print 66 to 67 mV",
    ),
    (
        "nernst-potential",
        (298.15, 1.0, 10.0, 1.0),
        59.1593e-3,
        "arithmetic",
        "RT ln10/F at 25 °C; texts print 59.16 mV",
    ),
    ("nernst-potential", (298.15, -2.0, 10.0, 1.0), -29.57965e-3, "arithmetic", "half of it, for two negative charges"),
    ("dipole-field", (4 * pi, 1.0, 2.0), 0.125, "exact", "4π / (4π x 8)"),
    ("field-over-threshold", (4 * pi, 1.0, 2.0, 0.0625), 2.0, "exact", "0.125 / 0.0625"),
    (
        "magnetic-over-thermal-energy",
        (1e-15, 5e-5, 300.0),
        12.0714,
        "arithmetic",
        "5e-20 / 4.14195e-21; Frankel and Blakemore 1980 speak of about 10",
    ),
    ("magnetic-alignment", (BOLTZMANN, 1.0, 1.0), 0.313035, "arithmetic", "Langevin function at 1: coth 1 - 1"),
    ("magnetic-alignment", (10 * BOLTZMANN, 1.0, 1.0), 0.9, "arithmetic", "Langevin function at 10"),
    ("inhibited-response", (10.0, 10.0, 10.0, 0.2), 6.0, "exact", "10 - 0.2 x 20"),
    ("inhibited-response", (1.0, 10.0, 10.0, 0.2), 0.0, "exact", "no response below zero"),
    ("total-inhibition", (0.2,), 0.4, "exact", "two neighbours"),
    ("leaky-level", (1.0, 2.0, 20.0, 20.0), 1 + exp(-1), "exact", "1 + 1/e"),
    ("leaky-level", (2.0, 5.0, 0.0, 20.0), 10.0, "exact", "five pulses at once"),
    ("level-over-threshold", (1.0, 2.0, 20.0, 20.0, 2 * (1 + exp(-1))), 0.5, "exact", "half of the threshold"),
    ("path-error", (0.01, 0.1, 10000.0), 0.1, "exact", "0.01 x 0.1 x 100"),
    ("error-over-search", (0.01, 0.1, 10000.0, 0.5), 0.2, "exact", "0.1 / 0.5"),
    ("switched-share-scatter", (0.5, 25.0), 0.1, "exact", "0.5 / 5"),
    ("switched-share-scatter", (0.5, 2500.0), 0.01, "exact", "0.5 / 50"),
    ("relative-response", (2.0, 0.01, 0.1), 0.2, "exact", "2 x a tenth"),
    ("relative-response", (2.0, 10.0, 100.0), 0.2, "exact", "Weber's law: a tenth more is a tenth more"),
    ("stack-voltage", (6.0, 2.1), 12.6, "exact", "charged car battery of six lead cells"),
    ("stack-voltage", (4000.0, 0.15), 600.0, "exact", "electric eel: 4000 cells of 0.15 V"),
    ("coriolis-force", (1e-9, 0.5, 10.0), 1e-8, "exact", "haltere knob of 1 ug: 2 x 1e-9 x 0.5 x 10"),
    ("tuned-speed", (1e-3, 0.05), 0.02, "exact", "1 mm / 50 ms"),
    ("passed-share", (2.0, 2.0), 0.70710678, "exact", "one over the root of 2 at the corner, 3 dB"),
    ("passed-share", (3.0, 1.0), 0.31622777, "exact", "one over the root of 10"),
    ("passed-share", (0.0, 1.0), 1.0, "exact", "what changes at once passes whole"),
    ("gate-open-share", (5e-13, 2e-8, 2e-8, BODY), 0.5, "exact", "half open by definition"),
    ("gate-open-share", (BOLTZMANN * BODY / 1e-8, 1e-8, 0.0, BODY), 1 / (1 + exp(-1)), "exact", "work of one k T"),
    ("gate-open-share", (5e-13, 5e-8, 2e-8, BODY), 0.97077, "arithmetic", "1.5e-20 / 4.2821e-21 = 3.5030 k T"),
    ("leak-length", (0.1, 0.01, 0.2), 0.05, "exact", "√(1e-3 / 0.4)"),
    ("leak-length", (0.07, 238e-6, 0.354), 4.85e-3, "memory", "squid axon, 700 Ω cm² and 35.4 Ω cm: texts print 5 mm"),
    (
        "dipole-pair-energy",
        (6e-17, 60e-9),
        3.3333e-18,
        "arithmetic",
        "2e-7 x 3.6e-33 / 2.16e-22: magnetite grains",
    ),
    ("dipole-pair-energy", (0.0, 60e-9), 0.0, "exact", "no magnets"),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "kind", "source"), CHECKS)
def test_value(name: str, inputs: tuple, expected: float, kind: str, source: str) -> None:
    assert_value(name, inputs, expected, kind, source)


def test_records_and_functions_fit() -> None:
    assert_records_fit("electricity", FIELDS, {check[0] for check in CHECKS})


# Where a constant of nature without its unit enters (voltage, magnetism), no unit comes out of the sum.
@pytest.mark.parametrize(
    "principle", ["strain-sensing", "electroreception", "lateral-inhibition", "threshold-switching", "dead-reckoning"]
)
def test_units_of_equation_and_groups(principle: str) -> None:
    if principle != "threshold-switching":  # a count below one pulse, as the shared check takes it, is refused
        assert_unit_of_equation(principle)
        assert_groups_are_dimensionless(principle)
    else:
        assert function("leaky-level")(1.0, 3.0, 20.0, 10.0) == function("leaky-level")(1.0, 3.0, 2.0, 1.0)


NATURE = [
    ("strain-sensing", "slit-length-over-width", (100e-6, 2e-6), "slit of a spider leg"),
    ("electroreception", "field-over-threshold", (1e-7, 5.0, 0.1, 1e-6), "ray 10 cm from a buried flatfish"),
    ("magnetic-compass", "magnetic-over-thermal-energy", (1e-15, 5e-5, 295.0), "bacterium with a chain of crystals"),
    ("lateral-inhibition", "total-inhibition", (0.2,), "eye of the horseshoe crab"),
    ("threshold-switching", "level-over-threshold", (1.0, 2.0, 10.0, 20.0, 1.5), "second touch of a leaf trap"),
    ("dead-reckoning", "error-over-search", (0.01, radians(10), 10000.0, 0.5), "ant on the way home from 100 m"),
]


@pytest.mark.parametrize(("principle", "group", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle: str, group: str, inputs: tuple, case: str) -> None:
    assert_inside_regime(principle, group, inputs, case)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("nernst-potential", (310.0, 0.0, 5.0, 140.0), "charge number other than zero, found 0"),
        ("nernst-potential", (310.0, 1.0, -5.0, 140.0), "outer concentration above zero, found -5"),
        ("dipole-field", (1.0, 5.0, 0.0), "target distance above zero"),
        ("leaky-level", (1.0, 0.0, 1.0, 1.0), "pulse count of at least 1, found 0"),
        ("magnetic-alignment", (1e-15, 5e-5, float("nan")), "found nan"),
        ("gate-open-share", (1e-12, 1e-8, 0.0, 0.0), "temperature above zero"),
        ("dipole-pair-energy", (1e-17, 0.0), "centre distance above zero"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


def test_constants_are_those_of_scipy() -> None:
    from scipy import constants

    from analog.scale.functions import _molecular_constants as molecular

    assert constants.k == molecular.BOLTZMANN_CONSTANT
    assert constants.N_A == molecular.AVOGADRO_CONSTANT
    assert constants.h == molecular.PLANCK_CONSTANT
    assert constants.c == molecular.SPEED_OF_LIGHT


def test_a_lone_pulse_is_ignored_and_the_second_counts_only_while_the_first_is_remembered() -> None:
    """Two touches within some thirty seconds close a leaf trap, one does not (textbook knowledge)."""
    level = function("level-over-threshold")
    threshold, memory = 1.2, 20.0
    assert level(1.0, 1.0, 1.0, memory, threshold) < 1
    assert level(1.0, 2.0, 10.0, memory, threshold) > 1
    assert level(1.0, 2.0, 90.0, memory, threshold) < 1


def test_the_level_of_pulses_against_its_equation_step_by_step() -> None:
    size, interval, decay, level = 1.3, 0.7, 2.1, 0.0
    for count in range(1, 8):
        level = level * exp(-interval / decay) + size if count > 1 else size
        assert function("leaky-level")(size, float(count), interval, decay) == pytest.approx(level)


def test_path_error_against_simulated_walks() -> None:
    """Headings scattered independently about straight ahead; spread across the way of many walks."""
    rng = numpy.random.default_rng(7)
    step, spread, count = 0.02, 0.1, 400
    across = step * numpy.sin(rng.normal(0, spread, (4000, count))).sum(axis=1)
    assert function("path-error")(step, spread, float(count)) == pytest.approx(across.std(), rel=0.05)


def test_alignment_against_the_mean_cosine_over_all_directions() -> None:
    """Boltzmann weights over the sphere, summed by scipy."""
    from scipy.integrate import quad

    for x in (0.3, 3.0, 12.0):
        weight = quad(lambda c, x=x: numpy.exp(x * (c - 1)), -1, 1)[0]
        mean = quad(lambda c, x=x: c * numpy.exp(x * (c - 1)), -1, 1)[0] / weight
        assert function("magnetic-alignment")(x * BOLTZMANN, 1.0, 1.0) == pytest.approx(mean, rel=1e-6)


@settings(max_examples=30, deadline=None)
@given(x=st.floats(1e-9, 1e3))
def test_alignment_rises_from_none_to_full(x: float) -> None:
    align = function("magnetic-alignment")
    value = align(x * BOLTZMANN, 1.0, 1.0)
    assert 0 < value < 1
    assert value <= x / 3 * (1 + 1e-9)
    assert value <= tanh(x) * (1 + 1e-9)
    assert align(1.1 * x * BOLTZMANN, 1.0, 1.0) > value


@settings(max_examples=25, deadline=None)
@given(outside=st.floats(1e-3, 1e3), inside=st.floats(1e-3, 1e3))
def test_the_voltage_turns_round_with_the_concentrations(outside: float, inside: float) -> None:
    voltage = function("nernst-potential")
    assert voltage(BODY, 1.0, outside, inside) == pytest.approx(-voltage(BODY, 1.0, inside, outside), abs=1e-15)
    assert voltage(BODY, 1.0, outside, outside) == 0.0


def test_an_edge_stands_out_and_an_even_field_fades() -> None:
    """A step from 1 to 2: overshoot beside the edge on the bright side, undershoot on the dark side (Mach bands)."""
    respond = function("inhibited-response")
    field = [1.0, 1.0, 1.0, 2.0, 2.0, 2.0]
    found = [respond(field[i], field[i - 1], field[i + 1], 0.2) for i in range(1, 5)]
    dark, dark_edge, bright_edge, bright = found
    assert dark_edge < dark < bright < bright_edge


def test_arrays_are_computed_element_by_element() -> None:
    fields = function("dipole-field")(1e-7, 5.0, numpy.array([0.1, 0.2]))
    assert fields[0] / fields[1] == pytest.approx(8.0)
    assert list(function("leaky-level")(1.0, 2.0, numpy.array([0.0, 20.0]), 20.0)) == pytest.approx([2.0, 1 + exp(-1)])


def test_a_free_body_seen_from_a_turning_frame_bends_by_the_coriolis_force() -> None:
    """Straight motion in a frame at rest, told in turning coordinates: the acceleration is 2 v Ω + Ω² r sideways."""
    speed, turn, step = 0.7, 3.0, 1e-4
    times = numpy.array([-step, 0.0, step])
    seen = (1.0 + speed * times) * numpy.exp(-1j * turn * times)  # radius 1 m at time 0, moving outwards
    acceleration = (seen[0] - 2 * seen[1] + seen[2]) / step**2
    assert -acceleration.imag == pytest.approx(function("coriolis-force")(1.0, speed, turn), rel=1e-6)
    assert -acceleration.real == pytest.approx(turn**2 * 1.0, rel=1e-6)


def test_the_product_with_the_delayed_signal_is_largest_at_the_tuned_speed() -> None:
    """A random row of light and dark drifts over two inputs; the mean product is scanned over the speed."""
    steps, spacing, delay = 20000, 12.0, 6
    row = numpy.random.default_rng(3).normal(size=400_000)
    places = numpy.arange(row.size)

    def product(speed: float) -> float:
        at = numpy.arange(steps) * speed
        first = numpy.interp(300_000 - at, places, row)
        second = numpy.interp(300_000 + spacing - at, places, row)
        return float(numpy.mean(first[:-delay] * second[delay:]))

    speeds = [1.0, 1.5, 2.0, 2.5, 3.0, 4.0]
    assert max(speeds, key=product) == function("tuned-speed")(spacing, delay)


def test_two_magnets_end_to_end_hold_each_other_with_the_energy_in_each_others_field() -> None:
    """Energy -m·B of one dipole in the field of the other, on its axis; the magnetic constant is that of scipy."""
    from scipy.constants import mu_0

    moment, distance = 3e-17, 80e-9
    axis = numpy.array([0.0, 0.0, 1.0])
    field = mu_0 / (4 * pi * distance**3) * (3 * axis * (axis @ axis) - axis) * moment
    ours = function("dipole-pair-energy")(moment, distance)
    assert ours == pytest.approx(moment * (axis @ field), rel=1e-8)
