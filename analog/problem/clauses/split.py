"""Cut a sentence into the clauses that ask for something."""

from __future__ import annotations

import re

from analog.problem.chunk import ADVERBS, AUXILIARIES, DETERMINERS, MODALS, PLACES, PRONOUNS, Chunker
from analog.problem.clauses.wording import Wording

_JOINTS = {"and", "then", "but", ","}
_FILLING = {"and", "then", "but", "also", "to"} | (ADVERBS - {"back", "up", "out"})
_NEVER_FIRST = (DETERMINERS | PRONOUNS | AUXILIARIES | MODALS).union(PLACES)


def split_clauses(text: str, chunker: Chunker) -> list[str]:
    """Cut one sentence into its purposes: "collect dew and store it" gives two."""
    result = []
    for piece in re.split(r"\s*;\s*", text):
        wording = Wording.of(piece, chunker)
        start = 0
        for end, begin in _cuts(wording):
            result.append(piece[start : wording.tokens[end].start].strip(" ,"))
            start = wording.tokens[begin].start
        result.append(piece[start:].strip(" ,"))
    return [piece for piece in result if piece]


def _cuts(wording: Wording) -> list[tuple[int, int]]:
    """(token one request ends before, token the next begins with), in order."""
    begins = list(range(len(wording)))  # the first token from here on that does not merely fill, or the last one
    for k in range(len(wording) - 2, -1, -1):
        if wording.lower(k) in _FILLING:
            begins[k] = begins[k + 1]
    cuts: list[tuple[int, int]] = []
    for i in range(2, len(wording) - 1):
        if wording.lower(i) in _JOINTS:
            k = begins[i + 1]
            if _begins_request(wording, k) and (not cuts or cuts[-1][1] != k):
                cuts.append((i, k))
    return cuts


def _begins_request(wording: Wording, k: int) -> bool:
    """Whether the verb at k begins a request of its own; stricter than at the start of a sentence."""
    following = wording.lower(k + 1)
    if wording.lower(k) in _NEVER_FIRST or not wording.is_base(k):
        return False
    if wording.is_adjective(k) and following not in DETERMINERS | PRONOUNS:
        return False
    if following in DETERMINERS or following in {"it", "them", "itself", "themselves"}:
        return True
    return bool(following) and not wording.is_noun(k)
