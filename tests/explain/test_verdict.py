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


def test_a_temperature_said_of_a_heat_source_is_not_that_of_the_surroundings(vocabulary: Vocabulary) -> None:
    """Waste heat of 200 °C beside a system at an unsaid temperature boils no water in it."""
    hot = Condition(
        type="temperature", text="waste heat at 200 °C", about="waste heat", low=473.15, high=473.15, unit="K"
    )
    assert verdict(vocabulary, WATER_NEED, hot).verdict == "carries over if"
    around = Condition(type="temperature", text="200 °C", low=473.15, high=473.15, unit="K")
    assert verdict(vocabulary, WATER_NEED, around).verdict == "breaks"


def test_a_part_kept_warm_is_not_as_cold_as_the_air_around_it(vocabulary: Vocabulary) -> None:
    """Blood at 37 °C works in winter: the organism keeps it warm, an engineer would have to."""
    need = [
        {"type": "temperature", "part": "pad", "low": 30, "high": 42, "unit": "degC", "source": "memory"},
    ]
    found = verdict(vocabulary, need, temperature(253.15, 253.15))
    assert found.verdict == "carries over if"
    assert found.grounds[0].text == "the temperature (pad) is kept between 30 °C and 42 °C, with -20 °C around it"
    del need[0]["part"]
    assert verdict(vocabulary, need, temperature(253.15, 253.15)).verdict == "breaks"


def test_a_temperature_given_for_a_thing_decides_for_the_part_it_stands_for(vocabulary: Vocabulary) -> None:
    need = [
        {"type": "temperature", "part": "grit", "low": 30, "high": 42, "unit": "degC", "source": "memory"},
    ]
    own = Condition(type="temperature", text="dust at 35 °C", about="dust", low=308.15, high=308.15, unit="K")
    around = temperature(253.15, 253.15)
    found = verdict(vocabulary, need, around, own, roles={"grit": PROBLEM["things"][0]})
    assert found.verdict == "carries over"


def test_below_freezing_leaves_nothing_of_what_must_stay_above(vocabulary: Vocabulary) -> None:
    """Both ends are 273.15 K; an open range that ends there shares no temperature with one that begins there."""
    need = [{"type": "temperature", "low": 0, "unit": "degC", "source": "memory"}]
    below = Condition(type="temperature", text="below freezing", high=273.15, unit="K")
    assert verdict(vocabulary, need, below).verdict == "breaks"


def test_vapour_does_not_freeze(vocabulary: Vocabulary) -> None:
    """Below 0 °C water vapour settles as frost; it is a gas and has no freezing point."""
    need = [{"type": "flow", "kind": "water-vapour"}]
    assert verdict(vocabulary, need, temperature(253.15, 253.15)).verdict == "carries over if"


def test_there_is_no_wind_under_water_nor_in_a_vacuum(vocabulary: Vocabulary) -> None:
    need = [{"type": "energy", "energy": "mechanical-energy", "kind": "wind"}]
    under_water = Condition(type="medium", text="under water", kind="liquid-water")
    found = verdict(vocabulary, need, under_water)
    assert found.verdict == "breaks"
    assert "under water" in found.grounds[0].text
    vacuum = Condition(type="absent", text="in vacuum", kind="air", about="in a vacuum there is no air")
    assert verdict(vocabulary, need, vacuum).verdict == "breaks"
    humid = [{"type": "property", "quantity": "relative humidity", "low": 70, "unit": "percent", "source": "memory"}]
    assert verdict(vocabulary, humid, under_water).verdict == "breaks"


def test_a_supply_is_told_once_with_all_it_is_for(vocabulary: Vocabulary) -> None:
    needs = [{"type": "flow", "kind": "liquid-water", "note": "to wet"}]
    record = {
        "format": 1,
        "id": "wet-law",
        "title": "A wet law",
        "field": "surface physics",
        "statement": "It needs liquid.",
        "decided_by": "whether there is liquid",
        "fails": ["when dry"],
        "media": ["liquid"],
        "sources": [{"key": "memory", "type": "memory", "title": "invented"}],
    }
    reasons = [
        {"type": "principle", "principle": "wet-law", "note": "x"},
        {"type": "trigger", "kind": "liquid-water", "note": "it rains"},
    ]
    principles = {"wet-law": Principle.model_validate(record)}
    found = verdict(vocabulary, needs, reasons=reasons, principles=principles)
    assert [ground.text for ground in found.grounds] == [
        "liquid water is supplied; needs liquid water: to wet; set off by liquid water: it rains"
    ]


TILT_NEED = [
    {"type": "property", "part": "pad", "quantity": "tilt", "low": 4, "unit": "degree", "source": "memory"},
]


