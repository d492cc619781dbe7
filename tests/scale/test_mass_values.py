"""Diffusion, osmosis, swelling, membranes and pumps against libraries, textbooks and hand arithmetic.

CHECKS: function, inputs in SI units, expected value, kind of source (it sets the tolerance), source.
"""

from __future__ import annotations

from math import log

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

GRAVITY = 9.80665
FIELDS = frozenset({"mass and moisture", "heat"})
MOLAR_VOLUME = 1.807e-5  # m³/mol of water at 25 °C

CHECKS = [
    ("diffusion-time", (1e-3, 2.1e-9), 238, "arithmetic", "1e-6 / 4.2e-9, oxygen in water"),
    ("diffusion-time", (1e-5, 2.1e-9), 0.0238, "arithmetic", "1e-10 / 4.2e-9"),
    ("diffusion-time", (0.01, 1.6e-5), 3.125, "exact", "1e-4 / 3.2e-5, carbon dioxide in air"),
    ("diffusion-time-share", (1e-3, 2.1e-9, 476.0), 0.5, "arithmetic", "238 / 476"),
    ("diffusion-time-share", (1e-3, 5e-11, 1e4), 1.0, "exact", "1e-6 / 1e-10 / 1e4"),
    ("peclet-number", (1.5, 2.0, 1e-9), 3e9, "library", "fluids 1.3.1, Peclet_mass"),
    ("peclet-number", (30e-6, 1e-6, 5e-10), 0.06, "exact", "bacterium: 30e-12 / 5e-10"),
    ("osmotic-pressure", (100.0, 293.15), 243738, "arithmetic", "100 x 8.314463 x 293.15"),
    ("osmotic-pressure", (300.0, 310.15), 773619, "arithmetic", "300 x 8.314463 x 310.15"),
    ("osmotic-pressure", (1.0, 310.15), 19.3 * 133.322, "memory", "physiology texts: 19.3 mmHg for each mosmol/L"),
    ("osmotic-pressure", (1100.0, 298.15), 2.6e6, "memory", "sea water, measured 2.5 to 2.7 MPa"),
    ("solute-volume-share", (1100.0, MOLAR_VOLUME), 0.019877, "exact", "1100 x 1.807e-5"),
    ("solute-volume-share", (1 / MOLAR_VOLUME, MOLAR_VOLUME), 1.0, "exact", "one for one"),
    ("water-potential-of-air", (293.15, 0.5, 1.805e-5), -93.5e6, "memory", "Nobel 2009: -93.5 MPa at 20 °C, 50 %"),
    ("water-potential-of-air", (293.15, 0.99, 1.805e-5), -1.3572e6, "arithmetic", "135.03 MPa x ln 0.99"),
    (
        "gravity-to-suction-share",
        (998.2, GRAVITY, 100.0, 293.15, 0.99, 1.805e-5),
        0.7213,
        "arithmetic",
        "0.9789 / 1.3572",
    ),
    (
        "gravity-to-suction-share",
        (998.2, GRAVITY, 100.0, 293.15, 0.5, 1.805e-5),
        0.010459,
        "arithmetic",
        "0.9789 / 93.596",
    ),
    (
        "gravity-to-capillary-share",
        (998.2, GRAVITY, 1.486, 1e-5, 0.07274),
        1.0,
        "arithmetic",
        "Jurin: 1.486 m at 10 µm",
    ),
    ("gravity-to-capillary-share", (998.2, GRAVITY, 0.743, 1e-5, 0.07274), 0.5, "arithmetic", "half of Jurin's height"),
    ("bilayer-curvature", (0.1, 1e-3, 1.0, 1.0), 150.0, "exact", "Timoshenko 1925: 3/2 of strain over thickness"),
    ("bilayer-curvature", (0.1, 1e-3, 0.5, 2.0), 145.9459459, "exact", "0.1 / 0.001 x 13.5 / 9.25"),
    ("fill-ratio", (0.2, 45.0), 9.0, "exact", "0.2 x 45"),
    ("fill-ratio", (0.5, 2.0), 1.0, "exact", "0.5 x 2"),
    ("surface-coverage", (0.5, 2.0), 0.5, "exact", "1 / 2"),
    ("surface-coverage", (0.2, 45.0), 0.9, "exact", "9 / 10"),
    ("binding-to-thermal-ratio", (2479.0, 298.15), 1.0, "arithmetic", "RT is 2.479 kJ/mol at 25 °C"),
    ("binding-to-thermal-ratio", (40000.0, 298.15), 16.136, "arithmetic", "40 / 2.479"),
    ("membrane-flux", (1e-5, 300.0), 3e-3, "exact", "1e-5 x 300"),
    ("membrane-flux", (2e-3, -50.0), -0.1, "exact", "-2e-3 x 50"),
    ("ion-transport-energy", (310.15, 12.0, 145.0, 1.0, 0.07), 13180, "arithmetic", "2578.7 x 2.4918 + 6754"),
    ("ion-transport-energy", (298.15, 1.0, 10.0, 1.0, 0.0), 5708, "arithmetic", "RT ln 10 = 96485 x 59.159 mV"),
    ("pump-energy-share", (3.0, 50000.0, 310.15, 12.0, 145.0, 1.0, 0.07), 0.7908, "arithmetic", "3 x 13180 / 50000"),
    ("carried-flux", (2e-9, 0.1, 0.0, 1e-10, 0.0, 0.003, 1e-4), 2e-6, "exact", "no carrier: Fick, 2e-9 x 0.1 / 1e-4"),
    ("carried-flux", (2e-9, 0.1, 0.1, 1e-10, 5.0, 0.003, 1e-4), 0.0, "exact", "the same at both ends: nothing flows"),
    (
        "carried-flux",
        (1.5e-9, 0.01, 0.0, 1e-10, 1.0, 0.01, 1e-4),
        6.5e-7,
        "exact",
        "(1.5e-11 + 1e-10 x 0.5) / 1e-4: the half loaded carrier brings three times the free gas",
    ),
    ("porous-drainage-speed", (30.0, 9.80665, 1e-11, 1.8e-3), 1.63444e-6, "arithmetic", "2.941995e-9 / 1.8e-3"),
    ("porous-drainage-speed", (0.0, 9.80665, 1e-11, 1.8e-3), 0.0, "exact", "equal densities do not drain"),
    ("solute-share-kept", (0.12, 0.0, 1e-3, 1e-9), 0.12, "exact", "no growth: the share at equilibrium"),
    ("solute-share-kept", (0.3, 1e-6, 1e-3, 1e-9), 0.538101, "arithmetic", "0.3 / (0.3 + 0.7 x 0.367879)"),
    (
        "solute-share-kept",
        (0.26, 1e-7, 7.243e-4, 1e-9),
        0.274176,
        "arithmetic",
        "sea ice at 1e-5 cm/s, 0.26 / (0.26 + 0.74 exp(-7243 V)); coefficients of Cox and Weeks 1988 from memory",
    ),
    ("fine-pore-pressure-ratio", (400.0, 100.0), 2.0, "exact", "root of 4"),
    ("fine-pore-pressure-ratio", (303.15, 293.15), 1.016913, "arithmetic", "ten degrees warmer: √1.034112"),
    (
        "peclet-number",
        (0.01, 5e-3, 5e-10),
        1e5,
        "exact",
        "knee: 10 mm/s x 5 mm / (0.5 MPa x 1e-15 m⁴/(N s))",
    ),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "kind", "source"), CHECKS)
