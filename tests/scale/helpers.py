"""Small principles, models and problems for the tests of the scale check."""

from __future__ import annotations

import importlib
import sys
from functools import cache
from types import ModuleType
from typing import Any
from unittest.mock import patch

from analog.model.types import Model, Principle
from analog.problem.types import Problem

MEMORY = {"key": "memory", "type": "memory", "title": "test"}


@cache
def psychrometrics() -> ModuleType:
    """The library psychrolib in SI, without numba, which would compile it for seconds to save microseconds."""
    with patch.dict(sys.modules, {"numba": None}):
        library = importlib.import_module("psychrolib")
    library.SetUnitSystem(library.SI)
    return library


def principle(**more: Any) -> Principle:
    """A particle must be smaller than a gap: one ratio with a bound. Fields in `more` take the place of these."""
    record = {
        "format": 1,
        "id": "small-enough",
        "title": "Small enough to pass",
        "field": "fluids",
        "statement": "What is smaller than the gap passes.",
        "symbols": [
            {"id": "particle-diameter", "symbol": "d", "name": "particle diameter", "unit": "m"},
            {"id": "gap-width", "symbol": "w", "name": "gap width", "unit": "m"},
        ],
        "groups": [
            {
                "id": "size-share",
                "name": "particle over gap",
                "text": "d / w",
                "function": "ratio",
                "inputs": ["particle-diameter", "gap-width"],
                "meaning": "below 1 it passes",
            }
        ],
        "regime": [{"text": "smaller than the gap", "group": "size-share", "high": 1.0, "source": "memory"}],
        "fails": ["Larger particles are held."],
        "decided_by": "the two sizes",
        "sources": [MEMORY],
    }
    return Principle.model_validate(record | more)


def model(**more: Any) -> Model:
    """Grit falls through a grate: one transition that rests on `small-enough`."""
    record = {
        "format": 1,
        "id": "grate",
        "title": "A grate lets grit through",
        "summary": "Grit falls through the gaps of a grate.",
        "organism": {"common": "grate", "group": "non-living"},
        "habitat": {"settings": ["air"], "text": "anywhere"},
        "sizes": [{"name": "grate width", "value": 1, "unit": "m", "source": "memory"}],
        "purposes": [
            {
                "id": "pass",
                "text": "let grit through",
                "verb": "separate",
                "flow": "particulate",
                "object": "grit",
                "initial": "above",
                "objective": "below",
            }
        ],
        "parts": [
            {
                "id": "grit",
                "name": "grit",
                "kind": "particle",
                "properties": [{"name": "diameter", "low": 10, "high": 20, "unit": "um", "source": "memory"}],
            },
            {
                "id": "grate",
                "name": "grate",
                "kind": "sieve",
                "properties": [{"name": "gap width", "value": 100, "unit": "um", "source": "memory"}],
            },
        ],
        "states": [
            {"id": "above", "text": "Grit lies on it", "facts": ["rests-on(grit, grate)"]},
            {"id": "below", "text": "Grit has fallen", "facts": ["passes-through(grit, grate)"]},
        ],
        "transitions": [
            {
                "id": "fall",
                "from": "above",
                "to": "below",
                "text": "Grit falls through",
                "reasons": [{"type": "principle", "principle": "small-enough", "note": "It is smaller than the gaps."}],
            }
        ],
        "course": ["fall"],
        "sources": [MEMORY],
    }
    return Model.model_validate(record | more)


def problem(*conditions: dict[str, Any]) -> Problem:
    """Dust is to leave a panel, under these conditions."""
    return Problem.model_validate(
        {
            "text": "remove dust from a panel",
            "purposes": [{"text": "remove dust", "verb": "separate", "object": "dust"}],
            "things": [
                {"id": "dust", "name": "dust", "kind": "particulate", "kind_similarity": 1.0},
                {"id": "panel", "name": "panel", "kind": "surface", "kind_similarity": 1.0},
            ],
            "conditions": [{"text": "given", **condition} for condition in conditions],
        }
    )


def size(low: float | None, high: float | None, about: str = "dust", quantity: str = "size", unit: str = "um") -> Any:
    """A range condition: "dust size 5-50 um"."""
    return {"type": "range", "about": about or None, "quantity": quantity, "low": low, "high": high, "unit": unit}
