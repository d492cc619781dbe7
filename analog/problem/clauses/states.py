"""Words of state: "keep the window clean", "make a quiet fan", "the deck gets slippery"."""

from __future__ import annotations

from functools import lru_cache

from analog.problem.chunk import Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.functions import near
from analog.problem.clauses.places import relation, where
from analog.problem.clauses.wording import Wording
from analog.problem.tables import table, word_class

_DEGREES = word_class("degrees")


@lru_cache(maxsize=1)
def states() -> dict[tuple[str, str], dict[str, str]]:
    """Rows of data/states.tsv by (word, mode): mode is keep, make or complain."""
    return {(row["word"], row["mode"]): row for row in table("states")}


def match_state(wording: Wording, i: int, mode: str) -> tuple[dict[str, str], int] | None:
    """(row, index after) if a word of state of this mode stands at i, degree words skipped."""
    while wording.lower(i) in _DEGREES:
        i += 1
    word, following = wording.lower(i), wording.lower(i + 1)
    if following and (f"{word} {following}", mode) in states():
        return states()[f"{word} {following}", mode], i + 2
    row = states().get((word, mode))
    return (row, i + 1) if row is not None else None


def apply_state(wording: Wording, clause: Clause, row: dict[str, str], phrase: Phrase | None, i: int) -> None:
    """Fill in what a word of state asks for. phrase : what is to be in it. i : index after the word."""
    clause.verbs = near(row["verb"])
    clause.negated = row["negated"] == "yes"
    if not row["object"]:
        clause.object = phrase
        clause.where = where(wording, i)
        return
    clause.implied = row["object"]
    clause.where = (relation(row["relation"]), phrase) if phrase is not None else where(wording, i)
