"""One run of the comparison: this search and its peers on one split of the problems."""

from __future__ import annotations

import time
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from analog.bench.metrics import MEASURES, Rankings, look_alike_rate, measure, paired_difference
from analog.bench.peers import peer_rankings
from analog.bench.problems import GradedProblem, unknown_models
from analog.errors import InputError
from analog.problem.types import Problem
from analog.search import CANDIDATES, Searcher

Floats = npt.NDArray[np.float64]

OURS = "analog"
LOOK_ALIKES = "look-alikes below"

GROUPS: Mapping[str, Callable[[GradedProblem], bool]] = {
    "all": lambda problem: True,
    "near": lambda problem: problem.wording == "near",
    "far": lambda problem: problem.wording == "far",
    "conditions": lambda problem: bool(problem.given),
    "complaints": lambda problem: problem.style == "complaint",
}
"""Parts of a split that are reported on their own. Problems that nothing covers are left out of all of them."""


@dataclass(frozen=True)
class Row:
    """One search on one group: mean of each measure, and the share of look-alikes kept below."""

    system: str
    group: str
    problems: int
    means: Mapping[str, float]


@dataclass(frozen=True)
class Difference:
    """This search minus the best peer on one group, in nDCG@10, with the 95 % interval over problems."""

    group: str
    peer: str
    mean: float
    low: float
    high: float


@dataclass(frozen=True)
class BenchResult:
    """All of one run.

    judged : how many of the models of the index were in view when the problems were graded; only they are ranked.
    best_scores : "covered" and "not covered" -> (problems,) score of the first result. median_ms : of a search, reading
    not counted. unread : problem -> why it could not be read; such a problem counts with an empty ranking.
    not_understood : problem -> given conditions that were kept as notes and decide nothing.
    """

    split: str
    models: int
    judged: int
    problems: int
    rows: tuple[Row, ...]
    differences: tuple[Difference, ...]
    best_scores: Mapping[str, Floats]
    median_ms: float
    seconds: float
    unread: Mapping[str, str] = field(default_factory=dict)
    not_understood: Mapping[str, Sequence[str]] = field(default_factory=dict)
    missing: Mapping[str, Sequence[str]] = field(default_factory=dict)

    def to_dict(self) -> dict[str, object]:
        """For `--json`; a measure that no problem of a group allows is null."""
        return {
            "split": self.split,
            "models": self.models,
            "judged_models": self.judged,
            "problems": self.problems,
            "rows": [
                {
                    "system": row.system,
                    "group": row.group,
                    "problems": row.problems,
                    **{name: None if np.isnan(value) else round(value, 4) for name, value in row.means.items()},
                }
                for row in self.rows
            ],
            "differences": [
                {
                    "group": d.group,
                    "peer": d.peer,
                    "mean": round(d.mean, 4),
                    "low": round(d.low, 4),
                    "high": round(d.high, 4),
                }
                for d in self.differences
            ],
            "best_scores": {name: [round(float(s), 4) for s in values] for name, values in self.best_scores.items()},
            "median_ms": round(self.median_ms, 1),
            "seconds": round(self.seconds, 1),
            "unread": dict(self.unread),
            "not_understood": {problem: list(given) for problem, given in self.not_understood.items()},
            "missing_models": {model: list(ids) for model, ids in self.missing.items()},
        }


def read_graded(searcher: Searcher, problem: GradedProblem) -> Problem:
    """A graded problem as the search reads it. Raises InputError where it cannot be read."""
    from analog.problem.read import read_problem

    return read_problem(problem.text, problem.given, searcher.vocabulary, searcher.phrases)


def rankings_of(searcher: Searcher, problems: Sequence[GradedProblem]) -> dict[str, list[str]]:
    """Problem id -> the models this search finds, best first; empty where the problem cannot be read."""
    rankings: dict[str, list[str]] = {}
    for problem in problems:
        try:
            found = searcher.search(read_graded(searcher, problem), top=CANDIDATES)
        except InputError:
            rankings[problem.id] = []
        else:
            rankings[problem.id] = [result.model.id for result in found.results]
    return rankings


