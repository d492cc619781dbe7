"""A scale check as a picture: where each system sits in the regime of a principle, group by group, on log axes."""

from __future__ import annotations

import math
from collections.abc import Mapping

from analog.errors import UsageError
from analog.explain.sentences import capital, joined, sentence
from analog.figures.figure import Figure
from analog.figures.sheet import HEAD, LIGHT, SMALL, Sheet, height_of, wrap
from analog.scale.regime import GroupCheck, RegimeCheck

LEFT = 152.0
ROW = 13.0
TICKS = 7
SHAPES = ("ring", "square", "dot", "tick")
"""The mark of each system, in their order."""

STATUS = {
    "holds": "holds",
    "edge": "at the edge",
    "fails": "fails",
    "missing": "a value is missing",
    "no bound": "no number bounds it",
}

_SUPERSCRIPT = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def regime(checks: Mapping[str, RegimeCheck]) -> Figure:
    """Checks of one principle, by the name of the system, group by group.

    The light band is the regime, dashed lines are its ends. Raises UsageError without matplotlib, or if no group has a
    value above 0 (the axis is logarithmic).
    """
    rows = by_group(checks)
    drawable = [row for row in rows.values() if any(_drawable(check) for check in row.values())]
    if not drawable:
        raise UsageError("expected at least one group with a value to draw; give the missing quantities")
    principle = next(iter(checks.values())).principle
    sheet = Sheet()
    y = sheet.text(0, 0, principle.title, width=sheet.width, size=HEAD, bold=True)
    if principle.equation:
        y = sheet.text(0, y + 1, principle.equation.text, width=sheet.width, size=SMALL, italic=True)
    shapes = {label: SHAPES[place % len(SHAPES)] for place, label in enumerate(checks)}
    for row in drawable:
        y = _group(sheet, y + 9, row, shapes)
    idle = [next(iter(row.values())).group.name for row in rows.values() if row not in drawable]
    if idle:
        sheet.text(0, y + 9, f"Without a value, so not drawn: {'; '.join(idle)}", width=sheet.width, size=SMALL)
    verb = "sits" if len(checks) == 1 else "sit"
    title = f"{sentence(principle.title)[:-1]}: where {joined(checks)} {verb} in the regime."
    return sheet.finish(title, description(checks))


def by_group(checks: Mapping[str, RegimeCheck]) -> dict[str, dict[str, GroupCheck]]:
    """Group id -> name of the system -> its check."""
    rows: dict[str, dict[str, GroupCheck]] = {}
    for label, check in checks.items():
        for group in check.groups:
            rows.setdefault(group.group.id, {}).setdefault(label, group)
    return rows


def description(checks: Mapping[str, RegimeCheck]) -> str:
    """The figure in sentences."""
    told = []
    for row in by_group(checks).values():
        first = next(iter(row.values()))
        values = "; ".join(f"{label}: {told_value(check)}" for label, check in row.items())
        told.append(sentence(f"{first.group.name} ({first.group.text}), {asked(first)}: {values}"))
    return " ".join(told)


def asked(check: GroupCheck) -> str:
    """What the bound asks."""
    return f"must be {check.bound_text}" if check.bound is not None else "no number bounds it"


def told_value(check: GroupCheck) -> str:
    """Value and status: "0.3, holds"."""
    if check.low is None:
        return STATUS["missing"]
    return check.value_text if check.status == "no bound" else f"{check.value_text}, {STATUS[check.status]}"


def _drawable(check: GroupCheck) -> bool:
    return check.low is not None and check.high is not None and check.high > 0 and math.isfinite(check.high)


def _group(sheet: Sheet, y: float, row: Mapping[str, GroupCheck], shapes: Mapping[str, str]) -> float:
    first = next(iter(row.values()))
    heading = f"{first.group.name}, {asked(first)}"
    y = sheet.text(0, y, capital(heading), width=sheet.width, bold=True)
    y = sheet.text(0, y, first.group.text, width=sheet.width, size=SMALL) + 3
    bound = first.bound
    ends = [end for end in ((bound.low, bound.high) if bound else ()) if end is not None and end > 0]
    values = [end for check in row.values() if _drawable(check) for end in (check.low, check.high) if end and end > 0]
    left, right = min([*values, *ends]) / 3, max([*values, *ends]) * 3
    start, length = LEFT, sheet.width - LEFT - 6

    def at(value: float) -> float:
        return start + length * (math.log(value) - math.log(left)) / (math.log(right) - math.log(left))

    labels = {label: wrap(f"{label}: {told_value(check)}", LEFT - 24, SMALL) for label, check in row.items()}
    heights = {label: max(ROW, height_of(lines, SMALL) + 3) for label, lines in labels.items()}
    high = sum(heights.values())
    sheet.box(start, y, length, high)
    if bound is not None and ends:
        low_end = at(bound.low) if bound.low is not None and bound.low > 0 else start
        high_end = at(bound.high) if bound.high is not None and bound.high > 0 else start + length
        sheet.box(low_end, y, high_end - low_end, high, style="none", fill=LIGHT)
        sheet.box(start, y, length, high, fill="none")
        for end in ends:
            sheet.line([(at(end), y - 2), (at(end), y + high + 2)], style="dashed", weight=1.4)
    line = y
    for label, check in row.items():
        middle = line + heights[label] / 2
        _sign(sheet, 6, line + 6, shapes[label])
        sheet.text(16, line + 1, f"{label}: {told_value(check)}", width=LEFT - 24, size=SMALL)
        if _drawable(check):
            assert check.low is not None and check.high is not None
            low, top = at(max(check.low, left)), at(max(check.high, left))
            if top - low > 1:
                sheet.line([(low, middle), (top, middle)], weight=2.0)
            _sign(sheet, (low + top) / 2, middle, shapes[label])
        line += heights[label]
    below = y + high
    for value in _ticks(left, right):
        sheet.line([(at(value), below), (at(value), below + 3)])
        sheet.text(at(value), below + 3, tick_words(value), size=SMALL, align="center")
    return below + 3 + height_of(1, SMALL)


def _sign(sheet: Sheet, x: float, y: float, shape: str) -> None:
    if shape == "square":
        sheet.box(x - 3, y - 3, 6, 6)
    elif shape == "tick":
        sheet.line([(x, y - 4), (x, y + 4)], weight=2.0)
    else:
        sheet.ring(x, y, 3.2, filled=shape == "dot")


def _ticks(left: float, right: float) -> list[float]:
    """Powers of ten within the axis, at most seven; if there are fewer than two, 1, 2 and 5 times a power."""
    low, high = math.ceil(math.log10(left) - 1e-9), math.floor(math.log10(right) + 1e-9)
    powers = list(range(low, high + 1))
    if len(powers) >= 2:
        step = -(-len(powers) // TICKS)
        return [10.0**power for power in powers if (power - low) % step == 0]
    some = [digit * 10.0**power for power in range(low - 1, high + 1) for digit in (1, 2, 5)]
    return [value for value in some if left <= value <= right]


def tick_words(value: float) -> str:
    """A tick: 0.01 to 1000 as they are, others as powers of ten."""
    if 0.01 <= value <= 1000:
        return f"{value:g}"
    power = math.floor(math.log10(value) + 1e-9)
    digit = round(value / 10.0**power)
    return f"{'' if digit == 1 else f'{digit}·'}10{str(power).translate(_SUPERSCRIPT)}"
