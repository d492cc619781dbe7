"""The scale check of one analogue, told bound by bound: nature's number, the problem's, and what must hold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from analog.brief.content import UNKNOWN, Bound, Line, OutcomeWord, ScaleCheck
from analog.explain.explanation import Explanation
from analog.explain.sentences import counted_in_words as counted
from analog.model.types import Principle, Source
from analog.problem.types import Problem, Thing
from analog.scale.check import ScaleCheck as Check
from analog.scale.check import has_numbers, scale_checks
from analog.scale.regime import GroupCheck, symbol_of

OUTCOMES: dict[str, OutcomeWord] = {
    "holds": "holds",
    "edge": "at the edge",
    "fails": "fails",
    "missing": "a value is missing",
    "no bound": "no number bounds it",
}

MOST_AUTHORS = 3
"""Authors named in a short reference."""


def roles_of_result(result: Explanation, problem: Problem) -> dict[str, Thing]:
    """Part id -> the thing of the problem it stands for, where more than the role makes them alike."""
    return {c.part: problem.thing(c.thing) for c in result.correspondences if c.similarity > 0}


def checks_of(result: Explanation, problem: Problem, principles: Mapping[str, Principle]) -> tuple[Check, ...]:
    """Every principle of every transition on the course, each principle and transition once."""
    found = scale_checks(result.model, problem, roles_of_result(result, problem), principles)
    course = set(result.model.course) or {transition.id for transition in result.model.transitions}
    return tuple(check for check in found if check.transition in course)


def scale_part(result: Explanation, problem: Problem, checks: Sequence[Check]) -> ScaleCheck:
    """The record of the check: bounds with a number on either side, and a note on what is not computed."""
    steps = {transition.id: transition.text for transition in result.model.transitions}
    bounds = [bound for check in checks for bound in _bounds(check, steps[check.transition])]
    inputs = dict.fromkeys(
        f"{value.name}: {value.text}, {_origin(value.origin, value.where)}"
        for check in checks
        if any(group.low is not None for group in check.problem.groups)
        for value in check.problem.values.values()
    )
    conditions = {
        text: Line(text=text, basis="model")
        for check in checks
        for text in check.problem.conditions or check.nature.conditions
    }
    return ScaleCheck(
        bounds=tuple({(b.principle, b.group, b.nature, b.problem): b for b in reversed(bounds)}.values())[::-1],
        inputs=tuple(inputs),
        conditions=tuple(conditions.values()),
        note=_note(problem, checks, bounds),
    )


def _bounds(check: Check, step: str) -> Iterator[Bound]:
    nature = {group.group.id: group for group in check.nature.groups}
    principle = check.problem.principle
    sources = {source.key: source for source in principle.sources}
    for group in check.problem.groups:
        theirs = nature[group.group.id]
        if group.low is None and theirs.low is None and not group.decisions:
            continue
        source = sources.get(group.bound.source) if group.bound else None
        memory = ", from memory" if group.bound and group.bound.from_memory else ""
        yield Bound(
            step=step,
            principle=principle.title,
            group=group.group.name,
            formula=group.group.text,
            nature=theirs.value_text,
            problem=group.value_text,
            must_be=group.bound_text,
            outcome=OUTCOMES[group.status],
            decides=tuple(decision.text for decision in group.decisions if decision.decides),
            missing=tuple(dict.fromkeys(symbol_of(principle, symbol).name for symbol in group.missing)),
            basis=f"{cited(source)}{memory}".replace("from memory, from memory", "from memory") if source else "model",
        )


def cited(source: Source) -> str:
    """A source of a principle in the text: who and when, or that it is general knowledge."""
    if source.type == "memory":
        return "from memory"
    authors = (source.authors or "").split(", ")
    return f"{f'{authors[0]} and others' if len(authors) > MOST_AUTHORS else ', '.join(authors)} ({source.year})"


def _origin(origin: str, where: str) -> str:
    words = {
        "given": "given",
        "nature": "as in nature, for a part still to be built",
        "fluid": "computed",
        "default": "usual value",
    }
    return f"{words[origin]} ({where})" if where else words[origin]


def _note(problem: Problem, checks: Sequence[Check], bounds: Sequence[Bound]) -> str:
    """Why nothing is computed on the problem's side; "" where something is."""
    if not checks:
        return "The steps of this model rest on no principle with an equation, so there is nothing to compute."
    if any(bound.problem != UNKNOWN for bound in bounds):
        return ""
    if not has_numbers(problem):
        return "The problem gives no number, so nothing could be computed on its side."
    told = counted(len({check.principle for check in checks}), "principle")
    return f"The numbers of the problem decide none of the bounds of the {told} behind the course."


def decided_groups(checks: Sequence[Check]) -> list[tuple[Check, GroupCheck]]:
    """Bounded groups of the problem's side that have a number or a deciding quantity, the weakest first."""
    order = {"fails": 0, "missing": 1, "edge": 2, "holds": 3}
    found = [
        (check, group)
        for check in checks
        for group in check.problem.groups
        if group.bound is not None and group.status in order and (group.low is not None or group.decisions)
    ]
    return sorted(found, key=lambda pair: order[pair[1].status])