@pytest.mark.parametrize("quantity", ["tilt", "slope", "inclination"])
def test_a_given_tilt_closes_the_need_of_a_tilt(vocabulary: Vocabulary, quantity: str) -> None:
    pane = Thing(id="pane", name="solar panel", kind="panel", kind_similarity=1.0)
    tilt = Condition(type="angle", text="25 deg", quantity=quantity, low=25, high=25, unit="degree")
    assert verdict(vocabulary, TILT_NEED, tilt, roles={"pad": pane}).verdict == "carries over"
    flat = tilt.model_copy(update={"low": 2.0, "high": 2.0})
    assert verdict(vocabulary, TILT_NEED, flat, roles={"pad": pane}).verdict == "breaks"
    contact = tilt.model_copy(update={"quantity": "contact angle"})
    assert verdict(vocabulary, TILT_NEED, contact, roles={"pad": pane}).verdict == "open"


def test_a_size_of_the_grains_is_not_that_of_the_pane(vocabulary: Vocabulary) -> None:
    """A particle size says nothing of a thing that is no particle and bears another name."""
    need = [
        {"type": "size", "part": "pad", "quantity": "width", "high": 1, "unit": "mm", "source": "memory"},
    ]
    grains = Condition(type="range", text="grain size 2 mm", about="grain", quantity="size", low=2, high=2, unit="mm")
    hopper = Thing(id="hopper", name="hopper", kind="container", kind_similarity=1.0)
    wafer = Thing(id="wafer", name="wafer", kind=None)
    for thing in (hopper, wafer):
        found = verdict(vocabulary, need, grains, roles={"pad": thing})
        assert found.verdict == "open", (thing.name, found.grounds)


def test_a_wind_speed_is_no_friction_speed(vocabulary: Vocabulary) -> None:
    """The friction speed is a few hundredths of the wind's (Bagnold 1941, The physics of blown sand)."""
    need = [
        {"type": "property", "quantity": "friction speed of the wind", "low": 0.2, "unit": "m/s", "source": "memory"},
    ]
    wind = Condition(type="range", text="wind 0.1 m/s", about="wind", quantity="speed", low=0.1, high=0.1, unit="m/s")
    assert verdict(vocabulary, need, wind).verdict == "carries over if"
    humid = [{"type": "property", "quantity": "relative humidity of the air", "low": 70, "unit": "percent",
              "source": "memory"}]  # fmt: skip
    dry = Condition(type="range", text="humidity 20 %", quantity="humidity", low=20, high=20, unit="percent")
    assert verdict(vocabulary, humid, dry).verdict == "breaks"


def test_bounds_are_printed_as_people_write_units(vocabulary: Vocabulary) -> None:
    """No blank before the sign of degrees, a multiplication spelt with powers (SI Brochure 5.4.3)."""
    density = [
        {"type": "property", "part": "pad", "quantity": "density", "high": 350, "unit": "kg/m**3", "source": "memory"},
    ]
    assert "at most 350 kg/m³" in verdict(vocabulary, density).grounds[0].text
    assert "at least 4°" in verdict(vocabulary, TILT_NEED).grounds[0].text


def test_a_missing_value_names_its_thing_once(vocabulary: Vocabulary) -> None:
    """A name that already says of what ("… on the particle") takes the thing in brackets."""
    dust = PROBLEM["things"][0]
    assert "grain size of the dust is missing" in verdict(vocabulary, SIZE_NEED, roles={"grit": dust}).grounds[0].text
    need = [{**SIZE_NEED[0], "quantity": "contact angle of water on the grain", "unit": "degree"}]
    text = verdict(vocabulary, need, roles={"grit": dust}).grounds[0].text
    assert text.startswith("contact angle of water on the grain (dust) is missing")


def test_in_air_there_is_gas(vocabulary: Vocabulary) -> None:
    need = [{"type": "medium", "kind": "gas"}]
    assert verdict(vocabulary, need).verdict == "carries over"
    vacuum = Condition(type="absent", text="in vacuum", kind="air", about="in a vacuum there is no air")
    assert verdict(vocabulary, need, vacuum).verdict != "carries over"


def test_gravity_is_there_unless_the_problem_says_otherwise(vocabulary: Vocabulary) -> None:
    need = [{"type": "energy", "energy": "mechanical-energy", "kind": "gravity-load"}]
    assert verdict(vocabulary, need).verdict == "carries over"
    assert verdict(vocabulary, need, absent("gravity-load")).verdict == "breaks"


def test_open_water_boils_away_in_a_vacuum(vocabulary: Vocabulary) -> None:
    """Below the triple point at 611 Pa (IAPWS) no water is liquid; enclosed under pressure it may be."""
    vacuum = Condition(type="absent", text="in vacuum", kind="air", about="in a vacuum there is no air")
    found = verdict(vocabulary, WATER_NEED, vacuum)
    assert found.verdict == "carries over if"
    assert any("boils away" in ground.text for ground in found.grounds)
    assert not any("boils away" in ground.text for ground in verdict(vocabulary, WATER_NEED).grounds)
