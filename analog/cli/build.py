"""`analog build`: the index."""

from __future__ import annotations

from typing import Annotated

import typer

from analog.cli import options
from analog.cli.output import data, progress


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("build")(build)


def build(
    encoder: options.EncoderOption = None,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
    force: Annotated[bool, typer.Option("--force", help="Encode every text again, even unchanged ones.")] = False,
) -> None:
    """Build the index from the corpus. Unchanged texts keep their vectors; the old index stays until the new one is whole."""
    from analog.index.build import build_index
    from analog.locate import corpus_folder, index_folder

    report = build_index(
        corpus_folder(corpus), index_folder(index), encoder_name=encoder, progress=progress, force=force
    )
    for finding in report.findings:
        progress(str(finding))
    data(report.summary())
    if report.findings:
        raise typer.Exit(1)
