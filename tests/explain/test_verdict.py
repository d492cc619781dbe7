"""Verdicts: each kind of need under each kind of condition, with the words that say why."""

from __future__ import annotations

from typing import Any

import pytest

from analog.explain.surroundings import Surroundings
from analog.explain.verdict import Judge, TransitionVerdict
from analog.model.types import Model, Principle
from analog.problem.types import Condition, Problem, ProblemPurpose, Thing
from analog.vocabulary.expand import Vocabulary
from tests.model.sample import sample

PROBLEM: dict[str, Any] = {
    "text": "remove dust from a pane",
    "purposes": (ProblemPurpose(text="remove dust", verb="separate", object="dust"),),
    "things": (Thing(id="dust", name="dust", kind="dust", kind_similarity=1.0),),
}


def verdict(
    vocabulary: Vocabulary,
    needs: list[dict[str, Any]],
    *conditions: Condition,
    reasons: list[dict[str, Any]] | None = None,
    roles: dict[str, Thing] | None = None,
    models: dict[str, Model] | None = None,
    principles: dict[str, Principle] | None = None,
) -> TransitionVerdict:
    data = sample()
    data["transitions"][0]["needs"] = needs
    if reasons:
        data["transitions"][0]["reasons"] = reasons
        if any(reason["type"] == "sub-purpose" for reason in reasons):
            data["sub_purposes"] = [
                {
                    "id": "below",
                    "text": "do it",
                    "verb": "separate",
                    "flow": "solid",
                    "object": "grit",
                    "model": "other",
                }
            ]
    surroundings = Surroundings(Problem(**PROBLEM, conditions=conditions), vocabulary.kinds)
    return Judge(surroundings, models or {}, principles or {}).judge(Model(**data), roles or {})[0]


def absent(kind: str) -> Condition:
    return Condition(type="absent", text=f"no {kind} available", kind=kind)


def temperature(low: float, high: float) -> Condition:
    return Condition(type="temperature", text="cold", low=low, high=high, unit="K")


WATER_NEED = [{"type": "medium", "kind": "liquid-water", "instead": ["compressed air"]}]


def test_what_is_ruled_out_breaks_and_the_reason_quotes_the_condition(vocabulary: Vocabulary) -> None:
    found = verdict(vocabulary, WATER_NEED, absent("water"))
    assert found.verdict == "breaks"
    assert "“no water available”" in found.grounds[0].text
    assert "compressed air" in found.grounds[0].text


def test_a_narrower_kind_falls_with_the_general_one_but_not_the_other_way_round(vocabulary: Vocabulary) -> None:
    """Without water there is no rain; without rain there may still be water."""
    rain = [{"type": "medium", "kind": "rain-water"}]
    assert verdict(vocabulary, rain, absent("water")).verdict == "breaks"
    assert verdict(vocabulary, WATER_NEED, absent("rain-water")).verdict == "carries over if"


def test_what_is_there_carries_over_and_what_is_unsaid_must_be_supplied(vocabulary: Vocabulary) -> None:
    present = Condition(type="present", text="water is on site", kind="liquid-water")
    assert verdict(vocabulary, WATER_NEED, present).verdict == "carries over"
    unsaid = verdict(vocabulary, WATER_NEED)
    assert unsaid.verdict == "carries over if"
    assert "is supplied" in unsaid.grounds[0].text


def test_air_is_assumed_on_land_and_missing_under_water(vocabulary: Vocabulary) -> None:
    air = [{"type": "medium", "kind": "air"}]
    assert verdict(vocabulary, air).verdict == "carries over"
    under_water = Condition(type="medium", text="must work under water", kind="liquid-water")
    assert verdict(vocabulary, air, under_water).verdict == "breaks"


def test_a_mechanism_that_brings_its_air_along_may_work_under_water(vocabulary: Vocabulary) -> None:
    under_water = Condition(type="medium", text="must work under water", kind="liquid-water")
    data = sample()
    data["parts"].append({"id": "layer", "name": "air layer", "kind": "air-layer"})
    data["structure"].append("covers(layer, pad)")
    data["transitions"][0]["needs"] = [{"type": "medium", "kind": "air"}]
    surroundings = Surroundings(Problem(**PROBLEM, conditions=(under_water,)), vocabulary.kinds)
    assert Judge(surroundings, {}, {}).judge(Model(**data), {})[0].verdict == "carries over if"


def test_what_the_model_names_as_a_substitute_and_the_problem_has_mends_the_step(vocabulary: Vocabulary) -> None:
    under_water = Condition(type="medium", text="must work under water", kind="liquid-water")
    need = [{"type": "medium", "kind": "air", "instead": ["a stream of water"]}]
    found = verdict(vocabulary, need, under_water)
    assert found.verdict == "carries over if"
    assert "a stream of water" in found.grounds[0].text


