"""From a score to how often a result with that score is right.

The points are fitted on development problems by `analog.bench.calibration`; docs/bench.md says how well they hold on
others. Right means that a judge graded the model 2 or 3 of 3 for the problem.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

POINTS: tuple[tuple[float, float], ...] = (
    (0.178, 0.0),
    (0.24, 0.032),
    (0.27, 0.036),
    (0.303, 0.07),
    (0.331, 0.111),
    (0.357, 0.173),
    (0.375, 0.214),
    (0.395, 0.301),
    (0.41, 0.5),
    (0.421, 0.558),
    (0.445, 0.667),
    (0.46, 0.767),
    (0.483, 0.9),
    (0.503, 0.913),
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
