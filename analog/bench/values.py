"""The terms of every (problem, model) pair, computed once, so that weights can be tried without searching again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from analog.bench.metrics import ndcg
from analog.bench.problems import GradedProblem
from analog.rank.fuse import FusionWeights
from analog.search import Searcher

if TYPE_CHECKING:
    from analog.problem.types import Problem

Floats = npt.NDArray[np.float64]

CONDITIONS = "conditions"


@dataclass(frozen=True)
class TermTable:
    """Terms of n problems and m models.

    likeness : (n, m, t) of the t likeness terms named in `terms`. conditions : (n, m). grades : (n, m), 0 if ungraded.
    """

    problems: tuple[GradedProblem, ...]
    models: tuple[str, ...]
    terms: tuple[str, ...]
    likeness: Floats
    conditions: Floats
    grades: Floats

    def scores(self, weights: FusionWeights) -> Floats:
        """(n, m) scores as `FusionWeights.score` gives them."""
        row = np.array([weights.terms.get(name, 0.0) for name in self.terms])
        likeness: Floats = self.likeness @ (row / row.sum())
        reach = weights.conditions_reach
        return likeness * (1.0 - reach + reach * self.conditions)

    def rankings(self, weights: FusionWeights) -> dict[str, list[str]]:
        """Problem id -> models by falling score, ties by id (the models are in the order of their ids)."""
        order = np.argsort(-self.scores(weights), axis=1, kind="stable")
        return {p.id: [self.models[i] for i in row] for p, row in zip(self.problems, order, strict=True)}

    def ndcg(self, weights: FusionWeights, rows: npt.NDArray[np.int64] | None = None) -> Floats:
        """nDCG@10 of each covered problem among `rows` (all by default)."""
        chosen = np.arange(len(self.problems)) if rows is None else rows
        scores = self.scores(weights)
        found = []
        for i in chosen:
            if self.problems[i].covered:
                gains = self.grades[i][np.argsort(-scores[i], kind="stable")[:10]]
                found.append(ndcg(gains, np.sort(list(self.problems[i].relevant.values()))[::-1].astype(float)))
        return np.array(found)


def term_table(
    searcher: Searcher,
    problems: Sequence[GradedProblem],
    read: Callable[[GradedProblem], Problem | None],
    tell: Callable[[int, int], None] = lambda done, total: None,
) -> TermTable:
    """Search each problem with all models as candidates and keep the terms of every result.

    read : the problem as read, or None where it cannot be read; all its terms are then 0.
    """
    models = tuple(sorted(searcher.index.ids))
    column = {model: i for i, model in enumerate(models)}
    terms = tuple(searcher.weights.terms)
    likeness = np.zeros((len(problems), len(models), len(terms)))
    conditions = np.ones((len(problems), len(models)))
    grades = np.zeros((len(problems), len(models)))
    for row, problem in enumerate(problems):
        as_read = read(problem)
        found = searcher.search(as_read, top=len(models), candidates=len(models)).results if as_read else ()
        for result in found:
            at = column[result.model.id]
            likeness[row, at] = [result.scores[name] for name in terms]
            conditions[row, at] = result.scores[CONDITIONS]
        for model, grade in problem.relevant.items():
            if model in column:
                grades[row, column[model]] = grade
        tell(row + 1, len(problems))
    return TermTable(tuple(problems), models, terms, likeness, conditions, grades)
