"""The query encoder inside an index: written by the build, opened by a search."""

from __future__ import annotations

import json
import os
import shutil
import warnings
from pathlib import Path

from analog.encode.encoder import Encoder
from analog.encode.fake import HashingEncoder
from analog.errors import IndexStateError

HASHING = "hashing"
"""Name of the encoder without a trained model."""

ABOUT = "encoder.json"


def identify(name: str | None) -> tuple[str, str]:
    """(name, hash) of an encoder: the hash changes when its vectors would. Raises UsageError for an unknown name."""
    if name == HASHING:
        return HASHING, "hashing-1"
    from analog.encode.sentence import find_encoder

    found = find_encoder(name)
    return found.name, found.hash


def store_encoder(name: str | None, target: Path, previous: Path | None = None) -> tuple[Encoder, tuple[str, ...]]:
    """Write the query encoder for `name` into the folder `target`.

    previous : folder of an encoder with the same hash, whose files are linked instead of exported again.
    Returns the encoder for the texts of the build, and warnings. The build uses the exported encoder too, where
    there is one: models and questions are then encoded by the same program, and torch is not loaded at all
    when an earlier export can be kept.
    """
    target.mkdir(parents=True, exist_ok=True)
    if name == HASHING:
        _about(target, {"runtime": HASHING, "dimension": HashingEncoder().dimension})
        return HashingEncoder(), ()
    if previous is not None and _runtime(previous) == "onnx":
        for file in sorted(previous.iterdir()):
            _link(file, target / file.name)
        return _exported(target, prepack=True), ()

    from analog.encode.export import NotExportableError, export_encoder
    from analog.encode.sentence import SentenceEncoder, find_encoder

    found = find_encoder(name)
    original = SentenceEncoder(found.folder)
    try:
        export_encoder(original, target)
    except NotExportableError as fault:
        for file in target.iterdir():
            file.unlink()
        _about(target, {"runtime": "sentence-transformers", "folder": str(found.folder)})
        return original, (f"encoder {found.name}: {fault}; every search will have to load torch",)
    _about(target, {"runtime": "onnx"})
    return _exported(target, prepack=True), ()


def open_encoder(folder: Path, *, prepack: bool = False) -> Encoder:
    """Open the query encoder of an index.

    prepack : see `OnnxEncoder`; for a process that will encode many texts.
    Warns where torch has to be loaded. Raises IndexStateError if the encoder cannot be read.
    """
    runtime = _runtime(folder)
    if runtime == "onnx":
        return _exported(folder, prepack=prepack)
    if runtime == HASHING:
        return HashingEncoder(int(_read(folder)["dimension"]))  # type: ignore[call-overload]
    if runtime == "sentence-transformers":
        from analog.encode.sentence import SentenceEncoder

        warnings.warn("the encoder of this index has no exported form, so torch is loaded: slow", stacklevel=2)
        return SentenceEncoder(Path(str(_read(folder)["folder"])))
    raise IndexStateError(
        f"expected an encoder of type onnx, sentence-transformers or {HASHING} in {folder}, found {runtime!r}"
    )


def _exported(folder: Path, *, prepack: bool) -> Encoder:
    from analog.encode.onnx import OnnxEncoder

    return OnnxEncoder(folder, prepack=prepack)


def _runtime(folder: Path) -> object:
    return _read(folder).get("runtime")


def _read(folder: Path) -> dict[str, object]:
    try:
        about = json.loads((folder / ABOUT).read_text(encoding="utf-8"))
    except (OSError, ValueError) as fault:
        raise IndexStateError(f"the encoder of the index in {folder} cannot be read: {fault}") from fault
    if not isinstance(about, dict):
        raise IndexStateError(f"expected an object in {folder / ABOUT}, found {type(about).__name__}")
    return about


def _about(folder: Path, about: dict[str, object]) -> None:
    (folder / ABOUT).write_text(json.dumps(about), encoding="utf-8")


def _link(source: Path, target: Path) -> None:
    """Give the file a second name (no copy of 90 MB); copy it where the file system has no such links."""
    try:
        os.link(source, target)
    except OSError:
        shutil.copyfile(source, target)
