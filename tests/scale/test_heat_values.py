"""Heat, melting and setting against libraries, textbooks and hand arithmetic.

CHECKS: function, inputs in SI units, expected value, kind of source (it sets the tolerance), source.
"""

from __future__ import annotations

from math import exp, pi, radians

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.scale.functions import _constants as constants
from analog.scale.functions.heat import water_vapour_pressure
from analog.scale.registry import function
from tests.scale.helpers import psychrometrics
from tests.scale.record_checks import (
    assert_groups_are_dimensionless,
    assert_inside_regime,
    assert_records_fit,
    assert_unit_of_equation,
    assert_value,
)

FIELDS = frozenset({"heat", "mass and moisture"})
FLUIDS = "fluids 1.3.1"
COPPER = (100.0, pi * 0.005, 398.0, pi * 0.005**2 / 4)  # rod of 5 mm: coefficient, perimeter, conductivity, section
SUGAR = "hand arithmetic from Gordon and Taylor's rule: "

CHECKS = [
    ("conduction-time", (0.01, 1.4e-7), 714, "arithmetic", "1e-4 / 1.4e-7, tissue"),
    ("conduction-time", (0.001, 1.4e-7), 7.14, "arithmetic", "1e-6 / 1.4e-7, tissue"),
    ("fourier-number", (1.5e-7, 1.5, 2.0), 5.625e-8, "library", f"{FLUIDS}, Fourier_heat"),
    ("fourier-number", (3e-7, 86400.0, 0.1), 2.592, "exact", "3e-7 x 86400 / 0.01"),
    ("convective-heat-flow", (10.0, 0.5, 310.0, 290.0), 100.0, "exact", "10 x 0.5 x 20"),
    ("convective-heat-flow", (25.0, 2.0, 280.0, 290.0), -500.0, "exact", "-25 x 2 x 10"),
    ("biot-number", (1000.0, 1.2, 300.0), 4.0, "library", f"{FLUIDS}, Biot"),
    ("biot-number", (20.0, 1e-3, 0.5), 0.04, "exact", "20 x 0.001 / 0.5"),
    ("evaporative-heat-flow", (1e-3, 2.441676e6), 2441.676, "library", "CoolProp 8.0.0: latent heat of water at 25 °C"),
    ("evaporative-heat-flow", (1e-3, 2.45e6), 2430.0, "memory", "FAO paper 56: latent heat of water 2.45 MJ/kg"),
    ("dew-point", (0.5, 293.15), 282.42239, "other formulation", "PsychroLib 2.5.0: 9.27239 °C"),
    ("dew-point", (0.6, 298.15), 289.85113, "other formulation", "PsychroLib 2.5.0: 16.70113 °C"),
    ("vapour-pressure-share", (1.0, 300.0, 300.0), 1.0, "exact", "saturated air as warm as the surface"),
    ("vapour-pressure-share", (0.5, 298.15, 293.15), 0.6777, "arithmetic", "0.5 x 3169.2 / 2338.8, steam tables"),
    ("radiative-heat-flow", (1.0, 1.0, 300.0, 0.0), 459.30, "arithmetic", "5.670374e-8 x 81e8"),
    ("radiative-heat-flow", (0.95, 2.0, 300.0, 280.0), 210.49, "arithmetic", "1.9 x 5.670374e-8 x 1.95344e9"),
    ("radiation-exchange", (1.0, 1.0, 300.5, 299.5), 6.1240, "arithmetic", "4 σ T³ at 300 K for one kelvin"),
    ("radiation-exchange", (0.95, 0.1, 310.0, 295.0), 8.954, "arithmetic", "0.095 x 5.670374e-8 x 1.66194e9"),
    ("counter-current-effectiveness", (1.0, 1.0, 1.0), 0.5, "library", "ht 1.2.0, effectiveness_from_NTU"),
    ("counter-current-effectiveness", (9.0, 1.0, 1.0), 0.9, "exact", "9 / 10"),
    ("counter-current-effectiveness", (2.0, 1.0, 2.0), 0.774575, "arithmetic", "0.632121 / (1 - 0.5 x 0.367879)"),
    ("fin-parameter", (*COPPER, 1.0), 14.178, "arithmetic", "√(4 x 100 / (398 x 0.005))"),
    ("fin-parameter", (10.0, 2.0, 200.0, 1e-3, 0.1), 1.0, "exact", "√(20 / 0.2) x 0.1"),
    ("fin-efficiency", (10.0, 2.0, 200.0, 1e-3, 0.05), 0.92423, "arithmetic", "tanh(0.5) / 0.5"),
    ("fin-efficiency", (10.0, 2.0, 200.0, 1e-3, 0.1), 0.76159, "arithmetic", "tanh(1)"),
    ("fin-efficiency", (10.0, 2.0, 200.0, 1e-3, 0.265), 0.37361, "arithmetic", "tanh(2.65) / 2.65"),
    ("fin-biot-number", (100.0, COPPER[3], COPPER[1], 398.0), 3.1407e-4, "arithmetic", "100 x 0.00125 / 398"),
    ("fin-biot-number", (10.0, 1e-3, 2.0, 0.5), 0.01, "exact", "0.01 / 1"),
    ("latent-heat-stored", (2.0, 3.34e5), 6.68e5, "exact", "2 x 334 kJ"),
    ("latent-heat-stored", (1.0, 3.3355e5), 79.7 * 4186.8, "arithmetic", "heat of fusion of ice 79.7 kcal/kg"),
    ("stefan-number", (4000.0, 10.0, 2e6), 0.02, "library", f"{FLUIDS}, Jakob"),
    ("stefan-number", (2100.0, 8.0, 3.34e5), 0.0503, "arithmetic", "16800 / 334000"),
    ("freezing-point-lowering", (1.86, 0.3), 0.56, "memory", "clinical chemistry: freezing point of blood serum"),
    ("freezing-point-lowering", (1.86, 1.0), 1.86, "exact", "definition of the cryoscopic constant"),
    ("solute-share", (1.0, 0.018015), 0.018015, "exact", "1 x 0.018015"),
    ("solute-share", (55.51, 0.018015), 1.0, "arithmetic", "55.51 mol of water in a kilogram"),
    ("nucleation-barrier-share", (pi / 2,), 0.5, "exact", "half a ball at 90 degrees"),
    ("nucleation-barrier-share", (radians(60),), 0.15625, "exact", "2.5 x 0.25 / 4"),
    ("curvature-melting-lowering", (0.029, 273.15, 917.0, 3.34e5, 50e-9), 1.0345, "arithmetic", "15.8427 / 15.3139"),
    ("curvature-melting-lowering", (0.0317, 273.15, 917.0, 3.34e5, 1e-6), 0.05654, "arithmetic", "17.3177 / 306.278"),
    ("curvature-lowering-share", (0.029, 917.0, 3.34e5, 50e-9), 3.7874e-3, "arithmetic", "0.058 / 15.3139"),
    ("premelted-film-pressure", (273.15, 917.0, 3.34e5, 1.0), 1.1213e6, "arithmetic", "3.06278e8 / 273.15"),
    (
        "premelted-film-pressure",
        (273.15, 917.0, 3.34e5, 1.0),
        1.12e6,
        "memory",
        "frost heave: 1.12 MPa a kelvin",
    ),
    ("premelted-film-load-share", (1.8e4, 273.15, 917.0, 3.34e5, 0.1), 0.16053, "arithmetic", "1.8e4 / 1.1213e5"),
    ("pressure-melting-lowering", (273.15, 9.05e-5, 1e6, 3.34e5), 0.0740, "arithmetic", "2.472e4 / 3.34e5"),
    ("pressure-melting-lowering", (273.15, 9.05e-5, 101325.0, 3.34e5), 0.0075, "memory", "0.0075 K an atmosphere"),
    ("sensible-heat-stored", (500.0, 3500.0, 6.0), 1.05e7, "exact", "1.75e6 x 6"),
    ("sensible-heat-stored", (1.0, 4186.8, 1.0), 4186.8, "exact", "definition of the kilocalorie"),
    ("oxidation-heat-flow", (1e-3 / 60, 2.01e7), 335.0, "exact", "20100 J a litre, one litre a minute"),
    ("oxidation-heat-flow", (0.25e-3 / 60, 2.01e7), 84.0, "memory", "man at rest: 250 mL of oxygen a minute, 84 W"),
    ("sunlit-temperature-rise", (0.5, 1000.0, 20.0), 25.0, "exact", "500 / 20"),
    ("sunlit-temperature-rise", (0.9, 800.0, 17.0), 42.35, "arithmetic", "720 / 17"),
    ("site-to-nucleus-ratio", (59.1e-9, 917.0, 3.34e5, 1.0, 0.03314, 273.15), 1.0, "arithmetic", "18.101 / 18.104"),
    ("site-to-nucleus-ratio", (1e-6, 917.0, 3.34e5, 2.0, 0.03, 273.15), 37.376, "arithmetic", "612.556 / 16.389"),
    ("glass-transition-of-mixture", (0.0, 385.0, 136.0, 6.5), 385.0, "exact", "dry matter alone"),
    ("glass-transition-of-mixture", (0.1, 340.0, 136.0, 5.0), 267.142857, "exact", SUGAR + "374 / 1.4"),
    ("temperature-to-glass-transition", (293.15, 0.05, 385.0, 136.0, 6.5), 0.9111, "arithmetic", SUGAR + "321.77 K"),
    ("ablated-mass", (50e3, 120.0, 10e6), 0.6, "exact", "grass fire on cork: 50 kW x 120 s / 10 MJ"),
    ("ablated-mass", (1e6, 60.0, 30e6), 2.0, "exact", "60 MJ / 30 MJ"),
    (
        "confined-pressure-rise",
        (2179062739.2515335, 0.00020680620730168, 1.0),
        450643.7005770193,
        "library",
        "CoolProp 8.0.0, water at 20 °C: modulus, expansion, and dp/dT at constant density",
    ),
    (
        "confined-pressure-rise",
        (888240356.9721866, 0.0010835932183778595, 1.0),
        962491.2271045906,
        "library",
        "CoolProp 8.0.0, ethanol at 20 °C: modulus, expansion, and dp/dT at constant density",
    ),
    ("frozen-thickness", (2.2, 1.0, 86400.0, 917.0, 334e3), 0.03523, "arithmetic", "√(380160 / 3.06278e8)"),
    (
        "frozen-thickness",
        (2.2, 1.0, 86400.0, 917.0, 334e3),
        0.035,
        "memory",
        "lake ice, 3.5 cm for each √(°C day)",
    ),
    ("frozen-thickness", (2.2, 10.0, 0.0, 917.0, 334e3), 0.0, "exact", "no time"),
    ("heat-loss-density", (10.0, 20.0, 0.125663706, 4.18879020e-3), 6000.0, "arithmetic", "ball of 0.1 m: 200 x 3 / r"),
    ("heat-loss-density", (5.0, 10.0, 6.0, 1.0), 300.0, "exact", "cube of 1 m: 50 x 6"),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "kind", "source"), CHECKS)
