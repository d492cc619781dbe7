"""Water and air against the libraries that compute them, a second library, and the standard atmosphere."""

from __future__ import annotations

import pytest

from analog.scale import fluid_properties
from analog.scale.fluid_properties import AT_ROOM, fluid_property, pressure_at, temperature_at


@pytest.mark.parametrize(("fluid", "quantity"), sorted(AT_ROOM))
def test_the_table_at_room_temperature_is_the_librarys(fluid: str, quantity: str) -> None:
    compute = fluid_properties._air if fluid == "air" else fluid_properties._water
    tolerance = 2e-4 if (fluid, quantity) == ("air", "speed-of-sound") else 1e-6  # an ideal gas there
    assert AT_ROOM[fluid, quantity] == pytest.approx(compute(quantity, 293.15, 101325.0), rel=tolerance)  # type: ignore[index]


CODES = {"density": "D", "viscosity": "V", "thermal-conductivity": "L", "speed-of-sound": "A", "surface-tension": "I"}


@pytest.mark.parametrize("kelvin", [278.15, 293.15, 333.15])
@pytest.mark.parametrize(("fluid", "quantity"), [(f, q) for f, q in AT_ROOM if q in CODES])
def test_coolprop_gives_the_same(fluid: str, quantity: str, kelvin: float) -> None:
    """CoolProp has its own formulations of the same substances: 0.5 %, for conductivity of water 1 %."""
    properties = pytest.importorskip("CoolProp.CoolProp")
    name = {"water": "Water", "air": "Air"}[fluid]
    second = ("Q", 0) if quantity == "surface-tension" else ("P", 101325)
    expected = properties.PropsSI(CODES[quantity], "T", kelvin, *second, name)
    tolerance = 0.01 if quantity == "thermal-conductivity" else 0.005
    assert fluid_property(fluid, quantity, kelvin) == pytest.approx(expected, rel=tolerance)  # type: ignore[arg-type]


@pytest.mark.parametrize(("kelvin", "expected"), [(298.15, 3169.9), (263.15, 259.90)])
def test_vapour_pressure_over_water_and_over_ice(kelvin: float, expected: float) -> None:
    """3.1699 kPa at 25 °C (IAPWS steam tables); 259.9 Pa over ice at -10 °C (IAPWS R14-08), tables from memory."""
    assert fluid_property("water", "vapour-pressure", kelvin) == pytest.approx(expected, rel=2e-3)


@pytest.mark.parametrize(
    ("altitude", "kelvin", "pascal"), [(0.0, 288.15, 101325.0), (2000.0, 275.154, 79501.4), (11000.0, 216.774, 22699.9)]
)
def test_the_standard_atmosphere(altitude: float, kelvin: float, pascal: float) -> None:
    """US Standard Atmosphere 1976, table I by geometric altitude (values from memory of the table, 0.01 %)."""
    assert temperature_at(altitude) == pytest.approx(kelvin, rel=1e-4)
    assert pressure_at(altitude) == pytest.approx(pascal, rel=1e-4)


def test_cold_air_is_denser_by_the_gas_law() -> None:
    """ρ(−30 °C)/ρ(20 °C) = 293.15/243.15 = 1.2056 for an ideal gas; real air departs by less than 0.1 %."""
    ratio = fluid_property("air", "density", 243.15) / fluid_property("air", "density", 293.15)
    assert ratio == pytest.approx(293.15 / 243.15, rel=1e-3)


@pytest.mark.parametrize(("kelvin", "pascal", "word"), [(263.15, 101325.0, "frozen"), (393.15, 101325.0, "boils")])
def test_water_that_is_no_liquid_has_no_value(kelvin: float, pascal: float, word: str) -> None:
    with pytest.raises(ValueError, match=word):
        fluid_property("water", "viscosity", kelvin, pascal)


def test_water_boils_below_100_degrees_on_a_mountain() -> None:
    with pytest.raises(ValueError, match="boils"):
        fluid_property("water", "density", 370.15, pressure_at(2000.0))


def test_an_altitude_outside_the_atmosphere_is_refused() -> None:
    with pytest.raises(ValueError, match="altitude"):
        pressure_at(200000.0)
