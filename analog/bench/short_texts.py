"""How alike two short texts are in what happens to whom, whatever they are about.

Four kinds of evidence, from a light reading without a parser: the text with its nouns left out, the verbs of each
sentence in turn, the order of function words and word classes (who does what to what, in what shape), and, counting
against, nouns that both share: two texts about the same things are alike on the surface. Only measured here, on
published four-choice items; the search, whose structure comes from models, does not use it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from functools import cached_property

import numpy as np
import numpy.typing as npt

from analog.encode.encoder import Encoder
from analog.problem.chunk import (
    AUXILIARIES,
    CONJUNCTIONS,
    DETERMINERS,
    MODALS,
    NEGATIONS,
    PLACES,
    PRONOUNS,
    SUBORDINATORS,
    tokenise,
)
from analog.vocabulary import Vocabulary
from analog.vocabulary.entries import Entries

Floats = npt.NDArray[np.float64]

EVIDENCE = ("without nouns", "verbs in order", "shape", "nouns not shared")

FUNCTION_WORDS = {
    *DETERMINERS, *PLACES, *CONJUNCTIONS, *SUBORDINATORS, *PRONOUNS, *MODALS, *AUXILIARIES, *NEGATIONS,
    "a", "an", "the", "of", "and", "or", "to", "when", "there", "then", "not", "so", "who", "which", "that", "if", "as",
    "we", "how", "his", "her", "its", "their", "my", "your", "our", "he", "she", "they", "you", "i", "it",
}  # fmt: skip
BEFORE_VERBS = {"he", "she", "they", "you", "i", "we", "it", "who", "which", "to", *MODALS}
BEFORE_NOUNS = {*DETERMINERS, "his", "her", "its", "their", "my", "your", "our"}
NOTHING = "nothing"
"""Stands for an empty text, which has no vector."""

_SENTENCE_END = re.compile(r"(?<=[.!?])\s+")
_SHOWN = {"n": "N", "v": "V", "a": "A", "r": "R"}


@dataclass(frozen=True)
class Word:
    """A word or sign. role : n, v, a, r by its likeliest class; "f" for function words, "." for signs."""

    text: str
    role: str


@dataclass(frozen=True)
class ShortText:
    """A text as it was read. sentences : their words. nouns : base forms. verbs : those of each sentence as a text."""

    text: str
    sentences: tuple[tuple[Word, ...], ...]
    nouns: frozenset[str]
    verbs: tuple[str, ...]

    @cached_property
    def without_nouns(self) -> str:
        """The words that are no nouns."""
        return " ".join(word.text for words in self.sentences for word in words if word.role != "n") or NOTHING

    @cached_property
    def shape(self) -> tuple[str, ...]:
        """Function words and signs as they are, the rest by word class; nouns in a row count once."""
        marks = [_SHOWN.get(word.role, word.text) for words in self.sentences for word in words]
        return tuple(mark for at, mark in enumerate(marks) if mark != "N" or at == 0 or marks[at - 1] != "N")


class TextReader:
    """Reads short texts. Word classes: counts of WordNet's senses, turned by the word before."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.wordnet = vocabulary.wordnet
        self.entries = Entries(vocabulary.wordnet)

    def read(self, text: str) -> ShortText:
        """The text with its words classed."""
        sentences = tuple(tuple(self._words(sentence)) for sentence in _SENTENCE_END.split(text) if sentence.strip())
        nouns = {self._base(word.text, "n") for words in sentences for word in words if word.role == "n"}
        verbs = tuple(
            " ".join(self._base(word.text, "v") for word in words if word.role == "v") or NOTHING for words in sentences
        )
        return ShortText(text, sentences, frozenset(nouns), verbs)

    def _words(self, sentence: str) -> list[Word]:
        found: list[Word] = []
        for token in tokenise(sentence):
            word = token.lower.removesuffix("'s")
            if not token.is_word:
                found.append(Word(token.lower, "."))
            elif word in FUNCTION_WORDS or "'" in word:
                found.append(Word(word, "f"))
            else:
                found.append(Word(word, self._role(word, found[-1] if found else None)))
        return found

    def _role(self, word: str, before: Word | None) -> str:
        """The likeliest class; the factors for the word before are common practice, set by hand, no source."""
        weights = dict.fromkeys(_SHOWN, 0.0)
        for form, weight in self.entries.forms(word).items():
            weights[form[0]] += weight
        if word.endswith("ly") and weights["r"]:
            return "r"
        factors: dict[str, float] = {}
        if before is None or before.role == ".":
            factors = {}
        elif before.text in BEFORE_NOUNS or before.role == "a":
            factors = {"n": 4.0, "a": 2.0, "v": 0.3, "r": 0.3}
        elif before.text in BEFORE_VERBS or before.role == "r":
            factors = {"v": 4.0}
        elif before.text in AUXILIARIES:
            factors = {"v": 3.0 if word.endswith(("ed", "ing", "en")) else 1.0, "a": 2.0}
        elif before.role == "n":
            factors = {"v": 2.0, "a": 0.5}
        elif before.text in PLACES:
            factors = {"n": 3.0}
        return max(weights, key=lambda role: weights[role] * factors.get(role, 1.0))

    def _base(self, word: str, part: str) -> str:
        bases = self.wordnet.bases(word, part)
        return next((base for base in bases if base != word), word)


def evidence(source: ShortText, others: Sequence[ShortText], encoder: Encoder) -> Floats:
    """(n, 4) float: EVIDENCE for each other text; cosines, a share of matched marks 0..1, and minus a share 0..1."""
    texts = (source, *others)
    pieces = list(dict.fromkeys(piece for text in texts for piece in (text.without_nouns, *text.verbs)))
    vectors = dict(zip(pieces, encoder.encode(pieces), strict=True))

    def row(other: ShortText) -> list[float]:
        most = max(len(source.verbs), len(other.verbs), 1)
        verbs = sum(float(vectors[a] @ vectors[b]) for a, b in zip(source.verbs, other.verbs, strict=False))
        fewest = max(1, min(len(source.nouns), len(other.nouns)))
        return [
            float(vectors[source.without_nouns] @ vectors[other.without_nouns]),
            verbs / most,
            SequenceMatcher(None, source.shape, other.shape, autojunk=False).ratio(),
            -len(source.nouns & other.nouns) / fewest,
        ]

    return np.array([row(other) for other in others])
