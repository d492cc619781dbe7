"""The exact solver for systems of expressions.

One 0/1 variable for each pair of nodes that may match. One-to-one: each node lies in at most one chosen pair.
Parallel connectivity: a pair of expressions may be chosen only if the pairs of their arguments are. The objective is
the sum of the worths. Solved as a mixed-integer programme by HiGHS through scipy (Huangfu & Hall 2018, Mathematical
Programming Computation 10, 119-142), which proves optimality or reports a bound when time runs out.
"""

from __future__ import annotations

import time
from dataclasses import dataclass

import numpy as np

from analog.align.compatible import STRUCTURE_MAPPING, Compatibility
from analog.align.graph import Node, RelationGraph
from analog.align.objective import SYSTEMATIC, Weights

Pair = tuple[int, int]


@dataclass(frozen=True)
class Alignment:
    """Correspondences between two graphs.

    pairs : (base node, target node), sorted. value : their worth. bound : no alignment is worth more than this.
    optimal : value is proven best. seconds : time taken.
    """

    pairs: tuple[Pair, ...]
    value: float
    bound: float
    optimal: bool
    seconds: float

    @property
    def gap(self) -> float:
        """(bound - value) / bound, 0 where proven optimal."""
        return 0.0 if self.optimal or self.bound <= 0 else max(0.0, (self.bound - self.value) / self.bound)

    @property
    def mapping(self) -> dict[int, int]:
        """Base node -> target node."""
        return dict(self.pairs)


def align_graphs(
    base: RelationGraph,
    target: RelationGraph,
    compatibility: Compatibility = STRUCTURE_MAPPING,
    weights: Weights = SYSTEMATIC,
    time_limit_seconds: float = 10.0,
) -> Alignment:
    """The worthiest one-to-one, parallel-connected match of two systems.

    Returns an Alignment; empty, with value 0, where nothing may pair.
    """
    started = time.perf_counter()
    candidates = _candidates(base, target, compatibility)
    programme = _programme(base, target, candidates, weights)
    if not any(programme.worth):
        return Alignment((), 0.0, 0.0, True, time.perf_counter() - started)
    chosen, bound, optimal = _solve(programme, time_limit_seconds)
    value = float(programme.worth @ chosen)
    picked = tuple(sorted(pair for pair, take in zip(candidates, chosen, strict=False) if take))
    pairs = _spoken_of(base, target, picked)
    return Alignment(pairs, value, max(bound, value), optimal, time.perf_counter() - started)


def own_worth(graph: RelationGraph, compatibility: Compatibility, weights: Weights) -> float:
    """Worth of matching a graph with itself, every expression with itself; no search is needed for it."""
    whole = _candidates(graph, graph, compatibility)
    same = {
        (i, i): _Candidate(whole[i, i].similarity, (tuple((a, a) for a in node.arguments),))
        for i, node in enumerate(graph.nodes)
        if (i, i) in whole
    }
    return float(_programme(graph, graph, same, weights).worth.sum())


@dataclass(frozen=True)
class _Candidate:
    """A pair that may match: how well the names pair, and the possible sets of argument pairs it depends on."""

    similarity: float
    orders: tuple[tuple[Pair, ...], ...]


def _candidates(base: RelationGraph, target: RelationGraph, by: Compatibility) -> dict[Pair, _Candidate]:
    found: dict[Pair, _Candidate] = {}
    for b, first in enumerate(base.nodes):
        for t, second in enumerate(target.nodes):
            similarity = _similarity(first, second, by)
            if similarity <= 0:
                continue
            orders = [tuple(zip(first.arguments, second.arguments, strict=True))]
            if first.symmetric and second.symmetric and len(first.arguments) == 2:
                orders.append(tuple(zip(first.arguments, reversed(second.arguments), strict=True)))
            possible = tuple(order for order in orders if all(pair in found for pair in order))
            if possible:
                found[b, t] = _Candidate(similarity, possible)
    return found


def _similarity(first: Node, second: Node, by: Compatibility) -> float:
    if first.role != second.role or len(first.arguments) != len(second.arguments):
        return 0.0
    if first.role == "entity":
        return by.entities(first.name, second.name)
    if first.role == "function":
        return by.functions(first.name, second.name)
    return by.relations(first.name, second.name)


def _parents(graph: RelationGraph) -> set[int]:
    """Nodes that stand under a relation of relations."""
    return {a for i, node in enumerate(graph.nodes) if graph.orders[i] > 1 for a in node.arguments}


