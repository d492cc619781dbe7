"""Two plain lists of terms, aligned one to one though nobody says which relations hold among them.

The task is that of Turney (2008), Journal of Artificial Intelligence Research 33, 615-655; he took the relations from
a large collection of texts, which is not at hand. Here a pairing is worth the sum of

single terms: likeness of meaning (word vectors about the middle of their list, and definitions), link through the
vocabulary, same word class and inflection, same ending;
two pairs at once: the same relation in WordNet on both sides (opposites, derived words, kin), alike differences of
definitions, alike phrases made of both terms, alike nearness.

Weights: maximum likelihood of a log-linear model over all pairings of problems with a known answer
(`analog/bench/published.py`), where also stands how well weights from one half do on the other.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any

import numpy as np

from analog.align.quadratic import Floats, best_pairing
from analog.encode.encoder import Encoder
from analog.errors import FormatError
from analog.vocabulary.entries import Entries
from analog.vocabulary.expand import Vocabulary
from analog.vocabulary.hierarchy import plain

MOST_TERMS = 25
"""Every two terms of a list are encoded as a phrase: their number grows with the square."""

LONGEST_TERM = 80

FILE_FIELDS = ("terms", "title", "source", "note")

NOTE = "no relations were given: terms are paired by meaning, form, and likeness of the differences between them"

ENDINGS = ("ing", "ed", "s", "er", "tion", "ful", "ous", "ness", "ly", "ics", "al")
"""Common English endings, the first that fits counts; common practice, no source."""

DEFINITIONS = 2
"""Senses whose definitions stand for a term, the most frequent."""

RELATIONS = ("opposite", "derived", "kin")
"""Relations that `Entries.relations` tells."""


@dataclass(frozen=True)
class TermWeights:
    """Weight of each kind of evidence, none below 0.

    Of a pair: words, definitions (cosines), vocabulary (0..1), form (0..1), ending (0 or 1). Of two pairs: opposite,
    derived, kin (1 if on both sides), and per other pair differences, phrases (cosines), nearness (minus the
    difference of two cosines).
    """

    words: float = 1.0
    vocabulary: float = 1.0
    form: float = 1.0
    ending: float = 1.0
    definitions: float = 1.0
    opposite: float = 1.0
    derived: float = 1.0
    kin: float = 1.0
    differences: float = 1.0
    phrases: float = 1.0
    nearness: float = 1.0


SINGLE = ("words", "vocabulary", "form", "ending", "definitions")
DOUBLE = ("opposite", "derived", "kin", "differences", "phrases", "nearness")

IN_USE = TermWeights(
    words=0.25,
    vocabulary=3.07,
    form=2.41,
    ending=1.03,
    definitions=4.07,
    opposite=0.95,
    derived=4.99,
    kin=0.79,
    differences=2.32,
    phrases=6.35,
    nearness=6.62,
)
"""Fitted on all twenty problems of the benchmark."""


@dataclass(frozen=True)
class Evidence:
    """single : name → (m, n). double : name → (m, m, n, n), symmetric as `best_pairing` wants it."""

    single: dict[str, Floats]
    double: dict[str, Floats]

    def worths(self, weights: TermWeights) -> tuple[Floats, Floats]:
        """The weighted sums."""
        single = sum(getattr(weights, name) * grid for name, grid in self.single.items())
        double = sum(getattr(weights, name) * grid for name, grid in self.double.items())
        return np.asarray(single, dtype=np.float64), np.asarray(double, dtype=np.float64)


@dataclass(frozen=True)
class TermMatch:
    """A correspondence. likeness : cosine of the vectors of the two terms, for comparison: it does not decide."""

    base: str
    target: str
    likeness: float


@dataclass(frozen=True)
class SharedRelation:
    """The same relation between two terms of the base and between their images."""

    relation: str
    base: tuple[str, str]
    target: tuple[str, str]

    def __str__(self) -> str:
        return f"{self.relation}: {' - '.join(self.base)}, {' - '.join(self.target)}"


@dataclass(frozen=True)
class TermReport:
    """Correspondences of two lists of terms. unmatched : terms of the longer list that are left over.

    value, bound : worth of the pairing, and a proven upper bound for every pairing.
    """

    terms: tuple[TermMatch, ...]
    shared: tuple[SharedRelation, ...]
    unmatched: tuple[str, ...]
    value: float
    bound: float
    optimal: bool
    seconds: float

    @property
    def gap(self) -> float:
        """(bound - value) / |bound|, 0 where proven optimal."""
        return 0.0 if self.optimal else (self.bound - self.value) / max(abs(self.bound), 1e-9)

    def to_dict(self) -> dict[str, Any]:
        """As the command line prints it."""
        return {
            "terms": [{"base": m.base, "target": m.target, "likeness": round(m.likeness, 4)} for m in self.terms],
            "relations_given": False,
            "note": NOTE,
            "shared": [{"relation": s.relation, "base": list(s.base), "target": list(s.target)} for s in self.shared],
            "unmatched": list(self.unmatched),
            "value": round(self.value, 6),
            "bound": round(self.bound, 6),
            "gap": round(self.gap, 6),
            "optimal": self.optimal,
            "elapsed_ms": round(self.seconds * 1000, 3),
        }


def align_terms(
    base: Sequence[str],
    target: Sequence[str],
    vocabulary: Vocabulary,
    encoder: Encoder,
    *,
    weights: TermWeights = IN_USE,
    time_limit_seconds: float = 10.0,
) -> TermReport:
    """Pair two lists of 2 to MOST_TERMS terms; what is left over of the longer one has no counterpart.

    Raises FormatError for a list that is too short, too long, or names a term twice.
    """
    started = time.perf_counter()
    first, second = checked_terms(base, "base"), checked_terms(target, "target")
    turned = len(first) > len(second)
    if turned:
        first, second = second, first
    entries = Entries(vocabulary.wordnet)
    single, double = evidence(first, second, vocabulary, encoder, entries).worths(weights)
    found = best_pairing(single, double, time_limit_seconds)
    pairs = list(enumerate(found.images))
    cosines = encoder.encode(first) @ encoder.encode(second).T
    left = tuple(term for k, term in enumerate(second) if k not in found.images)

    def way(one: Any, other: Any) -> tuple[Any, Any]:
        return (other, one) if turned else (one, other)

    terms = [TermMatch(*way(first[i], second[k]), likeness=float(cosines[i, k])) for i, k in pairs]
    order = {plain(term): position for position, term in enumerate(base)}
    shared = [
        SharedRelation(relation, *way((first[i], first[j]), (second[k], second[l])))
        for (i, k), (j, l) in combinations(pairs, 2)  # noqa: E741 - the indices of `best_pairing`
        for relation in RELATIONS
        if relation in entries.relations(first[i], first[j]) and relation in entries.relations(second[k], second[l])
    ]
    return TermReport(
        terms=tuple(sorted(terms, key=lambda match: order[plain(match.base)])),
        shared=tuple(shared),
        unmatched=left,
        value=found.value,
        bound=found.bound,
        optimal=found.optimal,
        seconds=time.perf_counter() - started,
    )


def terms_of(data: Any, name: str = "") -> list[str]:
    """The terms of what a file says, {"terms": […]}. Raises FormatError naming the file and the field."""
    unknown = sorted(set(data) - set(FILE_FIELDS))
    if unknown:
        raise FormatError(f"unknown field {unknown[0]!r}; allowed: {', '.join(FILE_FIELDS)}", path=name)
    return checked_terms(data["terms"], name)


def checked_terms(terms: Any, name: str = "") -> list[str]:
    """The terms without outer spaces. Raises FormatError naming the list (or its file) and the term."""
    if not isinstance(terms, list | tuple) or not all(isinstance(term, str) for term in terms):
        raise FormatError("expected a list of words or short phrases", path=name, field="terms")
    if not 2 <= len(terms) <= MOST_TERMS:
        raise FormatError(f"expected 2 to {MOST_TERMS} terms, found {len(terms)}", path=name, field="terms")
    seen: set[str] = set()
    for position, term in enumerate(terms):
        where = f"terms[{position}]"
        if not plain(term) or len(term) > LONGEST_TERM:
            raise FormatError(f"expected a term of up to {LONGEST_TERM} characters", path=name, field=where)
        if plain(term) in seen:
            raise FormatError(f"expected every term once, found {term.strip()!r} again", path=name, field=where)
        seen.add(plain(term))
    return [term.strip() for term in terms]


def evidence(
    base: Sequence[str], target: Sequence[str], vocabulary: Vocabulary, encoder: Encoder, entries: Entries
) -> Evidence:
    """All that speaks for or against pairing m terms with n, m <= n, unweighted."""
    mine, theirs = _side(base, encoder, entries), _side(target, encoder, entries)
    forms = [[entries.forms(term) for term in terms] for terms in (base, target)]
    single = {
        "words": _centred(mine.words) @ _centred(theirs.words).T,
        "vocabulary": np.array([[vocabulary.link(a, b).similarity for b in target] for a in base]),
        "form": np.array([[_overlap(a, b) for b in forms[1]] for a in forms[0]]),
        "ending": np.array([[float(_ending(a) == _ending(b)) for b in target] for a in base]),
        "definitions": mine.definitions @ theirs.definitions.T,
    }
    # what every two pairs have is shared out, so that it weighs as much in a list of nine as in one of five
    share = 1.0 / (len(base) - 1)
    double = {name: _both(mine.relations[name], theirs.relations[name]) / 2 for name in RELATIONS}
    double["differences"] = share * _inner(_differences(mine.definitions), _differences(theirs.definitions))
    double["phrases"] = share * _inner(mine.phrases, theirs.phrases)
    near, far = mine.words @ mine.words.T, theirs.words @ theirs.words.T
    double["nearness"] = -share * np.abs(near[:, :, None, None] - far[None, None])
    return Evidence(single, {name: _symmetric(grid) for name, grid in double.items()})


@dataclass(frozen=True)
class _Side:
    """words, definitions : (m, d) unit rows. phrases : (m, m, d) unit, or 0. relations : name → (m, m) 0 or 1."""

    words: Floats
    definitions: Floats
    phrases: Floats
    relations: dict[str, Floats]


def _side(terms: Sequence[str], encoder: Encoder, entries: Entries) -> _Side:
    words = np.asarray(encoder.encode(terms), dtype=np.float64)
    held = [[entries.relations(a, b) for b in terms] for a in terms]
    return _Side(
        words,
        _definitions(terms, encoder, entries),
        _phrases(terms, words, encoder),
        {name: np.array([[float(name in found) for found in row] for row in held]) for name in RELATIONS},
    )


def _definitions(terms: Sequence[str], encoder: Encoder, entries: Entries) -> Floats:
    """(m, d) unit: the middle of a term's most frequent senses, or the term itself where the dictionary lacks it."""
    texts: list[str] = []
    parts = []
    for term in terms:
        senses = sorted(entries.senses(term), key=lambda sense: -sense.count)[:DEFINITIONS]
        texts += [f"{term}: {sense.definition}" for sense in senses] or [term]
        parts.append(max(1, len(senses)))
    vectors = np.asarray(encoder.encode(texts), dtype=np.float64)
    ends = np.cumsum(parts)
    return _unit(np.array([vectors[end - count : end].mean(axis=0) for end, count in zip(ends, parts, strict=True)]))


