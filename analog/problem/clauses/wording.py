"""The words of one clause, with what tells what each of them can be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from analog.problem.chunk import Chunker, Phrase, Token, tokenise

if TYPE_CHECKING:
    from analog.vocabulary import Vocabulary


@dataclass(frozen=True)
class Wording:
    """What every rule reads from: the tokens of a clause, and the chunker with its vocabulary to look them up by."""

    tokens: list[Token]
    chunker: Chunker

    @classmethod
    def of(cls, text: str, chunker: Chunker) -> Wording:
        """The wording of a text, whole."""
        return cls(tokenise(text), chunker)

    @property
    def vocabulary(self) -> Vocabulary:
        """The vocabulary of the chunker."""
        return self.chunker.vocabulary

    def __len__(self) -> int:
        """How many tokens there are."""
        return len(self.tokens)

    def lower(self, i: int) -> str:
        """The token at i in small letters; "" before the first and after the last."""
        return self.tokens[i].lower if 0 <= i < len(self.tokens) else ""

    def ending_at(self, end: int) -> Wording:
        """The tokens before `end` alone."""
        return Wording(self.tokens[:end], self.chunker)

    def without_closing_signs(self) -> Wording:
        """The tokens up to the last word or number."""
        end = len(self.tokens)
        while end and not self.tokens[end - 1].lower[0].isalnum():
            end -= 1
        return self.ending_at(end)

    def noun_phrase(self, i: int, *, verb_may_follow: bool = False) -> tuple[Phrase | None, int]:
        """The noun phrase that starts at i, and the index after it; (None, i) if there is none."""
        return self.chunker.noun_phrase(self.tokens, i, verb_may_follow=verb_may_follow)

    def named(self, i: int) -> Phrase | None:
        """The noun phrase that starts at i if it names something: no pronoun."""
        phrase, _ = self.noun_phrase(i)
        return phrase if phrase is not None and not phrase.pronoun else None

    def begins_compound(self, i: int) -> bool:
        """Whether the -ing word at i begins or is a noun phrase ("leading edge", "the coating")."""
        return self.chunker.begins_compound(self.tokens, i)

    def bases(self, i: int) -> tuple[str, ...]:
        """Base forms of the token at i if it can be a verb; none beyond the ends."""
        word = self.lower(i)
        return self.chunker.verb_bases(word) if word else ()

    def is_base(self, i: int) -> bool:
        """Whether the token at i is a verb in its base form."""
        return self.lower(i) in self.bases(i)

    def is_verb(self, i: int) -> bool:
        """Whether the token at i, in any form, can be a verb."""
        return self.chunker.is_verb(self.lower(i))

    def is_noun(self, i: int) -> bool:
        """Whether the token at i can be a noun."""
        return self.chunker.is_noun(self.lower(i))

    def is_adjective(self, i: int) -> bool:
        """Whether the token at i can be an adjective."""
        return "a" in self.chunker.parts(self.lower(i))
