"""`analog show`: one model, for a reader, as a picture, as a graph or as data."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from analog.cli import options
from analog.cli.explain import ModelArgument
from analog.cli.library import library
from analog.cli.output import as_json, data, progress, width
from analog.errors import UsageError

if TYPE_CHECKING:
    from analog.api import Library
    from analog.model.types import Model


class Format(StrEnum):
    """What a model can be shown as."""

    TEXT = "text"
    HTML = "html"
    SVG = "svg"
    GRAPHML = "graphml"
    JSON = "json"


ENDINGS = {
    ".txt": Format.TEXT,
    ".html": Format.HTML,
    ".svg": Format.SVG,
    ".graphml": Format.GRAPHML,
    ".json": Format.JSON,
}

MARKUP = (Format.HTML, Format.SVG, Format.GRAPHML)

FormatOption = Annotated[
    Format | None,
    typer.Option("--format", help="text, html (one page), svg (its parts as a graph), graphml or json. Default: text."),
]
OutputOption = Annotated[
    Path | None,
    typer.Option("-o", "--output", metavar="FILE", help="File to write; without --format its ending picks the format."),
]
OverwriteOption = Annotated[bool, typer.Option("--overwrite", help="Replace the file if it exists.")]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("show")(show)


def show(
    model: ModelArgument,
    shape: FormatOption = None,
    output: OutputOption = None,
    overwrite: OverwriteOption = False,
    as_json_wanted: options.JsonOption = False,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Show a model: purposes, parts, states, transitions with reasons and needs, limits, sources."""
    from analog.files import write_text

    chosen = _format(shape, output, as_json_wanted)
    opened = library(corpus, index)
    shown = _shown(opened, opened.model(model), chosen, to_file=output is not None)
    if output is None:
        data(_for_stream(shown) if chosen in MARKUP else shown)
        return
    write_text(output, shown if shown.endswith("\n") else shown + "\n", replace=overwrite)
    progress(f"written: {output}")


def _for_stream(markup: str) -> str:
    """Markup for standard output: what its encoding lacks as references, which every reader of markup understands."""
    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    return markup.encode(encoding, "xmlcharrefreplace").decode(encoding)


def _format(shape: Format | None, output: Path | None, as_json_wanted: bool) -> Format:
    if as_json_wanted:
        if shape not in {None, Format.JSON}:
            raise UsageError(f"expected one format, found --json and --format {shape}")
        return Format.JSON
    if shape is not None:
        return shape
    if output is None:
        return Format.TEXT
    try:
        return ENDINGS[output.suffix.lower()]
    except KeyError:
        found = output.suffix or "no ending"
        raise UsageError(
            f"expected a file ending in {', '.join(ENDINGS)}, found {found} in {output.name!r}; or say --format"
        ) from None


def _shown(opened: Library, model: Model, chosen: Format, *, to_file: bool) -> str:
    if chosen is Format.JSON:
        return as_json(model.model_dump(mode="json", by_alias=True))
    if chosen is Format.GRAPHML:
        from analog.show.graphml import graphml

        return graphml(model)
    if chosen is Format.SVG:
        from analog.figures.model_graph import model_graph

        return model_graph(model).svg
    from analog.show.account import account

    told = account(model, opened.searcher.principles)
    if chosen is Format.HTML:
        from analog.show.pages import model_page

        return model_page(model, told)
    from analog.show.text import text

    return text(told, 80 if to_file else width())
