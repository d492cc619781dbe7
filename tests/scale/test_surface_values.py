"""Wetting and capillarity against handbooks, papers and libraries.

CHECKS: function, inputs in SI units (angles in radians), expected value, relative tolerance, source of the value.
Tolerance: 1e-6 against a library, 0.5 % against hand arithmetic, 5 % against a figure from memory.
"""

from __future__ import annotations

import inspect
from math import cos, log, pi, radians, sqrt
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.model.load import load_principles
from analog.model.quantity import registry
from analog.scale.registry import function

WATER = 0.07274  # N/m at 20 degC; the IAPWS release on surface tension gives 0.0727361 at 293.15 K
GRAVITY = 9.80665
ARITHMETIC = "hand arithmetic from the formula, inputs shown"
FLUIDS = "fluids 1.3.1"

CHECKS = [
    # name, inputs, expected, tolerance, source
    ("bond-number", (1000.0 - 1.2, GRAVITY, 2.0, 0.0589), 665187.2339558573, 1e-6, f"{FLUIDS}, Bond"),
    ("bond-number", (998.2 - 1.2, GRAVITY, 0.00273, WATER), 1.0017695606, 1e-6, f"{FLUIDS}, Bond"),
    ("weber-number", (900.0, 0.18, 0.001, 0.01), 2.916, 1e-6, f"{FLUIDS}, Weber"),
    ("weber-number", (998.2, 3.0, 0.002, WATER), 247, 0.005, ARITHMETIC + ": 998.2 x 9 x 0.002 / 0.07274"),
    ("capillary-number", (0.01, 1.2, 0.1), 0.12, 1e-6, f"{FLUIDS}, Capillary"),
    ("capillary-number", (1.002e-3, 1.0, WATER), 0.013775, 0.0005, f"{FLUIDS}, Capillary, water at 1 m/s"),
    ("young-contact-angle", (0.030, 0.030 + 0.02488, WATER), radians(110), 0.005, ARITHMETIC + ": -24.88 / 72.74 mN/m"),
    ("young-contact-angle", (0.04, 0.04, WATER), pi / 2, 1e-9, "Young's law: equal solid energies give 90 degrees"),
    ("energy-balance", (0.030, 0.05488, WATER), 0.342, 0.005, ARITHMETIC + ": 24.88 / 72.74"),
    ("line-tension-number", (1e-11, WATER, 1e-6), 1.375e-4, 0.005, ARITHMETIC + ": 1e-11 / (0.07274 x 1e-6)"),
    ("texture-fineness", (2e-3, 16e-6), 125.0, 1e-9, ARITHMETIC),
    ("filled-texture-tendency", (radians(110), 2.0), 0.68404, 0.005, ARITHMETIC + ": 2 x 0.34202"),
    ("wenzel-contact-angle", (radians(110), 2.0), radians(133.160), 0.005, ARITHMETIC),
    ("wenzel-contact-angle", (radians(70), 2.0), radians(46.840), 0.005, ARITHMETIC),
    ("cassie-contact-angle", (radians(110), 0.1), radians(159.100), 0.005, ARITHMETIC),
    ("cassie-contact-angle", (radians(104), 0.05), radians(164.174), 0.005, ARITHMETIC),
    ("cassie-contact-angle", (radians(105), 0.02), radians(170.122), 0.005, ARITHMETIC),
    ("trapped-air-stability", (radians(118.274), 0.1, 2.0), 1.0, 0.005, ARITHMETIC + ": cos = (0.1 - 1)/(2 - 0.1)"),
    ("breakthrough-pressure", (0.0728, radians(110), 1e-6, 0.0), 49.8e3, 0.005, ARITHMETIC),
    (
        "breakthrough-pressure",
        (0.025, radians(60), 1e-6, radians(60)),
        25e3,
        0.005,
        ARITHMETIC + ": 2 x 0.025 x 0.5 / R",
    ),
    (
        "breakthrough-pressure",
        (0.025, radians(60), 1e-6, 0.0),
        -25e3,
        0.005,
        ARITHMETIC + ": oil enters a straight gap",
    ),
    ("breakthrough-margin", (0.0728, radians(110), 1e-6, 0.0, 24.9e3), 2.0, 0.005, ARITHMETIC),
    ("laplace-pressure", (WATER, 0.5e-3, 0.5e-3), 290.96, 0.005, ARITHMETIC),
    ("laplace-pressure", (WATER, 1e-6, 1e-6), 145480.0, 1e-6, "pint 0.25.3: 2 x 72.74 mN/m / 1 um in Pa"),
    ("laplace-pressure", (WATER, 20e-9, 20e-9), 7.28e6, 0.005, ARITHMETIC),
    ("laplace-pressure", (WATER, 1e-6, float("inf")), 72740.0, 1e-9, ARITHMETIC + ": a cylinder has half of it"),
    ("continuum-ratio", (53e-9, 3e-10), 176.7, 0.005, ARITHMETIC),
    ("capillary-length", (WATER, 998.2, GRAVITY), 2.7259e-3, 0.005, ARITHMETIC + "; handbooks print 2.7 mm"),
    ("capillary-length", (0.485, 13534.0, GRAVITY), 1.912e-3, 0.005, ARITHMETIC + ": mercury"),
    ("capillary-length", (0.485, 13534.0, GRAVITY), 1.9e-3, 0.05, "handbook figure for mercury, from memory"),
    ("capillary-rise", (WATER, 0.0, 998.2, GRAVITY, 0.5e-3), 29.72e-3, 0.005, ARITHMETIC),
    ("capillary-rise", (WATER, 0.0, 998.2, GRAVITY, 20e-6), 0.743, 0.005, ARITHMETIC),
    ("capillary-rise", (WATER, 0.0, 998.2, GRAVITY, 10e-6), 1.486, 0.005, ARITHMETIC),
    ("capillary-rise", (0.485, radians(140), 13534.0, GRAVITY, 0.5e-3), -11.2e-3, 0.005, ARITHMETIC + ": mercury"),
    ("wicking-distance", (WATER, 10e-6, 0.0, 1e-3, 1.0), 0.01907, 0.005, ARITHMETIC + ": sqrt(7.274e-7 / 2e-3)"),
    ("wicking-distance", (WATER, 10e-6, radians(60), 1e-3, 4.0), 0.02697, 0.005, ARITHMETIC + ": sqrt(2) of it"),
    ("viscous-time-ratio", (1.0, 1e-3, 1000.0, 50e-6), 400.0, 1e-9, ARITHMETIC),
    (
        "roll-off-angle",
        (WATER, radians(90), radians(110), 3e-3, 20e-9, 998.2, GRAVITY, 1.0),
        radians(22.43),
        0.005,
        ARITHMETIC,
    ),
    (
        "roll-off-angle",
        (WATER, radians(155), radians(160), 1e-3, 10e-9, 998.2, GRAVITY, 1.0),
        radians(1.42),
        0.005,
        ARITHMETIC,
    ),
    ("drop-retention", (WATER, radians(70), radians(110), 3e-3, 10e-9, 998.2, GRAVITY, 1.0), 1.53, 0.005, ARITHMETIC),
    (
        "roll-off-margin",
        (WATER, radians(90), radians(110), 3e-3, 20e-9, 998.2, GRAVITY, 1.0, radians(22.43)),
        1.0,
        0.005,
        ARITHMETIC,
    ),
    ("spread-diameter", (998.2, 3.0, 0.002, WATER), 7.93e-3, 0.005, ARITHMETIC + ": 2 mm x 247^(1/4)"),
    ("impact-number", (998.2, 3.0, 0.002, WATER, 1.002e-3), 0.2353, 0.005, ARITHMETIC + ": 247.0 / 5977^0.8"),
    ("splash-number", (998.2, 3.0, 0.002, WATER, 1.002e-3), 138.2, 0.005, ARITHMETIC + ": sqrt(247.0) x 5977^(1/4)"),
    (
        "curvature-gradient-pressure",
        (WATER, 5e-6, 15e-6, 40e-6),
        587.8,
        0.005,
        ARITHMETIC + ": 0.14548 (1/45 - 1/55) 1e6",
    ),
    (
        "gradient-drive",
        (WATER, 5e-6, 15e-6, 40e-6, radians(60), radians(90)),
        0.6465,
        0.005,
        ARITHMETIC + ": 587.8 x 4e-5 / 0.03637",
    ),
    ("film-slip-speed", (1e-4, 1e-6, 1e-3, 1e-7), 1.0, 1e-9, ARITHMETIC),
    ("film-coverage", (20e-6, 10e-6), 2.0, 1e-9, ARITHMETIC),
    ("film-drainage", (1000.0, 10.0, 1.0, 2e-6, 0.02, 0.0), 0.5, 1e-9, ARITHMETIC),
    ("marangoni-speed", (0.01, 0.01, 5e-6, 1e-3), 2.5e-3, 1e-9, ARITHMETIC),
    ("film-aspect", (5e-6, 1e-2), 5e-4, 1e-9, ARITHMETIC),
    ("film-inertia", (1000.0, 0.01, 5e-6, 1e-3, 0.01), 1.25e-5, 1e-9, ARITHMETIC + ": 1e3 x 1e-2 x 1.25e-16 / 1e-10"),
    ("jumping-speed", (WATER, 998.2, 20e-6), 0.3818, 0.005, ARITHMETIC + ": 0.2 sqrt(0.07274 / 0.019964)"),
    ("drop-ohnesorge-number", (1.002e-3, 998.2, WATER, 1e-6), 0.1176, 0.005, ARITHMETIC),
    ("drawn-film-thickness", (1.002e-3, 0.01, WATER, 998.2, GRAVITY), 6.88e-6, 0.005, ARITHMETIC + ": Ca = 1.3775e-4"),
    ("meniscus-film-share", (1.3e-3, 0.1, 0.045), 0.02716, 0.005, ARITHMETIC + ": 1.338 x (2.889e-3)^(2/3)"),
    ("contact-line-force", (0.0728, 0.1), 7.28e-3, 1e-9, ARITHMETIC + ": both sides of 5 cm of leg"),
    ("contact-line-force", (WATER, 2.0), 0.14548, 1e-9, ARITHMETIC + ": for each metre of thin leg"),
    ("emulsifier-needed", (2e-6, 1e-4, 5e-7), 1.2e-3, 1e-9, ARITHMETIC + ": 2 mg/m² on 600 m² of a decilitre of oil"),
    ("emulsifier-needed", (1.0, 4.0 * pi / 3.0, 1.0), 4 * pi, 1e-9, "surface of one ball of radius 1"),
    ("largest-stable-drop", (0.072, 1000.0, 1.0), 2.3701e-3, 0.005, ARITHMETIC + ": 0.725 x (7.2e-5)^0.6"),
    ("largest-stable-drop", (0.032, 1000.0, 32.0), 0.36246e-3, 0.005, ARITHMETIC + ": 0.725 x (3.2e-5)^0.6 / 4"),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "tolerance", "source"), CHECKS)
