"""A small sound model as plain data, for tests to spoil. Invented; not part of the corpus."""

from __future__ import annotations

import copy
from typing import Any

SAMPLE: dict[str, Any] = {
    "format": 1,
    "id": "sample",
    "title": "A brush that sheds grit",
    "summary": "An invented account for tests.",
    "organism": {"common": "invented brush", "group": "animal"},
    "habitat": {"settings": ["air"], "text": "nowhere"},
    "sizes": [{"name": "length", "value": 1, "unit": "mm", "source": "memory", "from_memory": True}],
    "purposes": [
        {
            "id": "shed",
            "text": "shed grit",
            "verb": "separate",
            "flow": "particulate",
            "object": "grit",
            "where": {"relation": "from", "part": "pad"},
            "initial": "dirty",
            "objective": "clean",
        }
    ],
    "parts": [
        {"id": "grit", "name": "grit", "kind": "sand"},
        {"id": "pad", "name": "pad", "kind": "pad"},
    ],
    "structure": ["part-of(pad, pad)"],
    "states": [
        {"id": "dirty", "text": "grit sticks", "facts": ["adheres-to(grit, pad)"]},
        {"id": "clean", "text": "grit is gone", "facts": ["not adheres-to(grit, pad)"]},
    ],
    "transitions": [
        {
            "id": "step",
            "from": "dirty",
            "to": "clean",
            "text": "the pad peels off the grit",
            "reasons": [{"type": "principle", "principle": "peeling", "note": "at a steep angle"}],
            "needs": [{"type": "energy", "energy": "mechanical-energy"}],
        }
    ],
    "course": ["step"],
    "sources": [{"key": "memory", "type": "memory", "title": "invented"}],
}


def sample() -> dict[str, Any]:
    """A fresh copy."""
    return copy.deepcopy(SAMPLE)
