"""From the words of one clause to what it asks for: verb, object, place, and whether something is to be kept away.

Shapes, not grammar: "keep X off Y", "stop X V-ing", "protect Y from X", "clean Y (of X)", "Y must V X",
"output drops as X builds up on Y". What each everyday verb may mean comes from the vocabulary; which complaints imply
which purpose is data (data/symptoms.tsv, data/states.tsv).
"""

# ruff: noqa: E501 - patterns and word conditions are easier to read whole

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from analog.problem.chunk import (
    ADVERBS,
    AMOUNTS,
    AUXILIARIES,
    DETERMINERS,
    MODALS,
    NEGATIONS,
    PARTICLES,
    PLACES,
    PRONOUNS,
    SUBORDINATORS,
    TIMES,
    Chunker,
    Phrase,
    Token,
    tokenise,
)  # fmt: skip
from analog.problem.tables import table, word_class
from analog.problem.units import common as unit

if TYPE_CHECKING:
    from analog.vocabulary import Vocabulary


@dataclass
class Clause:
    """One purpose as its words give it.

    verbs : function → weight 0..1. object : phrase or None; implied : name of a thing not said but meant.
    where : (relation of a place, phrase). negated : the object is to be kept away or its event kept from happening.
    """

    text: str
    style: str
    verbs: dict[str, float] = field(default_factory=dict)
    object: Phrase | None = None
    implied: str | None = None
    where: tuple[str, Phrase] | None = None
    negated: bool = False
    others: list[tuple[str, Phrase]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    sure: bool = True


PREVENT = {"prevent": 0.9, "inhibit": 0.7, "stop": 0.4}
INHIBIT = {"inhibit": 0.9, "prevent": 0.75, "stop": 0.3}
SEPARATE = {"separate": 0.9, "remove": 0.75, "export": 0.6}
_PREVENTERS = word_class("preventers")
_PROTECTORS = word_class("protectors")
_REPELLERS = word_class("repellers")
_RIDDERS = word_class("ridders")
_PULLERS = word_class("pullers")
_CAUSERS = word_class("causers")
_STAYERS = {"stay", "remain", "keep"}

_LEADS = [
    re.compile(pattern, re.I)
    for pattern in (
        r"^(?:please|also|first|then|finally|so|and|but|ideally|basically|well|hello|hi|ok|okay)\b[,:]?\s+",
        r"^(?:can|could|would|will) (?:you|anyone|somebody|someone)(?: please)? (?:help (?:me|us)(?: to)?|tell (?:me|us) how to|suggest (?:a |some )?ways? (?:to|of)|find (?:me |us )?(?:a |some )?ways? (?:to|of))\s+",
        r"^(?:help (?:me|us)(?: to)?|i want to know how to|tell (?:me|us) how to|show (?:me|us) how to|i wonder how to|does anyone know how to)\s+",
        r"^(?:we|i|they|you|one|my (?:client|team|company)|our (?:client|team|company|customers?)|customers?|users?)(?:'d| would)? (?:really )?(?:also )?(?:like|want|need|wish|have|hope|aim|try|are trying|am trying|are looking|am looking|plan|intend)s? to\s+",
        r"^(?:the |our |my |your )?(?:goal|aim|task|purpose|challenge|problem|objective|idea|job|question|point)(?: here)? is (?:how )?to\s+",
        r"^(?:we|i|they)(?: are|'re| am|'m)? ?(?:need|want|seek|looking for|searching for|after)\s+(?:a |an |some |the )?(?:\w+ ){0,2}(?:ways?|methods?|means|mechanisms?|ideas?|solutions?|device|system|coating|material|surface|approach|technique|structure|mechanism|tool|trick)\s+(?:to|of|for|that|which)(?: can| could| will| would)?\s+",
        r"^(?:looking|searching|seeking|wanted|needed|find|suggest|design|invent|develop|give me|propose)(?: for)?:? (?:a |an |some |the )?(?:\w+ ){0,2}(?:ways?|methods?|means|mechanisms?|ideas?|solutions?|device|system|approach|technique|trick)\s+(?:to|of|for|that|which)(?: can| could| will| would)?\s+",
        r"^is (?:there|it) (?:a |an |any |some )?(?:\w+ )?(?:ways?|methods?|means|tricks?|possible) (?:to|of|for)\s+",
        r"^(?:a |an |any |some |the )?(?:better |new |good |simple )?(?:ways?|methods?|means|device|mechanism|approach) (?:to|of|for|that)(?: can| could)?\s+",
        r"^(?:how|ways?) (?:best )?to\s+",
        r"^it (?:must|should|has to|shall) be possible to\s+",
        r"^there (?:must|should) be a way to\s+",
        r"^(?:what|which) (?:\w+ ){0,3}?(?:would |could |can |might |will |should )?(?=(?:keep|let|stop|make|prevent|move|help|allow|hold)s?\b)",
    )
]  # fmt: skip
_QUESTION = re.compile(
    r"^(?:how|in what way|by what means|why|where|what)\s+(?:else |best )?(can|could|do|does|did|might|would|should|may|will|is|are)\s+",
    re.I,
)
_FORBID = re.compile(r"^(?:do not|don't|never)\s+(?:let|allow)\s+", re.I)
_REQUIREMENT = re.compile(
    r"\b(?:must|shall|should|has to|have to|needs? to|ought to|is required to|are required to|is to|are to|will have to)\b",
    re.I,
)


@lru_cache(maxsize=1)
def symptoms() -> dict[str, dict[str, str]]:
    """Verbs of complaint, by their words."""
    return {row["words"]: row for row in table("symptoms")}


@lru_cache(maxsize=1)
def states() -> dict[tuple[str, str], dict[str, str]]:
    """Words of state by (word, mode): mode is keep, make or complain."""
    return {(row["word"], row["mode"]): row for row in table("states")}


def style_of(text: str, chunker: Chunker) -> str:
    """imperative, question, requirement or complaint."""
    stripped, lead = strip_leads(text)
    if text.rstrip().endswith("?") or _QUESTION.match(text) or re.match(r"(?i)^(?:how|what|which|is there)\b", text):
        return "question"
    if lead or _FORBID.match(stripped):
        return "imperative"
    tokens = tokenise(stripped)
    first = next((t for t in tokens if t.is_word and t.lower not in ADVERBS), None)
    if first is not None and starts_request(tokens, tokens.index(first), chunker):
        return "imperative"
    if _REQUIREMENT.search(text):
        return "requirement"
    return "complaint"


def strip_leads(text: str) -> tuple[str, bool]:
    """Take the polite beginning away: (rest, whether anything was taken)."""
    before = text
    for _ in range(3):
        for pattern in _LEADS:
            shorter = pattern.sub("", text, count=1)
            if shorter and shorter != text:
                text = shorter
                break
        else:
            break
    return text, text != before


def starts_request(tokens: list[Token], i: int, chunker: Chunker) -> bool:
    """Whether the token at i is a verb that asks for something: a base form followed by what a verb may take."""
    word = tokens[i].lower
    if (
        word in DETERMINERS
        or word in PRONOUNS
        or word in PLACES
        or word in MODALS
        or word in NEGATIONS
        or (word in AUXILIARIES and word != "get")
    ):
        return False
    bases = chunker.verb_bases(word)
    if word.endswith("ing") and chunker.is_verb(word) and i == 0 and len(tokens) > 1:
        return tokens[1].lower in DETERMINERS or not chunker.is_noun(word)
    if word not in bases:
        return False
    following = tokens[i + 1] if i + 1 < len(tokens) else None
    if following is None or not (chunker.is_noun(word) or "a" in chunker.parts(word)):
        return True
    if (
        following.lower in DETERMINERS
        or following.lower in PRONOUNS
        or following.lower in PARTICLES
        or following.lower in _FIGURES
    ):
        return True
    if following.lower in MODALS or following.lower in AUXILIARIES or following.lower in PLACES:
        return False
    # Noun or verb, followed by an open word. A noun in the singular would need a verb in -s or -ed after it.
    common = word_is_common_request(word)
    for k in range(i + 1, min(len(tokens), i + 6)):
        later = tokens[k].lower
        if later in MODALS or later in AUXILIARIES:
            return False
        if later in PLACES or later in DETERMINERS or later in SUBORDINATORS:
            break
        closing = tokens[k + 1].lower if k + 1 < len(tokens) else ""
        closed = (
            not closing or closing in SUBORDINATORS or closing in PLACES or closing in DETERMINERS or closing in ADVERBS
        )
        if not later.endswith("ss") and later.endswith("s") and chunker.is_verb(later):
            if closing in SUBORDINATORS or (not chunker.is_noun(later) and not common):
                return False
            if closed and not common and match_symptom(tokens, k, chunker) is not None:
                return False
        if later.endswith("ed") and closed and chunker.is_verb(later) and not common:
            return False
        if (
            k > i + 1
            and tokens[k - 1].lower.endswith("s")
            and not common
            and (symptom := match_symptom(tokens, k, chunker))
        ):
            closing = tokens[symptom[1]].lower if symptom[1] < len(tokens) else ""
            if (
                not closing
                or closing in SUBORDINATORS
                or closing in PLACES
                or closing in DETERMINERS
                or closing in ADVERBS
                or closing == "shut"
            ):
                return False
    return True


_FIGURES = word_class("figures")


def word_is_common_request(word: str) -> bool:
    """Verbs that begin requests far more often than they are nouns at the start of a sentence."""
    return word in {
        "stop", "keep", "clean", "cool", "filter", "pump", "dry", "lift", "guide", "store", "hold", "mix", "sort", "shape", "cut", "drill",
        "seal", "shield", "trap", "catch", "grip", "sense", "track", "move", "transport", "split", "spread", "collect",
        "make", "get", "take", "remove", "prevent", "reduce", "damp", "separate", "stack", "sow", "harvest", "find", "help", "let",
    }  # fmt: skip


def match_symptom(tokens: list[Token], i: int, chunker: Chunker) -> tuple[dict[str, str], int] | None:
    """(row of the table, index after its words) if a verb of complaint stands at i; the longest first."""
    if i >= len(tokens) or not tokens[i].is_word or tokens[i].lower in DETERMINERS or tokens[i].lower in PLACES:
        return None
    bases = dict.fromkeys((*chunker.verb_bases(tokens[i].lower), tokens[i].lower))
    for base in bases:
        if i + 1 < len(tokens):
            pair = f"{base} {tokens[i + 1].lower}"
            if pair in symptoms():
                return symptoms()[pair], i + 2
    for base in bases:
        if base in symptoms():
            return symptoms()[base], i + 1
    return None


def match_state(tokens: list[Token], i: int, mode: str) -> tuple[dict[str, str], int] | None:
    """(row, index after) if a word of state of this mode stands at i, degree words skipped."""
    while i < len(tokens) and tokens[i].lower in {
        "too",
        "very",
        "so",
        "really",
        "quite",
        "more",
        "as",
        "perfectly",
        "always",
        "completely",
    }:
        i += 1
    if i >= len(tokens):
        return None
    if i + 1 < len(tokens) and (f"{tokens[i].lower} {tokens[i + 1].lower}", mode) in states():
        return states()[f"{tokens[i].lower} {tokens[i + 1].lower}", mode], i + 2
    row = states().get((tokens[i].lower, mode))
    return (row, i + 1) if row is not None else None


def split_clauses(text: str, chunker: Chunker) -> list[str]:
    """Cut one sentence into its purposes: "collect dew and store it" gives two."""
    pieces = re.split(r"\s*;\s*", text)
    result = []
    for piece in pieces:
        tokens = tokenise(piece)
        cuts: list[tuple[int, int]] = []
        filling = {"and", "then", "but", "also", "to"} | (ADVERBS - {"back", "up", "out"})
        begins = list(range(len(tokens)))  # the first token from here on that does not merely fill, or the last one
        for k in range(len(tokens) - 2, -1, -1):
            if tokens[k].lower in filling:
                begins[k] = begins[k + 1]
        for i, token in enumerate(tokens[:-1]):
            if token.lower in {"and", "then", "but", ","} and i > 1:
                k = begins[i + 1]
                if _new_request(tokens, k, chunker) and (not cuts or cuts[-1][1] != k):
                    cuts.append((i, k))
        start = 0
        for i, k in cuts:
            result.append(piece[start : tokens[i].start].strip(" ,"))
            start = tokens[k].start
        result.append(piece[start:].strip(" ,"))
    return [piece for piece in result if piece]


def _new_request(tokens: list[Token], k: int, chunker: Chunker) -> bool:
    word = tokens[k].lower
    if (
        word in DETERMINERS
        or word in PLACES
        or word in PRONOUNS
        or word in AUXILIARIES
        or word in MODALS
        or word not in chunker.verb_bases(word)
    ):
        return False
    if "a" in chunker.parts(word) and not (k + 1 < len(tokens) and tokens[k + 1].lower in DETERMINERS | PRONOUNS):
        return False
    following = tokens[k + 1].lower if k + 1 < len(tokens) else ""
    if following in DETERMINERS or following in {"it", "them", "itself", "themselves"}:
        return True
    if chunker.is_noun(word):
        return False
    return bool(following)


class Reader:
    """Reads clauses with one vocabulary."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.vocabulary = vocabulary
        self.chunker = Chunker(vocabulary)

    # Entry -----------------------------------------------------------------------------------------------------

    def read(self, text: str, style: str, last_object: Phrase | None = None) -> Clause | None:
        """Read one clause of the given style; None if nothing in it can be a purpose."""
        if style == "complaint":
            return self._complaint(text)
        stripped, _ = strip_leads(text)
        clause = Clause(text=stripped.strip(" ?.!"), style=style)
        tokens = tokenise(stripped)
        while tokens and not tokens[-1].lower[0].isalnum():
            tokens.pop()
        subject: Phrase | None = None
        i = 0
        if forbidden := _FORBID.match(stripped):  # "don't let ice form on the edge"
            i = next((k for k, t in enumerate(tokens) if t.start >= forbidden.end()), len(tokens))
            thing, after = self.chunker.noun_phrase(tokens, i, verb_may_follow=True)
            if thing is not None and not thing.pronoun:
                thing, after = self._split_caused(tokens, i, after, thing)
                self._prevent_event(clause, thing, tokens, after, "prevent")
                return clause
        match = _QUESTION.match(stripped)
        if match:
            i = next((k for k, t in enumerate(tokens) if t.start >= match.end()), len(tokens))
            subject, i = self.chunker.noun_phrase(tokens, i, verb_may_follow=True)
            if subject is not None:
                subject, i = self._give_back_verb(tokens, i, subject)
        elif style == "question" and tokens and tokens[0].lower in {"what", "which", "how", "who"}:
            i = 1
        elif style == "requirement":
            at = next(
                (
                    k
                    for k, t in enumerate(tokens)
                    if t.lower in MODALS or t.lower in {"has", "have", "needs", "need", "ought"}
                ),
                None,
            )
            if at is None:
                at = next((k for k, t in enumerate(tokens) if t.lower in {"is", "are"}), 0)
            subject = self._phrase_before(tokens, at)
            i = at + 1
            while i < len(tokens) and tokens[i].lower in {"to", "able", "required", "always", "also"}:
                i += 1
        if subject is not None and subject.pronoun:
            subject = last_object if subject.text in {"it", "they", "them"} else None
        self._verb_phrase(clause, tokens, i, subject, last_object)
        if not clause.verbs:
            return None
        return clause

    def _give_back_verb(self, tokens: list[Token], i: int, subject: Phrase) -> tuple[Phrase, int]:
        """ "can villages get", "can soil hold water": the phrase may have swallowed the verb; give it back."""
        begin = i
        while begin > 0 and tokens[begin - 1].lower not in MODALS | AUXILIARIES and begin > i - 8:
            begin -= 1
        if (
            i < len(tokens)
            and tokens[i].lower not in ADVERBS
            and (
                tokens[i].lower in AUXILIARIES
                or (self.chunker.is_verb(tokens[i].lower) and tokens[i].lower not in PLACES)
            )
        ):
            return subject, i
        found = [
            k
            for k in range(begin + 1, i)
            if tokens[k].lower in self.chunker.verb_bases(tokens[k].lower)
            and self.chunker.is_noun(tokens[k - 1].lower)
            and tokens[k - 1].lower not in DETERMINERS
        ]
        inner = [k for k in found if k < i - 1]  # something is left for the verb to act on
        plain = [k for k in inner if "a" not in self.chunker.parts(tokens[k].lower)]
        for k in (*plain[::-1], *inner[::-1], *found):
            phrase, _ = self.chunker.noun_phrase(tokens[:k], begin)
            if phrase is not None:
                return phrase, k
        return subject, i

    def _phrase_before(self, tokens: list[Token], at: int) -> Phrase | None:
        """The noun phrase a clause begins with, of what stands before token `at`."""
        i = 0
        while i < at:
            if tokens[i].lower in SUBORDINATORS or not tokens[i].is_word or tokens[i].lower in PLACES:
                i += 1
                continue
            phrase, after = self.chunker.noun_phrase(tokens[:at], i)
            if phrase is not None:
                return phrase
            i = max(after, i + 1)
        return None

    # Verb phrases ----------------------------------------------------------------------------------------------

    def _verb_phrase(
        self, clause: Clause, tokens: list[Token], i: int, subject: Phrase | None, last: Phrase | None
    ) -> None:
        c = self.chunker
        negation = False
        passive = False
        while i < len(tokens) and (
            tokens[i].lower in ADVERBS
            or tokens[i].lower in NEGATIONS
            or (tokens[i].lower.endswith("ly") and not c.is_verb(tokens[i].lower))
            or not tokens[i].is_word
            or tokens[i].lower in {"to", "we", "you", "i", "one"}
            or (tokens[i].lower in DETERMINERS and subject is None and clause.style != "imperative")
        ):
            negation = negation or tokens[i].lower in NEGATIONS
            i += 1
        if i >= len(tokens):
            return
        if (
            tokens[i].lower in {"be", "been", "is", "are", "get", "gets"}
            and i + 1 < len(tokens)
            and subject is not None
        ):
            k = i + 1
            while k < len(tokens) - 1 and (tokens[k].lower in ADVERBS or tokens[k].lower in {"able", "to", "both"}):
                k += 1
            state = match_state(tokens, k, "make")
            if state is not None:
                self._apply_state(clause, state[0], subject, tokens, state[1])
                return
            word = tokens[k].lower
            if (
                (not word.endswith("ing") or tokens[i].lower not in {"get", "gets"})
                and c.is_verb(word)
                and word not in c.verb_bases(word)[:1]
            ) or word in {"cut", "split", "shut", "put", "set", "kept", "held", "spread"}:
                passive, i = True, k
            elif tokens[i].lower in {"get", "gets"}:
                pass
            elif c.is_verb(word) and tokens[i + 1].lower == "able":
                i = k
            else:
                self._property(clause, tokens, k, subject)
                return
        if negation:
            self._not_to_happen(clause, tokens, i, subject)
            return
        lemma = self._lemma(tokens, i)
        if lemma is None:
            noun_first = self._noun_request(clause, tokens, i)
            if not noun_first:
                for k in range(i + 1, min(i + 8, len(tokens))):
                    if starts_request(tokens, k, c) or (subject is not None and self._lemma(tokens, k)):
                        clause.sure = False
                        self._verb_phrase(clause, tokens, k, subject, last)
                        return
            return
        verb, after = lemma
        if passive:
            self._transitive(clause, verb, subject, tokens, after, moved=subject)
            return
        if (
            clause.style == "question"
            and subject is None
            and tokens[i].lower.endswith("s")
            and verb in {"keep", "make", "stop", "prevent"}
        ):
            pass
        if verb in _STAYERS and (verb != "keep" or subject is not None) and match_state(tokens, after, "keep"):
            self._keep(clause, subject, tokens, after)
            return
        if verb in {"stay", "remain"} and subject is not None:
            self._keep(clause, subject, tokens, after)
            return
        self._transitive(clause, verb, subject, tokens, after, last=last)

    def _lemma(self, tokens: list[Token], i: int) -> tuple[str, int] | None:
        """(base form with its particle if the vocabulary knows the pair, index after) of the verb at i."""
        if i >= len(tokens) or not tokens[i].is_word:
            return None
        word = tokens[i].lower
        if word in {"kept", "keeps", "keeping"}:
            return "keep", i + 1
        if word in {"get", "getting", "gets"} and [t.lower for t in tokens[i + 1 : i + 3]] == ["rid", "of"]:
            return "get rid of", i + 3
        bases = tuple(self._american(base) for base in self.chunker.verb_bases(word))
        if not bases:
            return None
        for size in (2, 1):
            particles = [t.lower for t in tokens[i + 1 : i + 1 + size]]
            if len(particles) == size and all(p in PARTICLES or p in {"of", "together", "apart"} for p in particles):
                for base in bases:
                    joined = " ".join((base, *particles))
                    if particles[-1] in {"on", "in", "over", "through"} and self._place_follows(tokens, i + 1 + size):
                        continue
                    if (
                        joined in _REPELLERS
                        or joined in _PHRASAL
                        or (size == 1 and self.vocabulary.verbs.everyday.find(joined))
                    ):
                        return joined, i + 1 + size
        for base in bases:
            if (
                base in _PREVENTERS | _PROTECTORS | _REPELLERS | _CAUSERS | _STAYERS
                or self.vocabulary.verbs.known(base)
                or self.vocabulary.verbs.everyday.find(base)
            ):
                return base, i + 1
        return bases[0], i + 1

    def _american(self, verb: str) -> str:
        """ "stabilise" as the published vocabulary spells it."""
        other = verb.removesuffix("ise") + "ize"
        return other if verb.endswith("ise") and self.chunker.functional(other) else verb

    def _place_follows(self, tokens: list[Token], i: int) -> bool:
        """Whether a noun phrase stands at i: then the particle before it is a preposition."""
        return i < len(tokens) and (
            tokens[i].lower in DETERMINERS or self.chunker.noun_phrase(tokens, i)[0] is not None
        )

    def _candidates(self, verb: str, phrase: Phrase | None) -> tuple[dict[str, float], str, str | None]:
        """({function: weight}, role of the object, implied kind) of a verb with the flow of its object."""
        flow = kind = None
        if phrase is not None:
            kind = self.vocabulary.kind_of(phrase.text)
            flow = self.vocabulary.flow_of_kind(kind.kind) if kind is not None else None
        matches = [m for m in self.vocabulary.verbs.candidates(verb, flow) if not m.negated]
        if not matches:
            return {}, "thing", None
        weights: dict[str, float] = {}
        for match in matches:
            weights[match.verb] = max(weights.get(match.verb, 0.0), match.weight)
        implied = matches[0].implied_kind
        if implied is not None:
            if phrase is not None and kind is not None:
                itself = self.vocabulary.kinds.is_a(kind.kind, implied) or self.vocabulary.kinds.is_a(
                    implied, kind.kind
                )
                if itself or self.vocabulary.kinds.is_a(kind.kind, "energy"):
                    return weights, "thing", None  # "drain water", "trap light": what is meant is said
            return weights, "place", implied
        return weights, "thing", None

    def _transitive(
        self,
        clause: Clause,
        verb: str,
        subject: Phrase | None,
        tokens: list[Token],
        i: int,
        moved: Phrase | None = None,
        last: Phrase | None = None,
    ) -> None:
        """A verb with its object. moved : the object when it stood before a passive verb."""
        c = self.chunker
        phrase: Phrase | None
        if moved is not None:
            phrase, after = moved, i
        else:
            gerund = self._bare_gerund(tokens, i) if verb in _PREVENTERS else None
            if gerund is not None:
                self._prevent_event(clause, None, tokens, gerund, verb)
                return
            phrase, after = c.noun_phrase(tokens, i, verb_may_follow=verb in _PREVENTERS | _CAUSERS | {"keep"})
            if phrase is not None and verb in _CAUSERS:
                phrase, after = self._split_caused(tokens, i, after, phrase)
            if phrase is not None and verb == "keep":
                phrase, after = self._split_kept(tokens, i, after, phrase)
        if phrase is not None and phrase.pronoun:
            phrase = last if phrase.text in {"it", "them"} else None
        if (
            phrase is not None
            and subject is not None
            and len(phrase.words) == 1
            and len(phrase.head) > 3
            and unit(phrase.head)
        ):
            phrase = None  # "must carry ten kilograms": a figure is no thing
        if verb == "keep":
            self._keep(clause, phrase, tokens, after)
        elif verb in _PREVENTERS and self._event_after(tokens, after) is not None:
            self._prevent_event(clause, phrase, tokens, self._event_after(tokens, after) or after, verb)
        elif verb in _PREVENTERS:
            self._prevent(clause, verb, phrase, tokens, after)
        elif verb in _PROTECTORS and self._protect(clause, verb, phrase, tokens, after):
            return
        elif verb in _REPELLERS:
            clause.verbs, clause.negated = dict(INHIBIT), True
            if phrase is not None and len(phrase.words) == 1 and phrase.head.endswith("ing") and subject is not None:
                row = next((symptoms()[b] for b in c.verb_bases(phrase.head) if b in symptoms()), None)
                if row is not None and row["object"]:  # "must survive freezing"
                    clause.implied, clause.where = row["object"], (_relation(row["relation"]), subject)
                    return
            clause.object, clause.where = phrase, self._where(tokens, after)
            if clause.where is None and subject is not None:
                clause.where = ("from", subject)
            self._event_noun(clause)
        elif verb in _CAUSERS and phrase is not None and self._cause(clause, verb, phrase, tokens, after):
            return
        elif verb in {"get rid of", "rid of", "do away with", "dispose of"}:
            clause.verbs = dict(SEPARATE)
            clause.object, clause.where = phrase, self._where(tokens, after)
        elif verb in _RIDDERS and phrase is not None and self._rid(clause, verb, phrase, tokens, after):
            return
        else:
            self._plain(clause, verb, subject, phrase, tokens, after, passive=moved is not None)

    def _plain(
        self,
        clause: Clause,
        verb: str,
        subject: Phrase | None,
        phrase: Phrase | None,
        tokens: list[Token],
        i: int,
        passive: bool = False,
    ) -> None:
        target = phrase or subject
        weights, role, implied = self._candidates(verb, target)
        if i < len(tokens) and tokens[i].lower in PARTICLES:
            joined = f"{verb} {tokens[i].lower}"
            if self.vocabulary.verbs.everyday.find(joined):
                weights, role, implied = self._candidates(joined, target)
        clause.verbs = weights or {}
        if not weights:
            clause.notes.append(f"The verb {verb!r} is in no vocabulary; what it asks for is a guess.")
            clause.verbs = {"change": 0.15}
            clause.sure = False
        places = self._all_places(tokens, i)
        if verb in _PULLERS and any(p in {"from", "off", "out of", "away from"} for p, _ in places):
            for function, weight in (("separate", 0.85), ("remove", 0.7), ("export", 0.65), ("extract", 0.6)):
                clause.verbs[function] = max(clause.verbs.get(function, 0.0), weight)
        if role == "place" and target is not None:
            source = next((p for p in places if p[0] in {"from", "off", "out of", "away from"}), None)
            content = next((p for p in places if p[0] == "of" and self._could_be_dirt(p[1])), None)
            if source is not None:
                clause.object, clause.where = target, ("from", source[1])
            elif content is not None:
                clause.object, clause.where = content[1], ("from", target)
            else:
                clause.implied, clause.where = implied or "contaminant", ("from", target)
                if max(clause.verbs, key=lambda v: clause.verbs[v]) in {"supply", "import", "increase", "increment"}:
                    clause.where = ("to", target)
            return
        clause.object = target
        clause.where = self._choose(places)
        if phrase is not None and subject is not None and not passive and subject.text != phrase.text:
            top = max(clause.verbs, key=lambda v: clause.verbs[v])
            relation = {
                "separate": "from",
                "remove": "from",
                "export": "from",
                "contain": "in",
                "store": "in",
                "inhibit": "from",
                "prevent": "from",
                "distribute": "from",
            }.get(top)
            if clause.where is None and relation is not None:
                clause.where = (relation, subject)
            else:
                clause.others.append(("by", subject))
        if target is None and clause.where is not None:  # "walk over rough ground", "climb along the wall"
            clause.object, clause.implied = None, None
            clause.object = clause.where[1]
        self._event_noun(clause)

    def _keep(self, clause: Clause, phrase: Phrase | None, tokens: list[Token], i: int) -> None:
        c = self.chunker
        lower = [t.lower for t in tokens[i : i + 3]] + ["", "", ""]
        if lower[0] in {"free", "clear"} and lower[1] in {"from", "of"}:
            thing, _ = c.noun_phrase(tokens, i + 2)
            clause.verbs, clause.negated = dict(PREVENT), True
            clause.object, clause.where = thing, ("from", phrase) if phrase is not None else None
            return
        state = match_state(tokens, i, "keep")
        if state is not None:
            self._apply_state(clause, state[0], phrase, tokens, state[1])
            return
        at = c.place_at(tokens, i)
        if (at is not None and at[0] in {"from", "off", "out of", "away from"}) or lower[0] in {"out", "away", "off"}:
            after = at[1] if at is not None else i + 1
            if self._event_after(tokens, after) == after and (
                not c.begins_compound(tokens, after)
                or (after == len(tokens) - 1 and match_symptom(tokens, after, c) is not None)
            ):
                self._prevent_event(clause, phrase, tokens, after, "prevent")
                return
            place, _ = c.noun_phrase(tokens, after)
            clause.verbs, clause.negated = dict(PREVENT), True
            clause.object, clause.where = phrase, ("from", place) if place is not None and not place.pronoun else None
            return
        if phrase is None:
            clause.verbs, _, _ = self._candidates("keep", None)
            clause.verbs = clause.verbs or {"secure": 0.5, "store": 0.4}
            clause.object, _ = c.noun_phrase(tokens, i)
            return
        weights, _, _ = self._candidates("maintain" if lower[0].endswith("ing") else "keep", phrase)
        weights = weights or {"regulate": 0.5}
        if lower[0].endswith("ing"):
            weights = {"position": 0.6, "stabilize": 0.55, "regulate": 0.5, "secure": 0.4}
        clause.verbs, clause.object = weights, phrase
        clause.where = self._where(tokens, i)

    def _apply_state(
        self, clause: Clause, row: dict[str, str], phrase: Phrase | None, tokens: list[Token], i: int
    ) -> None:
        clause.verbs = self._around(row["verb"])
        clause.negated = row["negated"] == "yes"
        if row["object"]:
            clause.implied = row["object"]
            if phrase is not None:
                clause.where = (_relation(row["relation"]), phrase)
            else:
                clause.where = self._where(tokens, i)
        else:
            clause.object = phrase
            clause.where = self._where(tokens, i)

    @staticmethod
    def _around(verb: str) -> dict[str, float]:
        """A function read from a shape, with those close to it."""
        near = {
            "separate": SEPARATE, "prevent": PREVENT, "inhibit": INHIBIT,
            "export": {"export": 0.9, "transfer": 0.8, "separate": 0.4}, "decrease": {"decrease": 0.9, "decrement": 0.7, "inhibit": 0.6},
            "increase": {"increase": 0.9, "increment": 0.6, "change": 0.5}, "secure": {"secure": 0.9, "couple": 0.65, "join": 0.5},
            "stabilize": {"stabilize": 0.9, "secure": 0.6, "inhibit": 0.4}, "supply": {"supply": 0.9, "import": 0.6},
            "transport": {"transport": 0.9, "transfer": 0.8, "guide": 0.5},
        }  # fmt: skip
        return dict(near.get(verb, {verb: 0.9}))

    def _bare_gerund(self, tokens: list[Token], i: int) -> int | None:
        """Index of an -ing word right after the verb that names an event ("prevent clogging of filters")."""
        while i < len(tokens) and (tokens[i].lower in DETERMINERS or tokens[i].lower in ADVERBS):
            i += 1
        if i < len(tokens) and tokens[i].lower.endswith("ing") and (symptom := match_symptom(tokens, i, self.chunker)):
            following = tokens[symptom[1]].lower if symptom[1] < len(tokens) else ""
            if not following or following in PLACES or not self.chunker.begins_compound(tokens, i):
                return i
        return None

    def _event_after(self, tokens: list[Token], i: int) -> int | None:
        """Index of the -ing word in "(from) spreading" or the verb in "that spreads"; None if there is none."""
        if i < len(tokens) and tokens[i].lower in {"from", "against"}:
            i += 1
        while i < len(tokens) and (tokens[i].lower in ADVERBS or tokens[i].lower in {"getting", "being", "becoming"}):
            i += 1
        if (
            i < len(tokens)
            and tokens[i].lower.endswith(("ing", "ed"))
            and self.chunker.is_verb(tokens[i].lower)
            and tokens[i].lower not in {"leading"}
        ):
            return i
        if i < len(tokens) and i > 0 and tokens[i - 1].lower in {"getting", "becoming"}:
            return i
        return None

    def _prevent_event(self, clause: Clause, phrase: Phrase | None, tokens: list[Token], i: int, verb: str) -> None:
        """ "stop insects sticking to the edge", "stop a mirror from fogging": what is to be kept from happening."""
        clause.verbs, clause.negated = dict(PREVENT), True
        if verb == "stop":
            clause.verbs["stop"] = 0.6
        symptom = match_symptom(tokens, i, self.chunker)
        row, after = symptom if symptom is not None else (None, i + 1)
        target, following = self.chunker.noun_phrase(tokens, after)
        places = self._all_places(tokens, after if target is None or target.pronoun else following)
        state = match_state(tokens, i, "complain")
        if phrase is None:  # "prevent icing of probes"
            place = next((p for p in places if p[0] != "with"), None)
            agent = next((p for p in places if p[0] in {"with", "by"}), None)
            if row is not None and (row["object"] or row["pattern"] == "affect"):
                clause.object, clause.implied = (agent[1], None) if agent else (None, row["object"] or "contaminant")
                if place is not None:
                    clause.where = (_relation(row["relation"]), place[1])
                elif target is not None and not target.pronoun:
                    clause.where = (_relation(row["relation"]), target)
            else:
                clause.object = target if target is not None and not target.pronoun else (place[1] if place else None)
                clause.where = self._choose([p for p in places if p[1] is not clause.object])
            return
        if (
            row is not None
            and row["object"]
            and row["pattern"] in {"affect", "fail"}
            and (target is None or target.pronoun)
        ):
            agent = next((p for p in places if p[0] in {"with", "by"}), None)
            if agent is not None:
                clause.object = agent[1]
            else:
                clause.implied = row["object"]
            clause.where = (_relation(row["relation"]), phrase)
            return
        if state is not None and state[0]["object"]:
            clause.implied, clause.where = state[0]["object"], (_relation(state[0]["relation"]), phrase)
            return
        clause.object = phrase
        clause.where = self._choose(places)
        if clause.where is None and target is not None and not target.pronoun:
            clause.where = ("on", target)
        if row is not None and row["pattern"] == "self" and row["verb"] in {"secure", "stabilize"}:
            clause.verbs[row["verb"]] = 0.6

    def _prevent(self, clause: Clause, verb: str, phrase: Phrase | None, tokens: list[Token], i: int) -> None:
        clause.object, clause.where = phrase, self._where(tokens, i)
        if verb == "stop":
            event = phrase is not None and self._is_event(phrase)
            clause.verbs = dict(PREVENT) if event else {"stop": 0.95, "inhibit": 0.6, "prevent": 0.5}
            clause.negated = event
        else:
            clause.verbs, clause.negated = dict(PREVENT), True
        self._event_noun(clause)

    def _is_event(self, phrase: Phrase) -> bool:
        """Whether a noun names something that should not happen: leak, corrosion, wear, contaminants."""
        if phrase.head in _BAD_EVENTS:
            return True
        match = self.vocabulary.kind_of(phrase.text)
        return match is not None and match.similarity >= 0.6 and self.vocabulary.kinds.is_a(match.kind, "contaminant")

    def _event_noun(self, clause: Clause) -> None:
        """ "erosion of a bank": the place after "of" is where it happens."""
        if clause.object is not None and clause.where is not None and clause.where[0] == "of":
            clause.where = ("on", clause.where[1])

    def _protect(self, clause: Clause, verb: str, phrase: Phrase | None, tokens: list[Token], i: int) -> bool:
        c = self.chunker
        places = self._all_places(tokens, i)
        for k in range(i, len(tokens)):
            if tokens[k].lower in {"from", "against"}:
                if (
                    k + 1 < len(tokens)
                    and tokens[k + 1].lower.endswith("ing")
                    and c.is_verb(tokens[k + 1].lower)
                    and not c.begins_compound(tokens, k + 1)
                ):
                    self._prevent_event(clause, phrase, tokens, k + 1, verb)
                    return True
                foe, _ = c.noun_phrase(tokens, k + 1)
                if foe is not None and not foe.pronoun:
                    clause.verbs = dict(INHIBIT)
                    clause.negated, clause.object = True, foe
                    clause.where = ("from", phrase) if phrase is not None else None
                    return True
        if verb in {"seal", "insulate", "save", "strengthen", "preserve", "screen"}:
            return False
        weights, role, implied = self._candidates(verb, phrase)
        clause.verbs = {**INHIBIT, **{v: w for v, w in weights.items() if v in INHIBIT}}
        if role == "place" and implied:
            clause.implied, clause.negated = implied, True
            clause.where = ("from", phrase) if phrase is not None else None
            return True
        clause.object, clause.where = phrase, self._choose(places)
        clause.notes.append("What the thing is to be protected from is not said.")
        return True

    def _split_caused(self, tokens: list[Token], i: int, after: int, phrase: Phrase) -> tuple[Phrase, int]:
        """ "make droplets stay", "let vapour through", "make skis glide faster": cut the phrase before its verb."""
        first = i
        while first < after and tokens[first].lower in DETERMINERS:
            first += 1
        for k in range(first + 1, after):
            word = tokens[k].lower
            before = tokens[k - 1].lower
            if (
                word in self.chunker.verb_bases(word)
                and self.chunker.is_noun(before)
                and ("a" not in self.chunker.parts(before) or word in _MOTIONS)
            ):
                following = tokens[k + 1].lower if k + 1 < len(tokens) else ""
                if (
                    not self.chunker.is_noun(word)
                    or not following
                    or word in _MOTIONS
                    or following in PLACES
                    or following in DETERMINERS
                    or following in ADVERBS
                    or following in {"and", "but"}
                ):
                    shorter, _ = self.chunker.noun_phrase(tokens[:k], i)
                    if shorter is not None:
                        return shorter, k
            if (word, "make") in states() and k == after - 1:
                shorter, _ = self.chunker.noun_phrase(tokens[:k], i)
                if shorter is not None:
                    return shorter, k
        return phrase, after

    def _split_kept(self, tokens: list[Token], i: int, after: int, phrase: Phrase) -> tuple[Phrase, int]:
        """ "keep a window clean", "keep a lidar free from mud": cut the phrase before the word of state."""
        for k in range(i + 1, after):
            word = tokens[k].lower
            free = word in {"free", "clear"} and k + 1 < len(tokens) and tokens[k + 1].lower in {"of", "from"}
            following = tokens[k + 1].lower if k + 1 < len(tokens) else ""
            ends = k == after - 1 or not following
            doing = word.endswith("ing") and following in DETERMINERS
            if free or doing or ((word, "keep") in states() and ends):
                shorter, _ = self.chunker.noun_phrase(tokens[:k], i)
                if shorter is not None:
                    return shorter, k
        return phrase, after

    def _cause(self, clause: Clause, verb: str, phrase: Phrase, tokens: list[Token], i: int) -> bool:
        c = self.chunker
        k = i + 1 if i < len(tokens) and tokens[i].lower == "to" else i
        while k < len(tokens) - 1 and tokens[k].lower in {
            "more",
            "so",
            "very",
            "much",
            "that",
            "gets",
            "get",
            "become",
        }:
            k += 1
        if verb == "make":
            words = phrase.text.split()
            for word in words[:-1]:
                row = states().get((word, "make"))
                if row is not None and clause.style != "complaint":  # "make a quiet fan"
                    rest = Phrase(tuple(w for w in words if w != word))
                    self._apply_state(clause, row, rest, tokens, i)
                    return True
            state = match_state(tokens, k, "make")
            if state is not None:
                self._apply_state(clause, state[0], phrase, tokens, state[1])
                return True
        if k < len(tokens) and tokens[k].lower in {"off", "out"} | {"from"} and verb == "get":
            clause.verbs = {**SEPARATE, "extract": 0.5}
            clause.object, clause.where = phrase, self._where(tokens, k)
            return True
        if k < len(tokens) and tokens[k].lower in {"through", "in", "into", "out", "pass"}:
            clause.verbs = {"guide": 0.6, "import": 0.55, "transmit": 0.4, "separate": 0.4}
            clause.object, clause.where = phrase, self._where(tokens, k)
            return True
        if k < len(tokens) and tokens[k].lower in c.verb_bases(tokens[k].lower) and tokens[k].lower not in PLACES:
            lemma = self._lemma(tokens, k)
            if lemma is not None:
                if lemma[0] in {"stay", "remain"}:
                    if match_state(tokens, lemma[1], "keep") or (
                        lemma[1] < len(tokens) and tokens[lemma[1]].lower in {"free", "clear"}
                    ):
                        self._keep(clause, phrase, tokens, lemma[1])
                    else:
                        clause.verbs, clause.object = {"secure": 0.8, "couple": 0.6, "contain": 0.55}, phrase
                        clause.where = self._where(tokens, lemma[1])
                    return True
                self._transitive(clause, lemma[0], phrase, tokens, lemma[1])
                if verb in {"allow", "let", "enable"} and lemma[0] in {
                    "bend",
                    "turn",
                    "rotate",
                    "flex",
                    "slide",
                    "swing",
                    "tilt",
                    "move",
                }:
                    clause.verbs["allow-dof"] = 0.9
                return True
        return False

    def _rid(self, clause: Clause, verb: str, phrase: Phrase, tokens: list[Token], i: int) -> bool:
        if (i < len(tokens) and tokens[i].lower in {"of", "from", "off"}) or (
            i + 1 < len(tokens) and tokens[i].lower == "free"
        ):
            content = tokens[i].lower == "of"
            k = i + 1 if tokens[i].lower != "free" else i + 2
            thing, _ = self.chunker.noun_phrase(tokens, k)
            if thing is None or thing.pronoun:
                return False
            weights, _, _ = self._candidates(verb, thing)
            clause.verbs = {**SEPARATE, **weights}
            if content and verb in {"clean", "wipe", "empty"} and not self._could_be_dirt(thing):
                clause.verbs, _, implied = self._candidates(verb, phrase)
                clause.implied, clause.where = implied or "contaminant", ("from", phrase)
                if verb == "empty":
                    clause.implied, clause.object, clause.where = None, phrase, None
                return True
            if content or tokens[i].lower == "free":
                clause.object, clause.where = thing, ("from", phrase)
            else:
                clause.object, clause.where = phrase, ("from", thing)
            return True
        return False

    def _could_be_dirt(self, phrase: Phrase) -> bool:
        match = self.vocabulary.kind_of(phrase.text)
        general = (
            "foreign-body",
            "particulate",
            "liquid",
            "gas",
            "ice",
            "snow",
            "sediment",
            "salt",
            "mixture",
            "soil",
            "mineral",
            "chemical-species",
        )
        return match is not None and any(self.vocabulary.kinds.is_a(match.kind, kind) for kind in general)

    def _property(self, clause: Clause, tokens: list[Token], i: int, subject: Phrase) -> None:
        """ "must be edible": a property is asked for; which one stands in the note."""
        word = tokens[i].lower if i < len(tokens) else ""
        clause.verbs = {"change": 0.35, "condition": 0.35, "regulate": 0.25}
        clause.object = subject
        clause.sure = False
        clause.notes.append(f"A property is asked for ({word!r}) and no action; the verb is a guess.")

    def _not_to_happen(self, clause: Clause, tokens: list[Token], i: int, subject: Phrase | None) -> None:
        """ "the tank must not crack": the event is to be prevented."""
        self._prevent_event(clause, subject, tokens, i, "prevent")

    def _noun_request(self, clause: Clause, tokens: list[Token], i: int) -> bool:
        """A request told as a noun: "dust removal from panels", "protection against hail"."""
        phrase, after = self.chunker.noun_phrase(tokens, i)
        if phrase is None or phrase.pronoun:
            return False
        head = phrase.words[-1]
        verb = _NOMINAL.get(head)
        if verb is None:
            return False
        rest = Phrase(phrase.words[:-1]) if len(phrase.words) > 1 else None
        places = self._all_places(tokens, after)
        content = next((p for p in places if p[0] == "of"), None)
        if rest is None and content is not None:
            rest = content[1]
            places.remove(content)
        if verb in _PROTECTORS:
            foe = next((p for p in places if p[0] in {"from", "against"}), None)
            clause.verbs, clause.negated = dict(INHIBIT), True
            clause.object, clause.where = (foe[1], ("from", rest) if rest else None) if foe else (rest, None)
            return clause.object is not None
        if verb in _PREVENTERS:
            clause.verbs, clause.negated, clause.object = dict(PREVENT), True, rest
            clause.where = self._choose(places)
            return rest is not None
        weights, role, implied = self._candidates(verb, rest)
        clause.verbs = weights
        if role == "place" and rest is not None:
            clause.implied, clause.where = implied or "contaminant", ("from", rest)
        else:
            clause.object, clause.where = rest, self._choose(places)
        return bool(weights) and (rest is not None or clause.implied is not None)

    # Places ----------------------------------------------------------------------------------------------------

    def _all_places(self, tokens: list[Token], i: int) -> list[tuple[str, Phrase]]:
        end = next(
            (
                k
                for k in range(i, len(tokens))
                if tokens[k].lower in SUBORDINATORS or tokens[k].lower in {"so", "without", ";"}
            ),
            len(tokens),
        )
        return self.chunker.places(tokens, i, end)

    def _where(self, tokens: list[Token], i: int) -> tuple[str, Phrase] | None:
        return self._choose(self._all_places(tokens, i))

    def _choose(self, places: list[tuple[str, Phrase]]) -> tuple[str, Phrase] | None:
        """The place that matters most: the first that is a thing; means ("with", "by") only for want of others."""
        kept = [
            (preposition, phrase)
            for preposition, phrase in places
            if PLACES.get(preposition) and phrase.head not in TIMES and not (preposition == "in" and phrase.head in {"heat", "sun", "frost", "wind"}) and not (phrase.head in AMOUNTS and preposition in {"in", "by"} and "of" not in phrase.words)
        ]  # fmt: skip
        for group in (("from", "off", "out of", "away from"), None, ("with", "by")):
            for preposition, phrase in kept:
                if (group is None and preposition not in {"with", "by"}) or (
                    group is not None and preposition in group
                ):
                    relation = PLACES[preposition]
                    return ("on" if relation == "of" else relation), phrase
        return None

    # Complaints ------------------------------------------------------------------------------------------------

    def _complaint(self, text: str) -> Clause | None:
        """Look for what goes wrong, in the cause before the effect, and read the purpose it implies."""
        best: tuple[float, Clause] | None = None
        whole = tokenise(text)
        pieces: list[tuple[float, list[Token]]] = []
        current: list[Token] = []
        weight = 0.0
        for token in whole:
            if token.lower in {
                "as",
                "because",
                "since",
                "when",
                "whenever",
                "once",
                "if",
                "while",
                "after",
                "where",
                "until",
            } or token.lower in {",", ";"}:
                pieces.append((weight, current))
                current = []
                weight = {"as": 0.5, "because": 0.6, "since": 0.6, "when": 0.1, "whenever": 0.1, "once": 0.2}.get(
                    token.lower, 0.0
                )
            else:
                current.append(token)
        pieces.append((weight, current))
        for bonus, piece in pieces:
            while piece and not piece[-1].lower[0].isalnum():
                piece = piece[:-1]
            clause = self._complaint_clause(piece, text)
            if clause is not None:
                value = bonus + _PATTERN_WEIGHT[clause[0]]
                if best is None or value > best[0]:
                    best = (value, clause[1])
        return best[1] if best is not None else self._unknown_complaint(whole, text)

    def _complaint_clause(self, tokens: list[Token], text: str) -> tuple[str, Clause] | None:
        c = self.chunker
        for i in range(1, len(tokens)):
            if tokens[i - 1].lower in DETERMINERS:
                continue
            if tokens[i].lower in {
                "too",
                "gets",
                "get",
                "is",
                "are",
                "becomes",
                "become",
                "goes",
                "go",
                "runs",
                "run",
                "turns",
                "feels",
                "stays",
            }:
                state = match_state(tokens, i + 1, "complain")
                if state is not None and match_symptom(tokens, i, c) is None:
                    subject = self._subject(tokens, i)
                    clause = Clause(text=text, style="complaint")
                    self._apply_state(clause, state[0], subject, tokens, state[1])
                    return "state", clause
            symptom = match_symptom(tokens, i, c)
            if symptom is None or not self._verb_like(tokens, i):
                continue
            subject = self._subject(tokens, i)
            if subject is None:
                continue
            row, after = symptom
            clause = Clause(text=text, style="complaint", negated=row["negated"] == "yes")
            clause.verbs = self._around(row["verb"])
            if row["verb"] == "separate":
                clause.verbs.setdefault("prevent", 0.6)
            elif row["verb"] == "prevent" and row["pattern"] in {"gather", "affect"}:
                clause.verbs.setdefault("separate", 0.5)
            self._fill(clause, row, subject, tokens, after)
            if (
                clause.where is None
                and row["pattern"] in {"gather", "affect", "harm"}
                and after < len(tokens)
                and tokens[after].lower in {"it", "them"}
            ) or (
                clause.where is None
                and any(
                    t.lower in {"it", "them"} and tokens[k].lower in PLACES
                    for k, t in enumerate(tokens[1:])
                    if k + 1 >= after
                )
            ):
                whole = tokenise(text)
                antecedent = self._phrase_before(whole, len(whole))
                if antecedent is not None and antecedent.text != subject.text:
                    clause.where = (_relation(row["relation"]), antecedent)
            return row["pattern"], clause
        return None

    def _fill(self, clause: Clause, row: dict[str, str], subject: Phrase, tokens: list[Token], i: int) -> None:
        c = self.chunker
        target, after = c.noun_phrase(tokens, i)
        if target is not None and (target.pronoun or target.head in TIMES or target.head in {"shut", "open", "loose"}):
            target = None
        places = self._all_places(tokens, after if target is not None else i)
        agent = next((p for p in places if p[0] in {"with", "by"}), None)
        pattern = row["pattern"]
        where = self._choose([p for p in places if p is not agent])
        if (
            row["object"] == "leak"
            and target is None
            and (source := next((p for p in places if p[0] in {"from", "out of", "through", "off"}), None))
        ):
            clause.object, clause.where = subject, (PLACES[source[0]], source[1])
            return
        if pattern == "gain":
            clause.object = target or (where[1] if where else None)
            clause.where = where if row["words"] == "transmit" and target is not None else ("on", subject)
            return
        if pattern == "fail" and target is None and where is not None and self._could_be_dirt(subject):
            clause.object, clause.where = subject, where
            return
        if pattern == "gather" or pattern == "self":
            clause.object, clause.where = subject, where
            if clause.where is None and target is not None and target.text != subject.text:
                clause.where = (_relation(row["relation"]), target)
        elif pattern == "affect":
            if target is not None:
                clause.object, clause.where = subject, (_relation(row["relation"]), target)
            elif agent is not None:
                clause.object, clause.where = agent[1], (_relation(row["relation"]), subject)
            else:
                clause.implied, clause.where = row["object"] or "contaminant", (_relation(row["relation"]), subject)
        elif pattern == "harm" or target is not None:
            clause.object = subject
            clause.where = ("from", target) if target is not None else where
            if agent is not None and clause.where is None:
                clause.where = ("from", agent[1])
            if pattern != "harm":
                clause.verbs, clause.negated = dict(INHIBIT), True
        else:
            clause.implied = row["object"]
            if agent is not None and row["object"] in {"leak", "crack", "rupture", "noise"}:
                clause.others.append(("with", agent[1]))
            clause.where = (_relation(row["relation"]), subject)

    def _verb_like(self, tokens: list[Token], i: int) -> bool:
        """Whether a word that may be noun or verb stands as the verb of its clause."""
        previous = tokens[i - 1].lower
        if previous in AUXILIARIES or previous in ADVERBS or previous in MODALS or previous in NEGATIONS:
            return True
        return self.chunker.is_noun(previous)

    def _subject(self, tokens: list[Token], i: int) -> Phrase | None:
        """The noun phrase that ends right before the verb at i, auxiliaries and adverbs between allowed."""
        end = i
        while end > 0 and (
            tokens[end - 1].lower in AUXILIARIES | ADVERBS | MODALS | NEGATIONS or not tokens[end - 1].is_word
        ):
            end -= 1
        start = end
        while (
            start > 0
            and tokens[start - 1].is_word
            and tokens[start - 1].lower not in SUBORDINATORS | MODALS | AUXILIARIES
        ):
            if tokens[start - 1].lower in PLACES and tokens[start - 1].lower not in {"of"}:
                # "chips of the mill", "oxygen in the tank": the phrase before the place is the subject
                start -= 1
                continue
            start -= 1
            if tokens[start].lower in DETERMINERS and (start == 0 or tokens[start - 1].lower not in PLACES):
                break
        phrase, _ = self.chunker.noun_phrase(tokens[:end], start)
        if phrase is None:
            return None
        for k in range(len(phrase.words) - 1):
            if phrase.words[k] in {"make", "makes"}:
                return Phrase(phrase.words[k + 1 :])
        return phrase if not phrase.pronoun else None

    def _unknown_complaint(self, tokens: list[Token], text: str) -> Clause | None:
        """No verb of complaint was found: take the sentence for an event that should not happen."""
        c = self.chunker
        noun = Clause(text=text, style="complaint")
        if self._noun_request(noun, tokens, 0):
            noun.style = "imperative"
            return noun
        for i in range(1, len(tokens)):
            lemma = (
                self._lemma(tokens, i)
                if tokens[i].is_word
                and tokens[i].lower not in AUXILIARIES | MODALS | DETERMINERS | set(PLACES) | SUBORDINATORS | PRONOUNS
                else None
            )
            if (
                lemma is None
                or not c.is_noun(tokens[i - 1].lower)
                or (c.is_noun(tokens[i].lower) and not tokens[i].lower.endswith("s"))
            ):
                continue
            subject = self._subject(tokens, i)
            if subject is None:
                continue
            target, after = c.noun_phrase(tokens, lemma[1])
            clause = Clause(text=text, style="complaint", sure=False)
            if lemma[0] in {"lose", "waste", "lack", "need", "miss", "want"} and target is not None:
                clause.verbs = {"inhibit": 0.5, "supply": 0.45, "contain": 0.4, "prevent": 0.4}
                clause.object, clause.where = target, ("from", subject)
            else:
                clause.verbs, clause.negated = {"prevent": 0.5, "inhibit": 0.5}, True
                clause.object = subject
                clause.where = (
                    ("on", target) if target is not None and not target.pronoun else self._where(tokens, after)
                )
            clause.notes.append(
                f"Read as a complaint about {subject.text!r}; say what is to be achieved if that is wrong."
            )
            return clause
        return None


_PATTERN_WEIGHT = {"gather": 1.0, "gain": 0.85, "affect": 0.9, "harm": 0.75, "fail": 0.7, "self": 0.65, "state": 0.6}
_MOTIONS = word_class("motions")
_BAD_EVENTS = word_class("bad events")
_NOMINAL = {
    "removal": "remove", "cleaning": "clean", "cooling": "cool", "heating": "heat", "protection": "protect", "prevention": "prevent",
    "separation": "separate", "filtration": "filter", "collection": "collect", "harvesting": "harvest", "storage": "store",
    "transport": "transport", "detection": "detect", "sensing": "sense", "reduction": "reduce", "mixing": "mix", "adhesion": "stick",
    "attachment": "attach", "drying": "dry", "damping": "damp", "insulation": "insulate", "ventilation": "ventilate", "locomotion": "move",
    "measurement": "measure", "conversion": "convert", "distribution": "distribute", "regulation": "regulate", "control": "control",
    "absorption": "absorb", "extraction": "extract", "shielding": "shield", "camouflage": "camouflage", "lubrication": "lubricate",
}  # fmt: skip
_PHRASAL = word_class("phrasal")


def _relation(text: str) -> str:
    return "on" if text in {"of", ""} else text
