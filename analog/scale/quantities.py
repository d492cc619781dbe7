"""Values for the symbols of a principle: what the natural system has, what the problem gives, and what fills the rest.

A quantity goes to the symbol whose name it bears (see `names`) and whose unit measures the same thing. What nobody
gives is, in this order: a size of a part that the problem has nothing for and that an engineer would therefore build as
nature has it; the property of water or air at the temperature and altitude in question; the default of the record. Each
of these is told as an assumption.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from analog.model.types import (
    Model,
    Part,
    Principle,
    PropertyNeed,
    Quantity,
    Setting,
    SizeNeed,
    StructureReason,
    Symbol,
    Transition,
    parsed,
)
from analog.problem.types import Condition, Problem, Thing
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
from analog.scale.names import Match, context_words, match, words
from analog.scale.units import same_dimension, spell, spell_range, to_si
from analog.scale.values import Origin, SymbolValue

LIQUID_KINDS = {"water", "sea", "liquid", "fluid", "blood", "urine", "sap", "saliva", "mucus"}
"""Words in the names of kinds that are liquids of mostly water."""
LEAST = 0.3
"""Matches below this are none."""


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


@dataclass(frozen=True)
class _Said:
    """A quantity in somebody's words. context : words by which its thing is known. near : the thing takes part."""

    text: str
    low: float | None
    high: float | None
    unit: str
    where: str
    context: frozenset[str]
    near: bool
    bonus: float = 0.0
    part: str | None = None
    to_build: bool = False


# The natural system --------------------------------------------------------------------------------------------


def of_nature(principle: Principle, model: Model, transition: Transition | None) -> Gathered:
    """What the model itself says, completed with fluids and defaults."""
    said = _said_by_model(model, transition, ())
    values = _assign(principle, said, "nature")
    medium: Fluid | None = None
    if any(value.part is not None and _is_liquid(model.part(value.part)) for value in values.values()):
        medium = "water"  # the liquid whose viscosity or speed is told is the fluid in question
    elif Setting.WATER in model.habitat.settings and Setting.AIR not in model.habitat.settings:
        medium = "water"
    elif Setting.AIR in model.habitat.settings and Setting.WATER not in model.habitat.settings:
        medium = "air"
    return complete(principle, values, Environment(medium=medium, where="the habitat"))


def _is_liquid(part: Part) -> bool:
    return bool(set(part.kind.split("-")) & LIQUID_KINDS)


def _said_by_model(model: Model, transition: Transition | None, roles: Sequence[str]) -> list[_Said]:
    near = parts_of(model, transition) if transition is not None else {part.id for part in model.parts}
    said: list[_Said] = []
    if transition is not None:
        for need in transition.needs:
            # a limit is not where the system sits; a range with both ends is where it works
            if isinstance(need, SizeNeed | PropertyNeed) and need.low is not None and need.high is not None:
                said.append(_of_need(model, need, roles))
    for part in model.parts:
        for quantity in part.properties:
            said.append(_of_quantity(quantity, part, part.id in near, part.id not in roles))
    for quantity in model.sizes:
        lengthy = any(same_dimension(quantity.unit, unit) for unit in ("m", "m**2", "m**3"))
        said.append(_of_quantity(quantity, None, True, lengthy))
    return said


def _of_quantity(quantity: Quantity, part: Part | None, near: bool, to_build: bool) -> _Said:
    low, high = quantity.bounds
    of = f" of the {part.name}" if part is not None else ""
    context = context_words((part.name, part.kind, part.id)) if part is not None else frozenset()
    return _Said(
        quantity.name, low, high, quantity.unit, f"{quantity.name}{of}", context, near, 0.02 * (part is not None),
        part.id if part is not None else None, to_build,
    )  # fmt: skip


def _of_need(model: Model, need: SizeNeed | PropertyNeed, roles: Sequence[str]) -> _Said:
    """The range in which a step works: it counts only where no value is said."""
    part = model.part(need.part) if need.part else None
    context = context_words((part.name, part.kind, part.id)) if part is not None else frozenset()
    where = f"{need.quantity}" + (f" of the {part.name}" if part is not None else "") + ", the range told as a need"
    return _Said(
        need.quantity, need.low, need.high, need.unit, where, context, True, -0.2,
        need.part, part is not None and part.id not in roles,
    )  # fmt: skip


@lru_cache(maxsize=4096)
def _parts(model_id: str, facts: tuple[str, ...], more: tuple[str, ...]) -> frozenset[str]:
    return frozenset(part for fact in facts for part in parsed(fact).parts) | frozenset(more)


