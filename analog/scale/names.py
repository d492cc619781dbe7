"""Names of quantities: whether "size" said of a grain of dust is the symbol "particle diameter".

Words are compared as sets after plurals, articles and a few exact synonyms are removed. The head noun (angle in
"contact angle on the leaf") must agree; every other word of the symbol's name must be said, either in the name given
or by the thing it is given for. A name of one word (`speed`) is generic: it counts less, and only for a thing that
takes part.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

_ARTICLES = {"a", "an", "the", "its", "their", "one", "any", "each", "it", "is", "s"}
_PREPOSITIONS = {
    "of", "on", "in", "at", "to", "by", "from", "with", "for", "between", "through", "near", "that", "which", "where",
    "past", "across", "while", "during", "when", "into", "facing", "along", "around", "under", "against", "inside",
    "among", "after", "before", "and", "or", "as", "if", "about",
}  # fmt: skip
_RELATIVE = {"over", "per", "times", "less", "than", "difference", "lowering", "step", "gradient", "share", "change"}
"""Words that make another quantity of it: a grain diameter over a spacing is no grain diameter."""
_SAME = {
    "droplet": "drop", "velocity": "speed", "size": "diameter", "grain": "particle", "dust": "particle",
    "slope": "tilt", "inclination": "tilt", "vapor": "vapour", "fiber": "fibre", "metre": "meter",
    "channel": "tube", "particulate": "particle",
}  # fmt: skip
_WORD = re.compile(r"[a-z]+")


@lru_cache(maxsize=65536)
def stem(word: str) -> str:
    """A word without plural, and by its commonest synonym: droplets -> drop."""
    if len(word) > 4 and word.endswith("ies"):
        word = word[:-3] + "y"
    elif len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        word = word[:-1]
    return _SAME.get(word, word)


@lru_cache(maxsize=65536)
def words(text: str) -> frozenset[str]:
    """The words that carry meaning, as `stem` gives them."""
    return frozenset(
        stem(word) for word in _WORD.findall(text.lower()) if word not in _ARTICLES and word not in _PREPOSITIONS
    )


@dataclass(frozen=True)
class Name:
    """A name taken apart. front : words up to the first preposition. head : the last of them. all : every word."""

    front: frozenset[str]
    head: str
    all: frozenset[str]


@lru_cache(maxsize=65536)
def name(text: str) -> Name:
    """Take a name apart; the text before the first preposition holds the head noun."""
    front: list[str] = []
    for word in _WORD.findall(text.lower()):
        if word in _PREPOSITIONS or word in {"over", "per", "times", "than"}:
            if front:
                break
            continue
        if word not in _ARTICLES:
            front.append(stem(word))
    return Name(frozenset(front), front[-1] if front else "", words(text))


@dataclass(frozen=True)
class Match:
    """How sure a match is, 0..1, and the factor from the value said to the symbol's (half a diameter is a radius)."""

    score: float
    factor: float = 1.0
    generic: bool = False


NO_MATCH = Match(0.0)


@lru_cache(maxsize=262144)
def match(said: str, context: frozenset[str], names: tuple[str, ...], known: frozenset[str] = frozenset()) -> Match:
    """The best match of a quantity as said, for a thing described by the words `context`, with a symbol's names.

    known : words of other things around, which a name may hold beyond the symbol's ("tear film thickness").
    """
    best = NO_MATCH
    quantity = name(said)
    for text in names:
        wanted = name(text)
        score, generic = _score(quantity, context, wanted, known)
        found = Match(score, 1.0, generic)
        if score == 0.0 and {quantity.head, wanted.head} == {"radius", "diameter"} and "curvature" not in wanted.all:
            swapped = _swap(quantity, wanted.head)
            score, generic = _score(swapped, context, wanted, known)
            found = Match(score * 0.9, 0.5 if wanted.head == "radius" else 2.0, generic)
        if found.score > best.score:
            best = found
    return best


def _swap(quantity: Name, head: str) -> Name:
    def turn(words_: frozenset[str]) -> frozenset[str]:
        return words_ - {quantity.head} | {head}

    return Name(turn(quantity.front), head, turn(quantity.all))


def _score(said: Name, context: frozenset[str], wanted: Name, known: frozenset[str]) -> tuple[float, bool]:
    generic = len(wanted.all) == 1
    allowed = context if generic else context | known
    if not said.all or not wanted.all:
        return 0.0, generic
    if said.all == wanted.all:
        return (0.6 if generic else 1.0), generic
    if said.head != wanted.head or (said.all & _RELATIVE) != (wanted.all & _RELATIVE):
        return 0.0, generic
    if said.front - wanted.all - allowed:
        return 0.0, generic  # "apparent contact angle" is not "contact angle"
    if wanted.all - said.all - context:
        return 0.0, generic
    beyond = len(said.all - wanted.all)
    return max(0.3, (0.5 if generic else 0.85) - 0.03 * beyond), generic


def context_words(texts: Iterable[str | None]) -> frozenset[str]:
    """The words by which a thing is known: its name, its kind, the part it stands for."""
    return frozenset().union(*(words(text.replace("-", " ")) for text in texts if text))
