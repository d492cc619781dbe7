"""From terms to one score.

score = (weighted mean of the likeness terms) x (function factor) x (conditions factor) x (direction factor),
each factor being 1 - reach + reach x value.

The weights come from development problems (docs/bench.md says how and what each term brought). Conditions multiply,
because a mechanism that cannot run is no better for looking apt; so does the agreement of functions, because what does
another thing to the same things is alike on the surface only, and what makes the change the other way round still more
so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class FusionWeights:
    """Weight of each likeness term (their sum is 1 after division), and the reaches.

    conditions_reach, function_reach, direction_reach : 0..1, how far broken conditions, disagreeing functions and a
    change made the other way round lower a score.
    """

    terms: Mapping[str, float]
    conditions_reach: float
    function_reach: float = 0.0
    direction_reach: float = 0.0

    def score(self, values: Mapping[str, float]) -> float:
        """0..1 from the terms by name.

        A term without weight is shown but does not count; a term without value is left out of the mean, so that a
        model is not marked down for texts that nobody has written.
        """
        known = {name: weight for name, weight in self.terms.items() if name in values}
        total = sum(known.values())
        likeness = sum(weight * values[name] for name, weight in known.items()) / total if total > 0 else 0.0
        conditions = 1.0 - self.conditions_reach + self.conditions_reach * values.get("conditions", 1.0)
        function = 1.0 - self.function_reach + self.function_reach * values.get("function", 1.0)
        direction = 1.0 - self.direction_reach + self.direction_reach * values.get("direction", 1.0)
        return likeness * conditions * function * direction


DEFAULT_WEIGHTS = FusionWeights(
    terms={
        "questions": 0.33,
        "expected": 0.23,
        "purposes": 0.12,
        "summary": 0.08,
        "parts": 0.03,
        "principles": 0.05,
        "words": 0.07,
        "verb": 0.01,
        "flow": 0.02,
        "structure": 0.07,
    },
    conditions_reach=0.6,
    function_reach=0.5,
    direction_reach=0.8,
)
"""Chosen on development problems (docs/bench.md), then rounded."""
