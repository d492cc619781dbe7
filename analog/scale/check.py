"""The scale check of a transition: its principles put to nature's values and to the problem's, side by side.

`findings` is what a verdict needs: which groups fail, sit at the edge or want a value on the problem's side, in words.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from analog.model.types import Group, Model, Principle, PrincipleReason, Transition
from analog.problem.types import Problem, Thing
from analog.scale.names import words
from analog.scale.quantities import SHAPES, ProblemSide, numbers_of, of_nature
from analog.scale.regime import GroupCheck, RegimeCheck, check_regime, deciding, given_as_such, symbol_of
from analog.scale.surroundings import Gathered
from analog.scale.values import SymbolValue

Outcome = Literal["holds", "edge", "fails", "missing", "build"]


@dataclass(frozen=True)
class ScaleFinding:
    """What the scale check says of one group on the problem's side.

    outcome : holds, edge, fails, missing (open), or build: it depends on a size that is the engineer's to choose.
    """

    outcome: Outcome
    text: str
    principle: str
    group: str


@dataclass(frozen=True)
class ScaleCheck:
    """One principle of one transition on both sides.

    ratios : group id -> (low, high) of the problem's value over nature's.
    """

    principle: str
    transition: str
    nature: RegimeCheck
    problem: RegimeCheck
    ratios: Mapping[str, tuple[float, float]]
    findings: tuple[ScaleFinding, ...]

    def to_dict(self) -> dict[str, object]:
        """As JSON."""
        return {
            "principle": self.principle,
            "transition": self.transition,
            "nature": self.nature.to_dict(),
            "problem": self.problem.to_dict(),
            "ratios": {group: {"low": low, "high": high} for group, (low, high) in self.ratios.items()},
            "findings": [{"outcome": f.outcome, "text": f.text, "group": f.group} for f in self.findings],
        }


def has_numbers(problem: Problem) -> bool:
    """Whether the problem gives any number a scale check could use."""
    return bool(numbers_of(problem))


def scale_check(
    principle: Principle, model: Model, transition: Transition, problem: Problem, roles: Mapping[str, Thing]
) -> ScaleCheck:
    """Both sides of one principle. roles : part id -> the thing of the problem it stands for."""
    natural = of_nature(principle, model, transition)
    side = ProblemSide(problem, model, roles)
    asked = side.values(principle, transition)
    nature = check_regime(principle, natural.values, natural.unavailable)
    problem_side = check_regime(principle, asked.values, asked.unavailable)
    ratios: dict[str, tuple[float, float]] = {}
    theirs = {check.group.id: check for check in nature.groups}
    for check in problem_side.groups:
        other = theirs[check.group.id]
        if check.low is None or check.high is None or other.low is None or other.high is None:
            continue
        if check.low > 0 and other.low > 0:
            ratios[check.group.id] = (check.low / other.high, check.high / other.low)
    found = tuple(
        _as_in_nature(finding, problem_side, nature)
        for finding in _findings(principle, asked, problem_side, side.theirs)
    )
    return ScaleCheck(principle.id, transition.id, nature, problem_side, ratios, found)


def scale_checks(
    model: Model, problem: Problem, roles: Mapping[str, Thing], principles: Mapping[str, Principle]
) -> tuple[ScaleCheck, ...]:
    """Every principle of every transition of a model, in order."""
    return tuple(
        scale_check(principles[reason.principle], model, transition, problem, roles)
        for transition in model.transitions
        for reason in transition.reasons
        if isinstance(reason, PrincipleReason) and reason.principle in principles
    )


def findings(principle: Principle, transition: Transition, side: ProblemSide) -> tuple[ScaleFinding, ...]:
    """What the problem's numbers say of one principle; nothing where they say nothing of it.

    side : the problem beside the model that the transition is of; one serves every transition.
    """
    asked = side.values(principle, transition)
    if not asked.values or side.model is None:
        return ()
    check = check_regime(principle, asked.values, asked.unavailable)
    found = list(_findings(principle, asked, check, side.theirs))
    if any(finding.outcome == "fails" for finding in found):
        natural = of_nature(principle, side.model, transition)
        nature = check_regime(principle, natural.values, natural.unavailable, solve=False)
        found = [_as_in_nature(finding, check, nature) for finding in found]
    return tuple(found)


def _as_in_nature(finding: ScaleFinding, problem: RegimeCheck, nature: RegimeCheck) -> ScaleFinding:
    """A bound on a formula that nature itself oversteps breaks nothing: then it is a caution, with both numbers."""
    if finding.outcome != "fails":
        return finding
    mine = next(check for check in problem.groups if check.group.id == finding.group)
    theirs = next(check for check in nature.groups if check.group.id == finding.group)
    if mine.low is None or mine.high is None or theirs.low is None or theirs.high is None:
        return finding
    if theirs.low <= mine.low and mine.high <= theirs.high:
        text = f"{finding.text}; in nature it works from {theirs.value_text} all the same"
        return replace(finding, outcome="edge", text=text)
    return finding


def _findings(
    principle: Principle, asked: Gathered, check: RegimeCheck, theirs: frozenset[str]
) -> Iterator[ScaleFinding]:
    """theirs : the words of what the problem has; a missing size of anything else is the engineer's to choose."""
    for group in check.groups:
        if group.bound is None or group.status == "no bound":
            continue
        inputs = [asked.values[name] for name in _made_of(principle, group.group, asked) if name in asked.values]
        as_such = given_as_such(principle, group.group, asked.values)
        if as_such is not None:
            inputs = [as_such]
        decisive = [value for value in inputs if value.origin == "given"]
        surrounded = [value for value in inputs if value.origin == "fluid" and "assumed" not in value.where]
        if group.status == "missing":
            specific = [value for value in decisive if not _is_surrounding(value)]
            decision = group.decisions[0] if group.decisions else None
            if specific and decision is not None and decision.decides:
                symbol = symbol_of(principle, decision.symbol)
                to_choose = symbol.unit in SHAPES and not words(symbol.name) & theirs
                text = f"{decision.text} for the {group.group.name}, with {_numbers(specific)}"
                if not to_choose:
                    text = f"{symbol.name} is missing: {text}"
                yield ScaleFinding("build" if to_choose else "missing", text, principle.id, group.group.id)
            continue
        if not decisive and not surrounded:
            continue
        built = [value for value in inputs if value.to_build and value.origin == "nature"]
        if built:
            yield from _build(principle, asked, group, built)
            continue
        text = f"{group.group.name} {group.value_text}, must be {group.bound_text} ({_numbers(inputs)})"
        outcome: Outcome = group.status
        if outcome == "edge":
            text = f"{group.bound.text}: {text}, at the edge"
        elif outcome == "fails":
            text = f"{principle.title} does not hold: {text}"
        yield ScaleFinding(outcome, text, principle.id, group.group.id)


