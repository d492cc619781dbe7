"""Ranges in, ranges out."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.scale.interval import INSIDE, corners, latin_hypercube, propagate


@pytest.mark.parametrize("dimensions", [1, 3, 6])
def test_every_slice_of_every_quantity_is_met_once(dimensions: int) -> None:
    """The defining property of a Latin hypercube (McKay, Beckman & Conover 1979), as scipy.stats.qmc has it too."""
    from scipy.stats import qmc

    ours = latin_hypercube(INSIDE, dimensions)
    theirs = qmc.LatinHypercube(dimensions, seed=1).random(INSIDE)
    for sample in (ours, theirs):
        for place in range(dimensions):
            assert sorted(int(point[place] * INSIDE) for point in sample) == list(range(INSIDE))


def test_the_sample_is_the_same_every_time() -> None:
    assert latin_hypercube(8, 2) == latin_hypercube(8, 2)


positive = st.floats(1e-3, 1e3)


@settings(max_examples=60, deadline=None)
@given(positive, positive, positive, positive)
def test_a_monotone_function_is_exact_at_the_corners(a: float, b: float, c: float, d: float) -> None:
    first, second = sorted((a, b)), sorted((c, d))
    found = propagate(lambda x, y: x / y, [tuple(first), tuple(second)])  # type: ignore[list-item]
    assert found.low == pytest.approx(first[0] / second[1])
    assert found.high == pytest.approx(first[1] / second[0])


def test_a_maximum_between_the_corners_is_found_by_the_points_inside() -> None:
    found = propagate(math.sin, [(0.0, math.pi)])
    assert found.high is not None and found.high > 0.99
    assert found.low == pytest.approx(0.0, abs=1e-12)


def test_a_single_value_is_computed_once() -> None:
    calls: list[float] = []
    propagate(lambda x: calls.append(x) or x, [(2.0, 2.0)])  # type: ignore[func-returns-value]
    assert calls == [2.0]


def test_many_ranges_do_not_explode() -> None:
    assert len(corners([(0.0, 1.0)] * 20)) == 2


def test_points_that_cannot_be_computed_are_counted_and_told() -> None:
    found = propagate(math.sqrt, [(-1.0, 4.0)])
    assert found.failures > 0 and found.high == 2.0 and found.fault
    nowhere = propagate(math.sqrt, [(-4.0, -1.0)])
    assert nowhere.low is None and nowhere.failures == nowhere.points
