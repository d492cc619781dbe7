"""Structures, fracture and wear against hand arithmetic, papers and reference libraries.

CHECKS: function, inputs in SI units, expected value, kind of source (it sets the tolerance), source.
"""

from __future__ import annotations

from math import cos, log, pi, radians, sin, sqrt, tan

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
    calls_into,
)

GRAVITY = 9.80665
FIELDS = frozenset({"structures and fracture"})
ROD = pi * 0.02**4 / 64
TUBE = pi * (0.1**4 - 0.08**4) / 64

CHECKS = [
    ("euler-buckling-force", (200e9, ROD, 1.0, 2.0), 3875.78, "arithmetic", "steel rod of 20 mm, 2 m: π² EI / 4"),
    ("euler-buckling-force", (15e9, TUBE, 2.0, 10.0), 1072.6, "arithmetic", "tube 100/80 mm, 10 m, one end free"),
    (
        "slenderness-over-limit",
        (1.0, 88.858, 1.0, 200e9, 250e6),
        1.0,
        "arithmetic",
        "limit slenderness π √800 = 88.86 of mild steel; texts give 89",
    ),
    ("slenderness-over-limit", (2.0, 1.0, 0.01, 200e9, 250e6), 2.2508, "arithmetic", "200 / 88.858"),
    (
        "self-weight-buckling-height",
        (10e9, 0.3, 700.0, GRAVITY),
        40.05,
        "arithmetic",
        "(7.8373 x 1e10 x 0.09 / (16 x 700 g))^(1/3)",
    ),
    (
        "self-weight-buckling-height",
        (10e9, 0.3, 700.0, GRAVITY),
        0.792 * (10e9 / (700 * GRAVITY)) ** (1 / 3) * 0.3 ** (2 / 3),
        "memory",
        "McMahon 1973, coefficient 0.792",
    ),
    ("height-over-critical", (10.0, 10e9, 0.3, 700.0, GRAVITY), 0.2497, "arithmetic", "10 / 40.05"),
    ("snap-through-force", (1e9, 1e-6, 0.1, 1.0), 0.3849, "arithmetic", "2 / (3 √3) x 1000 x 0.001"),
    ("shell-parameter", (1.0, 2.0, 0.5), 16.0, "exact", "1 x 4 / 0.25"),
    ("shell-parameter", (0.02, 20.0, 0.001), 64.0, "exact", "1.6e-7 x 400 / 1e-6"),
    ("cantilever-deflection", (10.0, 1.0, 200e9, ROD), 2.12207e-3, "arithmetic", "10 / (3 x 200e9 x 7.85398e-9)"),
    ("deflection-over-length", (-10.0, 2.0, 200e9, ROD), 8.48826e-3, "arithmetic", "40 / (3 x 200e9 x 7.85398e-9)"),
    ("sandwich-bending-stiffness", (70e9, 1e-3, 0.02), 14000.0, "exact", "70e9 x 0.001 x 0.0004 / 2"),
    ("open-foam-modulus", (10e9, 150.0, 1500.0), 1e8, "exact", "Gibson and Ashby: 0.1² of the solid"),
    ("fibre-composite-modulus", (0.6, 70e9, 3e9), 43.2e9, "exact", "0.6 x 70 + 0.4 x 3 GPa"),
    ("fibre-composite-modulus", (0.0, 70e9, 3e9), 3e9, "exact", "matrix alone"),
    (
        "fibre-length-over-critical",
        (0.5e-3, 10e-6, 2e9, 20e6),
        1.0,
        "exact",
        "critical length 2e9 x 1e-5 / 4e7 = 0.5 mm",
    ),
    ("gradient-stress-step", (1e6, 51e6, 0.1, 1e-4, 1e-2), 5e4, "exact", "50 MPa x 0.1 / 100"),
    ("gradient-stress-step", (1e6, 51e6, 0.1, 1e-2, 1e-4), 5e6, "exact", "a flaw longer than the gradient sees it all"),
    ("stiffness-mismatch", (1e9, 3e9), 0.5, "exact", "2 / 4"),
    ("griffith-stress", (70e9, 1.0, 1e-6), 211.1e6, "arithmetic", "√(1.4e11 / (π 1e-6))"),
    (
        "griffith-stress",
        (62e9, 0.54, 1.0),
        0.1460e6,
        "arithmetic",
        "glass of Griffith 1921: stress times root of length 0.146 MPa√m",
    ),
    ("plastic-zone-over-crack", (200e9, 1000.0, 400e6, 1e-3), 2.5, "exact", "4e14 / (1.6e17 x 1e-3)"),
    ("flaw-tolerant-thickness", (1.0, 100e9, 100e9 / 30), 28.27e-9, "arithmetic", "π x 900 / 1e11"),
    ("flaw-tolerant-thickness", (1.0, 100e9, 100e9 / 30), 30e-9, "about", "Gao and others 2003: about 30 nm"),
    ("thickness-over-tolerant", (2.827e-9, 1.0, 100e9, 100e9 / 30), 0.1, "arithmetic", "2.827 / 28.27"),
    ("sacrificial-bond-energy", (1e16, 200e-12, 50e-9), 0.1, "exact", "1e16 x 2e-10 x 5e-8"),
    ("uniform-stress-diameter", (pi * 1000.0, 1.0, 32e6), 0.1, "exact", "(32 π 1000 / (π 32e6))^(1/3)"),
    ("lever-force", (50.0, 0.35, 0.05), 350.0, "exact", "50 x 7"),
    ("lever-force", (300.0, 2.0, 1.0), 600.0, "exact", "300 x 2"),
    ("elastic-energy", (200.0, 0.1), 1.0, "exact", "200 x 0.01 / 2"),
    ("mean-deceleration", (7.0, 0.0025), 9800.0, "exact", "49 / 0.005"),
    ("bearable-tension", (10e6, 3e6), 13e6, "exact", "10 + 3 MPa"),
    ("zigzag-fold-poisson-ratio", (0.0, radians(60)), -3.0, "exact", "tan² 60° = 3"),
    ("zigzag-fold-poisson-ratio", (radians(60), radians(45)), -0.25, "exact", "cos² 60° tan² 45°"),
    ("closing-time", (1e-3, 1e-8), 5e4, "exact", "1e-3 / 2e-8"),
    ("interval-over-closing", (1e5, 1e-3, 1e-8), 2.0, "exact", "1e5 / 5e4"),
    ("worn-volume", (1e-4, 100.0, 1000.0, 1e9), 1e-8, "exact", "1e-4 x 1e5 / 1e9"),
    ("cavity-limit-pressure", (20e3, 10e3, 1e6), 20e3 + 10e3 * (1 + log(100)), "exact", "Gibson and Anderson 1961"),
    ("cavity-limit-pressure", (0.0, 5e3, 5e5), 28.026e3, "arithmetic", "5 x (1 + 4.60517) kPa"),
    ("shear-strength-under-pressure", (10e3, 100e3, pi / 4), 110e3, "exact", "10 + 100 kPa"),
    ("shear-strength-under-pressure", (0.0, 50e3, radians(30)), 28.868e3, "arithmetic", "dry sand: 50 kPa / √3"),
    ("largest-enclosed-section", (2 * pi,), pi, "exact", "circle of radius 1"),
    ("largest-enclosed-section", (4.0,), 1.27324, "arithmetic", "4/π, more than the square of side 1"),
    ("rocking-moment", (10.0, 0.1, 0.05, pi / 2), 0.5, "exact", "10 x 0.05"),
    ("rocking-moment", (10.0, 0.1, 0.1, 0.5), 0.0, "exact", "ball: at rest on every side"),
    ("rocking-moment", (10.0, 0.1, 0.16, radians(30)), -0.3, "exact", "top-heavy: 10 x -0.06 x 0.5"),
    ("shell-wrinkling-stress", (1.0, 0.01, 1.0, 0.3), 0.00605228, "arithmetic", "0.01 / √2.73, the known 0.605 E t/R"),
    ("shell-wrinkling-stress", (70e9, 1e-3, 0.5, 0.5), 93.3333e6, "arithmetic", "1.4e8 / 1.5"),
    ("restrained-shrinkage-stress", (3e9, 1e-3, 0.25), 4e6, "exact", "3e6 / 0.75"),
    ("restrained-shrinkage-stress", (50e9, 8e-4, 0.25), 53.3333e6, "arithmetic", "basalt 100 K cooler: 4e7 / 0.75"),
    ("rocking-acceleration", (GRAVITY, 0.25, 1.0), 2.4516625, "exact", "a quarter of gravity"),
    ("rocking-acceleration", (GRAVITY, 0.5, 0.5), GRAVITY, "exact", "a cube tips at gravity"),
    ("meshed-turning-speed", (30.0, 0.02, 0.06), 10.0, "exact", "three times the radius, a third of the speed"),
    ("meshed-turning-speed", (33e3, 2e-4, 2e-4), 33e3, "exact", "equal legs swing alike"),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "kind", "source"), CHECKS)
