"""The query encoder: the exported transformer run by onnxruntime, without torch."""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from analog.errors import IndexStateError

GRAPH, WEIGHTS, TOKENIZER, SETTINGS = "model.onnx", "model.bin", "tokenizer.json", "settings.json"
"""Files of an exported encoder."""

FILES = (GRAPH, WEIGHTS, TOKENIZER, SETTINGS)

BATCH = 32

Floats = npt.NDArray[np.float32]


def _mean(tokens: Floats, mask: npt.NDArray[np.int64]) -> Floats:
    weights = mask[:, :, None].astype(np.float32)
    mean: Floats = (tokens * weights).sum(axis=1) / np.maximum(weights.sum(axis=1), np.float32(1e-9))
    return mean


def _first(tokens: Floats, mask: npt.NDArray[np.int64]) -> Floats:
    return tokens[:, 0]


def _maximum(tokens: Floats, mask: npt.NDArray[np.int64]) -> Floats:
    largest: Floats = np.where(mask[:, :, None] == 1, tokens, np.float32(-np.inf)).max(axis=1)
    return largest


POOLINGS: dict[str, Callable[[Floats, npt.NDArray[np.int64]], Floats]] = {
    "mean": _mean,
    "cls": _first,
    "max": _maximum,
}
"""How the vectors of the tokens (n, t, d) under a mask (n, t) become one vector a text (n, d)."""


def runtime() -> Any:
    """The library onnxruntime, with its reports of use switched off.

    Newer releases keep a number of the device in the user's cache folder, so that they can send reports; this program
    promises to stay offline. The library reads the variable once, when it is loaded.
    """
    os.environ.setdefault("ORT_DISABLE_TELEMETRY", "1")
    import onnxruntime

    return onnxruntime


class OnnxEncoder:
    """An exported encoder, opened from its folder.

    prepack : rearrange the weights for quick products. Off, the weights stay mapped from the file: a session is
    ready 0.07 s sooner, each text takes about 5 ms longer (MiniLM, two cores). Turn it on for many texts.
    Raises IndexStateError if a file is missing or cannot be read.
    """

    def __init__(self, folder: Path, *, prepack: bool = False, threads: int = 2) -> None:
        from tokenizers import Tokenizer

        onnxruntime = runtime()
        try:
            settings = json.loads((folder / SETTINGS).read_text(encoding="utf-8"))
            self._pool = POOLINGS[settings["pooling"]]
            self._prompt = str(settings["prompt"])
            self._inputs = tuple(settings["inputs"])
            self.dimension = int(settings["dimension"])
            self._tokenizer = Tokenizer.from_file(str(folder / TOKENIZER))
            self._padding = self._tokenizer.token_to_id("[PAD]") or 0
            options = onnxruntime.SessionOptions()
            options.log_severity_level = 4
            options.intra_op_num_threads = threads
            options.inter_op_num_threads = 1
            options.graph_optimization_level = onnxruntime.GraphOptimizationLevel.ORT_DISABLE_ALL  # done at the export
            if not prepack:
                options.add_session_config_entry("session.disable_prepacking", "1")
            self._session = onnxruntime.InferenceSession(
                str(folder / GRAPH), options, providers=["CPUExecutionProvider"]
            )
        except Exception as fault:  # both libraries raise plain Exception for a file they cannot read
            raise IndexStateError(
                f"the query encoder in {folder} cannot be opened: {type(fault).__name__}: {fault}"
            ) from fault

    def encode(self, texts: Sequence[str]) -> Floats:
        """See `Encoder.encode`. Texts beyond the longest length of the model are cut, as at the build."""
        encoded = self._tokenizer.encode_batch([self._prompt + text for text in texts])
        vectors = np.empty((len(texts), self.dimension), dtype=np.float32)
        # texts of like length together, so that little is computed for padding
        order = sorted(range(len(texts)), key=lambda row: len(encoded[row].ids))
        for start in range(0, len(order), BATCH):
            rows = order[start : start + BATCH]
            vectors[rows] = self._encode([encoded[row].ids for row in rows], [encoded[row].type_ids for row in rows])
        return vectors

    def _encode(self, ids: list[list[int]], types: list[list[int]]) -> Floats:
        longest = max(len(row) for row in ids)
        arrays = {
            "input_ids": np.full((len(ids), longest), self._padding, dtype=np.int64),
            "attention_mask": np.zeros((len(ids), longest), dtype=np.int64),
            "token_type_ids": np.zeros((len(ids), longest), dtype=np.int64),
        }
        for row, (tokens, kinds) in enumerate(zip(ids, types, strict=True)):
            arrays["input_ids"][row, : len(tokens)] = tokens
            arrays["attention_mask"][row, : len(tokens)] = 1
            arrays["token_type_ids"][row, : len(tokens)] = kinds
        tokens_out = self._session.run(None, {name: arrays[name] for name in self._inputs})[0]
        pooled = self._pool(tokens_out, arrays["attention_mask"])
        lengths = np.linalg.norm(pooled, axis=1, keepdims=True)
        return np.asarray(pooled / np.maximum(lengths, 1e-12), dtype=np.float32)
