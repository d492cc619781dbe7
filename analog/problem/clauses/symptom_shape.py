"""Who does what to whom in a complaint: each pattern of data/symptoms.tsv puts the dirt and the place elsewhere."""

from __future__ import annotations

from analog.problem.chunk import PLACES, TIMES, Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.functions import INHIBIT
from analog.problem.clauses.names import could_be_dirt
from analog.problem.clauses.places import all_places, main_place, relation, with_agent
from analog.problem.clauses.wording import Wording

_NO_TARGET = TIMES | {"shut", "open", "loose"}
_OUTLETS = {"from", "out of", "through", "off"}
_BREAKDOWNS = {"leak", "crack", "rupture", "noise"}


def apply_symptom(wording: Wording, clause: Clause, row: dict[str, str], subject: Phrase, i: int) -> None:
    """Fill in object and place. row : of the verb of complaint; i : index after it."""
    target, after = wording.noun_phrase(i)
    if target is not None and (target.pronoun or target.head in _NO_TARGET):
        target = None
    places = all_places(wording, after if target is not None else i)
    agent = with_agent(places)
    where = main_place([place for place in places if place is not agent])
    pattern = row["pattern"]
    on = relation(row["relation"])
    source = next((place for place in places if place[0] in _OUTLETS), None)
    if row["object"] == "leak" and target is None and source is not None:  # "oil leaks from the gearbox"
        clause.object, clause.where = subject, (PLACES[source[0]], source[1])
    elif pattern == "gain":  # "the pipe takes up heat"
        clause.object = target or (where[1] if where else None)
        clause.where = where if row["words"] == "transmit" and target is not None else ("on", subject)
    elif pattern == "fail" and target is None and where is not None and could_be_dirt(wording.vocabulary, subject):
        clause.object, clause.where = subject, where
    elif pattern in {"gather", "self"}:  # "dust settles on the lens"
        clause.object, clause.where = subject, where
        if where is None and target is not None and target.text != subject.text:
            clause.where = (on, target)
    elif pattern == "affect":  # "scale clogs the pipe", "the pipe clogs with scale", "the pipe clogs"
        _affected(clause, row, subject, target, agent)
    elif pattern == "harm" or target is not None:  # "hail dents the roof"
        _harmed(clause, pattern, subject, target, agent, where)
    else:  # "the seal leaks"
        clause.implied, clause.where = row["object"], (on, subject)
        if agent is not None and row["object"] in _BREAKDOWNS:
            clause.others.append(("with", agent[1]))


def _affected(
    clause: Clause, row: dict[str, str], subject: Phrase, target: Phrase | None, agent: tuple[str, Phrase] | None
) -> None:
    on = relation(row["relation"])
    if target is not None:
        clause.object, clause.where = subject, (on, target)
    elif agent is not None:
        clause.object, clause.where = agent[1], (on, subject)
    else:
        clause.implied, clause.where = row["object"] or "contaminant", (on, subject)


def _harmed(
    clause: Clause,
    pattern: str,
    subject: Phrase,
    target: Phrase | None,
    agent: tuple[str, Phrase] | None,
    where: tuple[str, Phrase] | None,
) -> None:
    clause.object = subject
    clause.where = ("from", target) if target is not None else where
    if agent is not None and clause.where is None:
        clause.where = ("from", agent[1])
    if pattern != "harm":
        clause.verbs, clause.negated = dict(INHIBIT), True
