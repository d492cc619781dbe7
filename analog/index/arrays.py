"""Arrays on disk: saved whole, opened as memory maps, never unpickled; and the choice of the best of many scores."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from analog.errors import IndexStateError


def save_array(path: Path, array: npt.NDArray[Any]) -> None:
    """Write an array beside `path` with the ending .npy."""
    np.save(path.with_name(path.name + ".npy"), array, allow_pickle=False)


def load_array(path: Path, kind: type[np.generic], dimensions: int) -> npt.NDArray[Any]:
    """Map an array saved by `save_array`; an empty one is read, for nothing cannot be mapped.

    Raises IndexStateError if the file is missing, cut short, or holds another kind of number or shape.
    """
    file = path.with_name(path.name + ".npy")
    try:
        try:
            array = np.load(file, mmap_mode="r", allow_pickle=False)
        except ValueError:
            array = np.load(file, allow_pickle=False)
    except (OSError, ValueError, EOFError) as fault:
        raise IndexStateError(f"a part of the index cannot be read: {file}: {fault}") from fault
    if array.dtype != np.dtype(kind) or array.ndim != dimensions:
        raise IndexStateError(
            f"expected {dimensions} dimension(s) of {np.dtype(kind)} in {file}, found {array.ndim} of {array.dtype}"
        )
    return np.asarray(array)  # a plain view of the map: the subclass costs time at every slice


def best(scores: npt.NDArray[np.float32], count: int) -> npt.NDArray[np.int64]:
    """Positions of the `count` largest of n scores, largest first, equal ones in order of position.

    Positions of -inf are left out, so fewer may come back.
    """
    allowed = np.flatnonzero(scores > -np.inf)
    if count <= 0 or not allowed.size:
        return np.zeros(0, dtype=np.int64)
    if count < allowed.size:
        limit = np.partition(scores[allowed], allowed.size - count)[allowed.size - count]
        allowed = allowed[scores[allowed] >= limit]  # all that tie with the last one, so that order decides
    order = np.argsort(-scores[allowed], kind="stable")[:count]
    return allowed[order].astype(np.int64)
