"""`analog explain`: one model under one problem."""

from __future__ import annotations

from typing import Annotated

import typer

from analog.cli import options, render
from analog.cli.library import library, problem_of, problem_or_file
from analog.cli.output import as_json, data

ModelArgument = Annotated[str, typer.Argument(metavar="MODEL", help="Id of a model, such as search prints it.")]
ProblemOption = Annotated[
    str, typer.Option("--problem", metavar="TEXT|FILE", help="The problem: a sentence or a problem file.")
]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("explain")(explain)


def explain(
    model: ModelArgument,
    problem: ProblemOption,
    given: options.GivenOption = None,
    settings: options.SetOption = None,
    as_json_wanted: options.JsonOption = False,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Explain one model under a problem: correspondences, verdict by transition, what would have to be added."""
    opened = library(corpus, index)
    opened.model(model)
    text, file = problem_or_file(problem)
    read = problem_of(opened, text, given or [], file, settings or [])
    result = opened.explain(model, read)
    data(as_json(result.to_dict()) if as_json_wanted else render.explanation(read, result))
