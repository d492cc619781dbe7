"""The terms of the score as bars: one row a term, one column a candidate."""

from __future__ import annotations

from collections.abc import Sequence

from analog.errors import UsageError
from analog.explain.explanation import Explanation
from analog.explain.sentences import joined, sentence
from analog.figures.figure import Figure
from analog.figures.sheet import HEAD, SMALL, Sheet, height_of, wrap
from analog.rank.fuse import DEFAULT_WEIGHTS, FusionWeights

LABELS = {
    "questions": "nearest question the model answers",
    "expected": "nearest expected question",
    "purposes": "purposes",
    "summary": "summary",
    "parts": "parts",
    "principles": "principles",
    "words": "words in common",
    "verb": "functions",
    "flow": "what is acted on",
    "structure": "relations found again",
    "function": "agreement of functions",
    "direction": "direction of the change",
    "conditions": "course under the conditions",
    "distinct": "principles not shown before",
}
"""Terms in words; a term that is not here is told by its name."""

LEFT = 150.0
COLUMNS = 4
"""Candidates side by side; more go into the next block."""

ROW = 15.0


def ranking_terms(explanations: Sequence[Explanation], weights: FusionWeights = DEFAULT_WEIGHTS) -> Figure:
    """Every term of the score of each candidate, 0 to 1, with the weight of the term.

    Raises UsageError without matplotlib or without candidates.
    """
    if not explanations:
        raise UsageError("expected at least one candidate to draw the terms of")
    sheet = Sheet()
    blocks = -(-len(explanations) // COLUMNS)
    wide = -(-len(explanations) // blocks)  # blocks of about the same width
    y = 0.0
    for start in range(0, len(explanations), wide):
        y = _block(sheet, y, explanations[start : start + wide], start, wide, weights) + 14
    title = f"How the score is made up, for {joined(f'“{e.model.title}”' for e in explanations)}."
    return sheet.finish(title, description(explanations, weights))


def groups(explanations: Sequence[Explanation], weights: FusionWeights) -> tuple[list[str], list[str]]:
    """(likeness terms, factors): terms with a weight, and terms that multiply."""
    names = list(dict.fromkeys(name for explanation in explanations for name in explanation.scores))
    return [name for name in names if name in weights.terms], [name for name in names if name not in weights.terms]


def weight_words(name: str, weights: FusionWeights) -> str:
    """What a term weighs: its share of the mean, or by how much it can lower the score."""
    if name in weights.terms:
        share = weights.terms[name] / sum(weights.terms.values())
        return f"weighs {100 * share:.0f} %"
    reach = getattr(weights, f"{name}_reach", None)
    return f"lowers by up to {100 * reach:.0f} %" if reach is not None else "multiplies"


def _block(
    sheet: Sheet, y: float, explanations: Sequence[Explanation], offset: int, columns: int, weights: FusionWeights
) -> float:
    column = (sheet.width - LEFT) / max(2, columns)
    bar = column - 40
    tops = []
    for place, explanation in enumerate(explanations):
        x = LEFT + place * column
        name = f"{offset + place + 1}  {explanation.model.title}"
        tops.append(sheet.text(x, y, name, width=column - 8, size=SMALL, bold=True))
    y = max(tops) + 4
    likeness, factors = groups(explanations, weights)
    for heading, names in (("Likeness: a weighted mean of", likeness), ("Factors, by which it is multiplied", factors)):
        if not names:
            continue
        y = sheet.text(0, y, heading, width=sheet.width, bold=True) + 3
        for name in names:
            label = f"{LABELS.get(name, name)}, {weight_words(name, weights)}"
            height = max(ROW, height_of(wrap(label, LEFT - 8, SMALL), SMALL) + 3)
            sheet.text(0, y, label, width=LEFT - 8, size=SMALL)
            for place, explanation in enumerate(explanations):
                _bar(sheet, LEFT + place * column, y, bar, explanation.scores.get(name))
            y += height
    y += 3
    sheet.line([(0, y), (sheet.width, y)])
    sheet.text(0, y + 4, "Score", size=HEAD, bold=True)
    for place, explanation in enumerate(explanations):
        _bar(sheet, LEFT + place * column, y + 5, bar, explanation.score, bold=True)
    return y + 18


def _bar(sheet: Sheet, x: float, y: float, length: float, value: float | None, *, bold: bool = False) -> None:
    """A value from 0 to 1: a light bar of the full length, the dark part as long as the value, and the number."""
    if value is None:
        sheet.text(x, y, "not known", size=SMALL, italic=True)
        return
    share = max(0.0, min(1.0, value))
    sheet.box(x, y + 2, length, 7, style="solid")
    if share > 0:
        sheet.box(x, y + 2, length * share, 7, style="solid", fill="0.35")
    sheet.text(x + length + 5, y, f"{value:.2f}", size=SMALL, bold=bold)


def description(explanations: Sequence[Explanation], weights: FusionWeights = DEFAULT_WEIGHTS) -> str:
    """The figure in sentences."""
    likeness, factors = groups(explanations, weights)
    told = []
    for explanation in explanations:
        parts = [f"{LABELS.get(n, n)} {explanation.scores[n]:.2f}" for n in likeness if n in explanation.scores]
        others = [f"{LABELS.get(n, n)} {explanation.scores[n]:.2f}" for n in factors if n in explanation.scores]
        times = f", times the factors for {joined(others)}" if others else ""
        told.append(
            sentence(f"“{explanation.model.title}” scores {explanation.score:.2f}: the mean of {joined(parts)}{times}")
        )
    shares = joined(f"{LABELS.get(name, name)} {weight_words(name, weights)}" for name in likeness + factors)
    return " ".join([*told, sentence(shares)])
