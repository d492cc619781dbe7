"""Light against a transfer-matrix library, published spheres, handbooks and hand arithmetic.

CHECKS: function, inputs in SI units, expected value, kind of source (it sets the tolerance), source.
"""

from __future__ import annotations

from math import asin, cos, inf, pi, radians, sin

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
    calls_into,
)

FIELDS = frozenset({"optics and colour"})
BOHREN = "Bohren and Huffman 1983, appendix A, sphere of index 1.55 and radius 0.525 um at 0.6328 um"

CHECKS = [
    ("film-peak-wavelength", (1.56, 100e-9, 0.0, 0.0), 624e-9, "exact", "4 x 1.56 x 100 nm"),
    ("film-peak-wavelength", (1.33, 300e-9, radians(60), 1.0), 266e-9, "exact", "2 x 1.33 x 300 x 0.5 / 1.5 nm"),
    ("optical-thickness-in-wavelengths", (1.38, 99.638e-9, 550e-9), 0.25, "arithmetic", "quarter-wave layer"),
    ("stack-peak-wavelength", (1.56, 62e-9, 0.0, 1.0, 127e-9, 0.0), 447.44e-9, "exact", "2 (96.72 + 127) nm, blue"),
    ("stack-reflectance", (1.5, 1.0, 0.0), 0.0, "exact", "no layers"),
    ("stack-reflectance", (2.0, 1.0, 1.0), 0.36, "exact", "((1 - 4) / (1 + 4))²"),
    (
        "bragg-wavelength",
        (1.0, 0.31356e-9, radians(28.442 / 2), 1.0),
        0.15406e-9,
        "arithmetic",
        "silicon 111 with copper K-alpha at 28.44 degrees, as powder files print",
    ),
    (
        "bragg-wavelength",
        (1.0, 0.28201e-9, radians(31.703 / 2), 1.0),
        0.15406e-9,
        "arithmetic",
        "rock salt 200 at 31.7 degrees",
    ),
    ("bragg-sine", (1.0, 0.15406e-9, 1.0, 0.31356e-9), sin(radians(28.442 / 2)), "arithmetic", "silicon 111"),
    ("largest-antireflection-pitch", (400e-9, 1.5, 1.0, 0.0), 266.667e-9, "arithmetic", "400 / 1.5"),
    ("largest-antireflection-pitch", (400e-9, 1.5, 1.0, pi / 2), 160e-9, "exact", "400 / 2.5, grazing"),
    ("pitch-over-largest", (200e-9, 400e-9, 1.5, 1.0, 0.0), 0.75, "exact", "200 x 1.5 / 400"),
    ("sine-of-refraction", (1.333, asin(1 / 1.333), 1.0), 1.0, "exact", "critical angle"),
    ("refraction-angle", (1.0, radians(30), 1.333), radians(22.0301), "library", "tmm 0.2.0, snell: 22.0301 degrees"),
    ("size-parameter", (1.05e-6, 0.6328e-6, 1.0), 5.213, "arithmetic", BOHREN),
    ("sphere-scattering-efficiency", (1.05e-6, 0.6328e-6, 1.55, 1.0), 3.10543, "arithmetic", BOHREN),
    ("absorbance", (1000.0, 0.1, 0.01), 1.0, "exact", "1000 x 0.1 x 0.01"),
    ("transmitted-share", (1000.0, 0.1, 0.02), 0.01, "exact", "absorbance 2"),
    ("sky-polarisation-degree", (0.8, pi / 2), 0.8, "exact", "a right angle from the sun"),
    ("sky-polarisation-degree", (1.0, pi / 4), 1 / 3, "exact", "0.5 / 1.5"),
    ("contrast", (98.0, 100.0), 0.02, "exact", "2 / 100"),
    ("contrast-over-threshold", (102.0, 100.0, 0.02), 1.0, "exact", "0.02 / 0.02"),
    ("mirror-focal-length", (0.2,), 0.1, "exact", "half the radius"),
    ("resonant-transfer-share", (5e-9, 5e-9), 0.5, "exact", "half at the transfer radius, by definition"),
    ("resonant-transfer-share", (2.5e-9, 5e-9), 64 / 65, "exact", "1 / (1 + 1/64)"),
    (
        "resonant-transfer-share",
        (4.6e-9, 3.46e-9),
        0.16,
        "memory",
        "Stryer and Haugland 1967: 16 % measured over 4.6 nm for a radius of 3.46 nm, from memory",
    ),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "kind", "source"), CHECKS)
