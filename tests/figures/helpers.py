"""What a figure shows, read back from its SVG: every line of text with the rectangle it takes."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any
from xml.etree import ElementTree

from analog.figures.figure import Figure
from analog.figures.sheet import text_width
from analog.model.types import Model
from tests.model.sample import sample

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = 'grit <script>alert("1")</script> & $x_1$ \\frac{1}{2} {{7*7}} ]]> --> \u202e\x1b[31m 塵'


@dataclass(frozen=True)
class Line:
    """A line of text with its left, top, right and bottom in points, and its size."""

    text: str
    left: float
    top: float
    right: float
    bottom: float
    size: float


def root_of(figure: Figure) -> ElementTree.Element:
    return ElementTree.fromstring(figure.svg)


def style_of(element: ElementTree.Element) -> dict[str, str]:
    pairs = (piece.split(":", 1) for piece in element.get("style", "").split(";") if ":" in piece)
    return {key.strip(): value.strip() for key, value in pairs}


def lines_of(figure: Figure) -> list[Line]:
    """Every line of text. The rectangle is that of the letters: from the height of an ascender to a descender."""
    found = []
    for element in root_of(figure).iter(f"{SVG}text"):
        style = style_of(element)
        size = float(style["font-size"].removesuffix("px"))
        text = element.text or ""
        wide = text_width(text, size, style.get("font-weight") == "700")
        x, y = float(element.get("x", "0")), float(element.get("y", "0"))
        start = {"start": 0.0, "middle": wide / 2, "end": wide}[style.get("text-anchor", "start")]
        found.append(Line(text, x - start, y - 0.76 * size, x - start + wide, y + 0.24 * size, size))
    return found


def size_of(figure: Figure) -> tuple[float, float]:
    """Width and height in points."""
    _, _, wide, high = map(float, root_of(figure).get("viewBox", "").split())
    return wide, high


def words_of(figure: Figure) -> str:
    """All text in the picture in reading order, without blanks: wrapping and cutting must not matter."""
    return re.sub(r"\s", "", "".join(line.text for line in lines_of(figure)))


def shows(figure: Figure, text: str) -> bool:
    """Whether the picture holds a text, wherever its lines are broken."""
    return re.sub(r"\s", "", text) in words_of(figure)


def hostile_model(**changes: Any) -> Model:
    """A sound model with a hostile text wherever a text may stand."""
    record = sample()
    record.update(title=HOSTILE, summary=HOSTILE)
    record["organism"]["common"] = HOSTILE
    record["habitat"]["text"] = HOSTILE
    for part in record["parts"]:
        part["name"] = f"{part['id']} {HOSTILE}"
        part["material"] = HOSTILE
    for state in record["states"]:
        state["text"] = HOSTILE
    for transition in record["transitions"]:
        transition["text"] = HOSTILE
        for reason in transition["reasons"]:
            reason["note"] = HOSTILE
    record["purposes"][0]["text"] = HOSTILE
    record["structure"] = ["part-of(grit, pad)"]
    record["questions"] = [{"text": HOSTILE, "industry": HOSTILE}]
    record["limits"] = [{"about": "wear", "text": HOSTILE}]
    record["sources"].append({"key": "paper", "type": "article", "authors": HOSTILE, "year": 2000, "title": HOSTILE})
    record.update(changes)
    return Model.model_validate(record)
