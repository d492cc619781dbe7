"""`analog schema`: the JSON Schema of the model format."""

from __future__ import annotations

import typer

from analog.cli.output import data


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("schema")(schema)


def schema() -> None:
    """Print the JSON Schema of a model file (docs/model.schema.json is this output)."""
    from analog.model.schema import model_schema

    data(model_schema())
