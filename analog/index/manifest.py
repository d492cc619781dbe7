"""The manifest of an index: who wrote it, from what, and what its files must be."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from pathlib import Path
from typing import Any

from analog.errors import IndexStateError

FORMAT_VERSION = 3
"""Raised when an index of the old form cannot be read any more."""

NAME = "manifest.json"

HASHED_AT_OPENING_BYTES = 1 << 20
"""Files up to this size are compared with their hash whenever an index is opened; larger ones only by their size."""


@dataclass(frozen=True)
class Manifest:
    """What an index says of itself.

    encoder : name and hash; vocabulary : hash of the baked vocabulary; libraries : versions at the build.
    sources : group ("corpus", "vocabulary", "principles", "phrases", "program") to one hash over its files; each file
    by itself is in sources.json.
    files : file of the index to [size in bytes, SHA-256]. skipped : model files left out, and why.
    """

    format: int
    program: str
    created: str
    encoder: Mapping[str, str]
    vocabulary: str
    libraries: Mapping[str, str]
    counts: Mapping[str, int]
    sources: Mapping[str, str]
    skipped: tuple[tuple[str, str], ...]
    files: Mapping[str, list[Any]]

    def write(self, folder: Path) -> None:
        """Write the manifest, with a hash over itself, as the last file of an index."""
        data = asdict(self)
        (folder / NAME).write_text(json.dumps({**data, "hash": _hash(data)}, indent=1), encoding="utf-8")


def read_manifest(folder: Path) -> Manifest:
    """Read and check a manifest. Raises IndexStateError if it is missing, damaged or of another format."""
    path = folder / NAME
    if not folder.is_dir():
        raise IndexStateError(f"no index at {folder}; `analog build` makes one")
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
        stated = data.pop("hash")
        if data.get("format") != FORMAT_VERSION:
            raise IndexStateError(
                f"expected an index of format {FORMAT_VERSION} at {folder}, found {data.get('format')!r}; "
                "`analog build` makes a new one"
            )
        if stated != _hash(data):
            raise ValueError("its contents do not match its hash")
        data["skipped"] = tuple((file, reason) for file, reason in data["skipped"])
        return Manifest(**{field.name: data[field.name] for field in fields(Manifest)})
    except FileNotFoundError:
        raise IndexStateError(f"no index at {folder} (no {NAME}); `analog build` makes one") from None
    except (OSError, ValueError, KeyError, TypeError, AttributeError) as fault:
        raise IndexStateError(f"the index at {folder} is damaged: {NAME}: {fault}") from fault


def describe_files(folder: Path) -> dict[str, list[Any]]:
    """Every file of a folder but the manifest: name to [size in bytes, SHA-256 in hexadecimal]."""
    paths = sorted(path for path in folder.rglob("*") if path.is_file() and path.name != NAME)
    return {path.relative_to(folder).as_posix(): [path.stat().st_size, file_hash(path)] for path in paths}


def check_files(folder: Path, manifest: Manifest, *, thorough: bool = False) -> None:
    """Compare the files of an index with its manifest: sizes, and the hashes of small files, or of all if thorough.

    Raises IndexStateError that names the first file at fault.
    """
    for name, (size, expected) in manifest.files.items():
        path = folder / name
        try:
            found = path.stat().st_size
            if found != size:
                raise IndexStateError(f"the index at {folder} is damaged: {name} has {found} bytes, expected {size}")
            if (thorough or size <= HASHED_AT_OPENING_BYTES) and file_hash(path) != expected:
                raise IndexStateError(f"the index at {folder} is damaged: the contents of {name} have changed")
        except OSError as fault:
            raise IndexStateError(f"the index at {folder} is damaged: {name}: {fault.strerror or fault}") from fault


def file_hash(path: Path) -> str:
    """SHA-256 of a file in hexadecimal."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _hash(data: Mapping[str, Any]) -> str:
    return hashlib.sha256(json.dumps(data, sort_keys=True).encode()).hexdigest()
