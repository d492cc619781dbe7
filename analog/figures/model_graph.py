"""Parts of a model and the relations between them, as boxes and labelled arrows."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from analog.explain.sentences import (
    JOINS_ONE,
    counted,
    fact_sentence,
    is_plural,
    names_of,
    relation_words,
    sentence,
    spoken,
)
from analog.figures.figure import Figure
from analog.figures.layout import Point, Rectangle, along, grown, length_of, over, overlap, place, route
from analog.figures.sheet import HEAD, SMALL, Sheet, height_of, text_width, wrap
from analog.model.facts import Fact
from analog.model.types import Model, Part

PADDING = 4.0
GAP_X, GAP_Y = 60.0, 36.0
LABEL_WIDTHS = (54.0, 40.0)
"""Points into which the words of an arrow are wrapped; the narrower where the wider would hide the arrow."""
HEAD_ROOM = 8.0
"""Points at the end of an arrow that must stay in sight."""
PLACES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.27, 0.73, 0.2, 0.8)
"""Where along a line its words may stand, tried in this order."""


@dataclass(frozen=True)
class Relation:
    """One arrow. words : what it says. standing : part of the structure; else it holds in some states only."""

    subject: str
    object: str
    words: str
    standing: bool


@dataclass(frozen=True)
class Shown:
    """What the graph shows of a model. told : part id -> words about this part alone."""

    relations: tuple[Relation, ...]
    facts: tuple[tuple[Fact, bool], ...]
    told: dict[str, tuple[str, ...]]


def shown_of(model: Model) -> Shown:
    """The structure of a model; a part that stands in no structural relation gets its first relation of the states."""
    known = names_of(model)
    facts = [(fact, True) for fact in model.parsed_structure]
    joined = {part for fact, _ in facts if len(fact.parts) > 1 for part in fact.parts}
    for part in model.parts:
        if part.id in joined:
            continue
        passing = (fact for state in model.states for fact in state.parsed if not fact.negated)
        found = next((f for f in passing if part.id in f.parts and len(set(f.parts) & known.keys()) > 1), None)
        if found is not None:
            joined |= set(found.parts)
            facts.append((found, False))
    relations: dict[tuple[str, str, bool], list[str]] = {}
    told: dict[str, list[str]] = {}
    for fact, standing in facts:
        subject, *others = [part for part in fact.parts if part in known] or [""]
        if not others and subject:
            values = ", ".join(a.text for a in fact.arguments if not a.is_part)
            told.setdefault(subject, []).append(f"{spoken(fact.relation)}{': ' + values if values else ''}")
        for other in others:
            words = relation_words(fact.relation, plural=is_plural(known[subject]), negated=fact.negated)
            if fact.relation == JOINS_ONE and len(others) == 1:
                words += " to"
            said = relations.setdefault((subject, other, standing), [])
            if words not in said:
                said.append(words)
    return Shown(
        tuple(Relation(a, b, ", ".join(words), standing) for (a, b, standing), words in relations.items() if a != b),
        tuple(dict.fromkeys(facts)),
        {part: tuple(words) for part, words in told.items()},
    )


def model_graph(model: Model) -> Figure:
    """Every part in a box, an arrow for every structural relation from its subject to its object.

    Raises UsageError without matplotlib.
    """
    shown = shown_of(model)
    sheet = Sheet()
    top = sheet.text(0, 0, model.title, width=sheet.width, size=HEAD, bold=True)
    top = sheet.text(0, top, f"Parts of the natural system: {model.organism.common}", width=sheet.width, size=SMALL) + 8
    columns = 3 if len(model.parts) > 4 else 2
    boxes, bends = _boxes(sheet.width, top, model.parts, shown, columns)
    numbered = _arrows(sheet, shown.relations, boxes, bends)
    for part in model.parts:
        _box(sheet, part, shown.told.get(part.id, ()), boxes[part.id])
    y = sheet.bottom + 8
    names = names_of(model)
    for number, relation in enumerate(numbered, start=1):
        text = f"{number}: {names[relation.subject]} {relation.words} {names[relation.object]}"
        y = sheet.text(0, y, text, width=sheet.width, size=SMALL)
    if any(not relation.standing for relation in shown.relations):
        sheet.line([(0, y + 6), (26, y + 6)], style="dashed", arrow=True)
        sheet.text(32, y, "holds in some states only", size=SMALL)
    title = f"{sentence(model.title)[:-1]}: its parts and the relations between them."
    return sheet.finish(title, description(model, shown))


def description(model: Model, shown: Shown | None = None) -> str:
    """The figure in sentences."""
    shown = shown or shown_of(model)
    names = names_of(model)
    told = [sentence(f"{counted(len(model.parts), 'part')}: {'; '.join(part.name for part in model.parts)}")]
    told += [fact_sentence(fact, names) for fact, standing in shown.facts if standing]
    told += [f"In some states: {fact_sentence(fact, names)}" for fact, standing in shown.facts if not standing]
    return " ".join(told)


def _boxes(
    width: float, top: float, parts: Sequence[Part], shown: Shown, columns: int
) -> tuple[dict[str, Rectangle], list[Point]]:
    """(a rectangle for each part, the points between them where lines may turn)."""
    position = {part.id: number for number, part in enumerate(parts)}
    edges = list(dict.fromkeys(tuple(sorted((position[r.subject], position[r.object]))) for r in shown.relations))
    cells = place(len(parts), [(a, b) for a, b in edges], columns)
    wide = (width - (columns - 1) * GAP_X) / columns
    heights = [_height(part, shown.told.get(part.id, ()), wide) for part in parts]
    rows = sorted({row for _, row in cells})
    tallest = {row: max(h for h, cell in zip(heights, cells, strict=True) if cell[1] == row) for row in rows}
    starts, y = {}, top
    for row in rows:
        starts[row] = y
        y += tallest[row] + GAP_Y
    boxes = {}
    for part, (column, row), height in zip(parts, cells, heights, strict=True):
        x, upper = column * (wide + GAP_X), starts[row] + (tallest[row] - height) / 2
        boxes[part.id] = (x, upper, x + wide, upper + height)
    between_x = [column * (wide + GAP_X) - GAP_X / 2 for column in range(1, columns)]
    between_y = [starts[row] - GAP_Y / 2 for row in rows[1:]]
    middle_x = [column * (wide + GAP_X) + wide / 2 for column in range(columns)]
    middle_y = [starts[row] + tallest[row] / 2 for row in rows]
    bends = [*itertools.product(between_x, between_y), *itertools.product(between_x, middle_y)]
    bends += itertools.product(middle_x, between_y)
    return boxes, bends


def _height(part: Part, told: Sequence[str], wide: float) -> float:
    inner = wide - 2 * PADDING
    return (
        height_of(wrap(part.name, inner))
        + sum(height_of(wrap(line, inner, SMALL), SMALL) for line in told)
        + 2 * PADDING
    )


def _box(sheet: Sheet, part: Part, told: Sequence[str], box: Rectangle) -> None:
    left, top, right, bottom = box
    sheet.box(left, top, right - left, bottom - top)
    y = sheet.text(left + PADDING, top + PADDING, part.name, width=right - left - 2 * PADDING)
    for line in told:
        y = sheet.text(left + PADDING, y, line, width=right - left - 2 * PADDING, size=SMALL, italic=True)


def _arrows(
    sheet: Sheet, relations: Sequence[Relation], boxes: dict[str, Rectangle], bends: Sequence[Point]
) -> list[Relation]:
    """Draw the arrows and their words; returns the relations whose words found no room, told by number instead."""
    pairs = {(relation.subject, relation.object) for relation in relations}
    lines = []
    for relation in relations:
        others = [box for part, box in boxes.items() if part not in (relation.subject, relation.object)]
        start, end = boxes[relation.subject], boxes[relation.object]
        shift = _aside(start, end) if (relation.object, relation.subject) in pairs else 0.0
        lines.append(route(start, end, others, bends, shift))
    for relation, line in zip(relations, lines, strict=True):
        sheet.line(line, style="solid" if relation.standing else "dashed", arrow=True)
    placed: list[Rectangle] = []
    numbered: list[Relation] = []
    for number, (relation, line) in enumerate(zip(relations, lines, strict=True)):
        around = [other for index, other in enumerate(lines) if index != number]
        words = relation.words
        room = _room(words, line, [*boxes.values(), *placed], around, sheet.width)
        if room is None:
            numbered.append(relation)
            words = str(len(numbered))
            room = _room(words, line, [*boxes.values(), *placed], around, sheet.width)
        if room is None:
            x, y = along(line, 0.5)
            room = (x - 6, y - 6, x + 6, y + 6), LABEL_WIDTHS[0]
        (left, top, right, bottom), wide = room
        placed.append((left, top, right, bottom))
        sheet.box(left, top, right - left, bottom - top, style="none")
        sheet.text((left + right) / 2, top + 1, words, width=wide, size=SMALL, align="center")
    return numbered


def _aside(start: Rectangle, end: Rectangle) -> float:
    """How far two arrows between the same boxes keep from each other's middle, so that both find room for words."""
    across = abs(start[0] + start[2] - end[0] - end[2])
    down = abs(start[1] + start[3] - end[1] - end[3])
    return 7.5 if across > down else 26.0


