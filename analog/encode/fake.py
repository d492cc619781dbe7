"""An encoder without a trained model: likeness of spelling only. For tests, and where no trained model may be used."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt


class HashingEncoder:
    """Counts of words and letter triples, each thrown by a hash on one of `dimension` axes with a sign.

    The same text gives the same vector in every process and on every machine.
    Source: Weinberger et al. (2009), Feature hashing for large scale multitask learning, ICML.
    """

    def __init__(self, dimension: int = 64) -> None:
        self.dimension = dimension

    def encode(self, texts: Sequence[str]) -> npt.NDArray[np.float32]:
        """See `Encoder.encode`. A text without any letter gives the first axis."""
        vectors = np.zeros((len(texts), self.dimension), dtype=np.float32)
        for row, text in enumerate(texts):
            for feature in self._features(text):
                digest = hashlib.blake2b(feature.encode("utf-8", "surrogatepass"), digest_size=8).digest()
                axis = int.from_bytes(digest[:4], "little") % self.dimension
                vectors[row, axis] += 1.0 if digest[4] & 1 else -1.0
            if not vectors[row].any():
                vectors[row, 0] = 1.0
        lengths: npt.NDArray[np.float32] = np.linalg.norm(vectors, axis=1, keepdims=True)
        return vectors / lengths

    @staticmethod
    def _features(text: str) -> list[str]:
        words = text.casefold().split()
        return words + [f"{word}_"[at : at + 3] for word in words for at in range(max(1, len(word) - 1))]