def _made_of(principle: Principle, group: Group, asked: Gathered) -> tuple[str, ...]:
    """The symbols a group is computed from; for one that the equation computes, what it computes it from."""
    equation = principle.equation
    names: list[str] = []
    for name in group.inputs:
        computed = equation is not None and equation.function and equation.output == name and name not in asked.values
        names.extend(equation.inputs if computed and equation is not None else (name,))
    return tuple(dict.fromkeys(names))


def _is_surrounding(value: SymbolValue) -> bool:
    """An ambient temperature says little of a principle: alone it asks for nothing more."""
    return value.unit == "K"


def _build(
    principle: Principle, asked: Gathered, group: GroupCheck, built: list[SymbolValue]
) -> Iterator[ScaleFinding]:
    """A group that hangs on what the engineer builds: with nature's size if that holds, else the size that would."""
    assert group.bound is not None
    chosen = built[0]
    decision = deciding(group.group, group.bound, symbol_of(principle, chosen.symbol), asked.values)
    would = f"; {decision.text}" if decision is not None and decision.intervals else ""
    nature = f"{chosen.name} as in nature, {chosen.text}"
    told = f"{group.group.name} {group.value_text}, must be {group.bound_text}"
    if group.status in {"holds", "edge"}:
        yield ScaleFinding("build", f"built with {nature} ({told}{would})", principle.id, group.group.id)
    elif decision is not None and decision.intervals:
        yield ScaleFinding("build", f"{decision.text}; {nature}, would not do ({told})", principle.id, group.group.id)
    elif chosen.symbol not in group.group.inputs:  # it enters by way of the equation, which is not solved for it
        text = f"another {chosen.name} is chosen so that {told}; {nature}, would not do"
        yield ScaleFinding("build", text, principle.id, group.group.id)
    else:
        text = f"{principle.title} does not hold: {told}, with {nature}"
        yield ScaleFinding("fails", text, principle.id, group.group.id)


def _numbers(values: list[SymbolValue]) -> str:
    return ", ".join(dict.fromkeys(f"{value.name} {value.text}" for value in values if value.origin != "default"))
