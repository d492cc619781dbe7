"""Every vocabulary in one object, and weighted paths between terms that can be shown and checked step by step."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Any

from analog.errors import FormatError
from analog.vocabulary.flows import Flows
from analog.vocabulary.hierarchy import plain
from analog.vocabulary.kinds import FLOOR, Kinds, Step, backwards
from analog.vocabulary.relations import Relations
from analog.vocabulary.turtle import DATA, read_concepts
from analog.vocabulary.verbs import Verbs
from analog.vocabulary.wordnet import TOP, WordNet, build_blocks

BAKED_FORMAT = 1

HEAD_ONLY = 0.9
"""What remains when only the head of a phrase is known ("panel" of "cracked acrylic panel")."""

LIGHT_HEAD = 0.95
LIGHT = {
    "accumulation", "amount", "bit", "blob", "build up", "buildup", "chunk", "clump", "deposit", "deposition", "film",
    "formation", "fragment", "grain", "growth", "lump", "mass", "particle", "patch", "piece", "residue", "speck",
    "spot", "layer", "ingress", "problem", "cluster", "drop", "sample", "stream", "puff", "cloud", "quantity",
    "type", "kind", "sort", "species", "cover", "content", "material", "matter", "substance", "supply", "source",
}  # fmt: skip
"""Heads that say how much or in what shape: in "dust particles" and "layer of ice" the other noun is the kind."""

ARTICLES = {"a", "an", "the", "some", "any", "of", "all", "this", "that", "these", "those", "its", "our", "your", "my"}
PREPOSITIONS = (" of ", " from ", " on ", " in ", " inside ", " at ", " with ", " for ", " to ", " under ", " between ")
MOST_WORDS = 12


@dataclass(frozen=True)
class KindMatch:
    """A phrase read as a kind. similarity : how sure and how close, 0..1. path : from the phrase to the kind.

    modifiers : kinds named by the words before the head ("iron filings": metal).
    """

    kind: str
    similarity: float
    path: tuple[Step, ...] = ()
    modifiers: tuple[str, ...] = ()


def _ranked(matches: list[KindMatch]) -> list[KindMatch]:
    """Best first, each kind once."""
    best: dict[str, KindMatch] = {}
    for match in sorted(matches, key=lambda match: -match.similarity):
        best.setdefault(match.kind, match)
    return list(best.values())


@dataclass(frozen=True)
class Link:
    """How alike two terms are, 0..1, and the steps between them; no steps when nothing links them."""

    similarity: float
    path: tuple[Step, ...] = ()


class Vocabulary:
    """Verbs, flows, kinds, relations and the words that lead to them."""

    def __init__(self, data: Mapping[str, Any]) -> None:
        self._data = dict(data)
        self.wordnet: WordNet = WordNet(data["wordnet"]) if data.get("wordnet") else _LazyWordNet(self._data)
        self.kinds = Kinds(data["kinds"])
        self.flows = Flows(data["flows"])
        self.relations = Relations(data["relations"])
        self.verbs = Verbs(data["verbs"], data["everyday"], self.flows, self.wordnet)

    @classmethod
    def from_sources(cls) -> Vocabulary:
        """Read the Turtle files (about a second); WordNet is read only when first asked for.

        Raises FormatError, with the file, for a file that cannot be read.
        """
        verbs = [DATA / "verbs.ttl"]
        return cls(
            {
                "verbs": read_concepts(verbs, "verb"),
                "everyday": read_concepts([DATA / "everyday-verbs.ttl"], "everyday"),
                "flows": read_concepts([DATA / "flows.ttl"], "flow"),
                "kinds": read_concepts(sorted(DATA.glob("kinds*.ttl")), "kind"),
                "relations": read_concepts([DATA / "relations.ttl"], "relation"),
                "wordnet": None,
            }
        )

    def bake(self) -> dict[str, Any]:
        """Everything as plain JSON values, WordNet's part included; `from_baked` takes it back."""
        if self._data["wordnet"] is None:
            self._data["wordnet"] = build_blocks()
        return {"format": BAKED_FORMAT, **self._data}

    @classmethod
    def from_baked(cls, data: Mapping[str, Any]) -> Vocabulary:
        """Take what `bake` gave. Imports nothing heavy and parses nothing until asked.

        Raises FormatError when the format is another one.
        """
        if data.get("format") != BAKED_FORMAT:
            raise FormatError(f"expected vocabulary format {BAKED_FORMAT}, found {data.get('format')!r}")
        return cls({key: value for key, value in data.items() if key != "format"})

    def kind_similarity(self, kind_a: str, kind_b: str) -> float:
        """Likeness of two kinds by id, 0..1; remembered."""
        return self.kinds.similarity(kind_a, kind_b)

    def flow_of_kind(self, kind: str) -> str | None:
        """The flow things of this kind are, by walking up to the nearest kind that says so; None if unknown."""
        return self.kinds.flow(kind)

    def expand(self, kind: str, least: float = 0.5) -> list[tuple[str, float, tuple[Step, ...]]]:
        """Every kind at least this like `kind`, best first, each with its path. Raises UnknownTermError."""
        self.kinds.record(kind)
        near = [(other, self.kinds.similarity(kind, other)) for other in self.kinds.records if other != kind]
        kept = sorted(((o, w) for o, w in near if w >= least), key=lambda entry: (-entry[1], entry[0]))
        return [(other, weight, self.kinds.path(kind, other)) for other, weight in kept]

    def kind_of(self, phrase: str) -> KindMatch | None:
        """The kind a word or phrase names; None when neither thesaurus nor WordNet know a physical sense of it.

        The longest known ending wins (English phrases have their head last); a head alone weighs less than the
        whole phrase. The kind may be a very general one: then it links to nothing, but it is still the kind.
        """
        readings = self.readings(phrase)
        return readings[0] if readings else None

    @cached_property
    def _readings(self) -> dict[str, tuple[KindMatch, ...]]:
        return {}

    def readings(self, phrase: str) -> tuple[KindMatch, ...]:
        """All readings of a phrase as kinds, best first."""
        if phrase in self.kinds.records:
            return (KindMatch(phrase, 1.0),)
        key = plain(phrase)
        if key not in self._readings:
            self._readings[key] = tuple(self._read(key, phrase))
        return self._readings[key]

    def _read(self, text: str, shown: str) -> list[KindMatch]:
        words = [word for word in text.split() if word not in ARTICLES or word == "of"][:MOST_WORDS]
        while words and words[0] == "of":
            words = words[1:]
        text = " ".join(words)
        whole = self._known(text, shown)
        if not words or self._labelled(tuple(whole)):
            return whole
        return _ranked(whole + self._by_head(text, words, shown))

    def _by_head(self, text: str, words: list[str], shown: str) -> list[KindMatch]:
        """Readings by the head of a phrase: before a preposition, else its longest known ending."""
        for preposition in PREPOSITIONS:
            before, found, after = text.partition(preposition)
            if found:
                if preposition == " of " and self._light(before.split()[-1]):
                    return self._weakened(after, shown, LIGHT_HEAD, "head noun")
                return self._weakened(before, shown, 1.0, "head noun", [after])
        for start in range(1, len(words)):
            head, modifiers = " ".join(words[start:]), words[:start]
            if self._light(head):
                inner = self._weakened(" ".join(modifiers), shown, LIGHT_HEAD, "modifier")
                if inner:
                    return inner
            known = self._known(head, head)
            if known:
                named = self._modifier_kinds(modifiers)
                step = Step(shown, head, "head noun", "grammar")
                return [KindMatch(m.kind, round(m.similarity * HEAD_ONLY, 4), (step, *m.path), named) for m in known]
        return []

    def _light(self, head: str) -> bool:
        return head in LIGHT or any(base in LIGHT for base in self._singular(head))

    def _weakened(
        self, text: str, shown: str, factor: float, relation: str, modifiers: list[str] | None = None
    ) -> list[KindMatch]:
        step = Step(shown, text, relation, "grammar")
        named = tuple(match.kind for m in modifiers or () for match in self.readings(m)[:1])
        return [
            KindMatch(m.kind, round(m.similarity * factor, 4), (step, *m.path), m.modifiers + named)
            for m in self.readings(text)
        ]

    def _modifier_kinds(self, words: list[str]) -> tuple[str, ...]:
        named = []
        for word in words:
            found = [name for form in (word, *self._singular(word)) for name in self.kinds.find(form)]
            named += found[:1]
        return tuple(dict.fromkeys(named))

    def _singular(self, text: str) -> tuple[str, ...]:
        """The text with its last word in the singular, as far as rules tell; without asking WordNet first."""
        *before, last = text.split() or [""]
        lead = " ".join([*before, ""])
        forms = []
        if len(last) > 3 and last.endswith("s") and not last.endswith(("ss", "us", "is")):
            if last.endswith("ies"):
                forms.append(lead + last[:-3] + "y")
            if last.endswith("ves"):
                forms += [lead + last[:-3] + "f", lead + last[:-3] + "fe"]
            if last.endswith(("ses", "xes", "zes", "ches", "shes", "oes")):
                forms.append(lead + last[:-2])
            forms.append(lead + last[:-1])
        elif last in IRREGULAR:
            forms.append(lead + IRREGULAR[last])
        return tuple(forms)

    def _known(self, text: str, shown: str) -> list[KindMatch]:
        """Readings of exactly this text: by a label of the thesaurus, else by WordNet."""
        forms = (text, *self._singular(text))
        for form in forms:
            names = self.kinds.find(form)
            if names:
                return [
                    KindMatch(name, 1.0 if rank == 0 else 0.95, (Step(shown, name, "label", "thesaurus"),))
                    for rank, name in enumerate(names)
                ]
        for form in dict.fromkeys((*(b for b in self.wordnet.bases(text, "n")), *forms)):
            if form not in forms:
                names = self.kinds.find(form)
                if names:
                    return [KindMatch(name, 1.0, (Step(shown, name, "label", "thesaurus"),)) for name in names]
            through = self._through_wordnet(form, shown)
            if through:
                return through
        return []

    def _through_wordnet(self, lemma: str, shown: str) -> list[KindMatch]:
        best: dict[str, KindMatch] = {}
        for synset, weight in self.wordnet.noun_senses(lemma):
            for above, (decay, walked) in self.wordnet.climb(synset).items():
                for kind, anchor in self.kinds.anchors.get(self.wordnet.name(above), ()):
                    value = round(weight * decay * anchor, 4)
                    if kind not in best or value > best[kind].similarity:
                        names = [self.wordnet.name(number) for number in walked]
                        steps = [Step(shown, names[0], "sense", "WordNet 3.0")]
                        steps += [Step(a, b, "hypernym", "WordNet 3.0") for a, b in pairwise(names)]
                        steps.append(Step(names[-1], kind, "close match", "thesaurus"))
                        best[kind] = KindMatch(kind, value, tuple(steps))
        return sorted(best.values(), key=lambda match: (-match.similarity, match.kind))[:6]

    def link(self, term_a: str, term_b: str) -> Link:
        """How alike two free terms are (words, phrases or ids of kinds), with the path that says why.

        Paths go up, then down, with at most a match on each side; terms that meet only among the most general
        kinds are not alike. Two verbs are compared as functions.
        """
        if plain(term_a) == plain(term_b):
            return Link(1.0, (Step(term_a, term_b, "same word", "spelling"),)) if plain(term_a) else Link(0.0)
        best = Link(0.0)
        readings_a, readings_b = self.readings(term_a), self.readings(term_b)
        for a in readings_a:
            for b in readings_b:
                value = round(a.similarity * b.similarity * self.kinds.similarity(a.kind, b.kind), 4)
                # two words of one empty kind ("gadget", "gizmo" → device) have nothing shown in common
                if a.kind == b.kind and self.kinds.strength(a.kind) == 0 and min(a.similarity, b.similarity) < 1:
                    continue
                if value > best.similarity:
                    best = Link(value, a.path + self.kinds.path(a.kind, b.kind) + backwards(b.path))
        if not (self._labelled(readings_a) and self._labelled(readings_b)):
            other = self._link_in_wordnet(term_a, term_b)
            best = other if other.similarity > best.similarity else best
        if best.similarity < FLOOR and not (readings_a and readings_b):
            best = self._link_as_verbs(term_a, term_b)
        return best if best.similarity >= FLOOR else Link(0.0)

    @staticmethod
    def _labelled(readings: tuple[KindMatch, ...]) -> bool:
        return bool(readings) and (not readings[0].path or readings[0].path[0].relation == "label")

    def _link_in_wordnet(self, term_a: str, term_b: str) -> Link:
        best = Link(0.0)
        climbs = []
        for term in (term_a, term_b):
            bases = self.wordnet.bases(plain(term), "n")
            senses = self.wordnet.noun_senses(bases[0]) if bases else []
            climbs.append([(weight, self.wordnet.climb(synset)) for synset, weight in senses])
        for weight_a, up_a in climbs[0]:
            for weight_b, up_b in climbs[1]:
                for shared in up_a.keys() & up_b.keys():
                    strength = self.wordnet.strength(shared)
                    if strength <= 0.0 or self.wordnet.name(shared) in TOP:
                        continue
                    (decay_a, walk_a), (decay_b, walk_b) = up_a[shared], up_b[shared]
                    value = round(weight_a * weight_b * decay_a * decay_b * strength, 4)
                    if value > best.similarity:
                        best = Link(
                            value,
                            self._walk(term_a, walk_a) + backwards(self._walk(term_b, walk_b)),
                        )
        return best

    def _walk(self, term: str, walked: tuple[int, ...]) -> tuple[Step, ...]:
        names = [self.wordnet.name(number) for number in walked]
        steps = [Step(a, b, "hypernym", "WordNet 3.0") for a, b in pairwise(names)]
        return (Step(term, names[0], "sense", "WordNet 3.0"), *steps)

    def _link_as_verbs(self, term_a: str, term_b: str) -> Link:
        best = Link(0.0)
        candidates_a, candidates_b = self.verbs.listed(term_a), self.verbs.listed(term_b)
        for a in candidates_a:
            for b in candidates_b:
                value = round(a.weight * b.weight * self.verbs.similarity(a.verb, b.verb), 4)
                if value > best.similarity and not a.negated and not b.negated:
                    steps = [Step(term_a, a.verb, "function", a.source)]
                    if a.verb != b.verb:
                        steps.append(Step(a.verb, b.verb, "like function", "verbs"))
                    best = Link(value, (*steps, Step(b.verb, term_b, "function", b.source)))
        return best

    def parts_of_speech(self, word: str) -> set[str]:
        """Which of n(oun), v(erb), a(djective), r (adverb) WordNet or our verbs have for a word in any form."""
        word = plain(word)
        found = {part for part in ("n", "v") if self.wordnet.bases(word, part)}
        found |= {"a"} if self.wordnet.is_adjective(word) else set()
        found |= {"r"} if self.wordnet.is_adverb(word) else set()
        return found | ({"v"} if self.verbs.everyday.find(word) or self.verbs.known(word) else set())


IRREGULAR = {
    "teeth": "tooth", "feet": "foot", "geese": "goose", "mice": "mouse", "men": "man", "children": "child",
    "bacteria": "bacterium", "algae": "alga", "larvae": "larva", "fungi": "fungus", "cilia": "cilium",
    "flagella": "flagellum", "nuclei": "nucleus", "radii": "radius", "media": "medium", "spectra": "spectrum",
    "stimuli": "stimulus", "antennae": "antenna", "vertebrae": "vertebra", "stomata": "stoma", "oxen": "ox",
    "lice": "louse", "dice": "die", "axes": "axis", "bases": "base", "hyphae": "hypha", "setae": "seta",
}  # fmt: skip


class _LazyWordNet(WordNet):
    """WordNet that is read from the database only when a word first needs it."""

    def __init__(self, data: dict[str, Any]) -> None:
        self._owner = data

    @property
    def blocks(self) -> Mapping[str, str]:  # type: ignore[override]
        if self._owner["wordnet"] is None:
            self._owner["wordnet"] = build_blocks()
        blocks: Mapping[str, str] = self._owner["wordnet"]
        return blocks
