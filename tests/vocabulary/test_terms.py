"""Links between terms against pairs graded by hand before the thesaurus was filled (our own grading)."""

from __future__ import annotations

import pytest

from analog.bench.terms import LISTS, measure, read_pairs
from analog.vocabulary import Vocabulary


@pytest.mark.parametrize("name", LISTS)
def test_both_lists_are_long_and_half_related(name: str) -> None:
    pairs = read_pairs(name)
    assert len(pairs) >= 120
    assert 0.4 <= sum(related for *_, related in pairs) / len(pairs) <= 0.6
    assert len({(a, b) for a, b, _ in pairs}) == len(pairs)


def test_the_lists_share_no_pair() -> None:
    first, second = ({(a, b) for a, b, _ in read_pairs(name)} for name in LISTS)
    assert not first & second


def test_related_terms_are_told_from_unrelated_ones(baked: Vocabulary) -> None:
    assert measure(baked, "development")["area_under_curve"] >= 0.95
    assert measure(baked, "report")["area_under_curve"] >= 0.90
