"""Flow of fluids against libraries, definitions and hand arithmetic.

CHECKS: function, inputs in SI units, expected value, kind of source (it sets the tolerance), source.
"""

from __future__ import annotations

from math import log, pi, radians, tan

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.scale.registry import function
from tests.scale.helpers import psychrometrics
from tests.scale.record_checks import (
    assert_groups_are_dimensionless,
    assert_inside_regime,
    assert_records_fit,
    assert_unit_of_equation,
    assert_value,
)

GRAVITY = 9.80665
FLUIDS = "fluids 1.3.1"
FIELDS = frozenset({"fluids", "aerodynamics and locomotion", "heat", "mass and moisture"})

CHECKS = [
    ("ratio", (916.7, 1025.0), 0.894341, "exact", "division: share of floating ice under sea water, 916.7 / 1025"),
    ("reynolds-number", (1.1613, 2.5, 0.25, 1.9e-5), 38200.65789473684, "library", f"{FLUIDS}, Reynolds"),
    ("reynolds-number", (998.2, 0.001, 2e-6, 1.002e-3), 1.99242e-3, "arithmetic", "998.2 x 0.001 x 2e-6 / 1.002e-3"),
    (
        "stokes-settling-speed",
        (2650 - 1.204, GRAVITY, 1e-5, 1.813e-5),
        7.95974e-3,
        "arithmetic",
        f"{FLUIDS}, v_terminal",
    ),
    (
        "stokes-settling-speed",
        (997.0, GRAVITY, 1e-3, 1.813e-5),
        29.96,
        "arithmetic",
        "997 x 9.80665 x 1e-6 / 18 / 1.813e-5",
    ),
    (
        "tube-pressure-drop",
        (1.002e-3, 0.1, 1e-9, 5e-4),
        4.08252,
        "arithmetic",
        f"{FLUIDS}, friction_factor and dP_from_K",
    ),
    ("tube-pressure-drop", (1e-3, 1.0, pi / 8, 1.0), 1e-3, "exact", "8 x 0.001 x (π/8) / π"),
    (
        "tube-reynolds-number",
        (998.2, 1e-9, 5e-4, 1.002e-3),
        1.26841,
        "arithmetic",
        "2 x 998.2e-9 / (π 5e-4 x 1.002e-3)",
    ),
    ("entrance-share", (998.2, 1e-9, 1.002e-3, 0.1), 7.61046e-4, "arithmetic", "0.06 x 1.26841 x 0.001 / 0.1"),
    ("pressure-of-speed-difference", (998.2, 1.0, 0.0), 499.1, "exact", "998.2 / 2"),
    ("pressure-of-speed-difference", (1.2, 5.0, 3.0), 9.6, "exact", "1.2 x (25 - 9) / 2"),
    (
        "stack-pressure",
        (101325.0, 293.15, 303.15, GRAVITY, 10.0),
        3.8952,
        "arithmetic",
        "3462 x 10 x (1/293.15 - 1/303.15)",
    ),
    ("stack-pressure", (101325.0, 288.15, 298.15, GRAVITY, 1.0), 0.4029, "arithmetic", "3462 x (1/288.15 - 1/298.15)"),
    (
        "wind-to-stack-ratio",
        (101325.0, 293.15, 303.15, GRAVITY, 10.0, 2.5),
        0.9661,
        "arithmetic",
        "1.2041 x 6.25 / 2 / 3.8952",
    ),
    ("cavitation-number", (2e5, 1e4, 1000.0, 10.0), 3.8, "library", f"{FLUIDS}, Cavitation"),
    (
        "cavitation-number",
        (101325 + 998.2 * GRAVITY, 2339.0, 998.2, 20.0),
        0.54486,
        "arithmetic",
        f"{FLUIDS}, Cavitation",
    ),
    ("cavitation-margin", (2e5, 1e4, 1000.0, 10.0, 1.9), 2.0, "exact", "3.8 / 1.9"),
    ("stokes-number", (1000.0, 0.9, 1e-5, 1e-5, 1e-3), 0.5, "library", f"{FLUIDS}, Stokes_number"),
    (
        "stokes-number",
        (1000.0, 5.0, 2e-5, 1.829e-5, 5e-4),
        12.15,
        "arithmetic",
        "1000 x 5 x 4e-10 / (18 x 1.829e-5 x 5e-4)",
    ),
    ("impaction-efficiency", (1000.0, 5.0, 2e-5, 1.829e-5, 5e-4), 0.8855, "arithmetic", "12.15 / (12.15 + 1.5708)"),
    ("impaction-efficiency", (1000.0, 0.9, 1e-5, 1e-5, 1e-3), 0.24145, "arithmetic", "0.5 / 2.0708"),
    ("film-limited-flux", (1.0, 6e-11, 1e-3, 1.0, 10.0, 1.0), 5.717e-6, "arithmetic", "1.62 x 1.5326e-6 x ln 10"),
    ("sieve-rejection", (0.5, 1.0), 0.5625, "exact", "(0.5 x 1.5)²"),
    ("sieve-rejection", (0.1, 1.0), 0.0361, "exact", "(0.1 x 1.9)²"),
    ("net-buoyancy", (1025.0, 916.7, GRAVITY, 1.0), 1062.060195, "exact", "108.3 x 9.80665"),
    (
        "net-buoyancy",
        (1.204, 7850.0, GRAVITY, 1e-3),
        -76.9704,
        "arithmetic",
        "a litre of steel in air: -7848.796 x 0.00980665",
    ),
    ("hydrostatic-pressure", (1025.0, GRAVITY, 10.0), 100518.1625, "exact", "1025 x 98.0665"),
    ("hydrostatic-pressure", (1060.0, GRAVITY, 2.0), 20790, "arithmetic", "blood column of 2 m"),
    (
        "hydrostatic-pressure",
        (13595.1, GRAVITY, 0.760),
        101325,
        "arithmetic",
        "definition of the atmosphere: 760 mm of mercury",
    ),
    ("hydrostatic-compression", (1025.0, GRAVITY, 1000.0, 2.34e9), 4.29565e-3, "arithmetic", "10.05182e6 / 2.34e9"),
    ("womersley-number", (12.5e-3, 1.2, 1060.0, 3.5e-3), 18.889, "arithmetic", "0.0125 x √(2π x 1.2 x 1060 / 0.0035)"),
    ("womersley-number", (15e-6, 1.2, 1060.0, 3.5e-3), 0.02267, "arithmetic", "15e-6 x √(2283509)"),
    (
        "darcy-flow",
        (9.869233e-13, 1e-4, 101325.0, 1e-3, 1e-2),
        1e-6,
        "exact",
        "definition of the darcy: 1 cm³/s of 1 cP, 1 atm/cm, 1 cm²",
    ),
    ("darcy-flow", (1e-11, 2.0, 500.0, 1e-3, 0.5), 2e-5, "exact", "1e-11 x 2 x 500 / (0.001 x 0.5)"),
    (
        "hopping-threshold",
        (0.1, 2650.0, 1.2, GRAVITY, 2.5e-4),
        0.23263,
        "arithmetic",
        "0.1 x √(2207.33 x 9.80665 x 2.5e-4)",
    ),
    (
        "hopping-threshold",
        (0.1, 2650.0, 1.22, GRAVITY, 2.3e-4),
        0.22,
        "memory",
        "Bagnold 1941: about 0.22 m/s for desert sand",
    ),
    ("shear-to-threshold-ratio", (0.46526, 0.1, 2650.0, 1.2, GRAVITY, 2.5e-4), 2.0, "arithmetic", "0.46526 / 0.23263"),
    ("slope-to-repose-ratio", (radians(20), radians(34)), 0.53961, "arithmetic", "0.36397 / 0.67451"),
    ("slope-to-repose-ratio", (radians(45), radians(30)), 3**0.5, "exact", "tan 45° / tan 30° = √3"),
    ("critical-upward-gradient", (2650.0, 1000.0, 0.4), 0.99, "exact", "1.65 x 0.6"),
    ("critical-upward-gradient", (2650.0, 1000.0, 0.394), 1.0, "memory", "Terzaghi 1943: about 1 for quartz sand"),
    ("bedform-speed", (100 / 31557600, 5.0), 20 / 31557600, "exact", "100 m² a year over 5 m: 20 m a year"),
    ("overturn-speed", (1e-8, 12.5), 5e-3, "exact", "(1.25e-7)^(1/3): lake on a cold night"),
    (
        "overturn-speed",
        (9.80665 / 300 * 0.2, 1000.0),
        1.87,
        "arithmetic",
        "sunny land: 9.81/300 x 0.2 K m/s x 1 km",
    ),
    ("righting-time", (1e-3, 6.0, 1000.0, 10.0, 1e-7), 3.0, "exact", "6e-3 / (2 x 1e-3)"),
    (
        "righting-time",
        (1e-3, 6.8, 1050.0, GRAVITY, 1e-7),
        3.4,
        "memory",
        "Pedley and Kessler 1992: 3.4 s for a swimming alga, from memory",
    ),
    ("bed-flow-deflection", (1.0, 7.0), pi / 4, "exact", "tangent 1"),
    ("bed-flow-deflection", (2.0, 140.0), radians(5.7106), "arithmetic", "arctan 0.1"),
    ("ratio", (8e3, 1e3), 8.0, "exact", "body ring muscle of 8 kPa over a full bladder of 1 kPa"),
    ("interception-share", (1e-6, 1e-6, 1.0), log(2) - 0.375, "exact", "R = 1, Re = 1: (4 ln 2 - 2 + 0.5) / 4"),
    ("interception-share", (1e-6, 1e-6, 0.01), 0.096334, "arithmetic", "1.272589 / (2 x 6.60517)"),
    ("interception-share", (0.0, 1e-6, 0.01), 0.0, "exact", "a point is never touched"),
    ("ratio", (1.6, 1.0), 1.6, "memory", "density ratio of strong salt-finger staircases in the ocean, Schmitt 1994"),
    ("sheltered-threshold-ratio", (0.0, 1.0, 90.0, 0.5), 1.0, "exact", "bare ground"),
    ("sheltered-threshold-ratio", (0.05, 1.0, 90.0, 0.5), 0.56179, "arithmetic", "1/√(0.975 x 3.25)"),
    ("sheltered-threshold-ratio", (0.5, 1.0, 100.0, 0.5), 0.22646, "arithmetic", "1/√(0.75 x 26)"),
    ("floating-lens-depth", (1000.0, 1.0, 1025.0), 40.0, "exact", "the forty times of every text on ground water"),
    ("rouse-number", (0.041, 0.1), 1.0, "exact", "0.041 / 0.041"),
    ("rouse-number", (0.02, 0.05), 0.97561, "arithmetic", "sand of 0.2 mm in a river: 0.02 / 0.0205"),
    ("thread-drag-ratio", (2.5e-6, 1e-8), 1.76780, "arithmetic", "ln 45 = 3.80666: 7.61332 / 4.30666"),
    ("thread-drag-ratio", (1.0, 1e-300), 2.0, "arithmetic", "an endless thin thread: twice the drag across"),
    ("stirred-mixing-time", (1e-3, 1.0, 1e-9), 3.453878, "arithmetic", "ln 31.6228, half of 3 ln 10"),
    ("stirred-mixing-time", (0.1, 2.0, 2e-10), 4.60517, "arithmetic", "ln 1e4 / 2"),
    ("stirred-mixing-time", (1e-5, 1.0, 1e-9), 0.0, "exact", "a streak already"),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "kind", "source"), CHECKS)
