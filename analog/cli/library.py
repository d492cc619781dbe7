"""Opening the corpus and the index for a command."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from analog.cli.output import progress
from analog.errors import UsageError

if TYPE_CHECKING:
    from analog.problem.types import Problem
    from analog.search import Searcher


def open_searcher(corpus: Path | None, index: Path | None) -> Searcher:
    """A searcher over the index, which is built or rebuilt first where needed (with progress on standard error)."""
    from analog.index.build import ensure_index
    from analog.locate import corpus_folder, index_folder
    from analog.search import Searcher

    return Searcher(ensure_index(corpus_folder(corpus), index_folder(index), progress=stage, tell=progress))


def stage(name: str, done: int, total: int) -> None:
    """A stage of the build, for standard error."""
    progress(f"  {name}: {done} of {total}")


def problem_of(
    searcher: Searcher, text: str | None, given: Sequence[str], file: Path | None, settings: Iterable[str]
) -> Problem:
    """The problem of a command: a sentence, a file, or both; the file and the settings overrule the reading."""
    from analog.problem.file import load_problem
    from analog.problem.overrule import overrule
    from analog.problem.read import read_problem
    if text is None and file is None:
        raise UsageError('expected a problem: a sentence such as "remove dust from solar panels", or --problem FILE')
    vocabulary, phrases = searcher.vocabulary, searcher.phrases
    if file is not None:
        problem = load_problem(file, text=text, given=given, vocabulary=vocabulary, phrases=phrases)
    else:
        problem = read_problem(text or "", given=given, vocabulary=vocabulary, phrases=phrases)
    changes = {}
    for setting in settings:
        name, equals, value = setting.partition("=")
        if not equals:
            raise UsageError(f"expected FIELD=VALUE after --set, found {setting!r}")
        changes[name.strip()] = value.strip()
    return overrule(problem, vocabulary, **changes) if changes else problem


def problem_or_file(value: str) -> tuple[str | None, Path | None]:
    """--problem TEXT|FILE: a file if one of that name is there or it looks like one, else a sentence."""
    looks_like_file = value.endswith((".yaml", ".yml", ".json")) and " " not in value.strip()
    try:
        is_file = Path(value).is_file()
    except (OSError, ValueError):  # a sentence may be too long for a file name, or hold a zero byte
        is_file = False
    return (None, Path(value)) if is_file or looks_like_file else (value, None)