def test_value(name: str, inputs: tuple, expected: float, kind: str, source: str) -> None:
    assert_value(name, inputs, expected, kind, source)


def test_records_and_functions_fit() -> None:
    assert_records_fit("optics", FIELDS, {check[0] for check in CHECKS})


# Light scattered by one sphere is summed in numbers without units.
@pytest.mark.parametrize("principle", sorted({use[0] for use in calls_into("optics", FIELDS)} - {"scattering"}))
def test_units_of_equation_and_groups(principle: str) -> None:
    assert_unit_of_equation(principle)
    assert_groups_are_dimensionless(principle)


NATURE = [
    ("thin-film-interference", "optical-thickness-in-wavelengths", (1.56, 300e-9, 500e-9), "wing of a fly"),
    ("multilayer-reflection", "stack-reflectance", (1.56, 1.0, 6.0), "Morpho scale of six shelves"),
    ("bragg-diffraction", "bragg-sine", (1.0, 550e-9, 1.3, 250e-9), "opal-like scales"),
    ("graded-index-antireflection", "pitch-over-largest", (200e-9, 400e-9, 1.52, 1.0, 0.0), "moth eye, violet"),
    ("graded-index-antireflection", "height-over-wavelength", (200e-9, 550e-9), "moth eye, green"),
    ("refraction", "size-over-wavelength", (2e-6, 550e-9), "hair of a silver ant"),
    ("scattering", "size-parameter", (250e-9, 550e-9, 1.0), "filament in a white beetle scale"),
    ("polarisation-sensing", "polarisation-over-threshold", (0.7, radians(40)), "clear sky"),
    ("mimicry-and-camouflage", "contrast-over-threshold", (101.0, 100.0, 0.02), "moth on bark"),
]


