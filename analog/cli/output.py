"""Writing to people and programs: width, encodings and closed pipes."""

from __future__ import annotations

import contextlib
import io
import json
import os
import shutil
import sys
import textwrap
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from analog.errors import NOT_ASCII, printable

NARROWEST, WIDEST = 40, 100


def width() -> int:
    """Columns to write in: those of the terminal, within reason; 80 where there is none."""
    return max(NARROWEST, min(WIDEST, shutil.get_terminal_size((80, 24)).columns))


class ReaderGone(Exception):  # noqa: N818 - an event, not a fault
    """Whoever read standard output has closed it."""


def tolerate_streams() -> None:
    """A locale that cannot show a character gets an escape instead of an error; a closed stream swallows."""
    if sys.stdout is None:  # closed by the caller ("analog … >&-")
        sys.stdout = Path(os.devnull).open("w", encoding="utf-8")  # noqa: SIM115 - stays open to the end
    if sys.stderr is None:
        sys.stderr = Path(os.devnull).open("w", encoding="utf-8")  # noqa: SIM115
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def data(text: str) -> None:
    """Data for standard output. Raises ReaderGone if nobody reads it any more."""
    try:
        sys.stdout.write(printable(text if text.endswith("\n") else text + "\n"))
    except BrokenPipeError:
        raise ReaderGone from None


def as_json(record: Any, *, indent: int | None = 2) -> str:
    """JSON text; numbers that JSON has no word for are refused rather than written.

    Characters that steer a terminal, and those that standard output cannot encode, are written as JSON escapes.
    """
    unicode = (getattr(sys.stdout, "encoding", None) or "utf-8").lower().replace("_", "-").startswith("utf")
    text = json.dumps(record, ensure_ascii=not unicode, indent=indent, allow_nan=False)
    return NOT_ASCII.sub(lambda match: match[0] if match[0].isprintable() else json.dumps(match[0])[1:-1], text)


def progress(text: str) -> None:
    """A line about what is going on, for standard error."""
    with contextlib.suppress(OSError):
        sys.stderr.write(printable(text) + "\n")
        sys.stderr.flush()


def close_quietly() -> None:
    """Standard output takes no more (a closed pipe, a full disk): no word of it at the shutdown of the interpreter."""
    with contextlib.suppress(OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def wrapped(text: str, indent: str = "", first: str | None = None) -> str:
    """A paragraph at the width in use; `first` starts the first line instead of `indent`."""
    clean = " ".join(printable(text).split())
    lead = indent if first is None else first
    return (
        textwrap.fill(
            clean, width(), initial_indent=lead, subsequent_indent=indent, break_long_words=True, break_on_hyphens=False
        )
        or lead.rstrip()
    )


def table(header: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """A plain table, columns parted by two blanks; the first column is left-aligned, the others right-aligned."""
    lines = [list(header), *(list(row) for row in rows)]
    widths = [max(len(line[i]) for line in lines) for i in range(len(lines[0]))]

    def laid(line: list[str]) -> str:
        cells = [
            cell.ljust(w) if i == 0 else cell.rjust(w) for i, (cell, w) in enumerate(zip(line, widths, strict=True))
        ]
        return "  ".join(cells).rstrip()

    rule = "  ".join("-" * w for w in widths)
    return "\n".join([laid(lines[0]), rule, *(laid(line) for line in lines[1:])])
