"""A statement without a verb of complaint: taken for an event that should not happen."""

from __future__ import annotations

from analog.problem.chunk import AUXILIARIES, DETERMINERS, MODALS, PLACES, PRONOUNS, SUBORDINATORS
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.lemma import lemma_at
from analog.problem.clauses.noun_request import noun_request
from analog.problem.clauses.places import where
from analog.problem.clauses.subject import subject_of
from analog.problem.clauses.wording import Wording

_NO_VERBS = (AUXILIARIES | MODALS | DETERMINERS | SUBORDINATORS | PRONOUNS).union(PLACES)
_WANTING = {"lose", "waste", "lack", "need", "miss", "want"}
_MISSED = {"inhibit": 0.5, "supply": 0.45, "contain": 0.4, "prevent": 0.4}
"""Functions meant where something is lost or lacking."""


def unknown_complaint(wording: Wording, text: str) -> Clause | None:
    """Read a request told as a noun, or the first verb as what should not happen; None without either."""
    request = Clause(text=text, style="complaint")
    if noun_request(wording, request, 0):
        request.style = "imperative"
        return request
    for i in range(1, len(wording)):
        verb = _verb_at(wording, i)
        subject = subject_of(wording, i) if verb is not None else None
        if verb is None or subject is None:
            continue
        target, after = wording.noun_phrase(verb[1])
        clause = Clause(text=text, style="complaint", sure=False)
        if verb[0] in _WANTING and target is not None:
            clause.verbs = dict(_MISSED)
            clause.object, clause.where = target, ("from", subject)
        else:
            clause.verbs, clause.negated = {"prevent": 0.5, "inhibit": 0.5}, True
            clause.object = subject
            clause.where = ("on", target) if target is not None and not target.pronoun else where(wording, after)
        clause.notes.append(f"Read as a complaint about {subject.text!r}; say what is to be achieved if that is wrong.")
        return clause
    return None


def _verb_at(wording: Wording, i: int) -> tuple[str, int] | None:
    """(verb, index after) if the word at i, after a noun, is a verb rather than one more noun."""
    if wording.lower(i) in _NO_VERBS or not wording.is_noun(i - 1):
        return None
    if wording.is_noun(i) and not wording.lower(i).endswith("s"):
        return None
    return lemma_at(wording, i)
