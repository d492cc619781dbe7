"""Bring a thing to a state or a motion: "make a quiet fan", "let vapour through", "make droplets stay"."""

from __future__ import annotations

from analog.problem.chunk import PLACES, Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.functions import SEPARATE
from analog.problem.clauses.keep import keep
from analog.problem.clauses.lemma import lemma_at
from analog.problem.clauses.places import where
from analog.problem.clauses.states import apply_state, match_state, states
from analog.problem.clauses.wording import Wording

_FILLING = {"more", "so", "very", "much", "that", "gets", "get", "become"}
_PASSAGE = {"through", "in", "into", "out", "pass"}
_LET_THROUGH = {"guide": 0.6, "import": 0.55, "transmit": 0.4, "separate": 0.4}
_HELD = {"secure": 0.8, "couple": 0.6, "contain": 0.55}
_ALLOWERS = {"allow", "let", "enable"}
_FREE_MOTIONS = {"bend", "turn", "rotate", "flex", "slide", "swing", "tilt", "move"}


def cause_change(wording: Wording, clause: Clause, verb: str, phrase: Phrase, i: int) -> bool:
    """Fill in a change told without a second verb: "make the deck safe", "get sand out", "let light in".

    phrase : what is changed; i : index after it. False if no such change is told.
    """
    k = _caused_at(wording, i)
    if verb == "make" and (_make_of_a_state(wording, clause, phrase, i) or _make_into(wording, clause, phrase, k)):
        return True
    if verb == "get" and wording.lower(k) in {"off", "out", "from"}:
        clause.verbs = {**SEPARATE, "extract": 0.5}
    elif wording.lower(k) in _PASSAGE:
        clause.verbs = dict(_LET_THROUGH)
    else:
        return False
    clause.object, clause.where = phrase, where(wording, k)
    return True


def caused_verb(wording: Wording, i: int) -> tuple[str, int] | None:
    """(verb, index after) of what a thing is made to do, i being the index after the thing; None if nothing."""
    k = _caused_at(wording, i)
    return lemma_at(wording, k) if wording.is_base(k) and wording.lower(k) not in PLACES else None


def cause_to_stay(wording: Wording, clause: Clause, phrase: Phrase, i: int) -> None:
    """ "make the surface stay clean", "let cells stay on the plate"; i : index after "stay"."""
    if match_state(wording, i, "keep") or wording.lower(i) in {"free", "clear"}:
        keep(wording, clause, phrase, i)
    else:
        clause.verbs, clause.object, clause.where = dict(_HELD), phrase, where(wording, i)


def allow_motion(clause: Clause, verb: str, caused: str) -> None:
    """ "let the joint turn": a degree of freedom is asked for besides."""
    if verb in _ALLOWERS and caused in _FREE_MOTIONS:
        clause.verbs["allow-dof"] = 0.9


def _caused_at(wording: Wording, i: int) -> int:
    """Index of the word that tells what a thing is brought to."""
    k = i + 1 if wording.lower(i) == "to" else i
    while k < len(wording) - 1 and wording.lower(k) in _FILLING:
        k += 1
    return k


def _make_of_a_state(wording: Wording, clause: Clause, phrase: Phrase, i: int) -> bool:
    """ "make a quiet fan": the state stands before the noun."""
    if clause.style == "complaint":
        return False
    words = phrase.text.split()
    for word in words[:-1]:
        row = states().get((word, "make"))
        if row is not None:
            rest = Phrase(tuple(other for other in words if other != word))
            apply_state(wording, clause, row, rest, i)
            return True
    return False


def _make_into(wording: Wording, clause: Clause, phrase: Phrase, k: int) -> bool:
    """ "make the fan quiet": the state stands after the noun."""
    state = match_state(wording, k, "make")
    if state is not None:
        apply_state(wording, clause, state[0], phrase, state[1])
    return state is not None
