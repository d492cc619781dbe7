"""Facts as English sentences. Grammar: common school grammar of English, no source."""

from __future__ import annotations

import pytest

from analog.explain.sentences import (
    base_form,
    capital,
    counted,
    counted_in_words,
    definite,
    fact_sentence,
    is_plural,
    joined,
    lowered,
    relation_words,
    sentence,
    shortened,
    with_article,
)
from analog.model.facts import parse_fact
from analog.vocabulary.expand import Vocabulary

NAMES = {
    "dirt": "dirt and loose hairs",
    "leaf": "leaf",
    "wax": "wax tubules of the leaf",
    "air": "air between the bumps",
    "lens": "lens",
    "its": "its own weight",
    "ends": "ends of the chain that lock or unlock with acid",
    "liver": "liver, muscle and fat",
}


@pytest.mark.parametrize(
    ("fact", "told"),
    [
        ("adheres-to(leaf, air)", "The leaf adheres to the air between the bumps."),
        ("adheres-to(dirt, leaf)", "The dirt and loose hairs adhere to the leaf."),
        ("not adheres-to(dirt, leaf)", "The dirt and loose hairs do not adhere to the leaf."),
        ("not touches(leaf, air)", "The leaf does not touch the air between the bumps."),
        ("part-of(wax, leaf)", "The wax tubules of the leaf are part of the leaf."),
        ("not inside(lens, leaf)", "The lens is not inside the leaf."),
        ("dry(leaf)", "The leaf is dry."),
        ("not open(ends)", "The ends of the chain that lock or unlock with acid are not open."),
        ("between(air, wax, leaf)", "The air between the bumps is between the wax tubules of the leaf and the leaf."),
        ("connects(wax, leaf)", "The wax tubules of the leaf connect to the leaf."),
        ("connects(wax, leaf, lens)", "The wax tubules of the leaf connect the leaf and the lens."),
        ("stiffer-than(leaf, wax)", "The leaf is stiffer than the wax tubules of the leaf."),
        ("higher-pressure-than(air, lens)", "The air between the bumps is at a higher pressure than the lens."),
        ('shape(leaf, "flat")', "The shape of the leaf is flat."),
        ('not shape(leaf, "flat")', "The shape of the leaf is not flat."),
        ("temperature(leaf, 300 K)", "The temperature of the leaf is 300 K."),
        ('density(leaf, "falls inwards")', "The density of the leaf falls inwards."),
        ("carries(wax, its)", "The wax tubules of the leaf carry its own weight."),
        ("vibrates(leaf, lens)", "The leaf makes the lens vibrate."),
        ("stores(liver, air)", "The liver, muscle and fat store the air between the bumps."),
        ("inside(unknown-part, leaf)", "The unknown part is inside the leaf."),
    ],
)
def test_a_fact_is_told_as_a_sentence(fact: str, told: str) -> None:
    assert fact_sentence(parse_fact(fact), NAMES) == told


@pytest.mark.parametrize(
    ("verb", "base"),
    [
        *(("carries", "carry"), ("touches", "touch"), ("passes", "pass"), ("pushes", "push"), ("moves", "move")),
        *(("senses", "sense"), ("focuses", "focus"), ("mixes", "mix"), ("releases", "release"), ("dries", "dry")),
    ],
)
def test_verbs_lose_the_ending_of_the_third_person(verb: str, base: str) -> None:
    assert base_form(verb) == base


@pytest.mark.parametrize("name", ["setae with split ends", "flat hair ends", "wind and snow", "feet of the fly"])
def test_names_of_several_things(name: str) -> None:
    assert is_plural(name)


@pytest.mark.parametrize(
    "name", ["lens", "gas", "film of drops", "moss", "mucus", "base of the spines", "sample of the body's own proteins"]
)
def test_names_of_one_thing(name: str) -> None:
    assert not is_plural(name)


def test_every_relation_of_the_vocabulary_makes_a_predicate(vocabulary: Vocabulary) -> None:
    """It begins with a verb: "is", or one of the relation's own."""
    for relation in vocabulary.relations.records:
        one, many = relation_words(relation), relation_words(relation, plural=True)
        assert one != many
        assert "-" not in one
        assert relation_words(relation, negated=True).split()[1] == "not"


def test_small_pieces() -> None:
    assert (counted(1, "step"), counted(2, "step"), counted(0, "step")) == ("1 step", "2 steps", "no steps")
    assert counted(2, "axis", "axes") == "2 axes"
    assert [joined("abc"[:n]) for n in range(4)] == ["", "a", "a and b", "a, b and c"]
    assert joined(["a", "b"], "or") == "a or b"
    assert (definite("leaf"), definite("its leaf"), definite("The sun")) == ("the leaf", "its leaf", "The sun")
    assert (capital("leaf"), capital("pH of water"), capital("mRNA")) == ("Leaf", "pH of water", "mRNA")
    assert (sentence("a  leaf"), sentence("Why?"), sentence("wait…")) == ("A leaf.", "Why?", "Wait…")


@pytest.mark.parametrize(
    ("count", "told"),
    [(0, "no steps"), (1, "one step"), (2, "two steps"), (12, "twelve steps"), (13, "13 steps")],
)
def test_counts_in_running_text_agree_with_their_noun(count: int, told: str) -> None:
    assert counted_in_words(count, "step") == told


@pytest.mark.parametrize(
    ("noun", "told"),
    [
        ("part", "a part"),
        ("axle", "an axle"),
        ("unit", "a unit"),
        ("hour", "an hour"),
        ("umbrella", "an umbrella"),
        ("use", "a use"),
    ],
)
def test_articles_follow_the_sound(noun: str, told: str) -> None:
    assert with_article(noun) == told


def test_a_capital_goes_in_the_middle_of_a_sentence_unless_it_belongs_there() -> None:
    assert lowered("Water runs") == "water runs"
    assert lowered("DNA copies") == "DNA copies"


def test_long_texts_are_cut_between_words() -> None:
    assert shortened("a b  c", 5) == "a b c"
    assert shortened("dust on panels", 10) == "dust on…"
    assert shortened("x" * 30, 10) == "x" * 9 + "…"
    assert all(len(shortened("some words of a text " * 9, most)) <= most for most in range(10, 60))
