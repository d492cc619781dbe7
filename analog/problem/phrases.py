"""A memory of labelled phrasings: a new sentence is likely to mean what its nearest neighbours mean.

k nearest neighbours in the embedding space of the sentence encoder (Cover & Hart 1967, IEEE Trans. Inf. Theory 13,
21-27; votes weighted by likeness after Dudani 1976). The encoder is handed in: this room does not know it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from analog.problem.tables import table

if TYPE_CHECKING:
    import numpy as np

Encode = Callable[[Sequence[str]], "np.ndarray"]

NEIGHBOURS = 15
SHARPNESS = 2.0
ACCEPTED_SHARE = 0.5
"""Neighbours asked and the power to which likeness is raised as a vote: chosen by cross-validation on the development
phrasings (python -m analog.bench.reading --choose), in the middle of a flat best region. What an accepted alternative
of a neighbour's label is worth was set by hand."""


@dataclass(frozen=True)
class Label:
    """What a phrasing means. verbs : the accepted functions, the preferred one first. negated : None where both do."""

    text: str
    verbs: tuple[str, ...]
    flow: str
    object: tuple[str, ...]
    where: str
    negated: bool | None
    style: str
    industry: str


def labelled(split: str) -> tuple[Label, ...]:
    """The phrasings of a split, "development" or "report", from data/phrases-<split>.tsv."""
    return tuple(label_of(row) for row in table(f"phrases-{split}"))


def label_of(row: Mapping[str, str]) -> Label:
    """A row of the table as a record."""
    return Label(
        text=row["text"],
        verbs=tuple(row["verb"].split("/")),
        flow=row["flow"],
        object=tuple(row["object"].split("/")),
        where=row["where"],
        negated={"yes": True, "no": False}.get(row["negated"]),
        style=row["style"],
        industry=row["industry"],
    )


@dataclass(frozen=True)
class PhraseMemory:
    """texts, labels : (n,). vectors : (n, d) float, rows of length 1. encode : texts → (m, d), rows of length 1."""

    texts: Sequence[str]
    labels: Sequence[Label]
    vectors: np.ndarray
    encode: Encode

    def votes(self, text: str, neighbours: int = NEIGHBOURS, sharpness: float = SHARPNESS) -> dict[str, float]:
        """Function → share of the votes, scaled so that the best keeps its neighbour's likeness, 0..1.

        A neighbour votes with likeness**sharpness for its preferred function and less for its accepted ones.
        """
        query = self.encode([text])[0]
        return self.votes_of(self.vectors @ query, neighbours, sharpness)

    def votes_of(
        self, likeness: np.ndarray, neighbours: int = NEIGHBOURS, sharpness: float = SHARPNESS
    ) -> dict[str, float]:
        """The same from the likeness (n,) of the query to every phrasing."""
        order = likeness.argsort(kind="stable")[::-1][:neighbours]
        votes: dict[str, float] = {}
        for index in order:
            weight = max(float(likeness[index]), 0.0) ** sharpness
            for rank, verb in enumerate(self.labels[index].verbs):
                votes[verb] = votes.get(verb, 0.0) + weight * (1.0 if rank == 0 else ACCEPTED_SHARE)
        if not votes:
            return {}
        scale = min(1.0, max(float(likeness[order[0]]), 0.0)) / (max(votes.values()) or 1.0)
        return {verb: vote * scale for verb, vote in sorted(votes.items(), key=lambda entry: (-entry[1], entry[0]))}
