"""Deep likeness or surface likeness: the same relations at work, or only the same things.

People are reminded by things and convinced by relations (Gentner, Rattermann & Forbus 1993, Cognitive Psychology 25,
524-575). A model that has the things of the problem and does something else to them, or the very reverse, is a surface
likeness: it is told as such, and it ranks behind. Without signs of either kind nothing is said.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from analog.explain.correspondence import Correspondence

THINGS_ALIKE = 0.5
"""From this likeness of kinds on, a thing of the problem counts as met (docs/bench.md)."""
FUNCTIONS_UNLIKE = 0.45
"""Functions at most this alike, by a reading at least so sure, are other functions."""
SURE = 0.8


@dataclass(frozen=True)
class Likeness:
    """How a model is like a problem.

    things : 0..1, how well the kinds of what is acted on, or of where, meet; the better of the two.
    relations : 0..1, share of the problem that the alignment matches by roles, facts and changes as well as kinds.
    surface : why it is a surface likeness, in a sentence; "" where it is not known to be one.
    """

    things: float
    relations: float
    surface: str

    def to_dict(self) -> dict[str, object]:
        """As the command line prints it."""
        return {
            "things": round(self.things, 4),
            "relations": round(self.relations, 4),
            "surface": bool(self.surface),
            "reason": self.surface,
        }


def likeness(
    correspondences: Sequence[Correspondence], *, share: float, turned: int, functions: float, confidence: float
) -> Likeness:
    """Judge one result.

    share : of the problem that the alignment matches. turned : changes the model makes the other way round.
    functions : likeness of the functions. confidence : of the reading of the problem's function.
    """
    met = [each for each in correspondences if each.role and each.similarity >= THINGS_ALIKE]
    things = max((each.similarity for each in correspondences if each.role), default=0.0)
    surface = ""
    if met:
        names = " and ".join(f"{each.thing_name} (here {each.part_name})" for each in met)
        if turned:
            surface = f"It has the same things, {names}, but makes the change the other way round."
        elif functions <= FUNCTIONS_UNLIKE and confidence >= SURE:
            surface = f"It has the same things, {names}, but does something else with them."
    return Likeness(things, share, surface)
