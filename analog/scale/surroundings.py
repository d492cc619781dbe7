"""What fills the symbols that nobody gives: the temperature, water or air at it and at an altitude, defaults.

Every value filled in is told as an assumption, gravity excepted.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

from analog.model.types import Principle, Symbol
from analog.scale.fluid_properties import (
    AT_ROOM,
    DENSEST,
    ROOM_KELVIN,
    Fluid,
    fluid_property,
    pressure_at,
    temperature_at,
)
from analog.scale.invert import is_difference
from analog.scale.symbols import names_of
from analog.scale.units import spell, spell_range
from analog.scale.values import SymbolValue


@dataclass(frozen=True)
class Environment:
    """The surroundings that decide the properties of fluids.

    temperature : (low, high) in kelvin, altitude : in metres, None if not given. medium : None if neither water nor air
    is known. where : the words that gave them.
    """

    temperature: tuple[float, float] | None = None
    altitude: float | None = None
    medium: Fluid | None = None
    where: str = ""

    @property
    def given(self) -> bool:
        """Whether temperature or altitude is given at all."""
        return self.temperature is not None or self.altitude is not None


@dataclass(frozen=True)
class Gathered:
    """Values by symbol id, and by symbol id why a value cannot be had."""

    values: dict[str, SymbolValue] = field(default_factory=dict)
    unavailable: dict[str, str] = field(default_factory=dict)


_TEMPERATURE_NAMES = {
    "temperature",
    "air temperature",
    "ambient temperature",
    "temperature outside",
    "outside temperature",
}


@lru_cache(maxsize=16384)
def fluid_symbol(symbol: Symbol) -> tuple[str, Fluid | None] | None:
    """(property, fluid or None for whichever the medium is) if the symbol is a property of water or air."""
    names = [frozenset(name.lower().split()) for name in names_of(symbol)]
    first = names[0] | frozenset(symbol.id.split("-"))
    quantity = None
    if symbol.unit == "kg/m**3" and {"density", "difference"} <= first:
        usual = symbol.default is not None and _near(symbol.default, AT_ROOM["water", "density"])
        return ("density-over-air", "water") if usual else None
    # a lubricating film, a particle or the body in the flow has a density of its own
    # one of two liquids that do not mix is not the medium
    if first & {"light", "lighter", "heavy", "heavier", "displaced"}:
        return None
    if symbol.unit == "kg/m**3" and first & {"fluid", "liquid", "air", "water"} and not first & {"less", "particle"}:
        quantity = "density"
    elif symbol.unit == "Pa*s" and first & {"fluid", "liquid", "air", "water"}:
        quantity = "viscosity"
    elif symbol.unit == "N/m" and {"surface", "tension"} <= first and "difference" not in first:
        quantity = "surface-tension"
    elif symbol.unit == "Pa" and {"vapour", "pressure"} <= first and symbol.default is not None:
        quantity = "vapour-pressure"
    elif (
        symbol.unit == "Pa"
        and {"pressure"} <= first
        and first & {"ambient", "air", "atmospheric"}
        and symbol.default is not None
    ):
        return "pressure", "air"
    elif symbol.unit == "m/s" and symbol.id == "sound-speed":
        quantity = "speed-of-sound"
    if quantity is None:
        return None
    if quantity in {"surface-tension", "vapour-pressure"}:
        return (
            (quantity, "water") if symbol.default is None or _near(symbol.default, AT_ROOM["water", quantity]) else None
        )
    if symbol.default is not None:
        for fluid in ("water", "air"):
            if (fluid, quantity) in AT_ROOM and _near(symbol.default, AT_ROOM[fluid, quantity]):
                return quantity, fluid
        return None
    if first & {"liquid", "water"}:
        return quantity, "water"
    return (quantity, "air") if "air" in first else (quantity, None)


def _near(a: float, b: float) -> bool:
    return abs(a - b) <= 0.05 * abs(b)


def has_fluid(principle: Principle) -> bool:
    """Whether a principle has a property of water or air."""
    return any(fluid_symbol(symbol) is not None for symbol in principle.symbols)


def complete(principle: Principle, values: dict[str, SymbolValue], environment: Environment) -> Gathered:
    """Fill in what nobody gives: temperature, properties of water and air, defaults."""
    unavailable: dict[str, str] = {}
    for symbol in principle.symbols:
        if symbol.id in values:
            continue
        fluid = fluid_symbol(symbol)
        if fluid is not None:
            quantity, medium = fluid[0], fluid[1] or environment.medium
            if medium is not None and ((medium, quantity) in AT_ROOM or quantity == "density-over-air"):
                try:
                    values[symbol.id] = _of_fluid(symbol, medium, quantity, environment)
                except ValueError as error:
                    unavailable[symbol.id] = str(error)
                continue
        if symbol.unit == "K" and environment.temperature is not None and _TEMPERATURE_NAMES & set(names_of(symbol)):
            low, high = environment.temperature
            values[symbol.id] = SymbolValue(
                symbol.id, symbol.name, symbol.unit, low, high, "given", f"“{environment.where}”"
            )
        elif symbol.default is not None:
            values[symbol.id] = _default(symbol, symbol.default)
    return Gathered(values, unavailable)


@lru_cache(maxsize=4096)
def _default(symbol: Symbol, value: float) -> SymbolValue:
    difference = is_difference(symbol)
    told = f"{symbol.name} {spell(value, symbol.unit, difference=difference)} (default of the record)"
    return SymbolValue(
        symbol=symbol.id,
        name=symbol.name,
        unit=symbol.unit,
        low=value,
        high=value,
        origin="default",
        where="default of the record",
        told="" if symbol.id == "gravity" else told,
        difference=difference,
    )


@lru_cache(maxsize=4096)
def _of_fluid(symbol: Symbol, medium: Fluid, quantity: str, environment: Environment) -> SymbolValue:
    pascal = pressure_at(environment.altitude)
    if environment.temperature is not None:
        low, high = environment.temperature
    elif environment.altitude is not None:
        low = high = temperature_at(environment.altitude)
    else:
        low = high = ROOM_KELVIN
    dense = medium == "water" and quantity.startswith("density")
    points = dict.fromkeys([low, high, *([DENSEST] if dense and low < DENSEST < high else [])])
    if quantity == "density-over-air":
        found = [
            fluid_property("water", "density", kelvin, pascal) - fluid_property("air", "density", kelvin, pascal)
            for kelvin in points
        ]
    else:
        found = [fluid_property(medium, quantity, kelvin, pascal) for kelvin in points]
    at = spell_range(low, high, "K")
    if environment.altitude is not None:
        at += f" and {environment.altitude:g} m altitude"
    assumed = "" if environment.temperature is not None else " assumed"
    where = f"{medium} at {at}{assumed}"
    value = spell_range(min(found), max(found), symbol.unit)
    told = f"{symbol.name} {value}: {where}"
    return SymbolValue(symbol.id, symbol.name, symbol.unit, min(found), max(found), "fluid", where, told)
