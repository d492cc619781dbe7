"""Models side by side, criterion by criterion: what they are and, under a problem, what becomes of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from analog.explain.explanation import Explanation
from analog.explain.sentences import counted
from analog.explain.verdict import SEVERITY
from analog.model.types import Model, Principle
from analog.problem.types import Problem
from analog.rank.calibration import chance

Heading = Literal["What it is", "Likeness", "Score", "Course under the problem", "Scale checks", "Evidence"]

OUTCOMES = ("holds", "edge", "build", "missing", "fails")
"""What a scale check may say of one group (analog.scale.check), from the best to the worst."""


@dataclass(frozen=True)
class Criterion:
    """One row. values : what is said of each model, in the order of the models; short ones suit a table of figures."""

    heading: Heading
    name: str
    values: tuple[str, ...]

    @property
    def short(self) -> bool:
        """Whether every value fits a narrow column."""
        return all(len(value) <= 16 for value in self.values)

    def to_dict(self) -> dict[str, object]:
        """As JSON."""
        return {"heading": self.heading, "criterion": self.name, "values": list(self.values)}


@dataclass(frozen=True)
class Comparison:
    """Models side by side.

    problem : the sentence they are compared under, "" without one. results : one explanation a model, in their order,
    or none without a problem. scale : for each model how many groups of the scale check have which outcome; None where
    the problem gives no numbers to check.
    """

    models: tuple[Model, ...]
    problem: str
    results: tuple[Explanation, ...]
    scale: tuple[Mapping[str, int], ...] | None
    criteria: tuple[Criterion, ...]

    def to_dict(self) -> dict[str, object]:
        """As JSON: ids and titles of the models, the problem, and the rows."""
        return {
            "models": [model.id for model in self.models],
            "titles": [model.title for model in self.models],
            "problem": self.problem or None,
            "rows": [criterion.to_dict() for criterion in self.criteria],
        }


def compare(models: Sequence[Model]) -> Comparison:
    """Models side by side without a problem."""
    return Comparison(tuple(models), "", (), None, (*_identity(models), *_evidence(models)))


def compare_under(problem: Problem, results: Sequence[Explanation], principles: Mapping[str, Principle]) -> Comparison:
    """Explained results of one problem side by side. principles : records by id, for the scale checks."""
    models = [result.model for result in results]
    scale = scale_outcomes(problem, results, principles)
    under = (*_likeness(results), *_score(results), *_course(results), *_scale(scale, results))
    criteria = [*_identity(models), *under, *_evidence(models)]
    return Comparison(tuple(models), problem.text, tuple(results), scale, tuple(criteria))


def scale_outcomes(
    problem: Problem, results: Sequence[Explanation], principles: Mapping[str, Principle]
) -> tuple[Mapping[str, int], ...] | None:
    """Outcome -> number of groups, for each result; None where the problem gives no number."""
    if not any(condition.type in {"range", "angle", "temperature"} for condition in problem.conditions):
        return None
    from analog.scale.check import findings  # only a problem with numbers pays for it
    from analog.scale.quantities import ProblemSide

    counts = []
    for result in results:
        roles = {c.part: problem.thing(c.thing) for c in result.correspondences if c.similarity > 0}
        side = ProblemSide(problem, result.model, roles)
        found = {
            (transition.id, finding.principle, finding.group): finding.outcome
            for transition in result.model.transitions
            for reason in transition.reasons
            if reason.type == "principle" and reason.principle in principles
            for finding in findings(principles[reason.principle], transition, side)
        }
        tally: Counter[str] = Counter(found.values())
        counts.append({outcome: tally[outcome] for outcome in OUTCOMES})
    return tuple(counts)


def _identity(models: Sequence[Model]) -> list[Criterion]:
    def row(name: str, values: Iterable[object]) -> Criterion:
        return Criterion("What it is", name, tuple(str(value) for value in values))

    return [
        row("Title", [m.title for m in models]),
        row("Natural system", [f"{m.organism.common}{_latin(m)}" for m in models]),
        row("Purpose", ["; ".join(purpose.text for purpose in m.purposes) for m in models]),
        row("Principles", [", ".join(principles_of(m)) or "none named" for m in models]),
        row("Needs", [", ".join(needs_of(m)) or "none named" for m in models]),
        row("Settings", [", ".join(m.habitat.settings) for m in models]),
        row("States", [len(m.states) for m in models]),
        row("Transitions", [len(m.transitions) for m in models]),
    ]


def _latin(model: Model) -> str:
    return f" ({model.organism.latin})" if model.organism.latin else ""


def _evidence(models: Sequence[Model]) -> list[Criterion]:
    def row(name: str, values: Iterable[object]) -> Criterion:
        return Criterion("Evidence", name, tuple(str(value) for value in values))

    return [
        row("Limits", ["; ".join(dict.fromkeys(limit.about for limit in m.limits)) or "none recorded" for m in models]),
        row("Precedents", [len(m.precedents) for m in models]),
        row("Sources", [sum(source.type != "memory" for source in m.sources) for m in models]),
        row("Sources seen", [sum(source.record_seen for source in m.sources) for m in models]),
        row("Contested", ["yes" if m.disputes else "no" for m in models]),
    ]


def _likeness(results: Sequence[Explanation]) -> list[Criterion]:
    """Deep or surface: how far the things agree, how far the relations, and whether it is known to be skin deep."""

    def row(name: str, values: Iterable[str]) -> Criterion:
        return Criterion("Likeness", name, tuple(values))

    return [
        row("Of things", (f"{result.likeness.things:.2f}" for result in results)),
        row("Of relations", (f"{result.likeness.relations:.2f}" for result in results)),
        row("Surface only", ("yes" if result.likeness.surface else "no" for result in results)),
    ]


def _score(results: Sequence[Explanation]) -> list[Criterion]:
    rows = [
        Criterion("Score", "Score", tuple(f"{result.score:.2f}" for result in results)),
        Criterion("Score", "Right of 100", tuple(f"{100 * chance(result.score):.0f}" for result in results)),
    ]
    for name in dict.fromkeys(name for result in results for name in result.scores):
        values = (f"{result.scores[name]:.2f}" if name in result.scores else "–" for result in results)
        rows.append(Criterion("Score", f"Term: {name}", tuple(values)))
    return rows


def _course(results: Sequence[Explanation]) -> list[Criterion]:
    def row(name: str, values: Iterable[str]) -> Criterion:
        return Criterion("Course under the problem", name, tuple(values))

    rows = []
    for verdict in SEVERITY:
        counts = [sum(t.verdict == verdict for t in result.transitions if t.on_course) for result in results]
        rows.append(row(f"Steps: {verdict}", map(str, counts)))
    rows.append(row("Parts to add", (str(len(result.carry_overs)) for result in results)))
    rows.append(row("What breaks", (_deciding(result, "breaks") or "nothing breaks" for result in results)))
    rows.append(row("What is open", (_deciding(result, "open") or "nothing is open" for result in results)))
    added = ("; ".join(carry.name for carry in result.carry_overs) or "nothing" for result in results)
    rows.append(row("What must be added", added))
    rows.append(row("Cautions", ("; ".join(x.rstrip(".") for x in result.cautions) or "none" for result in results)))
    return rows


def _deciding(result: Explanation, verdict: str) -> str:
    """The first ground of each step of the course with this verdict."""
    grounds = [t.grounds[0].text for t in result.transitions if t.on_course and t.verdict == verdict and t.grounds]
    return "; ".join(dict.fromkeys(grounds))


OUTCOME_WORDS = {
    "holds": "holds",
    "edge": "at the edge",
    "build": "a matter of what is built",
    "missing": "a value is missing",
    "fails": "fails",
}


def _scale(scale: Sequence[Mapping[str, int]] | None, results: Sequence[Explanation]) -> list[Criterion]:
    if scale is None:
        told = "not checked: the problem gives no numbers"
        return [Criterion("Scale checks", "Scale checks", tuple(told for _ in results))]
    rows = []
    for outcome in OUTCOMES:
        values = tuple(str(counts[outcome]) for counts in scale)
        if any(value != "0" for value in values):
            rows.append(Criterion("Scale checks", f"Scale: {OUTCOME_WORDS[outcome]}", values))
    checked = tuple(counted(sum(counts.values()), "group") for counts in scale)
    return [Criterion("Scale checks", "Checked in all", checked), *rows]


def principles_of(model: Model) -> list[str]:
    """The principles a model rests on, in the order of its transitions."""
    names = [r.principle for t in model.transitions for r in t.reasons if r.type == "principle"]
    return [name.replace("-", " ") for name in dict.fromkeys(names)]


def needs_of(model: Model) -> list[str]:
    """The media, flows and energies a model cannot do without."""
    names: list[str] = []
    for transition in model.transitions:
        for need in transition.needs:
            if need.type in {"medium", "flow"}:
                names.append(need.kind)
            elif need.type == "energy":
                names.append(need.kind or need.energy)
    return [name.replace("-", " ") for name in dict.fromkeys(names)]
