"""Adhesion and contact against papers, handbooks and libraries.

CHECKS: function, inputs in SI units (angles in radians), expected value, relative tolerance, source of the value.
Tolerance: 1e-6 against a library, 0.5 % against hand arithmetic, 5 % against a figure from memory.
"""

from __future__ import annotations

import inspect
from math import pi, radians, sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.model.load import load_principles
from analog.model.quantity import registry
from analog.scale.registry import function

WATER = 0.07274  # N/m at 20 degC
ARITHMETIC = "hand arithmetic from the formula, inputs shown"
STEEL = 109.890e9  # Pa: two steels of 200 GPa and Poisson number 0.3, 1/E* = 2 (1 - 0.09)/200e9

CHECKS = [
    # name, inputs, expected, tolerance, source
    ("bridge-force", (WATER, 0.0, 1e-6, 0.0, 10e-9), 0.9141e-6, 0.005, ARITHMETIC + ": 4 pi x 0.07274 x 1e-6"),
    (
        "bridge-force",
        (WATER, radians(60), 1e-6, 10e-9, 10e-9),
        0.22852e-6,
        0.005,
        ARITHMETIC + ": half, halved by the gap",
    ),
    ("bridge-slenderness", (10e-9, 1e-6), 0.01, 1e-9, ARITHMETIC),
    ("tabor-parameter", (20e-9, 0.05, 40e9, 0.2e-9), 0.1575, 0.005, ARITHMETIC),
    ("tabor-parameter", (1e-3, 0.045, 1.33e6, 0.3e-9), 3487.0, 0.005, ARITHMETIC),
    ("jkr-pull-off", (0.05, 1e-6), 0.23562e-6, 0.005, ARITHMETIC),
    ("jkr-contact-share", (0.045, 1e-3, 1.33e6), 78.2e-3, 0.005, ARITHMETIC + ": 78.2 um over 1 mm"),
    ("dmt-pull-off", (0.05, 1e-6), 0.31416e-6, 0.005, ARITHMETIC),
    ("van-der-waals-force", (1e-19, 1e-6, 0.3e-9), 0.18519e-6, 0.005, ARITHMETIC),
    ("van-der-waals-force", (1e-19, 0.1e-6, 0.4e-9), 10.417e-9, 0.005, ARITHMETIC),
    ("van-der-waals-force", (1e-19, 0.01, 0.2e-9), 4e-3, 0.05, "Israelachvili (2011), about 4 mN, from memory"),
    ("gap-share", (0.3e-9, 1e-6), 3e-4, 1e-9, ARITHMETIC),
    ("retardation-ratio", (5e-9, 1e-8), 0.5, 1e-9, ARITHMETIC),
    ("split-force", (1.0, 1000.0), 31.62, 0.005, ARITHMETIC + ": Arzt et al. (2003), square root"),
    ("split-force", (1.0, 1e4), 100.0, 1e-9, ARITHMETIC),
    ("split-strength-ratio", (0.05, 100e-9, 20e6), 0.0375, 0.005, ARITHMETIC + ": 0.075 / 2"),
    ("hertz-contact-radius", (100.0, 10e-3, STEEL), 0.18969e-3, 0.005, ARITHMETIC + ": steel on steel"),
    ("hertz-contact-radius", (10.0, 5e-3, STEEL), 69.88e-6, 0.005, ARITHMETIC + ": steel on steel"),
    ("hertz-contact-share", (100.0, 10e-3, STEEL), 0.018969, 0.005, ARITHMETIC),
    ("hertz-yield-ratio", (100.0, 10e-3, STEEL, 1.3270e9 / 1.6), 1.0, 0.005, ARITHMETIC + ": peak pressure 1.3270 GPa"),
    ("hertz-yield-ratio", (10.0, 5e-3, STEEL, 0.97775e9 / 1.6), 1.0, 0.005, ARITHMETIC + ": peak pressure 0.97775 GPa"),
    (
        "peel-force",
        (0.02, 10.0, radians(90), 1e12, 1e-3),
        0.2,
        0.005,
        "Rivlin (1944): F/b = W/(1 - cos) if unstretchable",
    ),
    ("peel-force", (0.02, 10.0, radians(180), 1e12, 1e-3), 0.1, 0.005, "Rivlin (1944), as before"),
    ("peel-force", (0.02, 10.0, 0.0, 1e6, 1e-3), 2.8284, 0.005, ARITHMETIC + ": 0.02 sqrt(2 x 1e6 x 1e-3 x 10)"),
    ("peel-strain", (0.05, 0.0, 2e9, 10e-9), 0.070711, 0.005, ARITHMETIC + ": sqrt(2 x 0.05 / 20)"),
    ("suction-force", (50e3, 1e-3), 50.0, 1e-9, ARITHMETIC),
    ("pressure-share", (50662.5, 101325.0), 0.5, 1e-9, ARITHMETIC),
    ("stefan-force", (1e-3, 1e-3, 1e-6, 1e-6), 4.7124e-3, 0.005, ARITHMETIC + ": 1.5 pi 1e-3 1e-12 1e-6 / 1e-18"),
    ("film-tension-ratio", (1e-3, 1e-6, 1e-3, 1e-6, 101325.0), 0.029608, 0.005, ARITHMETIC + ": 3000 / 101325"),
    ("film-slenderness", (1e-6, 1e-3), 1e-3, 1e-9, ARITHMETIC),
    ("squeeze-reynolds-number", (1000.0, 1e-3, 1e-6, 1e-3), 1e-3, 1e-9, ARITHMETIC),
    ("hook-release-force", (1e8, 0.25e-3, 0.2e-3), 0.76699, 0.005, ARITHMETIC + ": pi 1e8 1.5625e-11 / 6.4e-3"),
    ("hook-fit", (0.3e-3, 60e-6), 5.0, 1e-9, ARITHMETIC),
    ("tip-fit", (48e-6, 16e-6), 3.0, 1e-9, ARITHMETIC),
    ("friction-force", (0.3, 20.0), 6.0, 1e-9, ARITHMETIC),
    ("adhesion-share", (2.0, 8.0), 0.25, 1e-9, ARITHMETIC),
    ("film-shear-stress", (1e-3, 0.1, 4e-6), 25.0, 1e-9, ARITHMETIC),
    ("lambda-ratio", (4e-6, 0.5e-6), 8.0, 1e-9, ARITHMETIC),
    ("film-reynolds-number", (1000.0, 0.1, 4e-6, 1e-3), 0.4, 1e-9, ARITHMETIC),
    (
        "bond-force-ratio",
        (41.16e-12, 0.1e-9, 298.15),
        1.0,
        0.005,
        "textbook: k T at 25 degC is 4.116 pN nm, from memory",
    ),
    ("bond-lifetime", (1.0, 41.164e-12, 0.1e-9, 298.15), 0.36788, 0.005, ARITHMETIC + ": one thermal energy, 1/e"),
    ("bond-load-share", (0.5e6, 1e16, 1e-10), 0.5, 1e-9, ARITHMETIC),
    (
        "coulomb-force",
        (1.0, 1.0, 1.0),
        8.9875517923e9,
        1e-6,
        "CODATA 2018: Coulomb constant 8.987 551 792 3 e9 N m²/C²",
    ),
    (
        "coulomb-force",
        (1.602176634e-19, -1.602176634e-19, 0.529177e-10),
        -8.2387e-8,
        1e-3,
        "CODATA: atomic unit of force",
    ),
    ("breakdown-ratio", (1e-12, 1.0, 1e-3, 3e6), 2.996e-3, 0.005, ARITHMETIC + ": 8987.6 / 3e6"),
    ("screening-ratio", (4e-9, 0.4e-9), 10.0, 1e-9, ARITHMETIC),
    ("two-ball-area", (8 * pi / 3,), 8 * pi, 1e-9, "two balls of radius 1: volume 8π/3, surface 8π"),
    ("two-ball-area", (90e-18,), 122e-12, 0.005, "human red cell: 122 um² by hand, 2 x 4π x (2.206 um)²"),
    ("wound-line-hold", (1.0, 0.3, 2 * pi), 6.59, 0.005, ARITHMETIC + ": exp(1.88496), rope once round a bollard"),
    ("wound-line-hold", (1.0, 0.3, 6 * pi), 286.0, 0.005, ARITHMETIC + ": exp(5.65487), three turns"),
    ("wound-line-hold", (7.0, 0.0, 50.0), 7.0, 1e-9, "no friction, no gain"),
    (
        "centripetal-acceleration",
        (100 * pi, 0.1),
        1.118e-5 * 10 * 3000**2 * 9.80665,
        0.001,
        "centrifuge manuals, from memory: 1.118e-5 x cm x (turns a minute)² times gravity",
    ),
    ("centripetal-acceleration", (2.0, 3.0), 12.0, 1e-9, ARITHMETIC),
    ("flinging-ratio", (14e-6, 44.0, 0.15, 0.2e-3), 20.328, 0.005, ARITHMETIC + ": drop of 3 mm on a shaking dog"),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "tolerance", "source"), CHECKS)
