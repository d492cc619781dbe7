"""What the tests of computed values ask of principle records; used by one test file for each field."""

from __future__ import annotations

import inspect
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest

import analog.scale
from analog.model.load import load_principles
from analog.model.quantity import registry
from analog.model.types import Principle
from analog.scale.registry import function

RELATIVE = {"exact": 1e-6, "library": 1e-6, "other formulation": 1e-5, "arithmetic": 0.005, "memory": 0.05}
"""Tolerance by the kind of source: a definition or a sum in full, a library's own output, a library that fits the
same property by another formula, a rounded sum done by hand, a figure from memory."""


@lru_cache(maxsize=1)
def principles() -> dict[str, Principle]:
    """Every principle record, read once."""
    return load_principles(Path(analog.scale.__file__).parent / "principles")


def calls_into(module: str, fields: frozenset[str]) -> list[tuple[str, str, tuple[str, ...]]]:
    """(principle, function, inputs) for every use of a function of this module in the records of these fields."""
    uses = []
    for principle in principles().values():
        if principle.field not in fields:
            continue
        calls = [(group.function, group.inputs) for group in principle.groups]
        if principle.equation and principle.equation.function:
            calls.append((principle.equation.function, principle.equation.inputs))
        uses += [
            (principle.id, name, inputs) for name, inputs in calls if function(name).__module__.endswith(f".{module}")
        ]
    return uses


def assert_records_fit(module: str, fields: frozenset[str], checked: set[str]) -> None:
    """What records of these fields call in the module has a check value and as many inputs as the record names.

    Inputs that bear the name of a parameter must also stand in its place.
    """
    uses = calls_into(module, fields)
    assert uses
    for principle, name, inputs in uses:
        assert name in checked, f"{principle}: {name} has no check value"
        parameters = [key.replace("_", "-") for key in inspect.signature(function(name)).parameters]
        assert len(inputs) == len(parameters), f"{principle}: {name} takes {parameters}"
        for place, key in enumerate(inputs):
            assert key not in parameters or parameters[place] == key, f"{principle}: {name} mixes up its inputs"


def assert_unit_of_equation(principle_id: str) -> None:
    """The function of the record, called with quantities in the units of its symbols, returns the output's unit."""
    principle = principles()[principle_id]
    equation, unit = principle.equation, {symbol.id: symbol.unit for symbol in principle.symbols}
    assert equation and equation.function and equation.output
    # Different numbers for each input, so that no difference or logarithm happens to vanish.
    inputs = [registry().Quantity(0.9 - 0.1 * place, unit[key]) for place, key in enumerate(equation.inputs)]
    result: Any = registry().Quantity(function(equation.function)(*inputs))
    left_over = (result / registry().Quantity(1.0, unit[equation.output])).to_base_units().dimensionality
    # Broken powers leave exponents of the order of 1e-16.
    assert all(abs(exponent) < 1e-9 for exponent in left_over.values()), f"{principle_id}: {result.units}"


def assert_groups_are_dimensionless(principle_id: str) -> None:
    """Every group of the record comes out as a pure number when its inputs carry their units."""
    principle = principles()[principle_id]
    unit = {symbol.id: symbol.unit for symbol in principle.symbols}
    for group in principle.groups:
        inputs = [registry().Quantity(0.9 - 0.1 * place, unit[key]) for place, key in enumerate(group.inputs)]
        result: Any = registry().Quantity(function(group.function)(*inputs))
        assert result.dimensionless, f"{principle_id}, {group.id}: {result.units}"


def assert_inside_regime(principle_id: str, group_id: str, inputs: tuple[float, ...], case: str) -> None:
    """The group computed for a natural case lies inside every bound on it, or at the edge the bound allows."""
    principle = principles()[principle_id]
    group = next(group for group in principle.groups if group.id == group_id)
    bounds = [bound for bound in principle.regime if bound.group == group_id]
    assert bounds, f"{principle_id} has no bound on {group_id}"
    value = function(group.function)(*inputs)
    for bound in bounds:
        assert bound.low is None or value >= bound.low / bound.edge, f"{case}: {value}"
        assert bound.high is None or value <= bound.high * bound.edge, f"{case}: {value}"


def assert_value(name: str, inputs: tuple[float, ...], expected: float, kind: str, source: str) -> None:
    """The function gives the expected value within the tolerance of its kind of source."""
    assert function(name)(*inputs) == pytest.approx(expected, rel=RELATIVE[kind]), source