def _phrases(terms: Sequence[str], words: Floats, encoder: Encoder) -> Floats:
    """What a phrase of two terms says beyond the two, and beyond what all such phrases of the list say."""
    m = len(terms)
    texts = [f"{a} {b}" for a in terms for b in terms]
    whole = np.asarray(encoder.encode(texts), dtype=np.float64).reshape(m, m, -1)
    rest = whole - (words[:, None] + words[None]) / 2
    return _unit(rest - rest.mean(axis=(0, 1)))


def _unit(vectors: Floats) -> Floats:
    lengths = np.linalg.norm(vectors, axis=-1, keepdims=True)
    return np.where(lengths > 1e-9, vectors / np.maximum(lengths, 1e-9), 0.0)


def _centred(vectors: Floats) -> Floats:
    """About the middle of the list: what all its terms share is the subject, and subjects differ in an analogy."""
    return _unit(vectors - vectors.mean(axis=0))


def _differences(vectors: Floats) -> Floats:
    return _unit(vectors[:, None] - vectors[None])


def _inner(mine: Floats, theirs: Floats) -> Floats:
    found: Floats = np.einsum("ijd,kld->ijkl", mine, theirs, optimize=True)
    return found


def _both(mine: Floats, theirs: Floats) -> Floats:
    found: Floats = mine[:, :, None, None] * theirs[None, None]
    return found


def _symmetric(grid: Floats) -> Floats:
    """Both orders of two pairs together."""
    return grid + grid.transpose(1, 0, 3, 2)


def _overlap(one: dict[str, float], other: dict[str, float]) -> float:
    return sum(min(weight, other.get(form, 0.0)) for form, weight in one.items())


def _ending(term: str) -> str:
    first = plain(term).split()[0] if plain(term) else ""
    return next((ending for ending in ENDINGS if first.endswith(ending)), "")
