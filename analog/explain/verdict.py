"""The verdict on one transition under one problem: carries over · carries over if … · breaks · open.

Every need and every reason of the transition is put to the problem's surroundings. What is ruled out breaks the
transition; a value that would decide but is missing leaves it open; what is neither ruled out nor there must be
supplied or built; the rest carries over. The worst of these is the verdict, and each one says why.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from math import isinf
from typing import TYPE_CHECKING, Literal

from analog.explain.quantities import span
from analog.explain.sentences import definite
from analog.explain.surroundings import ASSUMED_KELVIN, FREEZING_KELVIN, KindVocabulary, Surroundings, celsius, spell
from analog.model.types import (
    EnergyNeed,
    FlowNeed,
    MediumNeed,
    Model,
    Need,
    Part,
    Principle,
    PrincipleReason,
    PropertyNeed,
    SizeNeed,
    SubPurposeReason,
    TemperatureNeed,
    Transition,
    TriggerReason,
)
from analog.problem.types import Condition, Thing
from analog.scale.names import context_words, match, words
from analog.scale.units import to_si

if TYPE_CHECKING:
    from analog.scale.quantities import ProblemSide

Verdict = Literal["carries over", "carries over if", "open", "breaks"]

SEVERITY: dict[Verdict, int] = {"carries over": 0, "carries over if": 1, "open": 2, "breaks": 3}

SCALE_VERDICT: dict[str, Verdict] = {
    "holds": "carries over",
    "edge": "carries over if",
    "build": "carries over if",
    "missing": "open",
    "fails": "breaks",
}
"""What the scale check of a group means for the transition that rests on it."""

_OF = re.compile(r"\b(?:of|on|over|between|at|in|per|by|to|under|through|times)\b")
"""A quantity so named is already one of something: "of the thing" after it would say whose wrongly."""

WARM_KELVIN = 278.15
"""A part that must be warmer than this is kept warm, as in a body; a lower bound only says that it must not freeze."""

SURROUNDING_KINDS = ("air", "atmosphere", "wind", "surrounding-water", "sea-water", "fresh-water", "soil", "snow-cover")
"""Kinds of parts that are the surroundings themselves and have their temperature."""

SIZES = words("size diameter length width height thickness radius depth")
"""Any of these told of a thing is its size."""

AMBIENT_WORDS = words("relative ambient surrounding outside air")
"""Words that the name of a quantity of the surroundings may have beyond what is given: humidity is that of the air."""

MAXIMUM_DEPTH = 3
"""How many levels of sub-models are asked; the corpus checker rules out circles, this rules out surprises."""


@dataclass(frozen=True)
class Ground:
    """One reason for a verdict.

    supplied : the kind that must be supplied, if that is the reason. why : what for. by_principle : only because a
    principle works with it.
    """

    verdict: Verdict
    text: str
    supplied: str | None = field(default=None, compare=False)
    why: str | None = field(default=None, compare=False)
    by_principle: bool = field(default=False, compare=False)


@dataclass(frozen=True)
class TransitionVerdict:
    """The verdict on a transition with its grounds, the deciding ones first."""

    id: str
    text: str
    verdict: Verdict
    grounds: tuple[Ground, ...]
    on_course: bool

    def to_dict(self) -> dict[str, object]:
        """As the command line prints it."""
        return {
            "id": self.id,
            "text": self.text,
            "verdict": self.verdict,
            "reasons": [ground.text for ground in self.grounds],
            "on_course": self.on_course,
        }


@dataclass(frozen=True)
class _Own:
    """What a model brings along (the kinds of its parts), and whether it says that a step works below freezing."""

    kinds: tuple[str, ...]
    below_freezing: bool

    @classmethod
    def of(cls, model: Model, transition: Transition) -> _Own:
        needs = [need for need in transition.needs if isinstance(need, TemperatureNeed) and need.low is not None]
        cold = any(to_si(need.low or 0.0, need.unit, "K") < FREEZING_KELVIN for need in needs)
        return cls(tuple(part.kind for part in model.parts), cold)

    def brings(self, kind: str, kinds: KindVocabulary) -> bool:
        """Whether a part of the model is of this kind, or narrower; for air, a layer or bubble of any gas will do."""
        return any(part == kind or kinds.is_a(part, kind) or kinds.is_a(part, "gas") for part in self.kinds)


@dataclass(frozen=True)
class Judge:
    """What a verdict is made from.

    models : the corpus by id, for sub-purposes. principles : the principle records by id.
    """

    surroundings: Surroundings
    models: Mapping[str, Model]
    principles: Mapping[str, Principle]

    def judge(self, model: Model, roles: Mapping[str, Thing]) -> tuple[TransitionVerdict, ...]:
        """The verdict on every transition of a model. roles : part id -> the problem's thing it stands for."""
        return self._judge(model, roles, 0)

    def _judge(self, model: Model, roles: Mapping[str, Thing], depth: int) -> tuple[TransitionVerdict, ...]:
        verdicts = []
        for transition in model.transitions:
            grounds = self._merged(self._grounds(model, transition, roles, depth))
            grounds = sorted(dict.fromkeys(grounds), key=lambda ground: -SEVERITY[ground.verdict])
            worst: Verdict = grounds[0].verdict if grounds else "carries over"
            if not grounds:
                grounds = [Ground("carries over", "needs nothing that the problem does not have")]
            verdicts.append(
                TransitionVerdict(transition.id, transition.text, worst, tuple(grounds), transition.id in model.course)
            )
        return tuple(verdicts)

    def _grounds(
        self, model: Model, transition: Transition, roles: Mapping[str, Thing], depth: int
    ) -> Iterator[Ground]:
        own = _Own.of(model, transition)
        for need in transition.needs:
            yield from self._need(model, need, roles, own)
        for reason in transition.reasons:
            if isinstance(reason, TriggerReason):
                yield from self._supplied(reason.kind, "set off by", (), reason.note, own)
            elif isinstance(reason, PrincipleReason):
                principle = self.principles.get(reason.principle)
                for kind in principle.media if principle else ():
                    role = f"“{principle.title if principle else ''}” works with"
                    for ground in self._supplied(kind, role, (), None, own):
                        yield replace(ground, by_principle=True)
                if principle is not None and principle.groups and self._has_numbers:
                    yield from self._scale(principle, model, transition, roles)
            elif isinstance(reason, SubPurposeReason) and depth < MAXIMUM_DEPTH:
                yield from self._sub_purpose(model, reason, roles, depth)

    def _merged(self, grounds: Iterable[Ground]) -> list[Ground]:
        """Each supply told once, with all it is needed for; a general kind ("liquid") not beside a narrower one."""
        found: list[Ground] = []
        places: dict[str, int] = {}
        kinds = self.surroundings.kinds
        for ground in grounds:
            kind = ground.supplied
            if kind is None:
                found.append(ground)
            elif (place := places.get(kind)) is not None:
                before = found[place]
                if ground.why and ground.why not in before.text:
                    found[place] = replace(before, text=f"{before.text}; {ground.why}")
            else:
                places[kind] = len(found)
                found.append(ground)
        told = list(places)
        return [
            ground
            for ground in found
            if ground.supplied is None
            or not ground.by_principle
            or not any(kind != ground.supplied and kinds.is_a(kind, ground.supplied) for kind in told)
        ]

    @cached_property
    def _has_numbers(self) -> bool:
        return any(c.type in {"range", "angle", "temperature"} for c in self.surroundings.problem.conditions)

    @cached_property
    def _sides(self) -> dict[tuple[str, int], ProblemSide]:
        return {}

    def _scale(
        self, principle: Principle, model: Model, transition: Transition, roles: Mapping[str, Thing]
    ) -> Iterator[Ground]:
        """What the numbers of the problem make of the principle's regime."""
        from analog.scale.check import findings  # only a problem with numbers pays for it
        from analog.scale.quantities import ProblemSide

        key = model.id, id(roles)  # a side keeps its roles, so that their id stays theirs
        side = self._sides.get(key)
        if side is None:
            side = self._sides[key] = ProblemSide(self.surroundings.problem, model, roles)
        for finding in findings(principle, transition, side):
            yield Ground(SCALE_VERDICT[finding.outcome], finding.text)

    def _need(self, model: Model, need: Need, roles: Mapping[str, Thing], own: _Own) -> Iterator[Ground]:
        if isinstance(need, MediumNeed | FlowNeed):
            yield from self._supplied(need.kind, "needs", need.instead, need.note, own)
        elif isinstance(need, EnergyNeed):
            yield from self._supplied(need.kind or need.energy, "driven by", need.instead, need.note)
            if need.kind:
                yield from (g for g in self._supplied(need.energy, "driven by", (), None) if g.verdict == "breaks")
        elif isinstance(need, TemperatureNeed):
            yield self._temperature(model, need, roles)
        elif isinstance(need, SizeNeed | PropertyNeed):
            yield self._range(model, need, roles)

    def _supplied(
        self, kind: str, role: str, instead: Iterable[str], note: str | None, own: _Own | None = None
    ) -> Iterator[Ground]:
        """Grounds for something a transition cannot do without. own : what the model itself brings or withstands."""
        kinds = self.surroundings.kinds
        if kinds.known(kind) and kinds.strength(kind) == 0:
            return  # matter, energy, structure: there is always some
        supply, label = self.surroundings.supply(kind), kinds.label(kind)
        options = ", ".join(instead)
        if supply.status in {"ruled out", "not around"}:
            other = self.surroundings.substitute(instead)
            if other is not None:
                yield Ground("carries over if", f"{other}, which is there, does the work of {label}")
            elif supply.status == "not around" and own is not None and own.brings(kind, kinds):
                yield Ground("carries over if", f"{label} is brought along and kept in place")
            else:
                yield Ground("breaks", supply.why + (f"; perhaps instead: {options}" if options else ""))
            return
        trouble = self.surroundings.phase_trouble(kind)
        if trouble is not None and not (own is not None and own.below_freezing):
            verdict: Verdict = "breaks" if trouble[0] == "breaks" else "carries over if"
            yield Ground(verdict, trouble[1])
        if supply.status == "unsaid":
            choice = f" (instead of it: {options})" if options else ""
            because = f": {note.rstrip('.')}" if note else ""
            why = f"{role} {label}{because}"
            yield Ground("carries over if", f"{label} is supplied{choice}; {why}", supplied=kind, why=why)
        else:
            yield Ground("carries over", supply.why)

    def _temperature(self, model: Model, need: TemperatureNeed, roles: Mapping[str, Thing]) -> Ground:
        low = to_si(need.low, need.unit, "K") if need.low is not None else 0.0
        high = to_si(need.high, need.unit, "K") if need.high is not None else float("inf")
        asked = _span(celsius(low) if need.low is not None else None, celsius(high) if need.high is not None else None)
        part = model.part(need.part) if need.part else None
        thing = roles.get(need.part or "")
        own = self._temperature_of(thing)
        given = own or self.surroundings.temperature
        if given is None:
            if low <= ASSUMED_KELVIN <= high:
                return Ground(
                    "carries over", f"works {asked}; no temperature is given, {celsius(ASSUMED_KELVIN)} assumed"
                )
            return Ground("carries over if", f"the temperature{_of_part(part)} is brought {asked}")
        place = _placed(given, (low, high))
        if place == "inside":
            return Ground("carries over", f"works {asked}, given {spell(given)}")
        if place == "outside":
            warm = low >= WARM_KELVIN and given[1] < low
            if own is None and part is not None and warm and self._keeps_its_own(part.kind):
                return Ground(
                    "carries over if", f"the temperature{_of_part(part)} is kept {asked}, with {spell(given)} around it"
                )
            return Ground("breaks", f"works only {asked}, given {spell(given)}")
        return Ground("carries over if", f"the temperature stays {asked}, given {spell(given)}")

    def _temperature_of(self, thing: Thing | None) -> tuple[float, float] | None:
        """(low, high) in kelvin given for this very thing."""
        for condition in self.surroundings.problem.conditions if thing is not None else ():
            if condition.type == "temperature" and thing and words(condition.about or "") & words(thing.name):
                low = condition.low if condition.low is not None else 0.0
                return low, condition.high if condition.high is not None else float("inf")
        return None

    def _keeps_its_own(self, kind: str) -> bool:
        """Whether a part may be warmer than what is around it: any but the medium itself."""
        kinds = self.surroundings.kinds
        return kinds.known(kind) and not any(kinds.is_a(kind, around) for around in SURROUNDING_KINDS)

    def _range(self, model: Model, need: SizeNeed | PropertyNeed, roles: Mapping[str, Thing]) -> Ground:
        asked = _span(
            span(need.low, need.low, need.unit) if need.low is not None else None,
            span(need.high, need.high, need.unit) if need.high is not None else None,
        )
        thing = roles.get(need.part) if need.part else None
        other = self.surroundings.other_medium
        if thing is None and other is not None and need.part is None and "humidity" in words(need.quantity):
            return Ground("breaks", f"works in air of a {need.quantity} {asked}, but the problem says “{other.text}”")
        given = self._given(model, need, thing)
        if given is not None:
            condition, values = given
            bottom = need.low if need.low is not None else float("-inf")
            top = need.high if need.high is not None else float("inf")
            place = _placed(values, (bottom, top))
            if place == "inside":
                return Ground("carries over", f"{need.quantity} must be {asked}; given “{condition.text}”")
            if place == "outside":
                return Ground("breaks", f"{need.quantity} must be {asked}, but given “{condition.text}”")
            return Ground("carries over if", f"{need.quantity} stays {asked}, given “{condition.text}”")
        if thing is not None:
            of_it = f"({thing.name})" if _OF.search(need.quantity) else f"of {definite(thing.name)}"
            return Ground("open", f"{need.quantity} {of_it} is missing; it must be {asked}")
        part = model.part(need.part).name if need.part else "surroundings"
        return Ground("carries over if", f"the {need.quantity} ({part}) is kept {asked}")

    def _given(
        self, model: Model, need: SizeNeed | PropertyNeed, thing: Thing | None
    ) -> tuple[Condition, tuple[float, float]] | None:
        """The condition that gives the needed quantity, with its bounds in the need's unit."""
        for condition in self.surroundings.problem.conditions:
            if condition.type not in {"range", "angle"} or not condition.unit:
                continue
            if not self._speaks_of(model, condition, need, thing):
                continue
            try:
                low = to_si(condition.low, condition.unit, need.unit) if condition.low is not None else float("-inf")
                high = to_si(condition.high, condition.unit, need.unit) if condition.high is not None else float("inf")
            except ValueError:
                continue  # another quantity after all: a speed is no length
            return condition, (low, high)
        return None

    def _speaks_of(
        self, model: Model, condition: Condition, need: SizeNeed | PropertyNeed, thing: Thing | None
    ) -> bool:
        """Whether a given range is about the needed quantity.

        The name must be the same but for synonyms ("tilt" is a "slope"). What is said of a thing is about that thing
        alone; what is said of nothing in particular is about whatever bears exactly that name, or about the
        surroundings.
        """
        about, asked = words(condition.about or ""), words(need.quantity)
        said = about | words(condition.quantity or "")
        if not said:
            return False
        part = model.part(need.part) if need.part else None
        kinds = self.surroundings.kinds
        if thing is None:
            around = part is None or (
                kinds.known(part.kind) and any(kinds.is_a(part.kind, kind) for kind in SURROUNDING_KINDS)
            )
            implied = (words(part.name) if part is not None else frozenset()) | AMBIENT_WORDS
            return asked <= said or (around and said <= asked and asked - said <= implied)
        grains = bool(thing.kind and kinds.known(thing.kind) and kinds.is_a(thing.kind, "solid"))
        names = context_words((thing.name, thing.kind, part.name if part else None, part.kind if part else None))
        if about & names or (grains and "particle" in about):
            of_it = f"{condition.about} {condition.quantity or ''}"
            return match(of_it, names | about, (need.quantity,)).score > 0 or bool(asked & SIZES and said & SIZES)
        return asked == said

    def _sub_purpose(
        self, model: Model, reason: SubPurposeReason, roles: Mapping[str, Thing], depth: int
    ) -> Iterator[Ground]:
        sub = next((sub for sub in model.sub_purposes if sub.id == reason.purpose), None)
        below = self.models.get(sub.model) if sub is not None and sub.model else None
        if sub is None or below is None:
            return
        handed_down = {theirs: roles[mine] for mine, theirs in sub.roles.items() if mine in roles}
        for verdict in self._judge(below, handed_down, depth + 1):
            if verdict.on_course and verdict.verdict in {"breaks", "open"}:
                first = verdict.grounds[0].text
                yield Ground(verdict.verdict, f"to {sub.text}, “{verdict.text}” ({below.id}) must work: {first}")


def _placed(given: tuple[float, float], allowed: tuple[float, float]) -> Literal["inside", "outside", "astride"]:
    """Where a given range lies; the slack swallows what conversion of units does to the last digits."""
    low, high = (
        bound if isinf(bound) else bound + sign * 1e-9 * abs(bound)
        for bound, sign in zip(allowed, (-1, 1), strict=True)
    )
    if low <= given[0] and given[1] <= high:
        return "inside"
    if given[1] < low or given[0] > high:
        return "outside"
    # an open end that only touches the bound, "below freezing" against "at least 0 °C", shares nothing with it
    if (isinf(given[0]) and given[1] <= allowed[0]) or (isinf(given[1]) and given[0] >= allowed[1]):
        return "outside"
    return "astride"


def _of_part(part: Part | None) -> str:
    return f" ({part.name})" if part is not None else ""


def _span(low: str | None, high: str | None) -> str:
    if low is not None and high is not None:
        return f"between {low} and {high}" if low != high else f"at {low}"
    if low is not None:
        return f"at least {low}"
    return f"at most {high}" if high is not None else "at any value"
