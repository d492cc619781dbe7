"""The relations that facts may use: which are symmetric, which are each other's inverse, which are alike."""

from __future__ import annotations

from analog.vocabulary.hierarchy import Hierarchy

STEP = 0.8
"""Likeness that survives one step up the hierarchy of relations. Own choice; no published value."""

MEANING_NOTHING = {"spatially-related", "acts-on", "moves-relative-to", "compared-with", "has-property"}
"""Roots of the hierarchy: two relations that meet only here have nothing in common worth a match."""


class Relations(Hierarchy):
    """Relations by id."""

    called = "relation"

    def symmetric(self, name: str) -> bool:
        """Whether relation(a, b) says the same as relation(b, a)."""
        memory: dict[str, bool] = self.__dict__.setdefault("_symmetric", {})
        if name not in memory:
            memory[name] = bool(self.record(name)["facts"].get("symmetric", [False])[0])
        return memory[name]

    def inverse(self, name: str) -> str | None:
        """The relation that says the same with exchanged arguments; None when the data name none."""
        if self.symmetric(name):
            return name
        values = self.record(name)["facts"].get("inverse")
        if values:
            return str(values[0])
        return self._inverses.get(name)

    @property
    def _inverses(self) -> dict[str, str]:
        if not hasattr(self, "_inverse_of"):
            self._inverse_of = {
                record["facts"]["inverse"][0]: name
                for name, record in self.records.items()
                if "inverse" in record["facts"]
            }
        return self._inverse_of

    def similarity(self, a: str, b: str) -> float:
        """Likeness of two relations in 0..1, arguments in the same order; 0 when they meet only at a root.

        The better of: 0.8 to the power of the steps over the nearest common relation, and a match made by hand.
        """
        if a == b:
            return 1.0
        memory: dict[tuple[str, str], float] = self.__dict__.setdefault("_memory", {})
        if (a, b) not in memory:
            memory[a, b] = self._similarity(a, b)
        return memory[a, b]

    def _similarity(self, a: str, b: str) -> float:
        if a not in self.records or b not in self.records:
            return 0.0
        if any(y in self.records[x]["facts"].get("opposite", ()) for x, y in ((a, b), (b, a))):
            return 0.0  # siblings in the hierarchy, but one undoes the other
        above_a, above_b = self.ancestors(a), self.ancestors(b)
        shared = [above_a[c] + above_b[c] for c in above_a.keys() & above_b.keys() - MEANING_NOTHING]
        by_hierarchy = STEP ** min(shared) if shared else 0.0
        by_match = [match[2] for x, y in ((a, b), (b, a)) for match in self.records[x]["matches"] if match[1] == y]
        return float(max([by_hierarchy, *by_match]))
