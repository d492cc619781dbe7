"""`analog show`: one model, for a reader or as data."""

from __future__ import annotations

from typing import TYPE_CHECKING

import typer

from analog.cli import options
from analog.cli.explain import ModelArgument
from analog.cli.library import library
from analog.cli.output import as_json, data, wrapped

if TYPE_CHECKING:
    from analog.model.types import Model, Need, Quantity, Reason


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("show")(show)


def show(
    model: ModelArgument,
    as_json_wanted: options.JsonOption = False,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Show a model: purposes, parts, states, transitions with reasons and needs, limits, sources."""
    opened = library(corpus, index)
    record = opened.model(model)
    data(as_json(record.model_dump(mode="json", by_alias=True)) if as_json_wanted else text(record))


def text(model: Model) -> str:
    """A model as text."""
    organism = model.organism
    latin = f" ({organism.latin})" if organism.latin else ""
    lines = [wrapped(model.title), f"  {organism.common}{latin} · {model.id}", "", wrapped(model.summary), ""]
    settings = ", ".join(model.habitat.settings)
    lines += [wrapped(f"Habitat: {settings}. {model.habitat.text}", "  ", ""), "", "Purposes"]
    for purpose in model.purposes:
        where = f" {purpose.where.relation} {purpose.where.part}" if purpose.where else ""
        lines.append(wrapped(f"{purpose.text}: {purpose.verb} {purpose.object} [{purpose.flow}]{where}", "    ", "  "))
    for sub in model.sub_purposes:
        lines.append(wrapped(f"sub-purpose {sub.text}: {sub.model or 'no model yet'}", "      ", "    "))
    lines += ["", "Parts"]
    for part in model.parts:
        material = f", {part.material}" if part.material else ""
        lines.append(wrapped(f"{part.id}: {part.name} [{part.kind}{material}]", "    ", "  "))
        lines += [wrapped(f"- {quantity(q)}", "        ", "      ") for q in part.properties]
    if model.structure:
        lines += ["", "Structure", wrapped("; ".join(model.structure), "  ")]
    lines += ["", "Course of states"]
    for state in model.states:
        lines.append(wrapped(f"{state.id}: {state.text}", "    ", "  "))
        lines.append(wrapped("; ".join(state.facts), "      "))
    lines += ["", "Transitions"]
    for transition in model.transitions:
        arrow = f"{transition.from_state} -> {transition.to_state}"
        lines.append(wrapped(f"{transition.id} ({arrow}): {transition.text}", "    ", "  "))
        lines += [wrapped(f"because {reason(r)}", "        ", "      ") for r in transition.reasons]
        lines += [wrapped(f"needs {need(n)}", "        ", "      ") for n in transition.needs]
    for heading, texts in (
        ("Limits", [f"{limit.about}: {limit.text}" for limit in model.limits]),
        ("Precedents", [precedent.text for precedent in model.precedents]),
        ("Contested", [dispute.text for dispute in model.disputes]),
        ("Questions it answers", [f"{question.text} ({question.industry})" for question in model.questions]),
    ):
        if texts:
            lines += ["", heading, *(wrapped(f"- {line}", "    ", "  ") for line in texts)]
    lines += ["", "Sources"]
    for source in model.sources:
        cited = ", ".join(str(piece) for piece in (source.authors, source.year, source.title, source.venue) if piece)
        doi = f", doi {source.doi}" if source.doi else ""
        memory = "" if source.record_seen else " (cited from memory)"
        lines.append(wrapped(f"- {cited}{doi}{memory}", "    ", "  "))
    return "\n".join(lines)


def quantity(value: Quantity) -> str:
    """A quantity with its unit and where it is from."""
    low, high = value.bounds
    if low == high:
        number = f"{low:g}"
    elif low is None:
        number = f"up to {high:g}"
    else:
        number = f"at least {low:g}" if high is None else f"{low:g} to {high:g}"
    memory = ", from memory" if value.from_memory else ""
    note = f"; {value.note}" if value.note else ""
    unit = "" if value.unit == "dimensionless" else f" {value.unit}"
    return f"{value.name} {number}{unit} ({value.source}{memory}){note}"


def reason(record: Reason) -> str:
    """A reason in words."""
    if record.type == "principle":
        return f"of {record.principle.replace('-', ' ')}: {record.note}"
    if record.type == "structure":
        return f"{record.fact}: {record.note}"
    if record.type == "sub-purpose":
        return f"of the sub-purpose {record.purpose}: {record.note}"
    return f"{record.kind.replace('-', ' ')} sets it off: {record.note}"


def need(record: Need) -> str:
    """A need in words."""
    from analog.model.types import EnergyNeed, FlowNeed, MediumNeed, TemperatureNeed

    note = f": {record.note}" if record.note else ""
    if isinstance(record, MediumNeed | FlowNeed):
        return f"{record.kind.replace('-', ' ')}{note}"
    if isinstance(record, EnergyNeed):
        return f"{(record.kind or record.energy).replace('-', ' ')}{note}"
    low, high, unit = record.low, record.high, record.unit
    bounds = f"{'' if low is None else f'from {low:g} '}{'' if high is None else f'up to {high:g} '}{unit}"
    name = "temperature" if isinstance(record, TemperatureNeed) else record.quantity
    part = f" of {record.part}" if record.part else ""
    return f"{name}{part} {bounds}{note}"