def parts_of(model: Model, transition: Transition) -> frozenset[str]:
    """The parts a transition speaks of: in the facts it changes, its structural reasons and its needs."""
    before = next((state.facts for state in model.states if state.id == transition.from_state), ())
    after = next((state.facts for state in model.states if state.id == transition.to_state), ())
    reasons = tuple(reason.fact for reason in transition.reasons if isinstance(reason, StructureReason))
    needs = tuple(part for need in transition.needs if (part := getattr(need, "part", None)) is not None)
    return _parts(model.id, (*before, *after, *reasons), needs)


# The problem ---------------------------------------------------------------------------------------------------


def numbers_of(problem: Problem) -> tuple[Condition, ...]:
    """The conditions that give a number."""
    return tuple(
        condition
        for condition in problem.conditions
        if condition.type in {"range", "angle", "temperature"}
        and condition.unit
        and (condition.low is not None or condition.high is not None)
    )


def environment_of(problem: Problem, model: Model | None = None) -> Environment:
    """Temperature, altitude and medium as given; where no medium is given, air, as everywhere in the program."""
    lows, highs, where = [], [], []
    altitude: float | None = None
    for condition in numbers_of(problem):
        if condition.type == "temperature" and _is_ambient(condition):
            lows.append(condition.low if condition.low is not None else condition.high)
            highs.append(condition.high if condition.high is not None else condition.low)
            where.append(condition.text)
        elif _is_altitude(condition):
            value = condition.high if condition.high is not None else condition.low
            altitude = to_si(value or 0.0, condition.unit or "m", "m")
            where.append(condition.text)
    low = max((value for value in lows if value is not None), default=None)
    high = min((value for value in highs if value is not None), default=None)
    temperature = (min(low, high), max(low, high)) if low is not None and high is not None else None
    return Environment(temperature, altitude, _medium(problem), "; ".join(where))


def _medium(problem: Problem) -> Fluid:
    for condition in problem.conditions:
        if condition.type == "medium" and condition.kind:
            pieces = condition.kind.split("-")
            if "air" in pieces or "gas" in pieces:
                return "air"
            if LIQUID_KINDS & set(pieces):
                return "water"
    return "air"


def _is_ambient(condition: Condition) -> bool:
    said = words(condition.about or "")
    return not said - {"ambient", "outdoor", "outside", "air", "surrounding", "temperature", "weather", "cold", "space"}


def _is_altitude(condition: Condition) -> bool:
    said = words(f"{condition.about or ''} {condition.text}")
    return (
        condition.type == "range"
        and same_dimension(condition.unit or "", "m")
        and bool(said & {"altitude", "elevation"} or {"sea", "level"} <= said)
    )


def of_problem(
    principle: Principle,
    model: Model | None,
    transition: Transition | None,
    problem: Problem,
    roles: Mapping[str, Thing],
) -> Gathered:
    """What the problem gives, completed with sizes of parts still to be built, with fluids and defaults.

    roles : part id -> the thing of the problem it stands for.
    """
    values = _assign(principle, list(_said_by_problem(model, problem, roles)), "given")
    environment = environment_of(problem)
    if not values and not (environment.given and _has_fluid(principle)):
        return Gathered()  # nothing of this principle is given: a check would only repeat nature's own numbers
    if model is not None:
        said = [each for each in _said_by_model(model, transition, tuple(roles)) if each.to_build]
        for symbol_id, value in _assign(principle, said, "nature", _built_symbols(principle, values)).items():
            values.setdefault(symbol_id, value)
    return complete(principle, values, environment)


def _built_symbols(principle: Principle, given: Mapping[str, SymbolValue]) -> frozenset[str]:
    """Symbols that can be a shape or material to build: lengths, areas, angles, counts and shares."""
    return frozenset(
        symbol.id
        for symbol in principle.symbols
        if symbol.id not in given and symbol.unit in {"m", "m**2", "m**3", "radian", "dimensionless", "Pa", "J/m**2"}
        and not (symbol.unit == "Pa" and "pressure" in symbol.name)
    )  # fmt: skip


def _said_by_problem(model: Model | None, problem: Problem, roles: Mapping[str, Thing]) -> Iterator[_Said]:
    for condition in numbers_of(problem):
        if _is_altitude(condition):
            continue
        if condition.type == "temperature":
            text = "temperature" if _is_ambient(condition) else f"{condition.about} temperature"
        elif condition.quantity:
            about = condition.about or ""
            text = f"{about} {condition.quantity}" if not words(condition.quantity) & words(about) else (
                f"{' '.join(w for w in about.split() if w not in condition.quantity.split())} {condition.quantity}"
            )  # fmt: skip
        else:
            continue
        context, part = _thing_of(condition, model, problem, roles)
        yield _Said(
            text.strip(), condition.low, condition.high, condition.unit or "", f"“{condition.text}”",
            context, True, 0.0, part,
        )  # fmt: skip


