"""Protect a thing from a foe: "shield the lens against glare"."""

from __future__ import annotations

from analog.problem.chunk import Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.functions import INHIBIT, candidates
from analog.problem.clauses.places import all_places, main_place
from analog.problem.clauses.prevent import prevent_event
from analog.problem.clauses.wording import Wording

_ALSO_PLAIN = {"seal", "insulate", "save", "strengthen", "preserve", "screen"}
"""Protectors that mean something of their own where no foe is named."""


def protect(wording: Wording, clause: Clause, verb: str, phrase: Phrase | None, i: int) -> bool:
    """Fill in what the thing is to be protected from; False if the verb means something else here."""
    for k in range(i, len(wording)):
        if wording.lower(k) not in {"from", "against"}:
            continue
        if wording.lower(k + 1).endswith("ing") and wording.is_verb(k + 1) and not wording.begins_compound(k + 1):
            prevent_event(wording, clause, phrase, k + 1, verb)
            return True
        foe = wording.named(k + 1)
        if foe is not None:
            clause.verbs, clause.negated, clause.object = dict(INHIBIT), True, foe
            clause.where = ("from", phrase) if phrase is not None else None
            return True
    if verb in _ALSO_PLAIN:
        return False
    meant = candidates(wording.vocabulary, verb, phrase)
    clause.verbs = {**INHIBIT, **{function: w for function, w in meant.weights.items() if function in INHIBIT}}
    if meant.implied:
        clause.implied, clause.negated = meant.implied, True
        clause.where = ("from", phrase) if phrase is not None else None
        return True
    clause.object, clause.where = phrase, main_place(all_places(wording, i))
    clause.notes.append("What the thing is to be protected from is not said.")
    return True
