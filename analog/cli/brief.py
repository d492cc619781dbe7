"""`analog brief`: a transfer brief in a file; the ending of its name picks the format."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from analog.cli import options
from analog.cli.library import library, problem_of, problem_or_file
from analog.cli.output import progress

ModelsArgument = Annotated[list[str], typer.Argument(metavar="MODEL...", help="Ids of the chosen models, best first.")]
ProblemOption = Annotated[
    str, typer.Option("--problem", metavar="TEXT|FILE", help="The problem: a sentence or a problem file.")
]
OutputOption = Annotated[
    Path, typer.Option("-o", "--output", metavar="FILE", help="Where to write: FILE.md, FILE.html or FILE.json.")
]
OverwriteOption = Annotated[bool, typer.Option("--overwrite", help="Replace the file if it exists.")]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("brief")(brief)


def brief(
    models: ModelsArgument,
    problem: ProblemOption,
    output: OutputOption,
    given: options.GivenOption = None,
    settings: options.SetOption = None,
    overwrite: OverwriteOption = False,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Write a transfer brief for chosen models: correspondences, verdicts, what to add, limits, sources, cautions."""
    from analog.brief.views import view_for
    from analog.files import write_text

    view = view_for(output)
    opened = library(corpus, index)
    for model in models:
        opened.model(model)
    text, file = problem_or_file(problem)
    read = problem_of(opened, text, given or [], file, settings or [])
    write_text(output, view(opened.brief(read, models)), replace=overwrite)
    progress(f"written: {output}")