def test_function_gives_the_published_or_worked_value(
    name: str, inputs: tuple[float, ...], expected: float, kind: str, source: str
) -> None:
    assert_value(name, inputs, expected, kind, source)


def test_records_and_functions_agree_on_inputs() -> None:
    assert_records_fit("fluids", FIELDS, {name for name, *_ in CHECKS})


@pytest.mark.parametrize(
    "principle",
    [
        "reynolds-regime",
        "stokes-drag",
        "poiseuille-flow",
        "bernoulli-ventilation",
        "cavitation",
        "particle-impaction",
        "buoyancy",
        "hydrostatic-pressure",
        "porous-flow",
        "granular-avalanche",
        "soil-fluidisation",
        "pulsatile-flow",
    ],
)
def test_equations_have_the_unit_of_their_output(principle: str) -> None:
    if principle not in ("buoyancy", "granular-avalanche", "soil-fluidisation", "pulsatile-flow"):
        assert_groups_are_dimensionless(principle)
    assert_unit_of_equation(principle)


def test_the_settling_speed_is_that_of_a_library_where_the_law_holds_and_far_off_where_it_does_not() -> None:
    from fluids import v_terminal

    for diameter in (2e-6, 5e-6, 1e-5):
        ours = function("stokes-settling-speed")(2650 - 1.204, GRAVITY, diameter, 1.813e-5)
        assert ours == pytest.approx(v_terminal(D=diameter, rhop=2650.0, rho=1.204, mu=1.813e-5), rel=0.005)
    drop = v_terminal(D=1e-3, rhop=998.2, rho=1.204, mu=1.813e-5)
    assert drop == pytest.approx(4.03, rel=0.05)  # Gunn and Kinzer 1949, from memory
    assert function("stokes-settling-speed")(997.0, GRAVITY, 1e-3, 1.813e-5) > 7 * drop
    assert function("reynolds-number")(1.204, drop, 1e-3, 1.813e-5) > 1.25  # so the regime says no