def run_bench(
    searcher: Searcher,
    problems: Sequence[GradedProblem],
    split: str,
    judged: Collection[str],
    tell: Callable[[int, int], None] = lambda done, total: None,
) -> BenchResult:
    """Search all problems with this search and its peers, and measure.

    judged : ids of the models whose grades the problems bear; only they stay in the lists.
    """
    started = time.perf_counter()
    ours: dict[str, list[str]] = {}
    tops: dict[str, list[float]] = {"covered": [], "not covered": []}
    elapsed: list[float] = []
    unread: dict[str, str] = {}
    not_understood: dict[str, list[str]] = {}
    for done, problem in enumerate(problems, start=1):
        try:
            as_read = read_graded(searcher, problem)
            found = searcher.search(as_read, top=CANDIDATES)
        except InputError as fault:
            unread[problem.id], ours[problem.id] = str(fault), []
        else:
            ours[problem.id] = [result.model.id for result in found.results]
            elapsed.append(found.elapsed_ms)
            notes = [condition.text for condition in as_read.conditions if condition.type == "note"]
            if notes:
                not_understood[problem.id] = notes
            tops["covered" if problem.covered else "not covered"].extend(r.score for r in found.results[:1])
        tell(done, len(problems))
    systems: dict[str, Rankings] = {OURS: ours, **peer_rankings(searcher.index, problems)}
    rows, differences = compare({name: only(judged, rankings) for name, rankings in systems.items()}, problems)
    return BenchResult(
        split=split,
        models=len(searcher.index.ids),
        judged=len(frozenset(judged).intersection(searcher.index.ids)),
        problems=len(problems),
        rows=rows,
        differences=differences,
        best_scores={name: np.array(values) for name, values in tops.items()},
        median_ms=float(np.median(elapsed)) if elapsed else float("nan"),
        seconds=time.perf_counter() - started,
        unread=unread,
        not_understood=not_understood,
        missing=unknown_models(problems, frozenset(searcher.index.ids)),
    )


def only(judged: Collection[str], rankings: Rankings) -> dict[str, list[str]]:
    """Rankings without the models that nobody graded, the others moving up.

    Source: Sakai (2007), Alternatives to bpref, SIGIR, 71-78 (condensed lists).
    """
    return {problem: [model for model in ranking if model in judged] for problem, ranking in rankings.items()}


def compare(
    systems: Mapping[str, Rankings], problems: Sequence[GradedProblem]
) -> tuple[tuple[Row, ...], tuple[Difference, ...]]:
    """Rows of every system and group, and the difference of the first system to the best of the others.

    The best peer is the one with the highest mean nDCG@10 on the very group: chosen with hindsight, against us.
    """
    covered = [problem for problem in problems if problem.covered]
    values = {name: measure(covered, rankings) for name, rankings in systems.items()}
    first, *others = systems
    rows, differences = [], []
    for group, belongs in GROUPS.items():
        chosen = np.array([belongs(problem) for problem in covered], dtype=bool)
        members = [problem for problem in covered if belongs(problem)]
        if not members:
            continue
        for name in systems:
            means = {measure_name: _mean(values[name][measure_name][chosen]) for measure_name in MEASURES}
            means[LOOK_ALIKES] = look_alike_rate(members, systems[name])
            rows.append(Row(name, group, len(members), means))
        if others:
            best = max(others, key=lambda name: float(np.mean(values[name]["nDCG@10"][chosen])))
            pair = paired_difference(values[first]["nDCG@10"][chosen], values[best]["nDCG@10"][chosen])
            differences.append(Difference(group, best, *pair))
    return tuple(rows), tuple(differences)


def _mean(values: Floats) -> float:
    """Mean over the problems that allow the measure; NaN if none does."""
    known = values[~np.isnan(values)]
    return float(known.mean()) if known.size else float("nan")