def test_function_gives_the_published_or_worked_value(
    name: str, inputs: tuple[float, ...], expected: float, kind: str, source: str
) -> None:
    assert_value(name, inputs, expected, kind, source)


def test_records_and_functions_agree_on_inputs() -> None:
    assert_records_fit("heat", FIELDS, {name for name, *_ in CHECKS})


@pytest.mark.parametrize(
    "principle",
    ["thermal-conduction", "fin-heat-transfer", "phase-change-storage", "freezing-point-depression", "premelted-film"],
)
def test_groups_are_pure_numbers(principle: str) -> None:
    assert_groups_are_dimensionless(principle)


@pytest.mark.parametrize(
    "principle",
    [
        "thermal-conduction",
        "convection-cooling",
        "evaporative-cooling",
        "phase-change-storage",
        "freezing-point-depression",
        "curvature-melting-point",
        "premelted-film",
        "pressure-melting",
        "heat-capacity-storage",
        "oxidation-heat",
        "sunlight-heat-gain",
    ],
)
def test_equations_have_the_unit_of_their_output(principle: str) -> None:
    assert_unit_of_equation(principle)


def test_constants_are_those_of_a_library() -> None:
    import scipy.constants

    assert pytest.approx(constants.MOLAR_GAS_CONSTANT, rel=1e-12) == scipy.constants.R
    assert scipy.constants.physical_constants["Faraday constant"][0] == pytest.approx(
        constants.FARADAY_CONSTANT, rel=1e-9
    )
    assert scipy.constants.sigma == pytest.approx(constants.STEFAN_BOLTZMANN_CONSTANT, rel=1e-9)
    assert scipy.constants.g == constants.STANDARD_GRAVITY
    assert pytest.approx(constants.GAS_CONSTANT_OF_DRY_AIR, rel=1e-5) == scipy.constants.R / 0.028966


