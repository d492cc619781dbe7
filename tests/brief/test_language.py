"""Sentences: counts, articles, quantities and facts, by the rules of English grammar (common practice, no source)."""

from __future__ import annotations

import pytest

from analog.brief.language import (
    condition_text,
    counted,
    fact_sentence,
    is_plural,
    joined,
    lowered,
    sentence,
    shortened,
    span_text,
    with_article,
)
from analog.model.facts import parse_fact
from analog.problem.types import Condition


@pytest.mark.parametrize(
    ("count", "told"),
    [(0, "no steps"), (1, "one step"), (2, "two steps"), (12, "twelve steps"), (13, "13 steps")],
)
def test_counts_agree_with_their_noun(count: int, told: str) -> None:
    assert counted(count, "step") == told


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


def test_lists_end_with_a_word() -> None:
    assert joined([]) == ""
    assert joined(["a"]) == "a"
    assert joined(["a", "b"]) == "a and b"
    assert joined(["a", "b", "c"], "or") == "a, b or c"


def test_a_sentence_has_a_capital_and_one_full_stop() -> None:
    assert sentence("a thing") == "A thing."
    assert sentence("A thing.") == "A thing."
    assert sentence("really?") == "Really?"
    assert lowered("Water runs") == "water runs"
    assert lowered("DNA copies") == "DNA copies"


def test_long_texts_are_cut_between_words() -> None:
    assert shortened("a b  c", 5) == "a b c"
    assert shortened("dust on panels", 10) == "dust on…"
    assert shortened("x" * 30, 10) == "x" * 9 + "…"
    assert all(len(shortened("some words of a text " * 9, most)) <= most for most in range(10, 60))


@pytest.mark.parametrize(
    ("low", "high", "unit", "told"),
    [
        (5, 50, "um", "5 to 50 µm"),
        (4, None, "degree", "at least 4°"),
        (None, 0.1, "dimensionless", "at most 0.1"),
        (0.30000000000000004, 0.30000000000000004, "kg/m**3", "0.3 kg/m³"),
        (1e-9, 1e-9, "m", "1 × 10⁻⁹ m"),
        (-20, -20, "degC", "−20 °C"),
        (60, 60, "percent", "60 %"),
    ],
)
def test_quantities_have_sensible_digits_and_readable_units(
    low: float | None, high: float | None, unit: str, told: str
) -> None:
    """The space before %, and none before the degree of angle: SI Brochure (9th ed., 2019), section 5.4.3."""
    assert span_text(low, high, unit) == told


NAMES = {"dirt": "dust grain", "leaf": "leaf", "ends": "flat hair ends", "both": "notch and spur of the leg"}


@pytest.mark.parametrize(
    ("fact", "told"),
    [
        ("adheres-to(dirt, leaf)", "the dust grain adheres to the leaf"),
        ("not adheres-to(dirt, leaf)", "the dust grain does not adhere to the leaf"),
        ("adheres-to(ends, leaf)", "the flat hair ends adhere to the leaf"),
        ("not touches(ends, leaf)", "the flat hair ends do not touch the leaf"),
        ("inside(dirt, leaf)", "the dust grain is inside the leaf"),
        ("between(dirt, leaf, ends)", "the dust grain is between the leaf and the flat hair ends"),
        ("clean(leaf)", "the leaf is clean"),
        ("not clean(ends)", "the flat hair ends are not clean"),
        ("temperature(leaf, 300 K)", "the temperature of the leaf is 300 K"),
        ('phase(dirt, "liquid")', "the phase of the dust grain is liquid"),
        ("less-than(dirt, leaf)", "the dust grain is less than the leaf"),
        ("carries(leaf, dirt)", "the leaf carries the dust grain"),
        ("not carries(leaf, dirt)", "the leaf does not carry the dust grain"),
        ("has-part(leaf, ends)", "the leaf has part the flat hair ends"),
        ("open(both)", "the notch and spur of the leg are open"),
    ],
)
def test_facts_read_as_sentences(fact: str, told: str) -> None:
    assert fact_sentence(parse_fact(fact), NAMES.__getitem__) == told


def test_plurals_are_told_by_the_head_noun() -> None:
    assert is_plural("bristles at the entry")
    assert not is_plural("edge of the scales")
    assert not is_plural("mucus")
    assert not is_plural("glass")


@pytest.mark.parametrize(
    ("condition", "told"),
    [
        (Condition(type="absent", text="no water", kind="liquid-water"), "there is no liquid water"),
        (Condition(type="medium", text="under water", kind="water"), "it happens in water"),
        (Condition(type="temperature", text="-20 degC", low=253.15, high=253.15, unit="K"),
         "the temperature is −20 °C"),
        (Condition(type="range", text="x", about="particle", quantity="particle size", low=5, high=50, unit="um"),
         "the particle size is 5 to 50 µm"),
        (Condition(type="note", text="blue"), "not understood; it is kept with the problem and decides nothing"),
    ],
)  # fmt: skip
def test_conditions_are_told_as_understood(condition: Condition, told: str) -> None:
    assert condition_text(condition) == told
