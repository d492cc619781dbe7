"""Measures of a ranking against graded problems.

nDCG, MRR and hits come from ranx (Bassani 2022, ECIR, https://github.com/AmenRA/ranx); the share of look-alikes kept
below and the paired bootstrap are ours.
"""

from __future__ import annotations

import warnings
from collections.abc import Mapping, Sequence

import numpy as np
import numpy.typing as npt

from analog.bench.problems import GradedProblem

Ranking = Sequence[str]
"""Model ids, best first."""

Rankings = Mapping[str, Ranking]
"""Problem id -> ranking."""

Floats = npt.NDArray[np.float64]

MEASURES = {
    "nDCG@10": "ndcg@10",
    "MRR": "mrr-l2",
    "hit@1": "hit_rate@1-l2",
    "hit@3": "hit_rate@3-l2",
    "hit@5": "hit_rate@5-l2",
    "hit@10": "hit_rate@10-l2",
}
"""Our name -> ranx's. nDCG has linear gain; MRR and hits count models graded 2 or 3 (`-l2`)."""

DEPTH = 10
"""Ranks that nDCG looks at."""

RESAMPLES = 10_000
SEED = 20_261_125


def measure(problems: Sequence[GradedProblem], rankings: Rankings) -> dict[str, Floats]:
    """Every measure of every covered problem, in the order given.

    Problems whose best grade is 1 count for nDCG only; MRR and hits are NaN for them.
    Returns name -> (covered problems,) in 0..1.
    """
    covered = [problem for problem in problems if problem.covered]
    answerable = np.array([max(problem.relevant.values()) >= 2 for problem in covered], dtype=bool)
    if not covered:
        return {name: np.zeros(0) for name in MEASURES}
    with warnings.catch_warnings():
        # numba, which ranx compiles with, warns of casts between whole numbers; the tests hold the values by hand
        warnings.simplefilter("ignore")
        return _by_ranx(covered, rankings, answerable)


def _by_ranx(
    covered: Sequence[GradedProblem], rankings: Rankings, answerable: npt.NDArray[np.bool_]
) -> dict[str, Floats]:
    from ranx import Qrels, Run, evaluate

    judged = Qrels({problem.id: dict(problem.relevant) for problem in covered})
    # ranx sorts by score and knows no rank: descending whole numbers keep the order as it is; an empty ranking is
    # not allowed, so a model of no name stands for it
    run = Run(
        {
            problem.id: {m: float(len(ranking) - rank) for rank, m in enumerate(ranking)} or {"": 0.0}
            for problem in covered
            for ranking in [rankings[problem.id]]
        }
    )
    evaluate(judged, run, list(MEASURES.values()))
    values = {}
    for name, theirs in MEASURES.items():
        row = np.array([run.scores[theirs][problem.id] for problem in covered], dtype=float)
        values[name] = row if name.startswith("nDCG") else np.where(answerable, row, np.nan)
    return values


def look_alikes_below(problem: GradedProblem, ranking: Ranking) -> list[bool]:
    """For each look-alike of a problem, whether it ranks below the best-ranked right model; unranked is last.

    A look-alike stands below if the right model is ranked and it is not, or is ranked later. If neither is ranked
    the pair counts as lost.
    """
    rank = {model: position for position, model in enumerate(ranking)}
    last = len(ranking)
    best = min((rank.get(model, last) for model in problem.right), default=last)
    return [best < rank.get(model, last) for model in problem.look_alikes]


def look_alike_rate(problems: Sequence[GradedProblem], rankings: Rankings) -> float:
    """Share of all (problem, look-alike) pairs of covered problems in the right order; NaN without a pair."""
    pairs = [below for p in problems if p.covered for below in look_alikes_below(p, rankings[p.id])]
    return float(np.mean(pairs)) if pairs else float("nan")


def paired_difference(
    ours: Floats, theirs: Floats, *, resamples: int = RESAMPLES, seed: int = SEED
) -> tuple[float, float, float]:
    """Mean difference over the same n problems and its 95 % interval: (mean, low, high).

    ours, theirs : (n,). Problems are drawn with replacement, both values of a problem together.
    Source: Efron & Tibshirani (1993), An Introduction to the Bootstrap, ch. 13 (percentile interval); for search
    Sakai (2006), Evaluating evaluation metrics based on the bootstrap, SIGIR, 525-532.
    """
    if ours.shape != theirs.shape or ours.ndim != 1:
        raise ValueError(f"expected two rows of equal length, got {ours.shape} and {theirs.shape}")
    difference = (ours - theirs)[~np.isnan(ours - theirs)]
    if not difference.size:
        return float("nan"), float("nan"), float("nan")
    drawn = np.random.default_rng(seed).integers(0, difference.size, size=(resamples, difference.size))
    low, high = np.percentile(difference[drawn].mean(axis=1), [2.5, 97.5])
    return float(difference.mean()), float(low), float(high)


def discount(ranks: int) -> Floats:
    """(ranks,) weight of a gain at each rank, 1 / log2(rank + 1), ranks from 1.

    Source: Järvelin & Kekäläinen (2002), Cumulated gain-based evaluation of IR techniques, ACM TOIS 20(4), 422-446, in
    the form in general use since (every rank discounted). For the fast path that chooses weights; the tests hold it
    to ranx.
    """
    weight: Floats = 1.0 / np.log2(np.arange(2, ranks + 2))
    return weight
