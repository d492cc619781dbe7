"""`analog align`: two plain relation lists."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from analog.cli import options
from analog.cli.output import as_json, data, wrapped

BaseArgument = Annotated[
    Path, typer.Argument(metavar="A.json", help='The base: {"facts": ["attracts(sun, planet)", …]}.')
]
TargetArgument = Annotated[Path, typer.Argument(metavar="B.json", help="The target, in the same form.")]
LimitOption = Annotated[float, typer.Option("--time-limit", min=0.01, max=3600, help="Seconds for the exact solver.")]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("align")(align)


def align(
    base: BaseArgument,
    target: TargetArgument,
    as_json_wanted: options.JsonOption = False,
    time_limit: LimitOption = 10.0,
) -> None:
    """Align two systems of relations: what corresponds to what, and what could be inferred."""
    from analog.align.report import align_files

    report = align_files(base, target, time_limit)
    if as_json_wanted:
        data(as_json(report.to_dict()))
        return
    proof = "proven best" if report.optimal else f"not proven, gap {report.gap:.1%}"
    data(f"Worth {report.value:.3f} ({proof})")
    for pair in report.things:
        data(wrapped(f"{pair.base} -> {pair.target}", "      ", "  "))
    for heading, lines in (("Relations matched", report.relations), ("Could be inferred", report.inferences)):
        if lines:
            data(f"{heading}:")
            for line in lines:
                data(wrapped(str(line), "      ", "  "))
