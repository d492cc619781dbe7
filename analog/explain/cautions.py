"""What to be careful with in a model: contested mechanisms, limits that the problem touches, thin evidence."""

from __future__ import annotations

from collections.abc import Iterable

from analog.model.types import Model
from analog.problem.types import Problem

_TOUCHES: dict[str, tuple[str, ...]] = {
    "temperature": ("temperature", "frost", "freez", "ice", "hot", "heat", "cold"),
    "scale": ("size", "large", "small", "scale", "kilomet", "micro", "nano"),
    "speed": ("fast", "speed", "rapid"),
    "fouling": ("dirt", "dust", "oil", "foul", "grease"),
    "humidity": ("dry", "humid", "moist", "rain", "desert"),
    "wear": ("abras", "wear", "sand", "years"),
}
"""Kinds of limit -> beginnings of words in a problem that make the limit worth repeating."""


def cautions(model: Model, problem: Problem, unlike_only: bool) -> tuple[str, ...]:
    """Sentences for the reader, the weightiest first. unlike_only : nothing but roles pairs problem and model."""
    return tuple(dict.fromkeys(_cautions(model, problem, unlike_only)))


def _cautions(model: Model, problem: Problem, unlike_only: bool) -> Iterable[str]:
    if unlike_only:
        yield "No thing of the problem meets a part of the model under a common kind: the likeness is of words alone."
    for dispute in model.disputes:
        yield f"Contested: {dispute.text}"
    said = " ".join([problem.text, *(condition.text for condition in problem.conditions)]).lower()
    for limit in model.limits:
        if any(word in said for word in _TOUCHES.get(limit.about, ())):
            yield f"Limit ({limit.about}): {limit.text}"
    values = [q for part in model.parts for q in part.properties] + list(model.sizes)
    if values and all(quantity.from_memory for quantity in values):
        yield "Every figure of this model is from memory: re-read the sources before designing with it."