def test_a_narrowed_exclusion_does_not_rule_out_the_whole_kind(vocabulary: Vocabulary) -> None:
    """Without heated water there is still water; without running water there is none."""
    heated = Condition(type="absent", text="no heated water", kind="water", about="heated water")
    running = Condition(type="absent", text="no running water", kind="water", about="running water")
    assert verdict(vocabulary, WATER_NEED, heated).verdict == "carries over if"
    assert verdict(vocabulary, WATER_NEED, running).verdict == "breaks"


def test_frost_breaks_what_needs_liquid_water(vocabulary: Vocabulary) -> None:
    """Water freezes at 273.15 K at one atmosphere (common physical constant)."""
    frozen = verdict(vocabulary, WATER_NEED, temperature(243.15, 243.15))
    assert frozen.verdict == "breaks"
    assert "freezes at 0 °C" in frozen.grounds[0].text
    assert verdict(vocabulary, WATER_NEED, temperature(263.15, 303.15)).verdict == "carries over if"


def test_a_temperature_range_is_compared_in_kelvin_whatever_its_unit(vocabulary: Vocabulary) -> None:
    need = [
        {"type": "temperature", "low": 32, "high": 104, "unit": "degF", "source": "memory", "from_memory": True},
    ]  # 32 degF = 0 degC = 273.15 K, 104 degF = 40 degC = 313.15 K
    assert verdict(vocabulary, need, temperature(273.15, 313.15)).verdict == "carries over"
    assert verdict(vocabulary, need, temperature(200.0, 270.0)).verdict == "breaks"
    assert verdict(vocabulary, need, temperature(270.0, 280.0)).verdict == "carries over if"
    assert verdict(vocabulary, need).verdict == "carries over"  # room temperature assumed
    assert "assumed" in verdict(vocabulary, need).grounds[0].text


SIZE_NEED = [
    {"type": "size", "part": "grit", "quantity": "grain size", "high": 0.1, "unit": "mm", "source": "memory"},
]


@pytest.mark.parametrize(
    ("low", "high", "expected"),
    [(5, 50, "carries over"), (50, 500, "carries over if"), (200, 500, "breaks")],
)
def test_a_given_size_decides_in_its_own_unit(vocabulary: Vocabulary, low: float, high: float, expected: str) -> None:
    """0.1 mm = 100 um: 5-50 um is inside, 50-500 um straddles, 200-500 um is outside."""
    size = Condition(
        type="range", text="particle size", about="particle", quantity="size", low=low, high=high, unit="um"
    )
    dust = PROBLEM["things"][0]
    assert verdict(vocabulary, SIZE_NEED, size, roles={"grit": dust}).verdict == expected


def test_a_missing_size_of_a_thing_leaves_open_and_one_of_a_part_is_to_be_built(vocabulary: Vocabulary) -> None:
    assert verdict(vocabulary, SIZE_NEED, roles={"grit": PROBLEM["things"][0]}).verdict == "open"
    assert verdict(vocabulary, SIZE_NEED).verdict == "carries over if"


def test_a_trigger_and_a_principle_need_their_media_too(vocabulary: Vocabulary) -> None:
    trigger = [{"type": "trigger", "kind": "rain-water", "note": "it rains"}]
    assert verdict(vocabulary, [], absent("water"), reasons=trigger).verdict == "breaks"
    record = Principle.model_validate(
        {
            "format": 1,
            "id": "wet-law",
            "title": "A wet law",
            "field": "surface physics",
            "statement": "It needs water.",
            "decided_by": "whether there is water",
            "fails": ["when dry"],
            "media": ["liquid-water"],
            "sources": [{"key": "memory", "type": "memory", "title": "invented"}],
        }
    )
    principle = [{"type": "principle", "principle": "wet-law", "note": "x"}]
    assert (
        verdict(vocabulary, [], absent("water"), reasons=principle, principles={"wet-law": record}).verdict == "breaks"
    )


def test_a_sub_purpose_that_breaks_breaks_what_rests_on_it(vocabulary: Vocabulary) -> None:
    below = sample()
    below["id"] = "other"
    below["transitions"][0]["needs"] = WATER_NEED
    reasons = [{"type": "sub-purpose", "purpose": "below", "note": "x"}]
    found = verdict(vocabulary, [], absent("water"), reasons=reasons, models={"other": Model(**below)})
    assert found.verdict == "breaks"
    assert "other" in found.grounds[0].text


def test_the_worst_ground_decides_and_stands_first(vocabulary: Vocabulary) -> None:
    needs = [{"type": "energy", "energy": "mechanical-energy"}, *WATER_NEED, *SIZE_NEED]
    found = verdict(vocabulary, needs, absent("water"))
    assert found.grounds[0].verdict == "breaks"
    assert len(found.grounds) == 3
