"""Writing files so that nothing is lost: beside first, then moved into place. Reading JSON that says nothing twice."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path
from typing import Any

from analog.errors import FormatError, UsageError


def write_text(path: Path, text: str, *, replace: bool = False) -> None:
    """Write a whole text file in UTF-8, or leave everything as it was; see `write_bytes`."""
    write_bytes(path, text.encode("utf-8"), replace=replace)


def check_target(path: Path, *, replace: bool = False) -> None:
    """Raise UsageError where nothing can be written: a folder, a missing folder, a file that must not be replaced."""
    if path.is_dir():
        raise UsageError(f"expected a file name, found the folder {path}")
    if path.exists() and not replace:
        raise UsageError(f"{path} exists; name another file, or say --overwrite")
    if not path.parent.is_dir():
        raise UsageError(f"expected the folder {path.parent} to exist")


def write_bytes(path: Path, content: bytes, *, replace: bool = False) -> None:
    """Write a whole file, or leave everything as it was.

    Raises UsageError if the file exists and replace is False, or its folder does not exist; OSError if writing fails.
    """
    check_target(path, replace=replace)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        beside.chmod(_mode(path))
        if replace:
            beside.replace(path)
        else:
            path.hardlink_to(beside)  # fails rather than overwrites if the file has appeared meanwhile
    except FileExistsError:
        raise UsageError(f"{path} exists; name another file, or say --overwrite") from None
    finally:
        beside.unlink(missing_ok=True)


def unique_keys(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """An object of a JSON text, for `object_pairs_hook`: the standard library keeps the last of equal keys in silence.

    Raises FormatError, without a path, for a key that stands twice. RFC 8259, section 4, asks for unique names.
    """
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise FormatError(f"expected every key once, found {key[:80]!r} again in one object")
        found[key] = value
    return found


def _mode(path: Path) -> int:
    """The mode a newly opened file would get: a temporary file is private, the result need not be."""
    if path.exists():
        return path.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
