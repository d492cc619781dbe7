"""Search by vectors, against brute force."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.encode.facets import FACETS, PARTS, PURPOSES
from analog.errors import IndexStateError
from analog.index.arrays import best
from analog.index.dense import Dense, TextTable, build_dense


def unit(rng, count, dimension):
    vectors = rng.normal(size=(count, dimension)).astype(np.float32)
    return vectors / np.linalg.norm(vectors, axis=1, keepdims=True)


def made(tmp_path, texts_of_models, seed=0, dimension=6, **options):
    table = TextTable.of(texts_of_models)
    vectors = unit(np.random.default_rng(seed), len(table.texts), dimension)
    build_dense(table, vectors, tmp_path, **options)
    return table, vectors, Dense(tmp_path, len(texts_of_models))


def brute_force(table, vectors, texts_of_models, facet, query):
    """Plain loops over models and texts, in double precision."""
    start = table.facet_starts[FACETS.index(facet)]
    end = table.facet_starts[FACETS.index(facet) + 1]
    row = {text: start + n for n, text in enumerate(table.texts[start:end])}
    scores = []
    for texts in texts_of_models:
        own = [float(vectors[row[t]].astype(float) @ query.astype(float)) for f, t in texts if f == facet]
        scores.append(max(own, default=-np.inf))
    return np.array(scores)


text_lists = st.lists(
    st.lists(st.tuples(st.sampled_from(FACETS), st.sampled_from([f"text {n}" for n in range(12)])), max_size=8),
    min_size=1,
    max_size=12,
)


@settings(max_examples=60, deadline=None)
@given(text_lists, st.sampled_from(FACETS), st.integers(1, 20), st.integers(0, 1000))
def test_search_equals_brute_force(tmp_path_factory, texts_of_models, facet, top, seed):
    """Shared texts, repeated texts, models without a text and facets without any included."""
    table, vectors, dense = made(tmp_path_factory.mktemp("dense"), texts_of_models, seed)
    query = unit(np.random.default_rng(seed + 1), 1, 6)[0]
    expected = brute_force(table, vectors, texts_of_models, facet, query)
    hits = dense.search(facet, query, top)
    reachable = int(np.isfinite(expected).sum())
    assert len(hits.models) == min(top, reachable)
    np.testing.assert_allclose(hits.scores, expected[hits.models], atol=1e-5)
    np.testing.assert_allclose(hits.scores, np.sort(expected)[::-1][: len(hits.models)], atol=1e-5)
    scores, texts = dense.score(facet, query, range(len(texts_of_models)))
    np.testing.assert_allclose(scores, expected, atol=1e-5)
    for model, text in enumerate(texts):
        assert (text == -1) == (expected[model] == -np.inf)
        if text >= 0:
            assert (facet, table.texts[text]) in texts_of_models[model]


@given(st.lists(st.sampled_from([-np.inf, 0.0, 0.25, 0.5, 1.0]), max_size=30), st.integers(0, 35))
def test_best_is_a_stable_sort_cut_short(scores, count):
    """Equal scores come in order of position; -inf never comes."""
    expected = sorted((n for n, s in enumerate(scores) if s > -np.inf), key=lambda n: -scores[n])[:count]
    assert best(np.array(scores, dtype=np.float32), count).tolist() == expected


def test_a_text_of_many_models_is_stored_once(tmp_path):
    """Three models share a principle: one vector, three owners."""
    table, _, dense = made(tmp_path, [[(PURPOSES, "free fur"), (PARTS, "fur")], [(PURPOSES, "free fur")], []])
    assert table.texts == ("free fur", "fur")
    assert dense.search(PURPOSES, dense.vectors[0], 5).models.tolist() == [0, 1]


def test_large_facets_are_searched_by_lists_with_little_loss(tmp_path):
    """4,000 texts in 80 clusters, exact search switched off: at least 19 of 20 true neighbours on average."""
    rng = np.random.default_rng(3)
    centres = unit(rng, 80, 32)
    texts_of_models = [[(PURPOSES, f"{m} {t}") for t in range(2)] for m in range(2000)]
    table = TextTable.of(texts_of_models)
    vectors = centres[rng.integers(0, 80, 4000)] + 0.1 * rng.normal(size=(4000, 32)).astype(np.float32)
    vectors /= np.linalg.norm(vectors, axis=1, keepdims=True)
    build_dense(table, vectors, tmp_path, exact_limit=1000)
    assert (tmp_path / "purposes.faiss").is_file()
    dense, found = Dense(tmp_path, 2000), 0
    for query in vectors[:50] + np.float32(0.02):
        query = query / np.linalg.norm(query)
        exact = dense.all_scores(PURPOSES, query)
        hits = dense.search(PURPOSES, query, 20)
        np.testing.assert_allclose(hits.scores, exact[hits.models], atol=1e-5)
        found += len(set(hits.models) & set(best(exact, 20)))
    assert found / 50 >= 19


def test_a_query_of_another_length_is_refused(tmp_path):
    """The error gives both shapes."""
    _, _, dense = made(tmp_path, [[(PURPOSES, "free fur")]])
    with pytest.raises(ValueError, match=r"expected a query of shape \(6,\), got \(5,\)"):
        dense.search(PURPOSES, np.zeros(5, dtype=np.float32), 3)


def test_arrays_that_do_not_fit_together_are_refused(tmp_path):
    """Vectors of one index with the table of another."""
    made(tmp_path, [[(PURPOSES, "free fur")], [(PURPOSES, "wet fur")]])
    with pytest.raises(IndexStateError, match="do not fit together"):
        Dense(tmp_path, 3)
