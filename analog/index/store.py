"""An index that has been opened: what a search reads."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cached_property, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt

from analog.errors import IndexStateError, UnknownTermError
from analog.index.arrays import load_array
from analog.index.dense import Dense
from analog.index.lexical import Lexical
from analog.index.lines import Lines
from analog.index.manifest import check_files, read_manifest
from analog.index.signatures import Signatures
from analog.index.sources import Sources, difference

if TYPE_CHECKING:
    from analog.encode.encoder import Encoder
    from analog.model.types import Model, Principle

ENCODER, DENSE, LEXICAL = "encoder", "dense", "lexical"
NAMES, MODELS, PRINCIPLE_LINES, TEXTS = "names.json", "models.jsonl", "principles.jsonl", "texts.jsonl"
VOCABULARY_FILE, PHRASE_ROWS, PHRASE_VECTORS, SOURCE_FILE = "vocabulary.json", "phrases.json", "phrases", "sources.json"
EXPECTED_FILE = "expected.json"


class Index:
    """The parts of an index, each opened when first asked for. See `open_index`."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.manifest = read_manifest(folder)
        check_files(folder, self.manifest)
        names = self.read_json(NAMES)
        try:
            self.ids: tuple[str, ...] = tuple(names["models"])
            self.files: tuple[str, ...] = tuple(names["files"])
            self.principle_ids: tuple[str, ...] = tuple(names["principles"])
            self.position: Mapping[str, int] = {identifier: n for n, identifier in enumerate(self.ids)}
        except (KeyError, TypeError) as fault:
            raise IndexStateError(f"the index at {folder} is damaged: {NAMES}: {fault}") from fault
        self.dense = Dense(folder / DENSE, len(self.ids))
        self.lexical = Lexical(folder / LEXICAL)
        self._models = Lines(folder / MODELS)
        self._principles = Lines(folder / PRINCIPLE_LINES)
        if not len(self.ids) == len(self.files) == len(self._models) == self.lexical.count:
            raise IndexStateError(f"the parts of the index at {folder} do not fit together; build it again")
        # memories of this object, gone with it
        self.model = lru_cache(maxsize=4096)(self._model)
        self.principle = lru_cache(maxsize=4096)(self._principle)

    @cached_property
    def encoder(self) -> Encoder:
        """The encoder for queries, without rearranged weights (see `OnnxEncoder`)."""
        from analog.encode.stored import open_encoder

        return open_encoder(self.folder / ENCODER)

    def _model(self, identifier: str) -> Model:
        """The model with this id, read by itself from its line. Raises UnknownTermError if there is none."""
        from analog.model.types import Model

        if identifier not in self.position:
            from difflib import get_close_matches

            raise UnknownTermError("model", identifier, get_close_matches(identifier, self.ids, 5, 0.5))
        model: Model = self._record(Model, self._models[self.position[identifier]])
        return model

    def _principle(self, identifier: str) -> Principle:
        """The principle with this id. Raises UnknownTermError if there is no record of it."""
        from analog.model.types import Principle

        if identifier not in self.principle_ids:
            from difflib import get_close_matches

            raise UnknownTermError("principle", identifier, get_close_matches(identifier, self.principle_ids, 5, 0.5))
        principle: Principle = self._record(Principle, self._principles[self.principle_ids.index(identifier)])
        return principle

    def model_line(self, position: int) -> bytes:
        """The model at this position as JSON."""
        return self._models[position]

    def principle_line(self, position: int) -> bytes:
        """The principle at this position as JSON."""
        return self._principles[position]

    @cached_property
    def signatures(self) -> Signatures:
        """The purposes of all models as numbers."""
        return Signatures.open(self.folder, len(self.ids))

    @cached_property
    def texts(self) -> Lines:
        """The signature texts as JSON strings, in the order of `dense.vectors`."""
        return Lines(self.folder / TEXTS)

    def text(self, position: int) -> str:
        """One signature text, as `Dense.score` names it by position."""
        return str(json.loads(self.texts[position]))

    @cached_property
    def vocabulary(self) -> dict[str, Any]:
        """The baked vocabulary, for `Vocabulary.from_baked`."""
        data: dict[str, Any] = self.read_json(VOCABULARY_FILE)
        return data

    @cached_property
    def expected(self) -> dict[str, list[str]]:
        """Model id -> the sentences that are expected to ask for it."""
        data: dict[str, list[str]] = self.read_json(EXPECTED_FILE)
        return data

    @cached_property
    def phrases(self) -> tuple[list[dict[str, str]], npt.NDArray[np.float32]]:
        """Example sentences with their labels, n records by column; and their vectors (n, d) of unit length."""
        rows = self.read_json(PHRASE_ROWS)
        vectors: npt.NDArray[np.float32] = load_array(self.folder / PHRASE_VECTORS, np.float32, 2)
        if not isinstance(rows, list) or len(rows) != len(vectors):
            raise IndexStateError(f"the index at {self.folder} is damaged: sentences and vectors do not fit together")
        return rows, vectors

    def read_json(self, name: str) -> Any:
        """One of the JSON files of the index. Raises IndexStateError if it cannot be read."""
        try:
            return json.loads((self.folder / name).read_text(encoding="utf-8"))
        except (OSError, ValueError) as fault:
            raise IndexStateError(f"the index at {self.folder} is damaged: {name}: {fault}") from fault

    def _record(self, record: Any, line: bytes) -> Any:
        from pydantic import ValidationError

        try:
            return record.model_validate_json(line)
        except ValidationError as fault:
            raise IndexStateError(f"the index at {self.folder} is damaged: a {record.__name__}: {fault}") from fault


def open_index(folder: Path) -> Index:
    """Open an index.

    Sizes of all its files and the contents of small ones are compared with its manifest; arrays are mapped, not read.
    Raises IndexStateError if it is missing, damaged or of another format.
    """
    return Index(folder)


def verify(index: Index) -> None:
    """Compare the contents of every file with the manifest. Raises IndexStateError that names the first at fault."""
    check_files(index.folder, index.manifest, thorough=True)


def is_stale(index: Index, corpus: Path, sources: Sources | None = None) -> str | None:
    """Why the index no longer says what corpus, vocabulary, principles and program say; None if it does."""
    from analog import __version__

    if index.manifest.program != __version__:
        return f"it was built by version {index.manifest.program}, this is {__version__}"
    recorded = index.read_json(SOURCE_FILE)
    if not isinstance(recorded, dict) or not all(isinstance(group, dict) for group in recorded.values()):
        raise IndexStateError(f"the index at {index.folder} is damaged: {SOURCE_FILE}")
    return difference(recorded, (sources or Sources.of(corpus)).files())
