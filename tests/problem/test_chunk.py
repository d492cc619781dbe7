"""The light chunker; nltk's lemmatiser is the second opinion on number."""

from __future__ import annotations

import pytest

from analog.problem.chunk import Chunker, tokenise
from analog.vocabulary import Vocabulary


@pytest.mark.parametrize(
    ("text", "words", "rest"),
    [
        ("the very dusty solar panels on the roof", "dusty solar panel", "on"),
        ("thousands of tiny parts at once", "tiny part", "at"),
        ("a layer of air under water", "layer of air", "under"),
        ("two viscous liquids without a stirrer", "viscous liquid", "without"),
        ("soft and slippery things", "slippery thing", None),
    ],
)
def test_noun_phrases(text: str, words: str, rest: str | None, vocabulary: Vocabulary) -> None:
    tokens = tokenise(text)
    phrase, after = Chunker(vocabulary).noun_phrase(tokens, 0)
    assert phrase is not None and phrase.text.endswith(words)
    assert (tokens[after].lower if after < len(tokens) else None) == rest


def test_singulars_agree_with_nltk(vocabulary: Vocabulary) -> None:
    """nltk's WordNet reader (morphy) is asked for the same plurals."""
    from analog.vocabulary.wordnet import reader

    chunker = Chunker(vocabulary)
    for word in [
        "panels",
        "leaves",
        "dishes",
        "batteries",
        "boxes",
        "bearings",
        "pumps",
        "knives",
        "mice",
        "cavities",
    ]:
        assert chunker.singular(word) == reader().morphy(word, "n"), word
