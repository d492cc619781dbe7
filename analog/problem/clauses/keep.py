"""Keep a thing in a state or away from a place: "keep ice off the wing", "stay dry", "keep drinks cold"."""

from __future__ import annotations

from analog.problem.chunk import Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.events import event_after
from analog.problem.clauses.functions import PREVENT, candidates
from analog.problem.clauses.places import APART, where
from analog.problem.clauses.prevent import prevent_event
from analog.problem.clauses.states import apply_state, match_state
from analog.problem.clauses.symptoms import match_symptom
from analog.problem.clauses.wording import Wording

_STEADY = {"position": 0.6, "stabilize": 0.55, "regulate": 0.5, "secure": 0.4}
"""Functions meant by keeping a thing at what it does: "keep the beam pointing at the sun"."""


def keep(wording: Wording, clause: Clause, phrase: Phrase | None, i: int) -> None:
    """Fill in what is asked for by keeping. phrase : what is kept; i : index after it."""
    word = wording.lower(i)
    if word in {"free", "clear"} and wording.lower(i + 1) in {"from", "of"}:
        thing, _ = wording.noun_phrase(i + 2)
        clause.verbs, clause.negated = dict(PREVENT), True
        clause.object, clause.where = thing, ("from", phrase) if phrase is not None else None
        return
    state = match_state(wording, i, "keep")
    if state is not None:
        apply_state(wording, clause, state[0], phrase, state[1])
        return
    place = wording.chunker.place_at(wording.tokens, i)
    if (place is not None and place[0] in APART) or word in {"out", "away", "off"}:
        _keep_away(wording, clause, phrase, place[1] if place is not None else i + 1)
    elif phrase is None:
        clause.verbs = candidates(wording.vocabulary, "keep", None).weights or {"secure": 0.5, "store": 0.4}
        clause.object, _ = wording.noun_phrase(i)
    else:
        clause.verbs = dict(_STEADY) if word.endswith("ing") else _kept(wording, phrase)
        clause.object, clause.where = phrase, where(wording, i)


def _kept(wording: Wording, phrase: Phrase) -> dict[str, float]:
    return candidates(wording.vocabulary, "keep", phrase).weights or {"regulate": 0.5}


def _keep_away(wording: Wording, clause: Clause, phrase: Phrase | None, i: int) -> None:
    """ "keep birds off the roof", "keep the chain from rusting"; i : index after the preposition."""
    if event_after(wording, i) == i and (
        not wording.begins_compound(i) or (i == len(wording) - 1 and match_symptom(wording, i) is not None)
    ):
        prevent_event(wording, clause, phrase, i)
        return
    place = wording.named(i)
    clause.verbs, clause.negated = dict(PREVENT), True
    clause.object, clause.where = phrase, ("from", place) if place is not None else None
