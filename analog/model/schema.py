"""The published JSON Schema of the model format, written from the records themselves."""

from __future__ import annotations

import json

from analog.model.types import FORMAT_VERSION, Model

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def model_schema() -> str:
    """The schema of a model file as JSON text, ready to be written to docs/model.schema.json."""
    schema = {"$schema": DIALECT, "$id": f"urn:analog:model:{FORMAT_VERSION}", **Model.model_json_schema(by_alias=True)}
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"
