"""Opening the corpus and the index for a command, and reading its problem."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from analog.cli.output import progress
from analog.errors import UsageError

if TYPE_CHECKING:
    from analog.api import Library
    from analog.problem.types import Problem


def library(corpus: Path | None, index: Path | None) -> Library:
    """The corpus and its index, built or rebuilt first where needed (with progress on standard error)."""
    from analog.api import open_library

    return open_library(corpus, index, progress=stage, tell=progress)


def stage(name: str, done: int, total: int) -> None:
    """A stage of the build, for standard error."""
    progress(f"  {name}: {done} of {total}")


def problem_of(
    opened: Library, text: str | None, given: Sequence[str], file: Path | None, settings: Iterable[str]
) -> Problem:
    """The problem of a command, from a sentence, a file, or both; file and settings overrule the reading."""
    if text is None and file is None:
        raise UsageError('expected a problem: a sentence such as "remove dust from solar panels", or --problem FILE')
    problem = opened.read_file(file, given, text) if file is not None else opened.read(text or "", given)
    changes = {}
    for setting in settings:
        name, equals, value = setting.partition("=")
        if not equals:
            raise UsageError(f"expected FIELD=VALUE after --set, found {setting!r}")
        changes[name.strip()] = value.strip()
    if not changes:
        return problem
    from analog.problem.file import overrule

    return overrule(problem, changes, opened.vocabulary)


def problem_or_file(value: str) -> tuple[str | None, Path | None]:
    """--problem TEXT|FILE: a file if one of that name is there or it looks like one, else a sentence."""
    looks_like_file = value.endswith((".yaml", ".yml", ".json")) and " " not in value.strip()
    try:
        is_file = Path(value).is_file()
    except (OSError, ValueError):  # a sentence may be too long for a file name, or hold a zero byte
        is_file = False
    return (None, Path(value)) if is_file or looks_like_file else (value, None)
