"""The terms of every (problem, model) pair, computed once, so that weights can be tried without searching again."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from analog.bench.metrics import DEPTH, discount
from analog.bench.problems import GradedProblem
from analog.rank.fuse import FusionWeights
from analog.search import Searcher

if TYPE_CHECKING:
    from analog.problem.types import Problem

Floats = npt.NDArray[np.float64]

CONDITIONS, FUNCTION, DIRECTION = "conditions", "function", "direction"


@dataclass(frozen=True)
class TermTable:
    """Terms of n problems and m models.

    likeness : (n, m, t) of the t likeness terms named in `terms`, NaN where a model has no text of a facet.
    conditions, function, direction : (n, m), the factors' values.
    grades : (n, m), 0 if ungraded.
    """

    problems: tuple[GradedProblem, ...]
    models: tuple[str, ...]
    terms: tuple[str, ...]
    likeness: Floats
    conditions: Floats
    function: Floats
    direction: Floats
    grades: Floats

    def scores(self, weights: FusionWeights, rows: npt.NDArray[np.int64] | None = None) -> Floats:
        """(n, m) scores as `FusionWeights.score` gives them, of all problems or of some."""
        chosen = slice(None) if rows is None else rows
        likeness, conditions = self.likeness[chosen], self.conditions[chosen]
        function, direction = self.function[chosen], self.direction[chosen]
        row = np.array([weights.terms.get(name, 0.0) for name in self.terms])
        reaches = (
            (weights.conditions_reach, conditions),
            (weights.function_reach, function),
            (weights.direction_reach, direction),
        )
        factors = np.prod([1.0 - reach + reach * value for reach, value in reaches], axis=0)
        known = ~np.isnan(likeness)
        total = np.maximum(known @ row, 1e-12)
        scores: Floats = np.where(known, likeness, 0.0) @ row / total * factors
        return scores

    def rankings(self, weights: FusionWeights) -> dict[str, list[str]]:
        """Problem id -> models by falling score, ties by id (the models are in the order of their ids)."""
        order = np.argsort(-self.scores(weights), axis=1, kind="stable")
        return {p.id: [self.models[i] for i in row] for p, row in zip(self.problems, order, strict=True)}

    def ndcg(self, weights: FusionWeights, rows: npt.NDArray[np.int64] | None = None) -> Floats:
        """nDCG@10 of each covered problem among `rows` (all by default), in their order."""
        chosen = self._covered if rows is None else rows[np.isin(rows, self._covered)]
        order = np.argsort(-self.scores(weights, chosen), axis=1, kind="stable")[:, :DEPTH]
        gains = np.take_along_axis(self.grades[chosen], order, axis=1)
        found: Floats = gains @ discount(gains.shape[1]) / self._ideal[chosen]
        return found

    @cached_property
    def _covered(self) -> npt.NDArray[np.int64]:
        return np.flatnonzero([problem.covered for problem in self.problems])

    @cached_property
    def _ideal(self) -> Floats:
        """(n,) the discounted gain of the best order of all graded models, in the index or not."""
        best = np.zeros(len(self.problems))
        for row, problem in enumerate(self.problems):
            grades = np.sort(list(problem.relevant.values()))[::-1][:DEPTH].astype(float)
            best[row] = grades @ discount(len(grades))
        return best


def term_table(
    searcher: Searcher,
    problems: Sequence[GradedProblem],
    read: Callable[[GradedProblem], Problem | None],
    judged: Collection[str],
    tell: Callable[[int, int], None] = lambda done, total: None,
) -> TermTable:
    """Search each problem with all models as candidates and keep the terms of every result that was graded.

    read : the problem as read, or None where it cannot be read; all its terms are then 0.
    judged : ids of the models whose grades the problems bear.
    """
    models = tuple(sorted(frozenset(judged).intersection(searcher.index.ids)))
    column = {model: i for i, model in enumerate(models)}
    terms = tuple(searcher.weights.terms)
    likeness = np.zeros((len(problems), len(models), len(terms)))
    conditions = np.ones((len(problems), len(models)))
    function = np.ones((len(problems), len(models)))
    direction = np.ones((len(problems), len(models)))
    grades = np.zeros((len(problems), len(models)))
    for row, problem in enumerate(problems):
        as_read = read(problem)
        for model, values in searcher.terms_of_all(as_read) if as_read else ():
            at = column.get(model)
            if at is None:
                continue
            likeness[row, at] = [values.get(name, np.nan) for name in terms]
            conditions[row, at] = values[CONDITIONS]
            function[row, at] = values[FUNCTION]
            direction[row, at] = values[DIRECTION]
        for model, grade in problem.relevant.items():
            if model in column:
                grades[row, column[model]] = grade
        tell(row + 1, len(problems))
    return TermTable(tuple(problems), models, terms, likeness, conditions, function, direction, grades)
