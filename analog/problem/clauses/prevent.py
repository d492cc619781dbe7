"""Keep something away or from happening: "prevent leaks", "stop insects sticking to the edge"."""

from __future__ import annotations

from analog.problem.chunk import Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.functions import PREVENT
from analog.problem.clauses.names import is_bad_event
from analog.problem.clauses.places import all_places, main_place, place_of_event, relation, where, with_agent
from analog.problem.clauses.states import match_state
from analog.problem.clauses.symptoms import match_symptom
from analog.problem.clauses.wording import Wording

_STOPPED_THING = {"stop": 0.95, "inhibit": 0.6, "prevent": 0.5}


def prevent_thing(wording: Wording, clause: Clause, verb: str, phrase: Phrase | None, i: int) -> None:
    """ "prevent corrosion on the hull", "stop a drone": a noun after the verb, i the index after it."""
    clause.object, clause.where = phrase, where(wording, i)
    if verb == "stop" and not (phrase is not None and is_bad_event(wording.vocabulary, phrase)):
        clause.verbs, clause.negated = dict(_STOPPED_THING), False
    else:
        clause.verbs, clause.negated = dict(PREVENT), True
    place_of_event(clause)


def prevent_event(wording: Wording, clause: Clause, phrase: Phrase | None, i: int, verb: str = "prevent") -> None:
    """ "stop a mirror from fogging", "prevent icing of probes": the event at i is to be kept from happening.

    phrase : what it happens to, or what does it; None if only the event was said.
    """
    clause.verbs, clause.negated = dict(PREVENT), True
    if verb == "stop":
        clause.verbs["stop"] = 0.6
    row, after = match_symptom(wording, i) or (None, i + 1)
    target, following = wording.noun_phrase(after)
    if target is not None and target.pronoun:
        target = None
    places = all_places(wording, after if target is None else following)
    state = match_state(wording, i, "complain")
    if phrase is None:
        _event_alone(clause, row, target, places)
    elif row is not None and row["object"] and row["pattern"] in {"affect", "fail"} and target is None:
        agent = with_agent(places)
        if agent is not None:
            clause.object = agent[1]
        else:
            clause.implied = row["object"]
        clause.where = (relation(row["relation"]), phrase)
    elif state is not None and state[0]["object"]:
        clause.implied, clause.where = state[0]["object"], (relation(state[0]["relation"]), phrase)
    else:
        clause.object = phrase
        clause.where = main_place(places)
        if clause.where is None and target is not None:
            clause.where = ("on", target)
        if row is not None and row["pattern"] == "self" and row["verb"] in {"secure", "stabilize"}:
            clause.verbs[row["verb"]] = 0.6


def _event_alone(
    clause: Clause, row: dict[str, str] | None, target: Phrase | None, places: list[tuple[str, Phrase]]
) -> None:
    """ "prevent icing of probes", "stop clogging with scale": the event's own noun is not said."""
    place = next((place for place in places if place[0] != "with"), None)
    if row is not None and (row["object"] or row["pattern"] == "affect"):
        agent = with_agent(places)
        clause.object, clause.implied = (agent[1], None) if agent else (None, row["object"] or "contaminant")
        if place is not None:
            clause.where = (relation(row["relation"]), place[1])
        elif target is not None:
            clause.where = (relation(row["relation"]), target)
        return
    clause.object = target or (place[1] if place else None)
    clause.where = main_place([place for place in places if place[1] is not clause.object])
