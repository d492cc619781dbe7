"""Regulation and collective behaviour against simulation, scipy, published limits and hand arithmetic.

CHECKS: function, inputs in SI units, expected value, kind of source (it sets the tolerance), source.
"""

from __future__ import annotations

from cmath import exp
from math import pi, sqrt

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

FIELDS = frozenset({"networks and collective behaviour"})

CHECKS = [
    ("remaining-error", (10.0, 4.0), 2.0, "exact", "10 / 5"),
    ("remaining-error", (10.0, 0.0), 10.0, "exact", "no control"),
    ("gain-times-delay", (10.0, 0.1, 2.0), 0.5, "exact", "1 / 2"),
    ("coupling-over-critical", (4.0, 1.0), 2.0, "exact", "critical coupling is twice the half width, Strogatz 2000"),
    ("synchrony", (4.0, 1.0), 0.707107, "arithmetic", "√(1 - 1/2)"),
    ("synchrony", (1.0, 1.0), 0.0, "exact", "below the critical coupling"),
    ("branch-choice", (0.0, 0.0, 20.0, 2.0), 0.5, "exact", "no marks yet"),
    ("branch-choice", (40.0, 10.0, 20.0, 2.0), 0.8, "exact", "60² / (60² + 30²), rule of Deneubourg 1990"),
    (
        "recruitment-number",
        (40.0, 1.0, 20.0, 2.0),
        1.0,
        "exact",
        "flow over loss and threshold of 2 for an exponent of 2",
    ),
    ("quorum-response", (10.0, 10.0, 4.0), 0.5, "exact", "half at the quorum"),
    ("quorum-response", (30.0, 10.0, 2.0), 0.9, "exact", "9 / 10"),
    ("task-response", (1.0, 1.0), 0.5, "exact", "half at the threshold"),
    ("task-response", (3.0, 1.0), 0.9, "exact", "9 / 10"),
    ("whole-reliability", (0.9, 3.0, 1.0), 0.999, "exact", "1 - 0.1³"),
    ("whole-reliability", (0.9, 3.0, 2.0), 0.972, "exact", "two of three: 3 x 0.081 + 0.729"),
    ("whole-reliability", (0.9, 3.0, 3.0), 0.729, "exact", "chain of three"),
    ("expected-over-needed", (10.0, 0.8, 4.0), 2.0, "exact", "8 / 4"),
    ("last-error", (1e-5, 0.01, 1.0), 1e-7, "exact", "copying with proofreading, 1e-5 x 1e-2"),
    ("last-error", (1e-2, 0.1, 0.0), 1e-2, "exact", "no check"),
    ("errors-per-copy", (5e6, 1e-5, 0.01, 2.0), 5e-3, "exact", "5e6 x 1e-9"),
    (
        "search-diffusivity",
        (20e-6, 1.0, 0.33),
        2e-10,
        "memory",
        "Berg 1993: gut bacterium spreads at about 2e-6 cm²/s",
    ),
    ("search-diffusivity", (3.0, 1.0, 0.0), 3.0, "exact", "9 / 3"),
    ("turning-period", (1.0, 1.0), 4 * pi, "exact", "sphere turns at half of the shear rate, Jeffery 1922"),
    ("turning-period", (2.0, 10.0), 31.7301, "arithmetic", "π x 10.1"),
    ("shear-over-tumbling", (1.0, 1e-3, 1e-6, 300.0), 0.75848, "arithmetic", "π 1e-21 / 4.14195e-21"),
    ("fading-mark", (8.0, 3.0, 1.0), 1.0, "exact", "three half-lives"),
    ("fading-mark", (1.0, 1980.0, 540.0), 0.0787, "arithmetic", "33 min at a half-life of 9 min: 2^(-3.667)"),
    ("reproduction-number", (10.0 / 86400, 0.02, 5 * 86400.0), 1.0, "exact", "10 a day x 0.02 x 5 days"),
    ("joining-neighbour-count", (2000.0,), 3.90610, "arithmetic", "0.5139 x 7.60090"),
    ("joining-neighbour-count", (1.0,), 0.0, "exact", "one alone needs no neighbour"),
    ("start-delay", (1800.0, 1.0, 0.5), 1247.66, "arithmetic", "half level after ln 2 = 0.693147 of 30 min"),
    ("start-delay", (1.0, 1.0, 0.0), 0.0, "exact", "no level to reach"),
    ("start-delay", (1.0, 4.0, 3.0), 1.386294, "arithmetic", "ln 4"),
    ("even-draw-rate", (86400.0, 43200.0), 2.0, "exact", "a day's moles in half a day"),
    ("even-draw-rate", (0.0, 43200.0), 0.0, "exact", "an empty store gives nothing"),
    ("long-run-growth", (1.0, 3.0, 0.9, 1.0), 3.0, "exact", "sure gain of all that is staked"),
    ("long-run-growth", (1.0, 3.0, 0.9, 0.9), 0.0, "exact", "everything staked, one bad round ends it"),
    ("long-run-growth", (0.5, 4.0, 1.0, 0.5), 1.118034, "arithmetic", "√(2.5 x 0.5)"),
    ("uncancelled-share", (0.9, 0.0, 0.1), 0.1, "exact", "no delay: 1 - 0.9"),
    (
        "uncancelled-share",
        (1.0, 0.01, 0.1),
        abs(1 - exp(-0.1j)),
        "exact",
        "by complex numbers",
    ),
    ("uncancelled-share", (0.8, 0.05, 0.1), abs(1 - 0.8 * exp(-0.5j)), "exact", "the same"),
    ("uncancelled-share", (1.0, pi * 0.1, 0.1), 2.0, "exact", "half a cycle late doubles the disturbance"),
    ("settled-answer", (0.693147181, 1.0, 0.5), 2 / 3, "exact", "x = 1/2: 0.5 / 0.75"),
    ("settled-answer", (10.0, 60.0, 0.3), 0.376766, "arithmetic", "x = 0.846482: 0.153518 / 0.407463"),
    ("settled-answer", (1.0, 1.0, 0.0), 1.0, "exact", "a junction that does not tire"),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "kind", "source"), CHECKS)