def _room(
    words: str, line: Sequence[Point], taken: Sequence[Rectangle], lines: Sequence[Sequence[Point]], width: float
) -> tuple[Rectangle, float] | None:
    """(a rectangle on the line for its words, the width they are wrapped into), or None where there is no room.

    It overlaps no other words and no box, leaves the arrow head in sight, and lies on as few other lines as can be.
    """
    longest = max(text_width(word, SMALL) for word in words.split()) + 0.5
    share_of_head = 1 - HEAD_ROOM / max(HEAD_ROOM, length_of(line))
    tip = line[-1], along(line, share_of_head)
    for wide in LABEL_WIDTHS:
        lines_of_words = wrap(words, max(wide, longest), SMALL)
        half = max(text_width(text, SMALL) for text in lines_of_words) / 2 + 1.5
        high = height_of(lines_of_words, SMALL) / 2 + 0.5
        best: tuple[int, int, Rectangle] | None = None
        for order, share in enumerate(PLACES):
            x, y = along(line, share)
            rectangle = (x - half, y - high, x + half, y + high)
            if rectangle[0] < 0 or rectangle[2] > width or over(*tip, rectangle):
                continue
            if any(overlap(grown(rectangle, 0.5), other) for other in taken):
                continue
            crossed = sum(any(over(p, q, rectangle) for p, q in itertools.pairwise(other)) for other in lines)
            if crossed < 2 and (best is None or (crossed, order) < best[:2]):
                best = crossed, order, rectangle
        if best is not None:
            return best[2], max(wide, longest)
    return None