def test_function_gives_the_published_or_worked_value(
    name: str, inputs: tuple[float, ...], expected: float, tolerance: float, source: str
) -> None:
    assert function(name)(*inputs) == pytest.approx(expected, rel=tolerance), source


def _principles() -> dict:
    import analog.scale

    loaded = load_principles(Path(analog.scale.__file__).parent / "principles")
    return {key: principle for key, principle in loaded.items() if principle.field == "adhesion and contact"}


def test_every_function_of_a_record_has_a_check_value_and_takes_its_inputs_in_their_order() -> None:
    checked = {name for name, *_ in CHECKS}
    for principle in _principles().values():
        calls = [(group.function, group.inputs) for group in principle.groups]
        if principle.equation and principle.equation.function:
            calls.append((principle.equation.function, principle.equation.inputs))
        for name, inputs in calls:
            if function(name).__module__ != "analog.scale.functions.adhesion":
                continue
            assert name in checked, f"{principle.id}: {name} has no check value"
            parameters = list(inspect.signature(function(name)).parameters)
            assert len(inputs) == len(parameters), f"{principle.id}: {name}"
            known = [key.replace("-", "_") for key in inputs]
            shared = [key for key in parameters if key in known]
            assert shared == [key for key in known if key in parameters], f"{principle.id}: {name} mixes up its inputs"


