"""Distinct principles before ten copies of one idea.

Maximal marginal relevance (Carbonell & Goldstein 1998, SIGIR, 335-336): each next result is the one with the best score
after a discount for the principles it shares with a result already chosen.
"""

from __future__ import annotations

from collections.abc import Sequence

DISCOUNT = 0.05
"""Share of its score that a result loses if it rests on the very principles of one above it (docs/bench.md)."""


def diversified(
    scores: Sequence[float], principles: Sequence[frozenset[str]], count: int, discount: float = DISCOUNT
) -> list[tuple[int, float]]:
    """The first `count` results in their new order, each as (position, what remains of its score: 0..1).

    scores, principles : (n,) score and set of principles of each candidate. A candidate without principles is taken
    for unlike every other.
    """
    left = sorted(range(len(scores)), key=lambda i: (-scores[i], i))
    chosen: list[tuple[int, float]] = []
    alike = [0.0] * len(scores)
    while left and len(chosen) < count:
        best = max(left, key=lambda i: (scores[i] * (1.0 - discount * alike[i]), -i))
        left.remove(best)
        chosen.append((best, 1.0 - discount * alike[best]))
        for i in left:
            alike[i] = max(alike[i], _overlap(principles[i], principles[best]))
    return chosen


def _overlap(first: frozenset[str], second: frozenset[str]) -> float:
    """Jaccard index, 0..1."""
    return len(first & second) / len(first | second) if first and second else 0.0