def test_tube_pressure_drop_equals_the_friction_factor_route_of_a_library() -> None:
    from fluids import K_from_f, dP_from_K, friction_factor

    density, viscosity, radius, length, flow = 998.2, 1.002e-3, 2e-4, 0.05, 4e-9
    reynolds = function("tube-reynolds-number")(density, flow, radius, viscosity)
    speed = flow / (pi * radius**2)
    loss = dP_from_K(K_from_f(fd=friction_factor(Re=reynolds), L=length, D=2 * radius), rho=density, V=speed)
    assert function("tube-pressure-drop")(viscosity, length, flow, radius) == pytest.approx(loss, rel=1e-6)


def test_stack_pressure_equals_the_density_difference_of_a_psychrometric_library() -> None:
    psychrolib = psychrometrics()
    outside, inside = (psychrolib.GetDryAirDensity(t, 101325) for t in (20, 30))
    ours = function("stack-pressure")(101325.0, 293.15, 303.15, GRAVITY, 10.0)
    assert ours == pytest.approx((outside - inside) * GRAVITY * 10, rel=1e-4)


def test_numbers_equal_those_of_a_library() -> None:
    import fluids

    assert function("cavitation-number")(101325 + 998.2 * GRAVITY, 2339.0, 998.2, 20.0) == pytest.approx(
        fluids.Cavitation(P=101325 + 998.2 * GRAVITY, Psat=2339.0, rho=998.2, V=20.0), rel=1e-12
    )
    # The library takes any width of the collector; ours is on the radius, so twice the number on the diameter.
    on_diameter = fluids.Stokes_number(V=5.0, Dp=2e-5, D=1e-3, rhop=1000.0, mu=1.82e-5)
    assert function("stokes-number")(1000.0, 5.0, 2e-5, 1.82e-5, 5e-4) == pytest.approx(2 * on_diameter, rel=1e-12)