# What nature does, with figures from the named papers (from memory), must lie inside the bounds or at their edge.
NATURE = [
    ("jkr-adhesion", "tabor-parameter", (50e-6, 0.05, 1e6, 3e-10), "soft insect pad"),
    ("jkr-adhesion", "rest-contact-share", (0.05, 50e-6, 1e6), "soft insect pad"),
    ("jkr-adhesion", "tabor-parameter", (100e-9, 0.05, 2e9, 3e-10), "gecko spatula tip, between both limits"),
    ("dmt-adhesion", "tabor-parameter", (100e-9, 0.05, 2e9, 3e-10), "gecko spatula tip, between both limits"),
    ("dmt-adhesion", "tabor-parameter", (1e-6, 0.05, 70e9, 3e-10), "mineral dust of a micrometre"),
    ("van-der-waals-attraction", "retardation-ratio", (0.3e-9, 1e-8), "gecko spatula in contact"),
    ("contact-splitting", "strength-ratio", (0.05, 100e-9, 20e6), "gecko spatula, Arzt et al. 2003"),
    ("peeling", "peel-strain", (0.05, radians(30), 2e9, 10e-9), "gecko spatula pulled at 30 degrees"),
    ("suction", "pressure-share", (1.0e5, 101325.0), "octopus sucker, Kier & Smith 2002"),
    ("viscous-adhesion", "film-slenderness", (0.5e-6, 1e-3), "tree frog toe pad"),
    ("mechanical-interlock", "hook-fit", (0.3e-3, 60e-6), "burdock hook and mammal hair"),
    ("mechanical-interlock", "tip-fit", (52e-6, 20e-6), "beetle claw tip on grains of P280 paper, Dai et al. 2002"),
    ("thin-film-lubrication", "lambda-ratio", (4e-6, 0.5e-6), "tear film over the cornea"),
    ("capillary-adhesion", "bond-number", (997.0, 9.80665, 0.5e-3, WATER), "damp sand grain of a millimetre"),
    ("chemical-bonding-adhesion", "bond-force-ratio", (8e-10, 0.1e-9, 298.0), "catechol on titania, Lee et al. 2006"),
    (
        "electrostatic-adhesion",
        "breakdown-ratio",
        (3e-11, 1.0, 5e-3, 3e6),
        "flying bee, about 30 pC, Clarke et al. 2013",
    ),
    ("hertz-contact", "contact-share", (1.0, 8e-3, 3e5), "finger tip pressed with a newton"),
]


