"""`analog scale`: whether a principle holds for given values."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from analog.cli import options
from analog.cli.output import as_json, data, progress, wrapped

if TYPE_CHECKING:
    from analog.scale.regime import RegimeCheck

FORMATS = (".svg", ".png")

PrincipleArgument = Annotated[str, typer.Argument(metavar="PRINCIPLE", help="Id of a principle record.")]
WithOption = Annotated[
    list[str] | None,
    typer.Option("--with", metavar='"NAME=VALUE UNIT"', help='A value or range: "drop diameter=2 mm". Repeatable.'),
]
AtOption = Annotated[
    list[str] | None,
    typer.Option(
        "--at",
        metavar='"NAME=VALUE UNIT"',
        help='Surroundings for water and air: "temperature=-30 degC", "altitude=2000 m", "medium=water". Repeatable.',
    ),
]
ModelOption = Annotated[
    str | None, typer.Option("--model", metavar="MODEL", help="A model whose own values are checked beside.")
]
PlotOption = Annotated[
    Path | None, typer.Option("--plot", metavar="FILE", help="Also draw the check, as FILE.svg or FILE.png.")
]
OverwriteOption = Annotated[bool, typer.Option("--overwrite", help="Replace the file of --plot if it exists.")]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("scale")(scale)


def scale(
    principle: PrincipleArgument,
    given: WithOption = None,
    at: AtOption = None,
    model: ModelOption = None,
    corpus: options.CorpusOption = None,
    plot: PlotOption = None,
    overwrite: OverwriteOption = False,
    as_json_wanted: options.JsonOption = False,
) -> None:
    """Put values to a principle: its equation, its dimensionless groups, and whether they stay within their bounds."""
    from analog.scale.evaluate import evaluate, evaluate_model
    from analog.scale.report import assigned, lines

    check = evaluate(principle, assigned([*(given or ()), *(at or ())]))
    natural = None
    if model is not None:
        from analog.locate import corpus_folder
        from analog.scale.evaluate import find_model

        natural = evaluate_model(principle, find_model(model, corpus_folder(corpus)))
    if plot is not None:
        told = _drawn({"given": check} | ({model: natural} if model and natural else {}), plot, overwrite)
        progress(f"Drawn in {plot}: {told}")
    if as_json_wanted:
        record = check.to_dict()
        if natural is not None:
            record["model"] = {"id": model, **natural.to_dict()}
        data(as_json(record))
        return
    for indent, first, text in lines(check):
        data(wrapped(text, indent, first))
    if natural is not None:
        data("")
        data(f"In the model {model}:")
        for indent, first, text in lines(natural, brief=True):
            data(wrapped(text, indent, first))


def _drawn(checks: Mapping[str, RegimeCheck], path: Path, overwrite: bool) -> str:
    """Write the figure of the checks; what it shows, in sentences."""
    from analog.errors import UsageError
    from analog.figures.regime import regime
    from analog.files import check_target, write_bytes

    ending = path.suffix.lower()
    if ending not in FORMATS:
        raise UsageError(f"expected a figure ending in {' or '.join(FORMATS)}, found {path.name!r}")
    check_target(path, replace=overwrite)
    figure = regime(checks)
    write_bytes(path, figure.png if ending == ".png" else figure.svg.encode(), replace=overwrite)
    return figure.description
