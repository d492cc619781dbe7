"""Rid a place of something: "clear a lens of fog", "get rid of scale", "strip paint from a hull"."""

from __future__ import annotations

from analog.problem.chunk import Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.functions import SEPARATE, candidates
from analog.problem.clauses.names import could_be_dirt
from analog.problem.clauses.places import where
from analog.problem.clauses.wording import Wording


def get_rid_of(wording: Wording, clause: Clause, phrase: Phrase | None, i: int) -> None:
    """ "get rid of X (in Y)"; i : index after X."""
    clause.verbs = dict(SEPARATE)
    clause.object, clause.where = phrase, where(wording, i)


def rid(wording: Wording, clause: Clause, verb: str, phrase: Phrase, i: int) -> bool:
    """ "rid Y of X", "strip X from Y"; False if what stands at i is no such place."""
    word = wording.lower(i)
    free = word == "free" and i + 1 < len(wording)
    if word not in {"of", "from", "off"} and not free:
        return False
    thing = wording.named(i + 2 if free else i + 1)
    if thing is None:
        return False
    vocabulary = wording.vocabulary
    if word == "of" and verb in {"clean", "wipe", "empty"} and not could_be_dirt(vocabulary, thing):
        # "empty the tank of the truck": the thing after "of" tells which tank
        meant = candidates(vocabulary, verb, phrase)
        clause.verbs = meant.weights
        if verb == "empty":
            clause.object = phrase
        else:
            clause.implied, clause.where = meant.implied or "contaminant", ("from", phrase)
        return True
    clause.verbs = {**SEPARATE, **candidates(vocabulary, verb, thing).weights}
    if word in {"of", "free"}:
        clause.object, clause.where = thing, ("from", phrase)
    else:
        clause.object, clause.where = phrase, ("from", thing)
    return True
