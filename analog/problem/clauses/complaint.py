"""Something that goes wrong, and the purpose it implies: "output drops as grime builds up"."""

from __future__ import annotations

from analog.problem.chunk import ADVERBS, AUXILIARIES, DETERMINERS, MODALS, NEGATIONS, PLACES, Chunker
from analog.problem.clauses.clause import Clause
from analog.problem.clauses.functions import near
from analog.problem.clauses.places import relation
from analog.problem.clauses.states import apply_state, match_state
from analog.problem.clauses.subject import first_phrase, subject_of
from analog.problem.clauses.symptom_shape import apply_symptom
from analog.problem.clauses.symptoms import match_symptom
from analog.problem.clauses.unknown_complaint import unknown_complaint
from analog.problem.clauses.wording import Wording
from analog.problem.tables import word_class

_CAUSES = {"as": 0.5, "because": 0.6, "since": 0.6, "when": 0.1, "whenever": 0.1, "once": 0.2}
"""Words that begin a part of the sentence, and how much more that part tells: a cause more than its effect."""
_JOINTS = {*_CAUSES, "if", "while", "after", "where", "until", ",", ";"}
_PATTERN_WEIGHT = {"gather": 1.0, "gain": 0.85, "affect": 0.9, "harm": 0.75, "fail": 0.7, "self": 0.65, "state": 0.6}
"""How surely a complaint of each pattern tells the purpose."""
_BEFORE_STATE = word_class("verbs of state")
_BEFORE_VERB = AUXILIARIES | ADVERBS | MODALS | NEGATIONS


def complaint(text: str, chunker: Chunker) -> Clause | None:
    """Look for what goes wrong, in the cause before the effect, and read the purpose it implies."""
    whole = Wording.of(text, chunker)
    best: tuple[float, Clause] | None = None
    for bonus, part in _parts(whole):
        found = _wrong(part, whole, text)
        if found is not None:
            value = bonus + _PATTERN_WEIGHT[found[0]]
            if best is None or value > best[0]:
                best = (value, found[1])
    return best[1] if best is not None else unknown_complaint(whole, text)


def _parts(whole: Wording) -> list[tuple[float, Wording]]:
    """The sentence cut at its joints: (how much more the part tells, the part)."""
    parts = []
    weight, start = 0.0, 0
    for i, token in enumerate(whole.tokens):
        if token.lower in _JOINTS:
            parts.append((weight, whole.tokens[start:i]))
            weight, start = _CAUSES.get(token.lower, 0.0), i + 1
    parts.append((weight, whole.tokens[start:]))
    return [(weight, Wording(tokens, whole.chunker).without_closing_signs()) for weight, tokens in parts]


def _wrong(part: Wording, whole: Wording, text: str) -> tuple[str, Clause] | None:
    """(pattern, clause) of the first thing in the part that goes wrong."""
    for i in range(1, len(part)):
        if part.lower(i - 1) in DETERMINERS:
            continue
        symptom = match_symptom(part, i)
        state = match_state(part, i + 1, "complain") if symptom is None and part.lower(i) in _BEFORE_STATE else None
        if state is not None:
            clause = Clause(text=text, style="complaint")
            apply_state(part, clause, state[0], subject_of(part, i), state[1])
            return "state", clause
        if symptom is not None and _stands_as_verb(part, i):
            implied = _symptom_clause(part, whole, text, i, symptom)
            if implied is not None:
                return symptom[0]["pattern"], implied
    return None


def _symptom_clause(
    part: Wording, whole: Wording, text: str, i: int, symptom: tuple[dict[str, str], int]
) -> Clause | None:
    """What the verb of complaint at i implies; None if it has no subject."""
    subject = subject_of(part, i)
    if subject is None:
        return None
    row, after = symptom
    clause = Clause(text=text, style="complaint", verbs=near(row["verb"]), negated=row["negated"] == "yes")
    if row["verb"] == "separate":
        clause.verbs.setdefault("prevent", 0.6)
    elif row["verb"] == "prevent" and row["pattern"] in {"gather", "affect"}:
        clause.verbs.setdefault("separate", 0.5)
    apply_symptom(part, clause, row, subject, after)
    if clause.where is None and _refers_back(part, row["pattern"], after):
        antecedent = first_phrase(whole, len(whole))
        if antecedent is not None and antecedent.text != subject.text:
            clause.where = (relation(row["relation"]), antecedent)
    return clause


def _refers_back(part: Wording, pattern: str, after: int) -> bool:
    """ "dust settles on it", "snow buries them": the place was named earlier in the sentence."""
    if pattern in {"gather", "affect", "harm"} and part.lower(after) in {"it", "them"}:
        return True
    return any(part.lower(k + 1) in {"it", "them"} and part.lower(k) in PLACES for k in range(after - 1, len(part)))


def _stands_as_verb(wording: Wording, i: int) -> bool:
    """Whether a word that may be noun or verb stands as the verb of its clause."""
    return wording.lower(i - 1) in _BEFORE_VERB or wording.is_noun(i - 1)
