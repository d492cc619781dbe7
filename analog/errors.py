"""Every error the program raises on purpose, drawn once.

AnalogError                     something the caller can mend; the command line prints it without a traceback
├── InputError                  a file or a sentence has faults (exit status 1)
│   ├── FormatError             a file is not what its format promises: file, line, field, found, expected
│   ├── ReadingError            a problem cannot be read: no purpose, too long, empty
│   └── UnknownTermError        a name that is in no vocabulary; lists what is allowed or near
├── UsageError                  the call itself is wrong (exit status 2)
└── IndexStateError             the index is missing, stale, corrupt or being written by another process
"""

from __future__ import annotations

import re
import unicodedata

LONGEST_SHOWN = 80
"""Characters of a foreign text that a message repeats."""


NOT_ASCII = re.compile(r"[^\n\t\x20-\x7e]")
"""Characters worth a look before they are shown."""


def printable(text: str) -> str:
    """Text without control and formatting characters, which a file could use to steer a terminal or a page.

    A space of another width becomes a space; whatever else cannot be printed is told by a sign.
    """
    return NOT_ASCII.sub(_shown, text)


def _shown(match: re.Match[str]) -> str:
    character = match[0]
    if character.isprintable():
        return character
    return " " if unicodedata.category(character) == "Zs" else "\N{REPLACEMENT CHARACTER}"


class AnalogError(Exception):
    """Base of all deliberate errors; its text is written for the person who can mend it."""

    exit_status = 1


class InputError(AnalogError):
    """The input has faults."""


class FormatError(InputError):
    """A file is not what its format promises.

    path : file name as given; line : 1-based or None; field : dotted path into the record or "".
    """

    def __init__(self, message: str, *, path: str = "", line: int | None = None, field: str = "") -> None:
        self.message, self.path, self.line, self.field = message, path, line, field
        place = path + (f":{line}" if line is not None else "")
        where = " - at ".join(part for part in (place, f"`{field}`" if field else "") if part)
        super().__init__(f"{where}: {message}" if where else message)


class ReadingError(InputError):
    """A problem cannot be read."""


class UnknownTermError(InputError):
    """A name is in no vocabulary."""

    def __init__(self, kind: str, name: str, near: list[str] | None = None) -> None:
        self.kind, self.name, self.near = kind, name, near or []
        hint = f"; nearest: {', '.join(self.near)}" if self.near else ""
        shown = name if len(name) <= LONGEST_SHOWN else name[:LONGEST_SHOWN] + "…"
        super().__init__(f"Unknown {kind} {shown!r}{hint}")


class UsageError(AnalogError):
    """The call itself is wrong."""

    exit_status = 2


class IndexStateError(AnalogError):
    """The index is missing, stale, corrupt or being written by another process."""
