"""Which part of a model plays the role of which thing of a problem: exact search for small cases.

Every thing of the problem gets at most one part and no part two things. A pairing is worth how well the kinds meet,
whether the roles agree, and the relations it finds again: one thing's own facts, facts between two things, and, most,
changes (the same relation before and after), since a change found again is a connected system and not a chance
likeness. The thing acted on and the place are never swapped.

All of this is a sum over things and pairs of things (a quadratic assignment: Koopmans & Beckmann 1957, Econometrica
25, 53-76; leaving things unpaired is our addition), solved by depth-first branch and bound; the bound adds, for what is
still open, the best each thing and each pair could bring.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from analog.align.case import Case, CaseFact, Phase

Similarity = Callable[[str, str], float]
Pair = tuple[int, int]


@dataclass(frozen=True)
class ThingPolicy:
    """How kinds and relations pair, handed in so that the search knows no vocabulary.

    kinds, relations : similarity 0..1. symmetric : whether a relation's two things may change places.
    """

    kinds: Similarity
    relations: Similarity
    symmetric: Callable[[str], bool]


@dataclass(frozen=True)
class ThingWeights:
    """Worth of one pair of kinds, one agreeing role, one fact found again, one change found again."""

    kind: float = 1.0
    role: float = 1.0
    fact: float = 0.5
    change: float = 1.0


@dataclass(frozen=True)
class ThingPair:
    """A correspondence: positions in the problem and in the model, and how well the kinds meet."""

    thing: int
    part: int
    similarity: float


@dataclass(frozen=True)
class FactPair:
    """A fact of the problem (position) found again as a fact of the model, and how alike the relations are."""

    problem: int
    model: int
    similarity: float


@dataclass(frozen=True)
class ThingAlignment:
    """The worthiest pairing.

    value, bound : its worth, and what no pairing can exceed. perfect : worth of matching every kind, role and relation.
    optimal : value is proven best. turned : changes of the problem that the model makes the other way round, between
    things whose kinds meet.
    """

    pairs: tuple[ThingPair, ...]
    value: float
    bound: float
    perfect: float
    optimal: bool
    turned: int = 0

    @property
    def share(self) -> float:
        """0..1: how much of the problem the model matches."""
        return self.value / self.perfect if self.perfect > 0 else 0.0


_PHASES: dict[tuple[str, str], float] = {
    ("before", "before"): 1.0,
    ("after", "after"): 1.0,
    ("always", "always"): 1.0,
    ("always", "before"): 0.8,
    ("always", "during"): 0.5,
    ("always", "after"): 0.8,
    ("before", "always"): 0.6,
    ("after", "always"): 0.3,
    ("before", "during"): 0.3,
    ("after", "during"): 0.3,
}
"""(problem's phase, model's phase) -> factor. Before never meets after: that would turn the change round."""

_UNLIKE_KINDS = 0.15
"""Worth of a pair whose roles agree although their kinds meet nowhere: an analogy may cross kinds, at a price."""


_KINDS_MEET, _RELATIONS_MEET = 0.5, 0.5
"""Likeness of kinds and of relations from which on a change can count as turned round."""

_TIE = 1e-12


def align_things(
    problem: Case,
    model: Case,
    policy: ThingPolicy,
    weights: ThingWeights | None = None,
    time_limit_seconds: float = 0.5,
) -> ThingAlignment:
    """The worthiest pairing of a problem's things with a model's parts.

    Returns a ThingAlignment; empty if nothing may pair. Past the time limit the best found so far comes back with
    optimal=False and its bound.
    """
    return _Pairing(problem, model, policy, weights or ThingWeights()).solve(time_limit_seconds)


def worths(
    problem: Case, model: Case, policy: ThingPolicy, weights: ThingWeights
) -> tuple[np.ndarray, dict[Pair, np.ndarray]]:
    """What `branch_and_bound` takes: worth of single pairs (things, parts), and of two pairs together."""
    return _Pairing(problem, model, policy, weights).worths()


def facts_found(problem: Case, model: Case, policy: ThingPolicy, pairs: tuple[ThingPair, ...]) -> tuple[FactPair, ...]:
    """The facts of the problem that a pairing finds again, each with the model's best fact for it."""
    return _Pairing(problem, model, policy, ThingWeights()).facts_found(pairs)