def test_function_gives_the_published_or_worked_value(
    name: str, inputs: tuple[float, ...], expected: float, tolerance: float, source: str
) -> None:
    assert function(name)(*inputs) == pytest.approx(expected, rel=tolerance), source


def _principles() -> dict:
    import analog.scale

    loaded = load_principles(Path(analog.scale.__file__).parent / "principles")
    return {key: principle for key, principle in loaded.items() if principle.field == "surface physics"}


def test_every_function_of_a_record_has_a_check_value_and_takes_its_inputs_in_their_order() -> None:
    checked = {name for name, *_ in CHECKS}
    for principle in _principles().values():
        calls = [(group.function, group.inputs) for group in principle.groups]
        if principle.equation and principle.equation.function:
            calls.append((principle.equation.function, principle.equation.inputs))
        for name, inputs in calls:
            if function(name).__module__ != "analog.scale.functions.surface":
                continue
            assert name in checked, f"{principle.id}: {name} has no check value"
            parameters = list(inspect.signature(function(name)).parameters)
            assert len(inputs) == len(parameters), f"{principle.id}: {name}"
            known = [key.replace("-", "_") for key in inputs]
            shared = [key for key in parameters if key in known]
            assert shared == [key for key in known if key in parameters], f"{principle.id}: {name} mixes up its inputs"


