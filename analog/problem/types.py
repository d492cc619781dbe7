"""The record of a problem: the same shape as a model, as far as an engineer's sentence can fill it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from analog.model.types import FactText, FiniteFloat, Identifier, Place, Record, ShortText, Text, Unit


class Thing(Record):
    """Something the problem speaks of.

    kind : concept of the thesaurus, or null where none fits. kind_similarity : 0..1, how sure the link is.
    """

    id: Identifier
    name: ShortText
    kind: Identifier | None = None
    kind_similarity: Annotated[float, Field(ge=0, le=1)] = 0.0


class VerbCandidate(Record):
    """A function of the published vocabulary and the confidence, 0..1, that it is meant."""

    verb: Identifier
    confidence: Annotated[float, Field(ge=0, le=1)]


class ProblemPurpose(Record):
    """What is to be achieved.

    verb, confidence : the function read and how sure; runners_up : the next best, best first.
    negated : the purpose is to keep something from happening ("keep ice off"); object is then what is kept away.
    """

    text: ShortText
    verb: Identifier
    confidence: Annotated[float, Field(ge=0, le=1)] = 1.0
    runners_up: tuple[VerbCandidate, ...] = ()
    negated: bool = False
    flow: Identifier | None = None
    object: Identifier
    where: Place | None = None


class Condition(Record):
    """A given: what is absent or present, the medium, or the range of a quantity.

    absent, present, medium : `kind` says what (a concept of the thesaurus).
    temperature : low/high in kelvin (unit "K"), whatever unit the engineer wrote.
    note : words that were not understood; kept with the problem, decide nothing.
    angle : low/high in degree. range : a named quantity of `about` (free words, e.g. "particle"), in `unit` as written.
    """

    type: Literal["absent", "present", "medium", "temperature", "angle", "range", "note"]
    text: ShortText
    kind: Identifier | None = None
    about: ShortText | None = None
    quantity: ShortText | None = None
    low: FiniteFloat | None = None
    high: FiniteFloat | None = None
    unit: Unit | None = None


class Problem(Record):
    """A problem as read. initial, objective : facts before and after over the ids of `things`.

    notes : what the reader was unsure of, or left out, in sentences for the person who asked.
    """

    text: Text
    purposes: tuple[ProblemPurpose, ...] = Field(min_length=1)
    things: tuple[Thing, ...] = Field(min_length=1)
    initial: tuple[FactText, ...] = ()
    objective: tuple[FactText, ...] = ()
    relations: tuple[FactText, ...] = ()
    conditions: tuple[Condition, ...] = ()
    notes: tuple[Text, ...] = ()

    def thing(self, thing_id: str) -> Thing:
        """The thing with this id; KeyError if there is none."""
        for thing in self.things:
            if thing.id == thing_id:
                return thing
        raise KeyError(thing_id)
