"""The chance that a result is right rises with its score and stays between the points."""

from __future__ import annotations

import pytest

from analog.rank.calibration import POINTS, chance


def test_between_points_the_line_is_straight_and_outside_it_is_flat() -> None:
    points = ((0.2, 0.1), (0.4, 0.5), (0.6, 0.9))
    assert chance(0.3, points) == pytest.approx((0.1 + 0.5) / 2)
    assert chance(0.0, points) == 0.1
    assert chance(0.9, points) == 0.9


def test_the_shipped_points_rise() -> None:
    scores, shares = zip(*POINTS, strict=True)
    assert list(scores) == sorted(set(scores))
    assert list(shares) == sorted(shares)
    assert shares[0] >= 0 and shares[-1] <= 1
