"""Facts: `relation(subject, object or value)`, written as one short line of text.

adheres-to(dirt, leaf)          two parts
temperature(leaf, 300 K)        a part and a quantity
phase(water, "liquid")          a part and a word
open(pore)                      a part alone
not touches(dirt, leaf)         the fact does not hold
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_NAME = r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*"
_FACT = re.compile(rf"\s*(?P<negation>not\s+)?(?P<relation>{_NAME})\s*\(\s*(?P<arguments>[^()]*)\s*\)\s*")
_PART = re.compile(_NAME)
_WORD = re.compile(r'"([^"]{1,80})"')
_NUMBER = re.compile(r"([-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?)\s*(\S[^,]{0,30})?")
_SPLIT = re.compile(r',(?=(?:[^"]*"[^"]*")*[^"]*$)')


@dataclass(frozen=True)
class Argument:
    """One argument of a fact: a part, a word, or a number with a unit."""

    text: str
    is_part: bool
    number: float | None = None
    unit: str = ""


@dataclass(frozen=True)
class Fact:
    """relation(arguments), which holds or, if `negated`, does not."""

    relation: str
    arguments: tuple[Argument, ...]
    negated: bool = False

    @property
    def parts(self) -> tuple[str, ...]:
        """The parts named, in order."""
        return tuple(argument.text for argument in self.arguments if argument.is_part)

    def __str__(self) -> str:
        inner = ", ".join(a.text if a.is_part or a.number is not None else f'"{a.text}"' for a in self.arguments)
        return f"{'not ' if self.negated else ''}{self.relation}({inner})"


def parse_fact(text: str) -> Fact:
    """Read one fact.

    Raises ValueError, saying what was expected, if the text is not a fact of one to three arguments.
    """
    match = _FACT.fullmatch(text)
    if match is None:
        raise ValueError(f"expected `relation(subject, object or value)`, got {text[:80]!r}")
    pieces = [piece.strip() for piece in _SPLIT.split(match["arguments"])]
    if not 1 <= len(pieces) <= 3:
        raise ValueError(f"expected one to three arguments, got {len(pieces)} in {text[:80]!r}")
    arguments = tuple(_argument(piece, text) for piece in pieces)
    if not arguments[0].is_part:
        raise ValueError(f"expected a part as the first argument, got {pieces[0]!r} in {text[:80]!r}")
    return Fact(match["relation"], arguments, match["negation"] is not None)


def _argument(piece: str, whole: str) -> Argument:
    if _PART.fullmatch(piece):
        return Argument(piece, is_part=True)
    if word := _WORD.fullmatch(piece):
        return Argument(word[1], is_part=False)
    if number := _NUMBER.fullmatch(piece):
        return Argument(piece, is_part=False, number=float(number[1]), unit=(number[2] or "").strip())
    raise ValueError(
        'expected a part (lower case, hyphens), a "word" in quotes or a number with a unit, '
        f"got {piece!r} in {whole[:80]!r}"
    )