@pytest.mark.parametrize(("principle_id", "group_id", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle_id: str, group_id: str, inputs: tuple, case: str) -> None:
    principle = _principles()[principle_id]
    group = next(group for group in principle.groups if group.id == group_id)
    value = function(group.function)(*inputs)
    bounds = [bound for bound in principle.regime if bound.group == group_id]
    assert bounds
    for bound in bounds:
        assert bound.low is None or value >= bound.low / bound.edge, f"{case}: {value}"
        assert bound.high is None or value <= bound.high * bound.edge, f"{case}: {value}"


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("jkr-pull-off", (-0.05, 1e-6), "work of adhesion above zero, found -0.05"),
        ("van-der-waals-force", (1e-19, 1e-6, 0.0), "gap above zero, found 0"),
        ("bridge-force", (WATER, radians(100), 1e-6, 0.0, 1e-8), "below 90 degrees"),
        ("peel-force", (0.02, 10.0, 4.0, 1e6, 1e-3), "from 0 to 180 degrees"),
        ("split-force", (1.0, 0.5), "at least 1, found 0.5"),
        ("suction-force", (-1.0, 1e-3), "zero or more, found -1"),
        ("coulomb-force", (1e-9, 1e-9, 1.0, 0.5), "at least 1, found 0.5"),
        ("bond-lifetime", (1.0, 1e-11, 1e-10, -5.0), "temperature above zero"),
        ("hertz-contact-radius", (float("nan"), 1e-3, 1e9), "zero or more, found nan"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


def test_soft_and_stiff_limit_differ_by_a_quarter() -> None:
    """JKR to DMT is 3/4 exactly (Johnson & Greenwood 1997)."""
    assert function("jkr-pull-off")(0.07, 3e-6) / function("dmt-pull-off")(0.07, 3e-6) == pytest.approx(0.75)


@settings(max_examples=25, deadline=None)
@given(angle=st.floats(0, pi), work=st.floats(1e-3, 1e3), modulus=st.floats(1e5, 1e11), thickness=st.floats(1e-9, 1e-3))
def test_peel_force_solves_the_energy_balance(angle: float, work: float, modulus: float, thickness: float) -> None:
    """The balance of Kendall (1975), solved by scipy's bracketing root finder."""
    from scipy.optimize import brentq

    stiffness = 2 * thickness * modulus

    def balance(pull: float) -> float:
        return pull**2 / stiffness + pull * (1 - np.cos(angle)) - work

    root = brentq(balance, 0, 2 * sqrt(work * stiffness), xtol=1e-300, rtol=1e-12)
    assert function("peel-force")(1.0, work, angle, modulus, thickness) == pytest.approx(root, rel=1e-6)


def test_peeling_is_easiest_straight_back_and_hardest_along() -> None:
    angles = np.radians(np.arange(0, 181, 10))
    forces = function("peel-force")(0.02, 10.0, angles, 1e9, 5e-5)
    assert all(np.diff(forces) < 0)


def test_stefan_force_is_the_integral_of_the_film_pressure() -> None:
    """p(r) = 3 µ V (a² - r²)/h³, integrated over the disc by scipy; its middle is the film tension ratio."""
    from scipy.integrate import quad

    viscosity, radius, speed, film = 0.1, 2e-3, 1e-4, 20e-6
    pressure = lambda r: 3 * viscosity * speed * (radius**2 - r**2) / film**3  # noqa: E731
    total, _ = quad(lambda r: pressure(r) * 2 * pi * r, 0, radius)
    assert function("stefan-force")(viscosity, radius, speed, film) == pytest.approx(total, rel=1e-6)
    ratio = function("film-tension-ratio")(viscosity, speed, radius, film, 101325.0)
    assert ratio == pytest.approx(pressure(0) / 101325.0, rel=1e-9)


def test_attraction_is_the_near_limit_of_the_full_sum_over_a_ball() -> None:
    """Hamaker (1937), ball and half space: E = -A/6 (R/D + R/(D+2R) + ln(D/(D+2R))); F = -dE/dD → A R/(6 D²)."""
    hamaker, radius = 1e-19, 1e-6

    def full(gap: float) -> float:
        far = gap + 2 * radius
        return hamaker / 6 * (radius / gap**2 + radius / far**2 - 1 / gap + 1 / far)

    near = function("van-der-waals-force")
    assert near(hamaker, radius, 0.3e-9) == pytest.approx(full(0.3e-9), rel=1e-3)
    assert near(hamaker, radius, 0.1 * radius) == pytest.approx(full(0.1 * radius), rel=0.2)  # the bound in the record


def test_contact_at_rest_lies_on_the_curve_of_johnson_kendall_and_roberts() -> None:
    """a³ = 3R/(4E*) (F + 3πWR + √(6πWRF + (3πWR)²)) at F = 0 (Johnson, Kendall & Roberts 1971)."""
    work, radius, modulus = 0.05, 1e-3, 1e6
    pull = 3 * pi * work * radius
    expected = (3 * radius / (4 * modulus) * (pull + sqrt(pull**2))) ** (1 / 3)
    assert function("jkr-contact-share")(work, radius, modulus) * radius == pytest.approx(expected)


def test_burdock_hook_is_in_the_range_measured() -> None:
    """7.07 to 820.94 mN for single hooks of five plants with burdock among them (doi 10.1080/11263504.2018.1559251).

    Plant fibre bears about 1e8 Pa; size of the burdock hook from memory.
    """
    assert 7.07e-3 <= function("hook-release-force")(1e8, 0.25e-3, 0.2e-3) <= 820.94e-3


def test_thin_hook_is_in_the_range_measured() -> None:
    """3.36 to 143.85 mN for single hooks of four plants (Gorb & Gorb 2002); a thin hook of 0.1 mm, size from memory."""
    assert 3.36e-3 <= function("hook-release-force")(1e8, 0.1e-3, 0.1e-3) <= 143.85e-3


def test_needed_contacts_grow_with_mass_to_two_thirds() -> None:
    """Force ∝ √n per area a², weight ∝ a³: n/a² ∝ mass^(2/3); body mass 1e4 times → density 464 times (Arzt 2003)."""
    length = 1e4 ** (1 / 3)
    # one contact of body size holds ∝ length, so the count must make √n times length equal the weight ∝ length³
    count = (length**3 / length) ** 2
    assert function("split-force")(length, count) == pytest.approx(1e4)
    assert count / length**2 == pytest.approx(464, rel=0.005)


def test_results_carry_the_unit_of_their_symbol() -> None:
    """Called with pint quantities the arithmetic must come out in the unit that the record states."""
    unit = registry()
    given_in = {
        ("jkr-pull-off", ("50 mJ/m**2", "1 um")): ("N", 0.23562e-6),
        ("van-der-waals-force", ("1e-13 erg", "1 um", "0.3 nm")): ("N", 1.8519e-8),
        ("suction-force", ("0.5 atm", "10 cm**2")): ("N", 50.6625),
        ("stefan-force", ("1 cP", "1 mm", "1 um/s", "1 um")): ("N", 4.7124e-3),
        ("film-shear-stress", ("1 cP", "10 cm/s", "4 um")): ("Pa", 25.0),
        ("hook-release-force", ("100 MPa", "0.25 mm", "0.2 mm")): ("N", 0.76699),
        ("bond-load-share", ("0.5 MPa", "0.01/nm**2", "100 pN")): ("dimensionless", 0.5),
    }
    for (name, texts), (expected_unit, expected) in given_in.items():
        result = function(name)(*(unit.Quantity(text) for text in texts))
        assert result.to(expected_unit).magnitude == pytest.approx(expected, rel=0.005), name