def test_value(name: str, inputs: tuple, expected: float, kind: str, source: str) -> None:
    if kind == "about":  # a paper that gives one digit
        assert function(name)(*inputs) == pytest.approx(expected, rel=0.1), source
    else:
        assert_value(name, inputs, expected, kind, source)


def test_records_and_functions_fit() -> None:
    assert_records_fit("structures", FIELDS, {check[0] for check in CHECKS})


# Roots of units leave rounding errors in the exponents, a foam must be lighter than its solid, and Poisson's ratio is
# at most a half: these stand below.
APART = {"self-weight-buckling", "cellular-solid-stiffness", "shell-wrinkling", "shrinkage-cracking"}
PLAIN = sorted({use[0] for use in calls_into("structures", FIELDS)} - APART)


@pytest.mark.parametrize("principle", PLAIN)
def test_units_of_equation_and_groups(principle: str) -> None:
    assert_unit_of_equation(principle)
    assert_groups_are_dimensionless(principle)


def test_units_of_the_others() -> None:
    """The same column in other units has the same height; the stiffness of a foam is a pressure, so is a stress."""
    unit = registry()
    height = function("self-weight-buckling-height")(
        10 * unit.GPa, 30 * unit.cm, 0.7 * unit.g / unit.cm**3, GRAVITY * unit.m / unit.s**2
    )
    column = function("self-weight-buckling-height")(10e9, 0.3, 700.0, GRAVITY)
    assert (height**3).to("m**3").magnitude == pytest.approx(column**3)
    foam = function("open-foam-modulus")(10 * unit.GPa, 150 * unit.kg / unit.m**3, 1.5 * unit.g / unit.cm**3)
    assert foam.to("MPa").magnitude == pytest.approx(100.0)
    wrinkling = function("shell-wrinkling-stress")(70 * unit.GPa, 1 * unit.mm, 50 * unit.cm, 0.5)
    assert wrinkling.to("MPa").magnitude == pytest.approx(140 / 1.5)
    shrinkage = function("restrained-shrinkage-stress")(30 * unit.GPa, 100e-6, 0.25)
    assert shrinkage.to("MPa").magnitude == pytest.approx(4.0)
    for principle in ("shell-wrinkling", "shrinkage-cracking"):
        assert_groups_are_dimensionless(principle)


