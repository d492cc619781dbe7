"""Program output shown in the docs: found, compared, and written anew.

A block is a fenced text block under a comment `<!-- output: analog … -->`; the command is run at 80 columns.
`python -m tests.docs_output README.md` writes the blocks of a file anew.
"""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

BLOCK = re.compile(r"(<!-- output: (?P<command>[^\n]+) -->\n```text\n)(?P<text>.*?)(```\n)", re.DOTALL)
_VARYING = re.compile(r"in \d+ ms")


def output_of(command: str) -> str:
    """What a command prints at 80 columns; the time it took is left out."""
    words = shlex.split(command)
    assert words[0] == "analog"
    ran = subprocess.run(
        [sys.executable, "-m", "analog", *words[1:]],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "COLUMNS": "80"},
    )
    return _VARYING.sub("in … ms", ran.stdout)


def blocks(text: str) -> list[tuple[str, str]]:
    """(command, shown text) of every block."""
    return [(match["command"], match["text"]) for match in BLOCK.finditer(text)]


def renewed(text: str) -> str:
    """The text with every block as the program prints it now."""
    return BLOCK.sub(lambda match: match[1] + output_of(match["command"]) + match[4], text)


if __name__ == "__main__":
    for name in sys.argv[1:]:
        path = Path(name)
        path.write_text(renewed(path.read_text(encoding="utf-8")), encoding="utf-8")
