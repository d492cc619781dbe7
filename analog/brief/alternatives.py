"""Models that ranked close, and why they were not taken: the first reason is what the score itself says."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from analog.brief.content import Alternative
from analog.explain.explanation import Explanation, principles_of
from analog.explain.sentences import counted_in_words as counted
from analog.explain.sentences import joined
from analog.rank.calibration import chance

COUNT = 5
TERMS_TOLD = 2
SAME_PRINCIPLES = 0.5
"""Shared over all principles, from which on two models count as one idea."""

TERM_NAMES: Mapping[str, str] = {
    "questions": "nearness of the questions it answers",
    "expected": "nearness of the questions expected of it",
    "purposes": "nearness of its purposes",
    "summary": "nearness of its summary",
    "parts": "nearness of its parts",
    "principles": "nearness of its principles",
    "words": "shared words",
    "verb": "likeness of the function",
    "flow": "likeness of what is acted on",
    "structure": "share of the relations found again",
    "function": "agreement of the function",
    "direction": "agreement of what is to become of it",
    "conditions": "fit to the conditions",
    "distinct": "distinctness of its principles",
}
"""Term of the score -> its name in a brief."""


def alternatives(
    results: Sequence[Explanation], chosen: Sequence[Explanation], weights: Mapping[str, float]
) -> tuple[Alternative, ...]:
    """The next results of the search that were not chosen, each with why. results : ranked, best first."""
    taken = {result.model.id for result in chosen}
    rest = [result for result in results if result.model.id not in taken][:COUNT]
    return tuple(_alternative(result, chosen, weights) for result in rest)


def _alternative(result: Explanation, chosen: Sequence[Explanation], weights: Mapping[str, float]) -> Alternative:
    organism = result.model.organism
    return Alternative(
        id=result.model.id,
        title=result.model.title,
        organism=f"{organism.common} ({organism.latin})" if organism.latin else organism.common,
        rank=result.rank,
        score=round(result.score, 3),
        chance=round(chance(result.score), 3),
        why=tuple(_why(result, chosen, weights)),
    )


def _why(result: Explanation, chosen: Sequence[Explanation], weights: Mapping[str, float]) -> list[str]:
    reasons = []
    course = [verdict for verdict in result.transitions if verdict.on_course]
    broken = [verdict for verdict in course if verdict.verdict == "breaks"]
    if broken:
        others = f", and {counted(len(broken) - 1, 'more step')} with it" if len(broken) > 1 else ""
        reasons.append(f"Its step “{broken[0].text}” breaks{others}: {broken[0].grounds[0].text}.")
    for other in chosen:
        mine, theirs = principles_of(result.model), principles_of(other.model)
        if mine and len(mine & theirs) / len(mine | theirs) >= SAME_PRINCIPLES:
            shared = joined(sorted(name.replace("-", " ") for name in mine & theirs))
            reasons.append(f"It rests on principles that {other.model.id} has too ({shared}): no second idea.")
            break
    best = max(chosen, key=lambda other: other.score, default=None)
    if best is not None:
        reasons.append(_terms(result, best, weights))
    else:
        reasons += _unlike(result)
    open_steps = sum(verdict.verdict == "open" for verdict in course)
    if open_steps and not broken:
        verb = "is" if open_steps == 1 else "are"
        reasons.append(f"{counted(open_steps, 'step').capitalize()} of its course {verb} open until a value is known.")
    return reasons


FAR = 0.5
"""A term of the score below this speaks against a lead."""


def _unlike(result: Explanation) -> list[str]:
    """What speaks against a model taken alone."""
    reasons = []
    if not any(correspondence.kind for correspondence in result.correspondences):
        reasons.append("Nothing of the problem meets a part of it under a common kind.")
    terms = ("verb", "flow", "structure", "questions")
    far = [f"{TERM_NAMES[name]} ({result.scores[name]:.2f})" for name in terms if result.scores.get(name, 1.0) < FAR]
    if far:
        reasons.append(f"These are low, on a scale from 0 to 1: {joined(far)}.")
    return reasons


def _terms(result: Explanation, best: Explanation, weights: Mapping[str, float]) -> str:
    """Which terms of the score put it behind the best chosen one, weightiest first."""
    scores = f"{result.score:.2f} against {best.score:.2f} for {best.model.id}"
    if result.score > best.score:
        return f"It scores more, {scores}; the choice was made by whoever named the models or asked for coverage."
    behind = {
        name: weights.get(name, 0.0) * (best.scores[name] - value)
        for name, value in result.scores.items()
        if name in best.scores
    }
    lower = sorted((name for name in behind if behind[name] > 0.002), key=lambda name: -behind[name])[:TERMS_TOLD]
    if not lower:
        return f"It scores {scores}; no single term decides."
    told = joined([f"{TERM_NAMES[n]} ({result.scores[n]:.2f} against {best.scores[n]:.2f})" for n in lower])
    return f"It scores {scores}; it falls behind in {told}."
