"""Chemistry against textbooks, scipy and hand arithmetic.

CHECKS: function, inputs in SI units, expected value, kind of source (it sets the tolerance), source.
"""

from __future__ import annotations

from math import exp, log, pi, radians

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

FIELDS = frozenset({"chemistry and transport"})
ROOM = 298.15
GAS = 8.31446261815324
BOLTZMANN = 1.380649e-23

CHECKS = [
    ("bond-over-thermal-energy", (20e3, ROOM), 8.06793, "arithmetic", "20000 / (8.31446 x 298.15 = 2478.96)"),
    ("weak-bond-lifetime", (1e-12, 20e3, ROOM), 3.1904e-9, "arithmetic", "1e-12 exp(8.06793)"),
    ("weak-bond-lifetime", (1e-12, 0.0, ROOM), 1e-12, "exact", "no bond"),
    (
        "templated-nucleation-barrier",
        (0.1, 6e-29, 300.0, exp(1.0), pi),
        16 * pi * 1e-3 * 3.6e-57 / (3 * (BOLTZMANN * 300) ** 2),
        "exact",
        "no template (180 degrees), logarithm 1: 16π γ³v² / (3 (kT)²), Kashchiev 2000",
    ),
    (
        "templated-nucleation-barrier",
        (0.1, 6e-29, 300.0, exp(1.0), pi / 2),
        8 * pi * 1e-3 * 3.6e-57 / (3 * (BOLTZMANN * 300) ** 2),
        "exact",
        "a right angle halves the barrier",
    ),
    ("barrier-over-thermal-energy", (0.1, 6e-29, 300.0, exp(1.0), pi), 848.8, "arithmetic", "3.5157e-18 / 4.14195e-21"),
    ("enzyme-rate", (2.0, 5.0, 5.0), 1.0, "exact", "half of the largest rate at K_m"),
    ("enzyme-rate", (1.0, 9.0, 1.0), 0.9, "exact", "9 / 10"),
    ("buffer-ph", (6.1, 24.0, 1.2), 7.401, "arithmetic", "blood: 6.1 + log10 20; texts print 7.40"),
    ("buffer-ph", (4.76, 1.0, 1.0), 4.76, "exact", "equal amounts: pH = pKa"),
    ("binding-number", (1e3, 0.001), 1.0, "exact", "1e3 x 1e-3"),
    ("bound-share", (1e3, 0.001), 0.5, "exact", "half bound at K L = 1"),
    ("bound-share", (1e3, 0.099), 0.99, "exact", "99 / 100"),
    ("affected-share", (1.0, 1.0, 3.0), 0.5, "exact", "half at the half-effect dose"),
    ("affected-share", (3.0, 1.0, 2.0), 0.9, "exact", "9 / 10"),
    ("adiabatic-temperature-rise", (203e3, 1500.0, 1000.0, 4180.0), 72.847, "arithmetic", "3.045e8 / 4.18e6"),
    ("reaction-over-cooling-time", (5e-3, 1.4e-7, 3e-4), 7.7778e-3, "arithmetic", "7e-10 / 9e-8"),
    (
        "chemical-light-power",
        (1.0, 1.0, 560e-9),
        213.62e3,
        "arithmetic",
        "0.119627 J m/mol / 560 nm; a mole of photons at 560 nm, texts print 214 kJ",
    ),
    ("chemical-light-power", (0.41, 0.0, 560e-9), 0.0, "exact", "no reaction"),
    ("photon-over-reaction-energy", (560e-9, 427.24e3), 0.5, "arithmetic", "213.62 / 427.24"),
    ("net-assimilation", (5e-4, 0.05, 25e-6, 1e-6), 11.5e-6, "exact", "25 x 25 / 50 - 1 umol"),
    ("gain-over-respiration", (5e-4, 0.05, 25e-6, 1e-6), 12.5, "exact", "12.5 / 1"),
    ("transfer-energy", (0.05, 1e-18), 30110.7, "arithmetic", "6.02214e23 x 5e-20"),
    ("transfer-over-thermal-energy", (0.05, 1e-18, ROOM), 12.1465, "arithmetic", "30110.7 / 2478.96"),
    ("packing-parameter", (0.35e-27, 0.6e-18, 1.7e-9), 0.343137, "arithmetic", "0.35 / (0.6 x 1.7): a small ball"),
    (
        "packing-parameter",
        (0.9156e-27, 0.65e-18, 2.178e-9),
        0.64675,
        "arithmetic",
        "two chains of 16 carbons by Tanford's 0.0274 + 0.0269 n nm³ and 0.154 + 0.1265 n nm, head 0.65 nm²: a bilayer",
    ),
    ("charged-chain-parting", (0.1, 530.0), 1.0, "exact", "0.001 x 530 / 0.53"),
    ("charged-chain-parting", (0.2, 1000.0), 15.094, "arithmetic", "8 / 0.53"),
    ("reached-depth", (2e-9, 0.1, 0.04), 1e-4, "exact", "√(4e-10 / 0.04)"),
    (
        "reached-depth",
        (1.4e-9 / 60, 1.0, 5e-2 / 60),
        0.235e-3,
        "memory",
        "Warburg 1923: liver slices in oxygen up to 0.47 mm thick, fed from both faces; from memory",
    ),
    ("front-speed", (1e-10, 1.0), 2e-5, "exact", "2 √1e-10"),
    ("front-speed", (4.0, 9.0), 12.0, "exact", "2 x 6"),
    ("store-hold-time", (25.0, 2.5), 10.0, "exact", "25 mol/m³ of a muscle's reserve / 2.5 mol/m³/s: a sprint of 10 s"),
    ("exchange-quotient", (2.0, 0.3, 0.6, 0.1), 5.0, "exact", "2 x 0.09 / (0.36 x 0.1)"),
    ("exchange-quotient", (0.0, 0.3, 0.6, 0.1), 0.0, "exact", "nothing swapped"),
    ("ion-energy-per-turn", (1.0, 1.0), 1.602176634e-19, "exact", "one electronvolt"),
    ("ion-energy-per-turn", (1000.0, 0.15), 2.40326e-17, "arithmetic", "150 eV; flagellar motor"),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "kind", "source"), CHECKS)
