"""Words of the brief alone: conditions as they were understood, and what other rooms wrote, set for print.

Sentences and quantities have their home in `analog.explain`.
"""

from __future__ import annotations

import re

from analog.explain.quantities import span
from analog.explain.sentences import definite
from analog.model.types import Quantity
from analog.problem.types import Condition

_UNITS = {"degC": "°C", "um": "µm", "percent": "%"}


def typeset(text: str) -> str:
    """A text of another room with units and minus signs as they are printed."""
    text = re.sub(r"(?<=\d )(?:degC|um|percent)\b", lambda match: _UNITS[match[0]], text)
    return re.sub(r"(?:(?<=[\s(])|^)-(?=\d)", "−", text)


def span_text(low: float | None, high: float | None, unit: str) -> str:
    """ "5 to 50 µm", "at least 4°", "−20 °C"."""
    return typeset(span(low, high, unit))


def quantity_text(quantity: Quantity) -> str:
    """ "hair length: 60 to 110 µm"."""
    return f"{quantity.name}: {span_text(*quantity.bounds, quantity.unit)}"


def condition_text(condition: Condition) -> str:
    """A condition as it was understood: "the particle size is 5 to 50 µm"."""
    what = condition.about or condition.kind or ""
    if condition.type in {"absent", "present", "medium"}:
        what = (condition.kind or what).replace("-", " ")
        return {"absent": f"there is no {what}", "present": f"there is {what}", "medium": f"it happens in {what}"}[
            condition.type
        ]
    if condition.type == "note" or (condition.low is None and condition.high is None):
        return "not understood; it is kept with the problem and decides nothing"
    if condition.type == "temperature":
        owner = f" of {definite(condition.about)}" if condition.about and "temperature" not in condition.about else ""
        low, high = (None if value is None else round(value - 273.15, 2) for value in (condition.low, condition.high))
        return f"the temperature{owner} is {span_text(low, high, 'degC')}"
    quantity = condition.quantity or condition.type
    name = quantity if not condition.about or condition.about in quantity else f"{condition.about} {quantity}"
    return f"the {name} is {span_text(condition.low, condition.high, condition.unit or 'dimensionless')}"
