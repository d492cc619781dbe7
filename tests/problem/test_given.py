"""Conditions in an engineer's words. Sums are written out; unit factors are checked against pint elsewhere."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from analog.errors import AnalogError, InputError
from analog.problem.given import read_condition
from analog.problem.read import read_problem
from analog.vocabulary import Vocabulary


@pytest.mark.parametrize(
    ("text", "kind", "what"),
    [
        ("no water available", "absent", "water"),
        ("without electricity", "absent", "electrical-energy"),
        ("no electricity", "absent", "electrical-energy"),
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
