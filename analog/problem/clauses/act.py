"""A verb with its object: choose the shape the verb belongs to and let it fill in the clause."""

from __future__ import annotations

from analog.problem.chunk import Phrase
from analog.problem.clauses.cause import allow_motion, cause_change, cause_to_stay, caused_verb
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.cut_phrase import cut_before_state, cut_before_verb
from analog.problem.clauses.events import bare_gerund, event_after
from analog.problem.clauses.keep import keep
from analog.problem.clauses.plain_verb import plain_verb
from analog.problem.clauses.prevent import prevent_event, prevent_thing
from analog.problem.clauses.protect import protect
from analog.problem.clauses.repel import repel
from analog.problem.clauses.rid import get_rid_of, rid
from analog.problem.clauses.verb_classes import CAUSERS, PREVENTERS, PROTECTORS, REPELLERS, RIDDERS, RIDDING_PHRASES
from analog.problem.clauses.wording import Wording
from analog.problem.units import common as unit


def act(
    wording: Wording,
    clause: Clause,
    verb: str,
    subject: Phrase | None,
    i: int,
    moved: Phrase | None = None,
    last: Phrase | None = None,
) -> None:
    """Fill in what the verb asks for. subject : the doer; i : index after the verb.

    moved : the object when it stood before a passive verb. last : what "it" and "them" mean.
    """
    gerund = bare_gerund(wording, i) if verb in PREVENTERS and moved is None else None
    if gerund is not None:
        prevent_event(wording, clause, None, gerund, verb)
        return
    phrase, after = (moved, i) if moved is not None else _object(wording, verb, i)
    if phrase is not None and phrase.pronoun:
        phrase = last if phrase.text in {"it", "them"} else None
    if phrase is not None and subject is not None and _is_unit(phrase):
        phrase = None  # "must carry ten kilograms": a figure is no thing
    if verb == "keep":
        keep(wording, clause, phrase, after)
    elif verb in PREVENTERS:
        event = event_after(wording, after)
        if event is not None:
            prevent_event(wording, clause, phrase, event, verb)
        else:
            prevent_thing(wording, clause, verb, phrase, after)
    elif verb in PROTECTORS and protect(wording, clause, verb, phrase, after):
        return
    elif verb in REPELLERS:
        repel(wording, clause, subject, phrase, after)
    elif verb in CAUSERS and phrase is not None and _cause(wording, clause, verb, phrase, after):
        return
    elif verb in RIDDING_PHRASES:
        get_rid_of(wording, clause, phrase, after)
    elif verb in RIDDERS and phrase is not None and rid(wording, clause, verb, phrase, after):
        return
    else:
        plain_verb(wording, clause, verb, subject, phrase, after, passive=moved is not None)


def _object(wording: Wording, verb: str, i: int) -> tuple[Phrase | None, int]:
    """The noun phrase after a verb, without the verb or the state it may have swallowed, and the index after it."""
    verb_may_follow = verb in PREVENTERS or verb in CAUSERS or verb == "keep"
    phrase, after = wording.noun_phrase(i, verb_may_follow=verb_may_follow)
    if phrase is not None and verb in CAUSERS:
        phrase, after = cut_before_verb(wording, i, after, phrase)
    if phrase is not None and verb == "keep":
        phrase, after = cut_before_state(wording, i, after, phrase)
    return phrase, after


def _is_unit(phrase: Phrase) -> bool:
    return len(phrase.words) == 1 and len(phrase.head) > 3 and bool(unit(phrase.head))


def _cause(wording: Wording, clause: Clause, verb: str, phrase: Phrase, i: int) -> bool:
    """ "make skis glide", "let the joint turn": what the thing is made to do is read as a verb of its own."""
    if cause_change(wording, clause, verb, phrase, i):
        return True
    caused = caused_verb(wording, i)
    if caused is None:
        return False
    if caused[0] in {"stay", "remain"}:
        cause_to_stay(wording, clause, phrase, caused[1])
    else:
        act(wording, clause, caused[0], phrase, caused[1])
        allow_motion(clause, verb, caused[0])
    return True
