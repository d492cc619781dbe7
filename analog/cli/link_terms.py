"""`analog link`: how two terms connect."""

from __future__ import annotations

from typing import Annotated

import typer

from analog.cli import options
from analog.cli.library import library
from analog.cli.link import link as link_text
from analog.cli.output import data

FirstTerm = Annotated[str, typer.Argument(metavar="TERM", help="A word or phrase: foreign body, ship hull.")]
SecondTerm = Annotated[str, typer.Argument(metavar="TERM", help="Another.")]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("link")(link)


def link(
    first: FirstTerm,
    second: SecondTerm,
    as_json_wanted: options.JsonOption = False,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Show how two terms connect in the thesaurus: similarity and path."""
    vocabulary = library(corpus, index).vocabulary
    data(link_text(first, second, as_json_wanted, vocabulary))
