"""Weights of the score from development problems: coordinate ascent on nDCG@10, judged by cross-validation.

What is printed goes into `analog/rank/fuse.py` by hand, with the run that gave it recorded in docs/bench.md.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
import numpy.typing as npt

from analog.bench.values import TermTable
from analog.rank.fuse import FusionWeights

Rows = npt.NDArray[np.int64]

FOLDS = 5
SEED = 20_261_125
STEPS = (0.0, 0.25, 0.5, 0.8, 1.25, 2.0, 4.0)
"""Factors tried on one weight while the others stand still."""

FLOOR = 0.02
"""What a weight of 0 is taken for while factors are tried, so that it can come back. Weights sum to 1."""

REACHES = (0.0, 0.2, 0.4, 0.6, 0.8, 1.0)
ROUNDS = 6
STARTS = 4
SHRINKAGE = 0.05
"""How much nDCG the full distance from the starting weights must earn: few problems choose many weights otherwise."""


@dataclass(frozen=True)
class ChosenWeights:
    """The weights of all development problems and how far they can be believed.

    fitted : nDCG@10 on the problems they were chosen on. validated : on problems left out, mean over the folds.
    before : the given weights on the same problems. without : term -> validated nDCG@10 with the term left out.
    spread : term -> (lowest, highest) weight over the folds.
    """

    weights: FusionWeights
    fitted: float
    validated: float
    before: float
    without: Mapping[str, float] = field(default_factory=dict)
    spread: Mapping[str, tuple[float, float]] = field(default_factory=dict)


def folds_of(count: int, folds: int = FOLDS, seed: int = SEED) -> list[Rows]:
    """`count` problems dealt at random into `folds` parts that differ in size by one at most."""
    order = np.random.default_rng(seed).permutation(count)
    return [np.sort(order[i::folds]) for i in range(folds)]


def fit(table: TermTable, rows: Rows, start: FusionWeights, terms: Sequence[str], seed: int = SEED) -> FusionWeights:
    """Weights of `terms`, none negative, that serve the problems `rows` best.

    Coordinate ascent from `start` and from random weights; a fine of SHRINKAGE times the distance from `start`
    (half the sum of absolute differences, 0..1) is taken off, so that a weight moves only where it pays.
    """
    random = np.random.default_rng(seed)
    anchor = _normal({name: start.terms.get(name, 0.0) for name in terms})

    def worth(weights: dict[str, float], reach: float) -> float:
        distance = 0.5 * sum(abs(weights[name] - anchor[name]) for name in terms)
        tried = replace(start, terms=weights, conditions_reach=reach)
        return float(table.ndcg(tried, rows).mean()) - SHRINKAGE * distance

    best_weights, best_reach = anchor, start.conditions_reach
    best = worth(best_weights, best_reach)
    for number in range(STARTS):
        weights = (
            anchor if number == 0 else _normal(dict(zip(terms, random.dirichlet(np.ones(len(terms))), strict=True)))
        )
        reach = start.conditions_reach
        value = worth(weights, reach)
        for _ in range(ROUNDS):
            before = value
            for name in random.permutation(np.array(terms)):
                for step in STEPS:
                    tried = _normal({**weights, str(name): max(weights[str(name)], FLOOR) * step})
                    trial = worth(tried, reach)
                    if trial > value:
                        weights, value = tried, trial
            for tried_reach in REACHES:
                trial = worth(weights, tried_reach)
                if trial > value:
                    reach, value = tried_reach, trial
            if value <= before:
                break
        if value > best:
            best_weights, best_reach, best = weights, reach, value
    return replace(start, terms=best_weights, conditions_reach=best_reach)


def validated(
    table: TermTable, rows: Rows, start: FusionWeights, terms: Sequence[str]
) -> tuple[float, list[FusionWeights]]:
    """Mean nDCG@10 over problems none of which took part in choosing the weights it is ranked by; weights per fold."""
    values, chosen = [], []
    for part in folds_of(len(rows)):
        held_out = rows[part]
        weights = fit(table, np.setdiff1d(rows, held_out), start, terms)
        values.append(table.ndcg(weights, held_out))
        chosen.append(weights)
    return float(np.concatenate(values).mean()), chosen


def choose(table: TermTable, start: FusionWeights) -> ChosenWeights:
    """Choose weights on the covered problems of a table, and tell what each term brings."""
    rows = np.flatnonzero([problem.covered for problem in table.problems])
    terms = table.terms
    score, per_fold = validated(table, rows, start, terms)
    weights = fit(table, rows, start, terms)
    without = {name: validated(table, rows, start, [t for t in terms if t != name])[0] for name in terms}
    unconditioned = [_without_conditions(w) for w in per_fold]
    parts = [table.ndcg(w, rows[part]) for w, part in zip(unconditioned, folds_of(len(rows)), strict=True)]
    without["conditions"] = float(np.concatenate(parts).mean())
    return ChosenWeights(
        weights=weights,
        fitted=float(table.ndcg(weights, rows).mean()),
        validated=score,
        before=float(table.ndcg(start, rows).mean()),
        without=without,
        spread={name: (min(w.terms[name] for w in per_fold), max(w.terms[name] for w in per_fold)) for name in terms},
    )


def _without_conditions(weights: FusionWeights) -> FusionWeights:
    return replace(weights, conditions_reach=0.0)


def _normal(weights: Mapping[str, float]) -> dict[str, float]:
    total = sum(weights.values())
    if total <= 0:
        return dict.fromkeys(weights, 1.0 / len(weights))
    return {name: float(value / total) for name, value in weights.items()}
