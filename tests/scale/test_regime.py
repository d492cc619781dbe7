"""A bound put to a value: holds, at the edge, fails, missing."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.model.types import Bound
from analog.scale.regime import RegimeCheck, check_regime, judge
from analog.scale.values import SymbolValue
from tests.scale.helpers import principle


def bound(low: float | None = None, high: float | None = None, edge: float = 1.25) -> Bound:
    return Bound(text="bound", group="g", low=low, high=high, edge=edge, source="memory")


@pytest.mark.parametrize(
    ("low", "high", "limits", "status"),
    [
        (2.0, 2.0, bound(low=1), "holds"),
        (1.25, 1.25, bound(low=1), "holds"),  # exactly the factor away
        (1.1, 1.1, bound(low=1), "edge"),
        (0.9, 0.9, bound(low=1), "edge"),
        (0.5, 0.5, bound(low=1), "fails"),
        (0.5, 2.0, bound(low=1), "edge"),  # part of the range lies outside
        (0.1, 0.79, bound(low=1), "fails"),
        (10.0, 10.0, bound(low=5, high=30), "holds"),
        (5.0, 5.0, bound(low=5, high=30), "edge"),
        (40.0, 50.0, bound(low=5, high=30), "fails"),
        (1.0, 100.0, bound(low=5, high=30), "edge"),
        (-3.0, -3.0, bound(low=-1), "fails"),
        (-1.1, -1.1, bound(low=-1), "edge"),
        (0.0, 0.0, bound(low=0), "holds"),  # no factor leads to 0, so 0 has no edge
        (-0.001, -0.001, bound(low=0), "fails"),
        (7.0, 7.0, bound(), "no bound"),
        (0.9, 0.9, bound(low=1, edge=1.0), "fails"),
    ],
)
def test_status_of_a_range_under_a_bound(low: float, high: float, limits: Bound, status: str) -> None:
    assert judge(low, high, limits) == status


@settings(max_examples=100, deadline=None)
@given(st.floats(1e-3, 1e3), st.floats(1e-3, 1e3), st.floats(1.0, 5.0))
def test_a_lower_bound_on_x_is_an_upper_bound_on_one_over_x(value: float, limit: float, edge: float) -> None:
    """Allow for the last bit: only values clearly off the turning points are compared."""
    for turn in (limit, limit * edge, limit / edge):
        if abs(value / turn - 1) < 1e-9:
            return
    assert judge(value, value, bound(low=limit, edge=edge)) == judge(
        1 / value, 1 / value, bound(high=1 / limit, edge=edge)
    )


def value(symbol: str, low: float, high: float | None = None) -> SymbolValue:
    return SymbolValue(symbol, symbol, "m", low, low if high is None else high, "given", "as given")


def test_both_values_make_the_group_and_its_status() -> None:
    check = check_regime(
        principle(),
        {"particle-diameter": value("particle-diameter", 5e-6, 5e-5), "gap-width": value("gap-width", 1e-4)},
    )
    [group] = check.groups
    assert (group.low, group.high) == (pytest.approx(0.05), pytest.approx(0.5))
    assert (group.status, check.status) == ("holds", "holds")


def test_a_missing_value_is_named_with_the_values_that_would_do() -> None:
    """d / w ≤ 1 for d up to 50 µm: w must be at least 50 µm."""
    check = check_regime(principle(), {"particle-diameter": value("particle-diameter", 5e-6, 5e-5)})
    [group] = check.groups
    assert group.status == "missing" and group.missing == ("gap-width",)
    assert group.decisions[0].intervals == ((pytest.approx(5e-5), None),)
    assert group.decisions[0].text == "gap width must stay above 50 µm"


def test_nothing_given_asks_for_everything() -> None:
    check = check_regime(principle(), {})
    assert check.status == "missing"
    assert check.groups[0].missing == ("particle-diameter", "gap-width") and not check.groups[0].decisions


def test_a_group_given_as_such_needs_no_parts() -> None:
    given_as_such = SymbolValue("size-share", "particle over gap", "dimensionless", 3.0, 3.0, "given", "as given")
    check = check_regime(principle(), {"size-share": given_as_such})
    assert check.groups[0].status == "fails" and check.groups[0].low == 3.0


def test_a_group_that_cannot_be_computed_says_why() -> None:
    check = check_regime(
        principle(), {"particle-diameter": value("particle-diameter", 1e-6), "gap-width": value("gap-width", 0.0)}
    )
    assert check.groups[0].status == "missing"
    assert "cannot be computed" in check.groups[0].note


def test_the_record_can_be_printed_as_json() -> None:
    import json

    record = check_regime(principle(), {"gap-width": value("gap-width", 1e-4)}).to_dict()
    text = json.loads(json.dumps(record, allow_nan=False))
    assert text["groups"][0]["decides"][0]["symbol"] == "particle-diameter"
    assert text["groups"][0]["bound"]["high"] == 1.0


def _slot(values: dict[str, float]) -> RegimeCheck:
    """The gap width comes from the equation w = A / b where it is not given."""
    symbols = [
        {"id": name, "symbol": letter, "name": name.replace("-", " "), "unit": unit}
        for name, letter, unit in (
            ("particle-diameter", "d", "m"),
            ("gap-width", "w", "m"),
            ("slot-area", "A", "m**2"),
            ("slot-length", "b", "m"),
        )
    ]
    equation = {
        "text": "w = A / b",
        "latex": "w = A / b",
        "function": "ratio",
        "inputs": ["slot-area", "slot-length"],
        "output": "gap-width",
    }
    record = principle(symbols=symbols, equation=equation)
    units = record.units
    told = {name: SymbolValue(name, name, units[name], v, v, "given", "test") for name, v in values.items()}
    return check_regime(record, told)


def test_what_the_equation_computes_serves_the_groups() -> None:
    check = _slot({"particle-diameter": 1e-5, "slot-area": 1e-6, "slot-length": 0.01})
    assert check.groups[0].low == pytest.approx(1e-5 / (1e-6 / 0.01))
    assert "gap-width" not in check.values


def test_a_given_value_comes_before_a_computed_one() -> None:
    check = _slot({"particle-diameter": 1e-5, "gap-width": 2e-5, "slot-area": 1e-6, "slot-length": 0.01})
    assert check.groups[0].low == pytest.approx(0.5)