def theirs_to_tell(model: Model | None, problem: Problem, roles: Mapping[str, Thing]) -> frozenset[str]:
    """The words of everything the problem has: a size of these is found out, not chosen."""
    known = context_words(text for thing in problem.things for text in (thing.name, thing.kind))
    if model is None:
        return known
    parts = [model.part(part) for part in roles]
    return known | context_words(text for part in parts for text in (part.name, part.kind))


SHAPES = ("m", "m**2", "m**3", "radian", "1/m", "1/m**2")
"""Units of what can be made to measure."""


def _thing_of(
    condition: Condition, model: Model | None, problem: Problem, roles: Mapping[str, Thing]
) -> tuple[frozenset[str], str | None]:
    """(the words by which the thing a condition speaks of is known, the part it stands for)."""
    about = words(condition.about or "")
    if not about:
        return frozenset(), None
    for thing in problem.things:
        known = context_words((thing.name, thing.kind))
        if not about & known:
            continue
        parts = [part for part, stands in roles.items() if stands.id == thing.id]
        if model is not None:
            for part in parts:
                known |= context_words((model.part(part).name, model.part(part).kind))
        return known | about, parts[0] if parts else None
    return about, None


# Assigning -----------------------------------------------------------------------------------------------------


def _assign(
    principle: Principle, said: Sequence[_Said], origin: Origin, only: frozenset[str] | None = None
) -> dict[str, SymbolValue]:
    """The best quantity for each symbol; each quantity serves every symbol that bears its name."""
    values: dict[str, SymbolValue] = {}
    for symbol in principle.symbols:
        if only is not None and symbol.id not in only:
            continue
        best, found = 0.0, None
        for each in said:
            if not same_dimension(each.unit, symbol.unit):
                continue
            result = match(each.text, each.context, names_of(symbol))
            if result.generic and not each.near:
                continue
            score = result.score + each.bonus - (0.0 if each.near else 0.1)
            if score > max(best, LEAST):
                best, found = score, _value(symbol, each, result, origin)
        if found is not None:
            values[symbol.id] = found
    if only is not None:
        return values  # a group of nature's hangs on nature's surroundings and is not built
    for group in principle.groups:
        for each in said:
            if each.unit == "dimensionless" and group.id not in values and words(each.text) == words(group.name):
                low, high = _ends(each)
                values[group.id] = SymbolValue(
                    group.id,
                    group.name,
                    "dimensionless",
                    low,
                    high,
                    origin,
                    each.where,
                )
    return values


@lru_cache(maxsize=16384)
def names_of(symbol: Symbol) -> tuple[str, ...]:
    """Every name of a symbol: its name, its id in words, and the others it is given under."""
    return tuple(dict.fromkeys((symbol.name, symbol.id.replace("-", " "), *symbol.also)))


DECADE = 10.0
"""A range with one open end is taken to span this factor: "below 50 um" as 5 to 50 um. It is told."""


def _ends(said: _Said) -> tuple[float, float]:
    """Both ends in the unit as said; an open end a decade off, or at 1 for a share; none for points on a scale."""
    low, high = said.low, said.high
    if low is not None and high is not None:
        return low, high
    known = low if low is not None else high
    assert known is not None  # both records demand one end
    if known <= 0 or any(same_dimension(said.unit, unit) for unit in ("K", "radian")):
        return known, known
    if low is None:
        return known / DECADE, known
    top = known * DECADE
    if said.unit in {"dimensionless", "percent"} and known <= (one := to_si(1.0, "dimensionless", said.unit)):
        top = min(top, one)
    return known, top


def _value(symbol: Symbol, said: _Said, result: Match, origin: Origin) -> SymbolValue:
    difference = is_difference(symbol)
    low, high = (to_si(end, said.unit, symbol.unit, difference=difference) * result.factor for end in _ends(said))
    where = said.where
    if result.factor != 1.0:
        where = f"{'half' if result.factor == 0.5 else 'twice'} the {said.text}, {where}"
    span = spell_range(low, high, symbol.unit, difference=difference)
    told = ""
    if said.low is None or said.high is None:
        told = f"only one end of the {symbol.name} is given ({where}); {span} is taken"
    if said.to_build:
        told = f"{symbol.name} as in nature: {span} ({where})"
    return SymbolValue(
        symbol.id,
        symbol.name,
        symbol.unit,
        low,
        high,
        origin,
        where,
        told,
        said.part,
        said.to_build,
        difference,
    )


# Fluids and defaults -------------------------------------------------------------------------------------------

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


def _has_fluid(principle: Principle) -> bool:
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
            told = f"{symbol.name} {spell(symbol.default, symbol.unit)} (default of the record)"
            values[symbol.id] = SymbolValue(
                symbol.id, symbol.name, symbol.unit, symbol.default, symbol.default, "default", "default of the record",
                "" if symbol.id == "gravity" else told, difference=is_difference(symbol),
            )  # fmt: skip
    return Gathered(values, unavailable)


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
