"""`analog compare`: candidates side by side."""

from __future__ import annotations

from typing import Annotated

import typer

from analog.cli import options
from analog.cli.library import library, problem_of, problem_or_file
from analog.cli.output import as_json, data, table, wrapped
from analog.errors import UsageError

ModelsArgument = Annotated[list[str], typer.Argument(metavar="MODEL...", help="Ids of two or more models.")]
ProblemOption = Annotated[
    str | None,
    typer.Option("--problem", metavar="TEXT|FILE", help="Compare them under this problem: verdicts and scores."),
]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("compare")(compare)


def compare(
    models: ModelsArgument,
    problem: ProblemOption = None,
    given: options.GivenOption = None,
    settings: options.SetOption = None,
    as_json_wanted: options.JsonOption = False,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Set models side by side: purposes, principles, needs and, under a problem, verdicts and scores."""
    from analog.explain.comparison import compare as compare_models
    from analog.explain.comparison import compare_under

    if len(set(models)) < 2:
        raise UsageError(f"expected two or more different models, found {len(set(models))}")
    opened = library(corpus, index)
    records = [opened.model(model) for model in dict.fromkeys(models)]
    compared = compare_models(records)
    if problem is not None:
        text, file = problem_or_file(problem)
        read = problem_of(opened, text, given or [], file, settings or [])
        results = [opened.explain(record.id, read) for record in records]
        compared = compare_under(read, results, opened.searcher.principles)
    rows = [(criterion.name, criterion.values) for criterion in compared.criteria]
    ids = [record.id for record in records]
    if as_json_wanted:
        data(as_json(compared.to_dict()))
        return
    numeric = [(name, values) for name, values in rows if all(len(value) <= 16 for value in values)]
    wordy = [(name, values) for name, values in rows if (name, values) not in numeric]
    for name, values in wordy:
        data(name)
        for identifier, value in zip(ids, values, strict=True):
            data(wrapped(f"{identifier}: {value}", "      ", "  "))
    data("")
    data(
        table(["", *(str(number) for number in range(1, len(ids) + 1))], [[name, *values] for name, values in numeric])
    )
    data("; ".join(f"{number} = {identifier}" for number, identifier in enumerate(ids, start=1)))
