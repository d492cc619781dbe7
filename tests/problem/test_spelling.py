"""Spellings of units, checked against the SI Brochure (9th edition) and plain arithmetic."""

from __future__ import annotations

import pytest

from analog.problem.spelling import units_spelt


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("40 degrees Fahrenheit", "40 degF"),
        ("5 degrees C", "5 degC"),
        ("5 ° C", "5 degC"),
        ("-20C", "-20 degC"),
        ("minus 20 degrees celsius", "-20 degC"),
        ("3 litres per minute", "3 litres/minute"),
        ("5 cubic metres per hour", "5 m3/hour"),
        ("4 square metres", "4 m2"),
        ("1 1/2 inches", "1.5 inches"),  # 1 + 1/2
        ("3/8 inch", "0.375 inch"),  # 3/8
        ("10 mPa.s", "10 mPa*s"),
    ],
)
def test_one_spelling(text: str, plain: str) -> None:
    assert units_spelt(text) == plain


@pytest.mark.parametrize(
    "text",
    [
        "5 m/s",
        "charge of 20 C",
        "10 C/m",
        "1/0 inch",
        "20 um",
        "drop 5 mm a minute",
        "vitamin C",
        "tilt 25 degrees",
        "",
    ],
)
def test_what_is_spelt_plainly_stays(text: str) -> None:
    assert units_spelt(text) == text
