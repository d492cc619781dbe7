"""What a clause says is to be done: its negation, its passive, its state or its verb."""

from __future__ import annotations

from analog.problem.chunk import ADVERBS, DETERMINERS, NEGATIONS, Phrase
from analog.problem.clauses.act import act
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.keep import keep
from analog.problem.clauses.lemma import lemma_at
from analog.problem.clauses.noun_request import noun_request
from analog.problem.clauses.prevent import prevent_event
from analog.problem.clauses.request_start import starts_request
from analog.problem.clauses.states import apply_state, match_state
from analog.problem.clauses.verb_classes import STAYERS
from analog.problem.clauses.wording import Wording

_BEFORE_VERB = ADVERBS | NEGATIONS | {"to", "we", "you", "i", "one"}
_GET = {"get", "gets"}
_BE = {"be", "been", "is", "are"} | _GET
_BEFORE_PARTICIPLE = ADVERBS | {"able", "to", "both"}
_UNCHANGED_PARTICIPLES = {"cut", "split", "shut", "put", "set", "kept", "held", "spread"}
_REACH = 8
"""A verb is looked for no further than this from where it was expected."""
_PROPERTY = {"change": 0.35, "condition": 0.35, "regulate": 0.25}


def verb_phrase(wording: Wording, clause: Clause, i: int, subject: Phrase | None, last: Phrase | None) -> None:
    """Fill in what is to be done, from token i on; leaves the clause without verbs if nothing is found.

    subject : what stands before the verb. last : what "it" and "them" mean.
    """
    i, negated = _to_verb(wording, clause, i, subject)
    if i >= len(wording):
        return
    passive = False
    if wording.lower(i) in _BE and i + 1 < len(wording) and subject is not None:
        found = _after_be(wording, clause, i, subject)
        if found is None:
            return
        i, passive = found
    if negated:  # "the tank must not crack"
        prevent_event(wording, clause, subject, i)
        return
    lemma = lemma_at(wording, i)
    if lemma is None:
        if not noun_request(wording, clause, i):
            _look_further(wording, clause, i, subject, last)
        return
    verb, after = lemma
    if passive:
        act(wording, clause, verb, subject, after, moved=subject)
    elif _is_to_stay(wording, verb, subject, after):
        keep(wording, clause, subject, after)
    else:
        act(wording, clause, verb, subject, after, last=last)


def _to_verb(wording: Wording, clause: Clause, i: int, subject: Phrase | None) -> tuple[int, bool]:
    """(index of the first word that may be the verb, whether a negation stands before it)."""
    negated = False
    while i < len(wording):
        word = wording.lower(i)
        article = word in DETERMINERS and subject is None and clause.style != "imperative"
        adverb = word.endswith("ly") and not wording.is_verb(i)
        if not (word in _BEFORE_VERB or adverb or not wording.tokens[i].is_word or article):
            break
        negated = negated or word in NEGATIONS
        i += 1
    return i, negated


def _after_be(wording: Wording, clause: Clause, i: int, subject: Phrase) -> tuple[int, bool] | None:
    """(index of the verb, whether it is passive) after the form of "be" or "get" at i; None if the clause is read."""
    k = i + 1
    while k < len(wording) - 1 and wording.lower(k) in _BEFORE_PARTICIPLE:
        k += 1
    state = match_state(wording, k, "make")
    if state is not None:
        apply_state(wording, clause, state[0], subject, state[1])
        return None
    get = wording.lower(i) in _GET
    if _is_participle(wording, k, after_get=get):
        return k, True
    if get:
        return i, False
    if wording.is_verb(k) and wording.lower(i + 1) == "able":
        return k, False
    _ask_for_property(wording, clause, k, subject)
    return None


def _is_participle(wording: Wording, k: int, *, after_get: bool) -> bool:
    word = wording.lower(k)
    if word in _UNCHANGED_PARTICIPLES:
        return True
    if word.endswith("ing") and after_get:
        return False
    return wording.is_verb(k) and word not in wording.bases(k)[:1]


def _ask_for_property(wording: Wording, clause: Clause, i: int, subject: Phrase) -> None:
    """ "must be edible": a property is asked for; which one stands in the note."""
    clause.verbs = dict(_PROPERTY)
    clause.object = subject
    clause.sure = False
    clause.notes.append(f"A property is asked for ({wording.lower(i)!r}) and no action; the verb is a guess.")


def _look_further(wording: Wording, clause: Clause, i: int, subject: Phrase | None, last: Phrase | None) -> None:
    """No verb stands at i: read on from the next that may begin a request, unsure."""
    for k in range(i + 1, min(i + _REACH, len(wording))):
        if starts_request(wording, k) or (subject is not None and lemma_at(wording, k)):
            clause.sure = False
            verb_phrase(wording, clause, k, subject, last)
            return


def _is_to_stay(wording: Wording, verb: str, subject: Phrase | None, after: int) -> bool:
    """ "must stay dry", "stay on course", and "must keep dry" but not "keep dry sand"."""
    if verb not in STAYERS:
        return False
    if subject is None:
        return verb != "keep" and match_state(wording, after, "keep") is not None
    return verb != "keep" or match_state(wording, after, "keep") is not None
