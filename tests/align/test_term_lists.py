"""Lists of terms without relations: invariants, what is refused, and that words of a kind meet."""

from __future__ import annotations

from dataclasses import asdict

import pytest

from analog.align.term_lists import DOUBLE, IN_USE, MOST_TERMS, SINGLE, align_terms
from analog.api import Library
from analog.encode.fake import HashingEncoder
from analog.errors import FormatError

FLOW = ["water", "pipe", "pump", "flows", "pressure"]
CURRENT = ["electricity", "wire", "battery", "moves", "voltage"]


def mapping(library: Library, base: list[str], target: list[str]) -> dict[str, str]:
    return {match.base: match.target for match in library.align_terms(base, target).terms}


def test_every_kind_of_evidence_has_a_weight_not_below_zero() -> None:
    assert {*SINGLE, *DOUBLE} == set(asdict(IN_USE))
    assert min(asdict(IN_USE).values()) >= 0


def test_a_list_meets_itself_in_any_order(library: Library) -> None:
    found = library.align_terms(FLOW, FLOW[::-1])
    assert {match.base: match.target for match in found.terms} == {term: term for term in FLOW}
    assert found.optimal
    assert found.gap == 0


def test_the_water_analogy_of_electricity(library: Library) -> None:
    """Gentner & Gentner (1983), Flowing waters or teeming crowds, in Gentner & Stevens (eds), Mental Models: pipe is
    to wire as pump to battery and pressure to voltage. Not among the problems the weights were fitted on."""
    found = mapping(library, FLOW, CURRENT)
    assert found["pipe"] == "wire"
    assert found["pressure"] == "voltage"
    assert found["flows"] == "moves"


def test_turned_round_the_pairs_are_the_same(library: Library) -> None:
    there, back = mapping(library, FLOW, CURRENT), mapping(library, CURRENT, FLOW)
    assert {b: a for a, b in there.items()} == back


def test_what_is_left_over_of_the_longer_list_is_told(library: Library) -> None:
    for base, target in ((FLOW, CURRENT[:3]), (FLOW[:3], CURRENT)):
        found = library.align_terms(base, target)
        assert len(found.terms) == 3
        assert len(found.unmatched) == 2
        longer = max(base, target, key=len)
        assert {*found.unmatched, *(m.base if longer is base else m.target for m in found.terms)} == set(longer)


def test_opposites_on_both_sides_are_shown(library: Library) -> None:
    """hot - cold and loud - quiet are antonyms in WordNet 3.0."""
    vocabulary = library.vocabulary
    found = align_terms(["hot", "cold", "iron"], ["violin", "quiet", "loud"], vocabulary, HashingEncoder())
    assert {match.base: match.target for match in found.terms}["iron"] == "violin"
    assert "opposite: hot - cold" in "; ".join(map(str, found.shared))


@pytest.mark.parametrize(
    ("terms", "says"),
    [
        (["one"], "expected 2 to"),
        ([f"term {chr(97 + i)}" for i in range(MOST_TERMS + 1)], "found 26"),
        (["sun", "Sun "], "again"),
        (["sun", " "], "terms[1]"),
        (["sun", "?!"], "terms[1]"),
        (["sun", "x" * 81], "up to 80"),
        (["sun", 5], "list of words"),
        ("sun", "list of words"),
    ],
)
def test_a_list_that_cannot_be_used_is_told(library: Library, terms: object, says: str) -> None:
    for pair in ((terms, FLOW), (FLOW, terms)):
        with pytest.raises(FormatError) as caught:
            library.align_terms(*pair)  # type: ignore[arg-type]
        assert says in str(caught.value)
