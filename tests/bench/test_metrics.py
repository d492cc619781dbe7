"""Measures on rankings small enough to work out by hand."""

from math import log2

import numpy as np
import pytest

from analog.bench.metrics import look_alike_rate, look_alikes_below, measure, paired_difference
from analog.bench.peers import fused_by_rank
from analog.bench.problems import GradedProblem


def graded(identifier: str, relevant: dict[str, int], look_alikes: tuple[str, ...] = ()) -> GradedProblem:
    return GradedProblem(identifier, "text", (), "near", "imperative", "trade", relevant, look_alikes, bool(relevant))


# Järvelin & Kekäläinen (2002), ACM TOIS 20(4), 422-446: the gain of each rank over a logarithmic discount, divided by
# that of the ideal order. The discount log2(rank + 1) from the first rank on is the form in general use since.
GAINS = 3 / log2(2) + 0 / log2(3) + 1 / log2(4) + 2 / log2(5)
IDEAL = 3 / log2(2) + 2 / log2(3) + 1 / log2(4)


def test_ndcg_of_a_known_ranking() -> None:
    """The library gives the value worked out by hand, in whatever order the problems come."""
    problems = [graded("z", {"a": 3, "c": 1, "d": 2}), graded("b", {"a": 1})]
    values = measure(problems, {"z": ["a", "b", "c", "d"], "b": ["x", "a"]})["nDCG@10"]
    assert values == pytest.approx([GAINS / IDEAL, (1 / log2(3)) / (1 / log2(2))])


def test_a_right_model_beyond_the_tenth_rank_or_never_found_counts_nothing() -> None:
    problems = [graded("p", {"late": 3}), graded("q", {"absent": 3}), graded("r", {"absent": 3})]
    fillers = [f"m{i}" for i in range(10)]
    values = measure(problems, {"p": [*fillers, "late"], "q": fillers, "r": []})
    assert values["nDCG@10"] == pytest.approx([0, 0, 0])
    assert values["MRR"] == pytest.approx([1 / 11, 0, 0])
    assert values["hit@10"] == pytest.approx([0, 0, 0])


def test_rank_measures_count_grades_two_and_three() -> None:
    """A model worth a look is no hit; the first hit is at rank 4, so the reciprocal rank is a quarter."""
    values = measure([graded("p", {"weak": 1, "good": 2})], {"p": ["weak", "x", "y", "good"]})
    assert values["MRR"] == pytest.approx([1 / 4])
    assert [float(values[name][0]) for name in ("hit@1", "hit@3", "hit@5")] == [0, 0, 1]


def test_rank_measures_say_nothing_where_no_model_is_better_than_worth_a_look() -> None:
    values = measure([graded("p", {"weak": 1})], {"p": ["weak"]})
    assert values["nDCG@10"] == pytest.approx([1])
    assert np.isnan(values["MRR"][0])


def test_uncovered_problems_are_left_out() -> None:
    values = measure([graded("none", {}), graded("p", {"a": 3})], {"none": ["a"], "p": ["a"]})
    assert values["nDCG@10"] == pytest.approx([1])


def test_look_alikes_must_stand_below_the_best_right_model() -> None:
    """Of a, the first right model: x stands above it, y below it, z is not found at all."""
    problem = graded("p", {"a": 3, "b": 3, "weak": 1}, ("x", "y", "z"))
    assert look_alikes_below(problem, ["x", "a", "y", "b"]) == [False, True, True]
    assert look_alikes_below(problem, ["weak"]) == [False, False, False]
    other = graded("q", {"c": 2}, ("x",))
    rate = look_alike_rate([problem, other], {"p": ["x", "a", "y", "b"], "q": ["c"]})
    assert rate == pytest.approx((2 + 1) / (3 + 1))


def test_fusion_adds_reciprocal_ranks() -> None:
    """Cormack, Clarke & Büttcher (2009), SIGIR, 758-759: each ranking adds 1 / (60 + rank).

    a: 1/61 + 1/63, b: 1/62 + 1/61, c: 1/62 alone.
    """
    assert 1 / 62 + 1 / 61 > 1 / 61 + 1 / 63 > 1 / 62
    assert fused_by_rank([["a", "b"], ["b", "c", "a"]]) == ["b", "a", "c"]


def test_bootstrap_of_a_constant_difference_has_no_width() -> None:
    rng = np.random.default_rng(1)
    theirs = rng.random(50)
    assert paired_difference(theirs + 0.1, theirs) == pytest.approx((0.1, 0.1, 0.1))


def test_bootstrap_interval_agrees_with_the_normal_one() -> None:
    """For the mean of many values the percentile interval nears mean ± 1.96 standard errors (central limit theorem)."""
    rng = np.random.default_rng(2)
    ours, theirs = rng.normal(0.6, 0.1, 400), rng.normal(0.5, 0.1, 400)
    mean, low, high = paired_difference(ours, theirs)
    error = np.std(ours - theirs, ddof=1) / 400**0.5
    assert mean == pytest.approx(np.mean(ours - theirs))
    assert (low, high) == pytest.approx((mean - 1.96 * error, mean + 1.96 * error), abs=0.2 * error)
    assert paired_difference(ours, theirs) == (mean, low, high)  # the seed is fixed


def test_rows_of_unequal_length_are_refused() -> None:
    with pytest.raises(ValueError, match="equal length"):
        paired_difference(np.zeros(3), np.zeros(4))
