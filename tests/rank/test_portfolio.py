"""Set cover by hand and by enumeration; diversity by arithmetic."""

from __future__ import annotations

import itertools
import random

import pytest

from analog.rank.diversity import diversified
from analog.rank.portfolio import smallest_cover


def sets(**covers: str) -> dict[str, frozenset[str]]:
    return {name: frozenset(covered) for name, covered in covers.items()}


def test_one_candidate_that_covers_all_beats_two_better_ones() -> None:
    covers = sets(both="ab", first="a", second="b")
    found = smallest_cover("ab", covers, {"both": 0.3, "first": 0.9, "second": 0.9})
    assert dict(found.members) == {"both": ("a", "b")}
    assert found.uncovered == ()


def test_of_equally_small_covers_the_best_scored_wins() -> None:
    covers = sets(a1="a", a2="a", b1="b")
    found = smallest_cover("ab", covers, {"a1": 0.4, "a2": 0.6, "b1": 0.5})
    assert list(found.members) == ["a2", "b1"]


def test_what_nothing_covers_is_said() -> None:
    found = smallest_cover("abc", sets(x="a"), {"x": 1.0})
    assert found.uncovered == ("b", "c")
    assert smallest_cover("ab", {}, {}).uncovered == ("a", "b")


@pytest.mark.parametrize("seed", range(20))
def test_the_cover_is_as_small_as_enumeration_finds(seed: int) -> None:
    """Second opinion: all subsets of up to 8 candidates over 5 requirements."""
    rng = random.Random(seed)
    names = [f"c{i}" for i in range(8)]
    covers = {name: frozenset(r for r in "abcde" if rng.random() < 0.35) for name in names}
    scores = {name: round(rng.random(), 3) for name in names}
    coverable = frozenset().union(*covers.values())
    best = min(
        (
            (len(chosen), -sum(scores[n] for n in chosen))
            for size in range(9)
            for chosen in itertools.combinations(names, size)
            if frozenset().union(*(covers[n] for n in chosen)) >= coverable
        ),
    )
    found = smallest_cover("abcde", covers, scores)
    assert len(found.members) == best[0]
    assert sum(scores[n] for n in found.members) == pytest.approx(-best[1])


def test_a_copy_falls_behind_a_different_idea_of_nearly_the_same_score() -> None:
    """0.80 discounted by a tenth for the same principles is 0.72 < 0.75."""
    principles = [frozenset("p"), frozenset("p"), frozenset("q")]
    assert diversified([0.9, 0.8, 0.75], principles, 3, 0.1) == [(0, 1.0), (2, 1.0), (1, 0.9)]
    assert diversified([0.9, 0.8, 0.70], principles, 3, 0.1) == [(0, 1.0), (1, 0.9), (2, 1.0)]
    assert diversified([0.9, 0.8, 0.75], principles, 3, 0.0) == [(0, 1.0), (1, 1.0), (2, 1.0)]


def test_candidates_without_principles_are_unlike_all() -> None:
    assert diversified([0.5, 0.4, 0.3], [frozenset(), frozenset(), frozenset()], 2) == [(0, 1.0), (1, 1.0)]
