"""A new index takes the place of the old one in one step, so that an interrupted build leaves the old one usable."""

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from analog.errors import IndexStateError
from analog.index.manifest import NAME

FULL = {getattr(errno, name) for name in ("ENOSPC", "EDQUOT") if hasattr(errno, name)}
"""Numbers of the errors that mean: no room left on the disk, or none for this user."""


@contextmanager
def replacing(index: Path) -> Iterator[Path]:
    """Give a fresh folder beside `index`; on leaving without an error it becomes the index.

    The caller holds the build lock. After an error the fresh folder is removed and the old index stays.
    Raises IndexStateError if `index` is a folder of other things, if the disk is full, or if it cannot be written.
    """
    recover(index)
    refuse_foreign(index)
    fresh = index.with_name(f"{index.name}.new-{os.getpid()}")
    try:
        fresh.mkdir(parents=True)
        yield fresh
        _move_in(fresh, index)
    except OSError as fault:
        reason = "the disk is full" if fault.errno in FULL else (fault.strerror or str(fault))
        raise IndexStateError(f"the index at {index} cannot be written: {reason}; the old one is unchanged") from fault
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def recover(index: Path) -> None:
    """Undo what a killed build left: put an index moved aside back if none took its place, remove the rest."""
    parent, prefix = index.parent, index.name
    if not parent.is_dir():
        return
    aside = sorted(path for path in parent.glob(f"{prefix}.old-*") if (path / NAME).is_file())
    if aside and not index.exists():
        aside.pop().rename(index)
    for path in (*parent.glob(f"{prefix}.old-*"), *parent.glob(f"{prefix}.new-*")):
        shutil.rmtree(path, ignore_errors=True)


def refuse_foreign(index: Path) -> None:
    """Raise IndexStateError if the folder holds something that is not an index: it would be lost."""
    if index.is_dir() and any(index.iterdir()) and not (index / NAME).is_file():
        raise IndexStateError(
            f"expected an index or an empty folder at {index}, found other files; name another folder"
        )


def _move_in(fresh: Path, index: Path) -> None:
    """Rename the old one aside and the new one in. Between the two there is no index for less than a millisecond."""
    aside = index.with_name(f"{index.name}.old-{os.getpid()}")
    if index.exists():
        index.rename(aside)
    try:
        fresh.rename(index)
    except OSError:
        if aside.exists():
            aside.rename(index)
        raise
    shutil.rmtree(aside, ignore_errors=True)
