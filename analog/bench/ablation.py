"""What each kind of evidence brings, added one after the other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from analog.bench.metrics import Rankings, look_alike_rate, measure, paired_difference
from analog.bench.run import GROUPS
from analog.bench.values import TermTable
from analog.rank.fuse import FusionWeights

STAGES: Mapping[str, tuple[str, ...]] = {
    "text": ("summary", "words"),
    "+ facets": ("purposes", "principles", "parts"),
    "+ vocabulary": ("verb", "flow"),
    "+ questions": ("questions",),
    "+ expected questions": ("expected",),
    "+ structure": ("structure",),
    "+ function": (),
    "+ direction": (),
    "+ conditions": (),
}
"""Stage -> likeness terms it adds; in the last three disagreeing functions, changes made the other way round and broken
conditions lower the score."""

Interval = tuple[float, float, float]


@dataclass(frozen=True)
class Stage:
    """nDCG@10 by group and the share of look-alikes kept below, with the evidence up to this stage.

    brings, above_text : group -> mean difference to the stage before and to the first one, with the ends of its 95 %
    interval (paired bootstrap over problems).
    """

    name: str
    ndcg: Mapping[str, float]
    look_alikes: float
    brings: Mapping[str, Interval]
    above_text: Mapping[str, Interval]


def ablation(table: TermTable, weights: FusionWeights) -> tuple[Stage, ...]:
    """The stages, each with the given weights of its terms (they are not fitted again at each stage)."""
    covered = [problem for problem in table.problems if problem.covered]
    members = {group: np.array([belongs(p) for p in covered], dtype=bool) for group, belongs in GROUPS.items()}
    members = {group: chosen for group, chosen in members.items() if chosen.any()}
    stages: list[Stage] = []
    terms = set[str]()
    first = before = np.zeros(0)
    for name, added in STAGES.items():
        terms |= set(added)
        rankings: Rankings = table.rankings(_up_to(name, terms, table, weights))
        values = measure(covered, rankings)["nDCG@10"]
        if not stages:
            first = before = values
        stages.append(
            Stage(
                name,
                {group: float(values[chosen].mean()) for group, chosen in members.items()},
                look_alike_rate(covered, rankings),
                {group: paired_difference(values[chosen], before[chosen]) for group, chosen in members.items()},
                {group: paired_difference(values[chosen], first[chosen]) for group, chosen in members.items()},
            )
        )
        before = values
    return tuple(stages)


def _up_to(name: str, terms: set[str], table: TermTable, weights: FusionWeights) -> FusionWeights:
    """The weights with only the evidence up to a stage."""
    kept = {term: weight for term, weight in weights.terms.items() if term in terms}
    # a stage whose terms all weigh nothing would have no score; equal weights then show what they can do
    if sum(kept.values()) <= 0:
        kept = dict.fromkeys(terms & set(table.terms), 1.0)
    reached = list(STAGES).index(name)
    reaches = {
        "function_reach": ("+ function", weights.function_reach),
        "direction_reach": ("+ direction", weights.direction_reach),
        "conditions_reach": ("+ conditions", weights.conditions_reach),
    }
    counting = {
        field: reach if list(STAGES).index(stage) <= reached else 0.0 for field, (stage, reach) in reaches.items()
    }
    return FusionWeights(kept, **counting)
