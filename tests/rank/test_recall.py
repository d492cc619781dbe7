"""The first stage keeps places for models whose purpose agrees and whose words do not."""

from __future__ import annotations

import numpy as np

from analog.encode.facets import FACETS
from analog.rank.recall import by_text, candidates


def test_the_last_places_go_to_the_best_purposes() -> None:
    text = np.array([0.9, 0.8, 0.7, 0.6, 0.1, 0.0])
    purpose = np.array([0.0, 0.0, 0.0, 0.1, 0.2, 0.9])
    assert candidates(text, purpose, 5, share=0.4) == [0, 1, 2, 5, 4]


def test_nobody_comes_twice_and_a_small_corpus_comes_whole() -> None:
    assert sorted(candidates(np.array([0.2, 0.9]), np.array([1.0, 0.0]), 50)) == [0, 1]


def test_a_facet_without_texts_is_left_out_of_the_mean() -> None:
    cosines = {name: np.array([0.5, 0.5]) for name in FACETS}
    cosines["expected"] = np.array([0.5, -np.inf])
    weights = dict.fromkeys((*FACETS, "words"), 1.0)
    first, second = by_text(cosines, np.array([0.5, 0.5]), weights)
    assert first == second == 0.5
