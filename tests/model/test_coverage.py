"""The coverage table, and the pages that must keep step with corpus and checker."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from pathlib import Path
from typing import Any

import pytest
from pydantic import TypeAdapter

from analog.cli.known import known_terms
from analog.cli.review import functions
from analog.locate import corpus_folder
from analog.model.check import check_corpus
from analog.model.coverage import COLUMNS, SIZES, UNSIZED, cover, markdown, size_class
from analog.model.coverage_figure import svg
from analog.model.load import load_corpus
from analog.model.types import Model, Quantity
from analog.model.yaml_file import parse_yaml
from tests.model.sample import sample

DOCS = Path(__file__).parents[2] / "docs"

_PUBLISHED = """
separate distribute import export transfer guide couple mix actuate regulate change stop convert store supply
sense indicate process stabilize secure position
"""
NIST_SECONDARY = frozenset(_PUBLISHED.split())
"""The secondary functions of Hirtz, Stone, McAdams, Szykman, Wood (2002), NIST Technical Note 1447."""


def test_the_rows_are_the_secondary_functions_of_the_published_vocabulary() -> None:
    known = functions()
    assert len(known.secondary) == 21
    assert set(known.secondary) == NIST_SECONDARY
    # tertiary functions stand where the table has them
    for tertiary, secondary in (
        ("extract", "separate"),
        ("transmit", "transfer"),
        ("inhibit", "stop"),
        ("join", "couple"),
    ):
        assert known.above[tertiary] == secondary


def length(unit: str, **bounds: float) -> Quantity:
    return Quantity(name="x", unit=unit, source="memory", **bounds)


@pytest.mark.parametrize(
    ("sizes", "expected"),
    [
        ([length("nm", value=999)], SIZES[0]),
        ([length("um", value=1)], SIZES[1]),
        ([length("mm", value=1)], SIZES[2]),
        ([length("cm", value=10)], SIZES[3]),
        ([length("mm", low=0.1, high=5)], SIZES[1]),  # geometric mean √0.5 = 0.71 mm
        ([length("mm", low=0.3, high=5)], SIZES[2]),  # √1.5 = 1.2 mm
        ([length("m", high=2)], SIZES[3]),
        ([length("kg", value=3), length("mm", value=2)], SIZES[2]),  # a mass is passed over
        ([length("kg", value=3)], UNSIZED),
        ([], UNSIZED),
    ],
)
def test_the_size_is_that_of_the_first_length(sizes: list[Quantity], expected: str) -> None:
    assert size_class(sizes) == expected


def model(**changes: Any) -> Model:
    return Model.model_validate(sample() | changes)


def test_a_model_counts_once_in_each_class_of_its_purposes() -> None:
    purpose = sample()["purposes"][0]
    verbs = ("separate", "extract", "export")  # extract stands under separate
    both = model(id="both", purposes=[{**purpose, "id": verb, "verb": verb} for verb in verbs])
    found = cover([model(), both], functions())
    assert {name: n for name, n in found.models_in.items() if n} == {"separate": 2, "export": 1}
    assert found.cells["separate"]["air"] == 2
    assert found.cells["separate"][SIZES[2]] == 2
    assert found.shares["separate"] == pytest.approx(2 / 3)
    assert sum(found.shares.values()) == pytest.approx(1)
    assert set(found.empty) == NIST_SECONDARY - {"separate", "export"}


def test_hierarchy_and_sources_are_shares_of_all() -> None:
    sub = {"id": "s", "text": "x", "verb": "separate", "flow": "particulate", "object": "grit"}
    seen = {"key": "book", "type": "book", "authors": "N.", "year": 2000, "title": "x", "record_seen": True}
    above = model(id="above", sub_purposes=[{**sub, "model": "sample"}], sources=[*sample()["sources"], seen])
    dangling = model(id="dangling", sub_purposes=[{**sub, "model": "nowhere"}])
    counts = cover([model(), above, dangling, model(id="alone")], functions()).counts
    assert counts.in_hierarchy == pytest.approx(2 / 4)  # above, and the sample it uses
    assert counts.sources == 5
    assert counts.sources_seen == pytest.approx(1 / 5)
    assert (counts.documents, counts.documents_seen) == (1, 1.0)


def test_an_empty_corpus_has_a_table_of_nothing() -> None:
    found = cover([], functions())
    assert set(found.empty) == NIST_SECONDARY
    assert markdown(found).count("\n| ") > 21


def test_the_page_keeps_step_with_the_corpus() -> None:
    """`analog check --coverage --write docs` writes it anew."""
    found = cover(load_corpus(corpus_folder()).models, functions())
    assert (DOCS / "coverage.md").read_text(encoding="utf-8") == markdown(found)


def test_the_figure_shows_every_number_and_tells_them_in_words() -> None:
    root = ElementTree.fromstring(svg(cover([model()], functions())))
    name = "{http://www.w3.org/2000/svg}"
    assert root.get("role") == "img"
    assert root.findtext(f"{name}title")
    assert "separate: 1 models (air 1, 1 mm to 10 cm 1)" in (root.findtext(f"{name}desc") or "")
    texts = ["".join(text.itertext()) for text in root.iter(f"{name}text")]
    assert texts.count("1") == 2
    assert texts.count("·") == 21 * len(COLUMNS) - 2
    colours = set(re.findall(r"#[0-9a-f]{6}", ElementTree.tostring(root, encoding="unicode")))
    assert all(colour[1:3] == colour[3:5] == colour[5:7] for colour in colours), "grey only"


def test_the_template_is_a_model_without_a_fault() -> None:
    assert check_corpus(load_corpus(DOCS / "model-template.yaml"), known_terms()) == []


GUIDE = (DOCS / "writing-a-model.md").read_text(encoding="utf-8")
PIECES = re.findall(r"```yaml\n(.*?)```", GUIDE.partition("## Usual mistakes")[0], re.DOTALL)
GOOD = re.findall(r"Good:\n\n```yaml\n(.*?)```", GUIDE, re.DOTALL)


def test_the_guide_shows_the_worked_file_word_for_word() -> None:
    finished = (corpus_folder() / "grooming" / "wet-coat-shaking.yaml").read_text(encoding="utf-8")
    assert len(PIECES) >= 5
    for piece in PIECES:
        assert piece in finished


def test_the_good_examples_of_the_guide_are_sound_records() -> None:
    assert len(GOOD) == 4
    for piece in GOOD:
        data, _ = parse_yaml(piece.encode(), "guide")
        ((field, records),) = data.items()
        TypeAdapter(Model.model_fields[field].annotation).validate_python(records)
