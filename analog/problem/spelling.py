"""Units and numbers written out, brought to the one spelling that conditions are read in.

"40 degrees Fahrenheit", "-40 F"     -40 degF: C and F after a number are scales, not coulomb or farad
"minus 20 °C"                        -20 °C
"3 litres per minute"                3 litres/minute
"5 cubic metres per hour"            5 m3/hour
"gap of 1/4 inch", "1 1/2 inches"    0.25 inch, 1.5 inches
"1 Pa s", "1 Pa.s"                   1 Pa*s
"""

from __future__ import annotations

import re

_ELECTRIC = re.compile(r"\b(?:charge|capacit\w*|coulombs?|farads?)\b", re.I)
_SCALE = re.compile(
    r"(?<=\d)(\s*)(?:(?:deg(?:ree)?s?\.?\s*|°\s*)(?:(fahrenheit|F)|(celsius|centigrade|C))|(F)|(C))(?![\w/*^])"
)
_WRITTEN_SCALE = re.compile(r"(?<=\d)(\s*)(?:deg(?:ree)?s?\.?\s*|°\s*)?(?:(fahrenheit)|(celsius|centigrade))\b", re.I)
_MINUS = re.compile(r"\bminus\s+(?=\d)", re.I)
_PER = re.compile(
    r"(?<=\d)(\s*[A-Za-z]+[23]?)\s+per\s+(?=(?:second|sec|s|minute|min|hour|hr|h|day|metre|meter|m)\b)", re.I
)
_CUBIC = re.compile(r"(?<=\d)\s*(cubic|square)\s+(metre|meter|centimetre|centimeter|millimetre|millimeter)s?\b", re.I)
_SHORT = {"metre": "m", "meter": "m", "centimetre": "cm", "centimeter": "cm", "millimetre": "mm", "millimeter": "mm"}
_FRACTION = re.compile(r"(?<![\d./])(?:(\d+)\s+)?(\d+)\s*/\s*(\d+)(?=\s*(?:inch|inches|ft|foot|feet|mile)\b|\s*\")")
_VISCOUS = re.compile(r"(?<=\d)(\s*[mu]?)Pa\s*[.\s]\s*s\b")


def units_spelt(text: str) -> str:
    """A text with its units in one spelling; what is no number with a unit stays as it is."""
    text = _MINUS.sub("-", text)
    text = _WRITTEN_SCALE.sub(lambda match: f"{match[1] or ' '}{'degF' if match[2] else 'degC'}", text)
    if not _ELECTRIC.search(text):
        text = _SCALE.sub(lambda match: f"{match[1] or ' '}{'degF' if match[2] or match[4] else 'degC'}", text)
    text = _CUBIC.sub(lambda match: f" {_SHORT[match[2].lower()]}{3 if match[1].lower() == 'cubic' else 2}", text)
    text = _PER.sub(r"\1/", text)
    text = _FRACTION.sub(_decimal, text)
    return _VISCOUS.sub(r"\1Pa*s", text)


def _decimal(match: re.Match[str]) -> str:
    if not int(match[3]):
        return match[0]
    return f"{int(match[1] or 0) + int(match[2]) / int(match[3]):.6g}"
