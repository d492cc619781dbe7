"""The shipped database against what WordNet 3.0 is known to hold, and our blocks against nltk's reader."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from analog.vocabulary import Vocabulary, wordnet


@pytest.fixture(scope="module")
def nltk_reader():  # type: ignore[no-untyped-def]
    return wordnet.reader()


def test_the_licence_lies_beside_the_data() -> None:
    text = (wordnet.ARCHIVE.parent / "LICENSE").read_text(encoding="utf-8")
    assert "WordNet 3.0 Copyright 2006 by Princeton University" in text
    assert "Permission to use, copy, modify and distribute" in text


def test_the_archive_is_small_enough_for_the_repository() -> None:
    assert wordnet.ARCHIVE.stat().st_size < 12_000_000


def test_it_is_wordnet_3_0_with_all_its_nouns_and_verbs(nltk_reader) -> None:  # type: ignore[no-untyped-def]
    # wnstats(7WN) of WordNet 3.0: 82 115 noun and 13 767 verb synsets
    assert nltk_reader.get_version() == "3.0"
    for part, count in (("noun", 82115), ("verb", 13767)):
        lines = nltk_reader.open(f"data.{part}").read().splitlines()
        assert sum(not line.startswith("  ") for line in lines) == count  # the licence lines are indented


def test_contaminant_is_a_material_and_so_matter(nltk_reader) -> None:  # type: ignore[no-untyped-def]
    paths = [[synset.name() for synset in path] for path in nltk_reader.synset("contaminant.n.01").hypernym_paths()]
    assert any(path[-4:] == ["matter.n.03", "substance.n.01", "material.n.01", "contaminant.n.01"] for path in paths)


def test_the_anchors_are_synsets(words: Vocabulary, nltk_reader) -> None:  # type: ignore[no-untyped-def]
    assert len(words.kinds.anchors) > 400
    for name in words.kinds.anchors:
        assert nltk_reader.synset(name).pos() == "n"


def test_the_blocks_climb_as_nltk_does(baked: Vocabulary, nltk_reader) -> None:  # type: ignore[no-untyped-def]
    blocks = baked.wordnet
    chance = random.Random(3)
    lemmas = [entry.split(wordnet.FIELD)[0] for entry in blocks.blocks["nouns"].split(wordnet.LINE) if entry]
    for lemma in chance.sample(lemmas, 200):
        senses = {synset.name(): synset for synset in nltk_reader.synsets(lemma.replace(" ", "_"), "n")}
        for number, weight in blocks.noun_senses(lemma):
            name = blocks.name(number)
            assert name in senses or any(lemma in x.lower() for x in nltk_reader.synset(name).lemma_names())
            assert 0 < weight <= wordnet.SENSE_WEIGHT[0]
            above = {synset.name() for synset in nltk_reader.synset(name).closure(lambda s: s.hypernyms(), depth=9)}
            assert {blocks.name(n) for n in blocks.climb(number)} - {name} <= above
            parents = {synset.name() for synset in nltk_reader.synset(name).hypernyms()}
            assert parents <= {blocks.name(n) for n in blocks.climb(number)}


def test_base_forms_agree_with_nltks_morphy(baked: Vocabulary, nltk_reader) -> None:  # type: ignore[no-untyped-def]
    for word in (
        "geese",
        "boats",
        "filings",
        "cleaned",
        "stuck",
        "fouling",
        "sticking",
        "glasses",
        "wolves",
        "bacteria",
    ):
        for part in ("n", "v"):
            expected = nltk_reader.morphy(word, part)
            found = baked.wordnet.bases(word, part)
            assert (expected in found) if expected else True, (word, part, expected, found)


def test_a_baseball_foul_does_not_come_first(baked: Vocabulary) -> None:
    # the first verb sense of "foul" in WordNet 3.0 is baseball's: our own list decides before WordNet is asked
    assert baked.verbs.candidates("foul")[0].source == "everyday verbs"


def test_nothing_is_linked_through_the_top(baked: Vocabulary) -> None:
    for a, b in [("clock", "whale"), ("violin", "walrus"), ("sandwich", "screwdriver"), ("toaster", "eagle")]:
        assert baked.link(a, b).similarity == 0.0


def test_the_database_files_are_only_in_the_archive() -> None:
    assert {path.name for path in Path(wordnet.ARCHIVE.parent).iterdir()} == {"LICENSE", "README.md", "wordnet.zip"}
