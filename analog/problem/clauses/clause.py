"""The record of what one clause asks for."""

from __future__ import annotations

from dataclasses import dataclass, field

from analog.problem.chunk import Phrase


@dataclass
class Clause:
    """One purpose as its words give it.

    verbs : function → weight 0..1. object : phrase or None; implied : name of a thing not said but meant.
    where : (relation of a place, phrase). negated : the object is to be kept away or its event kept from happening.
    """

    text: str
    style: str
    verbs: dict[str, float] = field(default_factory=dict)
    object: Phrase | None = None
    implied: str | None = None
    where: tuple[str, Phrase] | None = None
    negated: bool = False
    others: list[tuple[str, Phrase]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    sure: bool = True
