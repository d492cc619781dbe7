"""The thesaurus of kinds: general names under which a panel's dust and a leaf's dirt are the same thing.

Likeness follows the information-content family of measures (Resnik 1995; the intrinsic form of Seco, Veale,
Hayes 2004): what two kinds share counts less the more the shared concept covers. The step costs and the exact
curve are our own choice.
"""

from __future__ import annotations

import heapq
import math
from dataclasses import dataclass
from functools import cached_property

from analog.vocabulary.hierarchy import Hierarchy

STEP_UP = 0.86
"""Likeness that survives one step to a more general kind."""

FLOOR = 0.2
"""Likeness below this is no likeness: it is reported as 0 with an empty path."""

MATCHES_ALLOWED = 2
"""Exact and close matches one path may use; more would let meanings drift."""

EMPTY = {
    "thing", "matter", "material", "solid", "object", "energy", "signal", "structure", "machine", "organism", "body",
    "device", "animal",
}  # fmt: skip
"""Kinds so general that meeting there says nothing. `term:linkStrength` in the data overrides the computed strength
of others."""


@dataclass(frozen=True)
class Step:
    """One step of a path between two terms. relation : what the step is; source : who says so."""

    start: str
    end: str
    relation: str
    source: str

    def to_dict(self) -> dict[str, str]:
        """As the command line prints it."""
        return {"from": self.start, "to": self.end, "relation": self.relation, "source": self.source}


REVERSED = {
    "broader": "narrower", "narrower": "broader", "exact match": "exact match", "close match": "close match",
    "label": "label", "broad match": "narrow match", "head noun": "head noun", "hypernym": "hyponym",
    "hyponym": "hypernym", "sense": "sense", "same word": "same word", "modifier": "modifier",
}  # fmt: skip


def backwards(path: tuple[Step, ...]) -> tuple[Step, ...]:
    """The same path walked from its end."""
    return tuple(Step(s.end, s.start, REVERSED.get(s.relation, s.relation), s.source) for s in reversed(path))


Climb = dict[str, dict[int, tuple[float, tuple[Step, ...]]]]
"""Kind reached → matches used → (weight, path)."""


class Kinds(Hierarchy):
    """Kinds by id."""

    called = "kind"

    @cached_property
    def _matches(self) -> dict[str, list[tuple[str, float, str]]]:
        """Matches inside the thesaurus, in both directions."""
        found: dict[str, list[tuple[str, float, str]]] = {name: [] for name in self.records}
        for name, record in self.records.items():
            for relation, target, weight, *_ in record["matches"]:
                if target in self.records:
                    found[name].append((target, weight, relation))
                    if relation != "broad match":
                        found[target].append((name, weight, relation))
        return found

    @cached_property
    def anchors(self) -> dict[str, list[tuple[str, float]]]:
        """WordNet synset name → kinds anchored to it, with the weight of the anchor."""
        found: dict[str, list[tuple[str, float]]] = {}
        for name, record in self.records.items():
            for _, target, weight, *_ in record["matches"]:
                if target.startswith("wordnet:"):
                    found.setdefault(target[8:], []).append((name, weight))
        return found

    def strength(self, name: str) -> float:
        """How much it means that two kinds meet at this one, 0..1: near 1 for a kind with little below it.

        1 - (log(1 + below) / log(1 + all))^2 over the thesaurus's own counts; 0 for the empty kinds.
        """
        memory: dict[str, float] = self.__dict__.setdefault("_strengths", {})
        if name not in memory:
            given = self.records[name]["facts"].get("linkStrength")
            if name in EMPTY:
                memory[name] = 0.0
            elif given:
                memory[name] = float(given[0])
            else:
                share = math.log1p(len(self.descendants(name))) / math.log1p(len(self.records))
                memory[name] = max(0.0, 1.0 - share * share)
        return memory[name]

    def climb(self, name: str) -> Climb:
        """Everything reached by going up and over matches: kind → matches used → (weight, path); itself at weight 1.

        Best product of step weights (Dijkstra). Raises UnknownTermError for a name that is no kind.
        """
        memory: dict[str, Climb] = self.__dict__.setdefault("_climbs", {})
        if name in memory:
            return memory[name]
        self.record(name)
        best: Climb = {}
        heap: list[tuple[float, int, str, int, tuple[Step, ...]]] = [(-1.0, 0, name, 0, ())]
        count = 0
        while heap:
            negative, _, at, used, path = heapq.heappop(heap)
            ways = best.setdefault(at, {})
            if any(fewer <= used for fewer in ways):
                continue  # the heap gives the best weight first: nothing with as many matches can be better
            ways[used] = (-negative, path)
            onward = [(parent, STEP_UP, "broader", used) for parent in self.broader(at)]
            if used < MATCHES_ALLOWED:
                onward += [(target, weight, relation, used + 1) for target, weight, relation in self._matches[at]]
            for target, weight, relation, matches in onward:
                count += 1
                step = Step(at, target, relation, "thesaurus")
                heapq.heappush(heap, (negative * weight, count, target, matches, (*path, step)))
        memory[name] = best
        return best

    def _best(self, a: str, b: str) -> tuple[float, str | None, tuple[Step, ...]]:
        up_a, up_b = self.climb(a), self.climb(b)
        best: tuple[float, str | None, tuple[Step, ...]] = (0.0, None, ())
        for shared in sorted(up_a.keys() & up_b.keys()):
            strength = self.strength(shared)
            if shared in (a, b):  # one contains the other: generality counts half
                strength = min(1.0, 2 * strength)
            for used_a, (weight_a, path_a) in up_a[shared].items() if strength else ():
                for used_b, (weight_b, path_b) in up_b[shared].items():
                    value = weight_a * weight_b * strength
                    if used_a + used_b <= MATCHES_ALLOWED and value > best[0]:
                        best = (value, shared, path_a + backwards(path_b))
        return best if best[0] >= FLOOR else (0.0, None, ())

    def meeting(self, a: str, b: str) -> tuple[float, str | None]:
        """The best likeness of two kinds and the kind where they meet; (0, None) when they share nothing."""
        if a == b:
            return 1.0, a
        value, where, _ = self._best(*sorted((a, b)))
        return round(value, 4), where

    def similarity(self, a: str, b: str) -> float:
        """Likeness of two kinds in 0..1, symmetric, remembered: the alignment asks thousands of times.

        A name that is no kind is like nothing but itself.
        """
        memory: dict[tuple[str, str], float] = self.__dict__.setdefault("_memory", {})
        try:
            return memory[a, b]
        except KeyError:
            known = a in self.records and b in self.records
            value = self.meeting(a, b)[0] if known else float(a == b)
            memory[a, b] = memory[b, a] = value
            return value

    def path(self, a: str, b: str) -> tuple[Step, ...]:
        """The steps from one kind up to where they meet and down to the other; () when they share nothing."""
        if a == b:
            return ()
        first, second = sorted((a, b))
        path = self._best(first, second)[2]
        return path if a == first else backwards(path)

    def flow(self, name: str) -> str | None:
        """The flow of the published vocabulary that things of this kind are; None for an unknown kind."""
        flow = self.fact(name, "flow") if name in self.records else None
        return str(flow) if flow is not None else None
