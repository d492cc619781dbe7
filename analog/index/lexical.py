"""Match by words: BM25, computed by bm25s at the build and added up by numpy at the query.

bm25s computes the share of every word in every document ahead, so a query only adds stored numbers. Importing the
library takes 0.9 s here (it brings its compiler along); reading its arrays takes nothing. The tests hold that both
give the same scores.
Source: Lù (2024), BM25S: Orders of magnitude faster lexical search via eager sparse scoring, arXiv:2407.03618; the
variant is Lucene's, as in Kamphuis et al. (2020), Which BM25 do you mean?, ECIR.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np
import numpy.typing as npt

from analog.errors import IndexStateError
from analog.index.arrays import load_array, save_array

K1, B = 1.5, 0.75
"""Saturation of repeated words and weight of the length of a document: the middle of the usual ranges (Lucene: 1.2)."""

DATA, DOCUMENTS, STARTS, WORDS = "bm25-data", "bm25-documents", "bm25-starts", "bm25-words.json"


def build_lexical(documents: Sequence[Sequence[str]], folder: Path) -> None:
    """Compute and write the index of n documents, each a list of tokens."""
    vocabulary = {word: number for number, word in enumerate(sorted({w for words in documents for w in words}))}
    if vocabulary:
        import bm25s

        ids = [[vocabulary[word] for word in words] for words in documents]
        index = bm25s.BM25(k1=K1, b=B, method="lucene", backend="numpy")
        index.index((ids, dict(vocabulary)), create_empty_token=False, show_progress=False)
        data, rows, starts = (index.scores[key] for key in ("data", "indices", "indptr"))
    else:
        data, rows, starts = np.zeros(0), np.zeros(0), np.zeros(1)
    save_array(folder / DATA, np.asarray(data, dtype=np.float32))
    save_array(folder / DOCUMENTS, np.asarray(rows, dtype=np.int32))
    save_array(folder / STARTS, np.asarray(starts, dtype=np.int64))
    (folder / WORDS).write_text(json.dumps({"documents": len(documents), "words": list(vocabulary)}), encoding="utf-8")


class Lexical:
    """The lexical index of n documents. Raises IndexStateError if its files cannot be read or do not fit together."""

    def __init__(self, folder: Path) -> None:
        self._data = load_array(folder / DATA, np.float32, 1)
        self._rows = load_array(folder / DOCUMENTS, np.int32, 1)
        self._starts = load_array(folder / STARTS, np.int64, 1)
        try:
            stored = json.loads((folder / WORDS).read_text(encoding="utf-8"))
            self.count = int(stored["documents"])
            self._numbers = {word: number for number, word in enumerate(stored["words"])}
        except (OSError, ValueError, KeyError, TypeError) as fault:
            raise IndexStateError(f"the word list of the index cannot be read: {folder / WORDS}: {fault}") from fault
        if len(self._starts) != len(self._numbers) + 1 or int(self._starts[-1]) != len(self._data):
            raise IndexStateError(f"the lexical index in {folder} does not fit together; build the index again")

    def scores(self, words: Sequence[str] | Mapping[str, float]) -> npt.NDArray[np.float32]:
        """BM25 of every document.

        words : tokens (see `tokens`), a repeated one counting each time; or tokens with weights, as an expansion
        gives them. Words the corpus does not know add nothing.
        Returns (n,) float32, without unit, 0 where no word occurs.
        """
        weighted = words.items() if isinstance(words, Mapping) else ((word, 1.0) for word in words)
        scores = np.zeros(self.count, dtype=np.float32)
        for word, weight in weighted:
            number = self._numbers.get(word)
            if number is not None:
                entries = slice(self._starts[number], self._starts[number + 1])
                scores[self._rows[entries]] += np.float32(weight) * self._data[entries]
        return scores