def test_the_film_limited_flux_follows_leveque() -> None:
    # Lévêque in the form of chemical engineering texts: Sh = 1.62 (Re Sc d/L)^(1/3), here with Re Sc = V d/D.
    speed, diffusivity, width, length = 0.7, 1e-9, 2e-3, 1.5
    sherwood = 1.62 * (speed * width / diffusivity * width / length) ** (1 / 3)
    flux = function("film-limited-flux")(speed, diffusivity, width, length, 20.0, 2.0)
    assert flux == pytest.approx(sherwood * diffusivity / width * log(10.0), rel=1e-9)


# Natural cases with figures of the papers and books named (from memory) lie inside the bounds or at their edge.
NATURE = [
    ("stokes-drag", "particle-reynolds-number", (1.204, 0.012, 20e-6, 1.813e-5), "fog drop of 20 µm, Hinds 1999"),
    ("stokes-drag", "particle-reynolds-number", (998.2, 1e-3, 0.2e-6, 1.002e-3), "cilium 0.2 µm thick"),
    (
        "poiseuille-flow",
        "tube-reynolds-number",
        (998.2, 8e-12, 25e-6, 1e-3),
        "wood vessel at 4 mm/s, Tyree & Zimmermann",
    ),
    ("poiseuille-flow", "entrance-share", (998.2, 8e-12, 1e-3, 0.1), "wood vessel 0.1 m long"),
    ("bernoulli-ventilation", "reynolds-number", (1.204, 1.0, 0.3, 1.82e-5), "prairie dog mound, Vogel 1973"),
    ("bernoulli-ventilation", "mach-number", (10.0, 343.2), "wind over a mound"),
    (
        "cavitation",
        "cavitation-margin",
        (101325 + 10050, 2339.0, 1025.0, 23.0, 1.0),
        "mantis shrimp strike, Patek 2005",
    ),
    ("cavitation", "cavitation-margin", (-2e6, 2339.0, 998.2, 0.004, 1.0), "sap under tension of 2 MPa"),
    ("particle-impaction", "stokes-number", (998.2, 5.0, 20e-6, 1.82e-5, 0.5e-3), "fog on a needle 1 mm thick"),
    ("particle-impaction", "stokes-number", (998.2, 1.0, 10e-6, 1.82e-5, 25e-6), "fog on a cactus spine, Ju 2012"),
    ("cross-flow-filtration", "sweep-ratio", (0.7, 0.1), "manta, Divi 2018"),
    ("sieving", "size-to-gap", (0.7e-6, 0.1e-6), "bacterium on a sponge collar"),
    ("sieving", "size-to-gap", (0.7e-9, 0.28e-9), "hydrated sodium ion at a water channel"),
    ("buoyancy", "density-ratio", (916.7, 1025.0), "floating ice"),
    ("buoyancy", "density-ratio", (1.1649, 1.2041), "air at 30 °C in air at 20 °C"),
    ("hydrostatic-pressure", "compression", (1025.0, GRAVITY, 500.0, 2.34e9), "emperor penguin at 500 m"),
    ("porous-flow", "pore-reynolds-number", (998.2, 20e-6, 1e-6, 1e-3), "sponge collar"),
    ("porous-flow", "pore-reynolds-number", (1.204, 0.02, 50e-6, 1.82e-5), "felt of plumage in a storm"),
    ("soil-fluidisation", "void-share", (0.44, 0.42), "razor clam, Winter 2012"),
    ("stack-effect", "wind-share", (101325.0, 298.15, 301.15, GRAVITY, 2.0, 0.5), "mound of 2 m, calm"),
]


