"""`analog search`: one problem, or many with --batch, to ranked and explained analogues."""

from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from analog.cli import options, render
from analog.cli.library import library, problem_of
from analog.cli.output import as_json, data, progress
from analog.errors import AnalogError, FormatError, UsageError
from analog.files import unique_keys

if TYPE_CHECKING:
    from analog.api import Library

MAXIMUM_LINE = 200_000


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("search")(search)


def search(
    text: Annotated[
        str | None, typer.Argument(metavar="TEXT", help="The problem in a sentence or a complaint.")
    ] = None,
    given: options.GivenOption = None,
    problem: options.ProblemFileOption = None,
    batch: Annotated[
        Path | None,
        typer.Option(
            "--batch", metavar="FILE.jsonl", help='Many problems, one JSON object a line: {"id", "text", "given": […]}.'
        ),
    ] = None,
    top: options.TopOption = 10,
    settings: options.SetOption = None,
    as_json_wanted: options.JsonOption = False,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Rank natural systems for a problem, each explained."""
    if batch is not None:
        if text is not None or problem is not None:
            raise UsageError("expected either a problem or --batch, found both")
        _batch(batch, top, given or [], library(corpus, index))
        return
    if text is None and problem is None:
        raise UsageError('expected a problem: a sentence such as "remove dust from solar panels", or --problem FILE')
    opened = library(corpus, index)
    result = opened.search(problem_of(opened, text, given or [], problem, settings or []), top=top)
    data(as_json(result.to_dict()) if as_json_wanted else render.results(result))


def _batch(path: Path, top: int, given: list[str], opened: Library) -> None:
    faults = 0
    for number, line in _lines(path):
        try:
            record = _record(line, path, number)
            conditions = [*given, *record.get("given", [])]
            result = opened.search(problem_of(opened, record["text"], conditions, None, []), top=top)
            data(as_json({"id": record["id"], **result.to_dict()}, indent=None))
        except AnalogError as error:  # one bad line must not cost the others
            faults += 1
            progress(f"analog: {path}:{number}: {error}" if str(path) not in str(error) else f"analog: {error}")
    if faults:
        raise typer.Exit(1)


def _lines(path: Path) -> Iterator[tuple[int, bytes]]:
    """The lines that are not empty, with their numbers; a file without line ends is not read into memory whole."""
    try:
        with path.open("rb") as file:
            for number in count(1):
                raw = file.readline(MAXIMUM_LINE + 1)
                if not raw:
                    return
                if len(raw) > MAXIMUM_LINE:
                    raise FormatError(
                        f"a line longer than the {MAXIMUM_LINE:,} bytes allowed", path=str(path), line=number
                    )
                if raw.strip():
                    yield number, raw
    except OSError as error:
        raise FormatError(f"cannot be read: {error.strerror or error}", path=str(path)) from None


def _record(line: bytes, path: Path, number: int) -> dict[str, Any]:
    try:
        text = line.decode("utf-8-sig" if number == 1 else "utf-8")
        record = json.loads(text, object_pairs_hook=unique_keys)
    except FormatError as error:
        raise FormatError(error.message, path=str(path), line=number) from None
    except UnicodeDecodeError:
        raise FormatError("expected UTF-8 text", path=str(path), line=number) from None
    except (ValueError, RecursionError):
        raise FormatError("expected one JSON object", path=str(path), line=number) from None
    if not isinstance(record, dict) or not isinstance(record.get("text"), str):
        raise FormatError('expected {"id": …, "text": "…", "given": […]}', path=str(path), line=number)
    conditions = record.get("given", [])
    if not isinstance(conditions, list) or not all(isinstance(item, str) for item in conditions):
        raise FormatError("expected a list of sentences", path=str(path), line=number, field="given")
    if not isinstance(record.get("id", ""), str | int):
        raise FormatError("expected a word or a number", path=str(path), line=number, field="id")
    return {"id": number, **record}
