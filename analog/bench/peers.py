"""Plain searches over the same texts, to compare with: words, vectors, and both fused by rank.

Every peer reads of each model its title, summary, purposes, principles, parts and questions (the signature texts of
the index). They know no vocabulary, no structure and no conditions; what is given can only be added to the words.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np
import numpy.typing as npt

from analog.bench.metrics import Ranking
from analog.bench.problems import GradedProblem
from analog.encode.facets import FACETS, model_texts
from analog.index.store import Index

Floats = npt.NDArray[np.float32]
Peer = Callable[[str], Ranking]
"""From the words of a problem to a ranking."""

FUSED_CONSTANT = 60
"""k of reciprocal rank fusion, as published."""


def fused_by_rank(rankings: Sequence[Ranking], constant: int = FUSED_CONSTANT) -> list[str]:
    """Reciprocal rank fusion: each ranking adds 1 / (k + rank), ranks from 1; ties by id.

    Source: Cormack, Clarke & Büttcher (2009), Reciprocal rank fusion outperforms Condorcet and individual rank
    learning methods, SIGIR, 758-759.
    """
    scores: dict[str, float] = {}
    for ranking in rankings:
        for rank, model in enumerate(ranking, start=1):
            scores[model] = scores.get(model, 0.0) + 1.0 / (constant + rank)
    return sorted(scores, key=lambda model: (-scores[model], model))


def whole_texts(index: Index) -> list[str]:
    """All signature texts of each model as one text, summary first (an encoder that cuts long texts keeps it)."""
    statements = {i: (index.principle(i).title, index.principle(i).statement) for i in index.principle_ids}
    order = ("summary", "purposes", "questions", "principles", "parts")
    texts = []
    for model in index.ids:
        facets = model_texts(index.model(model), statements, index.expected.get(model, ()))
        texts.append(" ".join(text.text.rstrip(".") + "." for name in order for text in facets if text.facet == name))
    return texts


def words_peer(index: Index) -> Peer:
    """BM25 by the library bm25s, with its own tokens, English stop words, k1 = 1.5, b = 0.75 (its defaults)."""
    import bm25s

    searcher = bm25s.BM25()
    searcher.index(bm25s.tokenize(whole_texts(index), stopwords="en", show_progress=False), show_progress=False)

    def search(text: str) -> Ranking:
        words = bm25s.tokenize(text, stopwords="en", return_ids=False, show_progress=False)[0]
        known = [word for word in words if word in searcher.vocab_dict]
        scores = searcher.get_scores(known) if known else np.zeros(len(index.ids))
        return _ordered(index.ids, scores, above=0.0)

    return search


def whole_vectors_peer(index: Index) -> Peer:
    """One vector of the whole text of each model, by the encoder of the index; a flat scan by cosine."""
    vectors = index.encoder.encode(whole_texts(index))
    return lambda text: _ordered(index.ids, vectors @ index.encoder.encode([text])[0])


def best_vector_peer(index: Index) -> Peer:
    """The vectors of all signature texts, each model by its nearest one (max-pooling); a flat scan by cosine."""

    def search(text: str) -> Ranking:
        vector = index.encoder.encode([text])[0]
        return _ordered(index.ids, np.max([index.dense.all_scores(facet, vector) for facet in FACETS], axis=0))

    return search


def peers(index: Index) -> dict[str, Peer]:
    """The peers by name."""
    words, whole, best = words_peer(index), whole_vectors_peer(index), best_vector_peer(index)
    return {
        "BM25": words,
        "vectors, whole text": whole,
        "vectors, nearest text": best,
        "BM25 + whole text, fused": lambda text: fused_by_rank([words(text), whole(text)]),
        "BM25 + nearest text, fused": lambda text: fused_by_rank([words(text), best(text)]),
    }


def peer_rankings(index: Index, problems: Sequence[GradedProblem]) -> Mapping[str, dict[str, Ranking]]:
    """Peer -> problem id -> ranking; each peer once on the text alone and once with the given conditions added."""
    found: dict[str, dict[str, Ranking]] = {}
    for name, search in peers(index).items():
        found[name] = {problem.id: search(problem.text) for problem in problems}
        found[f"{name}, with given"] = {p.id: search(". ".join((p.text, *p.given))) for p in problems}
    return found


def _ordered(ids: Sequence[str], scores: npt.NDArray[np.floating], above: float | None = None) -> list[str]:
    """Model ids by falling score, ties by id; those at or under `above` are not found at all."""
    order = sorted(range(len(ids)), key=lambda i: (-float(scores[i]), ids[i]))
    return [ids[i] for i in order if above is None or scores[i] > above]
