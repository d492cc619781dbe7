"""The first stage: which models are worth aligning. Cheap for every model, wide, and of two minds.

Most candidates come by their texts. Some places are kept for models whose purpose itself agrees, in whatever words it
is told: what the texts would miss is then still aligned, judged and scored like the rest.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

import numpy as np
import numpy.typing as npt

from analog.encode.facets import FACETS
from analog.index.signatures import Wanted
from analog.problem.types import Problem, ProblemPurpose
from analog.vocabulary.expand import Vocabulary

Floats = npt.NDArray[np.floating]

BY_PURPOSE = 0.2
"""Share of the candidates that come by their purpose (docs/bench.md)."""


def wanted(problem: Problem, vocabulary: Vocabulary) -> list[Wanted]:
    """What the purposes of a problem liken to those of models."""
    return [_wanted(problem, purpose, vocabulary) for purpose in problem.purposes]


def _wanted(problem: Problem, purpose: ProblemPurpose, vocabulary: Vocabulary) -> Wanted:
    kinds = {thing.id: thing.kind for thing in problem.things}
    of_object = kinds.get(purpose.object)
    of_place = kinds.get(purpose.where.part) if purpose.where else None
    return Wanted(
        verb=partial(vocabulary.verbs.similarity, purpose.verb),
        flow=partial(vocabulary.flows.similarity, purpose.flow) if purpose.flow else None,
        object=partial(vocabulary.kinds.similarity, of_object) if of_object else None,
        place=partial(vocabulary.kinds.similarity, of_place) if of_place else None,
    )


def by_text(cosines: Mapping[str, Floats], words: Floats, weights: Mapping[str, float]) -> Floats:
    """(models,) weighted mean of the likenesses of the texts; a facet a model has no text of (-inf) is left out."""
    total = weights.get("words", 0.0) * words
    counted = np.full(len(words), weights.get("words", 0.0))
    for name in FACETS:
        there = np.isfinite(cosines[name])
        total = total + weights.get(name, 0.0) * np.where(there, np.clip(cosines[name], 0.0, 1.0), 0.0)
        counted = counted + weights.get(name, 0.0) * there
    return np.asarray(total / np.maximum(counted, 1e-12))


def candidates(text: Floats, purpose: Floats, count: int, share: float = BY_PURPOSE) -> list[int]:
    """Positions of `count` models: the best by text, and in the last places the best by purpose of the others.

    text, purpose : (models,). Of models that agree equally in their purpose the one whose texts are nearer is taken.
    """
    order = np.argsort(-text, kind="stable")
    first = order[: max(0, count - round(share * count))]
    others = order[len(first) :]
    more = others[np.argsort(-purpose[others], kind="stable")][: max(0, count - len(first))]
    return [int(position) for position in (*first, *more)]
