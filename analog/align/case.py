"""Problem and model in one shape: things with kinds, their roles, and facts before, after and always."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from analog.model.facts import Fact
from analog.model.types import Model, Purpose, parsed
from analog.problem.types import Problem, ProblemPurpose

Phase = Literal["before", "during", "after", "always"]
Stages = list[tuple[Phase, Iterable[Fact]]]


@dataclass(frozen=True)
class CaseFact:
    """A fact over positions of things. values : its words and numbers, in order."""

    phase: Phase
    relation: str
    things: tuple[int, ...]
    values: tuple[str, ...] = ()
    negated: bool = False


@dataclass(frozen=True)
class Case:
    """What alignment compares.

    ids, kinds : of the things, by position ("" where the kind is unknown).
    object, place : positions of what the purpose acts on and where, or None. place_relation : "from", "on", …
    """

    ids: tuple[str, ...]
    kinds: tuple[str, ...]
    object: int | None
    place: int | None
    place_relation: str
    facts: tuple[CaseFact, ...]


def case_of_problem(problem: Problem, purpose: ProblemPurpose) -> Case:
    """The problem under one of its purposes. Things that neither a role nor a fact mentions are left out."""
    stages: Stages = [
        ("before", map(parsed, problem.initial)),
        ("after", map(parsed, problem.objective)),
        ("always", map(parsed, problem.relations)),
    ]
    kinds = {thing.id: thing.kind or "" for thing in problem.things}
    where = purpose.where
    return _case(kinds, purpose.object, where.part if where else None, where.relation if where else "", stages)


def case_of_model(model: Model, purpose: Purpose) -> Case:
    """The model under one of its purposes; states between its initial and objective state count as `during`."""
    stages: Stages = []
    for state in model.states:
        phase: Phase = "during"
        if state.id == purpose.initial:
            phase = "before"
        elif state.id == purpose.objective:
            phase = "after"
        stages.append((phase, state.parsed))
    stages.append(("always", model.parsed_structure))
    kinds = {part.id: part.kind for part in model.parts}
    where = purpose.where
    return _case(kinds, purpose.object, where.part if where else None, where.relation if where else "", stages)


def _case(
    kinds: dict[str, str],
    object_id: str,
    place_id: str | None,
    relation: str,
    stages: list[tuple[Phase, Iterable[Fact]]],
) -> Case:
    position = {thing: index for index, thing in enumerate(kinds)}
    facts = [
        CaseFact(
            phase,
            fact.relation,
            tuple(position[a.text] for a in fact.arguments if a.is_part and a.text in position),
            tuple(a.text for a in fact.arguments if not a.is_part),
            fact.negated,
        )
        for phase, stage in stages
        for fact in stage
    ]
    place = position.get(place_id) if place_id else None
    return Case(tuple(kinds), tuple(kinds.values()), position.get(object_id), place, relation, tuple(facts))