class _Pairing:
    """One problem against one model: the worth of every single and double pairing, worked out once."""

    def __init__(self, problem: Case, model: Case, policy: ThingPolicy, weights: ThingWeights) -> None:
        self.problem, self.model, self.policy, self.weights = problem, model, policy, weights
        alike = [[policy.kinds(a, b) if a and b else 0.0 for b in model.kinds] for a in problem.kinds]
        self.similarity = np.array(alike, dtype=float).reshape(len(problem.kinds), len(model.kinds))
        before = [i for i, fact in enumerate(problem.facts) if fact.phase == "before"]
        after = [i for i, fact in enumerate(problem.facts) if fact.phase == "after"]
        self.changes = [(i, j) for i in before for j in after if problem.facts[i].things == problem.facts[j].things]

    def solve(self, time_limit_seconds: float) -> ThingAlignment:
        single, double = self.worths()
        assignment, value, bound, optimal = branch_and_bound(single, double, time_limit_seconds)
        pairs = tuple(ThingPair(a, p, float(self.similarity[a, p])) for a, p in enumerate(assignment) if p >= 0)
        return ThingAlignment(pairs, value, max(bound, value), self._perfect(), optimal, self._turned_round(pairs))

    def worths(self) -> tuple[np.ndarray, dict[Pair, np.ndarray]]:
        single = self._kinds_and_roles()
        own, double = self._found_again()
        return np.where(single > 0, single + own, 0.0), double

    def _kinds_and_roles(self) -> np.ndarray:
        """(things, parts) worth of each pair by kind and role; 0 where the pair is not allowed."""
        problem, model, weights = self.problem, self.model, self.weights
        worth = weights.kind * self.similarity
        roles = ((problem.object, model.object, model.place), (problem.place, model.place, model.object))
        for mine, theirs, opposite in roles:
            if mine is None:
                continue
            if theirs is not None:
                worth[mine, theirs] = max(worth[mine, theirs], weights.kind * _UNLIKE_KINDS) + weights.role
            if opposite is not None and opposite != theirs:
                worth[mine, opposite] = 0.0
        return worth

    def _alike(self, mine: CaseFact, theirs: CaseFact) -> float:
        """0..1: how well a fact of the model stands for one of the problem, whatever its things."""
        phase = _PHASES.get((mine.phase, theirs.phase), 0.0)
        if phase == 0.0 or mine.negated != theirs.negated or len(mine.things) != len(theirs.things):
            return 0.0
        relation = self.policy.relations(mine.relation, theirs.relation)
        if mine.values and theirs.values:
            relation *= 1.0 if mine.values == theirs.values else 0.6
        return phase * relation

    def _orders(self, mine: CaseFact, theirs: CaseFact) -> list[tuple[int, ...]]:
        """The orders in which the model's things may stand for the problem's."""
        symmetric = self.policy.symmetric(mine.relation) and self.policy.symmetric(theirs.relation)
        return [theirs.things, theirs.things[::-1]] if symmetric and len(mine.things) == 2 else [theirs.things]

    def _tables(self) -> list[dict[tuple[int, ...], float]]:
        """For each fact of the problem: parts of the model -> how well a fact over just these parts matches it."""
        tables: list[dict[tuple[int, ...], float]] = []
        for mine in self.problem.facts:
            table: dict[tuple[int, ...], float] = {}
            relations = {theirs.relation for theirs in self.model.facts}
            kin = {relation for relation in relations if self.policy.relations(mine.relation, relation) > 0}
            for theirs in self.model.facts:
                alike = self._alike(mine, theirs) if theirs.relation in kin else 0.0
                if alike > 0:
                    for order in self._orders(mine, theirs):
                        table[order] = max(table.get(order, 0.0), alike)
            tables.append(table)
        return tables

    def _found_again(self) -> tuple[np.ndarray, dict[Pair, np.ndarray]]:
        """((things, parts) worth of what is said of one thing; two things -> (parts, parts) worth between them)."""
        tables = self._tables()
        worths = [
            (fact.things, table, self.weights.fact) for fact, table in zip(self.problem.facts, tables, strict=True)
        ]
        for i, j in self.changes:
            both = {parts: min(tables[i][parts], tables[j][parts]) for parts in tables[i].keys() & tables[j].keys()}
            worths.append((self.problem.facts[i].things, both, self.weights.change))
        size = len(self.model.ids)
        own = np.zeros((len(self.problem.ids), size))
        double: dict[Pair, np.ndarray] = {}
        for things, table, weight in worths:
            if len(things) == 1:
                for (part,), alike in table.items():
                    own[things[0], part] += weight * alike
            elif len(things) == 2 and things[0] != things[1]:
                first, second = sorted(things)
                grid = double.setdefault((first, second), np.zeros((size, size)))
                for (p, q), alike in table.items():
                    grid[(p, q) if things[0] == first else (q, p)] += weight * alike
        return own, double

    def facts_found(self, pairs: tuple[ThingPair, ...]) -> tuple[FactPair, ...]:
        part_of = {pair.thing: pair.part for pair in pairs}
        found = []
        for i, mine in enumerate(self.problem.facts):
            mapped = tuple(part_of.get(a, -1) for a in mine.things)
            if not mapped or -1 in mapped:
                continue
            alike = [
                self._alike(mine, theirs) if mapped in self._orders(mine, theirs) else 0.0
                for theirs in self.model.facts
            ]
            best = max(range(len(alike)), key=alike.__getitem__, default=-1)
            if best >= 0 and alike[best] > 0:
                found.append(FactPair(i, best, alike[best]))
        return tuple(found)

    def _turned_round(self, pairs: tuple[ThingPair, ...]) -> int:
        """Changes between two things that the model makes backwards and not also forwards.

        A change of one thing alone (an amount that rises) is too common to tell anything.
        """
        part_of = {pair.thing: pair.part for pair in pairs if pair.similarity >= _KINDS_MEET}
        count = 0
        for i, j in self.changes:
            before, after = self.problem.facts[i], self.problem.facts[j]
            mapped = tuple(part_of.get(a, -1) for a in before.things)
            if len(mapped) != 2 or -1 in mapped:
                continue
            forwards = self._holds(before, "before", mapped) and self._holds(after, "after", mapped)
            if not forwards and self._holds(before, "after", mapped) and self._holds(after, "before", mapped):
                count += 1
        return count

    def _holds(self, fact: CaseFact, phase: Phase, mapped: tuple[int, ...]) -> bool:
        """Whether the model has a fact in this phase over just these parts."""
        return any(
            theirs.phase == phase
            and theirs.negated == fact.negated
            and self.policy.relations(fact.relation, theirs.relation) >= _RELATIONS_MEET
            and mapped in self._orders(fact, theirs)
            for theirs in self.model.facts
        )

    def _perfect(self) -> float:
        """Worth of a model that matches every kind, role, fact and change of the problem."""
        problem, weights = self.problem, self.weights
        roles = {role for role in (problem.object, problem.place) if role is not None}
        spoken_of = roles | {thing for fact in problem.facts for thing in fact.things}
        return (
            weights.kind * len(spoken_of)
            + weights.role * len(roles)
            + weights.fact * len(problem.facts)
            + weights.change * len(self.changes)
        )