def test_value(name: str, inputs: tuple, expected: float, kind: str, source: str) -> None:
    assert_value(name, inputs, expected, kind, source)


def test_records_and_functions_fit() -> None:
    assert_records_fit("chemistry", FIELDS, {check[0] for check in CHECKS})


# Sums with a constant of nature without its unit (R, k, h c) give no unit and are left out.
@pytest.mark.parametrize(
    "principle",
    [
        "enzyme-catalysis",
        "ph-and-buffering",
        "chelation",
        "chemical-deterrence",
        "rapid-chemical-heat",
        "photosynthesis",
    ],
)
def test_units_of_equation_and_groups(principle: str) -> None:
    assert_unit_of_equation(principle)
    assert_groups_are_dimensionless(principle)


NATURE = [
    ("self-assembly", "bond-over-thermal-energy", (20e3, ROOM), "hydrogen bond in a protein"),
    ("template-mineralisation", "mineral-supersaturation", (2e-2, 3.3e-3), "calcium carbonate, six times saturated"),
    (
        "template-mineralisation",
        "barrier-over-thermal-energy",
        (0.09, 6.1e-29, 298.15, 6.0, radians(50)),
        "calcite on a template that fits",
    ),
    ("enzyme-catalysis", "substrate-over-half-saturation", (5.0, 0.05), "blood sugar at hexokinase"),
    ("ph-and-buffering", "buffer-ratio", (12.0, 1.2), "bicarbonate of venous blood in acidosis"),
    ("chelation", "binding-number", (1e10, 1e-6), "iron carrier of a bacterium"),
    ("chemical-deterrence", "dose-over-half-effect", (3.0, 1.0), "defended caterpillar"),
    ("rapid-chemical-heat", "reaction-over-cooling-time", (5e-3, 1.4e-7, 3e-4), "spray beetle"),
    ("bioluminescence", "photon-over-reaction-energy", (560e-9, 400e3), "firefly"),
    ("photosynthesis", "gain-over-respiration", (5e-4, 0.05, 25e-6, 1e-6), "leaf in a quarter of full sun"),
    ("hydrophobic-effect", "transfer-over-thermal-energy", (0.03, 2e-18, ROOM), "lipid chain"),
]


