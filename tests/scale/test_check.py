"""Both sides of a principle, and what a verdict makes of it."""

from __future__ import annotations

import subprocess
import sys
from typing import Any

import pytest

from analog.explain.surroundings import Surroundings
from analog.explain.verdict import Judge
from analog.model.types import Model, Principle
from analog.problem.types import Problem, Thing
from analog.scale.check import findings, scale_check
from analog.scale.evaluate import shipped_principles
from analog.scale.quantities import ProblemSide, environment_of, of_nature
from analog.scale.regime import check_regime
from tests.scale.helpers import model, principle, problem, size

DUST = Thing(id="dust", name="dust", kind="particulate", kind_similarity=1.0)
ROLES = {"grit": DUST}


def found(asked: Problem, of: Principle | None = None, roles: dict[str, Thing] = ROLES) -> list[tuple[str, str]]:
    grate = model()
    side = ProblemSide(asked, grate, roles)
    return [(f.outcome, f.text) for f in findings(of or principle(), grate.transitions[0], side)]


def test_nature_has_its_own_values() -> None:
    values = of_nature(principle(), model(), model().transitions[0]).values
    assert values["particle-diameter"].range == pytest.approx((1e-5, 2e-5))  # "diameter" of a part that is a particle
    assert values["gap-width"].range == pytest.approx((1e-4, 1e-4))


def _with_values(*values: dict[str, Any]) -> Model:
    step = model().model_dump(mode="json", by_alias=True)["transitions"][0]
    step["reasons"][0]["values"] = [{"source": "memory", **value} for value in values]
    return model(transitions=[step])


def test_a_value_told_for_a_symbol_counts_before_one_found_by_its_name() -> None:
    told = _with_values({"symbol": "particle-diameter", "value": 0.05, "unit": "mm"})
    values = of_nature(principle(), told, told.transitions[0]).values
    assert values["particle-diameter"].range == pytest.approx((5e-5, 5e-5))
    assert values["gap-width"].range == pytest.approx((1e-4, 1e-4))


def test_a_group_can_be_told_as_such() -> None:
    told = _with_values({"symbol": "size-share", "low": 0.2, "high": 0.4, "unit": "dimensionless"})
    gathered = of_nature(principle(), told, told.transitions[0])
    assert check_regime(principle(), gathered.values).groups[0].low == pytest.approx(0.2)


def test_a_told_size_of_a_part_still_to_be_built_serves_the_problem() -> None:
    told = _with_values({"symbol": "gap-width", "value": 40, "unit": "um", "part": "grate"})
    values = ProblemSide(problem(size(60, 60)), told, ROLES).values(principle(), told.transitions[0]).values
    assert values["gap-width"].range == pytest.approx((4e-5, 4e-5))
    assert values["gap-width"].to_build


def test_size_and_gap_of_the_same_part_go_together() -> None:
    """Two parts with a diameter: the one that also has the speed is the one that settles."""
    grains = [
        {"name": "grain size", "low": low, "high": high, "unit": "um", "source": "memory"}
        for low, high in ((5e3, 2e5), (20, 400))
    ]
    speed = {"name": "settling speed", "low": 3e-4, "high": 0.05, "unit": "m/s", "source": "memory"}
    river = model(
        parts=[
            {"id": "grit", "name": "gravel", "kind": "coarse-fraction", "properties": grains[:1]},
            {"id": "grate", "name": "silt", "kind": "fine-fraction", "properties": [speed, grains[1]]},
        ]
    )
    values = of_nature(shipped_principles()["stokes-drag"], river, river.transitions[0]).values
    assert values["particle-diameter"].range == pytest.approx((2e-5, 4e-4))


def test_without_numbers_there_is_nothing_to_say() -> None:
    assert found(problem()) == []


def test_a_number_of_something_else_says_nothing() -> None:
    assert found(problem(size(3, 3, about="panel", quantity="length", unit="m"))) == []


def test_the_speed_of_something_else_is_no_speed_of_the_particle() -> None:
    """A symbol that may be called just "speed" takes a bare speed, but not that of the wind."""
    settling = shipped_principles()["stokes-drag"]
    bare, wind = (
        ProblemSide(problem(size(5, 5, about, "speed", "m/s")), model(), ROLES).values(settling, model().transitions[0])
        for about in ("", "wind")
    )
    assert bare.values["speed"].range == (5.0, 5.0)
    assert "speed" not in wind.values


def test_a_gap_still_to_be_built_may_be_as_in_nature() -> None:
    """5 to 50 µm through gaps of 100 µm: 0.05 to 0.5, and gaps above 50 µm would do."""
    [(outcome, text)] = found(problem(size(5, 50)))
    assert outcome == "build"
    assert "gap width as in nature, 100 µm" in text and "0.05 to 0.5" in text
    assert "gap width must stay above 50 µm" in text


def test_a_gap_as_in_nature_that_would_not_do_is_told_with_the_one_that_would() -> None:
    [(outcome, text)] = found(problem(size(300, 500)))
    assert outcome == "build"
    assert text.startswith("gap width must stay above 500 µm") and "would not do" in text


def test_numbers_of_the_problem_alone_can_break_it() -> None:
    [(outcome, text)] = found(problem(size(300, 500), size(100, 100, about="", quantity="gap width")))
    assert outcome == "fails"
    assert "3 to 5" in text and "at most 1" in text


def test_numbers_at_the_edge_make_a_condition() -> None:
    [(outcome, _)] = found(problem(size(90, 95), size(100, 100, about="", quantity="gap width")))
    assert outcome == "edge"


def test_a_missing_value_of_the_problems_own_thing_leaves_it_open() -> None:
    """With the gap given, the size of the dust is for the problem to tell."""
    [(outcome, text)] = found(problem(size(100, 100, about="", quantity="gap width")))
    assert outcome == "missing"
    assert "particle diameter must stay below 100 µm" in text


