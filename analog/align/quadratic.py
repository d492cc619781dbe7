"""One-to-one pairing of two lists where pairs of pairs have a worth too: the quadratic assignment problem, exactly.

Best-first branch and bound. Bound: each pair left open is worth itself, what it has with the pairs already made, and
half of the best it could have with each other open item; an assignment over these bounds all completions (in the
manner of Gilmore 1962, J. SIAM 10, 305-313, and Lawler 1963, Management Science 9, 586-599, with a maximum in place
of their inner assignment: looser, and many times quicker).
"""

from __future__ import annotations

import heapq
import time
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
CLOSE = 1e-9


@dataclass(frozen=True)
class Pairing:
    """images[i] : what item i is paired with. value : its worth; bound : no pairing is worth more; optimal : proven."""

    images: tuple[int, ...]
    value: float
    bound: float
    optimal: bool


def pairing_value(single: Floats, double: Floats, images: tuple[int, ...]) -> float:
    """Worth of a pairing: single[i, k] for each pair, double[i, j, k, l] for each two pairs with i < j."""
    alone = sum(float(single[i, k]) for i, k in enumerate(images))
    return alone + sum(float(double[i, j, images[i], images[j]]) for i, j in combinations(range(len(images)), 2))


def best_pairing(single: Floats, double: Floats, time_limit_seconds: float = 10.0) -> Pairing:
    """The worthiest pairing of every one of m items with one of n others, m <= n.

    single : (m, n) float, any sign. double : (m, m, n, n) float, double[i, j, k, l] = double[j, i, l, k]: worth of
    pairing i with k and j with l.

    Raises ValueError for shapes that disagree or m > n.
    """
    m, n = single.shape
    if double.shape != (m, m, n, n) or m > n:
        raise ValueError(f"expected (m, n) with m <= n and (m, m, n, n), found {single.shape} and {double.shape}")
    if m == 0:
        return Pairing((), 0.0, 0.0, True)
    deadline = time.perf_counter() + time_limit_seconds
    bound, guess = _relaxed(single, double, ())
    best = _improved(single, double, guess)
    value = pairing_value(single, double, best)
    count = 0
    nodes: list[tuple[float, int, tuple[int, ...]]] = [(-bound, count, ())]
    while nodes and -nodes[0][0] > value + CLOSE:
        if time.perf_counter() > deadline:
            return Pairing(best, value, -nodes[0][0], False)
        _, _, made = heapq.heappop(nodes)
        for k in sorted(set(range(n)) - set(made)):
            child = (*made, k)
            bound, guess = _relaxed(single, double, child)
            if bound <= value + CLOSE:
                continue
            worth = pairing_value(single, double, guess)
            if worth > value + CLOSE:
                best = _improved(single, double, guess)
                value = pairing_value(single, double, best)
            if len(child) < m:
                count += 1
                heapq.heappush(nodes, (-bound, count, child))
    return Pairing(best, value, value, True)


def _relaxed(single: Floats, double: Floats, made: tuple[int, ...]) -> tuple[float, tuple[int, ...]]:
    """(bound on all completions of the pairs made, one completion)."""
    from scipy.optimize import linear_sum_assignment

    m, n = single.shape
    fixed = pairing_value(single, double, made)
    rows = list(range(len(made), m))
    if not rows:
        return fixed, made
    columns = sorted(set(range(n)) - set(made))
    worth = single[np.ix_(rows, columns)].copy()
    for j, l in enumerate(made):  # noqa: E741 - the index of the docstring
        worth += double[rows, j][:, columns, l]
    if len(rows) > 1:
        open_pairs = double[np.ix_(rows, rows, columns, columns)]
        same_column = np.eye(len(columns), dtype=bool)
        best = np.where(same_column, -np.inf, open_pairs).max(axis=3)
        best[np.arange(len(rows)), np.arange(len(rows))] = 0.0  # an item has no worth with itself
        worth += best.sum(axis=1) / 2
    chosen = linear_sum_assignment(worth, maximize=True)
    return fixed + float(worth[chosen].sum()), (*made, *(columns[int(k)] for k in chosen[1]))


def _improved(single: Floats, double: Floats, images: tuple[int, ...]) -> tuple[int, ...]:
    """Exchange two images, or take a free one, as long as that is worth more."""
    best, value = images, pairing_value(single, double, images)
    while True:
        found = best
        for other in _neighbours(best, single.shape[1]):
            worth = pairing_value(single, double, other)
            if worth > value + CLOSE:
                found, value = other, worth
        if found == best:
            return best
        best = found


def _neighbours(images: tuple[int, ...], n: int) -> list[tuple[int, ...]]:
    found = []
    for i, j in combinations(range(len(images)), 2):
        other = list(images)
        other[i], other[j] = other[j], other[i]
        found.append(tuple(other))
    free = set(range(n)) - set(images)
    found += [(*images[:i], k, *images[i + 1 :]) for i in range(len(images)) for k in free]
    return found
