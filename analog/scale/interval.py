"""Ranges in, ranges out: a function of several ranges is evaluated at every corner and at points spread inside.

Corners are exact where the function rises or falls in each quantity, as most groups do. The points inside (a Latin
hypercube: every quantity is cut into equal slices and each slice is met once; McKay, Beckman & Conover 1979,
Technometrics 21(2), 239-245) find a maximum or minimum between corners, not surely but always the same, since the
seed is fixed. Ranges are taken to be independent, so the result is never too narrow for related quantities.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

Range = tuple[float, float]
INSIDE = 32
"""Points inside."""
SEED = 20
MOST_CORNERS = 256
"""Beyond this number of corners (more than eight ranges) only the points inside and the two outermost corners count."""


@dataclass(frozen=True)
class Propagated:
    """The range of a function, or why there is none.

    low, high : None if the function could not be computed anywhere. failures : points at which it raised ValueError,
    of `points`. fault : the first such message. method : how the range was found.
    """

    low: float | None
    high: float | None
    points: int
    failures: int
    fault: str
    method: str


def latin_hypercube(count: int, dimensions: int, seed: int = SEED) -> list[tuple[float, ...]]:
    """(count, dimensions) points in the unit cube; in every dimension one in each of `count` equal slices."""
    import numpy

    generator = numpy.random.default_rng(seed)
    columns = [(generator.permutation(count) + generator.random(count)) / count for _ in range(dimensions)]
    return [tuple(float(column[i]) for column in columns) for i in range(count)]


def corners(ranges: Sequence[Range]) -> list[tuple[float, ...]]:
    """Every combination of the ends; a range of one value has one end."""
    ends = [(low,) if low == high else (low, high) for low, high in ranges]
    count = math.prod(len(end) for end in ends)
    if count > MOST_CORNERS:
        return [tuple(end[0] for end in ends), tuple(end[-1] for end in ends)]
    return list(itertools.product(*ends))


def points(ranges: Sequence[Range]) -> list[tuple[float, ...]]:
    """Corners, then points inside; only the one corner where nothing is a range."""
    wide = [i for i, (low, high) in enumerate(ranges) if low != high]
    found = corners(ranges)
    if not wide:
        return found
    for sample in latin_hypercube(INSIDE, len(wide)):
        point = [low for low, _ in ranges]
        for share, i in zip(sample, wide, strict=True):
            point[i] = _between(*ranges[i], share)
        found.append(tuple(point))
    return found


def _between(low: float, high: float, share: float) -> float:
    """A point of the range: by ratio where the range spans decades, else by distance."""
    if low > 0 and high / low > 10:
        return float(low * (high / low) ** share)
    return low + (high - low) * share


def propagate(function: Callable[..., float], ranges: Sequence[Range]) -> Propagated:
    """The range of `function` over ranges of its arguments."""
    values: list[float] = []
    failures, fault = 0, ""
    tried = points(ranges)
    for point in tried:
        try:
            value = float(function(*point))
        except (ValueError, ZeroDivisionError, OverflowError) as error:
            failures, fault = failures + 1, fault or str(error)
            continue
        if math.isnan(value):
            failures, fault = failures + 1, fault or "the result is no number"
            continue
        values.append(value)
    single = len(tried) == 1
    method = "one value" if single else f"{len(tried) - INSIDE} corners and {INSIDE} points inside (seed {SEED})"
    if not values:
        return Propagated(None, None, len(tried), failures, fault, method)
    return Propagated(min(values), max(values), len(tried), failures, fault, method)
