"""Cut a noun phrase that has swallowed a verb or a word of state: many words can be noun, verb and adjective."""

from __future__ import annotations

from analog.problem.chunk import ADVERBS, AUXILIARIES, DETERMINERS, MODALS, PLACES, Phrase
from analog.problem.clauses.states import states
from analog.problem.clauses.wording import Wording
from analog.problem.tables import word_class

_MOTIONS = word_class("motions")
_BEFORE_SUBJECT = MODALS | AUXILIARIES
_AFTER_VERB = (DETERMINERS | ADVERBS | {"and", "but", ""}).union(PLACES)
_LONGEST = 8
"""Tokens to look back for the beginning of a subject."""


def give_back_verb(wording: Wording, i: int, subject: Phrase) -> tuple[Phrase, int]:
    """ "can villages get", "can soil hold water": (the subject, the index of the verb it may have swallowed).

    i : the index after the phrase as it was read.
    """
    begin = i
    while begin > 0 and wording.lower(begin - 1) not in _BEFORE_SUBJECT and begin > i - _LONGEST:
        begin -= 1
    word = wording.lower(i)
    if word and word not in ADVERBS and (word in AUXILIARIES or (wording.is_verb(i) and word not in PLACES)):
        return subject, i
    found = [
        k
        for k in range(begin + 1, i)
        if wording.is_base(k) and wording.is_noun(k - 1) and wording.lower(k - 1) not in DETERMINERS
    ]
    inner = [k for k in found if k < i - 1]  # something is left for the verb to act on
    plain = [k for k in inner if not wording.is_adjective(k)]
    for k in (*plain[::-1], *inner[::-1], *found):
        phrase, _ = wording.ending_at(k).noun_phrase(begin)
        if phrase is not None:
            return phrase, k
    return subject, i


def cut_before_verb(wording: Wording, i: int, after: int, phrase: Phrase) -> tuple[Phrase, int]:
    """ "make droplets stay", "let vapour through", "make skis glide faster": cut the phrase before its verb.

    i, after : where the phrase begins, and the index after it.
    """
    first = i
    while first < after and wording.lower(first) in DETERMINERS:
        first += 1
    for k in range(first + 1, after):
        if _is_caused_verb(wording, k) or ((wording.lower(k), "make") in states() and k == after - 1):
            shorter, _ = wording.ending_at(k).noun_phrase(i)
            if shorter is not None:
                return shorter, k
    return phrase, after


def cut_before_state(wording: Wording, i: int, after: int, phrase: Phrase) -> tuple[Phrase, int]:
    """ "keep a window clean", "keep a lidar free from mud": cut the phrase before the word of state.

    i, after : where the phrase begins, and the index after it.
    """
    for k in range(i + 1, after):
        word, following = wording.lower(k), wording.lower(k + 1)
        free = word in {"free", "clear"} and following in {"of", "from"}
        doing = word.endswith("ing") and following in DETERMINERS
        last = (k == after - 1 or not following) and (word, "keep") in states()
        if free or doing or last:
            shorter, _ = wording.ending_at(k).noun_phrase(i)
            if shorter is not None:
                return shorter, k
    return phrase, after


def _is_caused_verb(wording: Wording, k: int) -> bool:
    """Whether the word at k is what the noun before it is made to do."""
    motion = wording.lower(k) in _MOTIONS
    if not wording.is_base(k) or not wording.is_noun(k - 1) or (wording.is_adjective(k - 1) and not motion):
        return False
    return motion or not wording.is_noun(k) or wording.lower(k + 1) in _AFTER_VERB
