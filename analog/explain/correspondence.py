"""What plays the role of what: the records of one pairing and of what is left over."""

from __future__ import annotations

from dataclasses import dataclass

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
