"""A model told for readers: every field in sentences, as one record that the views lay out.

Views add nothing to it. What comes from memory, or from a source nobody looked up, is said so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from analog.explain.quantities import span, value_words
from analog.explain.sentences import (
    capital,
    counted,
    definite,
    fact_sentence,
    joined,
    names_of,
    sentence,
    spoken,
)
from analog.model.types import (
    EnergyNeed,
    FlowNeed,
    Measured,
    MediumNeed,
    Model,
    Need,
    Part,
    Place,
    Principle,
    PrincipleReason,
    Quantity,
    Reason,
    Source,
    State,
    StructureReason,
    SubPurposeReason,
    TemperatureNeed,
    Transition,
    parsed,
)


@dataclass(frozen=True)
class Figured:
    """A quantity: name and value, then where it is from and what is to be noted."""

    name: str
    value: str
    source: str
    note: str

    @property
    def words(self) -> str:
        """In one line."""
        note = f"; {self.note}" if self.note else ""
        return f"{self.name}: {self.value} ({self.source}{note})"


@dataclass(frozen=True)
class PartTold:
    """A part: its name, then "kind: …, of …", its note and its quantities."""

    name: str
    about: str
    quantities: tuple[Figured, ...]


@dataclass(frozen=True)
class StateTold:
    """A state by its number in the order of the course."""

    number: int
    text: str
    facts: tuple[str, ...]


@dataclass(frozen=True)
class ReasonTold:
    """A reason. sort : principle, structure, sub-purpose or trigger. values : of the symbols of a principle."""

    sort: str
    text: str
    values: tuple[Figured, ...] = ()


@dataclass(frozen=True)
class StepTold:
    """A transition. number : its place in the course, 0 beside it. start, end : numbers of the states."""

    number: int
    text: str
    start: int
    end: int
    reasons: tuple[ReasonTold, ...]
    needs: tuple[str, ...]


@dataclass(frozen=True)
class SourceTold:
    """A source: its key, the citation, the DOI, and whether its record was looked up."""

    key: str
    text: str
    doi: str
    seen: bool


@dataclass(frozen=True)
class Account:
    """A model, told."""

    id: str
    title: str
    system: str
    summary: str
    habitat: str
    sizes: tuple[Figured, ...]
    purposes: tuple[str, ...]
    sub_purposes: tuple[str, ...]
    parts: tuple[PartTold, ...]
    structure: tuple[str, ...]
    states: tuple[StateTold, ...]
    steps: tuple[StepTold, ...]
    limits: tuple[str, ...]
    precedents: tuple[str, ...]
    disputes: tuple[str, ...]
    questions: tuple[str, ...]
    sources: tuple[SourceTold, ...]

    @property
    def outline(self) -> str:
        """How much there is, in a sentence."""
        course = [step for step in self.steps if step.number]
        beside = len(self.steps) - len(course)
        pieces = [
            counted(len(self.parts), "part"),
            counted(len(self.states), "state"),
            f"{counted(len(course), 'step')} on the course",
            *([f"{beside} beside it"] if beside else []),
            counted(len(self.sources), "source"),
        ]
        return sentence(joined(pieces))


def account(model: Model, principles: Mapping[str, Principle] | None = None) -> Account:
    """Tell a model. principles : records by id, for their titles; a principle without record is told by its id."""
    names = names_of(model)
    numbers = {state.id: number for number, state in enumerate(ordered_states(model), start=1)}
    organism = model.organism
    latin = f" ({organism.latin})" if organism.latin else ""
    course = {step: number for number, step in enumerate(model.course, start=1)}
    inside = sorted(model.transitions, key=lambda t: course.get(t.id, len(course) + 1))
    return Account(
        id=model.id,
        title=model.title,
        system=f"{organism.common}{latin}, {organism.group}",
        summary=sentence(model.summary),
        habitat=sentence(f"{joined(model.habitat.settings)}. {model.habitat.text}"),
        sizes=tuple(_figured(quantity) for quantity in model.sizes),
        purposes=tuple(_purpose(p.text, p.verb, p.flow, p.object, p.where, names) for p in model.purposes),
        sub_purposes=tuple(
            f"{_purpose(s.text, s.verb, s.flow, s.object, s.where, names)} "
            + sentence(f"told by the model {s.model}" if s.model else "no model tells it yet")
            for s in model.sub_purposes
        ),
        parts=tuple(_part(part) for part in model.parts),
        structure=tuple(fact_sentence(fact, names) for fact in model.parsed_structure),
        states=tuple(
            StateTold(numbers[s.id], sentence(s.text), tuple(fact_sentence(f, names) for f in s.parsed))
            for s in ordered_states(model)
        ),
        steps=tuple(_step(model, t, course.get(t.id, 0), numbers, names, principles or {}) for t in inside),
        limits=tuple(sentence(f"{x.about}: {x.text}") + _from(x.source) for x in model.limits),
        precedents=tuple(sentence(x.text) + _from(x.source) for x in model.precedents),
        disputes=tuple(sentence(x.text) + _from(joined(x.sources)) for x in model.disputes),
        questions=tuple(f"{capital(x.text)} ({x.industry})" for x in model.questions),
        sources=tuple(_source(source) for source in model.sources),
    )


def in_turn(told: Account) -> tuple[list[StateTold | StepTold], list[StateTold]]:
    """(states and steps of the course in turn, the states it does not come to)."""
    states = {state.number: state for state in told.states}
    course: list[StateTold | StepTold] = []
    here = 0
    for step in (step for step in told.steps if step.number):
        if step.start != here and step.start in states:
            course.append(states[step.start])
        course.append(step)
        if step.end in states:
            course.append(states[step.end])
        here = step.end
    seen = {item.number for item in course if isinstance(item, StateTold)}
    return course, [state for state in told.states if state.number not in seen]


def ordered_states(model: Model) -> list[State]:
    """The states in the order in which the course comes to them, the others after them."""
    steps = {transition.id: transition for transition in model.transitions}
    order = [
        state for step in model.course if step in steps for state in (steps[step].from_state, steps[step].to_state)
    ]
    place = {state: number for number, state in reversed(list(enumerate(dict.fromkeys(order))))}
    return sorted(model.states, key=lambda state: place.get(state.id, len(place)))


def _from(source: str | None) -> str:
    return f" [{source}]" if source else ""


def _figured(quantity: Quantity) -> Figured:
    return _valued(quantity.name, quantity)


def _valued(name: str, quantity: Measured) -> Figured:
    where = f"{quantity.source}, from memory" if quantity.from_memory else quantity.source
    return Figured(name, value_words(quantity), where, (quantity.note or "").rstrip("."))


def _purpose(text: str, verb: str, flow: str, thing: str, where: Place | None, names: Mapping[str, str]) -> str:
    place = f" {where.relation} {definite(names.get(where.part, spoken(where.part)))}" if where else ""
    what = definite(names.get(thing, spoken(thing)))
    return sentence(f"{text}. Function: {spoken(verb)} {what}{place} (flow: {spoken(flow)})")


def _part(part: Part) -> PartTold:
    pieces = [f"kind: {spoken(part.kind)}", *([f"of {part.material}"] if part.material else [])]
    about = ", ".join(pieces) + (f"; {part.note}" if part.note else "")
    return PartTold(part.name, about.rstrip("."), tuple(_figured(quantity) for quantity in part.properties))


def _step(
    model: Model,
    transition: Transition,
    number: int,
    numbers: Mapping[str, int],
    names: Mapping[str, str],
    principles: Mapping[str, Principle],
) -> StepTold:
    return StepTold(
        number=number,
        text=sentence(transition.text),
        start=numbers.get(transition.from_state, 0),
        end=numbers.get(transition.to_state, 0),
        reasons=tuple(reason_told(reason, model, names, principles) for reason in transition.reasons),
        needs=tuple(need_words(need, names) for need in transition.needs),
    )


def reason_told(
    reason: Reason, model: Model, names: Mapping[str, str], principles: Mapping[str, Principle]
) -> ReasonTold:
    """A reason in sentences."""
    note = sentence(reason.note)
    if isinstance(reason, PrincipleReason):
        record = principles.get(reason.principle)
        title = f"“{record.title}” ({reason.principle})" if record else capital(spoken(reason.principle))
        symbols = {symbol.id: symbol.name for symbol in record.symbols} if record else {}
        values = []
        for value in reason.values:
            name = symbols.get(value.symbol, spoken(value.symbol))
            values.append(_valued(name + _owner(name, value.part, names), value))
        return ReasonTold("principle", f"{title}: {note}", tuple(values))
    if isinstance(reason, StructureReason):
        return ReasonTold("structure", f"{fact_sentence(parsed(reason.fact), names)} {note}")
    if isinstance(reason, SubPurposeReason):
        sub = next((sub for sub in model.sub_purposes if sub.id == reason.purpose), None)
        told = f"“{sub.text}”" if sub else spoken(reason.purpose)
        below = f", as in the model {sub.model}" if sub and sub.model else ""
        return ReasonTold("sub-purpose", f"{capital(told)}{below}: {note}")
    return ReasonTold("trigger", f"{capital(spoken(reason.kind))}: {note}")


def need_words(need: Need, names: Mapping[str, str]) -> str:
    """A need in a sentence."""
    note = f"; {need.note.rstrip('.')}" if need.note else ""
    if isinstance(need, MediumNeed | FlowNeed | EnergyNeed):
        start = {"medium": "happens only in or with", "flow": "uses", "energy": "is driven by"}[need.type]
        what = need.kind if not isinstance(need, EnergyNeed) else need.kind or need.energy
        form = ""
        if isinstance(need, EnergyNeed) and need.kind:
            form = f" ({spoken(need.energy)})"
        instead = f"; instead of it perhaps {joined(need.instead, 'or')}" if need.instead else ""
        return sentence(f"{start} {spoken(what)}{form}{note}{instead}")
    quantity = "temperature" if isinstance(need, TemperatureNeed) else need.quantity
    owner = _owner(quantity, need.part, names)
    memory = ", from memory" if need.from_memory else ""
    bounds = span(need.low, need.high, need.unit)
    return sentence(f"works only while the {quantity}{owner} is {_is(bounds)} ({need.source}{memory}){note}")


def _owner(quantity: str, part: str | None, names: Mapping[str, str]) -> str:
    """ " of the leaf", unless the quantity names its part itself."""
    if part is None:
        return ""
    name = names.get(part, spoken(part))
    return "" if name.lower() in quantity.lower() else f" of {definite(name)}"


def _is(bounds: str) -> str:
    """ "0.5 to 2 mm" reads better as "between 0.5 and 2 mm" after "is"."""
    low, to, high = bounds.partition(" to ")
    return f"between {low} and {high}" if to else bounds


def _source(source: Source) -> SourceTold:
    if source.type == "memory":
        return SourceTold(source.key, sentence(source.title), "", False)
    pieces = [f"{source.authors} ({source.year})", source.title.rstrip("."), source.venue]
    return SourceTold(
        source.key, sentence(". ".join(piece for piece in pieces if piece)), source.doi or "", source.record_seen
    )
