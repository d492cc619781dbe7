"""Many texts in one file, any of which can be read by itself through a memory map."""

from __future__ import annotations

import mmap
from collections.abc import Iterable
from pathlib import Path

import numpy as np

from analog.errors import IndexStateError
from analog.index.arrays import load_array, save_array


def write_lines(path: Path, texts: Iterable[bytes]) -> None:
    """Write n texts one after the other, each followed by a line end, and where each begins."""
    starts = [0]
    with path.open("wb") as file:
        for text in texts:
            file.write(text + b"\n")
            starts.append(starts[-1] + len(text) + 1)
    save_array(path.with_name(path.name + ".starts"), np.array(starts, dtype=np.int64))


class Lines:
    """A file of `write_lines`: `lines[3]` reads the fourth text only. Raises IndexStateError if it cannot be read."""

    def __init__(self, path: Path) -> None:
        self._starts = load_array(path.with_name(path.name + ".starts"), np.int64, 1)
        try:
            with path.open("rb") as file:
                size = file.seek(0, 2)
                self._map = mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) if size else b""
        except OSError as fault:
            raise IndexStateError(f"a part of the index cannot be read: {path}: {fault}") from fault
        if not len(self._starts) or int(self._starts[-1]) != size:
            raise IndexStateError(f"a part of the index is damaged: {path} has {size} bytes, not as many as it should")

    def __len__(self) -> int:
        return len(self._starts) - 1

    def __getitem__(self, position: int) -> bytes:
        if not 0 <= position < len(self):
            raise IndexError(position)
        return bytes(self._map[int(self._starts[position]) : int(self._starts[position + 1]) - 1])
