"""The published vocabulary of functions, and a layer of everyday, engineering and biological verbs over it.

Functions: Hirtz, Stone, McAdams, Szykman, Wood (2002), NIST Technical Note 1447: 8 classes, 21 secondary and
24 tertiary functions with their correspondents. The everyday layer and the likeness of functions are our own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Literal

from analog.vocabulary.hierarchy import Hierarchy, plain
from analog.vocabulary.turtle import Record

if TYPE_CHECKING:
    from analog.vocabulary.flows import Flows
    from analog.vocabulary.wordnet import WordNet

ObjectRole = Literal["thing", "place"]

PARENT = 0.85
SIBLING = 0.6
WITHIN_CLASS = 0.45
SECOND_STEP = 0.9
OTHER_FLOW = 0.4
"""What remains of a match that the data tie to another flow than the one given."""


@dataclass(frozen=True)
class VerbMatch:
    """One reading of a verb as a function.

    verb : a function of the published vocabulary. weight : 0..1.
    object_role : "thing" when the object of the verb is what is acted on, "place" when it is where that happens
    ("clean the panel": the panel is the place, the dirt is not said). implied_kind : the kind that is not said.
    source : where the reading comes from. negated : the verb undoes or forbids this function.
    """

    verb: str
    weight: float
    object_role: ObjectRole
    implied_kind: str | None
    source: str
    negated: bool = False
    note: str = ""


class Verbs(Hierarchy):
    """Functions by id, and the verbs that lead to them."""

    called = "verb"

    def __init__(
        self,
        functions: Mapping[str, Record],
        everyday: Mapping[str, Record],
        flows: Flows | None = None,
        wordnet: WordNet | None = None,
    ) -> None:
        super().__init__(functions)
        self.everyday = Hierarchy(everyday)
        self._flows, self._wordnet = flows, wordnet

    def all(self) -> tuple[str, ...]:
        """Every secondary and tertiary function, without the classes."""
        return tuple(name for name in sorted(self.records) if self.level(name) != "class")

    def known(self, name: str) -> bool:
        """Whether `name` is a function (a class is not)."""
        return name in self.records and self.level(name) != "class"

    def level(self, name: str) -> str:
        """class, secondary or tertiary."""
        return str(self.record(name)["facts"]["level"][0])

    def class_of(self, verb: str) -> str:
        """The class of a function, such as branch-class."""
        memory: dict[str, str] = self.__dict__.setdefault("_classes", {})
        if verb not in memory:
            memory[verb] = next(name for name in self.ancestors(verb) if self.level(name) == "class")
        return memory[verb]

    @cached_property
    def correspondents(self) -> dict[str, tuple[str, ...]]:
        """Correspondent → the functions it stands under, as published."""
        under: dict[str, list[str]] = {}
        for function in self.all():
            for word in self.records[function]["alt"]:
                under.setdefault(plain(word), []).append(function)
        return {word: tuple(functions) for word, functions in sorted(under.items())}

    def ambiguous(self, word: str) -> tuple[str, ...]:
        """The functions a published term stands for when there are several; () when it is clear or unknown.

        Counts the functions it is a correspondent of and the function whose name it is.
        """
        word = plain(word)
        functions = self.correspondents.get(word, ()) + ((word,) if self.known(word) else ())
        return functions if len(functions) > 1 else ()

    def candidates(self, lemma: str, flow: str | None = None) -> list[VerbMatch]:
        """Every function the verb may mean, best first; [] for a verb nothing is known of.

        lemma : base form ("clean", "turn on"). flow : a flow id that the verb acts on, if known: readings that
        the data tie to other flows are weakened, never dropped. Negated readings follow the others.
        """
        word = plain(lemma)
        best: dict[tuple[str, bool], VerbMatch] = {}

        def offer(match: VerbMatch) -> None:
            key = (match.verb, match.negated)
            if key not in best or match.weight > best[key].weight:
                best[key] = match

        for match in self._direct(word, flow):
            offer(match)
        if not best and self._wordnet is not None:
            for relative, weight, path in self._wordnet.verb_relatives(word):
                for match in self._direct(relative, flow):
                    offer(
                        VerbMatch(
                            match.verb,
                            round(match.weight * weight, 4),
                            match.object_role,
                            match.implied_kind,
                            f"WordNet 3.0: {path}",
                            match.negated,
                            match.note,
                        )
                    )
        return sorted(best.values(), key=lambda match: (match.negated, -match.weight, match.verb))

    def listed(self, word: str, flow: str | None = None) -> list[VerbMatch]:
        """As `candidates`, but only for verbs that our own lists hold; WordNet is not asked."""
        return self._direct(plain(word), flow)

    def _direct(self, word: str, flow: str | None) -> list[VerbMatch]:
        found = []
        if self.known(word.replace(" ", "-")):
            found.append(VerbMatch(word.replace(" ", "-"), 1.0, "thing", None, "NIST TN 1447"))
        for function in self.correspondents.get(word, ()):
            weight = 0.95 * self._flow_factor(self._correspondent_flows.get((function, word)), flow)
            if self.known(word):
                weight *= 0.9  # its own name comes first: "remove" is a function before it is a word for export
            note = f"{word!r} is a published correspondent of {function}"
            found.append(VerbMatch(function, round(weight, 4), "thing", None, "NIST TN 1447", note=note))
        for name in self.everyday.find(word):
            record = self.everyday.records[name]
            role: ObjectRole = "place" if record["facts"].get("objectRole") == ["place"] else "thing"
            implied = record["facts"].get("impliedKind", [None])[0]
            for _, function, weight, note, tied in record["matches"]:
                weight = round(weight * self._flow_factor((tied,) if tied else None, flow), 4)
                found.append(VerbMatch(function, weight, role, implied, "everyday verbs", note=note))
            for function in record["facts"].get("undoes", ()):
                found.append(VerbMatch(str(function), 0.5, role, implied, "everyday verbs", negated=True))
        return found

    @cached_property
    def _correspondent_flows(self) -> dict[tuple[str, str], tuple[str, ...]]:
        """Flows that decide for a correspondent listed under two functions: (function, word) → flow ids."""
        table = {}
        for function in self.all():
            for text in self.records[function]["facts"].get("decidedBy", ()):
                word, _, flows = str(text).partition(": ")
                table[function, plain(word)] = tuple(flows.split())
        return table

    def _flow_factor(self, tied: tuple[str, ...] | None, flow: str | None) -> float:
        if not tied or flow is None or self._flows is None:
            return 1.0
        for name in tied:
            if name in self._flows.records and self._flows.is_a(flow, name):
                return 1.0
        like = max((self._flows.similarity(flow, name) for name in tied), default=0.0)
        return 1.0 if like >= 0.75 else OTHER_FLOW

    def similarity(self, verb_a: str, verb_b: str) -> float:
        """Likeness of two functions in 0..1; unknown verbs are like nothing but themselves.

        1 the same; 0.85 a tertiary and its secondary function; 0.6 siblings; 0.45 the same class; links made by
        hand where classes part what belongs together in use (separate, export and remove all clean a thing);
        else the best product over one function between. Figures are our own choice.
        """
        if verb_a == verb_b:
            return 1.0
        memory: dict[tuple[str, str], float] = self.__dict__.setdefault("_memory", {})
        if (verb_a, verb_b) not in memory:
            best = self._adjacent(verb_a, verb_b)
            if self.known(verb_a) and self.known(verb_b):
                first, second = self._neighbours(verb_a), self._neighbours(verb_b)
                for between in first.keys() & second.keys() - {verb_a, verb_b}:
                    product = first[between] * second[between] * SECOND_STEP
                    best = max(best, product if product >= 0.4 else 0.0)
            memory[verb_a, verb_b] = memory[verb_b, verb_a] = round(best, 4)
        return memory[verb_a, verb_b]

    def _neighbours(self, verb: str) -> dict[str, float]:
        """Every function one step away, with its likeness."""
        memory: dict[str, dict[str, float]] = self.__dict__.setdefault("_near", {})
        if verb not in memory:
            likes = {other: self._adjacent(verb, other) for other in self.all()}
            memory[verb] = {other: like for other, like in likes.items() if like > 0}
        return memory[verb]

    def _adjacent(self, a: str, b: str) -> float:
        if not (self.known(a) and self.known(b)):
            return 0.0
        values = [match[2] for x, y in ((a, b), (b, a)) for match in self.records[x]["matches"] if match[1] == y]
        if b in self.broader(a) or a in self.broader(b):
            values.append(PARENT)
        elif set(self.broader(a)) & set(self.broader(b)) and self.level(a) == "tertiary":
            values.append(SIBLING)
        elif self.class_of(a) == self.class_of(b):
            values.append(WITHIN_CLASS)
        return float(max(values, default=0.0))

    def near(self, word: str, count: int = 5) -> list[str]:
        """Functions to offer for a word that is none: what the verb may mean, else the nearest spelling."""
        meant = [match.verb for match in self._direct(plain(word), None) if not match.negated]
        spelt = [name for name in super().near(word, count) if self.known(name)]
        via = [m.verb for name in self.everyday.near(word, 2) for m in self._direct(plain(name), None)][:count]
        return list(dict.fromkeys(meant + spelt + via))[:count]