@pytest.mark.parametrize(("principle", "group", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle: str, group: str, inputs: tuple, case: str) -> None:
    assert_inside_regime(principle, group, inputs, case)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("refraction-angle", (1.333, radians(60), 1.0), "totally reflected"),
        ("film-peak-wavelength", (1.5, 1e-7, 2.0, 0.0), "angle in film between 0 and 1.57"),
        ("sphere-scattering-efficiency", (0.0, 5e-7, 1.5, 1.0), "particle diameter above zero, found 0"),
        ("contrast", (1.0, 0.0), "background luminance above zero"),
        ("transmitted-share", (1.0, float("nan"), 1.0), "found nan"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


@pytest.mark.parametrize("index", [1.33, 1.56])
def test_a_film_is_brightest_at_the_computed_wavelength(index: float) -> None:
    """Reflection of a film in air by transfer matrices, scanned over wavelength."""
    tmm = pytest.importorskip("tmm")
    waves = numpy.linspace(400, 800, 401)
    thickness = 100.0
    reflected = [tmm.coh_tmm("s", [1, index, 1], [inf, thickness, inf], 0, wave)["R"] for wave in waves]
    best = waves[int(numpy.argmax(reflected))] * 1e-9
    assert function("film-peak-wavelength")(index, thickness * 1e-9, 0.0, 0.0) == pytest.approx(best, abs=1e-9)


@pytest.mark.parametrize("pairs", [1, 3, 8])
def test_reflection_of_a_stack_against_transfer_matrices(pairs: int) -> None:
    """Quarter-wave layers of 1.56 and air, in air, at 450 nm."""
    tmm = pytest.importorskip("tmm")
    wave, first, second = 450.0, 1.56, 1.0
    layers, depths = [1.0], [inf]
    for _ in range(pairs):
        layers += [first, second]
        depths += [wave / 4 / first, wave / 4 / second]
    reflected = tmm.coh_tmm("s", [*layers, 1.0], [*depths, inf], 0, wave)["R"]
    assert function("stack-reflectance")(first, second, float(pairs)) == pytest.approx(reflected, rel=1e-6)
    peak = function("stack-peak-wavelength")(first, wave / 4 / first, 0.0, second, wave / 4 / second, 0.0)
    assert peak == pytest.approx(wave)


def test_refraction_against_a_library() -> None:
    tmm = pytest.importorskip("tmm")
    for angle in (0.0, 0.3, 1.2):
        expected = tmm.snell(1.0, 1.52, angle).real
        assert function("refraction-angle")(1.0, angle, 1.52) == pytest.approx(expected, rel=1e-6)


def test_small_spheres_follow_rayleigh_and_large_ones_twice_their_shadow() -> None:
    """(8/3) x⁴ ((m² - 1)/(m² + 2))² at small x; towards 2 at large x (Bohren and Huffman 1983)."""
    scatter = function("sphere-scattering-efficiency")
    x, m = 0.02, 1.33
    rayleigh = 8 / 3 * x**4 * ((m**2 - 1) / (m**2 + 2)) ** 2
    assert scatter(x / pi, 1.0, m, 1.0) == pytest.approx(rayleigh, rel=1e-3)
    large = numpy.mean([scatter(x / pi, 1.0, m, 1.0) for x in numpy.linspace(500, 520, 41)])
    assert large == pytest.approx(2.0, rel=0.05)


@settings(max_examples=20, deadline=None)
@given(x=st.floats(0.01, 30.0), m=st.floats(1.05, 2.5))
def test_only_the_ratio_of_indices_and_of_lengths_counts(x: float, m: float) -> None:
    scatter = function("sphere-scattering-efficiency")
    assert scatter(x / pi, 1.0, m, 1.0) == pytest.approx(scatter(x / pi * 1e-6 / 1.3, 1e-6, 1.3 * m, 1.3), rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(angle=st.floats(0.01, 1.5), index=st.floats(1.01, 3.0))
def test_light_bends_back_on_leaving(angle: float, index: float) -> None:
    inside = function("refraction-angle")(1.0, angle, index)
    assert inside < angle
    assert function("refraction-angle")(index, inside, 1.0) == pytest.approx(angle, abs=1e-6)


@settings(max_examples=25, deadline=None)
@given(first=st.floats(0.0, 1.0), second=st.floats(0.0, 1.0))
def test_two_layers_of_pigment_pass_the_product(first: float, second: float) -> None:
    share = function("transmitted-share")
    assert share(100.0, 1.0, first + second) == pytest.approx(share(100.0, 1.0, first) * share(100.0, 1.0, second))


def test_polarisation_from_the_two_intensities_of_rayleigh() -> None:
    """Air scatters 1 across and cos² along the plane; the degree is their difference over their sum."""
    for angle in (0.2, 1.0, 2.5):
        across, along = 1.0, cos(angle) ** 2
        expected = (across - along) / (across + along)
        assert function("sky-polarisation-degree")(1.0, angle) == pytest.approx(expected)


def test_arrays_are_computed_element_by_element() -> None:
    shares = function("sphere-scattering-efficiency")(numpy.array([1.05e-6, 1e-8]), 0.6328e-6, 1.55, 1.0)
    assert shares[0] == pytest.approx(3.10543, rel=1e-4)
    assert shares[1] < 1e-4


def test_rays_near_the_axis_of_a_hollow_ball_meet_at_the_focal_length() -> None:
    """A ray parallel to the axis, reflected at the ball by the law of reflection, and where it crosses the axis."""
    radius = 0.3
    for height, tolerance in ((0.001, 1e-5), (0.01, 1e-3)):
        normal = numpy.array([-((1 - (height / radius) ** 2) ** 0.5), -height / radius])  # from the face to the centre
        point = -radius * normal - numpy.array([radius, 0.0])  # from the vertex
        ray = numpy.array([1.0, 0.0])
        back = ray - 2 * (ray @ normal) * normal
        crossing = point[0] - point[1] / back[1] * back[0]
        assert -crossing == pytest.approx(function("mirror-focal-length")(radius), rel=tolerance)
