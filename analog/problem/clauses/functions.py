"""Which functions of the published vocabulary a verb or a shape stands for, and how strongly."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from analog.problem.chunk import Phrase

if TYPE_CHECKING:
    from analog.vocabulary import Vocabulary

PREVENT = {"prevent": 0.9, "inhibit": 0.7, "stop": 0.4}
INHIBIT = {"inhibit": 0.9, "prevent": 0.75, "stop": 0.3}
SEPARATE = {"separate": 0.9, "remove": 0.75, "export": 0.6}

_NEAR = {
    "separate": SEPARATE,
    "prevent": PREVENT,
    "inhibit": INHIBIT,
    "export": {"export": 0.9, "transfer": 0.8, "separate": 0.4},
    "decrease": {"decrease": 0.9, "decrement": 0.7, "inhibit": 0.6},
    "increase": {"increase": 0.9, "increment": 0.6, "change": 0.5},
    "secure": {"secure": 0.9, "couple": 0.65, "join": 0.5},
    "stabilize": {"stabilize": 0.9, "secure": 0.6, "inhibit": 0.4},
    "supply": {"supply": 0.9, "import": 0.6},
    "transport": {"transport": 0.9, "transfer": 0.8, "guide": 0.5},
}


class Candidates(NamedTuple):
    """What a verb may mean. weights : function → 0..1, empty for a verb nobody knows.

    of_place : its object is a place, and what it acts on is a thing of the kind `implied` ("dust the shelf").
    """

    weights: dict[str, float]
    of_place: bool = False
    implied: str | None = None


def near(function: str) -> dict[str, float]:
    """A function read from a shape, with those close to it."""
    return dict(_NEAR.get(function, {function: 0.9}))


def strongest(weights: dict[str, float]) -> str:
    """The function of the greatest weight, the first of equals. ValueError if there is none."""
    return max(weights, key=lambda function: weights[function])


def candidates(vocabulary: Vocabulary, verb: str, phrase: Phrase | None) -> Candidates:
    """What a verb may mean with the flow of its object."""
    flow = kind = None
    if phrase is not None:
        kind = vocabulary.kind_of(phrase.text)
        flow = vocabulary.flow_of_kind(kind.kind) if kind is not None else None
    matches = [match for match in vocabulary.verbs.candidates(verb, flow) if not match.negated]
    if not matches:
        return Candidates({})
    weights: dict[str, float] = {}
    for match in matches:
        weights[match.verb] = max(weights.get(match.verb, 0.0), match.weight)
    implied = matches[0].implied_kind
    if implied is None:
        return Candidates(weights)
    if phrase is not None and kind is not None:
        kinds = vocabulary.kinds
        itself = kinds.is_a(kind.kind, implied) or kinds.is_a(implied, kind.kind)
        if itself or kinds.is_a(kind.kind, "energy"):
            return Candidates(weights)  # "drain water", "trap light": what is meant is said
    return Candidates(weights, of_place=True, implied=implied)
