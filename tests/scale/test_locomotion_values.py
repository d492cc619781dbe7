"""Drag, lift, thrust and wall friction against a library, published figures and hand arithmetic.

CHECKS: function, inputs in SI units, expected value, kind of source (it sets the tolerance), source.
"""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analog.scale.registry import function
from tests.scale.record_checks import (
    assert_groups_are_dimensionless,
    assert_inside_regime,
    assert_records_fit,
    assert_unit_of_equation,
    assert_value,
)

GRAVITY = 9.80665
FIELDS = frozenset({"aerodynamics and locomotion"})
BECHERT = "Bechert 1997: best spacing about 15 wall units; "

CHECKS = [
    ("drag-force", (1.2, 10.0, 0.5, 0.02), 0.6, "exact", "1.2 x 100 x 0.5 x 0.02 / 2"),
    ("drag-force", (998.2, 2.0, 1.17, pi / 400), 18.345, "arithmetic", "disc 0.1 m wide: 1996.4 x 1.17 x 0.00785398"),
    ("lift-force", (1.225, 15.0, 0.8, 0.3), 33.075, "exact", "1.225 x 225 x 0.8 x 0.3 / 2"),
    ("lift-force", (1025.0, 3.0, -0.5, 0.1), -230.625, "exact", "-1025 x 9 x 0.05 / 2"),
    ("streamlined-drag-coefficient", (0.003, 0.2, 1.0), 0.00357049, "arithmetic", "0.003 x (1 + 0.134164 + 0.056)"),
    ("streamlined-drag-coefficient", (1.0, 1.0, 1.0), 9.5, "exact", "1 + 1.5 + 7"),
    (
        "rib-spacing-in-wall-units",
        (0.3175e-3, 1.0, 0.0045, 1.0, 1.004e-6),
        15.0,
        "arithmetic",
        BECHERT + "water, 1 m/s",
    ),
    (
        "rib-spacing-in-wall-units",
        (40.2e-6, 10.0, 0.0028, 1.0, 1.004e-6),
        15.0,
        "arithmetic",
        BECHERT + "water, 10 m/s",
    ),
    ("rib-spacing-in-wall-units", (68.8e-6, 230.0, 0.0022, 1.0, 3.5e-5), 15.0, "arithmetic", BECHERT + "airliner"),
    ("turbulent-layer-thickness", (1000.0, 1.0, 1.0, 1e-3), 0.0233454, "arithmetic", "0.37 x (1e6)^-0.2"),
    ("turbulent-layer-thickness", (1.2, 50.0, 2.0, 1.8e-5), 0.0319, "arithmetic", "0.74 x (6.667e6)^-0.2"),
    ("device-to-layer-ratio", (0.0116727, 1000.0, 1.0, 1.0, 1e-3), 0.5, "arithmetic", "0.0116727 / 0.0233454"),
    ("strouhal-number", (8.0, 2.0, 4.0), 4.0, "library", "fluids 1.3.1, Strouhal"),
    ("strouhal-number", (2.0, 0.5, 3.5), 0.285714, "arithmetic", "1 / 3.5"),
    ("jet-thrust", (1000.0, 1e-4, 5.0, 1.0), 2.0, "exact", "1000 x 1e-4 x 5 x 4"),
    (
        "jet-thrust",
        (1000.0, pi * 1e-8, 10.0, 0.0),
        3.14159e-3,
        "arithmetic",
        "spray 0.2 mm wide at 10 m/s: π 1e-8 x 1e5",
    ),
    ("autorotation-sinking-speed", (1e-4, GRAVITY, 1.2, 0.5, 0.005), 0.808564, "arithmetic", "√(1.96133e-3 / 0.003)"),
    ("autorotation-sinking-speed", (2.0, 10.0, 1.0, 1.0, 10.0), 2.0, "exact", "√(40 / 10)"),
    ("counter-turn", (pi, 1e-5, 1e-5), pi / 2, "exact", "equal halves turn equally far"),
    ("counter-turn", (2.0, 1e-5, 3e-5), 0.5, "exact", "2 x 1 / 4; 1.5 x 1e-5 = 0.5 x 3e-5 kg m²"),
    ("reconfigured-drag", (0.1, 10.0, 5.0, 0.0), 0.4, "exact", "stiff: twice the speed, four times the drag"),
    ("reconfigured-drag", (0.1, 10.0, 5.0, -1.0), 0.2, "exact", "twice the speed, twice the drag"),
    (
        "reconfigured-drag",
        (1.0, 8.0, 1.0, -2 / 3),
        16.0,
        "exact",
        "8^(4/3): the fully bent thread of Alben, Shelley and Zhang 2002",
    ),
    ("least-wind-step", (GRAVITY, 5.0, 20.0), 2.4516625, "exact", "9.80665 x 5 / 20"),
    ("least-wind-step", (GRAVITY, 7.5, 20.0), 3.6775, "arithmetic", "73.5499 / 20"),
]


