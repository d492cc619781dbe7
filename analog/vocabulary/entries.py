"""Whole dictionary entries of WordNet: every sense of a term with its definition, count and pointers.

A search needs only the blocks of `wordnet`; this reads the database itself (a fifth of a second), for whoever compares
a handful of words closely. Formats: senseidx(5WN), wndb(5WN), wninput(5WN); the tests compare with nltk's reader.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache

from analog.vocabulary.hierarchy import plain
from analog.vocabulary.wordnet import ARCHIVE, DETACH, WordNet

PARTS = "nvar"
FILES = {"n": "data.noun", "v": "data.verb", "a": "data.adj", "r": "data.adv"}

OPPOSITE, DERIVED, SIMILAR = "!", "+", "&"
ABOVE = ("@", "@i")
WHOLE = ("#m", "#s", "#p")
PARTS_OF = ("%m", "%s", "%p")

MOST_SENSES = 4
"""Senses of a term and word class that relations are looked for in: rarer ones relate anything to anything."""

KIN_STEPS = 3
"""How far up one sense may stand above another and still be close kin."""

Sign = str
Relations = frozenset[str]


@dataclass(frozen=True)
class Pointer:
    """From one sense to another. sign : as in wninput(5WN), "!" for antonym. part, offset : the sense pointed at."""

    sign: Sign
    part: str
    offset: int


@dataclass(frozen=True)
class Sense:
    """One sense. part : n, v, a or r. count : how often it was tagged for the word asked for (0 if never)."""

    part: str
    offset: int
    count: int
    definition: str
    pointers: tuple[Pointer, ...]

    @property
    def key(self) -> tuple[str, int]:
        """What tells the sense from all others."""
        return self.part, self.offset

    def to(self, *signs: Sign) -> set[tuple[str, int]]:
        """Keys of the senses that pointers with one of these signs lead to."""
        return {(pointer.part, pointer.offset) for pointer in self.pointers if pointer.sign in signs}


@lru_cache(maxsize=1)
def _files() -> dict[str, bytes]:
    """The index of senses and the four data files; 29 MB, kept as long as the process lives."""
    import zipfile

    with zipfile.ZipFile(ARCHIVE) as archive:
        return {name: archive.read(f"wordnet/{name}") for name in ("index.sense", *FILES.values())}


class Entries:
    """The database, asked term by term. wordnet : gives base forms."""

    def __init__(self, wordnet: WordNet) -> None:
        self.wordnet = wordnet
        self._of_term: dict[str, tuple[Sense, ...]] = {}
        self._of_key: dict[tuple[str, int], Sense] = {}
        self._of_lemma: dict[tuple[str, str], list[Sense]] = {}
        self._higher: dict[tuple[str, int], set[tuple[str, int]]] = {}

    @cached_property
    def _data(self) -> Mapping[str, bytes]:
        return _files()

    def senses(self, term: str) -> tuple[Sense, ...]:
        """Senses of a term in any form, nouns, verbs, adjectives, adverbs in turn, commonest first; () if unknown."""
        term = plain(term)
        if term not in self._of_term:
            found: dict[tuple[str, int], Sense] = {}
            for part in PARTS:
                for base in self.bases(term, part):
                    for sense in self._listed(base, part):
                        found.setdefault(sense.key, sense)
            self._of_term[term] = tuple(found.values())
        return self._of_term[term]

    def bases(self, term: str, part: str) -> tuple[str, ...]:
        """Base forms of a term as a noun, verb, adjective or adverb that have a sense, likeliest first."""
        if part in "nv":
            candidates = [term, *self.wordnet.bases(term, part)] if " " in term else self.wordnet.bases(term, part)
        else:
            endings = DETACH["a"] if part == "a" else ()
            cut = [term[: len(term) - len(end)] + new for end, new in endings if term.endswith(end)]
            candidates = [term, *cut]
        return tuple(base for base in dict.fromkeys(candidates) if self._listed(base, part))

    def forms(self, term: str) -> dict[str, float]:
        """How the term may be read: {"v:ing": 0.6, "n": 0.4}, summing to 1.

        A word class, after ":" what was cut off to reach the base form. Weight: square root of the counts of the
        senses, half a count for a form that was never tagged. Phrases and unknown words count as nouns, or as a verb
        where a participle opens them ("turned off").
        """
        term = plain(term)
        first = term.split()[0] if term.split() else ""
        if " " in term:
            return {"v:ed": 1.0} if first.endswith("ed") else {"n:s" if term.endswith("s") else "n": 1.0}
        weights: dict[str, float] = {}
        for part in PARTS:
            for base in self.bases(term, part):
                count = sum(sense.count for sense in self._listed(base, part)) + 0.5
                form = part if part == "r" else part + _inflection(term, base, part)
                weights[form] = weights.get(form, 0.0) + math.sqrt(count)
        whole = sum(weights.values())
        return {form: weight / whole for form, weight in weights.items()} if whole else {"n": 1.0}

    def relations(self, term: str, other: str) -> Relations:
        """Which of "opposite", "derived", "kin" hold from one term to another, in any of their usual senses.

        opposite : antonyms, directly or through an adjective of similar meaning. derived : derivationally related.
        kin : one stands above the other by up to KIN_STEPS, is a part, member or substance of it, or both stand
        directly under the same sense. A term has no relation to itself.
        """
        if plain(term) == plain(other):
            return frozenset()
        mine, theirs = self._usual(term), self._usual(other)
        found = set()
        keys = {sense.key for sense in theirs}
        near = {key for sense in theirs for key in sense.to(SIMILAR)}
        for sense in mine:
            around = [sense, *(self.sense(*key) for key in sense.to(SIMILAR))]
            if any(one.to(OPPOSITE) & (keys | near) for one in around):
                found.add("opposite")
            if sense.to(DERIVED) & keys:
                found.add("derived")
            if sense.to(*WHOLE, *PARTS_OF) & keys or self._above(sense) & keys:
                found.add("kin")
        own = {sense.key for sense in mine}
        if any(self._above(sense) & own for sense in theirs):
            found.add("kin")
        parents = {(s.part, key) for s in mine for key in s.to(*ABOVE)}
        if parents & {(s.part, key) for s in theirs for key in s.to(*ABOVE)}:
            found.add("kin")
        return frozenset(found)

    def sense(self, part: str, offset: int) -> Sense:
        """The sense at an offset of the data file of its word class."""
        if (part, offset) not in self._of_key:
            self._of_key[part, offset] = self._parsed(part, offset, 0)
        return self._of_key[part, offset]

    def _usual(self, term: str) -> list[Sense]:
        senses = self.senses(term)
        return [sense for part in PARTS for sense in [s for s in senses if s.part == part][:MOST_SENSES]]

    def _above(self, sense: Sense) -> set[tuple[str, int]]:
        """Keys of the senses up to KIN_STEPS above."""
        if sense.key in self._higher:
            return self._higher[sense.key]
        found: set[tuple[str, int]] = set()
        ring = {sense.key}
        for _ in range(KIN_STEPS):
            ring = {key for at in ring for key in self.sense(*at).to(*ABOVE)} - found
            found |= ring
        self._higher[sense.key] = found
        return found

    def _listed(self, lemma: str, part: str) -> list[Sense]:
        """Senses of a base form in the order of their sense numbers."""
        if (lemma, part) not in self._of_lemma:
            lines = sorted(self._lines(lemma, part))
            self._of_lemma[lemma, part] = [self._parsed(part, offset, count) for _, offset, count in lines]
        return self._of_lemma[lemma, part]

    def _lines(self, lemma: str, part: str) -> Iterator[tuple[int, int, int]]:
        """(sense number, offset, count) for a base form."""
        index = self._data["index.sense"]
        key = lemma.replace(" ", "_").encode() + b"%"
        at = _first_line(index, key)
        while index.startswith(key, at):
            end = index.find(b"\n", at)
            end = len(index) if end < 0 else end
            sense, offset, number, count = index[at:end].split()
            if "nvara"[int(sense[len(key) : len(key) + 1]) - 1] == part:  # 5 is an adjective satellite
                yield int(number), int(offset), int(count)
            at = end + 1

    def _parsed(self, part: str, offset: int, count: int) -> Sense:
        data = self._data[FILES[part]]
        line = data[offset : data.index(b"\n", offset)].decode("utf-8")
        record, _, gloss = line.partition(" | ")
        fields = record.split()
        words = int(fields[3], 16)
        start = 5 + 2 * words
        raw = fields[start : start + 4 * int(fields[start - 1])]
        pointers = tuple(
            Pointer(sign, "a" if kind == "s" else kind, int(at))
            for sign, at, kind in zip(raw[::4], raw[1::4], raw[2::4], strict=True)
        )
        definition = gloss.partition('; "')[0].strip()
        return Sense(part, offset, count, definition, pointers)


def _first_line(text: bytes, key: bytes) -> int:
    """Where the first line not below the key starts, in lines sorted by their bytes; the length if there is none."""
    low, high = 0, len(text)
    while low < high:
        start = text.rfind(b"\n", low, (low + high) // 2) + 1 or low
        end = text.find(b"\n", start)
        end = len(text) if end < 0 else end
        if text[start:end] < key:
            low = end + 1
        else:
            high = start
    return low


def _inflection(term: str, base: str, part: str) -> str:
    if term == base:
        return ""
    if part == "v":
        return ":ing" if term.endswith("ing") else ":s" if term.endswith("s") else ":ed"
    return ":s" if part == "n" else ":er"