def test_function_gives_the_published_or_worked_value(
    name: str, inputs: tuple[float, ...], expected: float, kind: str, source: str
) -> None:
    assert_value(name, inputs, expected, kind, source)


def test_records_and_functions_agree_on_inputs() -> None:
    assert_records_fit("mass", FIELDS, {name for name, *_ in CHECKS})


@pytest.mark.parametrize("principle", ["diffusion", "osmosis", "selective-permeability", "hygroscopic-swelling"])
def test_groups_are_pure_numbers(principle: str) -> None:
    assert_groups_are_dimensionless(principle)


@pytest.mark.parametrize("principle", ["diffusion", "selective-permeability", "hygroscopic-swelling", "adsorption"])
def test_equations_have_the_unit_of_their_output(principle: str) -> None:
    assert_unit_of_equation(principle)


@pytest.mark.parametrize(
    ("outside", "inside", "charge", "millivolt"), [(5.0, 140.0, 1.0, -89.059), (145.0, 12.0, 1.0, 66.598)]
)
def test_at_the_equilibrium_voltage_moving_an_ion_costs_nothing(
    outside: float, inside: float, charge: float, millivolt: float
) -> None:
    # Equilibrium voltages at 37 °C, inside less outside; physiology texts give -89 to -90 and +66 to +67 mV.
    inward = function("ion-transport-energy")(310.15, outside, inside, charge, millivolt * 1e-3)
    assert inward == pytest.approx(0.0, abs=0.5)  # J/mol, 0.005 mV
    outward = function("ion-transport-energy")(310.15, inside, outside, charge, -millivolt * 1e-3)
    assert outward == pytest.approx(-inward, abs=1e-6)


def test_the_sodium_pump_stays_below_the_energy_of_its_fuel() -> None:
    # Three sodium out, two potassium in for one ATP of 50 to 60 kJ/mol in a cell (Läuger 1991, from memory).
    sodium = function("ion-transport-energy")(310.15, 12.0, 145.0, 1.0, 0.07)
    potassium = function("ion-transport-energy")(310.15, 5.0, 140.0, 1.0, -0.07)
    assert 35e3 < 3 * sodium + 2 * potassium < 50e3


