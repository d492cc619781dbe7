"""From a score to how often a result with that score is right.

The points are fitted on development problems by `analog.bench.calibration`; docs/bench.md says how well they hold on
others. Right means that a judge graded the model 2 or 3 of 3 for the problem.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

POINTS: tuple[tuple[float, float], ...] = (
    (0.234, 0.0),
    (0.259, 0.011),
    (0.269, 0.033),
    (0.278, 0.077),
    (0.3, 0.082),
    (0.325, 0.101),
    (0.336, 0.108),
    (0.351, 0.142),
    (0.371, 0.226),
    (0.38, 0.25),
    (0.395, 0.341),
    (0.407, 0.415),
    (0.428, 0.477),
    (0.46, 0.73),
    (0.49, 0.743),
    (0.533, 0.92),
)
"""(score, share of right results), both rising. The fit ends at 1; a handful of cases is no certainty, so it is cut."""


def chance(score: float, points: Sequence[tuple[float, float]] = POINTS) -> float:
    """The share of right results among those of this score, 0..1; straight lines between the points, flat outside."""
    if score <= points[0][0]:
        return points[0][1]
    for (low, before), (high, after) in itertools.pairwise(points):
        if score <= high:
            return before + (after - before) * (score - low) / (high - low)
    return points[-1][1]
