"""Dictionary entries read from WordNet's own files, against nltk's reader of the same files."""

from __future__ import annotations

import pytest

from analog.vocabulary import Vocabulary
from analog.vocabulary.entries import Entries
from analog.vocabulary.wordnet import reader

WORDS = ("loud", "water", "run", "nucleus", "solar system", "fast", "quickly", "breathe", "crystal", "'hood")


@pytest.fixture(scope="module")
def entries(vocabulary: Vocabulary) -> Entries:
    return Entries(vocabulary.wordnet)


@pytest.mark.parametrize("word", WORDS)
def test_senses_are_those_of_the_reader_of_nltk(entries: Entries, word: str) -> None:
    for part in "nvar":
        theirs = [
            synset
            for synset in reader().synsets(word.replace(" ", "_"), part)
            if word.replace(" ", "_") in map(str.lower, synset.lemma_names())
        ]
        mine = entries._listed(word, part)
        assert [sense.offset for sense in mine] == [synset.offset() for synset in theirs]
        for sense, synset in zip(mine, theirs, strict=True):
            assert synset.definition().startswith(sense.definition.split(";")[0])
            assert sense.to("@", "@i") == {
                (s.pos(), s.offset()) for s in synset.hypernyms() + synset.instance_hypernyms()
            }
            lemma = next(one for one in synset.lemmas() if one.name().lower() == word.replace(" ", "_"))
            assert sense.count == lemma.count()


def test_relations_between_words(entries: Entries) -> None:
    """As WordNet 3.0 has them."""
    assert entries.relations("hot", "cold") >= {"opposite"}
    assert entries.relations("loud", "quiet") >= {"opposite"}
    assert entries.relations("buyer", "buying") == {"derived"}
    assert entries.relations("sun", "solar system") == entries.relations("solar system", "sun") == {"kin"}
    assert entries.relations("nucleus", "atom") == {"kin"}
    assert entries.relations("sun", "butter") == frozenset()
    assert entries.relations("sun", "Sun") == frozenset()


def test_forms_tell_word_class_and_inflection(entries: Entries) -> None:
    assert entries.forms("refutes") == {"v:s": 1.0}
    assert entries.forms("molecules") == {"n:s": 1.0}
    assert entries.forms("turned off") == {"v:ed": 1.0}
    assert entries.forms("zzyzx") == {"n": 1.0}
    both = entries.forms("attacks")
    assert set(both) == {"n:s", "v:s"}
    assert sum(both.values()) == pytest.approx(1.0)
