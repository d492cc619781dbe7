"""Facts: what goes in comes out, and what is no fact is refused with what was expected."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from analog.model.facts import parse_fact

NAMES = st.from_regex(r"[a-z][a-z0-9]{0,6}(-[a-z0-9]{1,4}){0,2}", fullmatch=True)


@given(NAMES, st.lists(NAMES, min_size=1, max_size=3), st.booleans())
def test_a_fact_over_parts_comes_back_as_written(relation: str, parts: list[str], negated: bool) -> None:
    text = f"{'not ' if negated else ''}{relation}({', '.join(parts)})"
    fact = parse_fact(text)
    assert str(fact) == text
    assert (fact.relation, fact.parts, fact.negated) == (relation, tuple(parts), negated)


def test_values_are_words_or_numbers_with_units() -> None:
    fact = parse_fact("temperature(leaf, 3.5e2 K)")
    assert (fact.arguments[1].number, fact.arguments[1].unit) == (350.0, "K")
    assert parse_fact('phase(water, "liquid, cold")').arguments[1].text == "liquid, cold"
    assert str(parse_fact('phase(water, "liquid")')) == 'phase(water, "liquid")'


@pytest.mark.parametrize(
    "text", ["", "touches", "touches()", "touches(a, b, c, d)", "touches(A)", 'touches("a")', "a(b(c))", "f(3 mm)"]
)
def test_what_is_no_fact_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="expected"):
        parse_fact(text)


@given(st.text(max_size=60))
def test_any_text_is_a_fact_or_a_value_error(text: str) -> None:
    try:
        parse_fact(text)
    except ValueError as error:
        assert "expected" in str(error)