NATURE = [
    ("euler-buckling", "slenderness-over-limit", (2.0, 1.0, 1e-3, 10e9, 50e6), "grass stem 4 mm thick, 1 m tall"),
    ("self-weight-buckling", "height-over-critical", (25.0, 10e9, 0.6, 700.0, GRAVITY), "spruce of 25 m"),
    ("snap-through-buckling", "shell-parameter", (0.02, 20.0, 5e-4), "leaf trap"),
    ("beam-bending", "slenderness", (1e-4, 5e-6), "gecko hair 100 um long and 5 um thick"),
    ("sandwich-stiffness", "face-distance-over-thickness", (0.004, 0.0003), "leaf of an iris"),
    ("cellular-solid-stiffness", "relative-density", (420.0, 1500.0), "spruce wood"),
    ("fibre-reinforcement", "fibre-length-over-critical", (1e-5, 4e-9, 3e9, 40e6), "cellulose fibril"),
    ("functional-gradient", "gradient-over-flaw", (5e-3, 1e-3), "mussel thread, five diameters"),
    ("griffith-fracture", "plastic-zone-over-crack", (70e9, 0.3, 1e9, 1e-6), "mineral tablet with a crack of 1 um"),
    ("crack-deflection", "toughness-ratio", (5.0, 50.0), "seam in nacre"),
    ("flaw-tolerance", "thickness-over-tolerant", (4e-9, 1.0, 100e9, 100e9 / 30), "mineral plate in bone"),
    ("flaw-tolerance", "thickness-over-tolerant", (300e-9, 1.0, 100e9, 1e9), "tablet of nacre at a hundredth of E"),
    ("sacrificial-bonds", "bond-over-backbone", (300e-12, 1e-9), "ties in bone glue"),
    ("elastic-energy-storage", "strain-over-limit", (0.05, 0.08), "tendon in running"),
    ("impact-absorption", "stroke-over-thickness", (0.01, 0.02), "peel of a pomelo"),
    ("prestress", "prestress-over-strength", (10e6, 40e6), "growth stress at the rim of a beech stem"),
    ("auxetic-folding", "thickness-over-panel", (0.2e-3, 10e-3), "hornbeam leaf"),
    ("self-healing", "interval-over-closing", (3.15e7, 5e-3, 2e-9), "skin cut of 5 mm, a year apart"),
    ("wear-resistance", "abrasive-over-surface-hardness", (3e9, 5e9), "limpet tooth on limestone"),
    ("cavity-expansion", "rigidity-index", (1e6, 10e3), "wet loam"),
]


