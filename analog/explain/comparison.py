"""Models side by side, criterion by criterion."""

from __future__ import annotations

from collections.abc import Sequence

from analog.explain.explanation import Explanation
from analog.explain.verdict import SEVERITY
from analog.model.types import Model

Row = tuple[str, tuple[str, ...]]
"""A criterion and its value for each model, in the order given."""


def compare_models(models: Sequence[Model]) -> list[Row]:
    """What the models are, without a problem."""

    def row(name: str, values: Sequence[object]) -> Row:
        return name, tuple(str(value) for value in values)

    return [
        row("Natural system", [m.organism.common for m in models]),
        row("Purpose", ["; ".join(purpose.text for purpose in m.purposes) for m in models]),
        row("Principles", [", ".join(principles_of(m)) or "none named" for m in models]),
        row("Needs", [", ".join(needs_of(m)) or "none named" for m in models]),
        row("Settings", [", ".join(m.habitat.settings) for m in models]),
        row("States", [len(m.states) for m in models]),
        row("Transitions", [len(m.transitions) for m in models]),
        row("Precedents", [len(m.precedents) for m in models]),
        row("Contested", ["yes" if m.disputes else "no" for m in models]),
    ]


def compare_results(results: Sequence[Explanation]) -> list[Row]:
    """What one problem makes of them."""
    rows: list[Row] = [("Score", tuple(f"{result.score:.3f}" for result in results))]
    for verdict in SEVERITY:
        counts = [sum(t.verdict == verdict for t in result.transitions if t.on_course) for result in results]
        rows.append((f"Steps: {verdict}", tuple(map(str, counts))))
    rows.append(("To add", tuple(str(len(result.carry_overs)) for result in results)))
    names = list(results[0].scores)
    rows += [(f"Term: {name}", tuple(f"{result.scores[name]:.2f}" for result in results)) for name in names]
    breaking = []
    for result in results:
        grounds = [t.grounds[0].text for t in result.transitions if t.on_course and t.verdict == "breaks"]
        breaking.append("; ".join(dict.fromkeys(grounds)) or "nothing breaks")
    rows.append(("What breaks", tuple(breaking)))
    return rows


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
