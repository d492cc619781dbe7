"""`analog brief`: a transfer brief in a file; the ending of its name picks the format."""

from __future__ import annotations

import shlex
import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from analog.cli import options
from analog.cli.library import library, problem_of, problem_or_file
from analog.cli.output import data, progress
from analog.errors import UsageError


class Paper(StrEnum):
    """Sheets a brief can be set for."""

    A4 = "a4"
    LETTER = "letter"


ModelsArgument = Annotated[
    list[str] | None,
    typer.Argument(metavar="[MODEL]...", help="Ids of the chosen models, best first. Without any, the best result."),
]
ProblemOption = Annotated[
    str | None, typer.Option("--problem", metavar="TEXT|FILE", help="The problem: a sentence or a problem file.")
]
OutputOption = Annotated[
    Path | None,
    typer.Option(
        "-o", "--output", metavar="FILE", help="Where to write: FILE.md, FILE.html, FILE.pdf, FILE.docx or FILE.json."
    ),
]
PortfolioOption = Annotated[
    bool, typer.Option("--portfolio", help="Take the smallest set of analogues that covers every change asked for.")
]
PaperOption = Annotated[Paper, typer.Option("--paper", help="Sheet of a PDF or DOCX.")]
OverwriteOption = Annotated[bool, typer.Option("--overwrite", help="Replace the file if it exists.")]
SchemaOption = Annotated[
    bool, typer.Option("--schema", help="Print the JSON Schema of a brief (docs/brief.schema.json is this output).")
]
BestOption = Annotated[
    int, typer.Option("--top", metavar="N", min=1, max=20, help="How many results to take where no model is named.")
]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("brief")(brief)


def brief(
    models: ModelsArgument = None,
    problem: ProblemOption = None,
    output: OutputOption = None,
    given: options.GivenOption = None,
    settings: options.SetOption = None,
    portfolio: PortfolioOption = False,
    top: BestOption = 1,
    paper: PaperOption = Paper.A4,
    overwrite: OverwriteOption = False,
    schema: SchemaOption = False,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Write a transfer brief: the recommendation, verdicts, what to add, scale, limits, experiments, cautions."""
    from analog.brief.views import brief_schema, view_for

    if schema:
        data(brief_schema())
        return
    if problem is None or output is None:
        missing = "--problem TEXT|FILE" if problem is None else "-o FILE"
        raise UsageError(f"expected {missing}; `analog brief --help` lists the options")
    if portfolio and models:
        raise UsageError("expected either models or --portfolio, found both")
    from analog.files import check_target, write_bytes

    view = view_for(output)
    check_target(output, replace=overwrite)
    opened = library(corpus, index)
    text, file = problem_or_file(problem)
    read = problem_of(opened, text, given or [], file, settings or [])
    command = shlex.join(["analog", *sys.argv[1:]])
    draft = opened.draft_brief(read, models or [], portfolio=portfolio, top=top, command=command)
    made = view.make(draft.content, draft.figures() if view.pictures else {}, paper.value)
    write_bytes(output, made.encode("utf-8") if isinstance(made, str) else made, replace=overwrite)
    if not draft.content.summary.good:
        progress("analog: no good analogue was found; the brief says so")
    progress(f"written: {output}")
