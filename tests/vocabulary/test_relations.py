"""Relations of facts: symmetry, inverses, likeness."""

from __future__ import annotations

from analog.vocabulary import Vocabulary


def test_an_inverse_of_an_inverse_is_the_relation_itself(words: Vocabulary) -> None:
    relations = words.relations
    with_inverse = [name for name in relations.all() if relations.inverse(name)]
    assert with_inverse
    for name in with_inverse:
        other = relations.inverse(name)
        assert other is not None
        assert relations.inverse(other) == name


def test_symmetric_relations_are_their_own_inverse(words: Vocabulary) -> None:
    assert words.relations.symmetric("touches") and words.relations.inverse("touches") == "touches"
    assert not words.relations.symmetric("adheres-to")
    assert words.relations.inverse("above") == "below"


def test_likeness_falls_with_distance_and_ends_at_the_roots(words: Vocabulary) -> None:
    like = words.relations.similarity
    assert like("adheres-to", "adheres-to") == 1.0
    assert 1.0 > like("adheres-to", "touches") > like("adheres-to", "lies-on") > 0.0
    assert like("adheres-to", "pumps") == like("adheres-to", "contains") == 0.0
    assert like("adheres-to", "attached-to") == like("attached-to", "adheres-to")


def test_every_relation_is_defined_and_every_match_has_a_note() -> None:
    relations = Vocabulary.from_sources().relations
    assert relations.faults() == []


def test_opposites_are_not_alike_and_neighbours_in_use_are() -> None:
    """Heating is no cooling, though both transform; what rests on a surface mostly clings to it."""
    relations = Vocabulary.from_sources().relations
    for a, b in (("heats", "cools"), ("open", "closed"), ("attracts", "repels"), ("clean", "dirty")):
        assert relations.similarity(a, b) == relations.similarity(b, a) == 0.0
    assert relations.similarity("rests-on", "adheres-to") >= 0.8
