"""The verdict on one transition under one problem: carries over · carries over if … · breaks · open.

Every need and every reason of the transition is put to the problem's surroundings. What is ruled out breaks the
transition; a value that would decide but is missing leaves it open; what is neither ruled out nor there must be
supplied or built; the rest carries over. The worst of these is the verdict, and each one says why.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import isinf
from typing import TYPE_CHECKING, Literal

from analog.explain.surroundings import ASSUMED_KELVIN, FREEZING_KELVIN, KindVocabulary, Surroundings, celsius, spell
from analog.model.types import (
    EnergyNeed,
    FlowNeed,
    MediumNeed,
    Model,
    Need,
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

MAXIMUM_DEPTH = 3
"""How many levels of sub-models are asked; the corpus checker rules out circles, this rules out surprises."""


@dataclass(frozen=True)
class Ground:
    """One reason for a verdict."""

    verdict: Verdict
    text: str


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
            grounds = list(self._grounds(model, transition, roles, depth))
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
                    yield from self._supplied(kind, f"{principle.title if principle else ''} works with", (), None, own)
                if principle is not None and principle.groups and self._has_numbers:
                    yield from self._scale(principle, model, transition, roles)
            elif isinstance(reason, SubPurposeReason) and depth < MAXIMUM_DEPTH:
                yield from self._sub_purpose(model, reason, roles, depth)

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
            yield self._temperature(need)
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
            yield Ground("carries over if", f"{label} is supplied{choice}; {role} {label}{because}")
        else:
            yield Ground("carries over", supply.why)

    def _temperature(self, need: TemperatureNeed) -> Ground:
        low = to_si(need.low, need.unit, "K") if need.low is not None else 0.0
        high = to_si(need.high, need.unit, "K") if need.high is not None else float("inf")
        asked = _span(celsius(low) if need.low is not None else None, celsius(high) if need.high is not None else None)
        given = self.surroundings.temperature
        if given is None:
            if low <= ASSUMED_KELVIN <= high:
                return Ground(
                    "carries over", f"works {asked}; no temperature is given, {celsius(ASSUMED_KELVIN)} assumed"
                )
            return Ground("carries over if", f"the temperature is brought {asked}")
        place = _placed(given, (low, high))
        if place == "inside":
            return Ground("carries over", f"works {asked}, given {spell(given)}")
        if place == "outside":
            return Ground("breaks", f"works only {asked}, given {spell(given)}")
        return Ground("carries over if", f"the temperature stays {asked}, given {spell(given)}")

    def _range(self, model: Model, need: SizeNeed | PropertyNeed, roles: Mapping[str, Thing]) -> Ground:
        low = f"{need.low:g} {_unit(need.unit)}".strip() if need.low is not None else None
        high = f"{need.high:g} {_unit(need.unit)}".strip() if need.high is not None else None
        asked = _span(low, high)
        thing = roles.get(need.part) if need.part else None
        given = self._given(need, thing)
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
            return Ground("open", f"{need.quantity} of the {thing.name} is missing; it must be {asked}")
        part = model.part(need.part).name if need.part else "surroundings"
        return Ground("carries over if", f"the {need.quantity} ({part}) is kept {asked}")

    def _given(
        self, need: SizeNeed | PropertyNeed, thing: Thing | None
    ) -> tuple[Condition, tuple[float, float]] | None:
        """The condition that gives the needed quantity, with its bounds in the need's unit."""
        for condition in self.surroundings.problem.conditions:
            if condition.type not in {"range", "angle"} or not condition.unit:
                continue
            if not _speaks_of(condition, need, thing):
                continue
            try:
                low = to_si(condition.low, condition.unit, need.unit) if condition.low is not None else float("-inf")
                high = to_si(condition.high, condition.unit, need.unit) if condition.high is not None else float("inf")
            except ValueError:
                continue  # another quantity after all: a speed is no length
            return condition, (low, high)
        return None

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
    return "outside" if given[1] < low or given[0] > high else "astride"


def _speaks_of(condition: Condition, need: SizeNeed | PropertyNeed, thing: Thing | None) -> bool:
    """Whether a given range is about the needed quantity: the same words, or the same thing's size."""
    quantity = set(need.quantity.lower().replace("-", " ").split())
    said = set(f"{condition.about or ''} {condition.quantity or ''}".lower().replace("-", " ").split())
    if thing is not None:
        about = set((condition.about or "").lower().split())
        same_thing = bool(about & set(thing.name.lower().split())) or bool(about & {"particle", "particles", "grain"})
        sizes = {"size", "diameter", "length", "width", "height", "thickness", "radius", "depth"}
        return same_thing and bool((quantity & said) or (quantity & sizes and said & sizes))
    return bool(said) and (quantity <= said or said <= quantity)


def _span(low: str | None, high: str | None) -> str:
    if low is not None and high is not None:
        return f"between {low} and {high}" if low != high else f"at {low}"
    if low is not None:
        return f"at least {low}"
    return f"at most {high}" if high is not None else "at any value"


def _unit(unit: str) -> str:
    return "" if unit == "dimensionless" else {"degree": "°", "percent": "%", "um": "µm"}.get(unit, unit)
