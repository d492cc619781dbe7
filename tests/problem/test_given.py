"""Conditions in an engineer's words. Sums are written out; unit factors are checked against pint elsewhere."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from analog.errors import AnalogError, InputError
from analog.problem.given import read_condition, read_conditions
from analog.problem.read import read_problem
from analog.vocabulary import Vocabulary


@pytest.mark.parametrize(
    ("text", "kind", "what"),
    [
        ("no water available", "absent", "water"),
        ("without electricity", "absent", "electrical-energy"),
        ("no electricity", "absent", "electrical-energy"),
        ("no external energy", "absent", "electrical-energy"),
        ("must be passive", "absent", "electrical-energy"),
        ("unpowered", "absent", "electrical-energy"),
        ("salt water", "medium", "sea-water"),
        ("hard vacuum", "absent", "air"),
        ("water is not available", "absent", "water"),
        ("compressed air available", "present", "pneumatic-energy"),
        ("there is wind", "present", "wind"),
        ("sunlight available", "present", "sunlight"),
        ("must work under water", "medium", "liquid-water"),
        ("under water", "medium", "liquid-water"),
        ("in air", "medium", "air"),
        ("in soil", "medium", "soil"),
        ("in vacuum", "absent", "air"),
        ("in a vacuum", "absent", "air"),
        ("inside the body", "medium", "body-fluid"),
        ("in oil", "medium", "oil"),
        ("in the desert", "absent", "water"),
        ("at night", "absent", "sunlight"),
    ],
)
def test_absences_presences_media(text: str, kind: str, what: str, vocabulary: Vocabulary) -> None:
    condition = read_condition(text, vocabulary)
    assert (condition.type, condition.kind) == (kind, what)
    assert vocabulary.kinds.known(what)


def test_what_has_no_kind_keeps_its_words(vocabulary: Vocabulary) -> None:
    condition = read_condition("no moving parts", vocabulary)
    assert (condition.type, condition.about) == ("absent", "moving parts")


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("-30 degC", 273.15 - 30, 273.15 - 30),
        ("−30 °C", 273.15 - 30, 273.15 - 30),
        ("−30℃", 273.15 - 30, 273.15 - 30),
        ("at -30 deg C", 273.15 - 30, 273.15 - 30),
        ("between -20 and 60 °C", 273.15 - 20, 273.15 + 60),
        ("-20 to 60 °C", 273.15 - 20, 273.15 + 60),
        ("-20–60 °C", 273.15 - 20, 273.15 + 60),
        ("from -40 to -5 degC", 273.15 - 40, 273.15 - 5),
        ("below 5 °C", None, 273.15 + 5),
        ("down to -40 °C", 273.15 - 40, None),
        ("up to 300 K", None, 300),
        ("below freezing", None, 273.15),
        ("32 degF", 273.15, 273.15),  # the freezing point of water on Fahrenheit's scale
        ("temperature above 100 degC", 373.15, None),
        # the scales of Celsius and Fahrenheit meet at -40; SI Brochure 2.3.1 for kelvin
        ("-40 F", 273.15 - 40, 273.15 - 40),
        ("-40 degrees Fahrenheit", 273.15 - 40, 273.15 - 40),
        ("minus 40 °C", 273.15 - 40, 273.15 - 40),
        ("-20 C", 273.15 - 20, 273.15 - 20),
        ("20 degrees Celsius", 273.15 + 20, 273.15 + 20),
        ("max 60 C", None, 273.15 + 60),
        ("60 °C or less", None, 273.15 + 60),
        ("sub-zero temperatures", None, 273.15),
    ],
)
def test_temperatures_in_kelvin(text: str, low: float | None, high: float | None, vocabulary: Vocabulary) -> None:
    condition = read_condition(text, vocabulary)
    assert (condition.type, condition.unit) == ("temperature", "K")
    assert condition.low == pytest.approx(low) if low is not None else condition.low is None
    assert condition.high == pytest.approx(high) if high is not None else condition.high is None


@pytest.mark.parametrize(
    ("text", "about", "quantity", "low", "high", "unit"),
    [
        ("particle size 5-50 um", "particle", "particle size", 5, 50, "um"),
        ("particle size 5–50 µm", "particle", "particle size", 5, 50, "um"),
        ("particle size 5 to 50 μm", "particle", "particle size", 5, 50, "um"),
        ("flow speed up to 3 m/s", "flow", "flow speed", None, 3, "m/s"),
        ("humidity below 20 %", None, "humidity", None, 20, "percent"),
        ("pressure > 2 bar", None, "pressure", 2, None, "bar"),
        ("pressure at least 1,000 Pa", None, "pressure", 1000, None, "Pa"),
        ("length 1 000 mm", None, "length", 1000, 1000, "mm"),
        ("layer thickness 10 ± 2 nm", "layer", "thickness", 8, 12, "nm"),
        ("force 1e-3 N", None, "force", 0.001, 0.001, "N"),
        ("particles of 20 um", "particles", "size", 20, 20, "um"),
        ("Reynolds number below 10", "reynolds", "reynolds number", None, 10, "dimensionless"),
        ("maximum pressure 2 bar", None, "pressure", None, 2, "bar"),
        ("2 bar max", None, "pressure", None, 2, "bar"),
        ("5 um or smaller", None, "size", None, 5, "um"),
        ("minimum thickness 2 mm", None, "thickness", 2, None, "mm"),
        ("within 5 minutes", None, "time", None, 5, "min"),
        ("3000 m deep", None, "depth", 3000, 3000, "m"),
        ("film 20 um thick", "film", "thickness", 20, 20, "um"),
        ("RH 80 %", None, "relative humidity", 80, 80, "percent"),
        ("flow 3 L/min", "flow", "flow rate", 3, 3, "L/min"),
        ("3 litres per minute", "flow", "flow rate", 3, 3, "litres/minute"),
        ("0.5 m3/h", "flow", "flow rate", 0.5, 0.5, "m**3/h"),
        ("2 gpm", "flow", "flow rate", 2, 2, "gallon/minute"),
        ("viscosity 1 Pa.s", None, "viscosity", 1, 1, "Pa*s"),
        ("gap of 1/4 inch", None, "gap", 0.25, 0.25, "inch"),
        ("1 1/2 inches", None, "size", 1.5, 1.5, "inch"),
        ("temperature difference 5 K", None, "temperature difference", 5, 5, "K"),
        ("temperature drop 5 °C", None, "temperature difference", 5, 5, "K"),
    ],
)
def test_ranges(text, about, quantity, low, high, unit, vocabulary) -> None:  # type: ignore[no-untyped-def]
    condition = read_condition(text, vocabulary)
    assert condition.type == "range"
    assert (condition.about, condition.quantity, condition.unit) == (about, quantity, unit)
    assert (condition.low, condition.high) == (
        pytest.approx(low) if low is not None else None,
        pytest.approx(high) if high is not None else None,
    )


def test_angles_and_differences(vocabulary: Vocabulary) -> None:
    tilt = read_condition("tilt 25 deg", vocabulary)
    assert (tilt.type, tilt.low, tilt.high, tilt.unit) == ("angle", 25, 25, "degree")
    half_turn = read_condition("angle 3.141592653589793 rad", vocabulary)
    assert half_turn.low == pytest.approx(180)
    colder = read_condition("5 K colder", vocabulary)
    assert (colder.type, colder.quantity, colder.low, colder.unit) == ("range", "temperature difference", 5, "K")


@pytest.mark.parametrize("text", ["tilted 25 degrees", "inclined at 25°", "tilt 25 deg"])
def test_a_tilt_is_a_tilt_in_any_form_of_the_word(text: str, vocabulary: Vocabulary) -> None:
    condition = read_condition(text, vocabulary)
    assert (condition.type, condition.quantity, condition.low, condition.high) == ("angle", "tilt", 25, 25)


def test_a_level_of_noise_is_no_angle(vocabulary: Vocabulary) -> None:
    """A decibel has no dimension, as a radian has none: that does not make it an angle."""
    condition = read_condition("noise below 40 dB", vocabulary)
    assert (condition.type, condition.about, condition.high, condition.unit) == ("range", "noise", 40, "dB")


def test_a_charge_stays_a_charge(vocabulary: Vocabulary) -> None:
    """C is coulomb where the words speak of electricity (SI Brochure, table 4)."""
    assert read_condition("charge 20 C", vocabulary).type == "range"


def test_the_absence_of_the_narrow_does_not_rule_out_the_broad(vocabulary: Vocabulary) -> None:
    """WordNet holds a magnet for a device; without magnets there still are devices."""
    for text, about in (("no magnets", "magnets"), ("no silicone", "silicone")):
        condition = read_condition(text, vocabulary)
        assert (condition.type, condition.kind, condition.about) == ("absent", None, about)


def test_indoors_rules_out_sun_wind_and_rain(vocabulary: Vocabulary) -> None:
    for text in ("indoors", "indoor use", "must work indoors"):
        found = read_conditions(text, vocabulary)
        assert {(c.type, c.kind) for c in found} == {("absent", k) for k in ("sunlight", "wind", "rain-water")}


def test_a_condition_quotes_what_was_typed(vocabulary: Vocabulary) -> None:
    assert read_condition("minus 40 degrees Celsius", vocabulary).text == "minus 40 degrees Celsius"


def test_what_must_not_happen_is_no_absent_thing(vocabulary: Vocabulary) -> None:
    problem = read_problem("bore a hole in soft soil without it collapsing", [], vocabulary)
    assert not [condition for condition in problem.conditions if condition.type == "absent"]


def test_words_that_say_no_condition_are_kept_as_a_note(vocabulary: Vocabulary) -> None:
    """An engineer's remark is not lost, and the reading says that it decides nothing."""
    condition = read_condition("blue monday morning", vocabulary)
    assert (condition.type, condition.text, condition.kind) == ("note", "blue monday morning", None)
    problem = read_problem("remove dust from a lens", ["blue monday morning"], vocabulary)
    assert any("decides nothing" in note for note in problem.notes)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("size 5 flurbs", "Unknown unit 'flurbs'"),
        ("size 5 umm", "nearest:.*um"),
        ("50-5 um", "smaller number first"),
        ("between 60 and -20 °C", "smaller number first"),
        ("size nan um", "finite"),
        ("size inf m", "finite"),
        ("size 1e999 m", "finite"),
        ("-300 degC", "absolute zero"),
        ("size -5 um", "zero or more"),
        ("size 1,5 mm", "decimal point"),
        ("42", "number with a unit"),
        ("minus 20 degrees", "degC, degF"),
        ("", "got nothing"),
        ("x" * 500, "at most 200 characters"),
        ("5 um - 3 s", "like units"),
    ],
)
def test_faults_say_what_is_wrong(text: str, said: str, vocabulary: Vocabulary) -> None:
    with pytest.raises(InputError, match=said):
        read_condition(text, vocabulary)


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.one_of(
        st.text(max_size=60),
        st.lists(
            st.sampled_from(
                [
                    "5",
                    "-30",
                    "1e5",
                    "5-50",
                    "um",
                    "°C",
                    "degC",
                    "%",
                    "m/s",
                    "to",
                    "and",
                    "between",
                    "up",
                    "below",
                    "no",
                    "without",
                    "water",
                    "in",
                    "at",
                    "±",
                    ",",
                    ".",
                    "1,000",
                    "K",
                    "/",
                    "*",
                    "^",
                    "(",
                    "-",
                ]
            ),
            max_size=8,
        ).map(" ".join),
    )
)
def test_any_condition_gives_a_record_or_a_deliberate_error(vocabulary: Vocabulary, text: str) -> None:
    try:
        condition = read_condition(text, vocabulary)
    except AnalogError as error:
        assert str(error)
    else:
        assert condition.low is None or condition.high is None or condition.low <= condition.high