# Natural cases with figures of the papers and books named (from memory) lie inside the bounds or at their edge.
NATURE = [
    ("diffusion", "peclet-number", (30e-6, 1e-6, 1e-9), "bacterium swimming, Berg 1993"),
    ("diffusion", "peclet-number", (0.0, 1e-2, 1.6e-5), "still air in the wall of a mound"),
    ("osmosis", "solute-share", (1100.0, MOLAR_VOLUME), "sea water at a mangrove root"),
    ("osmosis", "solute-share", (1200.0, MOLAR_VOLUME), "human kidney at its strongest"),
    ("water-potential-flow", "gravity-share", (998.2, GRAVITY, 115.0, 293.15, 0.9, 1.805e-5), "redwood, Koch 2004"),
    ("water-potential-flow", "pore-share", (998.2, GRAVITY, 115.0, 5e-9, 0.0728), "pores of leaf cell walls"),
    ("hygroscopic-swelling", "slenderness", (8e-3, 1e-3), "bending zone of a pine cone scale, Reyssat 2009"),
    ("hygroscopic-swelling", "time-share", (0.3e-3, 1e-10, 43200.0), "awn 0.3 mm thick within half a day"),
    ("selective-permeability", "selectivity", (2e-3, 1e-12), "cell membrane with water channels"),
    ("ion-pumping", "energy-share", (3.0, 50e3, 310.15, 12.0, 145.0, 1.0, 0.07), "sodium pump"),
    ("ion-pumping", "energy-share", (1.0, 55e3, 293.15, 1e-4, 1.0, 2.0, 0.12), "calcium out of a plant cell"),
]


@pytest.mark.parametrize(("principle", "group", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle: str, group: str, inputs: tuple, case: str) -> None:
    assert_inside_regime(principle, group, inputs, case)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("diffusion-time", (1e-3, -1e-9), "diffusivity above zero, found -1e-09"),
        ("osmotic-pressure", (-1.0, 293.15), "particle concentration of zero or more"),
        ("water-potential-of-air", (293.15, 50.0, MOLAR_VOLUME), "relative humidity between 0 and 1, found 50"),
        ("water-potential-of-air", (293.15, 0.0, MOLAR_VOLUME), "relative humidity above zero"),
        ("bilayer-curvature", (0.1, 1e-3, 0.0, 1.0), "thickness ratio above zero"),
        ("ion-transport-energy", (310.15, 0.0, 145.0, 1.0, 0.07), "source concentration above zero"),
        ("surface-coverage", (1.0, -2.0), "concentration of zero or more, found -2"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


@settings(max_examples=25, deadline=None)
@given(concentration=st.floats(0.0, 1e9))
def test_coverage_grows_from_none_to_all(concentration: float) -> None:
    coverage = function("surface-coverage")
    assert 0 <= coverage(0.1, concentration) <= 1
    assert coverage(0.1, 2 * concentration + 1) > coverage(0.1, concentration)
    assert coverage(0.1, 1e15) == pytest.approx(1.0)


@settings(max_examples=25, deadline=None)
@given(ratio=st.floats(0.01, 100.0), stiffness=st.floats(0.01, 100.0))
def test_a_bilayer_bends_alike_whichever_layer_is_named_first_and_at_most_by_half_again(
    ratio: float, stiffness: float
) -> None:
    bend = function("bilayer-curvature")
    here = bend(0.05, 1e-3, ratio, stiffness)
    assert here == pytest.approx(bend(0.05, 1e-3, 1 / ratio, 1 / stiffness))
    assert 0 < here <= 1.5 * 0.05 / 1e-3 + 1e-6  # 3/2 of strain over thickness is the most (Timoshenko 1925)
    assert bend(0.05, 2e-3, ratio, stiffness) == pytest.approx(here / 2)


@settings(max_examples=25, deadline=None)
@given(humidity=st.floats(0.01, 0.99))
def test_saturated_air_pulls_nothing_and_drier_air_more(humidity: float) -> None:
    potential = function("water-potential-of-air")
    assert potential(293.15, 1.0, MOLAR_VOLUME) == 0
    assert potential(293.15, humidity, MOLAR_VOLUME) < potential(293.15, humidity + 0.01, MOLAR_VOLUME) <= 1e-9
    share = function("gravity-to-suction-share")
    assert share(998.2, GRAVITY, 10.0, 293.15, 1.0, MOLAR_VOLUME) == float("inf")


def test_arrays_are_computed_element_by_element() -> None:
    humidity = numpy.array([0.5, 0.25])
    potential = function("water-potential-of-air")(293.15, humidity, MOLAR_VOLUME)
    assert potential[1] / potential[0] == pytest.approx(log(0.25) / log(0.5))
