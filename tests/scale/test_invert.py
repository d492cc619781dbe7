"""The value that would decide: the bound of a group solved for what is missing."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from analog.model.types import Symbol
from analog.scale.invert import decide
from analog.scale.registry import function

LENGTH = Symbol(id="length", symbol="L", name="drop radius", unit="m")
WATER = (997.0, 9.80665, 0.0727)


def test_bond_number_of_one_is_the_capillary_length() -> None:
    """√(0.0727 / (997 × 9.80665)) = √(7.4356e-6) = 2.7268e-3 m; water's capillary length is 2.7 mm in any textbook."""
    density, gravity, tension = WATER
    ranges = [(density, density), (gravity, gravity), None, (tension, tension)]
    found = decide(function("bond-number"), ranges, LENGTH, None, 1.0)
    assert found is not None
    [(low, high)] = found.intervals
    assert low is None and high == pytest.approx(2.7268e-3, rel=1e-4)
    assert found.text == "drop radius must stay below 2.73 mm"


@settings(max_examples=40, deadline=None)
@given(st.floats(1e-2, 1e2), st.floats(0.5, 3.0), st.floats(1e-3, 1e3))
def test_the_turn_is_where_brentq_finds_the_root(factor: float, power: float, bound: float) -> None:
    def grows(length: float) -> float:
        return factor * length**power

    root = brentq(lambda log: math.log(grows(math.exp(log)) / bound), math.log(1e-15), math.log(1e15), xtol=1e-13)
    found = decide(grows, [None], LENGTH, bound, None)
    assert found is not None
    assert found.intervals[0][0] == pytest.approx(math.exp(root), rel=1e-9)
    assert found.intervals[0][1] is None


def test_both_ends_of_a_bound_give_a_span() -> None:
    found = decide(lambda x: 2 * x, [None], LENGTH, 1.0, 4.0)
    assert found is not None
    assert found.intervals == ((pytest.approx(0.5), pytest.approx(2.0)),)


def test_the_other_ranges_are_met_at_their_worst() -> None:
    """x·y ≤ 1 with y from 1 to 4 holds for every y only while x ≤ 1/4."""
    found = decide(lambda x, y: x * y, [None, (1.0, 4.0)], LENGTH, None, 1.0)
    assert found is not None and found.intervals[0][1] == pytest.approx(0.25)


def test_a_hump_gives_two_spans() -> None:
    """x + 1/x ≥ 2.5 holds below 1/2 and above 2."""
    found = decide(lambda x: x + 1 / x, [None], LENGTH, 2.5, None)
    assert found is not None
    assert found.intervals == ((None, pytest.approx(0.5)), (pytest.approx(2.0), None))
    assert " or above 2" in found.text


def test_nothing_would_do_is_told() -> None:
    found = decide(lambda x: 1.0, [None], LENGTH, 2.0, None)
    assert found is not None and not found.decides
    assert found.text == "no value of the drop radius would do"


def test_an_angle_is_sought_between_0_and_180_degrees() -> None:
    angle = Symbol(id="angle", symbol="θ", name="contact angle", unit="radian")
    found = decide(lambda x: -math.cos(x), [None], angle, 0.0, None)
    assert found is not None and found.intervals[0][0] == pytest.approx(math.pi / 2, abs=1e-9)
    assert found.text == "contact angle must stay above 90°"


def test_a_function_that_raises_everywhere_decides_nothing() -> None:
    assert decide(lambda x: math.sqrt(-x), [None], LENGTH, 1.0, None) is None
