"""A model for a terminal: plain characters, no colour, wrapped to a width, readable by a screen reader."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from analog.errors import printable
from analog.explain.sentences import counted
from analog.show.account import Account, Figured, StateTold, StepTold, in_turn


def text(told: Account, width: int = 80) -> str:
    """The whole account; ends without a newline. width : columns."""
    return "\n".join(wrapped(line, indent, first, width) for indent, first, line in _lines(told))


def wrapped(line: str, indent: str, first: str, width: int) -> str:
    """One paragraph: `first` starts it, `indent` its other lines."""
    clean = " ".join(printable(line).split())
    if not clean:
        return ""
    return textwrap.fill(clean, width, initial_indent=first, subsequent_indent=indent, break_on_hyphens=False)


Line = tuple[str, str, str]


def _lines(told: Account) -> Iterator[Line]:
    yield "", "", told.title
    yield "  ", "  ", f"{told.system} · {told.id}"
    yield "  ", "  ", told.outline
    yield from _section("What it does", [told.summary], mark="")
    yield from _section("Where", [told.habitat], mark="")
    yield from _section("How large", [size.words for size in told.sizes])
    yield from _section("Purposes", told.purposes)
    yield from _section("Purposes within it", told.sub_purposes)
    yield from _heading(f"Parts ({len(told.parts)})")
    for part in told.parts:
        yield "      ", "  - ", f"{part.name} ({part.about})"
        yield from _figures(part.quantities, "      ")
    yield from _section("Structure", told.structure)
    course, others = in_turn(told)
    beside = [step for step in told.steps if not step.number]
    yield from _heading("Course")
    yield from _course(course)
    if beside or others:
        yield from _heading("Beside the course")
        yield from _course([*beside, *others])
    yield from _section("Where it fails", told.limits)
    yield from _section("Built after it", told.precedents)
    yield from _section("Contested", told.disputes)
    yield from _section("Questions it answers", told.questions)
    yield from _heading(f"Sources ({counted(sum(s.seen for s in told.sources), 'record')} looked up)")
    for source in told.sources:
        doi = f" doi {source.doi}" if source.doi else ""
        seen = "" if source.seen else " From memory."
        yield "      ", "  - ", f"[{source.key}] {source.text}{doi}{seen}"


def _heading(heading: str) -> Iterator[Line]:
    yield "", "", ""
    yield "", "", heading


def _section(heading: str, texts: Iterable[str], *, mark: str = "- ") -> Iterator[Line]:
    """A heading with a list, or nothing if there is nothing to list."""
    texts = list(texts)
    if not texts:
        return
    yield from _heading(heading)
    for line in texts:
        yield "  " + " " * len(mark), "  " + mark, line


def _figures(figures: Iterable[Figured], indent: str) -> Iterator[Line]:
    for figure in figures:
        yield indent + "  ", indent + "· ", figure.words


def _course(course: Iterable[StateTold | StepTold]) -> Iterator[Line]:
    """States and steps in turn."""
    for item in course:
        if isinstance(item, StateTold):
            yield from _state(item)
        else:
            yield from _step(item)


def _state(state: StateTold) -> Iterator[Line]:
    yield "      ", "  ", f"[{state.number}] {state.text}"
    for fact in state.facts:
        yield "        ", "      · ", fact


def _step(step: StepTold) -> Iterator[Line]:
    where = "" if step.number else f"{step.start} to {step.end}: "
    yield "        ", "   |  ", f"{where}{step.text}"
    for reason in step.reasons:
        yield "            ", "        ", f"Why ({reason.sort}): {reason.text}"
        yield from _figures(reason.values, "            ")
    for need in step.needs:
        yield "            ", "        ", f"It {need[:1].lower()}{need[1:]}"
