"""Match by vectors, facet by facet.

The vectors of a facet lie together in one array, each different text once, with a table from texts to models. Facets
up to EXACT_LIMIT texts are searched exactly, by one matrix product over the memory map: at 5,000 texts that takes 1 ms,
less than the time to import FAISS (0.06 s and more), and it gives the score of every model. Larger facets are also
stored as a FAISS index (inverted lists, 8 bits a number), searched approximately and then scored exactly.
Source: Johnson, Douze, Jégou (2021), Billion-scale similarity search with GPUs, IEEE Trans. Big Data 7(3).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from analog.encode.facets import FACETS
from analog.errors import IndexStateError
from analog.index.arrays import best, load_array, save_array

Floats = npt.NDArray[np.float32]
Integers = npt.NDArray[np.int64]

EXACT_LIMIT = 50_000
"""Texts in a facet up to which the exact search is used."""

LISTS_PER_ROOT = 4
"""Inverted lists = this × square root of the number of texts, the rule of thumb of the FAISS manual."""

PROBED_SHARE = 1 / 16
"""Share of the lists that a query visits."""

VECTORS, FACET_STARTS, PAIR_TEXTS, PAIR_STARTS, TEXT_MODELS, TEXT_STARTS = (
    "vectors",
    "facet-starts",
    "pair-texts",
    "pair-starts",
    "text-models",
    "text-starts",
)


@dataclass(frozen=True)
class Hits:
    """The best models of a facet: positions of models and their scores, largest first."""

    models: Integers
    scores: Floats


@dataclass(frozen=True)
class TextTable:
    """Which text of which facet belongs to which model.

    texts : every (facet, text) once, facet by facet. facet_starts : (facets + 1,) where each facet begins in `texts`.
    pairs : (p, 3) facet, model, text; sorted, all numbers positions.
    """

    texts: tuple[str, ...]
    facet_starts: tuple[int, ...]
    pairs: npt.NDArray[np.int64]
    models: int

    @classmethod
    def of(cls, texts_of_models: Sequence[Sequence[tuple[str, str]]]) -> TextTable:
        """From the (facet, text) pairs of each model, in the order of the models."""
        numbers: list[dict[str, int]] = [{} for _ in FACETS]
        found: set[tuple[int, int, int]] = set()
        for model, texts in enumerate(texts_of_models):
            for name, text in texts:
                facet = FACETS.index(name)
                found.add((facet, model, numbers[facet].setdefault(text, len(numbers[facet]))))
        starts = [0]
        for of_facet in numbers:
            starts.append(starts[-1] + len(of_facet))
        pairs = np.array(sorted((f, m, starts[f] + t) for f, m, t in found), dtype=np.int64).reshape(-1, 3)
        return cls(tuple(t for of_facet in numbers for t in of_facet), tuple(starts), pairs, len(texts_of_models))


def build_dense(table: TextTable, vectors: Floats, folder: Path, exact_limit: int = EXACT_LIMIT) -> None:
    """Write vectors (n, d) of the n texts of a table, the table itself, and FAISS files of large facets."""
    if vectors.shape[0] != len(table.texts):
        raise ValueError(f"vectors {vectors.shape} do not fit {len(table.texts)} texts")
    facet, model, text = table.pairs.T
    by_text = np.lexsort((model, text))
    save_array(folder / VECTORS, np.ascontiguousarray(vectors, dtype=np.float32))
    save_array(folder / FACET_STARTS, np.array(table.facet_starts, dtype=np.int64))
    save_array(folder / PAIR_TEXTS, text)
    save_array(folder / PAIR_STARTS, _starts(facet * table.models + model, len(FACETS) * table.models))
    save_array(folder / TEXT_MODELS, model[by_text])
    save_array(folder / TEXT_STARTS, _starts(text, len(table.texts)))
    for name, start, end in zip(FACETS, table.facet_starts, table.facet_starts[1:], strict=False):
        if end - start > exact_limit:
            _write_lists(vectors[start:end], folder / f"{name}.faiss")


def _starts(keys: Integers, count: int) -> Integers:
    """Where each key 0..count-1 begins in sorted keys, and the end: (count + 1,)."""
    return np.concatenate(([0], np.cumsum(np.bincount(keys, minlength=count)))).astype(np.int64)


def _write_lists(vectors: Floats, path: Path) -> None:
    import faiss

    lists = int(LISTS_PER_ROOT * len(vectors) ** 0.5)
    index = faiss.index_factory(vectors.shape[1], f"IVF{lists},SQ8", faiss.METRIC_INNER_PRODUCT)
    sample = np.random.default_rng(0).choice(len(vectors), min(len(vectors), 40 * lists), replace=False)
    index.train(np.ascontiguousarray(vectors[np.sort(sample)]))
    index.add(vectors)
    faiss.extract_index_ivf(index).nprobe = max(1, int(lists * PROBED_SHARE))
    faiss.write_index(index, str(path))


class Dense:
    """The vectors of an index. Raises IndexStateError if its files cannot be read or do not fit together."""

    def __init__(self, folder: Path, models: int) -> None:
        self._folder, self.models = folder, models
        self.vectors: Floats = load_array(folder / VECTORS, np.float32, 2)
        self._facet_starts = load_array(folder / FACET_STARTS, np.int64, 1)
        self._pair_texts = load_array(folder / PAIR_TEXTS, np.int64, 1)
        self._pair_starts = load_array(folder / PAIR_STARTS, np.int64, 1)
        self._text_models = load_array(folder / TEXT_MODELS, np.int64, 1)
        self._text_starts = load_array(folder / TEXT_STARTS, np.int64, 1)
        if not (
            len(self._facet_starts) == len(FACETS) + 1
            and int(self._facet_starts[-1]) == len(self.vectors) == len(self._text_starts) - 1
            and len(self._pair_starts) == len(FACETS) * models + 1
            and int(self._pair_starts[-1]) == len(self._pair_texts) == len(self._text_models)
        ):
            raise IndexStateError(f"the vectors of the index in {folder} do not fit together; build the index again")
        self._lists: dict[str, Any] = {}

    @cached_property
    def dimension(self) -> int:
        """Length of a vector."""
        return int(self.vectors.shape[1])

    def search(self, facet: str, query: Floats, top: int) -> Hits:
        """The `top` models whose best text of this facet is nearest to the query.

        query : (d,) of unit length. Scores are cosines, -1..1. Models without a text of the facet never appear.
        """
        if self._is_listed(facet):
            return self._search_lists(facet, query, top)
        scores = self.all_scores(facet, query)
        chosen = best(scores, top)
        return Hits(chosen, scores[chosen])

    def all_scores(self, facet: str, query: Floats) -> Floats:
        """(models,) cosine of the best text of each model; -inf without one. Exact, at any size."""
        position = FACETS.index(facet)
        start, end = (int(n) for n in self._facet_starts[position : position + 2])
        likeness = self.vectors[start:end] @ self._checked(query)
        starts = self._pair_starts[position * self.models : (position + 1) * self.models + 1]
        scores = np.full(self.models, -np.inf, dtype=np.float32)
        filled = np.flatnonzero(starts[1:] > starts[:-1])
        if filled.size:
            of_pairs = likeness[self._pair_texts[starts[0] : starts[-1]] - start]
            scores[filled] = np.maximum.reduceat(of_pairs, starts[filled] - starts[0])
        return scores

    def score(self, facet: str, query: Floats, models: Sequence[int] | Integers) -> tuple[Floats, Integers]:
        """Cosine of the best text of each of the k models, and which text that is.

        Returns scores (k,), -inf without a text of the facet; and positions of texts (k,), -1 without one.
        """
        query = self._checked(query)
        offset = FACETS.index(facet) * self.models
        scores = np.full(len(models), -np.inf, dtype=np.float32)
        texts = np.full(len(models), -1, dtype=np.int64)
        for row, model in enumerate(models):
            own = self._pair_texts[self._pair_starts[offset + model] : self._pair_starts[offset + model + 1]]
            if own.size:
                likeness = self.vectors[own] @ query
                nearest = int(likeness.argmax())
                scores[row], texts[row] = likeness[nearest], own[nearest]
        return scores, texts

    def _checked(self, query: Floats) -> Floats:
        if query.shape != (self.dimension,):
            raise ValueError(f"expected a query of shape ({self.dimension},), got {query.shape}")
        return query

    def _is_listed(self, facet: str) -> bool:
        if facet not in self._lists:
            self._lists[facet] = (self._folder / f"{facet}.faiss").is_file() or None
        return self._lists[facet] is not None

    def _search_lists(self, facet: str, query: Floats, top: int) -> Hits:
        """Texts near the query by FAISS, their models, and the exact scores of these."""
        start = int(self._facet_starts[FACETS.index(facet)])
        # several texts of one model may be near, and eight bits blur the order: ask for more than is wanted
        _, near = self._opened(facet).search(self._checked(query)[None, :], 4 * top + 64)
        texts = near[0][near[0] >= 0] + start
        owners = [self._text_models[self._text_starts[t] : self._text_starts[t + 1]] for t in texts]
        models = np.unique(np.concatenate(owners)) if owners else np.zeros(0, dtype=np.int64)
        scores, _ = self.score(facet, query, models)
        chosen = best(scores, top)
        return Hits(models[chosen], scores[chosen])

    def _opened(self, facet: str) -> Any:
        if self._lists[facet] is True:
            import faiss

            path = self._folder / f"{facet}.faiss"
            try:
                self._lists[facet] = faiss.read_index(str(path), faiss.IO_FLAG_MMAP | faiss.IO_FLAG_READ_ONLY)
            except RuntimeError as fault:
                raise IndexStateError(f"a part of the index cannot be read: {path}: {fault}") from fault
        return self._lists[facet]
