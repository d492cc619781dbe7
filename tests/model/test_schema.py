"""The published JSON Schema is the one the records give, and the corpus satisfies it."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema

from analog.model.load import model_paths
from analog.model.schema import model_schema
from analog.model.yaml_file import load_yaml

ROOT = Path(__file__).parents[2]


def test_the_published_schema_is_in_step_with_the_records() -> None:
    """`analog schema > docs/model.schema.json` mends this."""
    assert (ROOT / "docs/model.schema.json").read_text(encoding="utf-8") == model_schema()


def test_the_schema_is_valid_and_accepts_every_model_of_the_corpus() -> None:
    """Second opinion: the jsonschema library reads the same files."""
    schema = json.loads(model_schema())
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    for path in model_paths(ROOT / "corpus"):
        faults = list(validator.iter_errors(load_yaml(path)[0]))
        assert faults == [], path
