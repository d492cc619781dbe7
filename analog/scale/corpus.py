"""Every principle of every model put to the model's own values: a principle that nature breaks is a wrong record."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from analog.model.types import Model, Principle, PrincipleReason, Transition
from analog.scale.quantities import of_nature
from analog.scale.regime import GroupCheck, RegimeCheck, check_regime


@dataclass(frozen=True)
class NatureCheck:
    """A principle that explains a transition, put to what the model says of its own system."""

    model: str
    transition: str
    check: RegimeCheck

    @property
    def computed(self) -> tuple[GroupCheck, ...]:
        """The groups with a value."""
        return tuple(group for group in self.check.groups if group.low is not None)


def nature_checks(models: Iterable[Model], principles: Mapping[str, Principle]) -> Iterator[NatureCheck]:
    """Every principle reason of every transition whose record is at hand, in order."""
    for model in models:
        for transition in model.transitions:
            for principle in _principles_of(transition, principles):
                gathered = of_nature(principle, model, transition)
                check = check_regime(principle, gathered.values, gathered.unavailable, solve=False)
                yield NatureCheck(model.id, transition.id, check)


def _principles_of(transition: Transition, principles: Mapping[str, Principle]) -> Iterator[Principle]:
    for reason in transition.reasons:
        if isinstance(reason, PrincipleReason) and reason.principle in principles:
            yield principles[reason.principle]


def lacking(check: NatureCheck) -> bool:
    """Whether a group with a bound in numbers cannot be computed from what the model gives."""
    return any(
        group.status == "missing" and group.bound is not None and (group.bound.low, group.bound.high) != (None, None)
        for group in check.check.groups
    )


def counts(checks: Iterable[NatureCheck]) -> str:
    """How many compute and how they stand, in sentences, and by principle in a table, as Markdown."""
    shown = [each for each in checks if each.check.groups]
    whole = [each for each in shown if not lacking(each)]
    groups = Counter(group.status for each in shown for group in each.computed)
    lines = [
        f"Of {len(shown)} uses of a principle that has dimensionless groups, {len(whole)} compute every group that is "
        f"bounded in numbers from the model's own figures, in {len({each.model for each in whole})} models. Of the "
        f"groups that compute, {groups['holds']} hold, {groups['edge']} are at the edge, {groups['fails']} fail and "
        f"{groups['no bound']} have no bound in numbers.",
        "",
    ]
    left = [f"{each.model}, step {each.transition}, {each.check.principle.id}" for each in shown if lacking(each)]
    if left:
        lines += [f"Not known even to an order of magnitude, and so left out: {'; '.join(left)}.", ""]
    lines += ["| principle | uses | holds | edge | fails | no bound | missing |", "| --- |" + " ---: |" * 6]
    by_principle: dict[str, list[NatureCheck]] = {}
    for each in shown:
        by_principle.setdefault(each.check.principle.id, []).append(each)
    for name, uses in sorted(by_principle.items()):
        status = Counter(group.status for each in uses for group in each.check.groups)
        cells = [name, str(len(uses))]
        cells += [str(status[kind]) for kind in ("holds", "edge", "fails", "no bound", "missing")]
        lines.append("| " + " | ".join(cells) + " |")
    return "\n".join(lines)
