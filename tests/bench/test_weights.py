"""Choosing weights on tables whose best weights are known."""

from dataclasses import replace

import numpy as np
import pytest

from analog.bench.metrics import measure
from analog.bench.problems import GradedProblem
from analog.bench.values import TermTable
from analog.bench.weights import choose, fit, folds_of, validated
from analog.rank.fuse import FusionWeights

EVEN = FusionWeights({"clue": 0.5, "noise": 0.5}, 0.0)


def table_of(count: int = 40, models: int = 30, broken: bool = False) -> TermTable:
    """`clue` is high for the one right model of each problem, `noise` is random; `broken` hides a rival by conditions.

    The rival has the same clue as the right model and a mechanism that cannot run.
    """
    rng = np.random.default_rng(7)
    likeness = rng.random((count, models, 2))
    likeness[:, :, 0] = 0.5 * rng.random((count, models))
    right = rng.integers(0, models - 1, size=count)
    conditions, whole = np.ones((count, models)), np.ones((count, models))
    grades = np.zeros((count, models))
    for row, column in enumerate(right):
        likeness[row, column, 0] = 0.9
        grades[row, column] = 3
        if broken:
            likeness[row, column + 1, 0] = 0.95
            conditions[row, column + 1] = 0.2
    names = tuple(f"m{i:02d}" for i in range(models))
    problems = tuple(
        GradedProblem(f"p{row}", "text", (), "near", "imperative", "trade", {names[column]: 3}, (), True)
        for row, column in enumerate(right)
    )
    return TermTable(problems, names, ("clue", "noise"), likeness, conditions, whole, whole, grades)


def test_scores_and_order_are_those_of_the_search() -> None:
    """The table gives what the fusion gives for each pair, one by one."""
    table, weights = table_of(5, 6, broken=True), FusionWeights({"clue": 3.0, "noise": 1.0}, 0.7)
    for row, scores in enumerate(table.scores(weights)):
        for column, score in enumerate(scores):
            values = dict(zip(table.terms, table.likeness[row, column], strict=True))
            assert score == pytest.approx(weights.score({**values, "conditions": table.conditions[row, column]}))
    first = table.rankings(weights)["p0"]
    assert first == [table.models[i] for i in np.argsort(-table.scores(weights)[0], kind="stable")]


def test_the_fast_path_measures_what_the_library_does() -> None:
    """Several grades, a model that the index lacks, and only some of the problems."""
    table = table_of(6, 30)
    mixed = [dict(problem.relevant) | {"m03": 1, "m17": 2, "absent": 3} for problem in table.problems]
    grades = table.grades.copy()
    for row, relevant in enumerate(mixed):
        for model, grade in relevant.items():
            if model in table.models:
                grades[row, table.models.index(model)] = grade
    problems = tuple(replace(p, relevant=r) for p, r in zip(table.problems, mixed, strict=True))
    table = replace(table, problems=problems, grades=grades)
    theirs = measure(problems, table.rankings(EVEN))["nDCG@10"]
    assert table.ndcg(EVEN) == pytest.approx(theirs)
    assert table.ndcg(EVEN, np.array([4, 1])) == pytest.approx(theirs[[4, 1]])


def test_the_term_that_tells_gets_the_weight() -> None:
    table = table_of()
    weights = fit(table, np.arange(40), EVEN, table.terms)
    # a gap of 0.4 in the clue outweighs any noise in 0..1 from a weight of 1 / 1.4 on, and nearly always a little below
    assert weights.terms["clue"] > 0.6
    assert table.ndcg(weights).mean() > 0.95
    assert min(weights.terms.values()) >= 0
    assert sum(weights.terms.values()) == pytest.approx(1)
    assert table.ndcg(weights).mean() > table.ndcg(EVEN).mean() + 0.1


def test_conditions_are_used_where_they_tell() -> None:
    table = table_of(broken=True)
    assert fit(table, np.arange(40), EVEN, table.terms).conditions_reach >= 0.4


def test_noise_alone_earns_nothing_on_problems_left_out() -> None:
    """With 30 models, one of them right, chance gives an nDCG@10 of about a third of the mean discount: under 0.25."""
    table = table_of()
    score, _ = validated(table, np.arange(40), FusionWeights({"noise": 1.0}, 0.0), ["noise"])
    chance = float(np.sum(1 / np.log2(np.arange(2, 12)))) / 30
    assert score == pytest.approx(chance, abs=0.12)


def test_leaving_out_the_telling_term_costs_most() -> None:
    chosen = choose(table_of(), EVEN)
    assert chosen.validated - chosen.without["clue"] > 0.3
    assert abs(chosen.validated - chosen.without["noise"]) < 0.1
    assert chosen.fitted >= chosen.before


def test_folds_deal_every_problem_once() -> None:
    parts = folds_of(23)
    assert sorted(np.concatenate(parts)) == list(range(23))
    assert {len(part) for part in parts} == {4, 5}
