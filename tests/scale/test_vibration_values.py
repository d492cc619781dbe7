"""Vibration and sound against hand arithmetic, handbooks and simulation.

CHECKS: function, inputs in SI units, expected value, kind of source (it sets the tolerance), source.
"""

from __future__ import annotations

from math import atan, exp, log10, pi

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

FIELDS = frozenset({"vibration and acoustics"})
AIR, WATER = (1.2041, 343.2), (998.2, 1482.0)

CHECKS = [
    ("natural-frequency", (1000.0, 1.0), 5.0329, "arithmetic", "√1000 / 2π"),
    ("natural-frequency", (4 * pi**2, 1.0), 1.0, "exact", "definition"),
    ("damping-ratio", (2.0, 1.0, 1.0), 1.0, "exact", "critical damping c = 2 √(k m)"),
    ("damped-amplitude", (1.0, 1.0, 0.1), 0.53179, "arithmetic", "exp(-0.2π / √0.99) = exp(-0.63148)"),
    ("damped-amplitude", (2.0, 5.0, 0.0), 2.0, "exact", "no damping"),
    ("impedance-ratio", (*AIR, *WATER), 3579.8, "arithmetic", "1479332 / 413.25"),
    (
        "sound-reflection",
        (*AIR, *WATER),
        1 - 0.0011139,
        "arithmetic",
        "air and water: 1 - 4 Z Z / (Z + Z)² with 413.2 and 1.483e6",
    ),
    (
        "sound-reflection",
        (1.0, 1.38e6, 1.0, 1.70e6),
        0.01079,
        "arithmetic",
        "fat 1.38, muscle 1.70 MRayl: (0.32 / 3.08)²",
    ),
    ("cavity-resonance-frequency", (343.2, 3e-4, 1e-3, 0.05), 133.8, "arithmetic", "343.2 / 2π x √6"),
    ("cavity-size-over-wavelength", (1e-3, 343.2, 343.2), 0.1, "exact", "0.1 m over 1 m"),
    ("serration-noise-reduction", (0.0, 1.0), 0.0, "exact", "straight edge"),
    ("serration-noise-reduction", (0.75, 1.0), 10.0, "exact", "10 log10(1 + 9)"),
    ("tooth-depth-in-eddies", (2000.0, 1e-3, 5.0), 2.51327, "arithmetic", "2π x 2 / 5"),
    ("echo-range", (343.2, 0.01), 1.716, "exact", "343.2 x 0.01 / 2"),
    ("circumference-over-wavelength", (0.01, 50e3, 343.2), 4.57693, "arithmetic", "π x 500 / 343.2"),
    ("arrival-time-difference", (0.343, pi / 2, 343.0), 1e-3, "exact", "343 mm at 343 m/s, straight to the side"),
    (
        "arrival-time-difference",
        (1.2e-3, pi / 4, 344.0),
        2.4667e-6,
        "arithmetic",
        "1.2 mm x 0.7071 / 344: a small fly",
    ),
    ("clinging-layer", (0.5, 1.0, 0.01), 10.0, "exact", "√(1 / 0.01)"),
    ("clinging-layer", (1.825e-5, 1.204, 6283.185), 6.946e-5, "arithmetic", "air at 1 kHz: √(3.65e-5 / 7564.96)"),
    ("clinging-layer", (1.825e-5, 1.204, 628.3185), 0.22e-3, "memory", "air at 100 Hz: 0.22 mm, from memory"),
    ("pressure-gain", (4.0, 1.0, 1.0, 1.0), 4.0, "exact", "hydraulic press of four times the area"),
    ("pressure-gain", (55e-6, 3.2e-6, 1.3, 1.0), 22.34375, "exact", "human middle ear: 55 / 3.2 x 1.3"),
    ("pressure-gain", (55e-6, 3.2e-6, 1.3, 1.0), 22.0, "memory", "textbooks of hearing: about 22 times, from memory"),
    (
        "coupled-receiver-contrast",
        (1.0, 1.0, 21**0.5, 0.25, 0.0, atan(0.0125) / pi, 1.0, pi / 2),
        3.0,
        "exact",
        "at the rocking frequency H_r = -2i, H_t = 1/20, tangent of half the lag 0.0125: (0.05 + 0.025)/(0.05 - 0.025)",
    ),
    (
        "coupled-receiver-contrast",
        (5e3, 7e3, 7e3, 0.4, 0.4, 1.2e-3, 0.0686, 1.0),
        1.0,
        "exact",
        "no bridge",
    ),
    ("coupled-receiver-contrast", (5e3, 7e3, 31e3, 0.4, 0.6, 1.2e-3, 0.0686, 0.0), 1.0, "exact", "sound from ahead"),
    ("tooth-strike-frequency", (0.14, 28e-6), 5000.0, "exact", "140 mm/s over teeth 28 um apart, a cricket's pitch"),
    ("tooth-strike-frequency", (0.0, 28e-6), 0.0, "exact", "at rest"),
    ("horn-cutoff-frequency", (4 * pi, 343.0), 343.0, "exact", "m = 4π"),
    (
        "horn-cutoff-frequency",
        (3.664, 343.0),
        100.0,
        "arithmetic",
        "1256.75 / 12.5664: horn of a loudspeaker",
    ),
    ("lag-of-held-mass", (0.1, 9.80665, 98.0665), -0.01, "exact", "the spring stretched by the weight of 0.1 kg"),
    ("lag-of-held-mass", (1e-9, 0.0, 1e-3), 0.0, "exact", "steady motion leaves no lag"),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "kind", "source"), CHECKS)
