"""What a match is worth: the weights of one matched expression, and nothing else.

Systematicity (Gentner 1983): a relation of relations is worth more than a relation, and what hangs under a matched
relation of relations counts for more than what stands alone. Whatever an argument adds is paid with the expression it
stands in, which can only be matched when its arguments are; so the whole objective stays a plain sum over pairs, and
things that no matched relation speaks of are worth nothing.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Weights:
    """Worth of one matched pair before it is multiplied with how well the names pair (all without unit).

    attribute : likeness of one thing; kept far below a relation, since attributes must not drive a match.
    relation : a relation between things.
    deeper : factor for each order above the first.
    support : added to a relation for every argument that is itself a relation (it is explained by its parent).
    function, entity : added to an expression for every argument of that role, times how well the two names pair;
        an entity only breaks ties between things that relations treat alike.
    promise : added to a relation that stands under a relation of relations on one side, though not on the other:
        matching it lets the cause be inferred, so of two equal matches the one with more to tell is kept.
    """

    attribute: float = 0.1
    relation: float = 1.0
    deeper: float = 1.5
    support: float = 0.8
    function: float = 0.1
    entity: float = 0.02
    promise: float = 0.2


SYSTEMATIC = Weights()
"""The default: connected systems of relations decide."""

SURFACE = Weights(attribute=1.0, relation=0.3, deeper=0.0, support=0.0, function=0.1, entity=0.3, promise=0.0)
"""Likeness of things and of single relations; used to label what is alike on the surface only."""
