"""What each model's purposes say, as whole numbers: verb, flow, kind of the object, kind of the place.

Vectors and words find a model by what is written in it. A model that does what is wanted in words that nobody would
expect is found by its purpose itself, and this table lets the first stage look at the purposes of all models at once.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from analog.errors import IndexStateError
from analog.index.arrays import load_array, save_array

if TYPE_CHECKING:
    from analog.model.types import Model

ROWS, NAMES = "signatures", "signatures.json"

COLUMNS = ("verb", "flow", "object", "place")
"""Columns after the first, which is the position of the model."""

NONE = -1
"""Stands for a place that a purpose does not have."""

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Wanted:
    """One purpose of a problem, with what likens it to another: each takes an id of the model's side, gives 0..1.

    None where the problem does not say (no flow read, no place).
    """

    verb: Callable[[str], float] | None
    flow: Callable[[str], float] | None
    object: Callable[[str], float] | None
    place: Callable[[str], float] | None


class Signatures:
    """The purposes of all models. rows : (purposes, 5) int32, model and a number for each of `COLUMNS`."""

    def __init__(self, rows: npt.NDArray[np.int32], names: Sequence[str], models: int) -> None:
        self.rows, self.names, self.models = rows, names, models
        # which ids stand in a column does not hang on what is asked
        self._distinct = [np.unique(rows[:, column], return_inverse=True) for column in range(1, rows.shape[1])]

    @classmethod
    def open(cls, folder: Path, models: int) -> Signatures:
        """Raises IndexStateError if the files are missing or do not fit together."""
        rows = load_array(folder / ROWS, np.int32, 2)
        try:
            names = json.loads((folder / NAMES).read_text(encoding="utf-8"))
        except (OSError, ValueError) as fault:
            raise IndexStateError(f"the index at {folder} is damaged: {NAMES}: {fault}") from fault
        if rows.shape[1] != 1 + len(COLUMNS) or (rows.size and int(rows[:, 1:].max()) >= len(names)):
            raise IndexStateError(f"the index at {folder} is damaged: purposes and names do not fit together")
        return cls(rows, names, models)

    def scores(self, wanted: Iterable[Wanted]) -> Floats:
        """(models,) 0..1, how well the best purpose of each model agrees with the best of the purposes wanted.

        The mean over what the problem says: a purpose without a place agrees with none in that.
        """
        best = np.zeros(self.models)
        for each in wanted:
            likens = (each.verb, each.flow, each.object, each.place)
            said = [(column, like) for column, like in enumerate(likens, start=1) if like is not None]
            if not said or not len(self.rows):
                continue
            agreement = np.mean([self._column(column, like) for column, like in said], axis=0)
            np.maximum.at(best, self.rows[:, 0], agreement)
        return best

    def _column(self, column: int, like: Callable[[str], float]) -> Floats:
        """(purposes,) likeness in one column; each distinct id is asked for once."""
        distinct, where = self._distinct[column - 1]
        values = np.array([like(self.names[n]) if n != NONE else 0.0 for n in distinct])
        return np.asarray(values[where])


def build_signatures(models: Sequence[Model], folder: Path) -> None:
    """Write the table of the models, in their order."""
    names: dict[str, int] = {}
    rows = []
    for position, model in enumerate(models):
        for purpose in model.purposes:
            said = (
                purpose.verb,
                purpose.flow,
                model.part(purpose.object).kind,
                model.part(purpose.where.part).kind if purpose.where else None,
            )
            rows.append([position, *(NONE if name is None else names.setdefault(name, len(names)) for name in said)])
    save_array(folder / ROWS, np.array(rows, dtype=np.int32).reshape(-1, 1 + len(COLUMNS)))
    (folder / NAMES).write_text(json.dumps(list(names)), encoding="utf-8")
