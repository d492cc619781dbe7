"""A request told as a noun: "contaminant removal from pipes", "protection against hail"."""

from __future__ import annotations

from analog.problem.chunk import Phrase
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.functions import INHIBIT, PREVENT, candidates
from analog.problem.clauses.places import all_places, main_place
from analog.problem.clauses.verb_classes import PREVENTERS, PROTECTORS
from analog.problem.clauses.wording import Wording

_VERB_OF = {
    "removal": "remove",
    "cleaning": "clean",
    "cooling": "cool",
    "heating": "heat",
    "protection": "protect",
    "prevention": "prevent",
    "separation": "separate",
    "filtration": "filter",
    "collection": "collect",
    "harvesting": "harvest",
    "storage": "store",
    "transport": "transport",
    "detection": "detect",
    "sensing": "sense",
    "reduction": "reduce",
    "mixing": "mix",
    "adhesion": "stick",
    "attachment": "attach",
    "drying": "dry",
    "damping": "damp",
    "insulation": "insulate",
    "ventilation": "ventilate",
    "locomotion": "move",
    "measurement": "measure",
    "conversion": "convert",
    "distribution": "distribute",
    "regulation": "regulate",
    "control": "control",
    "absorption": "absorb",
    "extraction": "extract",
    "shielding": "shield",
    "camouflage": "camouflage",
    "lubrication": "lubricate",
}


def noun_request(wording: Wording, clause: Clause, i: int) -> bool:
    """Fill in what the noun phrase at i asks for; False if its head is no such noun or nothing is acted on."""
    phrase, after = wording.noun_phrase(i)
    if phrase is None or phrase.pronoun:
        return False
    verb = _VERB_OF.get(phrase.words[-1])
    if verb is None:
        return False
    thing = Phrase(phrase.words[:-1]) if len(phrase.words) > 1 else None
    places = all_places(wording, after)
    content = next((place for place in places if place[0] == "of"), None)
    if thing is None and content is not None:
        thing = content[1]
        places.remove(content)
    if verb in PROTECTORS:
        return _protection(clause, thing, places)
    if verb in PREVENTERS:
        clause.verbs, clause.negated, clause.object = dict(PREVENT), True, thing
        clause.where = main_place(places)
        return thing is not None
    meant = candidates(wording.vocabulary, verb, thing)
    clause.verbs = meant.weights
    if meant.of_place and thing is not None:
        clause.implied, clause.where = meant.implied or "contaminant", ("from", thing)
    else:
        clause.object, clause.where = thing, main_place(places)
    return bool(meant.weights) and (thing is not None or clause.implied is not None)


def _protection(clause: Clause, thing: Phrase | None, places: list[tuple[str, Phrase]]) -> bool:
    """ "protection against hail", "hail protection", "lens protection against hail"."""
    clause.verbs, clause.negated = dict(INHIBIT), True
    foe = next((place for place in places if place[0] in {"from", "against"}), None)
    if foe is None:
        clause.object, clause.where = thing, None
    else:
        clause.object, clause.where = foe[1], ("from", thing) if thing else None
    return clause.object is not None
