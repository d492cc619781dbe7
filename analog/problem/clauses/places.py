"""The places a clause names after its verb, and which of them matters."""

from __future__ import annotations

from analog.problem.chunk import AMOUNTS, PLACES, SUBORDINATORS, TIMES, Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.wording import Wording

APART = ("from", "off", "out of", "away from")
"""Prepositions of what something comes away from."""
MEANS = ("with", "by")
"""Prepositions of a means, an agent or a content."""

_CLOSERS = SUBORDINATORS | {"so", "without", ";"}
_WEATHER = {"heat", "sun", "frost", "wind"}


def all_places(wording: Wording, i: int) -> list[tuple[str, Phrase]]:
    """Every (preposition, noun phrase) from token i to the end of the clause."""
    end = next((k for k in range(i, len(wording)) if wording.lower(k) in _CLOSERS), len(wording))
    return wording.chunker.places(wording.tokens, i, end)


def where(wording: Wording, i: int) -> tuple[str, Phrase] | None:
    """(relation, noun phrase) of the place that matters most from token i on."""
    return main_place(all_places(wording, i))


def main_place(places: list[tuple[str, Phrase]]) -> tuple[str, Phrase] | None:
    """The place that matters most: the first that is a thing; means ("with", "by") only for want of others."""
    kept = [place for place in places if _is_thing(*place)]
    if not kept:
        return None
    preposition, phrase = min(kept, key=lambda place: _rank(place[0]))  # the first among equals
    return relation(PLACES[preposition]), phrase


def with_agent(places: list[tuple[str, Phrase]]) -> tuple[str, Phrase] | None:
    """The first place that tells a means or an agent: "clogged with scale", "eaten by worms"."""
    return next((place for place in places if place[0] in MEANS), None)


def relation(text: str) -> str:
    """The relation of a place, "on" where the words give none."""
    return "on" if text in {"of", ""} else text


def place_of_event(clause: Clause) -> None:
    """ "erosion of a bank": the place after "of" is where it happens."""
    if clause.object is not None and clause.where is not None and clause.where[0] == "of":
        clause.where = ("on", clause.where[1])


def _is_thing(preposition: str, phrase: Phrase) -> bool:
    if not PLACES.get(preposition) or phrase.head in TIMES:
        return False
    if preposition == "in" and phrase.head in _WEATHER:
        return False
    return not (phrase.head in AMOUNTS and preposition in {"in", "by"} and "of" not in phrase.words)


def _rank(preposition: str) -> int:
    if preposition in APART:
        return 0
    return 2 if preposition in MEANS else 1
