"""The second judgement: well formed, complete, frozen, and in agreement with the first."""

from __future__ import annotations

import hashlib
from pathlib import Path

import numpy as np
import pytest

from analog.api import Library
from analog.bench.grades import (
    SECOND_GRADES,
    SECOND_MODELS,
    agreement,
    all_judged_models,
    graded_problems,
    second_grades,
)
from analog.bench.problems import GradedProblem, Split, judged_models, load_problems, problems_file
from analog.bench.wording import shared_words
from analog.errors import FormatError

SPLITS: tuple[Split, ...] = ("development", "report")
DOCS = Path(__file__).parents[2] / "docs" / "bench.md"


def test_the_second_grades_are_those_that_were_frozen() -> None:
    checksum = hashlib.sha256(SECOND_GRADES.read_bytes()).hexdigest()
    assert checksum in DOCS.read_text(encoding="utf-8")


def test_grades_speak_of_problems_and_models_that_exist(library: Library) -> None:
    problems = {problem.id for split in SPLITS for problem in load_problems(problems_file(split))}
    grades = second_grades()
    assert grades.keys() <= problems
    judged = set(SECOND_MODELS.read_text(encoding="utf-8").split())
    assert {model for by_model in grades.values() for model in by_model} <= judged <= set(library.ids)
    assert judged >= judged_models()


def test_the_first_judge_is_not_overruled(library: Library) -> None:
    models = {name: library.model(name) for name in library.ids}
    for split in SPLITS:
        for before, after in zip(load_problems(problems_file(split)), graded_problems(split, models), strict=True):
            assert {m: g for m, g in after.relevant.items() if m in judged_models()} == before.relevant
            assert after.covered == bool(after.relevant)
            if after.right:
                shared = any(shared_words(after.text, models[model]) for model in after.right)
                assert after.wording == ("near" if shared else "far")
    assert all_judged_models() <= set(library.ids)


def test_judges_who_did_not_see_each_other_agree() -> None:
    """Kappa above 0.8 is called almost perfect by Landis & Koch (1977), Biometrics 33(1), 159-174."""
    found = agreement([p for split in SPLITS for p in load_problems(problems_file(split))], second_grades())
    assert found.weighted > 0.8
    assert found.table.sum() == 331 * len(judged_models())


def test_agreement_is_cohens() -> None:
    """By hand: of 94 models one pair agrees, one differs, so po = 93/94 and pe = (1*2 + 93*92) / 94²."""
    first, other = sorted(judged_models())[:2]
    problem = GradedProblem("p", "text", (), "far", "imperative", "trade", {first: 3}, (), True)
    found = agreement([problem], {"p": {first: 3, other: 3}})
    count = len(judged_models())
    observed, expected = (count - 1) / count, (1 * 2 + (count - 1) * (count - 2)) / count**2
    assert found.right == pytest.approx((observed - expected) / (1 - expected))
    assert np.array_equal(found.table[[0, 3]][:, [0, 3]], [[count - 2, 1], [0, 1]])


@pytest.mark.parametrize("line", ["d001\tmodel\t4", "d001\tmodel", "d001\tmodel\t0"])
def test_a_wrong_line_is_told_with_its_number(tmp_path: Path, line: str) -> None:
    (tmp_path / "grades.tsv").write_text(f"problem\tmodel\tgrade\n{line}\n", encoding="utf-8")
    with pytest.raises(FormatError) as fault:
        second_grades(tmp_path / "grades.tsv")
    assert fault.value.line == 2
