"""Quantities as people write them: numbers without noise, units with their signs, ranges in words."""

from __future__ import annotations

import re

from analog.model.types import Measured

_SIGNS = {
    "um": "µm",
    "us": "µs",
    "uN": "µN",
    "uPa": "µPa",
    "uT": "µT",
    "uV": "µV",
    "ug": "µg",
    "umol": "µmol",
    "uL": "µl",
    "mL": "ml",
    "nL": "nl",
    "pL": "pl",
    "fL": "fl",
    "degC": "°C",
    "percent": "%",
    "ohm": "Ω",
    "microliter": "µl",
    "milliliter": "ml",
    "nanoliter": "nl",
    "picoliter": "pl",
    "femtoliter": "fl",
    "liter": "l",
    "L": "l",
    "second": "s",
    "meter": "m",
    "minute": "min",
    "hour": "h",
}
_PLURAL = {"day": "days", "week": "weeks", "month": "months", "year": "years"}
_SUPERSCRIPT = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
_WORD = re.compile(r"[A-Za-z]+")


def number(value: float) -> str:
    """A number as it was written, at most six digits: 0.5, 3400, 2.5·10⁻⁷."""
    text = f"{value:.6g}"
    if "e" not in text:
        return text
    digits, power = text.split("e")
    shown = f"10{str(int(power)).translate(_SUPERSCRIPT)}"
    return shown if digits == "1" else f"{digits}·{shown}"


def unit_words(unit: str) -> str:
    """A unit for people: um → µm, kg/m**3 → kg/m³, dimensionless → ""; degree → °.

    The SI Brochure (BIPM, 9th edition, 5.4.3, from memory) puts the sign of degrees of angle behind the number without
    a blank; `span` does so.
    """
    if unit == "dimensionless":
        return ""
    if unit == "degree":
        return "°"
    text = re.sub(r"\*\*\(?(-?\d+)\)?", lambda match: match[1].translate(_SUPERSCRIPT), unit)
    return _WORD.sub(lambda match: _SIGNS.get(match[0], match[0]), text.replace("*", "·"))


def span(low: float | None, high: float | None, unit: str) -> str:
    """A value or range with its unit: "5 to 50 µm", "at least 4°", "1 day"."""
    sign = unit_words(unit)
    if low is None and high is None:
        return "any value"
    if low is not None and high is not None:
        text = number(low) if low == high else f"{number(low)} to {number(high)}"
    elif low is not None:
        text = f"at least {number(low)}"
    else:
        text = f"at most {number(high or 0.0)}"
    if sign in _PLURAL and not (low == high == 1):
        sign = _PLURAL[sign]
    return f"{text}{sign}" if sign == "°" else f"{text} {sign}".rstrip()


def value_words(quantity: Measured) -> str:
    """The value of a quantity: "60 to 110 µm"."""
    return span(*quantity.bounds, quantity.unit)
