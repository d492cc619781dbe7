"""The smallest set of analogues that together covers what a problem asks for.

A problem of several purposes is seldom served by one natural system. Which analogue covers which purpose is known
from its alignment and verdicts; the smallest set that covers as much as can be covered is an exact set cover, found by
trying sets in order of their size (problems have few purposes, so that this is quick and needs no solver).
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

MAXIMUM_CANDIDATES = 24
"""Per search, after candidates that cover no more than a better one have been left out."""


@dataclass(frozen=True)
class Portfolio:
    """Chosen analogues, best score first: id -> the requirements it covers; and what nothing covers."""

    members: Mapping[str, tuple[str, ...]]
    uncovered: tuple[str, ...]

    def to_dict(self) -> dict[str, object]:
        """As the command line prints it."""
        members = [{"id": name, "covers": list(covered)} for name, covered in self.members.items()]
        return {"members": members, "uncovered": list(self.uncovered)}


def smallest_cover(
    requirements: Sequence[str], covers: Mapping[str, frozenset[str]], scores: Mapping[str, float]
) -> Portfolio:
    """The smallest set of candidates that covers all that any candidate covers; of equal sets, the best total score.

    covers : candidate -> the requirements it covers. scores : candidate -> how good it is.
    """
    coverable = frozenset().union(*covers.values()) & frozenset(requirements) if covers else frozenset()
    uncovered = tuple(requirement for requirement in requirements if requirement not in coverable)
    candidates = _undominated({name: covered & coverable for name, covered in covers.items()}, scores)
    for size in range(1, len(coverable) + 1):
        sets = [
            chosen
            for chosen in itertools.combinations(candidates, size)
            if frozenset().union(*(covers[name] for name in chosen)) >= coverable
        ]
        if sets:
            best = max(sets, key=lambda chosen: (sum(scores[name] for name in chosen), chosen))
            order = sorted(best, key=lambda name: (-scores[name], name))
            told = {name: tuple(r for r in requirements if r in covers[name]) for name in order}
            return Portfolio(told, uncovered)
    return Portfolio({}, uncovered)


def _undominated(covers: Mapping[str, frozenset[str]], scores: Mapping[str, float]) -> list[str]:
    """Candidates that some smallest best cover may need: for each set of requirements the best-scored one.

    Of two candidates that cover the same the worse is never needed, and neither is one that covers less than a better.
    """
    order = sorted((name for name in covers if covers[name]), key=lambda name: (-scores[name], name))
    kept: list[str] = []
    for name in order:
        if not any(covers[name] <= covers[better] for better in kept):
            kept.append(name)
    return kept[:MAXIMUM_CANDIDATES]
