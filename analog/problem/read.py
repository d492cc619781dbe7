"""From one engineer's sentence to a problem in the same form as a model.

The words give a first reading (analog.problem.clauses); labelled phrasings that lie near in meaning, if there are
any, shift the confidence among functions; the things are looked up as kinds; before and after follow from the verb.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from analog.errors import ReadingError
from analog.problem.change import facts_of
from analog.problem.chunk import Chunker, Phrase, tokenise
from analog.problem.clauses import Clause, read_clause, split_clauses, strip_leads, style_of
from analog.problem.given import find_conditions, noted, read_conditions
from analog.problem.tables import word_class
from analog.problem.text import bounded_text, identifier
from analog.problem.types import Condition, Problem, ProblemPurpose, Thing, VerbCandidate

if TYPE_CHECKING:
    from analog.problem.phrases import PhraseMemory
    from analog.vocabulary import Vocabulary

LEXICAL_SHARE = 0.65
"""Weight of the reading by words against the neighbours' votes; chosen by cross-validation on the development
phrasings, see docs/reading.md."""

MOST_PURPOSES = 6
MOST_SENTENCES = 40
RUNNERS_UP = 4
KNOWN_WORDS = 0.34
"""Least share of words that must be English for a text to be read at all."""

_SENTENCE = re.compile(r"(?<=[.!?;])\s+(?=\S)|\n+")
_WITHOUT_DOING = re.compile(r"\bwithout\s+(?P<event>\w+ing\b(?:\s+(?!and\b|or\b)[\w'-]+){0,3})", re.I)


def read_problem(
    text: str, given: Sequence[str] = (), vocabulary: Vocabulary | None = None, phrases: PhraseMemory | None = None
) -> Problem:
    """Read a problem.

    text : a sentence or a few, at most 20,000 characters. given : conditions, each read by `read_conditions`.
    phrases : labelled phrasings with an encoder; without them the words alone decide.

    Raises ReadingError for an empty text, one too long, or one in which no purpose is found; InputError for a
    condition with a fault (see `read_condition`).
    """
    if vocabulary is None:
        raise TypeError("read_problem needs a vocabulary")
    plain = bounded_text(text)
    conditions = [found for condition in given for found in read_conditions(condition, vocabulary)]
    shown = plain if len(plain) <= 2000 else plain[:1999] + "…"
    return _Assembly(vocabulary, phrases, shown).read(plain, conditions)


class _Assembly:
    """Collects things, purposes, facts and notes while a text is read."""

    def __init__(self, vocabulary: Vocabulary, phrases: PhraseMemory | None, text: str) -> None:
        self.vocabulary, self.phrases, self.text = vocabulary, phrases, text
        self.chunker = Chunker(vocabulary)
        self.things: dict[str, Thing] = {}
        self.purposes: list[ProblemPurpose] = []
        self.initial: list[str] = []
        self.objective: list[str] = []
        self.notes: list[str] = []
        self.conditions: list[Condition] = []

    def read(self, plain: str, given: list[Condition]) -> Problem:
        self._refuse_foreign(plain)
        self.notes += [noted(condition) for condition in given if condition.type == "note"]
        last: Phrase | None = None
        sentences = [s for s in _SENTENCE.split(plain) if any(c.isalpha() for c in s)]
        if len(sentences) > MOST_SENTENCES:
            self.notes.append(f"Only the first {MOST_SENTENCES} of {len(sentences)} sentences were read.")
        complaints: list[Clause] = []
        for sentence in sentences[:MOST_SENTENCES]:
            stripped, found, notes = find_conditions(sentence, self.vocabulary)
            self.conditions += found
            self.notes += notes
            if not any(c.isalpha() for c in stripped):
                continue
            clauses = self._clauses(stripped, last)
            if found and not any(c.object or c.implied or c.where for c in clauses):
                clauses = self._clauses(sentence, last)  # "breathe under water": the condition is the place as well
            for clause in clauses:
                if clause.style == "complaint":
                    complaints.append(clause)
                else:
                    self._add(clause, sentence)
                last = clause.object or (clause.where[1] if clause.where else None) or last
            for match in _WITHOUT_DOING.finditer(stripped):
                self._side_purpose(match["event"], clauses[0] if clauses else None)
        # a complaint beside a request tells its background; alone it is the problem
        if not self.purposes:
            for clause in complaints:
                self._add(clause, plain)
        elif complaints:
            self.notes.append(f"Taken as background: {complaints[0].text.strip()[:150]!r}.")
        if not self.purposes:
            self._guess(plain)
        conditions = self._merged(given)
        return Problem(
            text=self.text,
            purposes=tuple(self.purposes),
            things=tuple(self.things.values()),
            initial=tuple(dict.fromkeys(self.initial)),
            objective=tuple(dict.fromkeys(self.objective)),
            conditions=tuple(conditions),
            notes=tuple(dict.fromkeys(self.notes)),
        )

    def _merged(self, given: list[Condition]) -> list[Condition]:
        """Conditions given apart overrule those found in the sentence on the same matter."""

        def matter(c: Condition) -> tuple[str, str]:
            about = c.kind or c.about or ""
            return (
                (c.type, f"{about} {c.quantity or ''}")
                if c.type not in {"medium", "temperature"}
                else (c.type, c.about or "")
            )

        ruled = {matter(c) for c in given}
        return given + [c for c in self.conditions if matter(c) not in ruled]

    def _refuse_foreign(self, plain: str) -> None:
        words = [t.lower for t in tokenise(plain) if t.is_word][:200]
        if not words:
            raise ReadingError(f"Expected a problem in English words, got {plain[:60]!r}")
        known = sum(1 for word in words if word in _FUNCTION_WORDS or self.chunker.parts(word))
        structural = sum(1 for word in words if word in _FOREIGN)
        if known / len(words) < KNOWN_WORDS or structural >= max(2, len(words) // 5):
            unknown = [w for w in words if not self.chunker.parts(w) and w not in _FUNCTION_WORDS]
            raise ReadingError(
                f"Expected a problem in English, got {plain[:60]!r}; "
                f"words not understood: {', '.join(dict.fromkeys(unknown or words))[:120]}"
            )
        strange = [
            w
            for w in words
            if not self.chunker.parts(w) and w not in _FUNCTION_WORDS and self.vocabulary.kind_of(w) is None
        ]
        if strange:
            self.notes.append(f"Not understood: {', '.join(dict.fromkeys(strange))[:200]}.")

    def _clauses(self, sentence: str, last: Phrase | None) -> list[Clause]:
        style = style_of(sentence, self.chunker)
        if style == "complaint":
            clause = read_clause(sentence, style, self.chunker)
            return [clause] if clause is not None else []
        found: list[Clause] = []
        sentence = _WITHOUT_DOING.sub(" ", sentence)
        for k, piece in enumerate(split_clauses(sentence, self.chunker)):
            how = style if k == 0 else "imperative"
            clause = read_clause(piece, how, self.chunker, last)
            if clause is None:
                continue
            found.append(clause)
            last = clause.object or last
        if not found and style in {"question", "requirement"}:
            stripped, _ = strip_leads(sentence)
            clause = read_clause(stripped, "complaint", self.chunker)
            if clause is not None:
                clause.style = style
                found.append(clause)
        return found

    def _add(self, clause: Clause, sentence: str) -> None:
        if len(self.purposes) >= MOST_PURPOSES:
            self.notes.append(f"More than {MOST_PURPOSES} purposes; left out: {clause.text.strip()[:120]!r}.")
            return
        if clause.object is None and clause.implied is None:
            if clause.where is None:
                self.notes.append(f"No thing was found that {clause.text.strip()[:120]!r} acts on.")
                return
            clause.object, clause.where = clause.where[1], None
        thing = (
            self._thing(clause.object.text) if clause.object is not None else self._implied(clause.implied or "thing")
        )
        place: Thing | None = None
        relation = ""
        if clause.where is not None:
            relation = clause.where[0]
            place = self._thing(clause.where[1].text)
            if place.id == thing.id:
                place = None
        flow = self.vocabulary.flow_of_kind(thing.kind) if thing.kind else None
        ranking = self._ranking(clause, sentence)
        verb, confidence = ranking[0]
        from analog.model.types import Place

        where = Place.model_validate({"relation": relation, "part": place.id}) if place is not None else None
        purpose = ProblemPurpose(
            text=(" ".join(clause.text.split()).strip(" ,.?!") or sentence)[:200],
            verb=verb,
            confidence=confidence,
            runners_up=tuple(VerbCandidate(verb=v, confidence=c) for v, c in ranking[1 : 1 + RUNNERS_UP]),
            negated=clause.negated,
            flow=flow,
            object=thing.id,
            where=where,
        )
        if any(
            (p.verb, p.object, p.where, p.negated) == (purpose.verb, purpose.object, purpose.where, purpose.negated)
            for p in self.purposes
        ):
            return
        self.purposes.append(purpose)
        for _, phrase in clause.others:
            self._thing(phrase.text)
        before, after = facts_of(
            verb,
            clause.negated,
            flow,
            (thing.id, thing.kind),
            (place.id, place.kind, relation) if place is not None else None,
            self.vocabulary,
        )
        self.initial += before
        self.objective += after
        self.notes += clause.notes
        if clause.implied is not None and clause.object is None:
            self.notes.append(f"{thing.name!r} is not said; it was taken as implied.")
        if confidence < 0.35:
            self.notes.append(f"The verb {verb!r} is read with little confidence; say verb=… to correct it.")

    def _implied(self, name: str) -> Thing:
        """A thing that is meant and not said: by its kind's usual word when only the kind is known."""
        if not self.vocabulary.kinds.known(name):
            return self._thing(name)
        word = _USUAL_WORDS.get(name, self.vocabulary.kinds.label(name).replace("-", " "))
        thing_id = identifier(word)
        self.things.setdefault(thing_id, Thing(id=thing_id, name=word, kind=name, kind_similarity=1.0))
        return self.things[thing_id]

    def _thing(self, name: str) -> Thing:
        thing_id = identifier(name)
        if thing_id in self.things:
            return self.things[thing_id]
        match = self.vocabulary.kind_of(name)
        thing = Thing(
            id=thing_id,
            name=name[:200],
            kind=match.kind if match else None,
            kind_similarity=round(match.similarity, 4) if match else 0.0,
        )
        if match is None:
            self.notes.append(f"No kind is known for {name[:80]!r}; say what it is with kind=….")
        self.things[thing_id] = thing
        return thing

    def _ranking(self, clause: Clause, sentence: str) -> list[tuple[str, float]]:
        votes = self.phrases.votes(sentence) if self.phrases is not None else None
        return combine(clause.verbs, votes, clause.sure)

    def _side_purpose(self, event: str, main: Clause | None) -> None:
        """ "grip fruit without bruising it": what must not happen meanwhile is a purpose of its own, kept last."""
        if main is None or not self.purposes or len(self.purposes) >= MOST_PURPOSES:
            return
        tokens = tokenise(event)
        target, _ = self.chunker.noun_phrase(tokens, 1)
        if target is None or target.pronoun:
            target = main.object or (main.where[1] if main.where else None)
        if target is None:
            return
        from analog.model.types import Place

        happening = self._thing(tokens[0].lower)
        place = self._thing(target.text)
        if place.id == happening.id:
            return
        self.purposes.append(
            ProblemPurpose(
                text=f"without {event}"[:200],
                verb="prevent",
                confidence=0.6,
                runners_up=(VerbCandidate(verb="inhibit", confidence=0.5),),
                negated=True,
                object=happening.id,
                where=Place(relation="on", part=place.id),
            )
        )

    def _guess(self, plain: str) -> None:
        """Nothing was read as a purpose: neighbours and the first thing named make a guess, said to be one."""
        chunker = self.chunker
        tokens = tokenise(plain)
        phrase: Phrase | None = None
        for i in range(len(tokens)):
            phrase, _ = chunker.noun_phrase(tokens, i)
            if phrase is not None and not phrase.pronoun and self.vocabulary.kind_of(phrase.text) is not None:
                break
            phrase = None
        votes = self.phrases.votes(plain) if self.phrases is not None else {}
        if phrase is None or not votes:
            raise ReadingError(
                f'Found no purpose in {plain[:80]!r}; expected something like "remove dust from solar panels", '
                '"keep ice off the wing" or "our pipes clog with scale"'
            )
        clause = Clause(text=plain, style="complaint", object=phrase, sure=False, verbs={})
        self.notes.append("No verb was understood; the purpose is guessed from sentences that are alike.")
        self._add(clause, plain)


def combine(
    lexical: dict[str, float], votes: dict[str, float] | None, sure: bool = True, share: float = LEXICAL_SHARE
) -> list[tuple[str, float]]:
    """Functions by confidence, best first: share * words + (1 - share) * votes; words alone without votes.

    lexical, votes : function → 0..1. A reading that is not sure leans on the neighbours twice as much.
    """
    if votes is None:
        scores = dict(lexical)
        if not sure:
            scores = {verb: weight * 0.6 for verb, weight in scores.items()}
    else:
        share = share if sure else share / 2
        scores = {
            verb: share * lexical.get(verb, 0.0) + (1 - share) * votes.get(verb, 0.0) for verb in {*lexical, *votes}
        }
    ranked = sorted(scores.items(), key=lambda entry: (-entry[1], entry[0]))
    return [(verb, round(min(1.0, max(0.0, score)), 4)) for verb, score in ranked if score > 0.0] or [("change", 0.05)]


_USUAL_WORDS = {"thermal-energy": "heat", "liquid-water": "water", "ice-deposit": "ice", "water-vapour": "moisture"}
"""Words for kinds whose label nobody would say in a sentence."""

_FUNCTION_WORDS = word_class("function words")
_FOREIGN = word_class("foreign")
