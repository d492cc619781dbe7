"""Phrases become kinds, terms are linked by paths that can be shown, and the baked form says the same."""

from __future__ import annotations

import json
import subprocess
import sys
from itertools import pairwise
from typing import Any

import pytest

from analog.cli.link import text as link_text
from analog.errors import FormatError
from analog.vocabulary import Vocabulary

BUNDLE_LIMIT = 6_000_000  # bytes of JSON


@pytest.mark.parametrize(
    ("phrase", "kind"),
    [
        ("solar panels", "panel"),
        ("iron filings", "filings"),
        ("dust", "dust"),
        ("Fine Dust", "dust"),
        ("dust particles", "dust"),
        ("layer of ice", "ice"),
        ("the ship's hull", "hull"),
        ("marine growth", "biofouling"),
        ("geese", "bird"),
        ("heat from a laptop", "thermal-energy"),
        ("teeth", "tooth"),
    ],
)
def test_a_phrase_is_read_as_a_kind(baked: Vocabulary, phrase: str, kind: str) -> None:
    match = baked.kind_of(phrase)
    assert match is not None
    assert match.kind == kind


def test_a_head_alone_weighs_less_and_the_modifiers_are_told(baked: Vocabulary) -> None:
    match = baked.kind_of("cracked concrete wall")
    assert match is not None
    assert (match.kind, match.modifiers) == ("wall", ("concrete",))
    assert 0 < match.similarity < 1


@pytest.mark.parametrize(
    "phrase", ["", "   ", "the", "poem", "Tuesday", "truth", "xyzzy", "of of of", "?!", "a" * 5000]
)
def test_a_phrase_without_a_physical_sense_has_no_kind(baked: Vocabulary, phrase: str) -> None:
    assert baked.kind_of(phrase) is None
    assert baked.link(phrase, "dust").similarity == 0.0


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("foreign body", "contaminant"),
        ("contaminant", "dust"),
        ("foreign body", "dust"),
        ("ship hull", "wetted surface"),
    ],
)
def test_terms_that_mean_nearly_the_same_are_linked(words: Vocabulary, a: str, b: str) -> None:
    found = words.link(a, b)
    assert found.similarity >= 0.7
    assert found.path


def test_nothing_links_dust_and_heart(baked: Vocabulary) -> None:
    found = baked.link("dust", "heart")
    assert (found.similarity, found.path) == (0.0, ())


def test_a_link_reads_the_same_from_both_ends(baked: Vocabulary) -> None:
    for a, b in [("grime", "foreign body"), ("pump", "heart"), ("sparrow", "finch"), ("drone wing", "bird wing")]:
        there, back = baked.link(a, b), baked.link(b, a)
        assert there.similarity == back.similarity > 0
        assert there.path[0].start == a and there.path[-1].end == b
        assert all(one.end == two.start for one, two in pairwise(there.path))


def test_two_words_for_one_function_are_linked(words: Vocabulary) -> None:
    assert words.link("scrub", "cleanse").similarity >= 0.9


def test_expansion_keeps_what_is_near_and_says_why(words: Vocabulary) -> None:
    found = words.expand("dust", least=0.6)
    assert {"contaminant", "foreign-body", "particulate"} <= {kind for kind, _, _ in found}
    assert all(weight >= 0.6 and path for _, weight, path in found)
    assert [weight for _, weight, _ in found] == sorted((weight for _, weight, _ in found), reverse=True)
    assert len(found) < len(words.kinds.all()) / 10  # it must not drown precision


def test_baked_and_read_vocabularies_say_the_same(words: Vocabulary, baked: Vocabulary) -> None:
    assert baked.bake() == json.loads(json.dumps(words.bake()))
    some = words.kinds.all()[::13]
    assert [words.kind_similarity(a, b) for a in some for b in some] == [
        baked.kind_similarity(a, b) for a in some for b in some
    ]
    for text in ("cool", "clean", "emit", "jettison"):
        assert words.verbs.candidates(text) == baked.verbs.candidates(text)


def test_another_format_is_refused() -> None:
    with pytest.raises(FormatError, match="expected vocabulary format 1, found 99"):
        Vocabulary.from_baked({"format": 99})


def test_the_baked_form_is_small_and_loads_without_heavy_imports(words: Vocabulary, tmp_path: Any) -> None:
    file = tmp_path / "vocabulary.json"
    file.write_text(json.dumps(words.bake(), ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
    assert file.stat().st_size < BUNDLE_LIMIT
    script = (
        "import json, sys\n"
        "from analog.vocabulary import Vocabulary\n"
        f"words = Vocabulary.from_baked(json.load(open({str(file)!r}, encoding='utf-8')))\n"
        "assert words.link('grime', 'foreign body').similarity > 0\n"
        "heavy = {'rdflib', 'nltk', 'numpy', 'scipy', 'torch', 'pydantic'} & set(sys.modules)\n"
        "print(sorted(heavy))\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_the_command_prints_text_and_its_steps_the_promised_fields(words: Vocabulary) -> None:
    found = words.link("grime", "foreign body")
    steps = [step.to_dict() for step in found.path]
    assert all(set(step) == {"from", "to", "relation", "source"} for step in steps)
    assert steps[0]["from"] == "grime" and steps[-1]["to"] == "foreign body"
    assert link_text("grime", "foreign body", found).startswith("grime and foreign body: 0.")
    assert link_text("dust", "heart", words.link("dust", "heart")) == "dust and heart: nothing links them"
