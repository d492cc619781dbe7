"""A verb without a shape of its own: "filter sand from water", "dust the shelf", "walk over rough ground"."""

from __future__ import annotations

from analog.problem.chunk import PARTICLES, Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.functions import Candidates, candidates, strongest
from analog.problem.clauses.names import could_be_dirt
from analog.problem.clauses.places import APART, all_places, main_place, place_of_event
from analog.problem.clauses.verb_classes import PULLERS
from analog.problem.clauses.wording import Wording

_PULLED = (("separate", 0.85), ("remove", 0.7), ("export", 0.65), ("extract", 0.6))
_GIVING = {"supply", "import", "increase", "increment"}
_SUBJECT_AS_PLACE = {
    "separate": "from",
    "remove": "from",
    "export": "from",
    "contain": "in",
    "store": "in",
    "inhibit": "from",
    "prevent": "from",
    "distribute": "from",
}
"""Functions whose doer is also where it happens: "the tank must hold oil"."""


def plain_verb(
    wording: Wording,
    clause: Clause,
    verb: str,
    subject: Phrase | None,
    phrase: Phrase | None,
    i: int,
    passive: bool = False,
) -> None:
    """Fill in what the vocabulary knows of the verb. subject : the doer; phrase : the object; i : index after it."""
    target = phrase or subject
    meant = _meant(wording, verb, target, i)
    clause.verbs = dict(meant.weights)
    if not clause.verbs:
        clause.notes.append(f"The verb {verb!r} is in no vocabulary; what it asks for is a guess.")
        clause.verbs = {"change": 0.15}
        clause.sure = False
    places = all_places(wording, i)
    source = next((place for place in places if place[0] in APART), None)
    if verb in PULLERS and source is not None:
        for function, weight in _PULLED:
            clause.verbs[function] = max(clause.verbs.get(function, 0.0), weight)
    if meant.of_place and target is not None:
        content = next((p for p in places if p[0] == "of" and could_be_dirt(wording.vocabulary, p[1])), None)
        if source is not None:
            clause.object, clause.where = target, ("from", source[1])
        elif content is not None:
            clause.object, clause.where = content[1], ("from", target)
        else:
            clause.implied = meant.implied or "contaminant"
            clause.where = ("to" if strongest(clause.verbs) in _GIVING else "from", target)
        return
    clause.object = target
    clause.where = main_place(places)
    if phrase is not None and subject is not None and not passive and subject.text != phrase.text:
        _place_doer(clause, subject)
    if target is None and clause.where is not None:  # "walk over rough ground", "climb along the wall"
        clause.object, clause.implied = clause.where[1], None
    place_of_event(clause)


def _meant(wording: Wording, verb: str, target: Phrase | None, i: int) -> Candidates:
    """What the verb may mean, with the particle at i if the two are known together."""
    if wording.lower(i) in PARTICLES:
        joined = f"{verb} {wording.lower(i)}"
        if wording.vocabulary.verbs.everyday.find(joined):
            verb = joined
    return candidates(wording.vocabulary, verb, target)


def _place_doer(clause: Clause, subject: Phrase) -> None:
    """The doer is the place of what is done, or a thing besides."""
    relation = _SUBJECT_AS_PLACE.get(strongest(clause.verbs))
    if clause.where is None and relation is not None:
        clause.where = (relation, subject)
    else:
        clause.others.append(("by", subject))