@pytest.mark.parametrize(("principle", "group", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle: str, group: str, inputs: tuple, case: str) -> None:
    assert_inside_regime(principle, group, inputs, case)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("euler-buckling-force", (1e9, 1e-9, 1.0, 0.0), "length above zero, found 0"),
        ("open-foam-modulus", (1e9, 2000.0, 1500.0), "foam lighter than its solid"),
        ("fibre-composite-modulus", (1.2, 1e9, 1e9), "fibre fraction between 0 and 1, found 1.2"),
        ("griffith-stress", (1e9, 1.0, -1e-6), "crack half length above zero"),
        ("zigzag-fold-poisson-ratio", (2.0, 0.5), "fold angle between 0 and 1.57"),
        ("cavity-limit-pressure", (0.0, 0.0, 1e6), "shear strength above zero"),
        ("lever-force", (1.0, 1.0, float("nan")), "found nan"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


def test_the_number_of_greenhill_is_the_square_of_a_bessel_zero() -> None:
    """(9/4) j² with j the first zero of the Bessel function of order -1/3, found by scipy."""
    from scipy.optimize import brentq
    from scipy.special import jv

    from analog.scale.functions.structures import GREENHILL_NUMBER

    zero = brentq(lambda x: jv(-1 / 3, x), 1.5, 2.2)
    assert pytest.approx(2.25 * zero**2, rel=1e-6) == GREENHILL_NUMBER


def test_snap_force_is_the_greatest_load_on_the_way_down() -> None:
    """Exact strain of two bars of slope 0.02: the shallow formula must agree to the square of the slope."""
    rise, half_span, stiffness = 0.02, 1.0, 1e6
    height = numpy.linspace(0, rise, 20001)
    length, free = numpy.hypot(half_span, height), sqrt(half_span**2 + rise**2)
    load = 2 * stiffness * (free - length) / free * height / length
    assert function("snap-through-force")(stiffness, 1.0, rise, half_span) == pytest.approx(load.max(), rel=1e-3)


@pytest.mark.parametrize(("fold", "sector"), [(20.0, 60.0), (45.0, 50.0), (70.0, 80.0)])
def test_zigzag_fold_against_the_geometry_of_one_cell(fold: float, sector: float) -> None:
    """Width and length of a cell as Schenk and Guest 2013 give them, by differences."""
    gamma = radians(sector)

    def width(theta: float) -> float:
        return cos(theta) * tan(gamma) / sqrt(1 + (cos(theta) * tan(gamma)) ** 2)

    def span(theta: float) -> float:
        return sqrt(1 - (sin(theta) * sin(gamma)) ** 2)

    theta, step = radians(fold), 1e-5
    ratio = -log(span(theta + step) / span(theta - step)) / log(width(theta + step) / width(theta - step))
    found = function("zigzag-fold-poisson-ratio")(theta, gamma)
    assert ratio == pytest.approx(found, rel=1e-5)


@settings(max_examples=25, deadline=None)
@given(length=st.floats(1e-6, 10.0), factor=st.floats(1.1, 100.0))
def test_scaling_laws(length: float, factor: float) -> None:
    """Buckling falls with length squared, strength with the root of the flaw; bending grows with length cubed."""
    buckle, crack, bend = (function(n) for n in ("euler-buckling-force", "griffith-stress", "cantilever-deflection"))
    assert buckle(1e9, 1e-9, 1.0, length) == pytest.approx(factor**2 * buckle(1e9, 1e-9, 1.0, factor * length))
    assert crack(1e9, 1.0, length) == pytest.approx(sqrt(factor) * crack(1e9, 1.0, factor * length))
    assert bend(1.0, factor * length, 1e9, 1e-9) == pytest.approx(factor**3 * bend(1.0, length, 1e9, 1e-9))


@settings(max_examples=25, deadline=None)
@given(share=st.floats(0.0, 1.0), fibre=st.floats(1e6, 1e12), matrix=st.floats(1e3, 1e10))
def test_a_composite_is_between_its_constituents(share: float, fibre: float, matrix: float) -> None:
    modulus = function("fibre-composite-modulus")(share, fibre, matrix)
    assert min(fibre, matrix) * (1 - 1e-9) <= modulus <= max(fibre, matrix) * (1 + 1e-9)


@settings(max_examples=25, deadline=None)
@given(factor=st.floats(1.01, 100.0))
def test_at_the_tolerant_thickness_a_crack_of_that_length_runs_at_the_ideal_strength_within_a_factor(
    factor: float,
) -> None:
    """σ(h*) of the energy balance is √2/π of the ideal strength; both laws scale alike."""
    thickness = function("flaw-tolerant-thickness")(1.0, factor * 1e9, 1e8)
    assert function("griffith-stress")(factor * 1e9, 1.0, thickness) == pytest.approx(sqrt(2) / pi * 1e8)


def test_arrays_are_computed_element_by_element() -> None:
    lengths = numpy.array([1.0, 2.0])
    forces = function("euler-buckling-force")(1e9, 1e-9, 1.0, lengths)
    assert forces[0] / forces[1] == pytest.approx(4.0)
    steps = function("gradient-stress-step")(1e6, 2e6, 0.1, numpy.array([1e-3, 1.0]), 1e-2)
    assert list(steps) == pytest.approx([1e4, 1e5])