@pytest.mark.parametrize(("celsius", "pascal"), [(25.0, 3169.2165), (20.0, 2338.8), (100.0, 101418.0)])
def test_vapour_pressure_is_that_of_psychrometric_and_steam_tables(celsius: float, pascal: float) -> None:
    # 25 °C: PsychroLib 2.5.0; 20 and 100 °C: steam tables, from memory to the digits shown
    assert water_vapour_pressure(celsius + 273.15) == pytest.approx(pascal, rel=1e-3)


def test_vapour_pressure_equals_the_verification_table_of_the_industrial_formulation() -> None:
    # IAPWS-IF97, verification of the saturation equation, from memory: 300 K -> 0.353658941e-2 MPa
    assert water_vapour_pressure(300.0) == pytest.approx(3536.58941, rel=1e-4)


@pytest.mark.parametrize(("celsius", "humidity"), [(20.0, 0.5), (30.0, 0.9), (35.0, 0.2), (10.0, 0.8)])
def test_dew_point_equals_that_of_a_psychrometric_library(celsius: float, humidity: float) -> None:
    psychrolib = psychrometrics()
    ours = function("dew-point")(humidity, celsius + 273.15)
    assert ours - 273.15 == pytest.approx(psychrolib.GetTDewPointFromRelHum(celsius, humidity), abs=0.02)


