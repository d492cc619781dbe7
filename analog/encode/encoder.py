"""What every encoder can do."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt


class Encoder(Protocol):
    """Turns texts into vectors whose inner product is their likeness."""

    def encode(self, texts: Sequence[str]) -> npt.NDArray[np.float32]:
        """Encode n texts.

        Returns (n, d) float32, each row of unit length, so that inner product and cosine are one.
        No texts give an array of shape (0, d).
        """
        ...
