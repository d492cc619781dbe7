"""Evidence added step by step: each stage is measured with what stands up to it, and its gain bears an interval."""

from __future__ import annotations

import numpy as np
import pytest

from analog.bench.ablation import STAGES, ablation
from analog.bench.problems import GradedProblem
from analog.bench.report import gains_table
from analog.bench.values import TermTable
from analog.rank.fuse import FusionWeights

COUNT, MODELS = 30, 12


def _table() -> TermTable:
    """Text is noise, the questions tell the right model, and half of the time its rival turns the change round."""
    random = np.random.default_rng(11)
    terms = ("summary", "questions")
    likeness = random.random((COUNT, MODELS, len(terms))) * 0.4
    grades = np.zeros((COUNT, MODELS))
    direction, whole = np.ones((COUNT, MODELS)), np.ones((COUNT, MODELS))
    right = random.integers(0, MODELS - 1, size=COUNT)
    for row, column in enumerate(right):
        likeness[row, column, 1], grades[row, column] = 0.9, 3
        if row % 2:
            likeness[row, column + 1, 1], direction[row, column + 1] = 0.95, 0.0
    names = tuple(f"m{i:02d}" for i in range(MODELS))
    problems = tuple(
        GradedProblem(f"p{row}", "text", (), "far", "imperative", "trade", {names[column]: 3}, (), True)
        for row, column in enumerate(right)
    )
    return TermTable(problems, names, terms, likeness, whole, whole, direction, grades)


def test_each_stage_brings_what_its_evidence_tells() -> None:
    weights = FusionWeights({"summary": 0.01, "questions": 0.99}, 0.6, 0.5, 0.8)
    stages = {stage.name: stage for stage in ablation(_table(), weights)}
    assert list(stages) == list(STAGES)
    assert stages["+ facets"].brings["all"] == (0.0, 0.0, 0.0)  # none of its terms is in use
    mean, low, high = stages["+ questions"].brings["all"]
    assert 0 < low < mean < high
    assert stages["+ direction"].brings["all"][1] > 0  # the rival falls back
    assert stages["+ direction"].ndcg["all"] == pytest.approx(1.0)


def test_the_gains_add_up_to_the_gain_over_text() -> None:
    stages = ablation(_table(), FusionWeights({"summary": 0.3, "questions": 0.7}, 0.6, 0.5, 0.8))
    assert sum(stage.brings["all"][0] for stage in stages) == pytest.approx(stages[-1].above_text["all"][0])


def test_the_table_names_every_stage_after_the_first() -> None:
    stages = ablation(_table(), FusionWeights({"summary": 0.3, "questions": 0.7}, 0.6))
    header, rows = gains_table(stages)
    assert header[1:] == ["brings, all", "over text, all", "brings, far", "over text, far"]
    assert [row[0] for row in rows] == list(STAGES)[1:]
