"""A light chunker for short English requests: tokens, noun phrases and the places after them.

It looks words up in WordNet's lemma lists and knows the closed word classes by heart. A trained tagger would need a
model to download and seconds to import (nltk alone takes three here); requests are short and of few shapes, and
their verb is looked for where that shape puts it, so the tagger's main work is not needed.
"""

# ruff: noqa: E501 - tables and messages are easier to read whole

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from analog.problem.tables import word_class

if TYPE_CHECKING:
    from analog.vocabulary import Vocabulary

DETERMINERS = word_class("determiners")
PLACES = {
    "from": "from", "off": "from", "out of": "from", "away from": "from", "on": "on", "onto": "on", "upon": "on",
    "at": "on", "behind": "against", "in": "in", "within": "in", "inside": "inside", "through": "through", "via": "through",
    "across": "over", "to": "to", "toward": "to", "towards": "to", "into": "into", "between": "between", "among": "between",
    "against": "against", "around": "around", "round": "around", "past": "around", "along": "along", "down": "along",
    "up": "along", "over": "over", "above": "over", "under": "under", "below": "under", "beneath": "under",
    "underneath": "under", "with": "with", "by": "by", "near": "against", "beside": "against", "throughout": "through",
    "for": "", "of": "of", "without": "", "after": "", "before": "", "during": "", "per": "", "about": "", "beyond": "over",
    "like": "", "than": "", "as": "", "until": "", "since": "", "because": "", "despite": "", "instead of": "",
}  # fmt: skip
"""Prepositions and the relation of a place they give; "" for those that give none."""

CONJUNCTIONS = word_class("conjunctions")
SUBORDINATORS = word_class("subordinators")
PRONOUNS = word_class("pronouns")
MODALS = word_class("modals")
AUXILIARIES = word_class("auxiliaries")
NEGATIONS = word_class("negations")
ADVERBS = word_class("adverbs")
PARTICLES = word_class("particles")
TIMES = word_class("times")
PARTITIVES = word_class("partitives")
AMOUNTS = word_class("amounts")

_TOKEN = re.compile(r"[A-Za-zÀ-ɏΑ-ω]+(?:['-][A-Za-zÀ-ɏ]+)*|\d+(?:\.\d+)?|[^\sA-Za-z\d]")


@dataclass(frozen=True)
class Token:
    """A word or a sign. lower : in small letters. start : offset in the text."""

    text: str
    lower: str
    start: int

    @property
    def is_word(self) -> bool:
        """Whether it is made of letters."""
        return self.lower[0].isalpha()


@dataclass(frozen=True)
class Phrase:
    """A noun phrase. words : without articles, the head last and in the singular; head : its last word."""

    words: tuple[str, ...]
    pronoun: bool = False

    @property
    def text(self) -> str:
        """The words with spaces."""
        return " ".join(self.words)

    @property
    def head(self) -> str:
        """The head noun."""
        return self.words[-1] if "of" not in self.words else self.words[self.words.index("of") - 1]


def tokenise(text: str) -> list[Token]:
    """Words, numbers and signs in order."""
    return [Token(m[0], m[0].lower(), m.start()) for m in _TOKEN.finditer(text)]


