"""A finding of the checker: what is wrong, where, what was expected, and how to mend it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, field
from difflib import get_close_matches
from typing import Literal

Severity = Literal["error", "advice"]


@dataclass(frozen=True)
class Finding:
    """One fault (`error`: the model is not used) or one weakness (`advice`) of a file."""

    severity: Severity
    rule: str
    file: str
    line: int | None
    field: str
    found: str
    expected: str
    mend: str

    def to_dict(self) -> dict[str, str | int | None]:
        """As plain data for JSON."""
        return asdict(self)

    def __str__(self) -> str:
        place = self.file + (f":{self.line}" if self.line else "")
        where = f" `{self.field}`" if self.field else ""
        return (
            f"{place}: {self.severity}: {self.rule}:{where} found {self.found}; expected {self.expected}. {self.mend}"
        )


@dataclass(frozen=True)
class KnownTerms:
    """What the vocabularies allow, handed to the checker so that it needs no vocabulary of its own.

    An empty set switches the rule off (a checker without vocabularies still checks the structure).
    symbols : principle -> symbol or group -> its unit.
    kind_similarity : two kinds -> 0..1; used to see whether the roles of a sub-purpose are the same kind of thing.
    """

    verbs: frozenset[str] = frozenset()
    flows: frozenset[str] = frozenset()
    kinds: frozenset[str] = frozenset()
    relations: frozenset[str] = frozenset()
    principles: frozenset[str] = frozenset()
    kind_similarity: Callable[[str, str], float] | None = None
    symbols: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    synonyms: Mapping[str, str] = field(default_factory=dict)

    def near(self, name: str, terms: frozenset[str]) -> list[str]:
        """Allowed terms that look like `name`, best first."""
        known = self.synonyms.get(name)
        return ([known] if known in terms and known is not None else []) + get_close_matches(
            name, sorted(terms), n=3, cutoff=0.6
        )
