"""How often a result with a given score is right.

    python -m analog.bench.calibration

Right means graded 2 or 3. The curve from score to share of right results is isotonic regression (pool adjacent
violators: Barlow, Bartholomew, Bremner, Brunk 1972; scipy's implementation) over the first ten results of development
problems; its error is measured on problems left out of the fitting (5 parts) as expected calibration error (Naeini,
Cooper, Hauskrecht 2015, AAAI), and on report problems. The `POINTS` printed go into analog/rank/calibration.py.
"""

from __future__ import annotations

import itertools
import sys
from collections.abc import Sequence

import numpy as np

from analog.bench.grades import all_judged_models, graded_problems
from analog.bench.problems import GradedProblem, Split
from analog.bench.run import read_graded
from analog.bench.weights import folds_of
from analog.errors import InputError
from analog.rank.calibration import chance
from analog.search import Searcher

Pairs = list[tuple[float, bool]]
TOP = 10
BINS = 10
RIGHT = 2


def scored(searcher: Searcher, problems: Sequence[GradedProblem]) -> list[Pairs]:
    """For each problem the (score, right) of its first ten graded results; uncovered problems count as all wrong."""
    judged = all_judged_models()
    # among so many results at least ten are graded ones
    enough = TOP + len(frozenset(searcher.index.ids) - judged)
    found = []
    for problem in problems:
        try:
            results = searcher.search(read_graded(searcher, problem), top=enough).results
        except InputError:
            results = ()
        graded = [r for r in results if r.model.id in judged][:TOP]
        found.append([(r.score, problem.relevant.get(r.model.id, 0) >= RIGHT) for r in graded])
    return found


def fit(pairs: Pairs) -> list[tuple[float, float]]:
    """Points (score, share right) of the isotonic curve, thinned to where it rises."""
    from scipy.optimize import isotonic_regression

    ordered = sorted(pairs)
    scores = np.array([score for score, _ in ordered])
    curve = isotonic_regression(np.array([float(right) for _, right in ordered])).x
    points: list[tuple[float, float]] = []
    for value in np.unique(curve):
        inside = scores[curve == value]
        points.append((round(float(inside.mean()), 3), round(float(value), 3)))
    return points


def error(pairs: Pairs, points: Sequence[tuple[float, float]]) -> float:
    """Expected calibration error: mean |share right - predicted| over ten bins of equal count."""
    ordered = sorted(pairs)
    total = 0.0
    for part in np.array_split(np.arange(len(ordered)), BINS):
        predicted = np.mean([chance(ordered[i][0], points) for i in part])
        right = np.mean([ordered[i][1] for i in part])
        total += len(part) / len(ordered) * abs(float(predicted) - float(right))
    return total


def main() -> None:
    """Print the points, the errors and a table."""
    from analog.api import open_library

    searcher = open_library().searcher
    models = {name: searcher.index.model(name) for name in searcher.index.ids}
    by_split: dict[Split, list[Pairs]] = {}
    for split in ("development", "report"):
        by_split[split] = scored(searcher, graded_problems(split, models))
    development = by_split["development"]
    everything = [pair for pairs in development for pair in pairs]
    errors = []
    for part in folds_of(len(development)):
        left_out = set(part.tolist())
        points = fit([pair for i, pairs in enumerate(development) if i not in left_out for pair in pairs])
        errors.append(error([pair for i in part for pair in development[i]], points))
    points = fit(everything)
    report = [pair for pairs in by_split["report"] for pair in pairs]
    out = [f"POINTS = {points}", f"left out: {np.mean(errors):.3f}, report: {error(report, points):.3f}", ""]
    out += ["| score | results | right |", "| --- | ---: | ---: |"]
    edges = [0.0, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 1.0]
    for low, high in itertools.pairwise(edges):
        inside = [right for score, right in report if low <= score < high]
        if inside:
            out.append(f"| {low:.2f} to {high:.2f} | {len(inside)} | {np.mean(inside):.0%} |")
    sys.stdout.write("\n".join(out) + "\n")


if __name__ == "__main__":
    main()
