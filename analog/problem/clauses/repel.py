"""Resist or keep out something: "keep out rain", "must survive freezing"."""

from __future__ import annotations

from analog.problem.chunk import Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.functions import INHIBIT
from analog.problem.clauses.places import place_of_event, relation, where
from analog.problem.clauses.symptoms import symptoms
from analog.problem.clauses.wording import Wording


def repel(wording: Wording, clause: Clause, subject: Phrase | None, phrase: Phrase | None, i: int) -> None:
    """Fill in what is to be repelled; i : index after it."""
    clause.verbs, clause.negated = dict(INHIBIT), True
    if phrase is not None and len(phrase.words) == 1 and phrase.head.endswith("ing") and subject is not None:
        bases = wording.chunker.verb_bases(phrase.head)
        row = next((symptoms()[base] for base in bases if base in symptoms()), None)
        if row is not None and row["object"]:  # "must survive freezing"
            clause.implied, clause.where = row["object"], (relation(row["relation"]), subject)
            return
    clause.object, clause.where = phrase, where(wording, i)
    if clause.where is None and subject is not None:
        clause.where = ("from", subject)
    place_of_event(clause)
