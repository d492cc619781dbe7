"""From an alignment and the verdicts to the explanation of one result."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from analog.align.case import Case
from analog.align.things import FactPair, ThingAlignment
from analog.explain.cautions import cautions
from analog.explain.correspondence import CarryOver, Correspondence
from analog.explain.explanation import Explanation
from analog.explain.likeness import likeness
from analog.explain.verdict import TransitionVerdict
from analog.model.facts import Fact
from analog.model.types import Model, Purpose, parsed
from analog.problem.types import Problem, Thing
from analog.vocabulary.expand import Vocabulary

MAXIMUM_RELATIONS = 4
"""Relations told of one carry-over; the model itself has them all."""


def roles_of(problem: Problem, problem_case: Case, model_case: Case, alignment: ThingAlignment) -> dict[str, Thing]:
    """Part id -> the thing of the problem it stands for, where more than the role makes them alike."""
    alike = [pair for pair in alignment.pairs if pair.similarity > 0]
    return {model_case.ids[pair.part]: problem.thing(problem_case.ids[pair.thing]) for pair in alike}


def explanation(
    *,
    rank: int,
    problem: Problem,
    model: Model,
    purpose: Purpose,
    cases: tuple[Case, Case],
    alignment: ThingAlignment,
    facts: Sequence[FactPair],
    verdicts: Sequence[TransitionVerdict],
    score: float,
    scores: Mapping[str, float],
    covers: tuple[str, ...],
    vocabulary: Vocabulary,
) -> Explanation:
    """The record of one result. rank : 1 for the best, 0 where nothing was ranked."""
    correspondences = _correspondences(problem, model, cases, alignment, vocabulary)
    matched_facts = tuple((_fact_text(cases[0], pair.problem), _fact_text(cases[1], pair.model)) for pair in facts)
    matched = {correspondence.part for correspondence in correspondences}
    alike = likeness(
        correspondences,
        share=alignment.share,
        turned=alignment.turned,
        functions=scores["verb"],
        confidence=max((purpose.confidence for purpose in problem.purposes), default=0.0),
    )
    told = cautions(model, problem, unlike_only=not any(c.kind for c in correspondences))
    return Explanation(
        rank=rank,
        model=model,
        score=score,
        scores=scores,
        purpose=purpose.id,
        correspondences=correspondences,
        matched_facts=matched_facts,
        transitions=tuple(verdicts),
        carry_overs=_carry_overs(model, matched),
        cautions=(f"Surface likeness: {alike.surface}", *told) if alike.surface else told,
        covers=covers,
        alignment_optimal=alignment.optimal,
        likeness=alike,
    )


def _correspondences(
    problem: Problem, model: Model, cases: tuple[Case, Case], alignment: ThingAlignment, vocabulary: Vocabulary
) -> tuple[Correspondence, ...]:
    mine, theirs = cases
    found = []
    for pair in alignment.pairs:
        thing, part = problem.thing(mine.ids[pair.thing]), model.part(theirs.ids[pair.part])
        meeting = vocabulary.kinds.meeting(thing.kind, part.kind)[1] if thing.kind else None
        role = "object" if pair.thing == mine.object else "place" if pair.thing == mine.place else ""
        path = vocabulary.kinds.path(thing.kind, part.kind) if thing.kind and meeting else ()
        found.append(
            Correspondence(
                part=part.id,
                part_name=part.name,
                thing=thing.id,
                thing_name=thing.name,
                kind=vocabulary.kinds.label(meeting) if meeting else "",
                similarity=pair.similarity,
                role=role,
                path=path,
            )
        )
    order = {"object": 0, "place": 1, "": 2}
    return tuple(sorted(found, key=lambda c: (order[c.role], -c.similarity)))


def _fact_text(case: Case, index: int) -> str:
    fact = case.facts[index]
    inner = ", ".join([*(case.ids[thing] for thing in fact.things), *(f'"{value}"' for value in fact.values)])
    return f"{'not ' if fact.negated else ''}{fact.relation}({inner})"


def _carry_overs(model: Model, matched: set[str]) -> tuple[CarryOver, ...]:
    """Parts without counterpart that the course works with, each with the structural relations it stands in."""
    course = {step: index for index, step in enumerate(model.course)}
    states = {t.to_state for t in model.transitions if t.id in course} | {
        t.from_state for t in model.transitions if t.id in course
    }
    facts: list[Fact] = list(model.parsed_structure)
    facts += [fact for state in model.states if state.id in states for fact in state.parsed]
    facts += [
        parsed(reason.fact)
        for transition in model.transitions
        if transition.id in course
        for reason in transition.reasons
        if reason.type == "structure"
    ]
    found = []
    for part in model.parts:
        if part.id in matched:
            continue
        relations = dict.fromkeys(str(fact) for fact in facts if part.id in fact.parts and not fact.negated)
        if relations:
            found.append(CarryOver(part.id, part.name, part.kind, tuple(relations)[:MAXIMUM_RELATIONS]))
    return tuple(found)