def test_where_nature_itself_oversteps_a_formula_nothing_breaks() -> None:
    coarse = model(
        parts=[
            {
                "id": "grit",
                "name": "grit",
                "kind": "particle",
                "properties": [{"name": "diameter", "low": 10, "high": 900, "unit": "um", "source": "memory"}],
            },
            {
                "id": "grate",
                "name": "grate",
                "kind": "sieve",
                "properties": [{"name": "gap width", "value": 100, "unit": "um", "source": "memory"}],
            },
        ]
    )
    asked = problem(size(300, 500), size(100, 100, about="", quantity="gap width"))
    side = ProblemSide(asked, coarse, ROLES)
    [finding] = findings(principle(), coarse.transitions[0], side)
    assert finding.outcome == "edge" and "in nature it works from 0.1 to 9" in finding.text


def test_an_open_end_is_taken_a_decade_off() -> None:
    values = ProblemSide(problem(size(None, 50)), model(), ROLES).values(principle(), model().transitions[0]).values
    assert values["particle-diameter"].range == pytest.approx((5e-6, 5e-5))
    assert "only one end" in values["particle-diameter"].told


def test_both_sides_and_their_ratio() -> None:
    """Nature 0.1 to 0.2, problem 1 to 2 with the gap given: between 1/0.2 = 5 and 2/0.1 = 20 times nature's."""
    asked = problem(size(100, 200), size(100, 100, about="", quantity="gap width"))
    check = scale_check(principle(), model(), model().transitions[0], asked, ROLES)
    assert check.nature.status == "holds"
    assert check.ratios["size-share"] == (pytest.approx(5.0), pytest.approx(20.0))
    assert check.to_dict()["ratios"]


# Surroundings --------------------------------------------------------------------------------------------------


def cold(low: float, high: float) -> dict[str, object]:
    return {"type": "temperature", "low": low, "high": high, "unit": "K", "text": "cold"}


def test_temperature_and_altitude_decide_the_air() -> None:
    environment = environment_of(problem(cold(243.15, 243.15), size(2000, 2000, "altitude", "size", "m")))
    assert environment.temperature == (243.15, 243.15) and environment.altitude == 2000.0
    assert environment.medium == "air"


def test_minus_30_degrees_changes_a_reynolds_number() -> None:
    """ρ/μ of dry air: at 20 °C 1.2043/1.8206e-5 = 66 150, at −30 °C 1.4530/1.5701e-5 = 92 540 s/m² (a factor 1.40)."""
    reynolds = shipped_principles()["reynolds-regime"]
    speed = size(10, 10, "", "speed", "m/s")
    length = size(1, 1, "", "length", "m")
    grate = model()
    low, high = (
        scale_check(reynolds, grate, grate.transitions[0], problem(*conditions), {}).problem
        for conditions in ((speed, length), (speed, length, cold(243.15, 243.15)))
    )
    warm, frosty = (check.output for check in (low, high))
    assert warm is not None and frosty is not None
    assert warm.low == pytest.approx(661_500, rel=1e-3)
    assert frosty.low == pytest.approx(925_400, rel=2e-3)


def test_frozen_water_has_no_surface_tension() -> None:
    length = shipped_principles()["capillary-length"]
    grate = model()
    drop = size(2, 2, "drop", "radius", "mm")
    check = scale_check(length, grate, grate.transitions[0], problem(drop, cold(263.15, 263.15)), {}).problem
    assert check.output is not None and check.output.low is None
    assert "frozen at -10 °C" in check.output.note


# Verdicts ------------------------------------------------------------------------------------------------------


class _Kinds:
    def is_a(self, name: str, general: str) -> bool:
        return name == general

    def label(self, name: str) -> str:
        return name

    def fact(self, name: str, key: str) -> object:
        return None

    def similarity(self, a: str, b: str) -> float:
        return float(a == b)


@pytest.mark.parametrize(
    ("conditions", "verdict"),
    [
        ((), "carries over"),
        ((size(5, 50),), "carries over if"),
        ((size(300, 500), size(100, 100, "", "gap width")), "breaks"),
        ((size(5, 50), size(100, 100, "", "gap width")), "carries over"),
        ((size(100, 100, "", "gap width"),), "open"),
    ],
)
def test_the_verdict_follows_the_numbers(conditions: tuple[dict[str, object], ...], verdict: str) -> None:
    judge = Judge(Surroundings(problem(*conditions), _Kinds()), {}, {"small-enough": principle()})
    [found] = judge.judge(model(), ROLES)
    assert found.verdict == verdict, [ground.text for ground in found.grounds]


def test_a_problem_with_ordinary_numbers_imports_neither_pint_nor_scipy() -> None:
    """The program's time to a first answer hangs on it: pint alone takes half a second."""
    code = (
        "import sys; sys.path.insert(0, '.')\n"
        "from tests.scale.helpers import *\n"
        "from analog.explain.verdict import Judge\n"
        "from analog.explain.surroundings import Surroundings\n"
        "from tests.scale.test_check import _Kinds, ROLES\n"
        "for name in ('pint', 'scipy', 'fluids', 'chemicals', 'matplotlib'):\n"
        "    [sys.modules.pop(m) for m in list(sys.modules) if m.split('.')[0] == name]\n"
        "judge = Judge(Surroundings(problem(size(5, 50)), _Kinds()), {}, {'small-enough': principle()})\n"
        "assert judge.judge(model(), ROLES)[0].verdict == 'carries over if'\n"
        "heavy = [n for n in ('pint', 'scipy', 'fluids', 'chemicals', 'matplotlib') if n in sys.modules]\n"
        "assert not heavy, heavy\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
