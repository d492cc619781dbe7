"""`analog align`: two plain relation lists, or two lists of terms without relations."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from analog.cli import options
from analog.cli.output import as_json, data, wrapped
from analog.errors import FormatError

if TYPE_CHECKING:
    from analog.align.report import AlignmentReport
    from analog.align.term_lists import TermReport

BaseArgument = Annotated[
    Path,
    typer.Argument(
        metavar="A.json",
        help='The base: {"facts": ["attracts(sun, planet)", …]}, or terms alone: {"terms": ["sun", "planet", …]}.',
    ),
]
TargetArgument = Annotated[Path, typer.Argument(metavar="B.json", help="The target, in the same form.")]
LimitOption = Annotated[float, typer.Option("--time-limit", min=0.01, max=3600, help="Seconds for the exact solver.")]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("align")(align)


def align(
    base: BaseArgument,
    target: TargetArgument,
    as_json_wanted: options.JsonOption = False,
    time_limit: LimitOption = 10.0,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Align two systems of relations: what corresponds to what, and what could be inferred."""
    from analog.align.report import align_files, read_json

    with_terms = [path for path in (base, target) if _has_terms(read_json(path))]
    if len(with_terms) == 1:
        raise FormatError('expected either two lists of "facts" or two lists of "terms"', path=str(with_terms[0]))
    if with_terms:
        terms(base, target, as_json_wanted, time_limit, corpus, index)
        return
    report = align_files(base, target, time_limit)
    if as_json_wanted:
        data(as_json(report.to_dict()))
        return
    data(f"Worth {report.value:.3f} ({_proof(report)})")
    for pair in report.things:
        data(wrapped(f"{pair.base} -> {pair.target}", "      ", "  "))
    for heading, lines in (("Relations matched", report.relations), ("Could be inferred", report.inferences)):
        if lines:
            data(f"{heading}:")
            for line in lines:
                data(wrapped(str(line), "      ", "  "))


def terms(
    base: Path, target: Path, as_json_wanted: bool, time_limit: float, corpus: Path | None, index: Path | None
) -> None:
    """Two lists of terms; only they need the index, for its vocabulary and its encoder."""
    from analog.align.report import read_json
    from analog.align.term_lists import NOTE, terms_of
    from analog.cli.library import library

    mine, theirs = (terms_of(read_json(path), str(path)) for path in (base, target))
    report = library(corpus, index).align_terms(mine, theirs, time_limit)
    if as_json_wanted:
        data(as_json(report.to_dict()))
        return
    data(f"Worth {report.value:.3f} ({_proof(report)})")
    data(wrapped(f"{NOTE[0].upper()}{NOTE[1:]}.", "", ""))
    for match in report.terms:
        data(wrapped(f"{match.base} -> {match.target}", "      ", "  "))
    if report.unmatched:
        data(wrapped(f"Left over: {', '.join(report.unmatched)}", "      ", ""))
    if report.shared:
        data("The same relation on both sides:")
        for shared in report.shared:
            data(wrapped(str(shared), "      ", "  "))


def _has_terms(content: Any) -> bool:
    return isinstance(content, dict) and "terms" in content


def _proof(report: AlignmentReport | TermReport) -> str:
    return "proven best" if report.optimal else f"not proven, gap {report.gap:.1%}"
