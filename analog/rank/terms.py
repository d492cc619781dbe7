"""The terms of the score, one function a term, each in 0..1 and each shown with the result."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, Protocol

from analog.model.types import Model, Purpose
from analog.problem.types import ProblemPurpose

Verdict = Literal["carries over", "carries over if", "open", "breaks"]


class Likeness(Protocol):
    """What a vocabulary says of two of its terms."""

    def similarity(self, a: str, b: str) -> float:
        """0..1, 1 for the same term."""


@dataclass(frozen=True)
class Evidence:
    """Everything known of one candidate before it is scored.

    cosines : facet -> best cosine of the problem with a text of that facet.
    words : lexical score over the best of any model.
    structure : share of the problem that the alignment matches. verdicts : of the transitions on the course.
    turned : changes of the problem that the model makes the other way round.
    """

    model: Model
    cosines: Mapping[str, float]
    words: float
    structure: float
    verdicts: tuple[Verdict, ...]
    turned: int = 0


FACET_TERMS = ("questions", "expected", "purposes", "summary", "parts", "principles")
"""Facets whose cosine is a term of its own, under the facet's name."""


def facets(evidence: Evidence) -> dict[str, float]:
    """Facet -> cosine with the candidate's closest text of it, negative ones as 0.

    A facet that the model has no text for is left out: that nobody wrote it says nothing against the mechanism.
    """
    cosines = {name: evidence.cosines.get(name, -math.inf) for name in FACET_TERMS}
    return {name: max(0.0, min(1.0, value)) for name, value in cosines.items() if math.isfinite(value)}


def verb(purposes: Sequence[ProblemPurpose], model_purposes: Iterable[Purpose], verbs: Likeness) -> float:
    """How well the functions agree; a runner-up of the reading counts by its confidence over the first's."""
    best = 0.0
    theirs = [purpose.verb for purpose in model_purposes]
    for purpose in purposes:
        first = max(purpose.confidence, 1e-9)
        read = [(purpose.verb, 1.0), *((r.verb, min(1.0, r.confidence / first)) for r in purpose.runners_up)]
        for mine, weight in read:
            for other in theirs:
                best = max(best, weight * verbs.similarity(mine, other))
    return best


def flow(purposes: Sequence[ProblemPurpose], model_purposes: Iterable[Purpose], flows: Likeness) -> float:
    """How well the flows acted on agree; 0 where the problem's flow is unknown."""
    theirs = [purpose.flow for purpose in model_purposes]
    mine = [purpose.flow for purpose in purposes if purpose.flow]
    return max((flows.similarity(a, b) for a in mine for b in theirs), default=0.0)


def function(purposes: Sequence[ProblemPurpose], agreement: float) -> float:
    """1 where the functions agree, less where they do not, as far as the reading was sure of its own.

    agreement : the verb term. The cube of the confidence keeps an unsure reading from speaking against a model.
    """
    sure = max((purpose.confidence for purpose in purposes), default=0.0)
    return 1.0 - sure**3 * (1.0 - agreement)


def direction(turned: int) -> float:
    """0 where the model makes a change of the problem the other way round, else 1: same things, opposite effect."""
    return 0.0 if turned else 1.0


_VERDICT_WORTH: Mapping[Verdict, float] = {"carries over": 1.0, "carries over if": 0.95, "open": 0.9, "breaks": 0.0}


def conditions(verdicts: Sequence[Verdict]) -> float:
    """1 if every step of the course carries over; at most 0.5 as soon as one breaks, less the more do."""
    if not verdicts:
        return 1.0
    mean = sum(_VERDICT_WORTH[verdict] for verdict in verdicts) / len(verdicts)
    return 0.5 * mean if "breaks" in verdicts else mean
