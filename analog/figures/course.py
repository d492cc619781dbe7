"""The course of states with a verdict on each arrow: the mark, the verdict in words, and the reasons."""

from __future__ import annotations

from collections.abc import Sequence

from analog.explain.explanation import Explanation
from analog.explain.sentences import capital, counted, joined, sentence
from analog.explain.verdict import SEVERITY, TransitionVerdict
from analog.figures.figure import Figure
from analog.figures.sheet import HEAD, LIGHT, MARKS, SMALL, VERDICT_STYLE, Sheet, Style, height_of, wrap
from analog.model.types import State, Transition

PADDING = 5.0
STEM = 20.0
INDENT = 40.0
REASONS_SHOWN = 3


def course(explanation: Explanation) -> Figure:
    """The states of the primary course from top to bottom, joined by transitions with their verdicts.

    Transitions off the course stand below. Raises UsageError without matplotlib.
    """
    model = explanation.model
    verdicts = {verdict.id: verdict for verdict in explanation.transitions}
    transitions = {transition.id: transition for transition in model.transitions}
    on_course = [transitions[step] for step in model.course if step in transitions]
    sheet = Sheet()
    y = sheet.text(0, 0, model.title, width=sheet.width, size=HEAD, bold=True) + 5
    here: str | None = None
    number = 0
    for transition in on_course:
        if transition.from_state != here:
            number += 1
            y = _state(sheet, y, number, model.state(transition.from_state))
        y = _step(sheet, y, transition, verdicts.get(transition.id))
        number += 1
        y = _state(sheet, y, number, model.state(transition.to_state))
        here = transition.to_state
    aside = [verdict for verdict in explanation.transitions if not verdict.on_course]
    if aside:
        y = sheet.text(0, y + 8, "Beside the course", bold=True) + 3
    for verdict in aside:
        sheet.mark(STEM, y + 6, MARKS[verdict.verdict], style=VERDICT_STYLE[verdict.verdict])
        y = _words(sheet, y, verdict) + 4
    title = f"{sentence(model.title)[:-1]}: the course of states, with a verdict on every step."
    return sheet.finish(title, description(explanation))


def _state(sheet: Sheet, y: float, number: int, state: State) -> float:
    text = f"{number}  {capital(state.text)}"
    inner = sheet.width * 0.82 - 2 * PADDING
    height = height_of(wrap(text, inner)) + 2 * PADDING
    sheet.box(0, y, sheet.width * 0.82, height, fill=LIGHT)
    sheet.text(PADDING, y + PADDING, text, width=inner)
    return y + height


def _step(sheet: Sheet, y: float, transition: Transition, verdict: TransitionVerdict | None) -> float:
    """The arrow down from y with its words beside it; returns where it ends."""
    if verdict is None:
        below = sheet.text(INDENT, y + 4, capital(transition.text), width=sheet.width - INDENT) + 4
        sheet.line([(STEM, y), (STEM, below)], arrow=True)
        return below
    below = max(_words(sheet, y + 4, verdict) + 4, y + 34)
    middle = y + (below - y) * 0.42
    style: Style = VERDICT_STYLE[verdict.verdict]
    sheet.line([(STEM, y), (STEM, below)], style=style, arrow=True, weight=1.3)
    if verdict.verdict == "breaks":  # the line is cut: white paper on both sides of the mark
        sheet.box(STEM - 4, middle - 11, 8, 22, style="none")
    sheet.mark(STEM, middle, MARKS[verdict.verdict], style=style)
    return below


def _words(sheet: Sheet, y: float, verdict: TransitionVerdict) -> float:
    room = sheet.width - INDENT
    y = sheet.text(INDENT, y, capital(verdict.text), width=room)
    y = sheet.text(INDENT, y + 1, verdict_words(verdict.verdict), width=room, bold=True)
    reasons, more = _reasons(verdict)
    for reason in reasons:
        sheet.text(INDENT, y + 1, "–", size=SMALL)
        y = sheet.text(INDENT + 9, y + 1, reason, width=room - 9, size=SMALL)
    if more:
        y = sheet.text(INDENT + 9, y + 1, f"and {counted(more, 'more reason')}", size=SMALL, italic=True)
    return y


def verdict_words(verdict: str) -> str:
    """A verdict as it stands over its reasons."""
    words = {"carries over if": "carries over if …", "open": "open, a value is missing"}
    return words.get(verdict, verdict)


def _reasons(verdict: TransitionVerdict) -> tuple[Sequence[str], int]:
    """The reasons that decide, at most three, and how many more there are."""
    deciding = [ground.text for ground in verdict.grounds if ground.verdict == verdict.verdict]
    return deciding[:REASONS_SHOWN], max(0, len(deciding) - REASONS_SHOWN)


def counts(explanation: Explanation) -> dict[str, int]:
    """Verdict -> number of steps of the course."""
    course = [verdict.verdict for verdict in explanation.transitions if verdict.on_course]
    return {name: course.count(name) for name in SEVERITY}


def count_words(verdict: str, number: int) -> str:
    """ "2 carry over", "1 is open"."""
    one, many = {
        "carries over": ("carries over", "carry over"),
        "carries over if": ("carries over if something is added or kept", "carry over if something is added or kept"),
        "open": ("is open", "are open"),
        "breaks": ("breaks", "break"),
    }[verdict]
    return f"{number} {one if number == 1 else many}"


def description(explanation: Explanation) -> str:
    """The figure in sentences: every state and step with its verdict and reasons."""
    model = explanation.model
    found = counts(explanation)
    said = joined(count_words(name, number) for name, number in found.items() if number)
    total = sum(found.values())
    told = [sentence(f"The course has {counted(total, 'step')}" + (f": {said}" if said else ""))]
    verdicts = {verdict.id: verdict for verdict in explanation.transitions}
    here = None
    for step in (t for name in model.course for t in model.transitions if t.id == name):
        if step.from_state != here:
            told.append(sentence(f"State: {model.state(step.from_state).text}"))
        verdict = verdicts.get(step.id)
        told.append(_told(verdict) if verdict else sentence(f"Step: {step.text}"))
        told.append(sentence(f"State: {model.state(step.to_state).text}"))
        here = step.to_state
    told += [_told(verdict, "Beside the course") for verdict in explanation.transitions if not verdict.on_course]
    return " ".join(told)


def _told(verdict: TransitionVerdict, where: str = "Step") -> str:
    reasons = "; ".join(ground.text for ground in verdict.grounds if ground.verdict == verdict.verdict)
    words = {"carries over if": "carries over if", "open": "open, a value is missing:"}.get(
        verdict.verdict, f"{verdict.verdict}:"
    )
    return sentence(f"{where}: {verdict.text} — {words} {reasons}".rstrip(": "))