# What nature does, with figures from the named papers (from memory), must lie inside the bounds or at their edge.
NATURE = [
    (
        "wenzel-wetting",
        "texture-fineness",
        (2e-3, 16e-6),
        "rose petal: 2 mm drop, papillae 16 µm apart, Feng et al. 2008",
    ),
    (
        "cassie-baxter-wetting",
        "texture-fineness",
        (1e-3, 15e-6),
        "lotus: papillae 10-20 µm apart, Neinhuis & Barthlott 1997",
    ),
    ("cassie-baxter-wetting", "trapped-air-stability", (radians(110), 0.1, 3.0), "lotus wax 110°, two-level texture"),
    (
        "cassie-baxter-wetting",
        "breakthrough-margin",
        (WATER, radians(110), 0.5e-6, 0.0, 12.5e3),
        "lotus wax, rain at 5 m/s",
    ),
    (
        "breakthrough-pressure",
        "bond-number",
        (997.0, GRAVITY, 0.5e-3, WATER),
        "Salvinia hairs 1 mm apart, Barthlott 2010",
    ),
    ("laplace-pressure", "continuum-ratio", (20e-9, 3e-10), "pit membrane pores 5-100 nm, Tyree & Zimmermann"),
    ("capillary-rise", "bond-number", (998.2, GRAVITY, 150e-6, WATER), "widest vessels of wood, Tyree & Zimmermann"),
    ("wicking-flow", "viscous-time-ratio", (1.0, 1e-3, 998.2, 75e-6), "grooves of the thorny devil, Comanns 2011"),
    ("drop-impact", "impact-number", (998.2, 6.5, 2e-3, WATER, 1e-3), "2 mm raindrop at 6.5 m/s, Gunn & Kinzer 1949"),
    (
        "laplace-gradient-transport",
        "gradient-drive",
        (WATER, 5e-6, 15e-6, 40e-6, radians(60), radians(90)),
        "Opuntia spine, Ju 2012",
    ),
    ("coalescence-jumping", "ohnesorge-number", (1e-3, 998.2, WATER, 5e-6), "drop on a basidiospore about 10 µm wide"),
    ("film-deposition", "capillary-number", (1.3e-3, 0.15, 0.045), "eyelid at 0.15 m/s over tears"),
    ("marangoni-flow", "film-aspect", (4e-6, 1e-2), "tear film"),
    ("liquid-infused-slip", "film-drainage", (998.2, GRAVITY, 0.03, 50e-6, WATER, 0.0), "pitcher rim, 3 cm high"),
]