def test_value(name: str, inputs: tuple, expected: float, kind: str, source: str) -> None:
    assert_value(name, inputs, expected, kind, source)


def test_loss_from_air_to_water_is_thirty_decibels() -> None:
    """About 0.1 % of the energy or -30 dB, as texts of acoustics tell (from memory)."""
    passed = 1 - function("sound-reflection")(*AIR, *WATER)
    assert 10 * log10(passed) == pytest.approx(-29.53, abs=0.02)


def test_records_and_functions_fit() -> None:
    assert_records_fit("vibration", FIELDS, {check[0] for check in CHECKS})


@pytest.mark.parametrize(
    "principle",
    [
        "resonance",
        "vibration-damping",
        "acoustic-impedance",
        "acoustic-resonator",
        "acoustic-scattering-noise",
        "echolocation",
    ],
)
def test_units_of_equation_and_groups(principle: str) -> None:
    assert_unit_of_equation(principle)
    assert_groups_are_dimensionless(principle)


NATURE = [
    ("resonance", "damping-ratio", (0.02, 1.0, 1e-2), "spider web with prey, lightly damped"),
    ("vibration-damping", "share-of-critical-damping", (0.02, 1.0, 1e-2), "branch swaying"),
    ("acoustic-resonator", "cavity-size-over-wavelength", (1e-6, 400.0, 343.2), "cricket burrow, a millilitre"),
    ("acoustic-scattering-noise", "tooth-depth-in-eddies", (2000.0, 1e-3, 5.0), "owl fringe of 2 mm at 5 m/s, 2 kHz"),
    ("echolocation", "call-over-delay", (2e-3, 10e-3), "bat at 1.7 m"),
    ("echolocation", "circumference-over-wavelength", (0.01, 50e3, 343.2), "moth of 1 cm"),
]


