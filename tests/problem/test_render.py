"""A reading in one line, exact text."""

# ruff: noqa: E501 - tables of cases are easier to read whole

from __future__ import annotations

from analog.problem.given import read_condition
from analog.problem.read import read_problem
from analog.problem.render import condition_line, reading_line, render
from analog.vocabulary import Vocabulary


def test_one_line(vocabulary: Vocabulary) -> None:
    problem = read_problem("protect the lens from sand", (), vocabulary)
    line = reading_line(problem, vocabulary)
    assert line.startswith("inhibit (keep away or from happening) · sand [particulate")
    assert " · from lens [" in line


def test_ascii_only(vocabulary: Vocabulary) -> None:
    problem = read_problem("remove dust from solar panels at −30 °C", ["tilt 25 °"], vocabulary)
    text = render(problem, vocabulary, ascii_only=True)
    assert text.isascii()
    assert " - dust [" in text and "temperature -30 degC" in text and "tilt 25deg" in text


def test_conditions_in_words(vocabulary: Vocabulary) -> None:
    lines = {c: condition_line(read_condition(c, vocabulary)) for c in
             ("no water available", "particle size 5-50 um", "below freezing", "in soil", "pressure > 2 bar", "-40 F", "waste heat at 60 °C", "flow 2 gpm", "density 900 kg/m3", "no electricity")}  # fmt: skip
    assert lines == {
        "no water available": "no water",
        "particle size 5-50 um": "particle size 5 to 50 µm",
        "below freezing": "temperature at most 0 °C",
        "in soil": "in soil",
        "pressure > 2 bar": "pressure at least 2 bar",
        "-40 F": "temperature -40 °C",  # where the scales of Fahrenheit and Celsius meet
        "waste heat at 60 °C": "temperature of waste heat 60 °C",
        "flow 2 gpm": "flow rate 2 gallon/minute",
        "density 900 kg/m3": "density 900 kg/m³",
        "no electricity": "no electrical energy",
    }
