"""The published vocabulary of flows: materials, energies and signals that a function acts on.

Source: Hirtz, Stone, McAdams, Szykman, Wood (2002), NIST Technical Note 1447. The likeness of two flows is
our own layer, kept in the data with a note for every link.
"""

from __future__ import annotations

from analog.vocabulary.hierarchy import Hierarchy

WITHIN_CLASS = 0.3
PARENT = 0.8
SIBLING = 0.55


class Flows(Hierarchy):
    """Flows by id. The three classes (material-class …) are kept for the hierarchy but are not flows themselves."""

    called = "flow"

    def all(self) -> tuple[str, ...]:
        """Every flow, without the classes."""
        return tuple(name for name in sorted(self.records) if self.level(name) != "class")

    def known(self, name: str) -> bool:
        """Whether `name` is a flow (a class is not)."""
        return name in self.records and self.level(name) != "class"

    def level(self, name: str) -> str:
        """class, secondary or tertiary."""
        return str(self.record(name)["facts"]["level"][0])

    def class_of(self, flow: str) -> str:
        """material-class, signal-class or energy-class."""
        return next(name for name in self.ancestors(flow) if self.level(name) == "class")

    def similarity(self, a: str, b: str) -> float:
        """Likeness in 0..1: 1 the same, high for a flow and its own more general flow, 0 across classes
        unless the data link the two by hand. Unknown flows are like nothing but themselves."""
        if a == b:
            return 1.0
        memory: dict[tuple[str, str], float] = self.__dict__.setdefault("_memory", {})
        if (a, b) not in memory:
            memory[a, b] = self._similarity(a, b)
        return memory[a, b]

    def _similarity(self, a: str, b: str) -> float:
        if not (self.known(a) and self.known(b)):
            return 0.0
        by_hand = [match[2] for x, y in ((a, b), (b, a)) for match in self.records[x]["matches"] if match[1] == y]
        if by_hand:
            return float(max(by_hand))
        if b in self.broader(a) or a in self.broader(b):
            return PARENT
        if set(self.broader(a)) & set(self.broader(b)) and self.level(a) == self.level(b) == "tertiary":
            return SIBLING
        return WITHIN_CLASS if self.class_of(a) == self.class_of(b) else 0.0
