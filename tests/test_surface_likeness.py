"""A deep likeness beats a surface likeness in the final list, and the surface likeness is told as one.

The contrast is that of the story sets of Gentner, Rattermann & Forbus (1993), Cognitive Psychology 25, 524-575: one
story with the causes of the base and other things, one with the things of the base and the causes turned round. The
models here are invented for this test and stand in no corpus.
"""

from __future__ import annotations

import shutil
from typing import Any

import pytest
import yaml

from analog.api import Library, open_library
from analog.index.build import build_index
from analog.locate import corpus_folder, index_folder

MEMORY = {"key": "invented", "type": "memory", "title": "Invented for a test"}


def _model(name: str, title: str, summary: str, organism: str, **body: Any) -> dict[str, Any]:
    size = {"name": "width", "value": 0.1, "unit": "m", "source": "invented", "from_memory": True}
    return {
        "format": 1,
        "id": name,
        "title": title,
        "summary": summary,
        "organism": {"common": organism, "group": "non-living"},
        "habitat": {"settings": ["air"], "text": "anywhere"},
        "sizes": [size],
        "sources": [MEMORY],
        **body,
    }


def _questions(*texts: str) -> list[dict[str, str]]:
    return [{"text": text, "industry": "any"} for text in texts]


def _step(name: str, start: str, end: str, text: str, fact: str) -> dict[str, Any]:
    reason = {"type": "structure", "fact": fact, "note": "The one lies on the other."}
    return {"id": name, "from": start, "to": end, "text": text, "reasons": [reason]}


DEEP_DUST = _model(
    "invented-sloping-shell",
    "A sloping shell lets silt slide away",
    "Silt settles on a steep shell. Ripples shake the shell, the silt loses its hold and slides down and away.",
    "shell on a mudflat",
    questions=_questions(
        "Get mud off a sloping hull without brushing",
        "How can grit be made to slide away from a cover by itself?",
        "Filings must leave the tray when it is shaken",
    ),
    purposes=[
        {
            "id": "rid", "text": "separate silt from the shell", "verb": "separate", "flow": "particulate",
            "object": "silt", "where": {"relation": "from", "part": "shell"}, "initial": "laden", "objective": "bare",
        }
    ],
    parts=[
        {"id": "silt", "name": "silt", "kind": "sediment"},
        {"id": "shell", "name": "shell", "kind": "shell"},
    ],
    structure=["covers(silt, shell)"],
    states=[
        {"id": "laden", "text": "Silt sticks", "facts": ["adheres-to(silt, shell)"]},
        {"id": "bare", "text": "Silt is gone", "facts": ["not adheres-to(silt, shell)", "separated-from(silt, shell)"]},
    ],
    transitions=[_step("slide", "laden", "bare", "Silt slides away", "covers(silt, shell)")],
    course=["slide"],
)  # fmt: skip

SURFACE_DUST = _model(
    "invented-dusty-panel",
    "Dust on solar panels in a dry year",
    "Solar panels stand in the sun. Dust comes with the wind, dew wets the dust on the solar panels and it bakes on.",
    "solar panel in a desert",
    questions=_questions(
        "Why does dust bake on solar panels?",
        "How much dust do solar panels gather in a dry year?",
        "Dust on solar panels after dew",
    ),
    purposes=[
        {
            "id": "bake", "text": "dust bakes on the solar panels", "verb": "couple", "flow": "particulate",
            "object": "dust", "where": {"relation": "on", "part": "panel"}, "initial": "clean", "objective": "dusty",
        }
    ],
    parts=[
        {"id": "dust", "name": "dust", "kind": "dust"},
        {"id": "panel", "name": "solar panel", "kind": "panel"},
    ],
    structure=["covers(dust, panel)"],
    states=[
        {
            "id": "clean", "text": "Panels are clean",
            "facts": ["not adheres-to(dust, panel)", "separated-from(dust, panel)"],
        },
        {"id": "dusty", "text": "Dust sticks", "facts": ["adheres-to(dust, panel)"]},
    ],
    transitions=[_step("bake-on", "clean", "dusty", "Dust bakes on", "covers(dust, panel)")],
    course=["bake-on"],
)  # fmt: skip

BROKEN_DUST = SURFACE_DUST | {
    "id": "invented-broken-chain",
    "title": "Solar panels and dust",
    "purposes": [SURFACE_DUST["purposes"][0] | {"text": "dust and solar panels, told backwards", "verb": "separate"}],
}
"""The same nouns, the verb asked for, and the chain of states running the wrong way."""


@pytest.fixture(scope="module")
def enlarged(library: Library, tmp_path_factory: pytest.TempPathFactory) -> Library:
    """The shipped corpus with the invented models; the index is taken over, so only their texts are encoded."""
    folder = tmp_path_factory.mktemp("enlarged")
    shutil.copytree(corpus_folder(), folder / "corpus")
    shutil.copytree(index_folder(), folder / "index", symlinks=True)
    for model in (DEEP_DUST, SURFACE_DUST, BROKEN_DUST):
        (folder / "corpus" / "grooming" / f"{model['id']}.yaml").write_text(yaml.safe_dump(model, sort_keys=False))
    result = build_index(folder / "corpus", folder / "index")
    assert result.encoded < 100, "the vectors of the shipped models should be taken over"
    return open_library(folder / "corpus", folder / "index")


def test_the_deep_likeness_ranks_before_the_surface_likeness(enlarged: Library) -> None:
    found = enlarged.search("remove dust from solar panels", top=50).results
    rank = {result.model.id: result.rank for result in found}
    last = len(found) + 1
    assert rank["invented-sloping-shell"] < rank.get("invented-dusty-panel", last)
    assert rank["invented-sloping-shell"] < rank.get("invented-broken-chain", last)


@pytest.mark.parametrize("name", ["invented-dusty-panel", "invented-broken-chain"])
def test_a_surface_likeness_is_told_as_one(enlarged: Library, name: str) -> None:
    explained = enlarged.explain(name, "remove dust from solar panels")
    assert explained.likeness.surface
    assert explained.likeness.things == pytest.approx(1.0)
    assert explained.cautions[0].startswith("Surface likeness: ")
    assert explained.to_dict()["likeness"]["surface"] is True


def test_a_deep_likeness_is_not(enlarged: Library) -> None:
    assert not enlarged.explain("invented-sloping-shell", "remove dust from solar panels").likeness.surface
