"""The review: every weakness is measured on a model that has it and silent on one that has not."""

from __future__ import annotations

import itertools
import json
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from analog.model.load import load_corpus
from analog.model.review import (
    WEAKNESSES,
    KindWords,
    Neighbourhood,
    Review,
    Reviewed,
    kinds_of_one_model,
    review,
    review_paths,
    unconnected_kinds,
)
from analog.model.types import Model
from analog.model.words import alike_pairs, overlap, words
from tests.model.sample import sample

Spoil = Callable[[dict[str, Any]], object]


def strong() -> dict[str, Any]:
    """The sample with everything the review wishes for."""
    model = sample()
    seen = {"key": "seen", "type": "book", "authors": "Nobody N.", "year": 2000, "title": "x", "record_seen": True}
    quantity = {"name": "length", "value": 1, "unit": "mm", "source": "seen"}
    model["sources"] = [seen]
    model["sizes"] = [dict(quantity) for _ in range(6)]
    model["limits"] = [{"about": "wear", "text": "x"}] * 4
    model["precedents"] = [{"text": "x", "source": "seen"}]
    model["transitions"][0]["reasons"] *= 2
    model["questions"] = [{"text": "How is grit shed from pads?", "industry": "x"}]
    return model


def reviewed(folder: Path, *models: dict[str, Any]) -> dict[str, Reviewed]:
    for model in models:
        (folder / f"{model['id']}.yaml").write_text(json.dumps(model))
    return {r.model: r for r in review(load_corpus(folder).files).models}


def parts(found: Reviewed) -> dict[str, float]:
    return {weakness.rule: weakness.part for weakness in found.weaknesses}


def test_a_strong_model_has_no_weakness(tmp_path: Path) -> None:
    found = reviewed(tmp_path, strong())["sample"]
    assert found.weaknesses == ()
    assert found.score == 0


MEMORY = [{"key": "seen", "type": "memory", "title": "x"}]
UNSEEN = [{"key": "seen", "type": "book", "authors": "Nobody N.", "year": 2000, "title": "x"}]
TWICE = [
    {"text": "How is grit shed from pads?", "industry": "x"},
    {"text": "How is all the grit shed from a pad?", "industry": "y"},
]
SPOILT: list[tuple[str, float, Spoil]] = [
    ("few-reasons", 1 / 2, lambda m: m["transitions"][0].update(reasons=m["transitions"][0]["reasons"][:1])),
    ("no-needs", 1.0, lambda m: m["transitions"][0].update(needs=[])),
    ("values-from-memory", 1 / 6, lambda m: m["sizes"][0].update(from_memory=True)),
    ("values-from-memory", 1.0, lambda m: m.update(sources=UNSEEN)),
    ("few-quantities", 3 / 6, lambda m: m.update(sizes=m["sizes"][:3])),
    ("few-limits", 3 / 4, lambda m: m.update(limits=m["limits"][:1])),
    ("no-precedent", 1.0, lambda m: m.update(precedents=[])),
    ("sources-from-memory", 1.0, lambda m: m.update(sources=MEMORY)),
    ("sources-from-memory", 1 / 2, lambda m: m.update(sources=UNSEEN)),
    ("questions-alike", 3 / 4, lambda m: m.update(questions=TWICE)),
]


@pytest.mark.parametrize(("rule", "part", "spoil"), SPOILT, ids=[f"{rule}-{part:.2f}" for rule, part, _ in SPOILT])
def test_each_weakness_is_measured(tmp_path: Path, rule: str, part: float, spoil: Spoil) -> None:
    model = strong()
    spoil(model)
    found = reviewed(tmp_path, model)["sample"]
    assert parts(found)[rule] == pytest.approx(part)
    assert found.score == pytest.approx(sum(w.part for w in found.weaknesses))


def test_every_weakness_has_a_test() -> None:
    model = Model.model_validate(sample())
    twin = model.model_copy(update={"id": "twin", "questions": ()})
    rules = {w.rule for rule in WEAKNESSES for w in rule(model, Neighbourhood([model, twin]))}
    assert rules | {"questions-alike", "no-needs"} == {rule for rule, _, _ in SPOILT} | {"near-duplicate"}


def test_a_copy_is_a_near_duplicate_and_another_function_is_none(tmp_path: Path) -> None:
    copy, other = strong() | {"id": "copy"}, strong() | {"id": "other"}
    other["purposes"] = [{**other["purposes"][0], "verb": "export"}]
    found = reviewed(tmp_path, strong(), copy, other)
    assert parts(found["sample"])["near-duplicate"] == 1.0
    assert parts(found["copy"])["near-duplicate"] == 1.0
    assert "near-duplicate" not in parts(found["other"])


def test_the_weakest_come_first_and_an_outside_model_is_not_reported_on(tmp_path: Path) -> None:
    mine, corpus = tmp_path / "mine", tmp_path / "corpus"
    mine.mkdir()
    corpus.mkdir()
    for folder, model in ((mine, sample()), (mine, strong() | {"id": "strong"}), (corpus, strong() | {"id": "far"})):
        (folder / f"{model['id']}.yaml").write_text(json.dumps(model))
    found = review_paths([mine], corpus)
    assert [r.model for r in found.models] == ["sample", "strong"]
    assert found.models[0].score > found.models[1].score
    assert parts(found.models[1])["near-duplicate"] == 1.0, "the copy in the corpus is seen"


def test_kinds_used_once_are_told_with_their_model() -> None:
    one = Model.model_validate(sample())
    two = sample() | {"id": "two"}
    two["parts"] = [two["parts"][0], {**two["parts"][1], "kind": "plate"}]
    two["transitions"][0]["needs"] = [{"type": "medium", "kind": "air"}]
    assert kinds_of_one_model([one, Model.model_validate(two)]) == {"air": "two", "pad": "sample", "plate": "two"}


def test_a_kind_is_connected_by_its_own_words_or_those_above_it() -> None:
    kinds = {
        "thing": KindWords(others=3),
        "tool": KindWords(others=1, above=()),  # meeting at "thing" means nothing
        "file": KindWords(above=("tool",)),
        "linked": KindWords(matches=1),
        "alone": KindWords(),
        "below-alone": KindWords(above=("alone",)),
    }
    assert unconnected_kinds(kinds) == ("alone", "below-alone")


def test_words_leave_out_small_words_and_the_plural() -> None:
    assert words("How can the pads shed-off glass?") == {"pad", "shed", "glass"}


def test_the_fast_comparison_finds_what_comparing_every_pair_finds() -> None:
    """The prefix filter against the definition, on seeded random sets."""
    chance = random.Random(7)
    sets = {f"s{i}": frozenset(chance.choices("abcdefghij", k=chance.randint(0, 6))) for i in range(120)}
    for least in (0.2, 0.4, 0.5, 1.0):
        plain = {
            (a, b): overlap(sets[a], sets[b])
            for a, b in itertools.combinations(sets, 2)
            if overlap(sets[a], sets[b]) >= least
        }
        assert plain
        assert {(a, b): value for a, b, value in alike_pairs(sets, least)} == plain


def test_the_review_as_data_holds_every_part() -> None:
    record = Review((Reviewed("m", "m.yaml", ()),), {"pad": "m"}, ("alone",)).to_dict()
    assert record == {
        "models": [{"model": "m", "file": "m.yaml", "score": 0, "weaknesses": []}],
        "kinds_of_one_model": {"pad": "m"},
        "unconnected_kinds": ["alone"],
    }
