"""From a score to how often a result with that score is right.

The points are fitted on development problems by `analog.bench.calibration`; docs/bench.md says how well they hold on
others. Right means that a judge graded the model 2 or 3 of 3 for the problem.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

POINTS: tuple[tuple[float, float], ...] = (
    (0.163, 0.0),
    (0.233, 0.03),
    (0.264, 0.068),
    (0.288, 0.084),
    (0.31, 0.091),
    (0.319, 0.117),
    (0.327, 0.143),
    (0.341, 0.215),
    (0.355, 0.235),
    (0.373, 0.281),
    (0.379, 0.379),
    (0.39, 0.444),
    (0.403, 0.59),
    (0.421, 0.661),
    (0.444, 0.75),
    (0.476, 0.92),
)
"""(score, share of right results), both rising."""


def chance(score: float, points: Sequence[tuple[float, float]] = POINTS) -> float:
    """The share of right results among those of this score, 0..1; straight lines between the points, flat outside."""
    if score <= points[0][0]:
        return points[0][1]
    for (low, before), (high, after) in itertools.pairwise(points):
        if score <= high:
            return before + (after - before) * (score - low) / (high - low)
    return points[-1][1]
