"""From a score to how often a result with that score is right.

The points are fitted on development problems by `analog.bench.calibration`; docs/bench.md says how well they hold on
others. Right means that a judge graded the model 2 or 3 of 3 for the problem.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

POINTS: tuple[tuple[float, float], ...] = (
    (0.169, 0.0),
    (0.237, 0.028),
    (0.268, 0.05),
    (0.297, 0.085),
    (0.326, 0.121),
    (0.351, 0.223),
    (0.373, 0.233),
    (0.379, 0.3),
    (0.39, 0.458),
    (0.404, 0.556),
    (0.414, 0.667),
    (0.428, 0.682),
    (0.452, 0.833),
    (0.462, 0.875),
    (0.487, 0.903),
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
