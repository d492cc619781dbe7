"""Values for the symbols of a principle: what the natural system has, what the problem gives, and what fills the rest.

A quantity goes to the symbol whose name it bears (see `names`) and whose unit measures the same thing. What nobody
gives is, in this order: a size of a part that the problem has nothing for and that an engineer would therefore build as
nature has it; the property of water or air at the temperature and altitude in question; the default of the record. Each
of these is told as an assumption.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache

from analog.model.types import (
    Model,
    Part,
    Principle,
    PrincipleReason,
    PropertyNeed,
    Quantity,
    Setting,
    SizeNeed,
    StructureReason,
    Transition,
    parsed,
)
from analog.problem.ambient import is_ambient
from analog.problem.types import Condition, Problem, Thing
from analog.scale.fluid_properties import Fluid
from analog.scale.names import context_words, words
from analog.scale.surroundings import Environment, Gathered, complete, has_fluid
from analog.scale.symbols import Said, assign, explicit
from analog.scale.units import same_dimension, to_si
from analog.scale.values import SymbolValue

LIQUID_KINDS = {"water", "sea", "liquid", "fluid", "blood", "urine", "sap", "saliva", "mucus"}
"""Words in the names of kinds that are liquids of mostly water."""


# The natural system --------------------------------------------------------------------------------------------


def of_nature(principle: Principle, model: Model, transition: Transition | None) -> Gathered:
    """What the model itself says, completed with fluids and defaults."""
    values = assign(principle, _said_by_model(model, transition), "nature") | _told_for(principle, transition)
    medium: Fluid | None = None
    if any(value.part is not None and _is_liquid(model.part(value.part)) for value in values.values()):
        medium = "water"  # the liquid whose viscosity or speed is told is the fluid in question
    elif Setting.WATER in model.habitat.settings and Setting.AIR not in model.habitat.settings:
        medium = "water"
    elif Setting.AIR in model.habitat.settings and Setting.WATER not in model.habitat.settings:
        medium = "air"
    return complete(principle, values, Environment(medium=medium, where="the habitat"))


def _told_for(principle: Principle, transition: Transition | None) -> dict[str, SymbolValue]:
    """What a transition gives for this principle symbol by symbol, which needs no guessing by names."""
    if transition is None:
        return {}
    for reason in transition.reasons:
        if isinstance(reason, PrincipleReason) and reason.principle == principle.id and reason.values:
            return explicit(principle, reason.values, f"the step “{transition.id}”")
    return {}


def _is_liquid(part: Part) -> bool:
    return bool(set(part.kind.split("-")) & LIQUID_KINDS)


_SAID: dict[tuple[str, str | None], tuple[Model, list[Said]]] = {}
MOST_REMEMBERED = 8192


def _said_by_model(model: Model, transition: Transition | None) -> list[Said]:
    """What a model says in numbers, for one transition; remembered, since candidates come back search after search."""
    key = model.id, transition.id if transition is not None else None
    kept = _SAID.get(key)
    if kept is None or kept[0] is not model:
        if len(_SAID) >= MOST_REMEMBERED:
            _SAID.clear()
        kept = _SAID[key] = model, list(_read_model(model, transition))
    return kept[1]


def _read_model(model: Model, transition: Transition | None) -> Iterator[Said]:
    near = parts_of(model, transition) if transition is not None else {part.id for part in model.parts}
    known = context_words(part.name for part in model.parts)
    for need in transition.needs if transition is not None else ():
        # a limit is not where the system sits; a range with both ends is where it works
        if isinstance(need, SizeNeed | PropertyNeed) and need.low is not None and need.high is not None:
            yield _of_need(model, need, known)
    for part in model.parts:
        for quantity in part.properties:
            yield _of_quantity(quantity, part, part.id in near, True, known)
    for quantity in model.sizes:
        lengthy = any(same_dimension(quantity.unit, unit) for unit in ("m", "m**2", "m**3"))
        yield _of_quantity(quantity, None, True, lengthy, known)


def _of_quantity(quantity: Quantity, part: Part | None, near: bool, to_build: bool, known: frozenset[str]) -> Said:
    low, high = quantity.bounds
    of = f" of the {part.name}" if part is not None else ""
    return Said(
        text=quantity.name,
        low=low,
        high=high,
        unit=quantity.unit,
        where=f"{quantity.name}{of}",
        context=context_words((part.name, part.kind, part.id)) if part is not None else frozenset(),
        near=near,
        bonus=0.02 if part is not None else 0.0,
        part=part.id if part is not None else None,
        to_build=to_build,
        known=known,
    )


def _of_need(model: Model, need: SizeNeed | PropertyNeed, known: frozenset[str]) -> Said:
    """The range in which a step works: it counts only where no value is said."""
    part = model.part(need.part) if need.part else None
    of = f" of the {part.name}" if part is not None else ""
    return Said(
        text=need.quantity,
        low=need.low,
        high=need.high,
        unit=need.unit,
        where=f"{need.quantity}{of}, the range told as a need",
        context=context_words((part.name, part.kind, part.id)) if part is not None else frozenset(),
        near=True,
        bonus=-0.2,
        part=need.part,
        to_build=part is not None,
        known=known,
    )


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


def environment_of(problem: Problem) -> Environment:
    """Temperature, altitude and medium as given; where no medium is given, air, as everywhere in the program."""
    lows, highs, where = [], [], []
    altitude: float | None = None
    for condition in numbers_of(problem):
        if condition.type == "temperature" and is_ambient(condition):
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


def _is_altitude(condition: Condition) -> bool:
    said = words(f"{condition.about or ''} {condition.text}")
    return (
        condition.type == "range"
        and same_dimension(condition.unit or "", "m")
        and bool(said & {"altitude", "elevation"} or {"sea", "level"} <= said)
    )


class ProblemSide:
    """A problem beside one model, ready to be asked for the values of one principle after another.

    model : None for a problem alone. roles : part id -> the thing of the problem it stands for.
    """

    def __init__(self, problem: Problem, model: Model | None, roles: Mapping[str, Thing]) -> None:
        self.problem, self.model, self.roles = problem, model, roles
        self.said = list(_said_by_problem(model, problem, roles))
        self.environment = environment_of(problem)
        self.theirs = theirs_to_tell(model, problem, roles)
        self._to_build: dict[str | None, list[Said]] = {}

    def values(self, principle: Principle, transition: Transition | None) -> Gathered:
        """What the problem gives, completed with sizes of parts still to be built, with fluids and defaults.

        Nothing at all where the problem gives nothing of the principle: a check would only repeat nature's numbers.
        """
        values = assign(principle, self.said, "given")
        if not values and not (self.environment.given and has_fluid(principle)):
            return Gathered()
        if self.model is not None:
            wanted = _built_symbols(principle, values)
            built = assign(principle, self._built(transition), "nature", wanted)
            for symbol_id, value in (built | self._built_as_told(principle, transition, wanted)).items():
                values.setdefault(symbol_id, value)
        return complete(principle, values, self.environment)

    def _built_as_told(
        self, principle: Principle, transition: Transition | None, wanted: frozenset[str]
    ) -> dict[str, SymbolValue]:
        """Sizes of parts still to be built that the model gives symbol by symbol."""
        told = _told_for(principle, transition).values()
        return {
            value.symbol: value
            for value in told
            if value.symbol in wanted and value.part is not None and value.part not in self.roles
        }

    def _built(self, transition: Transition | None) -> list[Said]:
        assert self.model is not None
        key = transition.id if transition is not None else None
        if key not in self._to_build:
            said = _said_by_model(self.model, transition)
            self._to_build[key] = [each for each in said if each.to_build and each.part not in self.roles]
        return self._to_build[key]


def _built_symbols(principle: Principle, given: Mapping[str, SymbolValue]) -> frozenset[str]:
    """Symbols that can be a shape or material to build: lengths, areas, angles, counts and shares."""
    return frozenset(
        symbol.id
        for symbol in principle.symbols
        if symbol.id not in given and symbol.unit in {"m", "m**2", "m**3", "radian", "dimensionless", "Pa", "J/m**2"}
        and not (symbol.unit == "Pa" and "pressure" in symbol.name)
    )  # fmt: skip


def _said_by_problem(model: Model | None, problem: Problem, roles: Mapping[str, Thing]) -> Iterator[Said]:
    for condition in numbers_of(problem):
        if _is_altitude(condition):
            continue
        if condition.type == "temperature":
            text = "temperature" if is_ambient(condition) else f"{condition.about} temperature"
        elif condition.quantity:
            about = condition.about or ""
            text = f"{about} {condition.quantity}" if not words(condition.quantity) & words(about) else (
                f"{' '.join(w for w in about.split() if w not in condition.quantity.split())} {condition.quantity}"
            )  # fmt: skip
        else:
            continue
        context, part = _thing_of(condition, model, problem, roles)
        # a bare "speed" may be any speed, that of a thing with no part in it is none of the model's
        near = part is not None or not context
        yield Said(
            text.strip(), condition.low, condition.high, condition.unit or "", f"“{condition.text}”",
            context, near, 0.0, part,
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
    return frozenset(), None  # of nothing the problem has: only its full name can tell what it is
