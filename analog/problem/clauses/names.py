"""What a noun names: something that can soil, or something that should not happen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from analog.problem.chunk import Phrase
from analog.problem.tables import word_class

if TYPE_CHECKING:
    from analog.vocabulary import Vocabulary

_BAD_EVENTS = word_class("bad events")
_SOILING = (
    "foreign-body",
    "particulate",
    "liquid",
    "gas",
    "ice",
    "snow",
    "sediment",
    "salt",
    "mixture",
    "soil",
    "mineral",
    "chemical-species",
)
"""Kinds of what may lie where it is not wanted."""
_SURE = 0.6
"""Least similarity of a noun to a kind for the kind to say that it is a contaminant."""


def could_be_dirt(vocabulary: Vocabulary, phrase: Phrase) -> bool:
    """Whether a noun names something that can be cleaned away."""
    match = vocabulary.kind_of(phrase.text)
    return match is not None and any(vocabulary.kinds.is_a(match.kind, kind) for kind in _SOILING)


def is_bad_event(vocabulary: Vocabulary, phrase: Phrase) -> bool:
    """Whether a noun names something that should not happen: leak, corrosion, wear, contaminants."""
    if phrase.head in _BAD_EVENTS:
        return True
    match = vocabulary.kind_of(phrase.text)
    return match is not None and match.similarity >= _SURE and vocabulary.kinds.is_a(match.kind, "contaminant")