def test_value(name: str, inputs: tuple, expected: float, kind: str, source: str) -> None:
    assert_value(name, inputs, expected, kind, source)


def test_records_and_functions_fit() -> None:
    assert_records_fit("networks", FIELDS, {check[0] for check in CHECKS})


# Rotary diffusion holds the Boltzmann constant without its unit; spare parts are whole numbers.
@pytest.mark.parametrize(
    "principle",
    [
        "feedback-regulation",
        "oscillator-synchronisation",
        "positive-feedback-recruitment",
        "quorum-decision",
        "division-of-labour",
        "error-correction",
        "random-search",
        "decaying-trace",
        "contact-zoning",
    ],
)
def test_units_of_equation_and_groups(principle: str) -> None:
    assert_unit_of_equation(principle)
    assert_groups_are_dimensionless(principle)


NATURE = [
    ("feedback-regulation", "gain-times-delay", (9.0, 60.0, 3600.0), "body heat of a mammal"),
    ("oscillator-synchronisation", "coupling-over-critical", (1.0, 0.2), "fireflies of nearly equal period"),
    ("positive-feedback-recruitment", "recruitment-number", (20 / 60, 1 / 1800, 20.0, 2.0), "ants, 20 a minute"),
    ("quorum-decision", "number-over-quorum", (15.0, 12.0), "bees at the chosen site"),
    ("redundancy", "expected-over-needed", (6500000.0, 0.5, 2000.0), "gecko hairs against body weight"),
    ("error-correction", "errors-per-copy", (4.6e6, 1e-5, 0.01, 2.0), "gut bacterium"),
    ("random-search", "search-over-run-time", (600.0, 1.0), "bacterium for ten minutes"),
    ("flow-alignment", "shear-over-tumbling", (3000.0, 3.5e-3, 1e-6, 310.0), "long clotting protein in an artery"),
    ("decaying-trace", "interval-over-half-life", (60.0, 540.0), "busy ant trail"),
    ("contact-zoning", "reproduction-number", (1.0 / 86400, 0.05, 5 * 86400.0), "hand-over point of an ant nest"),
]