@pytest.mark.parametrize(("name", "inputs", "expected", "kind", "source"), CHECKS)
def test_function_gives_the_published_or_worked_value(
    name: str, inputs: tuple[float, ...], expected: float, kind: str, source: str
) -> None:
    assert_value(name, inputs, expected, kind, source)


def test_records_and_functions_agree_on_inputs() -> None:
    assert_records_fit("locomotion", FIELDS, {name for name, *_ in CHECKS})


@pytest.mark.parametrize("principle", ["bluff-body-drag", "lift", "strouhal-propulsion", "jet-propulsion"])
def test_groups_are_pure_numbers(principle: str) -> None:
    assert_groups_are_dimensionless(principle)


@pytest.mark.parametrize(
    "principle",
    [
        "bluff-body-drag",
        "lift",
        "strouhal-propulsion",
        "jet-propulsion",
        "streamlining",
        "riblet-drag-reduction",
        "vortex-generation",
        "autorotation",
    ],
)
def test_equations_have_the_unit_of_their_output(principle: str) -> None:
    assert_unit_of_equation(principle)


@pytest.mark.parametrize("diameter", [1e-3, 2e-3, 1e-2])
def test_drag_at_the_terminal_speed_of_a_library_balances_the_weight(diameter: float) -> None:
    from fluids import drag, v_terminal

    density, grain, viscosity = 1000.0, 2600.0, 1e-3
    speed = v_terminal(D=diameter, rhop=grain, rho=density, mu=viscosity)
    coefficient = drag.drag_sphere(function("reynolds-number")(density, speed, diameter, viscosity))
    ours = function("drag-force")(density, speed, coefficient, pi * diameter**2 / 4)
    assert ours == pytest.approx((grain - density) * GRAVITY * pi * diameter**3 / 6, rel=1e-4)


