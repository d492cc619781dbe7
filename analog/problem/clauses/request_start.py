"""Whether a verb begins a request ("filter the water") or is a noun in a statement ("filter clogs with sand")."""

from __future__ import annotations

from analog.problem.chunk import (
    ADVERBS,
    AUXILIARIES,
    DETERMINERS,
    MODALS,
    NEGATIONS,
    PARTICLES,
    PLACES,
    PRONOUNS,
    SUBORDINATORS,
)
from analog.problem.clauses.symptoms import match_symptom
from analog.problem.clauses.wording import Wording
from analog.problem.tables import word_class

_NEVER_FIRST = (DETERMINERS | PRONOUNS | MODALS | NEGATIONS | (AUXILIARIES - {"get"})).union(PLACES)
_OPENS_OBJECT = DETERMINERS | PRONOUNS | PARTICLES | word_class("figures")
_OPENS_PREDICATE = (MODALS | AUXILIARIES).union(PLACES)
_ENDS_SEARCH = (DETERMINERS | SUBORDINATORS).union(PLACES)
_CLOSES_VERB = (SUBORDINATORS | DETERMINERS | ADVERBS | {""}).union(PLACES)
"""What may follow a verb that has no object; "" for the end of the clause."""
_REACH = 6
"""A verb of the statement is looked for no further than this from the word that may begin a request."""
_COMMON_REQUESTS = word_class("common requests")
"""Verbs that begin requests far more often than they are nouns at the start of a sentence."""


def starts_request(wording: Wording, i: int) -> bool:
    """Whether the token at i is a verb that asks for something: a base form followed by what a verb may take."""
    word, following = wording.lower(i), wording.lower(i + 1)
    if word in _NEVER_FIRST:
        return False
    if word.endswith("ing") and wording.is_verb(i) and i == 0 and following:
        return following in DETERMINERS or not wording.is_noun(i)
    if not wording.is_base(i):
        return False
    if not following or not (wording.is_noun(i) or wording.is_adjective(i)) or following in _OPENS_OBJECT:
        return True
    if following in _OPENS_PREDICATE:
        return False
    return not _verb_follows(wording, i)


def _verb_follows(wording: Wording, i: int) -> bool:
    """Whether the noun at i has a verb of its own after it: after a singular it would end in -s or -ed."""
    common = wording.lower(i) in _COMMON_REQUESTS
    for k in range(i + 1, min(len(wording), i + _REACH)):
        word = wording.lower(k)
        if word in MODALS or word in AUXILIARIES:
            return True
        if word in _ENDS_SEARCH:
            return False
        if _is_third_person(wording, k, common):
            return True
        if not common and (_is_past(wording, k) or (k > i + 1 and _is_symptom_of_several(wording, k))):
            return True
    return False


def _is_third_person(wording: Wording, k: int, common: bool) -> bool:
    """ "the screen | clogs": a verb in -s that cannot be the object of a request."""
    word = wording.lower(k)
    if word.endswith("ss") or not word.endswith("s") or not wording.is_verb(k):
        return False
    if wording.lower(k + 1) in SUBORDINATORS:
        return True
    if common:
        return False
    closed = wording.lower(k + 1) in _CLOSES_VERB
    return not wording.is_noun(k) or (closed and match_symptom(wording, k) is not None)


def _is_past(wording: Wording, k: int) -> bool:
    """ "the shaft | cracked"."""
    return wording.lower(k).endswith("ed") and wording.lower(k + 1) in _CLOSES_VERB and wording.is_verb(k)


def _is_symptom_of_several(wording: Wording, k: int) -> bool:
    """ "pipe elbows | clog": a verb of complaint after a plural."""
    if not wording.lower(k - 1).endswith("s"):
        return False
    symptom = match_symptom(wording, k)
    return symptom is not None and wording.lower(symptom[1]) in _CLOSES_VERB | {"shut"}
