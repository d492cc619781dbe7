"""From terms to one score.

score = (weighted mean of the likeness terms) x (1 - reach + reach x conditions)

The weights come from development problems (docs/bench.md says how and what each term brought); conditions multiply,
because a mechanism that cannot run is no better for looking apt.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class FusionWeights:
    """Weight of each likeness term (their sum is 1 after division) and how far broken conditions reach (0..1)."""

    terms: Mapping[str, float]
    conditions_reach: float

    def score(self, values: Mapping[str, float]) -> float:
        """0..1 from the terms by name; a term without weight is shown but does not count."""
        total = sum(self.terms.values())
        likeness = sum(weight * values.get(name, 0.0) for name, weight in self.terms.items()) / total
        factor = 1.0 - self.conditions_reach + self.conditions_reach * values.get("conditions", 1.0)
        return likeness * factor


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
    conditions_reach=0.4,
)
"""Chosen on development problems (docs/bench.md), then rounded."""
