"""The first three experiments: what to build, what to measure, and which result would end the idea.

They are derived from what is least certain: steps that break, values that are missing, bounds at their edge, parts and
supplies still to be made. Cheap ones that can end the idea come first; the last one runs the whole course. That order,
and the advice on controls and repeats, is common practice of experiment without a single source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from analog.brief.content import Experiment
from analog.brief.language import span_text
from analog.brief.scale_part import decided_groups
from analog.brief.substitution import Substitutes, SupplyNeed, kind_of
from analog.explain.explanation import Explanation
from analog.explain.sentences import counted_in_words as counted
from analog.explain.sentences import definite, fact_words, joined, lowered, sentence
from analog.explain.verdict import TransitionVerdict
from analog.model.facts import parse_fact
from analog.model.types import PropertyNeed, SizeNeed, TemperatureNeed, Transition
from analog.problem.types import Problem
from analog.scale.check import ScaleCheck
from analog.scale.regime import GroupCheck, deciding, symbol_of

COUNT = 3
FAR_FROM_BOUND = 10.0
"""A number that keeps this factor from its bound is safe."""

FAR_URGENCY = 4.0

REPEATS = "Repeat it at least five times beside an untreated control"


@dataclass(frozen=True)
class _Candidate:
    """An experiment with the step it is about. urgency : the lower, the sooner."""

    urgency: float
    step: str
    experiment: Experiment


def experiments(
    result: Explanation, problem: Problem, checks: Sequence[ScaleCheck], substitutes: Substitutes
) -> tuple[Experiment, ...]:
    """Three experiments, the cheapest that can end the idea first; fewer only where a model has no course."""
    candidates = sorted(_candidates(result, problem, checks, substitutes), key=lambda c: c.urgency)
    chosen: list[_Candidate] = []
    for distinct in (True, False):
        for candidate in candidates:
            taken = [c.step for c in chosen]
            titles = {c.experiment.title for c in chosen}
            fresh = candidate.experiment.title not in titles and not (distinct and candidate.step in taken)
            if len(chosen) < COUNT - 1 and fresh:
                chosen.append(candidate)
    last = _whole_course(result, problem)
    found = [candidate.experiment for candidate in sorted(chosen, key=lambda c: c.urgency)]
    return (*found, *((last,) if last else ()))


def _candidates(
    result: Explanation, problem: Problem, checks: Sequence[ScaleCheck], substitutes: Substitutes
) -> Iterator[_Candidate]:
    verdicts = {verdict.id: verdict for verdict in result.transitions}
    for transition in result.model.transitions:
        verdict = verdicts[transition.id]
        if verdict.on_course:
            yield from _of_needs(result, transition, verdict, substitutes)
            yield from _of_open_grounds(result, transition, verdict)
            yield _alone(result, transition)
    yield from _of_bounds(result, checks)


def _of_needs(
    result: Explanation, transition: Transition, verdict: TransitionVerdict, substitutes: Substitutes
) -> Iterator[_Candidate]:
    reached = lowered(result.model.state(transition.to_state).text)
    parts = {c.part: c.thing_name for c in result.correspondences if c.similarity > 0}
    for need in transition.needs:
        if isinstance(need, SizeNeed | PropertyNeed):
            grounds = [ground for ground in verdict.grounds if need.quantity in ground.text]
            if not grounds or grounds[0].verdict == "carries over":
                continue
            asked = span_text(need.low, need.high, need.unit)
            basis = need.source
            thing = parts.get(need.part or "")
            if grounds[0].verdict == "open" and thing is not None:
                yield _Candidate(
                    1.0,
                    transition.id,
                    Experiment(
                        title=f"Find out the {need.quantity} of the {thing}",
                        why=f"The step “{transition.text}” is open until this value is known.",
                        build=f"Nothing yet: take samples of {definite(thing)} as in use, across its usual spread.",
                        measure=f"The {need.quantity}, on enough samples to tell its spread.",
                        stop=f"For most samples the value is not {asked} and cannot be brought there.",
                        basis=basis,
                    ),
                )
                continue
            part = result.model.part(need.part).name if need.part else "surroundings"
            yield _Candidate(
                0.5 if grounds[0].verdict == "breaks" else 3.0,
                transition.id,
                Experiment(
                    title=f"Vary the {need.quantity}",
                    why=f"The step “{transition.text}” works only while the {need.quantity} ({part}) is {asked}.",
                    build=f"Test pieces with {definite(need.quantity)} on both sides of the limit ({asked}) and at it.",
                    measure=sentence(f"whether the step ends as it should, that is, {reached}"),
                    stop=f"No test piece can be made with {asked}, or those inside and outside do not differ.",
                    basis=basis,
                ),
            )
        elif isinstance(need, TemperatureNeed):
            if not any(ground.verdict != "carries over" and "°C" in ground.text for ground in verdict.grounds):
                continue
            asked = span_text(need.low, need.high, need.unit)
            yield _Candidate(
                2.5,
                transition.id,
                Experiment(
                    title=f"Try temperatures of {asked} and beyond",
                    why=f"The step “{transition.text}” works only at temperatures of {asked}.",
                    build="A small set-up of this step in a chamber that holds the temperature.",
                    measure=sentence(f"from which temperature on the step still ends as it should, that is, {reached}"),
                    stop="It fails at the temperatures that the problem gives.",
                    basis=need.source,
                ),
            )
        elif isinstance(need, SupplyNeed):
            yield from _of_supply(result, transition, verdict, need, reached, substitutes)


def _of_supply(
    result: Explanation,
    transition: Transition,
    verdict: TransitionVerdict,
    need: SupplyNeed,
    reached: str,
    substitutes: Substitutes,
) -> Iterator[_Candidate]:
    kind = kind_of(need)
    label = substitutes.kinds.label(kind)
    grounds = [ground for ground in verdict.grounds if label in ground.text and ground.verdict != "carries over"]
    if not grounds:
        return
    broken = grounds[0].verdict == "breaks"
    options = substitutes.options(result.model, label, kind, need.instead)
    stand_in = ", or else ".join(option.text for option in options[:2]) or "some other means"
    it = definite(label)
    if broken or _is_alive(kind, substitutes):
        breaks = f"breaks: {grounds[0].text}" if broken else f"is driven or done by {it} in nature"
        told = Experiment(
            title=f"Do the work of {it} by other means",
            why=f"The step “{transition.text}” {breaks}.",
            build=f"The smallest set-up in which this one step can happen, with {stand_in} in the place of {it}.",
            measure=sentence(f"whether it still comes about that {reached}, and what it takes in power or supply"),
            stop=f"The step does not come about without {it}, or takes more power or supply than the site can give.",
            basis="inferred",
        )
    else:
        told = Experiment(
            title=f"Supply {it}, or what could stand in for it",
            why=f"The step “{transition.text}” needs {it}, of which the problem says nothing.",
            build=f"The smallest set-up in which this one step can happen, once with {it} and once with {stand_in}.",
            measure=sentence(f"whether it comes about that {reached}, and how much power or supply either way takes"),
            stop="The step comes about neither way, or takes more power or supply than the site can give.",
            basis="inferred",
        )
    yield _Candidate(0.0 if broken else 2.8, transition.id, told)


LIVING = ("muscle", "organism", "protein", "cell")
"""Kinds that nobody supplies: their work is done by something else."""


def _is_alive(kind: str, substitutes: Substitutes) -> bool:
    return kind == "biological-energy" or any(substitutes.kinds.is_a(kind, living) for living in LIVING)


def _of_open_grounds(result: Explanation, transition: Transition, verdict: TransitionVerdict) -> Iterator[_Candidate]:
    """Open because of a model below: its ground names the value and the bound after the last colon."""
    for ground in verdict.grounds:
        if ground.verdict == "open" and ground.text.startswith("to ") and " must work: " in ground.text:
            said = ground.text.rsplit(" must work: ", 1)[1]
            quantity, _, asked = said.partition(" is missing; it must be ")
            yield _Candidate(
                1.2,
                transition.id,
                Experiment(
                    title=sentence(f"find out {definite(quantity)}").rstrip("."),
                    why=f"The step “{transition.text}” rests on another mechanism below it, which is open: {said}.",
                    build="Nothing yet: take samples as they are in use, across their usual spread.",
                    measure=sentence(f"{definite(quantity)}, on enough samples to tell its spread"),
                    stop=f"The value is not {asked or 'what that mechanism needs'} and cannot be brought there.",
                    basis="inferred",
                ),
            )


def _of_bounds(result: Explanation, checks: Sequence[ScaleCheck]) -> Iterator[_Candidate]:
    """Bounds of principles that the problem's numbers reach: the deciding quantity and its values."""
    urgency = {"fails": 0.2, "missing": 1.5, "edge": 2.0, "build": 2.6, "holds": 4.0}
    steps = {transition.id: transition.text for transition in result.model.transitions}
    for check, group in decided_groups(checks):
        assert group.bound is not None
        outcomes = [finding.outcome for finding in check.findings if finding.group == group.group.id]
        if not outcomes:
            continue  # nothing of it is the problem's to decide
        # a size that nature gives can be tried at once; one that nobody gives has to be found first
        unknown = 0.5 if group.low is None and outcomes[0] == "build" else 0.0
        principle = check.problem.principle
        decisions = [decision for decision in group.decisions if decision.decides]
        if not decisions:
            given = check.problem.values
            built = [given[name] for name in group.group.inputs if name in given and given[name].to_build]
            for value in built[:1]:
                found = deciding(group.group, group.bound, symbol_of(principle, value.symbol), given)
                decisions = [found] if found is not None and found.decides else []
        said = f"{group.group.name} is {group.value_text} and must be {group.bound_text}"
        if group.low is None:
            said = f"{group.group.name} must be {group.bound_text} and cannot be computed yet"
        if decisions:
            decision = decisions[0]
            spans = decision.text.removeprefix(f"{decision.name} must stay ")
            build = f"Test pieces or runs with the {decision.name} on both sides of the limit ({spans})."
            measure = f"The {decision.name}, and whether the step still works there."
            held = definite(lowered(decision.text)).replace(" must stay ", " cannot stay ")
            stop = f"Under the conditions of use, {held}."
            title = f"Put the {decision.name} to its limit"
            if outcomes[0] == "missing":
                title = f"Find out {definite(decision.name)}"
                build = "Nothing yet: look the value up, or take samples as they are in use, across their usual spread."
                measure = f"The {decision.name}, on enough samples to tell its spread, against the limit ({spans})."
        else:
            build = f"A small set-up of the step in which the {group.group.name} can be varied through the bound."
            measure = f"The {group.group.name} ({group.group.text}), and whether the step still works."
            stop = f"The step fails at the values of the problem; the bound is {group.bound_text}."
            title = f"Put the {group.group.name} to its bound"
        yield _Candidate(
            urgency[outcomes[0]] + unknown + (FAR_URGENCY if _far_from_bound(group) else 0.0),
            check.transition,
            Experiment(
                title=title,
                why=f"The step “{steps[check.transition]}” rests on “{principle.title}”: the {said}.",
                build=build,
                measure=measure,
                stop=stop,
                basis="inferred",
            ),
        )


