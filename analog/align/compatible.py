"""What may pair with what: the policy handed to the solver, so that the solver itself knows no vocabulary."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

Similarity = Callable[[str, str], float]
"""Two names -> 0..1; 0 forbids the pair."""


def same_name(first: str, second: str) -> float:
    """1 for the same name, else 0: the rule for relations in the published worked examples."""
    return 1.0 if first == second else 0.0


def indifferent(first: str, second: str) -> float:
    """0.5 for any two names: entities pair by the relations they stand in, not by what they are called."""
    return 0.5


def functions_differ(first: str, second: str) -> float:
    """1 for the same function, 0.6 for two different ones (pressure may meet temperature)."""
    return 1.0 if first == second else 0.6


@dataclass(frozen=True)
class Compatibility:
    """How well names pair, by role. attributes pair under the rule of relations."""

    entities: Similarity = indifferent
    functions: Similarity = functions_differ
    relations: Similarity = same_name


STRUCTURE_MAPPING = Compatibility()
"""Identical relations, free entities, functions free at a cost (Gentner 1983; Falkenhainer, Forbus, Gentner 1989)."""