class Chunker:
    """Noun phrases and places over a list of tokens. Remembers what a word can be."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.vocabulary = vocabulary
        self._parts: dict[str, set[str]] = _MEMORY.setdefault(vocabulary, {})
        if len(self._parts) > MOST_REMEMBERED:
            self._parts.clear()

    def parts(self, word: str) -> set[str]:
        """n, v, a, r: what the word can be."""
        if word not in self._parts:
            self._parts[word] = self.vocabulary.parts_of_speech(word) if word not in _CLOSED else set()
        return self._parts[word]

    def is_noun(self, word: str) -> bool:
        """Whether the word can be a noun; a word nobody knows is taken for one."""
        found = self.parts(word)
        return "n" in found or not found

    def is_verb(self, word: str) -> bool:
        """Whether the word, in any form, can be a verb."""
        return "v" in self.parts(word)

    def functional(self, word: str) -> bool:
        """Whether the vocabulary of functions or its everyday layer knows the verb."""
        verbs = self.vocabulary.verbs
        return verbs.known(word) or bool(verbs.everyday.find(word)) or word in verbs.correspondents

    def verb_bases(self, word: str) -> tuple[str, ...]:
        """Base forms of a verb, the word itself first if it is one."""
        bases = self.vocabulary.wordnet.bases(word, "v")
        if not bases and self.is_verb(word):
            return (word,)
        bases = tuple(base for base in bases if base[:1] == word[:1] or word in _SUPPLETIVE)
        if word in bases and (word.endswith(("ing", "ed")) or (word.endswith("s") and len(bases) > 1)):
            bases = (*(b for b in bases if b != word), word)  # "leaves", "bearing": the form, not the rare verb
        return bases

    def singular(self, word: str) -> str:
        """The singular of a noun, the word itself where that is not sure."""
        from analog.vocabulary.expand import IRREGULAR

        if word in IRREGULAR and word not in {"bases", "axes", "media"}:
            return IRREGULAR[word]
        if word in _PLURAL_ONLY or not word.endswith("s") or word.endswith(("ss", "us", "is")):
            return word
        bases = [base for base in self.vocabulary.wordnet.bases(word, "n") if base[:2] == word[:2]]
        others = [base for base in bases if base != word]
        if others:
            return others[0]
        return word if bases else word[:-1]

    def noun_phrase(self, tokens: list[Token], i: int, *, verb_may_follow: bool = False) -> tuple[Phrase | None, int]:
        """The noun phrase that starts at token i, and the index after it; (None, i) if there is none.

        verb_may_follow : a participle or a finite verb after a noun ends the phrase ("cracks | spreading in").
        """
        start = i
        words: list[str] = []
        while i < len(tokens) and (words or i < start + _LEAD):
            token = tokens[i]
            word = token.lower
            following = tokens[i + 1].lower if i + 1 < len(tokens) else ""
            if not token.is_word:
                if token.lower[0].isdigit() and not words:
                    i += 1
                    continue
                break
            if (
                word in PRONOUNS
                and not words
                and not (
                    (word in DETERMINERS or word == "one")
                    and following
                    and following[0].isalpha()
                    and following not in PLACES | dict.fromkeys(MODALS | AUXILIARIES)
                    and self.is_noun(following)
                )
            ):
                return Phrase((word,), pronoun=True), i + 1
            if word in DETERMINERS or word in _COUNTS:
                if words:
                    break
                i += 1
                continue
            if (
                word in {"and", "or"}
                and words
                and not self._noun_only(words[-1])
                and following
                and "a" in self.parts(following)
                and i + 2 < len(tokens)
                and tokens[i + 2].is_word
                and self.is_noun(tokens[i + 2].lower)
            ):
                i += 1
                continue
            noun_here = (
                i > 0
                and tokens[i - 1].lower in {"a", "an", "the"}
                and word in {"can", "will", "might", "need", "down", "round"}
            )
            if noun_here:
                words.append(word)
                i += 1
                continue
            if (
                word in PLACES
                or word in CONJUNCTIONS
                or word in SUBORDINATORS
                or word in MODALS
                or word in AUXILIARIES
                or word in NEGATIONS
                or word in PRONOUNS
            ):
                break
            if word in ADVERBS or (word.endswith("ly") and "n" not in self.parts(word)) or self.parts(word) == {"r"}:
                if words:
                    break
                i += 1
                continue
            if words and self._ends(words[-1], word, following, verb_may_follow):
                break
            words.append(word)
            i += 1
            if len(words) == 8:
                break
        while len(words) > 1 and not self.is_noun(words[-1]):
            words.pop()
            i -= 1
        if not words:
            return None, start
        phrase = Phrase((*(w.removesuffix("'s") for w in words[:-1]), self.singular(words[-1].removesuffix("'s"))))
        return self._of(phrase, tokens, i)

    def _of(self, phrase: Phrase, tokens: list[Token], i: int) -> tuple[Phrase, int]:
        """Extend over "of": thousands of parts → parts; a layer of air stays whole."""
        if i + 1 >= len(tokens) or tokens[i].lower != "of":
            return phrase, i
        if phrase.words[-1] in PARTITIVES:
            inner, after = self.noun_phrase(tokens, i + 1)
            return (inner, after) if inner is not None and not inner.pronoun else (phrase, i)
        if phrase.words[-1] in AMOUNTS:
            inner, after = self.noun_phrase(tokens, i + 1)
            if inner is not None and not inner.pronoun and "of" not in inner.words:
                return Phrase((*phrase.words, "of", *inner.words)), after
        return phrase, i

    def _noun_only(self, word: str) -> bool:
        return "a" not in self.parts(word)

    def _ends(self, last: str, word: str, following: str, verb_may_follow: bool) -> bool:
        parts = self.parts(word)
        closed = (
            not following
            or following in PLACES
            or following in DETERMINERS
            or not following[0].isalpha()
            or following in PRONOUNS
            or following in ADVERBS
        )
        if (
            self.is_noun(last)
            and word.endswith(("ing", "ed"))
            and "v" in parts
            and self.verb_bases(word)[0] != word
            and (closed or verb_may_follow)
        ):
            return True
        if not verb_may_follow or not self.is_noun(last):
            return False
        return "v" in parts and "n" not in parts and "a" not in parts

    def place_at(self, tokens: list[Token], i: int) -> tuple[str, int] | None:
        """(preposition, index after it) if one stands at i; two-word ones first."""
        if i >= len(tokens):
            return None
        word = tokens[i].lower
        if i + 1 < len(tokens):
            pair = f"{word} {tokens[i + 1].lower}"
            if pair in PLACES:
                return pair, i + 2
            if word in {"off", "inside", "outside"} and tokens[i + 1].lower == "of":
                return ("off" if word == "off" else "inside"), i + 2
            if word in {"up", "down", "away", "back", "out"} and tokens[i + 1].lower in PLACES:
                return tokens[i + 1].lower, i + 2
        return (word, i + 1) if word in PLACES else None

    def places(self, tokens: list[Token], i: int, end: int | None = None) -> list[tuple[str, Phrase]]:
        """Every (preposition, noun phrase) from token i on, as far as the clause goes."""
        found = []
        end = len(tokens) if end is None else end
        while i < end:
            at = self.place_at(tokens, i)
            if at is None:
                i += 1
                continue
            preposition, after = at
            if (
                after < end
                and tokens[after].lower.endswith("ing")
                and self.is_verb(tokens[after].lower)
                and not self.begins_compound(tokens, after)
            ):
                i = after + 1
                continue
            phrase, following = self.noun_phrase(tokens, after)
            scanty = preposition in {"with", "by"} and after < end and tokens[after].lower in _SCANTY
            if phrase is not None and not phrase.pronoun and not scanty:
                found.append((preposition, phrase))
                i = following
            else:
                i = after
        return found

    def begins_compound(self, tokens: list[Token], i: int) -> bool:
        """Whether an -ing word begins or is a noun phrase ("leading edge", "the coating")."""
        word = tokens[i].lower
        if (
            i + 1 < len(tokens)
            and tokens[i + 1].is_word
            and tokens[i + 1].lower not in PLACES
            and tokens[i + 1].lower not in DETERMINERS | ADVERBS | PRONOUNS | CONJUNCTIONS
        ):
            match = self.vocabulary.kind_of(f"{word} {tokens[i + 1].lower}")
            return "a" in self.parts(word) or (match is not None and match.similarity >= 0.95)
        return (i > 0 and tokens[i - 1].lower in DETERMINERS) or self.vocabulary.kinds.find(word) != ()


_SUPPLETIVE = word_class("suppletive")
_CLOSED = {
    "a",
    "an",
    "the",
    "of",
    "and",
    "or",
    "we",
    "our",
    "to",
    "from",
    "with",
    "without",
    "how",
    "that",
    "this",
    "it",
    "is",
    "are",
    "into",
}
_MEMORY: WeakKeyDictionary[Vocabulary, dict[str, set[str]]] = WeakKeyDictionary()
MOST_REMEMBERED = 20_000
_SCANTY = {"little", "less", "as", "no", "more", "few", "fewer", "much", "least"}
_COUNTS = word_class("counts")
_LEAD = 20
"""Articles, counts and the like that may stand before the words of a phrase; more of them is no English."""
_PLURAL_ONLY = word_class("plural only")