@pytest.mark.parametrize(("principle_id", "group_id", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle_id: str, group_id: str, inputs: tuple, case: str) -> None:
    principle = _principles()[principle_id]
    group = next(group for group in principle.groups if group.id == group_id)
    value = function(group.function)(*inputs)
    for bound in principle.regime:
        if bound.group == group_id:
            assert bound.low is None or value >= bound.low / bound.edge, f"{case}: {value}"
            assert bound.high is None or value <= bound.high * bound.edge, f"{case}: {value}"


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("young-contact-angle", (0.2, 0.01, WATER), "no contact angle balances"),
        ("wenzel-contact-angle", (radians(150), 3.0), "keeps air below"),
        ("wenzel-contact-angle", (radians(110), 0.9), "at least 1"),
        ("cassie-contact-angle", (radians(110), 1.2), "between 0 and 1"),
        ("cassie-contact-angle", (radians(200), 0.1), "from 0 to 180 degrees"),
        ("capillary-rise", (WATER, 0.0, 998.2, GRAVITY, -1e-3), "tube radius above zero, found -0.001"),
        ("capillary-length", (float("nan"), 998.2, GRAVITY), "above zero, found nan"),
        ("wicking-distance", (WATER, 1e-5, radians(95), 1e-3, 1.0), "not drawn in"),
        ("roll-off-angle", (WATER, radians(70), radians(110), 3e-3, 10e-9, 998.2, GRAVITY, 1.0), "never rolls off"),
        ("drop-retention", (WATER, radians(110), radians(70), 3e-3, 10e-9, 998.2, GRAVITY, 1.0), "no larger than"),
        ("curvature-gradient-pressure", (WATER, 2e-5, 1e-5, 1e-5), "no narrower"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


@settings(max_examples=25, deadline=None)
@given(
    density=st.floats(1, 2e4),
    speed=st.floats(1e-6, 100),
    length=st.floats(1e-7, 1),
    viscosity=st.floats(1e-5, 10),
    tension=st.floats(1e-3, 1),
)
def test_groups_agree_with_the_library_of_dimensionless_numbers(
    density: float, speed: float, length: float, viscosity: float, tension: float
) -> None:
    import fluids

    weber = function("weber-number")(density, speed, length, tension)
    assert weber == pytest.approx(fluids.Weber(V=speed, L=length, rho=density, sigma=tension), rel=1e-6)
    bond = function("bond-number")(density, GRAVITY, length, tension)
    assert bond == pytest.approx(fluids.Bond(rhol=density, rhog=0.0, sigma=tension, L=length), rel=1e-6)
    capillary = function("capillary-number")(viscosity, speed, tension)
    assert capillary == pytest.approx(fluids.Capillary(V=speed, mu=viscosity, sigma=tension), rel=1e-6)
    ohnesorge = function("drop-ohnesorge-number")(viscosity, density, tension, length)
    assert ohnesorge == pytest.approx(fluids.Ohnesorge(L=length, rho=density, mu=viscosity, sigma=tension), rel=1e-6)
    reynolds = fluids.Reynolds(V=speed, D=length, rho=density, mu=viscosity)
    splash = function("splash-number")(density, speed, length, tension, viscosity)
    # the form of the paper: K = Oh Re^(5/4)
    assert splash == pytest.approx(fluids.Ohnesorge(length, density, viscosity, tension) * reynolds**1.25, rel=1e-6)
    impact = function("impact-number")(density, speed, length, tension, viscosity)
    assert impact == pytest.approx(weber / reynolds**0.8, rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(angle=st.floats(1, 179), fraction=st.floats(1e-6, 1))
def test_cassie_lies_between_the_bare_angle_and_a_ball(angle: float, fraction: float) -> None:
    apparent = function("cassie-contact-angle")(radians(angle), fraction)
    assert radians(angle) - 1e-9 <= apparent <= pi
    assert function("cassie-contact-angle")(radians(angle), 1.0) == pytest.approx(radians(angle))  # all solid: Young
    # f -> 0: the drop becomes a ball; 180° less a correction of sqrt(2 f (1 + cos θ))
    assert function("cassie-contact-angle")(radians(angle), 1e-10) == pytest.approx(pi, abs=1e-4)


@settings(max_examples=25, deadline=None)
@given(angle=st.floats(1, 179))
def test_wenzel_without_roughness_is_the_bare_angle(angle: float) -> None:
    assert function("wenzel-contact-angle")(radians(angle), 1.0) == pytest.approx(radians(angle))


@settings(max_examples=25, deadline=None)
@given(angle=st.floats(91, 179), fraction=st.floats(0.01, 0.9), roughness=st.floats(1.0, 5.0))
def test_at_the_critical_angle_filled_and_air_state_show_the_same_angle(
    angle: float, fraction: float, roughness: float
) -> None:
    """The energy of a state falls with the cosine of its apparent angle: the smaller angle is the stable one."""
    stability = function("trapped-air-stability")(radians(angle), fraction, roughness)
    filled = roughness * cos(radians(angle))  # may pass -1 where no drop stands on the filled texture
    air = fraction * (cos(radians(angle)) + 1) - 1
    if abs(stability - 1) > 1e-9:
        assert (stability > 1) == (filled < air)


def test_wicking_distance_solves_its_rate_equation() -> None:
    """dL/dt = γ r cos θ / (4 µ L), integrated by scipy from a short start."""
    from scipy.integrate import solve_ivp

    tension, radius, viscosity, start = WATER, 10e-6, 1e-3, 1e-6
    rate = tension * radius * cos(radians(30)) / (4 * viscosity)
    solution = solve_ivp(lambda _, length: rate / length, (0, 10), [start], rtol=1e-9, atol=1e-12, method="LSODA")
    expected = function("wicking-distance")(tension, radius, radians(30), viscosity, 10.0)
    assert solution.y[0, -1] == pytest.approx(sqrt(expected**2 + start**2), rel=1e-5)


def test_level_law_of_wicking_is_within_an_eighth_below_a_third_of_the_final_height() -> None:
    """Climbing against weight: t ∝ -x - ln(1 - x), x = height over final height; without weight t ∝ x²/2."""
    climbed = 0.3
    level = sqrt(2 * (-climbed - log(1 - climbed)))
    assert level / climbed - 1 < 1 / 8


def test_landau_levich_factor_follows_from_the_film_equation() -> None:
    """The film equation, read from the flat film to the meniscus, is d³H/dx³ = (H - 1)/H³ (Landau & Levich 1942).

    Near the flat film H - 1 grows as e^x; the curvature reached at the end, times 3^(2/3), is the factor.
    """
    from scipy.integrate import solve_ivp

    from analog.scale.functions.surface import LANDAU_LEVICH_MENISCUS, LANDAU_LEVICH_PLATE

    start = 1e-6
    solution = solve_ivp(
        lambda _, y: [y[1], y[2], (y[0] - 1) / y[0] ** 3],
        (0, 400),
        [1 + start, start, start],
        rtol=1e-10,
        atol=1e-12,
    )
    factor = solution.y[2, -1] * 3 ** (2 / 3)
    assert factor == pytest.approx(LANDAU_LEVICH_MENISCUS, rel=2e-3)
    assert factor / sqrt(2) == pytest.approx(LANDAU_LEVICH_PLATE, rel=2e-3)


def test_jumping_drop_keeps_less_than_the_freed_surface_energy() -> None:
    """Two drops of radius R free 4πγR²(2 - 2^(2/3)); all of it would give sqrt(3(2 - 2^(2/3))) = 1.11 √(γ/(ρR))."""
    unit = sqrt(WATER / (998.2 * 20e-6))
    share = (function("jumping-speed")(WATER, 998.2, 20e-6) / unit) ** 2 / (3 * (2 - 2 ** (2 / 3)))
    assert 0.02 < share < 0.06  # a few percent, as reported by Enright et al. (2014)


def test_results_carry_the_unit_of_their_symbol() -> None:
    """Called with pint quantities the arithmetic must come out in the unit that the record states."""
    unit = registry()
    given_in = {
        ("capillary-length", ("72.74 mN/m", "0.9982 g/cm**3", "9.80665 m/s**2")): ("m", 2.7259e-3),
        ("laplace-pressure", ("72.74 dyn/cm", "0.5 mm", "0.5 mm")): ("Pa", 290.96),
        ("marangoni-speed", ("10 mN/m", "1 cm", "5 um", "1 mPa*s")): ("m/s", 2.5e-3),
        ("film-slip-speed", ("0.1 mN", "1 um", "1 cP", "0.1 mm**2")): ("m/s", 1.0),
        ("jumping-speed", ("72.74 mN/m", "998.2 kg/m**3", "20 um")): ("m/s", 0.3818),
        ("weber-number", ("900 kg/m**3", "18 cm/s", "1 mm", "10 mN/m")): ("dimensionless", 2.916),
        ("bond-number", ("0.997 g/cm**3", "980.665 cm/s**2", "2.73 mm", "72.74 mN/m")): ("dimensionless", 1.00177),
    }
    for (name, texts), (expected_unit, expected) in given_in.items():
        result = function(name)(*(unit.Quantity(text) for text in texts))
        assert result.to(expected_unit).magnitude == pytest.approx(expected, rel=0.005), name


def test_arrays_are_taken_element_by_element() -> None:
    angles = np.radians([100.0, 110.0, 120.0])
    together = function("cassie-contact-angle")(angles, 0.1)
    assert list(together) == [pytest.approx(function("cassie-contact-angle")(angle, 0.1)) for angle in angles]


def test_raindrop_on_lotus_is_in_the_range_measured() -> None:
    """Two levels, the bumps and the wax on them: 160-163° (Neinhuis & Barthlott 1997, from memory)."""
    angle = np.degrees(function("cassie-contact-angle")(radians(110), 0.08))
    assert 159 <= angle <= 164
