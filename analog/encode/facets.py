"""A model or a problem as signature texts: what it is for, why it works, what it is made of, what it answers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # the records cost a third of a second to import; here they are only read
    from analog.model.types import Model, Place, Principle, Purpose, SubPurpose
    from analog.problem.types import Problem, ProblemPurpose

PURPOSES, PRINCIPLES, PARTS, QUESTIONS, SUMMARY, EXPECTED = FACETS = (
    "purposes",
    "principles",
    "parts",
    "questions",
    "summary",
    "expected",
)
"""The facets, in the order in which the index stores them."""


@dataclass(frozen=True, slots=True)
class FacetText:
    """One text of one facet. model_id : id of the model, or "" for a problem."""

    model_id: str
    facet: str
    text: str


def model_texts(
    model: Model, principles: Mapping[str, tuple[str, str]] | None = None, expected: Sequence[str] = ()
) -> tuple[FacetText, ...]:
    """The signature texts of a model, facet by facet, without repeats.

    expected : further sentences an engineer might type (see `analog.model.expected`).

    principles : id of a principle to (title, statement). A principle without a record goes by its id in words.
    """
    known = principles or {}
    names = {part.id: part.name for part in model.parts}
    everything: tuple[Purpose | SubPurpose, ...] = (*model.purposes, *model.sub_purposes)
    purposes = [
        _joined(purpose.text, phrase(purpose.verb, names.get(purpose.object, purpose.object), purpose.where, names))
        for purpose in everything
    ]
    reasons = dict.fromkeys(
        reason.principle
        for transition in model.transitions
        for reason in transition.reasons
        if reason.type == "principle"
    )
    parts = "; ".join(_with_kind(part.name, part.kind) for part in model.parts)
    texts = {
        PURPOSES: purposes,
        PRINCIPLES: [principle_text(identifier, known.get(identifier)) for identifier in reasons],
        PARTS: [parts],
        QUESTIONS: [question.text for question in model.questions],
        SUMMARY: [f"{model.title}. {model.summary}"],
        EXPECTED: list(expected),
    }
    return _records(model.id, texts)


def problem_texts(problem: Problem) -> tuple[FacetText, ...]:
    """The texts of a problem, to be compared with the texts of models facet by facet.

    A problem names no principle: its own words stand for that facet, for questions and for the summary.
    """
    names = {thing.id: thing.name for thing in problem.things}
    things = "; ".join(_with_kind(thing.name, thing.kind) for thing in problem.things)
    said = problem_words(problem)
    texts = {
        PURPOSES: [_joined(purpose.text, problem_phrase(purpose, names)) for purpose in problem.purposes],
        PRINCIPLES: [said],
        PARTS: [things],
        QUESTIONS: [said],
        SUMMARY: [said],
        EXPECTED: [said],
    }
    return _records("", texts)


def problem_words(problem: Problem) -> str:
    """The problem in its own words, with the conditions that were given apart: they say what an answer must bear."""
    told = dict.fromkeys(condition.text for condition in problem.conditions)  # one may say several things
    apart = [text for text in told if text not in problem.text]
    return ". ".join([problem.text, *apart])


def phrase(verb: str, thing: str, where: Place | None, names: Mapping[str, str]) -> str:
    """A purpose in one form whoever wrote it: "separate dust from solar panel"."""
    words = f"{_words(verb)} {thing}"
    return f"{words} {where.relation} {names.get(where.part, _words(where.part))}" if where else words


def problem_phrase(purpose: ProblemPurpose, names: Mapping[str, str]) -> str:
    """The purpose of a problem in the same form; one that wards something off says so."""
    thing = names.get(purpose.object, _words(purpose.object))
    if not purpose.negated:
        return phrase(purpose.verb, thing, purpose.where, names)
    place = f" from {names.get(purpose.where.part, _words(purpose.where.part))}" if purpose.where else ""
    return f"keep {thing} away{place}"


def principle_text(identifier: str, record: tuple[str, str] | None) -> str:
    """The text of a principle: title and statement, or its id in words."""
    return f"{record[0]}. {record[1]}" if record else _words(identifier)


def titles_and_statements(principles: Mapping[str, Principle]) -> dict[str, tuple[str, str]]:
    """The form in which `model_texts` wants the records of principles."""
    return {identifier: (principle.title, principle.statement) for identifier, principle in principles.items()}


def _words(identifier: str) -> str:
    return identifier.replace("-", " ")


def _with_kind(name: str, kind: str | None) -> str:
    return name if kind is None or _words(kind) == name.lower() else f"{name} ({_words(kind)})"


def _joined(text: str, normalised: str) -> str:
    return text if text.casefold() == normalised.casefold() else f"{text}; {normalised}"


def _records(model_id: str, texts: Mapping[str, list[str]]) -> tuple[FacetText, ...]:
    return tuple(FacetText(model_id, facet, text) for facet in FACETS for text in dict.fromkeys(texts[facet]) if text)
