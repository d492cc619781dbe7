"""Candidates side by side as a picture: score, the course step by step, what must be added, scale checks, evidence."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from analog.errors import UsageError
from analog.explain.comparison import OUTCOME_WORDS, OUTCOMES
from analog.explain.explanation import Explanation
from analog.explain.sentences import counted, joined, sentence
from analog.explain.verdict import SEVERITY
from analog.figures.course import count_words, counts
from analog.figures.figure import Figure
from analog.figures.sheet import HEAD, MARKS, SMALL, VERDICT_STYLE, Sheet, height_of, wrap

LEFT = 84.0
WIDEST = 4
"""Candidates side by side; more go into the next block."""

SIDE = 13.0


def comparison(explanations: Sequence[Explanation], scale: Sequence[Mapping[str, int]] | None = None) -> Figure:
    """Explained candidates of one problem, criterion by criterion.

    scale : for each candidate outcome -> number of groups (analog.explain.comparison.scale_outcomes); None if nothing
    was checked. Raises UsageError without matplotlib or without candidates.
    """
    if not explanations:
        raise UsageError("expected at least one candidate to compare")
    sheet = Sheet()
    blocks = -(-len(explanations) // WIDEST)
    wide = -(-len(explanations) // blocks)
    y = 0.0
    for start in range(0, len(explanations), wide):
        part = scale[start : start + wide] if scale is not None else None
        y = _block(sheet, y, explanations[start : start + wide], part, start, wide) + 16
    _key(sheet, y)
    title = f"{joined(f'“{e.model.title}”' for e in explanations)} side by side."
    return sheet.finish(title, description(explanations, scale))


def _block(
    sheet: Sheet,
    y: float,
    explanations: Sequence[Explanation],
    scale: Sequence[Mapping[str, int]] | None,
    offset: int,
    columns: int,
) -> float:
    column = (sheet.width - LEFT) / max(2, columns)
    rows = [
        ("", [f"{offset + place + 1}  {e.model.title}" for place, e in enumerate(explanations)]),
        ("Likeness", [likeness_words(e) for e in explanations]),
        ("To add", ["; ".join(carry.name for carry in e.carry_overs) or "nothing" for e in explanations]),
        ("Limits", ["; ".join(dict.fromkeys(x.about for x in e.model.limits)) or "none" for e in explanations]),
        ("Evidence", [evidence(e) for e in explanations]),
    ]
    if scale is not None:
        rows.insert(3, ("Scale checks", [outcome_words(counts) for counts in scale]))
    head, *others = rows
    y = _texts(sheet, y, column, head[0], head[1], bold=True)
    y = _scores(sheet, y, column, explanations)
    y = _marks(sheet, y, column, explanations)
    for name, values in others:
        y = _texts(sheet, y, column, name, values)
    return y


def _texts(sheet: Sheet, y: float, column: float, name: str, values: Sequence[str], *, bold: bool = False) -> float:
    sheet.text(0, y + 3, name, width=LEFT - 6, size=SMALL, bold=True)
    bottoms = [y + 3 + height_of(1, SMALL)]
    for place, value in enumerate(values):
        x = LEFT + place * column
        bottoms.append(sheet.text(x, y + 3, value, width=column - 8, size=SMALL, bold=bold))
    return _ruled(sheet, max(bottoms))


def _ruled(sheet: Sheet, y: float) -> float:
    sheet.line([(0, y + 3), (sheet.width, y + 3)], weight=0.5)
    return y + 3


def _scores(sheet: Sheet, y: float, column: float, explanations: Sequence[Explanation]) -> float:
    sheet.text(0, y + 4, "Score", size=SMALL, bold=True)
    length = column - 44
    for place, explanation in enumerate(explanations):
        x = LEFT + place * column
        sheet.box(x, y + 6, length, 8)
        if explanation.score > 0:
            sheet.box(x, y + 6, length * min(1.0, explanation.score), 8, fill="0.35")
        sheet.text(x + length + 5, y + 4, f"{explanation.score:.2f}", size=HEAD - 1, bold=True)
    return _ruled(sheet, y + 15)


def _marks(sheet: Sheet, y: float, column: float, explanations: Sequence[Explanation]) -> float:
    """One mark a step of the course, in order, joined by the line of its verdict; below them the counts in words."""
    sheet.text(0, y + 4, "Steps of the course", width=LEFT - 6, size=SMALL, bold=True)
    bottoms = [y + 4 + height_of(wrap("Steps of the course", LEFT - 6, SMALL, True), SMALL)]
    per_line = max(1, int((column - 8) // (SIDE + 5)))
    for place, explanation in enumerate(explanations):
        x = LEFT + place * column
        course = [t.verdict for t in explanation.transitions if t.on_course]
        for number, verdict in enumerate(course):
            line, spot = divmod(number, per_line)
            middle = x + spot * (SIDE + 5) + SIDE / 2
            sheet.mark(middle, y + 11 + line * (SIDE + 5), MARKS[verdict], style=VERDICT_STYLE[verdict])
        lines = max(1, -(-len(course) // per_line))
        words = joined(count_words(name, n) for name, n in counts(explanation).items() if n) or "no course to judge"
        top = y + 6 + lines * (SIDE + 5)
        bottoms.append(sheet.text(x, top, words, width=column - 8, size=SMALL))
    return _ruled(sheet, max(bottoms))


def _key(sheet: Sheet, y: float) -> None:
    x = 0.0
    for verdict in SEVERITY:
        sheet.mark(x + 6, y + 6, MARKS[verdict], style=VERDICT_STYLE[verdict])
        sheet.text(x + 17, y + 1, "carries over if …" if verdict == "carries over if" else verdict, size=SMALL)
        x += 110


def likeness_words(explanation: Explanation) -> str:
    """How deep the likeness goes: "relations 0.68, things 0.86; surface only"."""
    alike = explanation.likeness
    words = f"relations {alike.relations:.2f}, things {alike.things:.2f}"
    return f"{words}; surface only" if alike.surface else words


def outcome_words(found: Mapping[str, int]) -> str:
    """ "2 hold, 1 fails" for the groups of a scale check."""
    told = [f"{found[name]}: {OUTCOME_WORDS[name]}" for name in OUTCOMES if found.get(name)]
    return "; ".join(told) or "no group could be checked"


def evidence(explanation: Explanation) -> str:
    """Precedents and sources in words."""
    model = explanation.model
    seen = sum(source.record_seen for source in model.sources)
    pieces = [
        counted(len(model.precedents), "precedent"),
        f"{counted(len(model.sources), 'source')}, {seen or 'none'} looked up",
    ]
    return "; ".join([*pieces, *(["contested"] if model.disputes else [])])


def description(explanations: Sequence[Explanation], scale: Sequence[Mapping[str, int]] | None = None) -> str:
    """The figure in sentences."""
    told = []
    for place, explanation in enumerate(explanations):
        course = joined(count_words(name, number) for name, number in counts(explanation).items() if number)
        added = "; ".join(carry.name for carry in explanation.carry_overs) or "nothing"
        limits = "; ".join(dict.fromkeys(limit.about for limit in explanation.model.limits)) or "none"
        pieces = (
            f"{place + 1}, “{explanation.model.title}”: score {explanation.score:.2f}",
            f"likeness: {likeness_words(explanation)}",
            f"of the steps of its course {course or 'none can be judged'}",
            f"to add: {added}",
            *((f"scale checks: {outcome_words(scale[place])}",) if scale is not None else ()),
            f"limits: {limits}",
            f"evidence: {evidence(explanation)}",
        )
        told += [sentence(piece) for piece in pieces]
    return " ".join(told)
