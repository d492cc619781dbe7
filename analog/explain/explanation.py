"""The explanation of one result: a record with everything a ranking claims; views are made from it elsewhere."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from analog.explain.correspondence import CarryOver, Correspondence
from analog.explain.likeness import Likeness
from analog.explain.verdict import TransitionVerdict
from analog.model.types import Model
from analog.rank.calibration import chance

__all__ = ["CarryOver", "Correspondence", "Explanation", "principles_of"]


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
    likeness: Likeness

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
            "likeness": self.likeness.to_dict(),
            "cautions": list(self.cautions),
            "covers": list(self.covers),
        }


def principles_of(model: Model) -> frozenset[str]:
    """The principles a model rests on."""
    return frozenset(r.principle for t in model.transitions for r in t.reasons if r.type == "principle")
