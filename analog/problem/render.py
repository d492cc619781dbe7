"""A reading in one line: "separate · dust [particulate; contaminant] · from solar panel [panel-surface]"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from analog.problem.ambient import is_ambient
from analog.problem.types import Condition, Problem, ProblemPurpose

if TYPE_CHECKING:
    from analog.vocabulary import Vocabulary

_ASCII = str.maketrans(
    {
        "·": "-",
        "…": "...",
        "°": "deg",
        "–": "-",
        "−": "-",
        "→": "->",
        "µ": "u",
        "μ": "u",
        "≤": "<=",
        "≥": ">=",
        "²": "2",
        "³": "3",
        "⁻": "-",
    }
)


_UNITS = {"um": "µm", "us": "µs", "degree": "°", "percent": "%", "dimensionless": "", "liter": "l", "K": "K"}
_POWER = re.compile(r"\*\*(-?\d)")
_SUPERSCRIPT = str.maketrans("-23456", "⁻²³⁴⁵⁶")


def _plain(text: str, ascii_only: bool) -> str:
    return text.translate(_ASCII).encode("ascii", "replace").decode() if ascii_only else text


def _bracket(problem: Problem, thing_id: str, flow: str | None, vocabulary: Vocabulary | None) -> str:
    thing = problem.thing(thing_id)
    inside: list[str] = []
    if flow is not None:
        inside.append(flow)
    if thing.kind is not None:
        general = [thing.kind]
        if vocabulary is not None and vocabulary.kinds.known(thing.kind):
            general += list(vocabulary.kinds.broader(thing.kind))[:1]
        inside += [kind for kind in general if kind != thing.name or len(general) == 1][:2]
    inside = list(dict.fromkeys(inside))
    return f"{thing.name} [{'; '.join(inside)}]" if inside else f"{thing.name} [kind unknown]"


def purpose_line(
    problem: Problem, purpose: ProblemPurpose, vocabulary: Vocabulary | None = None, *, ascii_only: bool = False
) -> str:
    """One purpose in one line; "keep from happening" is said where the purpose is preventive."""
    verb = f"{purpose.verb} (keep away or from happening)" if purpose.negated else purpose.verb
    pieces = [verb, _bracket(problem, purpose.object, purpose.flow, vocabulary)]
    if purpose.where is not None:
        pieces.append(f"{purpose.where.relation} {_bracket(problem, purpose.where.part, None, vocabulary)}")
    return _plain(" · ".join(pieces), ascii_only)


def reading_line(problem: Problem, vocabulary: Vocabulary | None = None, *, ascii_only: bool = False) -> str:
    """All purposes in one line, parted by " | "."""
    return " | ".join(purpose_line(problem, purpose, vocabulary, ascii_only=ascii_only) for purpose in problem.purposes)


def condition_line(condition: Condition, *, ascii_only: bool = False) -> str:
    """One condition: what was understood, with units as people write them and temperatures in °C."""
    if condition.type == "note":
        return _plain(f"“{condition.text}” (not understood)", ascii_only)
    what = (condition.kind or condition.about or "").replace("-", " ")
    if condition.type in {"absent", "present", "medium"}:
        word = {"absent": "no", "present": "there is", "medium": "in"}[condition.type]
        return _plain(f"{word} {what}".strip(), ascii_only)
    quantity = condition.quantity or condition.type
    name = quantity if not condition.about or condition.about in quantity.split() else f"{condition.about} {quantity}"
    if condition.type == "temperature":
        name = "temperature" if is_ambient(condition) else f"temperature of {condition.about}"
    bounds = _bounds(condition)
    return _plain(f"{name} {bounds}".strip(), ascii_only)


def _bounds(condition: Condition) -> str:
    low, high, unit = condition.low, condition.high, _UNITS.get(condition.unit or "", condition.unit or "")
    if condition.type == "temperature":  # kept in kelvin
        low, high = (None if end is None else round(end - 273.15, 1) + 0.0 for end in (low, high))
        unit = "°C"
    sign = unit if unit == "°" else f" {_POWER.sub(_raised, unit)}".replace("*", "·").rstrip()
    if low is not None and high is not None:
        return f"{low:g}{sign}" if low == high else f"{low:g} to {high:g}{sign}"
    if low is not None:
        return f"at least {low:g}{sign}"
    return f"at most {high:g}{sign}" if high is not None else ""


def _raised(match: re.Match[str]) -> str:
    return match[1].translate(_SUPERSCRIPT)


def render(problem: Problem, vocabulary: Vocabulary | None = None, *, ascii_only: bool = False) -> str:
    """The reading, conditions and notes on lines of their own; ends without a newline."""
    lines = [purpose_line(problem, purpose, vocabulary, ascii_only=ascii_only) for purpose in problem.purposes]
    first = problem.purposes[0]
    if first.runners_up:
        others = ", ".join(f"{r.verb} {r.confidence:.2f}" for r in first.runners_up)
        lines.append(_plain(f"confidence {first.confidence:.2f}; or {others}", ascii_only))
    if problem.conditions:
        lines.append(
            _plain(
                "given: " + "; ".join(condition_line(c, ascii_only=ascii_only) for c in problem.conditions), ascii_only
            )
        )
    lines += [_plain(f"note: {note}", ascii_only) for note in problem.notes]
    return "\n".join(lines)
