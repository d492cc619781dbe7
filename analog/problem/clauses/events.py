"""Where a clause names an event: "(from) spreading", "getting stuck", "clogging of filters"."""

from __future__ import annotations

from analog.problem.chunk import ADVERBS, DETERMINERS, PLACES
from analog.problem.clauses.symptoms import match_symptom
from analog.problem.clauses.wording import Wording

_BECOMING = {"getting", "becoming"}


def bare_gerund(wording: Wording, i: int) -> int | None:
    """Index of an -ing word right after the verb that names an event ("prevent clogging of filters")."""
    while wording.lower(i) in DETERMINERS or wording.lower(i) in ADVERBS:
        i += 1
    if not wording.lower(i).endswith("ing"):
        return None
    symptom = match_symptom(wording, i)
    if symptom is None:
        return None
    following = wording.lower(symptom[1])
    return i if not following or following in PLACES or not wording.begins_compound(i) else None


def event_after(wording: Wording, i: int) -> int | None:
    """Index of the word that tells an event in "(from) spreading" or "getting stuck"; None if there is none."""
    if wording.lower(i) in {"from", "against"}:
        i += 1
    while wording.lower(i) in ADVERBS or wording.lower(i) in _BECOMING | {"being"}:
        i += 1
    word = wording.lower(i)
    if word.endswith(("ing", "ed")) and wording.is_verb(i) and word != "leading":
        return i
    return i if word and wording.lower(i - 1) in _BECOMING else None
