"""The verb that stands in a clause: its base form, with the particle that gives it another meaning."""

from __future__ import annotations

from analog.problem.chunk import DETERMINERS, PARTICLES
from analog.problem.clauses.verb_classes import CAUSERS, PHRASAL, PREVENTERS, PROTECTORS, REPELLERS, STAYERS
from analog.problem.clauses.wording import Wording

_SHAPED = PREVENTERS | PROTECTORS | REPELLERS | CAUSERS | STAYERS
_JOINING = PARTICLES | {"of", "together", "apart"}
_ALSO_PREPOSITIONS = {"on", "in", "over", "through"}


def lemma_at(wording: Wording, i: int) -> tuple[str, int] | None:
    """(base form with its particle if the vocabulary knows the pair, index after) of the verb at i."""
    if i >= len(wording) or not wording.tokens[i].is_word:
        return None
    word = wording.lower(i)
    if word in {"kept", "keeps", "keeping"}:
        return "keep", i + 1
    if word in {"get", "getting", "gets"} and (wording.lower(i + 1), wording.lower(i + 2)) == ("rid", "of"):
        return "get rid of", i + 3
    bases = tuple(_american(wording, base) for base in wording.bases(i))
    if not bases:
        return None
    joined = _with_particles(wording, bases, i + 1)
    if joined is not None:
        return joined
    verbs = wording.vocabulary.verbs
    for base in bases:
        if base in _SHAPED or verbs.known(base) or verbs.everyday.find(base):
            return base, i + 1
    return bases[0], i + 1


def _with_particles(wording: Wording, bases: tuple[str, ...], i: int) -> tuple[str, int] | None:
    """The longest known pair of a base form and the particles at i."""
    for size in (2, 1):
        particles = [token.lower for token in wording.tokens[i : i + size]]
        if len(particles) < size or not all(particle in _JOINING for particle in particles):
            continue
        if particles[-1] in _ALSO_PREPOSITIONS and _place_follows(wording, i + size):
            continue
        for base in bases:
            joined = " ".join((base, *particles))
            everyday = size == 1 and wording.vocabulary.verbs.everyday.find(joined)
            if joined in REPELLERS or joined in PHRASAL or everyday:
                return joined, i + size
    return None


def _place_follows(wording: Wording, i: int) -> bool:
    """Whether a noun phrase stands at i: then the particle before it is a preposition."""
    return wording.lower(i) in DETERMINERS or wording.noun_phrase(i)[0] is not None


def _american(wording: Wording, verb: str) -> str:
    """ "stabilise" as the published vocabulary spells it."""
    other = verb.removesuffix("ise") + "ize"
    return other if verb.endswith("ise") and wording.chunker.functional(other) else verb
