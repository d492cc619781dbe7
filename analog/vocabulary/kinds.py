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
"""Exact and close matches one climb may use; more would let meanings drift."""

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


Climb = dict[str, tuple[float, tuple[Step, ...]]]


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
        """Everything reached by going up and over matches: kind → (weight, path), the kind itself at weight 1.

        Best product of step weights (Dijkstra). Raises UnknownTermError for a name that is no kind.
        """
        memory: dict[str, Climb] = self.__dict__.setdefault("_climbs", {})
        if name in memory:
            return memory[name]
        self.record(name)
        best: Climb = {}
        done: set[tuple[str, int]] = set()
        heap: list[tuple[float, int, str, int, tuple[Step, ...]]] = [(-1.0, 0, name, 0, ())]
        count = 0
        while heap:
            negative, _, at, used, path = heapq.heappop(heap)
            if (at, used) in done:
                continue
            done.add((at, used))
            if at not in best or -negative > best[at][0]:
                best[at] = (-negative, path)
            for parent in self.broader(at):
                count += 1
                step = Step(at, parent, "broader", "thesaurus")
                heapq.heappush(heap, (negative * STEP_UP, count, parent, used, (*path, step)))
            for target, weight, relation in self._matches[at] if used < MATCHES_ALLOWED else ():
                count += 1
                step = Step(at, target, relation, "thesaurus")
                heapq.heappush(heap, (negative * weight, count, target, used + 1, (*path, step)))
        memory[name] = best
        return best

    def meeting(self, a: str, b: str) -> tuple[float, str | None]:
        """The best likeness of two kinds and the kind where they meet; (0, None) when they share nothing."""
        if a == b:
            return 1.0, a
        up_a, up_b = self.climb(a), self.climb(b)
        best, where = 0.0, None
        for shared in up_a.keys() & up_b.keys() if len(up_a) <= len(up_b) else up_b.keys() & up_a.keys():
            strength = self.strength(shared)
            if shared in (a, b):  # one contains the other: generality counts half
                strength = min(1.0, 2 * strength)
            value = up_a[shared][0] * up_b[shared][0] * strength
            if value > best or (value == best and where is not None and shared < where):
                best, where = value, shared
        return (round(best, 4), where) if best >= FLOOR else (0.0, None)

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
        where = self.meeting(a, b)[1]
        if where is None or a == b:
            return ()
        return self.climb(a)[where][1] + backwards(self.climb(b)[where][1])

    def flow(self, name: str) -> str | None:
        """The flow of the published vocabulary that things of this kind are; None for an unknown kind."""
        flow = self.fact(name, "flow") if name in self.records else None
        return str(flow) if flow is not None else None