# Natural cases with figures of the papers and books named (from memory) lie inside the bounds or at their edge.
NATURE = [
    ("bluff-body-drag", "reynolds-number", (1.204, 0.4, 14e-3, 1.82e-5), "dandelion plume, Cummins 2018"),
    ("bluff-body-drag", "reynolds-number", (1.204, 5.0, 0.2e-3, 1.82e-5), "sand grain in wind"),
    ("streamlining", "fineness", (2.5, 0.6), "bluefin tuna"),
    ("streamlining", "reynolds-number", (1025.0, 2.0, 2.5, 1.2e-3), "bluefin tuna cruising"),
    ("streamlining", "fineness", (1.0, 0.22), "section of a humpback flipper, chord over thickness"),
    ("riblet-drag-reduction", "wall-spacing", (40e-6, 10.0, 0.0028, 1025.0, 1.08e-3), "mako, Dean & Bhushan 2010"),
    ("riblet-drag-reduction", "wall-spacing", (100e-6, 3.0, 0.003, 1025.0, 1.08e-3), "slow shark, wide ribs"),
    ("riblet-drag-reduction", "rib-aspect", (25e-6, 60e-6), "fast sharks, Bechert & Bartenwerfer 1989"),
    ("vortex-generation", "reynolds-number", (1025.0, 2.6, 0.6, 1.2e-3), "humpback flipper, Miklosovic 2004"),
    ("vortex-generation", "reynolds-number", (1025.0, 0.7, 0.34e-3, 1.1e-3), "slot of a manta filter, Divi 2018"),
    ("lift", "reynolds-number", (1.204, 3.0, 8e-3, 1.82e-5), "maple wing, Lentink 2009"),
    ("lift", "reynolds-number", (1.204, 2.0, 0.9e-3, 1.82e-5), "fruit fly wing"),
    ("strouhal-propulsion", "strouhal-number", (2.2, 0.5, 3.7), "bluefin tuna, Triantafyllou 1993"),
    ("jet-propulsion", "jet-reynolds-number", (1025.0, 5.0, 10e-3, 1.1e-3), "squid"),
    ("jet-propulsion", "jet-reynolds-number", (1000.0, 10.0, 0.2e-3, 1e-3), "bombardier beetle, Dean 1990"),
    ("autorotation", "reynolds-number", (1.204, 4.0, 10e-3, 1.82e-5), "maple wing, Azuma & Yasuda 1989"),
]


@pytest.mark.parametrize(("principle", "group", "inputs", "case"), NATURE)
def test_natural_use_lies_inside_the_regime(principle: str, group: str, inputs: tuple, case: str) -> None:
    assert_inside_regime(principle, group, inputs, case)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("drag-force", (1.2, 10.0, 0.5, -0.02), "frontal area of zero or more, found -0.02"),
        ("streamlined-drag-coefficient", (0.003, 0.1, 0.0), "body length above zero"),
        ("turbulent-layer-thickness", (1000.0, 0.0, 1.0, 1e-3), "speed above zero"),
        ("strouhal-number", (2.0, 0.5, 0.0), "speed above zero, found 0"),
        ("autorotation-sinking-speed", (1e-4, GRAVITY, 1.2, 0.5, 0.0), "swept area above zero"),
    ],
)
def test_impossible_input_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)


@settings(max_examples=25, deadline=None)
@given(speed=st.floats(0.01, 100.0), factor=st.floats(1.0, 10.0))
def test_forces_grow_with_the_square_of_speed(speed: float, factor: float) -> None:
    for name in ("drag-force", "lift-force"):
        force = function(name)
        assert force(1.2, factor * speed, 0.5, 1.0) == pytest.approx(factor**2 * force(1.2, speed, 0.5, 1.0))


@settings(max_examples=25, deadline=None)
@given(slimness=st.floats(1e-6, 1.0))
def test_a_needle_has_only_friction_and_a_thicker_body_more_drag(slimness: float) -> None:
    coefficient = function("streamlined-drag-coefficient")
    assert coefficient(0.003, 1e-9, 1.0) == pytest.approx(0.003)
    assert coefficient(0.003, 1.1 * slimness, 1.0) > coefficient(0.003, slimness, 1.0) > 0.003


@settings(max_examples=25, deadline=None)
@given(speed=st.floats(0.1, 10.0), factor=st.floats(0.1, 10.0))
def test_strouhal_number_does_not_change_with_the_unit_of_time_or_length(speed: float, factor: float) -> None:
    number = function("strouhal-number")
    assert number(2.0 / factor, 0.3, speed / factor) == pytest.approx(number(2.0, 0.3, speed))
    assert number(2.0, 0.3 * factor, speed * factor) == pytest.approx(number(2.0, 0.3, speed))


def test_a_jet_as_slow_as_its_craft_gives_no_thrust() -> None:
    assert function("jet-thrust")(1000.0, 1e-3, 4.0, 4.0) == 0
