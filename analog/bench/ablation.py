"""What each kind of evidence brings, added one after the other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from analog.bench.metrics import Rankings, look_alike_rate, measure
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
    "+ conditions": (),
}
"""Stage -> likeness terms it adds; the last two let disagreeing functions and broken conditions lower the score."""


@dataclass(frozen=True)
class Stage:
    """nDCG@10 by group and the share of look-alikes kept below, with the evidence up to this stage."""

    name: str
    ndcg: Mapping[str, float]
    look_alikes: float


def ablation(table: TermTable, weights: FusionWeights) -> tuple[Stage, ...]:
    """The stages, each with the given weights of its terms (they are not fitted again at each stage)."""
    covered = [problem for problem in table.problems if problem.covered]
    stages, terms = [], set[str]()
    for name, added in STAGES.items():
        terms |= set(added)
        kept = {term: weight for term, weight in weights.terms.items() if term in terms}
        # a stage whose terms all weigh nothing would have no score; equal weights then show what they can do
        if sum(kept.values()) <= 0:
            kept = dict.fromkeys(terms & set(table.terms), 1.0)
        function = weights.function_reach if name in {"+ function", "+ conditions"} else 0.0
        reach = weights.conditions_reach if name == "+ conditions" else 0.0
        rankings: Rankings = table.rankings(FusionWeights(kept, reach, function))
        values = measure(covered, rankings)["nDCG@10"]
        by_group = {
            group: float(values[chosen].mean()) if chosen.any() else float("nan")
            for group, belongs in GROUPS.items()
            for chosen in [np.array([belongs(problem) for problem in covered], dtype=bool)]
        }
        stages.append(Stage(name, by_group, look_alike_rate(covered, rankings)))
    return tuple(stages)
