"""Who or what a clause speaks of: the noun phrase before its verb."""

from __future__ import annotations

from analog.problem.chunk import ADVERBS, AUXILIARIES, DETERMINERS, MODALS, NEGATIONS, PLACES, SUBORDINATORS, Phrase
from analog.problem.clauses.wording import Wording

_BEFORE_VERB = AUXILIARIES | ADVERBS | MODALS | NEGATIONS
_BEFORE_SUBJECT = SUBORDINATORS | MODALS | AUXILIARIES


def first_phrase(wording: Wording, end: int) -> Phrase | None:
    """The noun phrase a clause begins with, of what stands before token `end`."""
    before = wording.ending_at(end)
    i = 0
    while i < end:
        word = wording.lower(i)
        if word in SUBORDINATORS or not wording.tokens[i].is_word or word in PLACES:
            i += 1
            continue
        phrase, after = before.noun_phrase(i)
        if phrase is not None:
            return phrase
        i = max(after, i + 1)
    return None


def subject_of(wording: Wording, i: int) -> Phrase | None:
    """The noun phrase that ends right before the verb at i, auxiliaries and adverbs between allowed."""
    end = i
    while end > 0 and (wording.lower(end - 1) in _BEFORE_VERB or not wording.tokens[end - 1].is_word):
        end -= 1
    phrase, _ = wording.ending_at(end).noun_phrase(_start(wording, end))
    if phrase is None:
        return None
    for k in range(len(phrase.words) - 1):
        if phrase.words[k] in {"make", "makes"}:
            return Phrase(phrase.words[k + 1 :])
    return phrase if not phrase.pronoun else None


def _start(wording: Wording, end: int) -> int:
    """Where the subject that ends before `end` begins; "chips of the mill": before the places that belong to it."""
    start = end
    while start > 0 and wording.tokens[start - 1].is_word and wording.lower(start - 1) not in _BEFORE_SUBJECT:
        start -= 1
        word = wording.lower(start)
        if word in PLACES and word != "of":
            continue
        if word in DETERMINERS and wording.lower(start - 1) not in PLACES:
            break
    return start
