"""`analog link`: how alike two terms are, and by which steps."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from analog.cli import options
from analog.cli.library import library
from analog.cli.output import as_json, data
from analog.errors import InputError

if TYPE_CHECKING:
    from analog.vocabulary.expand import Link

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
    for term in (first, second):
        if not any(letter.isalnum() for letter in term):
            raise InputError(f"Expected two terms, such as “foreign body” and “dust”; got {term[:40]!r}")
    found = library(corpus, index).link(first, second)
    if as_json_wanted:
        data(as_json({"similarity": found.similarity, "path": [step.to_dict() for step in found.path]}))
    else:
        data(text(first, second, found))


def text(first: str, second: str, found: Link) -> str:
    """The link for a reader, a step a line."""
    if not found.path:
        return f"{first} and {second}: nothing links them" if first != second else f"{first}: the same term"
    lines = [f"{first} and {second}: {found.similarity:.2f}"]
    return "\n".join([*lines, *(f"  {s.start} -> {s.end}  ({s.relation}, {s.source})" for s in found.path)])
