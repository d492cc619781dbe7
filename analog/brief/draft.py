"""A brief being made: its content, and the records that its figures are drawn from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from analog.brief.analogue import Teller
from analog.brief.compose import brief_content
from analog.brief.content import Brief
from analog.explain.explanation import Explanation
from analog.problem.types import Problem
from analog.scale.check import ScaleCheck

if TYPE_CHECKING:
    from analog.figures.figure import Figure

Figures = Mapping[str, "Figure"]
"""Key of a place in the brief ("change gecko-toe-adhesion") -> the figure that stands there."""

MOST_REGIMES = 3
"""Scale plots an analogue; the table has every bound."""


@dataclass(frozen=True)
class Draft:
    """The content, and what it was told from. results : the chosen ones. checks : by id of the model."""

    content: Brief
    problem: Problem
    results: tuple[Explanation, ...]
    checks: Mapping[str, tuple[ScaleCheck, ...]]

    def figures(self) -> dict[str, Figure]:
        """Every figure by its place. Empty where matplotlib is missing: the views say so once."""
        from analog.figures import available

        if not available():
            return {}
        told = {analogue.id for analogue in self.content.analogues}
        results = [result for result in self.results if result.model.id in told]
        return dict(_drawn(self.problem, results, self.checks))


def _drawn(
    problem: Problem, results: Sequence[Explanation], checks: Mapping[str, Sequence[ScaleCheck]]
) -> Iterator[tuple[str, Figure]]:
    from analog.figures.alignment import alignment
    from analog.figures.change import before_after
    from analog.figures.course import course
    from analog.figures.regime import regime

    if len(results) > 1:
        from analog.figures.terms import ranking_terms

        yield "terms", ranking_terms(results)
    for result in results:
        name = result.model.id
        purpose = next(purpose for purpose in result.model.purposes if purpose.id == result.purpose)
        yield f"change {name}", before_after(result.model, purpose)
        if result.correspondences:
            yield f"alignment {name}", alignment(result, problem)
        if result.model.course:
            yield f"course {name}", course(result)
        plotted = [check for check in checks[name] if _has_numbers(check)]
        seen: dict[str, ScaleCheck] = {}
        for check in plotted:
            seen.setdefault(check.principle, check)
        for number, check in enumerate(list(seen.values())[:MOST_REGIMES], start=1):
            yield f"regime {name} {number}", regime({"nature": check.nature, "the problem": check.problem})


def _has_numbers(check: ScaleCheck) -> bool:
    """Whether a plot would show something of the problem: a positive value, since the axis is logarithmic."""
    return any(group.high is not None and group.high > 0 for group in check.problem.groups)


def draft(
    teller: Teller,
    chosen: Sequence[Explanation],
    ranked: Sequence[Explanation],
    made: Mapping[str, str],
    *,
    named: bool,
) -> Draft:
    """Put a brief together; see `brief_content`."""
    checks = {result.model.id: teller.checks(result) for result in chosen}
    content = brief_content(teller, chosen, ranked, checks, made, named=named)
    return Draft(content, teller.problem, tuple(chosen), checks)
