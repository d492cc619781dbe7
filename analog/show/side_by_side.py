"""Models side by side: for a terminal, as a page, as Markdown. The record is analog.explain.comparison.Comparison."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Sequence

from analog.errors import printable
from analog.explain.comparison import Comparison, Criterion
from analog.figures import available
from analog.figures.figure import Figure

CAUTION = "Analogues are candidates to test, not designs: local codes, standards and licensed practice decide."

_MARKS = re.compile(r"([\\`*_{}\[\]<>()#+|~!&])")
"""Characters that CommonMark or its tables would take for marks."""


def headings(compared: Comparison) -> dict[str, list[Criterion]]:
    """Heading -> its criteria, in their order."""
    grouped: dict[str, list[Criterion]] = {}
    for criterion in compared.criteria:
        grouped.setdefault(criterion.heading, []).append(criterion)
    return grouped


def text(compared: Comparison, width: int = 80) -> str:
    """For a terminal: sentences as lists, figures as a table whose columns are numbered. Ends without a newline."""
    return "\n".join(_lines(compared, width))


def _lines(compared: Comparison, width: int) -> Iterator[str]:
    if compared.problem:
        yield _filled(f"Compared for: {compared.problem}", "  ", "", width)
    for number, model in enumerate(compared.models, start=1):
        yield _filled(f"{number} = {model.title} ({model.id})", "    ", "", width)
    for heading, criteria in headings(compared).items():
        yield ""
        yield heading
        for criterion in criteria:
            if criterion.name == "Title" or criterion.short:
                continue
            yield _filled(criterion.name, "  ", "  ", width)
            if len(set(criterion.values)) == 1:
                yield _filled(f"all: {criterion.values[0]}", "       ", "    ", width)
                continue
            for number, value in enumerate(criterion.values, start=1):
                yield _filled(f"{number}: {value}", "       ", "    ", width)
        short = [criterion for criterion in criteria if criterion.short]
        if short:
            yield from _table(short)


def _filled(line: str, indent: str, first: str, width: int) -> str:
    clean = " ".join(printable(line).split())
    return textwrap.fill(clean, width, initial_indent=first, subsequent_indent=indent, break_on_hyphens=False)


def _table(criteria: Sequence[Criterion]) -> Iterator[str]:
    """Short values under the numbers of the models."""
    numbers = [str(number) for number in range(1, len(criteria[0].values) + 1)]
    rows = [["", *numbers], *([criterion.name, *criterion.values] for criterion in criteria)]
    widths = [max(len(row[place]) for row in rows) for place in range(len(rows[0]))]
    for row in rows:
        cells = [
            cell.ljust(w) if place == 0 else cell.rjust(w)
            for place, (cell, w) in enumerate(zip(row, widths, strict=True))
        ]
        yield ("  " + "  ".join(cells)).rstrip()


def markdown(compared: Comparison) -> str:
    """As Markdown (CommonMark with tables as GitHub has them); every mark in a text is escaped."""
    lines = ["# Candidates side by side", ""]
    if compared.problem:
        lines += [f"Problem: {_escaped(compared.problem)}", ""]
    columns = [f"{number}. {_escaped(model.title)}" for number, model in enumerate(compared.models, start=1)]
    for heading, criteria in headings(compared).items():
        lines += [f"## {heading}", "", "| | " + " | ".join(columns) + " |", "|---" * (len(columns) + 1) + "|"]
        for criterion in criteria:
            if criterion.name != "Title":
                lines.append(
                    f"| {criterion.name} | " + " | ".join(_escaped(value) for value in criterion.values) + " |"
                )
        lines.append("")
    return "\n".join([*lines, CAUTION, ""])


def _escaped(text: str) -> str:
    return _MARKS.sub(r"\\\1", " ".join(printable(text).split()))


def figure(compared: Comparison) -> Figure:
    """The comparison as a picture. Raises UsageError without a problem, or without matplotlib."""
    from analog.errors import UsageError
    from analog.figures.comparison import comparison

    if not compared.results:
        raise UsageError("expected --problem for a figure: without a problem there is no score and no verdict to draw")
    return comparison(compared.results, compared.scale)


def page(compared: Comparison) -> str:
    """As one self-contained page with the tables and, under a problem, the figures."""
    from analog.show.pages import NO_FIGURES, rendered

    figures = []
    if compared.results and available():
        from analog.figures.terms import ranking_terms

        figures = [figure(compared), ranking_terms(compared.results)]
    return rendered(
        "comparison.html",
        compared=compared,
        headings=headings(compared),
        figures=figures,
        missing=NO_FIGURES if compared.results and not available() else "",
        caution=CAUTION,
    )
