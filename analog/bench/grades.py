"""The second judgement: grades by independent judges who saw the whole corpus and none of the first judge's grades.

The first judge graded the models that were there when the problems were written (`graded-models.txt`). Later, four
judges graded every model of the corpus for every problem, each a part of the problems, from the same guide and what
the models say, before any search of theirs. For models of the first view they tell how far judges agree; for later
models they are the grades.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import numpy.typing as npt

from analog.bench.problems import (
    DATA,
    GRADES,
    GradedProblem,
    Split,
    Wording,
    judged_models,
    load_problems,
    problems_file,
)
from analog.bench.report import markdown
from analog.bench.wording import shared_words
from analog.errors import FormatError
from analog.model.types import Model

SECOND_GRADES = DATA / "grades-second-judge.tsv"
SECOND_MODELS = DATA / "graded-models-second-judge.txt"

Table = npt.NDArray[np.int64]


def all_judged_models() -> frozenset[str]:
    """Ids of the models that either judgement had in view."""
    return judged_models() | frozenset(SECOND_MODELS.read_text(encoding="utf-8").split())


def second_grades(path: Path = SECOND_GRADES) -> dict[str, dict[str, int]]:
    """Problem -> model -> grade; what is not listed was judged not relevant. Raises FormatError with file and line."""
    lines = path.read_text(encoding="utf-8").splitlines()
    if not lines or lines[0].split("\t") != ["problem", "model", "grade"]:
        raise FormatError("expected the header problem, model, grade", path=str(path), line=1)
    grades: dict[str, dict[str, int]] = {}
    for number, line in enumerate(lines[1:], start=2):
        cells = line.split("\t")
        if len(cells) != 3 or cells[2] not in {str(grade) for grade in GRADES}:
            raise FormatError(
                f"expected problem, model and a grade of 1 to 3, found {line!r}", path=str(path), line=number
            )
        problem, model, grade = cells
        if model in grades.setdefault(problem, {}):
            raise FormatError(f"{model!r} is graded twice for {problem}", path=str(path), line=number)
        grades[problem][model] = int(grade)
    return grades


def graded_problems(split: Split, models: Mapping[str, Model]) -> list[GradedProblem]:
    """The problems of a split with the grades of both judgements; the first judge's where there are two.

    models : by id, for the wording: a problem that shares a word with a right model of either judge is near.
    """
    second = second_grades()
    return [_with(problem, second.get(problem.id, {}), models) for problem in load_problems(problems_file(split))]


def _with(problem: GradedProblem, second: Mapping[str, int], models: Mapping[str, Model]) -> GradedProblem:
    first = judged_models()
    later = {model: grade for model, grade in second.items() if model not in first}
    relevant = {**later, **problem.relevant}
    both = replace(problem, relevant=relevant, covered=bool(relevant))
    wording: Wording = problem.wording
    known = [models[model] for model in both.right if model in models]
    if known:
        wording = "near" if any(shared_words(problem.text, model) for model in known) else "far"
    return replace(both, wording=wording)


@dataclass(frozen=True)
class Agreement:
    """How two judgements of the same pairs agree.

    table : (4, 4) pairs by the first judge's grade, down, and the second's, across; grade 0 is not relevant.
    weighted : Cohen's kappa with quadratic weights over the four grades. right : kappa of "graded 2 or 3" alone.
    """

    table: Table
    weighted: float
    right: float


def agreement(problems: Sequence[GradedProblem], second: Mapping[str, Mapping[str, int]]) -> Agreement:
    """Over all pairs of a problem and a model of the first view.

    problems : with the first judge's grades alone. Source: Cohen (1968), Psychological Bulletin 70(4), 213-220, by
    scikit-learn.
    """
    from sklearn.metrics import cohen_kappa_score, confusion_matrix

    models = sorted(judged_models())
    mine = [problem.relevant.get(model, 0) for problem in problems for model in models]
    theirs = [second.get(problem.id, {}).get(model, 0) for problem in problems for model in models]
    return Agreement(
        table=confusion_matrix(mine, theirs, labels=[0, *GRADES]),
        weighted=float(cohen_kappa_score(mine, theirs, weights="quadratic")),
        right=float(cohen_kappa_score([grade >= 2 for grade in mine], [grade >= 2 for grade in theirs])),
    )


def main() -> int:
    """Print the agreement as Markdown."""
    splits: tuple[Split, ...] = ("development", "report")
    found = agreement([p for split in splits for p in load_problems(problems_file(split))], second_grades())
    rows = [[str(grade), *(str(count) for count in row)] for grade, row in enumerate(found.table)]
    sys.stdout.write(markdown((["first judge, down; second, across", "0", "1", "2", "3"], rows)))
    sys.stdout.write(f"\n\nKappa with quadratic weights {found.weighted:.3f}; of right or not {found.right:.3f}.\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