def _far_from_bound(group: GroupCheck) -> bool:
    """Whether a number holds by so much that an experiment at its bound would tell nothing."""
    bound = group.bound
    if bound is None or group.status != "holds" or group.low is None or group.high is None:
        return False
    margins = []
    if bound.low is not None and bound.low > 0:
        margins.append(group.low / bound.low)
    if bound.high is not None and group.high > 0:
        margins.append(bound.high / group.high)
    return bool(margins) and min(margins) > FAR_FROM_BOUND


def _alone(result: Explanation, transition: Transition) -> _Candidate:
    """One step by itself: for models where nothing more pressing is known."""
    reached = lowered(result.model.state(transition.to_state).text)
    return _Candidate(
        5.0,
        transition.id,
        Experiment(
            title="Try one step alone",
            why=f"The step “{transition.text}” is not known to fail here; whether it works in your materials is open.",
            build="The smallest set-up in which only this step can happen, with parts of the materials of the design.",
            measure=sentence(f"how often it comes about that {reached}. {REPEATS}"),
            stop="The step does not come about more often than in the control.",
            basis="inferred",
        ),
    )


def _whole_course(result: Explanation, problem: Problem) -> Experiment | None:
    """All steps in turn, under the given conditions, against the change that the problem asks for."""
    course = [verdict for verdict in result.transitions if verdict.on_course]
    if not course:
        return None
    names = {thing.id: thing.name for thing in problem.things}
    wanted = [fact_words(parse_fact(fact), names) for fact in problem.objective]
    conditions = joined([f"“{condition.text}”" for condition in problem.conditions])
    change = joined(wanted) if wanted else lowered(result.model.state(_objective(result)).text)
    under = f"under the given conditions ({conditions})" if conditions else "under the conditions of use"
    steps = counted(len(course), "step")
    return Experiment(
        title="Run the whole course once on the bench",
        why=f"Steps that each work alone may not follow each other; the course has {steps}.",
        build=f"The simplest set-up in which {'all ' if len(course) > 1 else ''}{steps} can run in order, {under}.",
        measure=sentence(f"how far it comes about that {change}. {REPEATS}"),
        stop="The result does not differ from the control by more than their scatter, or it fades within a few runs.",
        basis="practice",
    )


def _objective(result: Explanation) -> str:
    purpose = next(purpose for purpose in result.model.purposes if purpose.id == result.purpose)
    return purpose.objective
