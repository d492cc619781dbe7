"""`analog build`: the index."""

from __future__ import annotations

import typer

from analog.cli import options
from analog.cli.library import stage
from analog.cli.output import data, progress


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("build")(build)


def build(
    encoder: options.EncoderOption = None,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Build the index from the corpus.

    Unchanged texts keep their vectors; the old index stays in use until the new one is whole.
    """
    from analog.index.build import build_index
    from analog.locate import corpus_folder, index_folder

    target = index_folder(index)
    result = build_index(corpus_folder(corpus), target, encoder, progress=stage, tell=progress)
    for warning in result.warnings:
        progress(f"analog: {warning}")
    left_out = {file for file, _ in result.skipped}  # a file may have several faults, each with its line
    for file, reason in result.skipped:
        progress(f"analog: {file} is left out: {reason}")
    seconds = sum(result.seconds.values())
    data(
        f"{result.models} models in {target}: {result.encoded} texts encoded, {result.reused} taken over, "
        f"{len(left_out)} files left out, {seconds:.1f} s of which {result.encoder_share:.0%} in the encoder"
    )
    if result.skipped:
        raise typer.Exit(1)