@pytest.mark.parametrize(("principle", "group", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle: str, group: str, inputs: tuple, case: str) -> None:
    assert_inside_regime(principle, group, inputs, case)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("whole-reliability", (1.2, 3.0, 1.0), "part reliability between 0 and 1, found 1.2"),
        ("whole-reliability", (0.9, 2.5, 1.0), "whole numbers of parts, found 2.5"),
        ("search-diffusivity", (1.0, 1.0, 1.0), "mean turn cosine below 1"),
        ("fading-mark", (1.0, 1.0, 0.0), "half life above zero, found 0"),
        ("reproduction-number", (1.0, 1.5, 1.0), "transmission probability between 0 and 1"),
        ("quorum-response", (float("nan"), 1.0, 1.0), "found nan"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


@pytest.mark.parametrize(("count", "needed"), [(5, 3), (12, 1), (20, 18)])
def test_spare_parts_against_the_binomial_of_scipy(count: int, needed: int) -> None:
    from scipy.stats import binom

    for chance in (0.0, 0.3, 0.95, 1.0):
        expected = binom.sf(needed - 1, count, chance)
        assert function("whole-reliability")(chance, float(count), float(needed)) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(("factor", "settles"), [(0.9, True), (1.1, False)])
def test_delay_beyond_half_of_pi_makes_a_strong_loop_swing(factor: float, settles: bool) -> None:
    """τ x' = -x - K x(t - t_d) stepped in time for a gain of 50."""
    gain, constant = 50.0, 1.0
    delay = factor * pi / 2 * constant / gain
    assert function("gain-times-delay")(gain, delay, constant) == pytest.approx(factor * pi / 2)
    lag = 400
    step = delay / lag
    values = [1.0] * (lag + 1)
    for _ in range(30 * lag):
        values.append(values[-1] + step / constant * (-values[-1] - gain * values[-1 - lag]))
    late = max(abs(v) for v in values[-4 * lag :])
    assert (late < 1.0) is settles


def test_synchrony_of_many_coupled_oscillators() -> None:
    """1000 oscillators at the quantiles of a Lorentzian of half width 1, coupling 4: order √(1 - 1/2), 0.71."""
    count, spread, coupling, step = 1000, 1.0, 4.0, 0.02
    own = spread * numpy.tan(pi * ((numpy.arange(count) + 0.5) / count - 0.5))
    phase = numpy.random.default_rng(3).uniform(0, 2 * pi, count)
    orders = []
    for index in range(2500):
        field = numpy.exp(1j * phase).mean()
        phase = phase + step * (own + coupling * abs(field) * numpy.sin(numpy.angle(field) - phase))
        if index >= 1500:
            orders.append(abs(field))
    assert function("synchrony")(coupling, spread) == pytest.approx(float(numpy.mean(orders)), rel=0.06)


@pytest.mark.parametrize("exponent", [2.0, 4.0])
@pytest.mark.parametrize(("factor", "splits"), [(0.8, False), (1.25, True)])
def test_equal_branches_part_where_the_recruitment_number_passes_one(
    exponent: float, factor: float, splits: bool
) -> None:
    """dA/dt = φ P - ν A for two branches, stepped to rest from a small surplus of one."""
    decay, threshold = 1.0, 20.0
    rate = factor * 2 * decay * threshold / (exponent - 1)
    assert function("recruitment-number")(rate, decay, threshold, exponent) == pytest.approx(factor)
    first = second = rate / (2 * decay)
    first, second = 1.01 * first, 0.99 * second
    for _ in range(20000):
        chance = function("branch-choice")(first, second, threshold, exponent)
        first += 0.01 * (rate * chance - decay * first)
        second += 0.01 * (rate * (1 - chance) - decay * second)
    assert (first / second > 1.5) is splits


def test_spread_of_simulated_runs_and_turns() -> None:
    """Runs of exponential length, directions at random: mean square distance 6 D t in space."""
    rng = numpy.random.default_rng(5)
    speed, run, walkers, runs = 2.0, 0.5, 4000, 400
    times = rng.exponential(run, (walkers, runs))
    direction = rng.normal(size=(walkers, runs, 3))
    direction /= numpy.linalg.norm(direction, axis=2, keepdims=True)
    end = (speed * times[:, :, None] * direction).sum(axis=1)
    found = (end**2).sum(axis=1).mean() / (6 * runs * run)
    assert function("search-diffusivity")(speed, run, 0.0) == pytest.approx(found, rel=0.06)


def test_turn_of_a_long_body_against_its_equation_of_motion() -> None:
    """φ' = γ̇ (p² cos²φ + sin²φ)/(p² + 1), φ from the gradient: time of a full turn by quadrature."""
    from scipy.integrate import quad

    shear, aspect = 3.0, 7.0
    expected = quad(
        lambda a: (aspect**2 + 1) / (shear * (aspect**2 * numpy.cos(a) ** 2 + numpy.sin(a) ** 2)), 0, 2 * pi, limit=200
    )[0]
    assert function("turning-period")(shear, aspect) == pytest.approx(expected, rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(own=st.floats(0.0, 1e4), other=st.floats(0.0, 1e4), exponent=st.floats(0.5, 4.0))
def test_chances_of_both_branches_add_to_one(own: float, other: float, exponent: float) -> None:
    choose = function("branch-choice")
    assert choose(own, other, 20.0, exponent) + choose(other, own, 20.0, exponent) == pytest.approx(1.0)
    assert choose(own + 1, other, 20.0, exponent) > choose(own, other, 20.0, exponent)


@settings(max_examples=25, deadline=None)
@given(first=st.floats(0.0, 1e4), second=st.floats(0.0, 1e4))
def test_a_mark_fades_the_same_in_one_wait_or_two(first: float, second: float) -> None:
    fade = function("fading-mark")
    assert fade(fade(1.0, first, 900.0), second, 900.0) == pytest.approx(fade(1.0, first + second, 900.0))


@settings(max_examples=25, deadline=None)
@given(coupling=st.floats(0.01, 1e3))
def test_synchrony_sets_in_at_the_critical_coupling_and_grows_to_one(coupling: float) -> None:
    order = function("synchrony")(coupling, 1.0)
    assert bool(order > 0) is (function("coupling-over-critical")(coupling, 1.0) > 1)
    assert order <= 1
    assert function("synchrony")(1e9, 1.0) == pytest.approx(1.0)


def test_rotary_diffusion_is_that_of_a_sphere() -> None:
    """kT/(8π μ r³) (Larson 1999), written with the radius."""
    viscosity, radius, temperature = 1e-3, 0.5e-6, 300.0
    tumbling = 1.380649e-23 * temperature / (8 * pi * viscosity * radius**3)
    assert function("shear-over-tumbling")(tumbling, viscosity, 2 * radius, temperature) == pytest.approx(1.0)


def test_arrays_are_computed_element_by_element() -> None:
    marks = function("fading-mark")(1.0, numpy.array([0.0, 900.0]), 900.0)
    assert list(marks) == pytest.approx([1.0, 0.5])
    orders = function("synchrony")(numpy.array([1.0, 4.0]), 1.0)
    assert list(orders) == pytest.approx([0.0, sqrt(0.5)])
