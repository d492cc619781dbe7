"""Water and air at a temperature and an altitude, for symbols that nobody gives a value.

Computed by `chemicals` (water: IAPWS-95 and the IAPWS releases on viscosity, surface tension and conductivity; air:
Lemmon et al. 2000, Lemmon & Jacobsen 2004) and `fluids` (US Standard Atmosphere 1976, which is ISA up to 11 km), both
MIT licence. At 20 °C and 101 325 Pa a table is used instead, since importing them costs more than half a second; a
test holds the table to the libraries.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any, Literal

from analog.scale.units import spell

Fluid = Literal["water", "air"]
ROOM_KELVIN = 293.15
STANDARD_PASCAL = 101325.0
FREEZES = 273.15
DENSEST = 277.13
"""Water is densest near 4 °C, so that a range across it has its extreme inside."""

AT_ROOM: dict[tuple[Fluid, str], float] = {
    ("water", "density"): 998.207150,
    ("water", "viscosity"): 1.00159615e-3,
    ("water", "surface-tension"): 0.0727361404,
    ("water", "vapour-pressure"): 2339.31818,
    ("water", "thermal-conductivity"): 0.598012356,
    ("water", "speed-of-sound"): 1482.34617,
    ("air", "density"): 1.2042899,
    ("air", "viscosity"): 1.82056752e-5,
    ("air", "thermal-conductivity"): 0.0258738283,
    ("air", "speed-of-sound"): 343.23,
    ("air", "pressure"): 101325.0,
}
"""SI values at 20 °C and 101 325 Pa."""

PROPERTIES = ("density", "viscosity", "surface-tension", "vapour-pressure", "thermal-conductivity", "speed-of-sound")


def pressure_at(altitude: float | None) -> float:
    """Pascal at an altitude in metres (US Standard Atmosphere 1976); the standard value without one."""
    if altitude is None or altitude == 0:
        return STANDARD_PASCAL
    return _atmosphere(altitude)[1]


def temperature_at(altitude: float) -> float:
    """Kelvin at an altitude in metres (US Standard Atmosphere 1976)."""
    return _atmosphere(altitude)[0]


@lru_cache(maxsize=1024)
def _atmosphere(altitude: float) -> tuple[float, float]:
    if not -610 <= altitude <= 80000:
        raise ValueError(f"expected an altitude of -610 to 80 000 m, found {altitude:g} m")
    from fluids.atmosphere import ATMOSPHERE_1976

    state = ATMOSPHERE_1976(altitude)
    return float(state.T), float(state.P)


@lru_cache(maxsize=4096)
def fluid_property(fluid: Fluid, quantity: str, kelvin: float, pascal: float = STANDARD_PASCAL) -> float:
    """A property of liquid water or of dry air, in SI units.

    Raises ValueError where water is frozen or boils at ordinary pressure, or air is outside 60 to 2000 K.
    """
    if (fluid, quantity) not in AT_ROOM:
        raise ValueError(f"expected one of {', '.join(PROPERTIES)}, found {quantity!r} of {fluid}")
    if kelvin == ROOM_KELVIN and pascal == STANDARD_PASCAL:
        return AT_ROOM[fluid, quantity]
    if fluid == "air":
        return _air(quantity, kelvin, pascal)
    return _water(quantity, kelvin, pascal)


def _air(quantity: str, kelvin: float, pascal: float) -> float:
    if not 60 <= kelvin <= 2000:
        raise ValueError(f"expected air between -213 and 1727 °C, found {spell(kelvin, 'K')}")
    if quantity == "pressure":
        return pascal
    import chemicals.air
    import chemicals.thermal_conductivity
    import chemicals.viscosity

    library: Any = chemicals
    molar = library.air.lemmon2000_rho(kelvin, pascal)  # mol/m³
    if quantity == "density":
        return float(molar * library.air.lemmon2000_air_MW / 1000)
    if quantity == "viscosity":
        return float(library.viscosity.mu_air_lemmon(kelvin, molar))
    if quantity == "thermal-conductivity":
        return float(library.thermal_conductivity.k_air_lemmon(kelvin, molar))
    # dry air as an ideal gas with ratio of specific heats 1.4; within 0.2 % between -60 and 60 °C
    return float((1.4 * 8.314462618 / 0.0289586 * kelvin) ** 0.5)


def _water(quantity: str, kelvin: float, pascal: float) -> float:
    import chemicals.iapws
    import chemicals.interface
    import chemicals.thermal_conductivity
    import chemicals.viscosity

    library: Any = chemicals
    if quantity == "vapour-pressure":
        return float(library.iapws.iapws95_Psat(kelvin) if kelvin >= 273.16 else library.iapws.iapws11_Psub(kelvin))
    if kelvin < FREEZES:
        raise ValueError(f"water is frozen at {spell(kelvin, 'K')}")
    if pascal < library.iapws.iapws95_Psat(max(kelvin, 273.16)):
        raise ValueError(f"water boils at {spell(kelvin, 'K')} and {spell(pascal, 'Pa')}")
    if quantity == "surface-tension":
        return float(library.interface.sigma_IAPWS(kelvin))
    density = library.iapws.iapws95_rho(kelvin, pascal)
    if quantity == "density":
        return float(density)
    if quantity == "viscosity":
        return float(library.viscosity.mu_IAPWS(kelvin, density))
    if quantity == "thermal-conductivity":
        return float(library.thermal_conductivity.k_IAPWS(kelvin, density))
    return float(library.iapws.iapws95_properties(kelvin, pascal)[6])
