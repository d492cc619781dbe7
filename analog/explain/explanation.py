"""The explanation of one result: a record with everything a ranking claims; views are made from it elsewhere."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from analog.explain.verdict import TransitionVerdict
from analog.model.types import Model
from analog.rank.calibration import chance
from analog.vocabulary.kinds import Step


@dataclass(frozen=True)
class Correspondence:
    """A part of the model in the role of a thing of the problem.

    kind : the general kind under which they meet, or "" where only their roles agree. role : "object", "place" or "".
    """

    part: str
    part_name: str
    thing: str
    thing_name: str
    kind: str
    similarity: float
    role: str
    path: tuple[Step, ...]

    def to_dict(self) -> dict[str, object]:
        """As the command line prints it."""
        return {
            "model": self.part,
            "model_name": self.part_name,
            "problem": self.thing,
            "problem_name": self.thing_name,
            "kind": self.kind,
            "similarity": round(self.similarity, 4),
            "role": self.role,
            "path": [step.to_dict() for step in self.path],
        }


@dataclass(frozen=True)
class CarryOver:
    """A part the model works with and the problem lacks: what would have to be added, and the relations it is in."""

    part: str
    name: str
    kind: str
    relations: tuple[str, ...]

    def to_dict(self) -> dict[str, object]:
        """As the command line prints it."""
        return {"part": self.part, "name": self.name, "kind": self.kind, "relations": list(self.relations)}


@dataclass(frozen=True)
class Explanation:
    """One ranked analogue, explained. covers : texts of the problem's purposes that it serves."""

    rank: int
    model: Model
    score: float
    scores: Mapping[str, float]
    purpose: str
    correspondences: tuple[Correspondence, ...]
    matched_facts: tuple[tuple[str, str], ...]
    transitions: tuple[TransitionVerdict, ...]
    carry_overs: tuple[CarryOver, ...]
    cautions: tuple[str, ...]
    covers: tuple[str, ...]
    alignment_optimal: bool

    def to_dict(self) -> dict[str, object]:
        """The result object of the command contract."""
        organism = self.model.organism
        return {
            "rank": self.rank,
            "id": self.model.id,
            "title": self.model.title,
            "organism": {"common": organism.common, "latin": organism.latin},
            "score": round(self.score, 4),
            "chance": round(chance(self.score), 3),
            "scores": {name: round(value, 4) for name, value in self.scores.items()},
            "purpose": self.purpose,
            "correspondences": [c.to_dict() for c in self.correspondences],
            "matched_facts": [{"problem": mine, "model": theirs} for mine, theirs in self.matched_facts],
            "transitions": [t.to_dict() for t in self.transitions],
            "carry_overs": [c.to_dict() for c in self.carry_overs],
            "cautions": list(self.cautions),
            "covers": list(self.covers),
        }


def principles_of(model: Model) -> frozenset[str]:
    """The principles a model rests on."""
    return frozenset(r.principle for t in model.transitions for r in t.reasons if r.type == "principle")
