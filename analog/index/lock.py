"""One build at a time."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from analog.errors import IndexStateError

Tell = Callable[[str], None]

PAUSE_SECONDS = 0.1


@contextmanager
def build_lock(index: Path, timeout_seconds: float = 600.0, tell: Tell | None = None) -> Iterator[None]:
    """Hold the right to write an index; wait for another process that has it.

    The operating system keeps the lock and gives it back when a process ends, however it ends, so a lock left by a
    dead process does not exist. The file beside the index says who holds it.
    tell : receives one sentence when waiting begins.
    Raises IndexStateError after `timeout_seconds`, or if the lock file cannot be written.
    """
    path = index.with_name(index.name + ".lock")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        file = path.open("a+", encoding="utf-8")
    except OSError as fault:
        raise IndexStateError(f"the index cannot be written: {path}: {fault.strerror or fault}") from fault
    with file:
        _acquire(file, index, timeout_seconds, tell)
        try:
            _sign(file)
            yield
        finally:
            _unlock(file)


def _acquire(file: IO[str], index: Path, timeout_seconds: float, tell: Tell | None) -> None:
    end, told = time.monotonic() + timeout_seconds, False
    while not _try_lock(file):
        if time.monotonic() >= end:
            raise IndexStateError(
                f"the index {index} is being written by another process ({_holder(file)}); "
                f"waited {timeout_seconds:.0f} s. Try again when it has ended"
            )
        if not told and tell is not None:
            tell(f"waiting for another build of {index} ({_holder(file)})")
            told = True
        time.sleep(PAUSE_SECONDS)


def _sign(file: IO[str]) -> None:
    file.seek(0)
    file.truncate()
    file.write(f"process {os.getpid()}")
    file.flush()


def _holder(file: IO[str]) -> str:
    try:
        file.seek(0)
        return file.read(40) or "process unknown"
    except OSError:  # Windows keeps others from reading a locked file
        return "process unknown"


if os.name == "nt":
    import msvcrt

    def _try_lock(file: IO[str]) -> bool:
        try:
            file.seek(0)
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined]
        except OSError:
            return False
        return True

    def _unlock(file: IO[str]) -> None:
        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_UNLCK, 1)  # type: ignore[attr-defined]
else:
    import fcntl

    def _try_lock(file: IO[str]) -> bool:
        try:
            fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True

    def _unlock(file: IO[str]) -> None:
        fcntl.flock(file.fileno(), fcntl.LOCK_UN)
