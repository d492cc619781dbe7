"""Before and after: the initial and the objective state of a purpose side by side, what changed and what stayed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from analog.explain.sentences import capital, counted, fact_words, names_of, sentence
from analog.figures.figure import Figure
from analog.figures.sheet import BODY, HEAD, LIGHT, SMALL, Sheet, height_of, wrap
from analog.model.facts import Fact
from analog.model.types import Model, Purpose

PADDING = 5.0
GAP = 34.0


@dataclass(frozen=True)
class Change:
    """What a purpose makes of a state. turned : (fact before, fact after) about the same thing."""

    turned: tuple[tuple[Fact, Fact], ...]
    ended: tuple[Fact, ...]
    begun: tuple[Fact, ...]
    stayed: tuple[Fact, ...]


def change_between(before: Sequence[Fact], after: Sequence[Fact]) -> Change:
    """Facts of two states sorted into what turned, ended, began and stayed.

    Two facts belong together if one denies the other, or else if they say the same relation, or the same number of
    things, of the same subject.
    """
    stayed = [fact for fact in before if fact in after]
    old, new = [fact for fact in before if fact not in after], [fact for fact in after if fact not in before]
    turned = []
    for alike in (_denies, _same_relation, _same_shape):
        for fact in list(old):
            partner = next((other for other in new if alike(fact, other)), None)
            if partner is not None:
                turned.append((fact, partner))
                old.remove(fact)
                new.remove(partner)
    return Change(tuple(turned), tuple(old), tuple(new), tuple(stayed))


def _denies(fact: Fact, other: Fact) -> bool:
    return (fact.relation, fact.arguments) == (other.relation, other.arguments) and fact.negated != other.negated


def _same_relation(fact: Fact, other: Fact) -> bool:
    return fact.relation == other.relation and fact.arguments[0] == other.arguments[0]


def _same_shape(fact: Fact, other: Fact) -> bool:
    return fact.arguments[0] == other.arguments[0] and len(fact.arguments) == len(other.arguments)


def before_after(model: Model, purpose: Purpose | None = None) -> Figure:
    """The initial and the objective state of a purpose, by default the first of the model.

    Raises UsageError without matplotlib, KeyError if the purpose names a state that the model does not have.
    """
    purpose = purpose or model.purposes[0]
    initial, objective = model.state(purpose.initial), model.state(purpose.objective)
    change = change_between(initial.parsed, objective.parsed)
    names = names_of(model)
    sheet = Sheet()
    column = (sheet.width - GAP) / 2
    right = column + GAP
    y = sheet.text(0, 0, f"Purpose: {purpose.text}", width=sheet.width, size=HEAD, bold=True) + 4
    y = max(_head(sheet, 0, y, column, "Before", initial.text), _head(sheet, right, y, column, "After", objective.text))
    if change.turned or change.ended or change.begun:
        y = sheet.text(0, y + 6, "What changes", bold=True) + 3
    rows: list[tuple[str, str]] = [
        *((_clause(old, names), _clause(new, names)) for old, new in change.turned),
        *((_clause(old, names), "") for old in change.ended),
        *(("", _clause(new, names)) for new in change.begun),
    ]
    for left_text, right_text in rows:
        y = _row(sheet, y, column, left_text, right_text)
    if change.stayed:
        y = sheet.text(0, y + 4, "What stays", bold=True) + 3
    for fact in change.stayed:
        lines = wrap(_clause(fact, names), sheet.width - 2 * PADDING)
        height = height_of(lines) + 2 * PADDING
        sheet.box(0, y, sheet.width, height, style="none", fill=LIGHT)
        sheet.text(PADDING, y + PADDING, _clause(fact, names), width=sheet.width - 2 * PADDING)
        y += height + 3
    title = f"{sentence(model.title)[:-1]}: before and after “{purpose.text}”."
    return sheet.finish(title, description(model, purpose, change))


def description(model: Model, purpose: Purpose, change: Change) -> str:
    """The figure in sentences."""
    names = names_of(model)
    initial, objective = model.state(purpose.initial), model.state(purpose.objective)
    told = [
        sentence(f"Before “{purpose.text}”: {initial.text}"),
        sentence(f"Afterwards: {objective.text}"),
        sentence(
            f"{counted(len(change.turned) + len(change.ended) + len(change.begun), 'fact')} of the two states differ, "
            f"{counted(len(change.stayed), 'fact')} stay"
        ),
    ]
    told += [sentence(f"{fact_words(old, names)}; then {fact_words(new, names)}") for old, new in change.turned]
    told += [sentence(f"Only before: {fact_words(fact, names)}") for fact in change.ended]
    told += [sentence(f"Only after: {fact_words(fact, names)}") for fact in change.begun]
    told += [sentence(f"Before and after: {fact_words(fact, names)}") for fact in change.stayed]
    return " ".join(told)


def _clause(fact: Fact, names: dict[str, str]) -> str:
    return capital(fact_words(fact, names))


def _head(sheet: Sheet, x: float, y: float, width: float, word: str, text: str) -> float:
    below = sheet.text(x, y, word, width=width, bold=True)
    return sheet.text(x, below, capital(text), width=width, size=SMALL, italic=True)


def _row(sheet: Sheet, y: float, column: float, left: str, right: str) -> float:
    """One change: the fact before and the fact after, joined by an arrow; a missing side stays open and dashed."""
    inner = column - 2 * PADDING
    height = height_of(max(len(wrap(left, inner)), len(wrap(right, inner)))) + 2 * PADDING
    for x, text, otherwise in ((0.0, left, "not stated before"), (column + GAP, right, "no longer stated")):
        sheet.box(x, y, column, height, style="solid" if text else "dashed")
        sheet.text(x + PADDING, y + PADDING, text or otherwise, width=inner, size=BODY, italic=not text)
    middle = y + height / 2
    sheet.line([(column + 4, middle), (column + GAP - 4, middle)], arrow=True)
    return y + height + 4
