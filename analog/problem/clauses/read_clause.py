"""Read one clause: find what it speaks of by its style, then what is to be done."""

from __future__ import annotations

from analog.problem.chunk import MODALS, Chunker, Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.complaint import complaint
from analog.problem.clauses.cut_phrase import cut_before_verb, give_back_verb
from analog.problem.clauses.leads import strip_leads
from analog.problem.clauses.prevent import prevent_event
from analog.problem.clauses.style import FORBIDDING, QUESTION
from analog.problem.clauses.subject import first_phrase
from analog.problem.clauses.verb_phrase import verb_phrase
from analog.problem.clauses.wording import Wording

_QUESTION_WORDS = {"what", "which", "how", "who"}
_OBLIGATIONS = MODALS | {"has", "have", "needs", "need", "ought"}
_AFTER_OBLIGATION = {"to", "able", "required", "always", "also"}


def read_clause(text: str, style: str, chunker: Chunker, last_object: Phrase | None = None) -> Clause | None:
    """Read one clause of the given style (see `style_of`); None if nothing in it can be a purpose.

    last_object : what "it" and "them" mean.
    """
    if style == "complaint":
        return complaint(text, chunker)
    stripped, _ = strip_leads(text)
    clause = Clause(text=stripped.strip(" ?.!"), style=style)
    wording = Wording.of(stripped, chunker).without_closing_signs()
    if _forbids(wording, clause, stripped):
        return clause
    subject, i = _subject(wording, stripped, style)
    if subject is not None and subject.pronoun:
        subject = last_object if subject.text in {"it", "they", "them"} else None
    verb_phrase(wording, clause, i, subject, last_object)
    return clause if clause.verbs else None


def _forbids(wording: Wording, clause: Clause, text: str) -> bool:
    """ "don't let ice form on the edge": fill in what is not to happen; False if the text is no such request."""
    match = FORBIDDING.match(text)
    if match is None:
        return False
    i = _token_from(wording, match.end())
    thing, after = wording.noun_phrase(i, verb_may_follow=True)
    if thing is None or thing.pronoun:
        return False
    thing, after = cut_before_verb(wording, i, after, thing)
    prevent_event(wording, clause, thing, after)
    return True


def _subject(wording: Wording, text: str, style: str) -> tuple[Phrase | None, int]:
    """(what the clause speaks of before its verb, index to look for the verb from)."""
    if match := QUESTION.match(text):
        return _asked_about(wording, _token_from(wording, match.end()))
    if style == "question" and wording.lower(0) in _QUESTION_WORDS:
        return None, 1
    if style == "requirement":
        return _required_of(wording)
    forbidding = FORBIDDING.match(text)  # of a pronoun: "never let it crack"
    return None, _token_from(wording, forbidding.end()) if forbidding else 0


def _asked_about(wording: Wording, i: int) -> tuple[Phrase | None, int]:
    """ "how can | soil | hold water"."""
    subject, after = wording.noun_phrase(i, verb_may_follow=True)
    return give_back_verb(wording, after, subject) if subject is not None else (None, after)


def _required_of(wording: Wording) -> tuple[Phrase | None, int]:
    """ "the tank | must not | crack"."""
    at = next((k for k in range(len(wording)) if wording.lower(k) in _OBLIGATIONS), None)
    if at is None:
        at = next((k for k in range(len(wording)) if wording.lower(k) in {"is", "are"}), 0)
    i = at + 1
    while wording.lower(i) in _AFTER_OBLIGATION:
        i += 1
    return first_phrase(wording, at), i


def _token_from(wording: Wording, offset: int) -> int:
    """Index of the first token that starts at an offset of the text or after it."""
    return next((k for k, token in enumerate(wording.tokens) if token.start >= offset), len(wording))