@pytest.mark.parametrize(("principle", "group", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle: str, group: str, inputs: tuple, case: str) -> None:
    assert_inside_regime(principle, group, inputs, case)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("natural-frequency", (1.0, 0.0), "mass above zero, found 0"),
        ("damped-amplitude", (1.0, 1.0, 1.0), "damping ratio below 1 .* found 1"),
        ("sound-reflection", (1.2, 343.0, -1.0, 1480.0), "second density above zero, found -1"),
        ("echo-range", (343.0, -0.1), "echo delay of zero or more"),
        ("coupled-receiver-contrast", (5e3, 0.0, 3e4, 0.4, 0.6, 1e-3, 0.07, 1.0), "rocking frequency above zero"),
        ("lag-of-held-mass", (1.0, 1.0, 0.0), "spring constant above zero"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


def test_decay_of_a_free_vibration_against_its_equation_of_motion() -> None:
    """m x'' + c x' + k x = 0 integrated by scipy over four cycles."""
    from scipy.integrate import solve_ivp

    ratio, omega = 0.08, 2 * pi
    period = 2 * pi / (omega * (1 - ratio**2) ** 0.5)
    solution = solve_ivp(
        lambda _, y: [y[1], -2 * ratio * omega * y[1] - omega**2 * y[0]],
        (0, 4 * period),
        [1.0, 0.0],
        rtol=1e-10,
        atol=1e-12,
    )
    assert function("damped-amplitude")(1.0, 4.0, ratio) == pytest.approx(solution.y[0, -1], rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(first=st.floats(1.0, 1e7), second=st.floats(1.0, 1e7))
def test_reflection_is_the_same_from_both_sides_and_none_without_mismatch(first: float, second: float) -> None:
    reflect = function("sound-reflection")
    assert 0 <= reflect(1.0, first, 1.0, second) <= 1
    assert reflect(1.0, first, 1.0, second) == pytest.approx(reflect(1.0, second, 1.0, first), abs=1e-12)
    assert reflect(1.0, first, 1.0, first) == 0.0
    assert reflect(1.0, 1.0, 1.0, 1e12) == pytest.approx(1.0)


@settings(max_examples=25, deadline=None)
@given(cycles=st.floats(0.0, 50.0), ratio=st.floats(0.0, 0.9))
def test_each_cycle_takes_the_same_factor(cycles: float, ratio: float) -> None:
    decay = function("damped-amplitude")
    one = decay(1.0, 1.0, ratio)
    assert decay(1.0, cycles + 1, ratio) == pytest.approx(one * decay(1.0, cycles, ratio))
    assert one <= exp(-2 * pi * ratio) * (1 + 1e-12)


def test_arrays_are_computed_element_by_element() -> None:
    assert list(function("natural-frequency")(numpy.array([1.0, 4.0]), 1.0) * 2 * pi) == pytest.approx([1.0, 2.0])


def test_joined_receivers_swing_as_their_equations_of_motion_say() -> None:
    """Two masses with a sprung and damped bridge, solved as one linear system; figures of a fly's ear from memory of
    Miles and others 1995: 0.288 ug on each side, stiffness 0.576 and 5.18 N/m, damping 11.5 and 28.8 uN s/m."""
    mass, side, bridge, side_loss, bridge_loss, frequency, speed = 2.88e-10, 0.576, 5.18, 1.15e-5, 2.88e-5, 5e3, 344.0
    spacing, bearing, omega = 1.2e-3, pi / 4, 2 * pi * frequency
    own = side + bridge + 1j * omega * (side_loss + bridge_loss) - mass * omega**2
    shared = bridge + 1j * omega * bridge_loss
    lag = omega * spacing * numpy.sin(bearing) / speed
    swing = numpy.linalg.solve([[own, shared], [shared, own]], numpy.exp([1j * lag / 2, -1j * lag / 2]))
    rocking, together = (side / mass) ** 0.5, ((side + 2 * bridge) / mass) ** 0.5
    ours = function("coupled-receiver-contrast")(
        frequency,
        rocking / (2 * pi),
        together / (2 * pi),
        side_loss / (2 * mass * rocking),
        (side_loss + 2 * bridge_loss) / (2 * mass * together),
        spacing,
        speed / frequency,
        bearing,
    )
    assert ours == pytest.approx(abs(swing[0] / swing[1]), rel=1e-9)
    assert ours > 1.5  # two plain receivers so close would swing alike
    assert rocking / (2 * pi) == pytest.approx(7.1e3, rel=0.01) and together / (2 * pi) == pytest.approx(31e3, rel=0.01)


def test_a_horn_carries_waves_above_its_cutoff_and_only_sways_below_it() -> None:
    """Webster's equation p'' + m p' + (ω/c)² p = 0: its roots in e^(s x) turn complex (waves) at the cut-off."""
    flare, speed = 40.0, 343.0
    cutoff = function("horn-cutoff-frequency")(flare, speed)
    for factor, waves in ((0.99, False), (1.01, True)):
        roots = numpy.roots([1.0, flare, (2 * pi * factor * cutoff / speed) ** 2])
        assert bool(numpy.any(numpy.abs(roots.imag) > 0)) is waves


def test_a_held_mass_settles_at_its_lag_and_follows_the_speed_before_that() -> None:
    """m x'' + c x' + k x = -m a integrated by scipy from rest, overdamped: times 2 ms and 0.5 s."""
    from scipy.integrate import solve_ivp

    mass, damping, spring, pull = 1e-3, 0.5, 1.0, 2.0
    motion = solve_ivp(
        lambda _, y: [y[1], -pull - (damping * y[1] + spring * y[0]) / mass],
        (0, 10.0),
        [0.0, 0.0],
        method="LSODA",
        t_eval=[0.02, 10.0],
        rtol=1e-9,
        atol=1e-15,
    )
    assert motion.y[0, 1] == pytest.approx(function("lag-of-held-mass")(mass, pull, spring), rel=1e-6)
    assert motion.y[0, 0] == pytest.approx(-mass * pull * 0.02 / damping, rel=0.15)  # -m v/c, friction rules
