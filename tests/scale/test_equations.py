"""Every governing equation and every group, called with quantities: units come out as the record says."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from analog.model.quantity import registry
from analog.model.types import Principle
from analog.scale.evaluate import evaluate, shipped_principles
from analog.scale.registry import function
from analog.scale.units import read, to_si

PRINCIPLES = shipped_principles()
CALLS = [
    (p.id, name, inputs, output)
    for p in PRINCIPLES.values()
    for name, inputs, output in [
        *((g.function, g.inputs, "dimensionless") for g in p.groups),
        *(
            [(p.equation.function, p.equation.inputs, {s.id: s.unit for s in p.symbols}[p.equation.output])]
            if p.equation and p.equation.function and p.equation.output
            else []
        ),
    ]
]
VALUES = {"m": 1e-3, "radian": 0.6, "dimensionless": 0.3, "K": 300.0, "kg/m**3": 900.0, "N/m": 0.07, "Pa*s": 1e-3}

PER_THERMAL, PER_MOLE_THERMAL, GAS, SIGMA = "K/J", "K*mol/J", "J/mol/K", "W/m**2/K**4"
CONSTANTS = {  # constants of nature, or of a fit, that stand in a function as plain numbers: their units
    "binding-to-thermal-ratio": PER_MOLE_THERMAL,
    "bond-over-thermal-energy": PER_MOLE_THERMAL,
    "gravity-to-suction-share": PER_MOLE_THERMAL,
    "bond-force-ratio": PER_THERMAL,
    "shear-over-tumbling": PER_THERMAL,
    "transfer-over-thermal-energy": PER_THERMAL,
    "magnetic-over-thermal-energy": PER_THERMAL,
    "photon-over-reaction-energy": "J*m/mol",  # Planck constant, speed of light, Avogadro constant
    "chemical-light-power": "J*m/mol",
    "transfer-energy": "1/mol",
    "ion-energy-per-turn": "C",  # elementary charge
    "dipole-pair-energy": "N/A**2",  # magnetic constant
    "resting-metabolic-rate": "W/kg**0.75",  # a fit over body mass
    "nernst-potential": "V/K",  # gas constant over Faraday constant
    "osmotic-pressure": GAS,
    "water-potential-of-air": GAS,
    "radiative-heat-flow": SIGMA,
    "radiation-exchange": SIGMA,
    "stack-pressure": "kg*K/J",  # one over the gas constant of dry air
}


def _units(principle: Principle, inputs: tuple[str, ...]) -> list[str]:
    symbols = {symbol.id: symbol.unit for symbol in principle.symbols}
    return [symbols[name] for name in inputs]


def _through_pint(name: str, units: list[str]) -> Any:
    """The function called with quantities, or None if it cannot take them."""
    arguments = [
        registry().Quantity(VALUES.get(unit, 2.0), unit if unit not in {"dimensionless", "radian"} else "")
        for unit in units
    ]
    plain = [argument.magnitude if argument.dimensionless else argument for argument in arguments]
    try:
        return function(name)(*plain)
    except (TypeError, ValueError, AttributeError, NotImplementedError):
        return None
    except Exception as error:  # pint's own: a quantity met a plain number inside
        if type(error).__module__.startswith("pint"):
            return None
        raise


def test_where_quantities_go_through_the_unit_is_the_records() -> None:
    tested = 0
    for principle_id, name, inputs, output in CALLS:
        result = _through_pint(name, _units(PRINCIPLES[principle_id], inputs))
        if result is None:
            continue
        tested += 1
        unit = getattr(result, "units", registry().dimensionless)
        made = registry().Quantity(1.0, unit) * registry().Quantity(1.0, CONSTANTS.get(name, ""))
        left = made / registry().Quantity(1.0, output if output != "radian" else "")
        # powers of one third come back as 0.333333, so a power is none if it is nearly 0
        assert all(abs(power) < 1e-6 for power in dict(left.dimensionality).values()), (principle_id, name, left.units)
    assert tested >= 250, tested  # most are plain arithmetic


def test_a_group_has_the_same_value_in_a_system_of_millimetre_gram_and_minute() -> None:
    """What makes a number dimensionless: all inputs told in another system of units leave it as it is.

    Groups with a constant inside are left out, and those whose units pint cannot follow.
    """
    scale = {0: 1e3, 1: 1e3, 2: 1 / 60}  # metre to millimetre, kilogram to gram, second to minute
    tested = 0
    for principle_id, name, inputs, output in CALLS:
        units = _units(PRINCIPLES[principle_id], inputs)
        if output != "dimensionless" or name in CONSTANTS or _through_pint(name, units) is None:
            continue
        dimensions = [read(unit).dimension for unit in units]
        if any(any(dimension[3:]) for dimension in dimensions):
            continue  # kelvin, mole, ampere stay as they are, so a constant with them would show as a fault
        factors = [np.prod([scale[i] ** float(power) for i, power in enumerate(d[:3])]) for d in dimensions]
        plain = [VALUES.get(unit, 2.0) for unit in units]
        other = [float(value * factor) for value, factor in zip(plain, factors, strict=True)]
        assert function(name)(*other) == pytest.approx(function(name)(*plain), rel=1e-9), (principle_id, name)
        tested += 1
    assert tested >= 60, tested


@pytest.mark.parametrize("principle_id", sorted(PRINCIPLES))
def test_every_record_can_be_put_to_values_of_its_symbols(principle_id: str) -> None:
    """Defaults, names, units and functions fit together: ordinary values of every symbol compute or say why not."""
    principle = PRINCIPLES[principle_id]
    values = {s.id: s.default if s.default is not None else VALUES.get(s.unit, 2.0) for s in principle.symbols}
    check = evaluate(principle_id, values, PRINCIPLES)
    for group in check.groups:
        assert not group.missing
        assert group.low is not None or group.note
    assert set(check.values) == set(values)


@pytest.mark.parametrize(("unit", "factor"), [("um", 1e6), ("mm", 1e3), ("km", 1e-3)])
def test_a_check_does_not_depend_on_the_unit_of_a_length(unit: str, factor: float) -> None:
    metres = evaluate("sieving", {"particle diameter": "0.001 m", "gap width": "0.0005 m"}).groups[0]
    other = evaluate(
        "sieving", {"particle diameter": f"{0.001 * factor!r} {unit}", "gap width": f"{0.0005 * factor!r} {unit}"}
    ).groups[0]
    assert other.low == pytest.approx(metres.low) and other.status == metres.status
    assert to_si(0.001 * factor, unit, "m") == pytest.approx(0.001)


def test_far_below_and_far_above_a_bound_a_regime_holds_and_fails() -> None:
    """Limits: as the drop shrinks the Bond number goes to 0 and the spherical drop holds; as it grows, it fails."""
    small, large = (evaluate("coalescence-jumping", {"drop radius": size}) for size in (1e-6, 1.0))
    by = {g.group.id: g for g in small.groups}, {g.group.id: g for g in large.groups}
    assert by[0]["bond-number"].status == "holds" and by[0]["bond-number"].low < 1e-6
    assert by[1]["bond-number"].status == "fails" and by[1]["bond-number"].low > 1e4