@pytest.mark.parametrize(("principle", "group", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle: str, group: str, inputs: tuple, case: str) -> None:
    assert_inside_regime(principle, group, inputs, case)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("ratio", (1.0, 0.0), "denominator above zero, found 0"),
        ("reynolds-number", (1000.0, 1.0, -1.0, 1e-3), "length of zero or more, found -1"),
        ("tube-pressure-drop", (1e-3, 1.0, 1e-6, 0.0), "tube radius above zero"),
        ("stack-pressure", (101325.0, -20.0, 303.15, GRAVITY, 10.0), "outside temperature above zero, found -20"),
        ("film-limited-flux", (1.0, 1e-9, 1e-3, 1.0, 1.0, 2.0), "flux from the stream to the filter"),
        ("hopping-threshold", (0.1, 900.0, 998.2, GRAVITY, 1e-3), "grain density less fluid density"),
        ("slope-to-repose-ratio", (2.0, 0.5), "slope between 0 and 1.57, found 2"),
        ("critical-upward-gradient", (2650.0, 1000.0, 1.4), "void fraction between 0 and 1, found 1.4"),
        ("cavitation-number", (1e5, 2339.0, 998.2, 0.0), "speed above zero"),
        ("hydrostatic-pressure", (float("nan"), GRAVITY, 1.0), "found nan"),
        ("interception-share", (1e-6, 1e-5, 7.0), "collector reynolds number between 0 and 1, found 7"),
        ("floating-lens-depth", (1025.0, 1.0, 1000.0), "heavy density less light density above zero, found -25"),
        ("sheltered-threshold-ratio", (2.0, 1.0, 100.0, 0.5), "share of the ground left bare above zero"),
        ("bedform-speed", (1e-5, 0.0), "heap height above zero"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


@settings(max_examples=25, deadline=None)
@given(size=st.floats(1e-7, 1.0), factor=st.floats(1.1, 100.0))
def test_scaling_laws(size: float, factor: float) -> None:
    """Settling grows with the square of size, tube resistance falls with the fourth power of radius."""
    settle, drop = function("stokes-settling-speed"), function("tube-pressure-drop")
    assert settle(1000.0, GRAVITY, factor * size, 1e-3) == pytest.approx(
        factor**2 * settle(1000.0, GRAVITY, size, 1e-3)
    )
    assert drop(1e-3, 1.0, 1e-9, size) == pytest.approx(factor**4 * drop(1e-3, 1.0, 1e-9, factor * size))


@settings(max_examples=25, deadline=None)
@given(speed=st.floats(0.01, 50.0), diameter=st.floats(1e-8, 1e-3))
def test_capture_lies_between_none_and_all_and_grows_with_speed(speed: float, diameter: float) -> None:
    capture = function("impaction-efficiency")
    share = capture(1000.0, speed, diameter, 1.8e-5, 1e-3)
    assert 0 <= share < 1
    assert capture(1000.0, 2 * speed, diameter, 1.8e-5, 1e-3) > share
    assert capture(1000.0, 1e12 * speed, diameter, 1.8e-5, 1e-3) == pytest.approx(1.0, abs=1e-3)


@settings(max_examples=25, deadline=None)
@given(share=st.floats(0.0, 3.0))
def test_a_sieve_holds_all_that_is_wider_and_more_of_what_is_larger(share: float) -> None:
    held = function("sieve-rejection")(share, 1.0)
    assert 0 <= held <= 1
    assert held == 1 or share < 1
    assert function("sieve-rejection")(share + 0.1, 1.0) >= held


def test_the_draught_turns_round_with_the_temperatures_and_wind_rules_without_a_difference() -> None:
    stack = function("stack-pressure")
    assert stack(1e5, 290.0, 300.0, GRAVITY, 5.0) == pytest.approx(-stack(1e5, 300.0, 290.0, GRAVITY, 5.0))
    assert function("wind-to-stack-ratio")(1e5, 290.0, 290.0, GRAVITY, 5.0, 1.0) == float("inf")


def test_arrays_are_computed_element_by_element() -> None:
    diameters = numpy.array([1e-6, 1e-5])
    speeds = function("stokes-settling-speed")(1000.0, GRAVITY, diameters, 1e-3)
    assert speeds[1] / speeds[0] == pytest.approx(100.0)
    held = function("sieve-rejection")(numpy.array([0.5, 2.0]), 1.0)
    assert list(held) == [0.5625, 1.0]
    angles = numpy.radians([10.0, 20.0])
    assert function("slope-to-repose-ratio")(angles, 0.6) == pytest.approx([tan(a) / tan(0.6) for a in angles])


@pytest.mark.parametrize("ratio", [0.01, 0.3, 1.0])
def test_the_share_touched_is_the_stream_that_passes_within_a_radius(ratio: float) -> None:
    """Flux through the gap beside the fibre, integrated over Lamb's velocity of creeping flow near a cylinder."""
    from scipy.integrate import quad

    reynolds = 0.1
    share = 2 - log(reynolds)

    def speed(radius: float) -> float:  # beside the cylinder of radius 1, over the speed far away
        return (log(radius) + 0.5 - 0.5 / radius**2) / share  # from the stream function (2 r ln r - r + 1/r)/2La

    passed, _ = quad(speed, 1.0, 1.0 + ratio)
    assert function("interception-share")(ratio, 1.0, reynolds) == pytest.approx(passed, rel=1e-9)
    tiny = function("interception-share")(1e-4, 1.0, reynolds)
    assert tiny == pytest.approx(1e-8 / share, rel=1e-3)  # the square of the size ratio