@pytest.mark.parametrize(("principle", "group", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle: str, group: str, inputs: tuple, case: str) -> None:
    assert_inside_regime(principle, group, inputs, case)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("templated-nucleation-barrier", (0.1, 1e-28, 300.0, 0.9, 1.0), "supersaturation above 1 .* found 0.9"),
        ("templated-nucleation-barrier", (0.1, 1e-28, 300.0, 2.0, 4.0), "template angle from 0 to 180 degrees"),
        ("buffer-ph", (4.8, 1.0, 0.0), "acid concentration above zero"),
        ("chemical-light-power", (1.5, 1.0, 5e-7), "quantum yield between 0 and 1, found 1.5"),
        ("bond-over-thermal-energy", (1e4, -5.0), "temperature above zero, found -5"),
        ("charged-chain-parting", (1.5, 100.0), "charge density between 0 and 1, found 1.5"),
        ("store-hold-time", (25.0, 0.0), "draw above zero"),
        ("exchange-quotient", (1.0, 1.0, 0.0, 1.0), "free sites above zero"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


def test_buffer_against_the_full_balance_of_charge() -> None:
    """Acetic acid 0.1 mol/L, half neutralised with sodium hydroxide: balance of all ions solved by scipy."""
    from scipy.optimize import brentq

    acid, sodium, constant, water = 0.1, 0.05, 10**-4.76, 1e-14

    def charge(ph: float) -> float:
        proton = 10**-ph
        return sodium + proton - water / proton - acid * constant / (constant + proton)

    assert function("buffer-ph")(4.76, 50.0, 50.0) == pytest.approx(brentq(charge, 2, 12), abs=0.01)


def test_the_barrier_is_the_top_of_the_energy_of_a_growing_ball() -> None:
    """4π r² γ - (4/3)π r³ kT ln S/v, scanned over the radius."""
    gamma, volume, temperature, ratio = 0.05, 5e-29, 300.0, 8.0
    drive = BOLTZMANN * temperature * log(ratio) / volume
    radius = numpy.linspace(0, 4 * gamma / drive, 200001)
    energy = 4 * pi * radius**2 * gamma - 4 / 3 * pi * radius**3 * drive
    found = function("templated-nucleation-barrier")(gamma, volume, temperature, ratio, pi)
    assert found == pytest.approx(energy.max(), rel=1e-6)


def test_half_saturation_from_the_reaction_scheme() -> None:
    """Binding, release and turnover in steady state give K_m = (k₋ + k₂)/k₊ (Briggs and Haldane 1925)."""
    bind, release, turn, enzyme, substrate = 2.0, 1.0, 3.0, 0.01, 4.0
    complexed = enzyme * bind * substrate / (bind * substrate + release + turn)
    rate = function("enzyme-rate")(turn * enzyme, substrate, (release + turn) / bind)
    assert rate == pytest.approx(turn * complexed)


@settings(max_examples=25, deadline=None)
@given(angle=st.floats(0.0, pi), ratio=st.floats(1.01, 1e3))
def test_a_template_only_lowers_the_barrier(angle: float, ratio: float) -> None:
    barrier = function("templated-nucleation-barrier")
    alone = barrier(0.1, 5e-29, 300.0, ratio, pi)
    assert -1e-12 * alone <= barrier(0.1, 5e-29, 300.0, ratio, angle) <= alone * (1 + 1e-9)
    assert barrier(0.1, 5e-29, 300.0, ratio * 1.5, pi) < alone


@settings(max_examples=25, deadline=None)
@given(dose=st.floats(1e-6, 1e6), steep=st.floats(0.5, 4.0))
def test_shares_rise_from_none_to_all(dose: float, steep: float) -> None:
    share = function("affected-share")
    assert 0 <= share(dose, 1.0, steep) <= 1
    assert share(dose, 1.0, steep) + share(1 / dose, 1.0, steep) == pytest.approx(1.0)
    assert function("enzyme-rate")(1.0, dose, 1.0) == pytest.approx(share(dose, 1.0, 1.0))


@settings(max_examples=25, deadline=None)
@given(light=st.floats(1e-9, 1.0))
def test_fixing_stays_below_both_limits(light: float) -> None:
    net = function("net-assimilation")(light, 0.05, 25e-6, 0.0)
    assert net <= min(0.05 * light, 25e-6) * (1 + 1e-9)
    assert function("net-assimilation")(0.0, 0.05, 25e-6, 1e-6) == -1e-6


def test_arrays_are_computed_element_by_element() -> None:
    rates = function("enzyme-rate")(1.0, numpy.array([1.0, 3.0]), 1.0)
    assert list(rates) == pytest.approx([0.5, 0.75])
    lives = function("weak-bond-lifetime")(1.0, numpy.array([0.0, GAS * 300]), 300.0)
    assert list(lives) == pytest.approx([1.0, exp(1)])


@pytest.mark.parametrize("charge", [0.03, 0.1])
def test_charged_chains_part_at_the_critical_point_of_the_lattice_model(charge: float) -> None:
    """Free energy of Overbeek and Voorn 1957, (φ/r) ln φ + (1 - φ) ln(1 - φ) - α (σφ)^1.5, α = 3.655 for water.

    Its second and third derivatives vanish together at the critical point; solved here, without the rule of thumb.
    """
    from scipy.optimize import brentq

    pull = 3.655 * charge**1.5

    def third(share: float) -> float:  # with 1/r taken from the second derivative
        inverse_length = share * (0.75 * pull * share**-0.5 - 1 / (1 - share))
        return -inverse_length / share**2 + 1 / (1 - share) ** 2 + 0.375 * pull * share**-1.5

    share = brentq(third, 1e-9, 0.05)
    length = 1 / (share * (0.75 * pull * share**-0.5 - 1 / (1 - share)))
    assert function("charged-chain-parting")(charge, length) == pytest.approx(1.0, rel=0.02)
