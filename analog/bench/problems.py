"""Problems with graded models: what a search of the shipped corpus should find, and what it should not fall for.

Grades were given from what the models say, before any search was run: 3 the mechanism solves the problem directly,
2 in part or with an addition, 1 related and worth a look. A mechanism that cannot run under a given condition gets at
most 1. A look-alike shares nouns or looks with the problem but not the relation that matters.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal, cast, get_args

from analog.errors import FormatError

Wording = Literal["near", "far"]
Style = Literal["imperative", "question", "requirement", "complaint"]
Split = Literal["development", "report"]

GRADES = (1, 2, 3)
DATA = Path(__file__).parent / "data"


@dataclass(frozen=True)
class GradedProblem:
    """One problem and its graded models.

    wording : far if the text shares no content word with the title, summary or questions of any right model.
    relevant : model id -> grade. look_alikes : must rank below a right model.
    covered : False where nothing in the corpus solves it; relevant is then empty.
    """

    id: str
    text: str
    given: tuple[str, ...]
    wording: Wording
    style: Style
    industry: str
    relevant: Mapping[str, int]
    look_alikes: tuple[str, ...]
    covered: bool
    note: str = ""

    @property
    def right(self) -> tuple[str, ...]:
        """The models of the highest grade this problem has."""
        highest = max(self.relevant.values(), default=0)
        return tuple(model for model, grade in self.relevant.items() if grade == highest)


def problems_file(split: Split) -> Path:
    """Where the problems of a split lie."""
    return DATA / f"problems-{split}.jsonl"


def judged_models() -> frozenset[str]:
    """Ids of the models that were in view when the problems were graded; of others the grades say nothing."""
    return frozenset((DATA / "graded-models.txt").read_text(encoding="utf-8").split())


def load_problems(path: Path) -> list[GradedProblem]:
    """Read problems, one JSON object a line. Raises FormatError with file, line and field."""
    try:
        lines = path.read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError) as fault:
        raise FormatError(f"cannot be read: {fault}", path=str(path)) from fault
    problems = [_problem(line, path, number) for number, line in enumerate(lines, start=1) if line.strip()]
    seen: set[str] = set()
    for problem in problems:
        if problem.id in seen:
            raise FormatError(f"the id {problem.id!r} stands here twice", path=str(path), field="id")
        seen.add(problem.id)
    return problems


def unknown_models(problems: Sequence[GradedProblem], models: Collection[str]) -> dict[str, list[str]]:
    """Model ids that the problems name and the corpus lacks -> ids of the problems that name them."""
    missing: dict[str, list[str]] = {}
    for problem in problems:
        for model in (*problem.relevant, *problem.look_alikes):
            if model not in models:
                missing.setdefault(model, []).append(problem.id)
    return missing


def _problem(line: str, path: Path, number: int) -> GradedProblem:
    def fault(field: str, expected: str, found: object) -> FormatError:
        return FormatError(f"expected {expected}, found {found!r}", path=str(path), line=number, field=field)

    def field(name: str, kind: type, expected: str) -> Any:
        value = record.get(name)
        if not isinstance(value, kind):
            raise fault(name, expected, value)
        return value

    try:
        record = json.loads(line)
    except ValueError as error:
        raise FormatError(f"is not JSON: {error}", path=str(path), line=number) from error
    if not isinstance(record, dict):
        raise fault("", "an object", record)
    relevant = field("relevant", dict, "an object of model ids and grades")
    for model, grade in relevant.items():
        if grade not in GRADES or isinstance(grade, bool):
            raise fault(f"relevant.{model}", "a grade of 1, 2 or 3", grade)
    look_alikes = field("look_alikes", list, "a list of model ids")
    both = sorted(set(relevant) & set(look_alikes))
    if both:
        raise fault("look_alikes", "models that are not graded", both)
    covered = field("covered", bool, "true or false")
    if covered != bool(relevant):
        raise fault("covered", "true exactly where a model is graded", covered)
    wording, style = record.get("wording"), record.get("style")
    if wording not in get_args(Wording):
        raise fault("wording", " or ".join(get_args(Wording)), wording)
    if style not in get_args(Style):
        raise fault("style", " or ".join(get_args(Style)), style)
    return GradedProblem(
        id=field("id", str, "a text"),
        text=field("text", str, "a text"),
        given=tuple(field("given", list, "a list of texts")),
        wording=cast("Wording", wording),
        style=cast("Style", style),
        industry=field("industry", str, "a text"),
        relevant=relevant,
        look_alikes=tuple(look_alikes),
        covered=covered,
        note=record.get("note", ""),
    )
