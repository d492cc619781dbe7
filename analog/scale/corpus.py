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


def counts(checks: Iterable[NatureCheck]) -> str:
    """How many compute and how they stand, as sentences and a table in Markdown."""
    shown = list(checks)
    computing = [each for each in shown if each.computed]
    groups = Counter(group.status for each in shown for group in each.computed)
    lines = [
        f"Of {len(shown)} uses of a principle in the models, {len(computing)} compute at least one group from the "
        f"model's own figures, in {len({each.model for each in computing})} models. Of the groups that compute, "
        f"{groups['holds']} hold, {groups['edge']} are at the edge, {groups['fails']} fail and {groups['no bound']} "
        "have no bound in numbers. The rest lack a figure that the models do not give.",
        "",
        "| model | transition | principle | group | value | must be | status |",
        "| --- | --- | --- | --- | --- | --- | --- |",
    ]
    for each in computing:
        for group in each.computed:
            where = [each.model, each.transition, each.check.principle.id, group.group.name]
            cells = [*where, group.value_text, group.bound_text, group.status]
            lines.append("| " + " | ".join(cell.replace("|", "/") for cell in cells) + " |")
    return "\n".join(lines)