@settings(max_examples=25, deadline=None)
@given(celsius=st.floats(0.0, 45.0), humidity=st.floats(0.3, 1.0))
def test_at_the_dew_point_water_neither_settles_nor_leaves(celsius: float, humidity: float) -> None:
    air = celsius + 273.15
    dew = function("dew-point")(humidity, air)
    share = function("vapour-pressure-share")
    assert share(humidity, air, dew) == pytest.approx(1.0, abs=1e-6)
    assert share(humidity, air, dew - 1) > 1 > share(humidity, air, dew + 1)


@pytest.mark.parametrize("balance", [0.0001, 0.3, 0.9, 0.999999, 1.0])
@pytest.mark.parametrize("units", [0.01, 1.0, 4.0, 30.0])
def test_opposed_streams_agree_with_a_library(units: float, balance: float) -> None:
    from ht import effectiveness_from_NTU

    ours = function("counter-current-effectiveness")(units, 1.0, 1.0 / balance)
    assert ours == pytest.approx(effectiveness_from_NTU(units, balance, subtype="counterflow"), rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(units=st.floats(0.01, 50.0), balance=st.floats(0.01, 1.0))
def test_opposed_streams_hand_over_more_than_parallel_ones(units: float, balance: float) -> None:
    ours = function("counter-current-effectiveness")(units * balance, balance, 1.0)
    parallel = (1 - exp(-units * (1 + balance))) / (1 + balance)  # Kays and London 1984
    assert parallel - 1e-9 <= ours <= 1
    assert function("counter-current-effectiveness")(0.0, balance, 1.0) == 0


@settings(max_examples=25, deadline=None)
@given(length=st.floats(0.0, 10.0))
def test_a_short_fin_works_whole_and_a_long_one_gives_a_fixed_heat(length: float) -> None:
    efficiency = function("fin-efficiency")
    here = efficiency(10.0, 2.0, 200.0, 1e-3, length)
    assert 0 < here <= 1
    assert efficiency(10.0, 2.0, 200.0, 1e-3, 0.0) == 1
    assert here * length <= 0.1 + 1e-9  # m = 10/m here: beyond some lengths of 1/m nothing is gained


def test_infinite_fin_gives_the_heat_of_a_textbook_example() -> None:
    # Copper rod of 5 mm at 100 °C in air at 25 °C, h = 100: Incropera's example prints 8.3 W (from memory).
    efficiency = function("fin-efficiency")(*COPPER, 1.0)
    assert efficiency * 100.0 * COPPER[1] * 1.0 * 75.0 == pytest.approx(8.310, rel=0.005)


def test_the_cryoscopic_constant_of_water_follows_from_its_heat_of_fusion() -> None:
    # R T² M / heat of fusion, with 6009.5 J/mol: chemistry handbooks give 1.86 K kg/mol
    derived = constants.MOLAR_GAS_CONSTANT * 273.15**2 * 0.018015 / 6009.5
    assert function("freezing-point-lowering")(1.86, 1.0) == pytest.approx(derived, rel=0.001)


def test_the_nucleation_barrier_vanishes_on_a_wetted_surface_and_is_whole_on_a_shunned_one() -> None:
    share = function("nucleation-barrier-share")
    assert share(0.0) == 0
    assert share(pi) == pytest.approx(1.0)
    angles = numpy.linspace(0.0, pi, 50)
    assert (numpy.diff(share(angles)) > 0).all()


@settings(max_examples=25, deadline=None)
@given(water=st.floats(0.0, 1.0), constant=st.floats(1.0, 8.0))
def test_the_glass_transition_lies_between_those_of_the_parts_and_falls_with_water(
    water: float, constant: float
) -> None:
    mixture = function("glass-transition-of-mixture")
    assert 136.0 - 1e-9 <= mixture(water, 385.0, 136.0, constant) <= 385.0 + 1e-9
    assert mixture(min(1.0, water + 0.1), 385.0, 136.0, constant) <= mixture(water, 385.0, 136.0, constant) + 1e-9


# Natural cases with figures of the papers and books named (from memory) lie inside the bounds or at their edge.
NATURE = [
    ("convection-cooling", "biot-number", (50.0, 0.75e-3, 0.5), "silver ant, Shi 2015"),
    ("convection-cooling", "biot-number", (20.0, 0.02, 0.5), "toucan bill, Tattersall 2009"),
    ("evaporative-cooling", "vapour-pressure-share", (0.1, 313.15, 308.15), "camel nose in dry heat"),
    ("radiative-cooling", "temperature-ratio", (280.0, 321.0), "silver ant under a desert sky, Shi 2015"),
    ("radiative-cooling", "temperature-ratio", (265.0, 272.0), "ground on a clear frosty night"),
    ("counter-current-exchange", "transfer-units", (2.0, 1.0), "heron leg hands over two thirds, Steen & Steen 1965"),
    ("fin-heat-transfer", "fin-parameter", (10.0, 0.2, 200.0, 4e-4, 0.1), "aluminium fin for comparison"),
    ("fin-heat-transfer", "fin-biot-number", (10.0, 2e-4, 0.2, 0.5), "jackrabbit ear 2 mm thick"),
    ("phase-change-storage", "stefan-number", (4180.0, 5.0, 3.34e5), "freezing ground, swing of 5 K"),
    ("freezing-point-depression", "solute-share", (5.0, 0.018015), "wintering insect, Storey 1988"),
    ("freezing-point-depression", "solute-share", (1.1, 0.018015), "sea water"),
    ("heterogeneous-nucleation", "site-to-nucleus", (50e-9, 917.0, 3.34e5, 3.0, 0.03, 273.15), "ice-active bacterium"),
    ("curvature-melting-point", "lowering-share", (0.03, 917.0, 3.34e5, 10e-9), "gap between bound proteins, 20 nm"),
    ("glass-transition", "temperature-share", (298.15, 0.05, 385.0, 136.0, 6.5), "dried plant, 5 % water"),
    ("condensation", "saturation", (0.9, 288.15, 284.15), "leaf 4 K below damp night air"),
    ("condensation", "saturation", (1.0, 311.15, 298.15), "camel breath of 38 °C on a wall of 25 °C"),
]


@pytest.mark.parametrize(("principle", "group", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle: str, group: str, inputs: tuple, case: str) -> None:
    assert_inside_regime(principle, group, inputs, case)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("conduction-time", (0.01, 0.0), "thermal diffusivity above zero, found 0"),
        ("vapour-pressure-share", (50.0, 293.15, 290.0), "relative humidity between 0 and 1, found 50"),
        ("vapour-pressure-share", (0.5, 20.0, 15.0), "temperature between 235 and 647.096, found 20"),
        ("dew-point", (0.0, 293.15), "relative humidity above zero"),
        ("dew-point", (1e-4, 273.15), "expected a dew point of 235.0 K or more"),
        ("radiative-heat-flow", (1.3, 1.0, 300.0, 280.0), "emissivity between 0 and 1, found 1.3"),
        ("counter-current-effectiveness", (1.0, 2.0, 1.0), "smaller over larger stream between 0 and 1"),
        ("nucleation-barrier-share", (radians(200),), "from 0 to 180 degrees"),
        ("glass-transition-of-mixture", (1.2, 385.0, 136.0, 6.5), "softener share between 0 and 1"),
        ("fin-efficiency", (10.0, 2.0, 0.0, 1e-3, 0.1), "conductivity above zero"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


@pytest.mark.parametrize("frost", [2.0, 10.0])
def test_ice_grows_as_the_exact_solution_does_while_the_stefan_number_is_small(frost: float) -> None:
    """Neumann's solution for a melt at its freezing point: λ e^(λ²) erf λ = Ste/√π, thickness 2λ√(αt)."""
    from scipy.optimize import brentq
    from scipy.special import erf

    conductivity, density, latent, specific, duration = 2.2, 917.0, 334e3, 2100.0, 1e6
    stefan = specific * frost / latent
    root = brentq(lambda x: x * exp(x**2) * erf(x) - stefan / pi**0.5, 1e-6, 2.0)
    exact = 2 * root * (conductivity / (density * specific) * duration) ** 0.5
    ours = function("frozen-thickness")(conductivity, frost, duration, density, latent)
    assert exact <= ours <= exact * (1 + stefan / 5)
