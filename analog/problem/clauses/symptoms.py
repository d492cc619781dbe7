"""Verbs of complaint: "clogs", "builds up", "wears out"."""

from __future__ import annotations

from functools import lru_cache

from analog.problem.chunk import DETERMINERS, PLACES
from analog.problem.clauses.wording import Wording
from analog.problem.tables import table


@lru_cache(maxsize=1)
def symptoms() -> dict[str, dict[str, str]]:
    """Rows of data/symptoms.tsv by their words."""
    return {row["words"]: row for row in table("symptoms")}


def match_symptom(wording: Wording, i: int) -> tuple[dict[str, str], int] | None:
    """(row of the table, index after its words) if a verb of complaint stands at i; the longest first."""
    word = wording.lower(i)
    if i >= len(wording) or not wording.tokens[i].is_word or word in DETERMINERS or word in PLACES:
        return None
    bases = dict.fromkeys((*wording.bases(i), word))
    following = wording.lower(i + 1)
    for base in bases:
        if following and f"{base} {following}" in symptoms():
            return symptoms()[f"{base} {following}"], i + 2
    for base in bases:
        if base in symptoms():
            return symptoms()[base], i + 1
    return None
