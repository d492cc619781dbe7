"""`analog compare`: candidates side by side."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from analog.cli import options
from analog.cli.library import library, problem_of, problem_or_file
from analog.cli.output import as_json, data, progress, width
from analog.errors import UsageError

if TYPE_CHECKING:
    from analog.explain.comparison import Comparison

ModelsArgument = Annotated[list[str], typer.Argument(metavar="MODEL...", help="Ids of two or more models.")]
ProblemOption = Annotated[
    str | None,
    typer.Option("--problem", metavar="TEXT|FILE", help="Compare them under this problem: verdicts and scores."),
]
OutputOption = Annotated[
    Path | None,
    typer.Option("-o", "--output", metavar="FILE", help="Write FILE.html, FILE.md, FILE.json or FILE.svg instead."),
]
FigureOption = Annotated[
    Path | None, typer.Option("--figure", metavar="FILE", help="Also draw the comparison, as FILE.svg.")
]
OverwriteOption = Annotated[bool, typer.Option("--overwrite", help="Replace files that exist.")]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("compare")(compare)


def compare(
    models: ModelsArgument,
    problem: ProblemOption = None,
    given: options.GivenOption = None,
    settings: options.SetOption = None,
    output: OutputOption = None,
    figure: FigureOption = None,
    overwrite: OverwriteOption = False,
    as_json_wanted: options.JsonOption = False,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Set models side by side: purposes, principles, needs and, under a problem, verdicts, scores and scale checks."""
    from analog.explain.comparison import compare as compare_models
    from analog.explain.comparison import compare_under
    from analog.files import write_text
    from analog.show import side_by_side

    if len(set(models)) < 2:
        raise UsageError(f"expected two or more different models, found {len(set(models))}")
    view = _view(output) if output is not None else None
    if figure is not None and figure.suffix.lower() != ".svg":
        raise UsageError(f"expected a figure ending in .svg, found {figure.name!r}")
    if problem is None and (given or settings or figure is not None or (output and output.suffix.lower() == ".svg")):
        raise UsageError("expected --problem with --given, --set and figures: they say what to compare the models for")
    opened = library(corpus, index)
    records = [opened.model(model) for model in dict.fromkeys(models)]
    if problem is None:
        compared = compare_models(records)
    else:
        text, file = problem_or_file(problem)
        read = problem_of(opened, text, given or [], file, settings or [])
        results = [opened.explain(record.id, read) for record in records]
        compared = compare_under(read, results, opened.searcher.principles)
    if figure is not None:
        write_text(figure, side_by_side.figure(compared).svg, replace=overwrite)
        progress(f"written: {figure}")
    if output is not None and view is not None:
        write_text(output, view(compared), replace=overwrite)
        progress(f"written: {output}")
    elif as_json_wanted:
        data(as_json(compared.to_dict()))
    else:
        data(side_by_side.text(compared, width()))


def _view(output: Path) -> Callable[[Comparison], str]:
    """The view that the ending of a file name asks for. Raises UsageError listing the endings."""
    from analog.show import side_by_side

    views: dict[str, Callable[[Comparison], str]] = {
        ".html": side_by_side.page,
        ".md": side_by_side.markdown,
        ".json": lambda compared: as_json(compared.to_dict()) + "\n",
        ".svg": lambda compared: side_by_side.figure(compared).svg,
    }
    try:
        return views[output.suffix.lower()]
    except KeyError:
        found = output.suffix or "no ending"
        raise UsageError(f"expected a file ending in {', '.join(views)}, found {found} in {output.name!r}") from None