def branch_and_bound(
    single: np.ndarray, double: dict[Pair, np.ndarray], time_limit_seconds: float
) -> tuple[list[int], float, float, bool]:
    """The best one-to-one choice of parts for things.

    single : (things, parts) worth of a pair, 0 where it is not allowed.
    double : two things (first < second) -> (parts, parts) worth of choosing both.

    Returns (part of each thing or -1, value, bound, proven). Things are tried in the order of what they can bring.
    """
    things = single.shape[0]
    best_pair = {key: float(grid.max(initial=0.0)) for key, grid in double.items()}
    alone = [float(single[a].max(initial=0.0)) for a in range(things)]
    promise = [alone[a] + sum(worth for key, worth in best_pair.items() if a in key) for a in range(things)]
    order = sorted(range(things), key=lambda a: -promise[a])
    rank = {thing: depth for depth, thing in enumerate(order)}
    closed_at: list[list[tuple[Pair, np.ndarray]]] = [[] for _ in range(things)]
    for key, grid in double.items():
        closed_at[max(rank[key[0]], rank[key[1]])].append((key, grid))
    options = [[int(p) for p in np.argsort(-single[a]) if single[a, p] > 0] for a in order]
    still_open = [0.0] * (things + 1)
    for depth in reversed(range(things)):
        pairs_closed = sum(best_pair[key] for key, _ in closed_at[depth])
        still_open[depth] = still_open[depth + 1] + alone[order[depth]] + pairs_closed
    chosen, best, best_value, proven = [-1] * things, [-1] * things, 0.0, True
    used: set[int] = set()
    deadline = time.perf_counter() + time_limit_seconds

    def visit(depth: int, value: float) -> None:
        nonlocal best, best_value, proven
        if value > best_value + _TIE:
            best, best_value = chosen.copy(), value
        if depth == things or value + still_open[depth] <= best_value + _TIE or not proven:
            return
        if time.perf_counter() > deadline:
            proven = False
            return
        thing = order[depth]
        for part in options[depth]:
            if part in used:
                continue
            chosen[thing] = part
            gain = float(single[thing, part])
            for (first, second), grid in closed_at[depth]:
                if chosen[first] >= 0 and chosen[second] >= 0:
                    gain += float(grid[chosen[first], chosen[second]])
            used.add(part)
            visit(depth + 1, value + gain)
            used.discard(part)
        chosen[thing] = -1
        visit(depth + 1, value)

    visit(0, 0.0)
    return best, best_value, best_value if proven else still_open[0], proven
