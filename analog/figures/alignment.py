"""The correspondences as a picture: things of the problem on the left, parts of the natural system on the right."""

from __future__ import annotations

from collections.abc import Iterable

from analog.explain.explanation import Correspondence, Explanation
from analog.explain.sentences import capital, counted, sentence, spoken
from analog.figures.figure import Figure
from analog.figures.sheet import HEAD, SMALL, Sheet, Style, height_of, wrap
from analog.model.types import Part
from analog.problem.types import Problem, Thing

PADDING = 5.0
MIDDLE = 132.0
"""Points between the columns: room for the words on the lines."""

ROLES = {"object": "the object of the purpose", "place": "the place of the purpose"}


def alignment(explanation: Explanation, problem: Problem) -> Figure:
    """Lines join what corresponds; what has no counterpart stays open on the other side.

    A line is solid where both are of a common kind, dashed where only their roles agree. Raises UsageError without
    matplotlib.
    """
    sheet = Sheet()
    column = (sheet.width - MIDDLE) / 2
    right = column + MIDDLE
    y = max(
        sheet.text(0, 0, "In the problem", width=column, size=HEAD, bold=True),
        sheet.text(right, 0, "In the natural system", width=column, size=HEAD, bold=True),
    )
    y = max(
        sheet.text(0, y, problem.text, width=column, size=SMALL, italic=True),
        sheet.text(right, y, explanation.model.title, width=column, size=SMALL, italic=True),
    )
    y += 6
    kinds = {thing.id: thing.kind for thing in problem.things}
    parts = {part.id: part for part in explanation.model.parts}
    for pair in explanation.correspondences:
        part = parts.get(pair.part)
        mine = (pair.thing_name, kinds.get(pair.thing) or "")
        y = _row(sheet, y, column, mine, (pair.part_name, part.kind if part else ""), pair)
    unmatched, missing, idle = remaining(explanation, problem)
    for thing in unmatched:
        y = _row(sheet, y, column, (thing.name, thing.kind or ""), None, None)
    if missing:
        told = "Without counterpart: to be added, or replaced by something that does the same"
        start = y = sheet.text(0, y + 4, told, bold=True) + 3
        for part in missing:
            y = _row(sheet, y, column, None, (part.name, part.kind), None)
        sheet.box(0, start, column, y - 4 - start, style="dashed")
        sheet.text(PADDING, start + PADDING, "nothing in the problem yet", width=column - 2 * PADDING, italic=True)
    if idle:
        y = sheet.text(0, y + 4, "Other parts of the model, not at work in this course", bold=True) + 3
        names = "; ".join(part.name for part in idle)
        y = sheet.text(0, y, names, width=sheet.width)
    title = f"What corresponds to what: “{problem.text.strip().rstrip('.')}” and “{explanation.model.title}”."
    return sheet.finish(title, description(explanation, problem))


def remaining(explanation: Explanation, problem: Problem) -> tuple[list[Thing], list[Part], list[Part]]:
    """(things without a part, parts to be added, parts that are neither) in the order of problem and model."""
    things = {pair.thing for pair in explanation.correspondences}
    matched = {pair.part for pair in explanation.correspondences}
    to_add = {carry.part for carry in explanation.carry_overs}
    others = [part for part in explanation.model.parts if part.id not in matched]
    return (
        [thing for thing in problem.things if thing.id not in things],
        [part for part in others if part.id in to_add],
        [part for part in others if part.id not in to_add],
    )


def _row(
    sheet: Sheet,
    y: float,
    column: float,
    left: tuple[str, str] | None,
    right: tuple[str, str] | None,
    pair: Correspondence | None,
) -> float:
    inner = column - 2 * PADDING
    label = [meeting(pair), *([ROLES[pair.role]] if pair.role in ROLES else [])] if pair else []
    words = [wrap(line, MIDDLE - 22, SMALL) for line in label]
    heights = [_height(side, inner) for side in (left, right)]
    height = max(*heights, sum(height_of(lines, SMALL) for lines in words) + 8)
    middle = y + height / 2
    for x, side in ((0.0, left), (column + MIDDLE, right)):
        if side is None:
            if x > 0:
                sheet.box(x, y, column, height, style="dashed")
                told = "nothing in the natural system"
                sheet.text(x + PADDING, y + (height - height_of(1)) / 2, told, width=inner, italic=True)
            continue
        sheet.box(x, y, column, height)
        below = sheet.text(x + PADDING, y + (height - _height(side, inner)) / 2 + PADDING, side[0], width=inner)
        if side[1]:
            sheet.text(x + PADDING, below, f"kind: {spoken(side[1])}", width=inner, size=SMALL, italic=True)
    if pair is None:
        start = column if left else column + MIDDLE
        step = 16.0 if left else -16.0
        sheet.line([(start, middle), (start + step, middle)], style="dotted")
        sheet.ring(start + step, middle)
        return y + height + 4
    style: Style = "solid" if pair.kind else "dashed"
    above = height_of(words[0], SMALL)
    sheet.line([(column, middle), (column + MIDDLE, middle)], style=style, weight=1.3)
    for x in (column, column + MIDDLE):
        sheet.ring(x, middle, 2.6, filled=True)
    centre = column + MIDDLE / 2
    sheet.text(centre, middle - above - 1.5, meeting(pair), width=MIDDLE - 22, size=SMALL, align="center")
    if len(label) > 1:
        sheet.text(centre, middle + 2, label[1], width=MIDDLE - 22, size=SMALL, italic=True, align="center")
    return y + height + 4


def _height(side: tuple[str, str] | None, inner: float) -> float:
    if side is None:
        return height_of(1) + 2 * PADDING
    kind = height_of(wrap(f"kind: {spoken(side[1])}", inner, SMALL), SMALL) if side[1] else 0.0
    return height_of(wrap(side[0], inner)) + kind + 2 * PADDING


def meeting(pair: Correspondence) -> str:
    """Under what general kind both meet, and how near: "contaminant, 0.86"."""
    return f"{pair.kind}, {pair.similarity:.2f}" if pair.kind else "the same role only"


def description(explanation: Explanation, problem: Problem) -> str:
    """The figure in sentences."""
    told = []
    for pair in explanation.correspondences:
        shared = f"both are a kind of {pair.kind}, likeness {pair.similarity:.2f}" if pair.kind else "by its role only"
        role = f"; it is {ROLES[pair.role]}" if pair.role in ROLES else ""
        told.append(sentence(f"“{pair.thing_name}” in the problem corresponds to “{pair.part_name}”, {shared}{role}"))
    if not told:
        told.append("Nothing in the problem corresponds to a part of the model.")
    unmatched, missing, idle = remaining(explanation, problem)
    if unmatched:
        told.append(sentence(f"Without counterpart in the natural system: {_list(thing.name for thing in unmatched)}"))
    if missing:
        told.append(sentence(f"{capital(counted(len(missing), 'part'))} to be added: {_list(p.name for p in missing)}"))
    if idle:
        told.append(sentence(f"Not at work in this course: {_list(part.name for part in idle)}"))
    return " ".join(told)


def _list(names: Iterable[str]) -> str:
    return "; ".join(f"“{name}”" for name in names)