@dataclass(frozen=True)
class _Programme:
    """Variables (the candidates, then one for each argument order of a symmetric pair), rows `matrix x <= upper`."""

    worth: np.ndarray
    rows: list[tuple[int, int, float]]
    upper: list[float]


def _programme(
    base: RelationGraph, target: RelationGraph, candidates: dict[Pair, _Candidate], weights: Weights
) -> _Programme:
    position = {pair: index for index, pair in enumerate(candidates)}
    worth = [0.0] * len(candidates)
    rows: list[tuple[int, int, float]] = []
    upper: list[float] = []
    explained = (_parents(base), _parents(target))

    def of_arguments(order: tuple[Pair, ...]) -> float:
        total = 0.0
        for pair in order:
            node, similarity = base.nodes[pair[0]], candidates[pair].similarity
            if node.role == "entity":
                total += weights.entity * similarity
            elif node.role == "function":
                total += weights.function * similarity + of_arguments(candidates[pair].orders[0])
            else:
                total += weights.support
        return total

    def row(limit: float, entries: list[tuple[int, float]]) -> None:
        rows.extend((len(upper), column, value) for column, value in entries)
        upper.append(limit)

    for pair, candidate in candidates.items():
        index, node = position[pair], base.nodes[pair[0]]
        if node.role in {"relation", "attribute"}:
            order = max(1, min(base.orders[pair[0]], target.orders[pair[1]]))
            plain = weights.attribute if node.role == "attribute" else weights.relation * weights.deeper ** (order - 1)
            if node.role == "relation" and (pair[0] in explained[0] or pair[1] in explained[1]):
                plain += weights.promise
            worth[index] = plain * candidate.similarity
        if len(candidate.orders) == 1:
            if node.role in {"relation", "attribute"}:
                worth[index] += of_arguments(candidate.orders[0])
            for needed in candidate.orders[0]:
                row(0.0, [(index, 1.0), (position[needed], -1.0)])
        else:  # at most one order of arguments carries a symmetric pair, and the pair needs one
            first = len(worth)
            worth.extend(of_arguments(order) for order in candidate.orders)
            columns = [first + k for k in range(len(candidate.orders))]
            row(0.0, [(index, 1.0), *((column, -1.0) for column in columns)])
            row(0.0, [(index, -1.0), *((column, 1.0) for column in columns)])
            for column, needed_pairs in zip(columns, candidate.orders, strict=True):
                for needed in needed_pairs:
                    row(0.0, [(column, 1.0), (position[needed], -1.0)])
    for side, count in ((0, len(base.nodes)), (1, len(target.nodes))):
        groups: list[list[int]] = [[] for _ in range(count)]
        for pair, index in position.items():
            groups[pair[side]].append(index)
        for group in groups:
            if len(group) > 1:
                row(1.0, [(index, 1.0) for index in group])
    return _Programme(np.array(worth), rows, upper)


def _solve(programme: _Programme, time_limit_seconds: float) -> tuple[np.ndarray, float, bool]:
    """(0/1 for each variable, bound, proven optimal)."""
    # scipy.optimize costs most of a second to import: only whoever aligns free graphs pays for it
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import coo_array

    total = len(programme.worth)
    constraints = []
    if programme.upper:
        places, columns, values = zip(*programme.rows, strict=True)
        matrix = coo_array((values, (places, columns)), shape=(len(programme.upper), total)).tocsr()
        constraints = [LinearConstraint(matrix, -np.inf, np.array(programme.upper))]
    result = milp(
        -programme.worth,
        integrality=np.ones(total),
        bounds=Bounds(0, 1),
        constraints=constraints,
        options={"time_limit": time_limit_seconds, "mip_rel_gap": 1e-9},
    )
    bound = float(programme.worth.sum()) if result.get("mip_dual_bound") is None else -float(result.mip_dual_bound)
    if result.x is None:  # out of time before any solution: the empty alignment is always one
        return np.zeros(total), bound, False
    return np.round(result.x), bound, bool(result.status == 0)


def _spoken_of(base: RelationGraph, target: RelationGraph, pairs: tuple[Pair, ...]) -> tuple[Pair, ...]:
    """Things and functions that no matched relation speaks of are no correspondences: their pairing is arbitrary."""
    needed: set[Pair] = set()
    chosen = set(pairs)
    for b, t in sorted(pairs, reverse=True):
        node = base.nodes[b]
        if node.role in {"relation", "attribute"} or (b, t) in needed:
            needed.add((b, t))
            for mine in node.arguments:
                needed.update((mine, theirs) for theirs in target.nodes[t].arguments if (mine, theirs) in chosen)
    return tuple(pair for pair in pairs if pair in needed)
