"""BM25 against bm25s (https://github.com/xhluca/bm25s) and against the formula worked by hand."""

import math

import bm25s
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.index.lexical import K1, B, Lexical, build_lexical

words = st.sampled_from(["dust", "panel", "ice", "wing", "water", "pull", "stop", "gap"])
documents_of_words = st.lists(st.lists(words, max_size=12), min_size=1, max_size=8)


@settings(max_examples=60, deadline=None)
@given(documents_of_words, st.lists(words, min_size=1, max_size=6))
def test_scores_equal_those_of_the_library(tmp_path_factory, documents, query):
    """Repeated words of a query count each time in both; words nobody uses count nothing."""
    if not any(documents):
        return
    folder = tmp_path_factory.mktemp("lexical")
    build_lexical(documents, folder)
    library = bm25s.BM25(k1=K1, b=B, method="lucene")
    library.index(documents, show_progress=False)
    np.testing.assert_allclose(Lexical(folder).scores(query), library.get_scores(query), rtol=1e-6)


def test_scores_equal_the_formula(tmp_path):
    """Lucene's variant as given by Kamphuis et al. (2020), Which BM25 do you mean?, table 1 (accurate lengths).

    Three documents of 3, 2 and 1 words: N = 3, mean length 2. "dust" is in two of them.
    """
    build_lexical([["dust", "panel", "dust"], ["ice", "wing"], ["dust"]], tmp_path)
    rarity = math.log(1 + (3 - 2 + 0.5) / (2 + 0.5))
    first = rarity * 2 / (2 + 1.5 * (1 - 0.75 + 0.75 * 3 / 2))
    third = rarity * 1 / (1 + 1.5 * (1 - 0.75 + 0.75 * 1 / 2))
    np.testing.assert_allclose(Lexical(tmp_path).scores(["dust"]), [first, 0, third], rtol=1e-6)


def test_weights_multiply(tmp_path):
    """A word of weight 0.5 brings half of its score, and scores of words add."""
    build_lexical([["dust", "ice"], ["ice"], ["gap"]], tmp_path)
    lexical = Lexical(tmp_path)
    np.testing.assert_allclose(
        lexical.scores({"dust": 1.0, "ice": 0.5, "unknown": 1.0}),
        lexical.scores(["dust"]) + 0.5 * lexical.scores(["ice"]),
        rtol=1e-6,
    )


@pytest.mark.parametrize("documents", [[], [[], []]])
def test_documents_without_words_score_nothing(tmp_path, documents):
    """An empty corpus is no fault."""
    build_lexical(documents, tmp_path)
    np.testing.assert_array_equal(Lexical(tmp_path).scores(["dust"]), np.zeros(len(documents)))
