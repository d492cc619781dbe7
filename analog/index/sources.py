"""The files an index was made from: what they were, and whether they still are."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from analog import locate
from analog.errors import IndexStateError
from analog.index.manifest import file_hash
from analog.model.expected import expected_files

CORPUS, EXPECTED, VOCABULARY, PRINCIPLES, PHRASES, PROGRAM = (
    "corpus",
    "expected questions",
    "vocabulary",
    "principles",
    "phrases",
    "program",
)

MODEL_ENDINGS = (".yaml", ".yml")

UNREADABLE = "cannot be read"
"""Stands for the hash of a file that may not be read."""


@dataclass(frozen=True)
class Sources:
    """Where everything that goes into an index lies."""

    corpus: Path
    principles: Path
    vocabulary: Path
    phrases: Path

    @classmethod
    def of(cls, corpus: Path) -> Sources:
        """A corpus, with the records and vocabularies that come with the program."""
        return cls(corpus, locate.principles_folder(), locate.vocabulary_folder(), locate.phrases_file())

    def files(self) -> dict[str, dict[str, Path]]:
        """group → name → path, of every file that the index depends on."""
        return {
            CORPUS: dict(_walk(self.corpus, MODEL_ENDINGS)),
            EXPECTED: {str(path.relative_to(self.corpus)): path for path in expected_files(self.corpus)},
            PRINCIPLES: dict(_walk(self.principles, MODEL_ENDINGS)),
            VOCABULARY: dict(_walk(self.vocabulary, None)),
            PHRASES: {self.phrases.name: self.phrases} if self.phrases.is_file() else {},
            PROGRAM: {name: locate.PACKAGE / name for name in PROGRAM_FILES},
        }


PROGRAM_FILES = (
    "model/types.py",
    "model/facts.py",
    "encode/facets.py",
    "index/tokens.py",
    "index/lexical.py",
    "index/dense.py",
    "index/build.py",
)
"""Files of the program that decide what an index says: after a change of one, stored work is not used again."""


def describe(files: Mapping[str, Mapping[str, Path]]) -> dict[str, dict[str, list[Any]]]:
    """group → name → [size in bytes, time of change in ns, SHA-256 in hexadecimal, or UNREADABLE]."""
    described: dict[str, dict[str, list[Any]]] = {}
    for group, members in files.items():
        described[group] = {}
        for name, path in members.items():
            try:
                status = path.stat()
            except OSError:  # gone since the folder was listed: the loader will say so
                continue
            try:
                contents = file_hash(path)
            except OSError:  # one file without the right to read it must not cost all others
                contents = UNREADABLE
            described[group][name] = [status.st_size, status.st_mtime_ns, contents]
    return described


def difference(recorded: Mapping[str, Mapping[str, list[Any]]], files: Mapping[str, Mapping[str, Path]]) -> str | None:
    """The first difference between recorded and present files in words, or None.

    Size and time are compared first; a file is read only if its time alone has changed.
    """
    for group, members in files.items():
        known = recorded.get(group, {})
        for name, path in members.items():
            if name not in known:
                return f"{group} file {name} is new"
            if _changed(path, known[name]):
                return f"{group} file {name} has changed"
        gone = known.keys() - members.keys()
        if gone:
            return f"{group} file {min(gone)} is gone"
    return None


def group_hash(described: Mapping[str, list[Any]]) -> str:
    """One hash over names and contents of a group of files; their times do not count."""
    lines = (f"{name} {entry[2]}\n" for name, entry in sorted(described.items()))
    return hashlib.sha256("".join(lines).encode("utf-8", "surrogateescape")).hexdigest()


def _changed(path: Path, known: list[Any]) -> bool:
    try:
        size, time, expected = known
        status = path.stat()
        if status.st_size != size:
            return True
        return bool(status.st_mtime_ns != time and file_hash(path) != expected)
    except OSError:
        return True
    except (TypeError, ValueError) as fault:
        raise IndexStateError(f"the index does not say properly what it was made from: {known!r}") from fault


def _walk(folder: Path, endings: tuple[str, ...] | None) -> Iterator[tuple[str, Path]]:
    """Files under a folder in order of name, without compiled and hidden ones.

    Links to folders are not followed. Pipes, devices and links to nothing are no files: one could be read for ever.
    """
    for place, folders, names in os.walk(folder):
        folders[:] = sorted(name for name in folders if name != "__pycache__" and not name.startswith("."))
        for name in sorted(names):
            if not name.startswith(".") and (endings is None or name.endswith(endings)):
                path = Path(place) / name
                if path.is_file():
                    yield path.relative_to(folder).as_posix(), path
