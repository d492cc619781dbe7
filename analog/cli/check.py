"""`analog check`: the faults and weaknesses of model files."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from analog.cli import options
from analog.cli.output import as_json, data, wrapped
from analog.errors import UsageError


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("check")(check)


def check(
    paths: Annotated[
        list[Path] | None, typer.Argument(metavar="[PATH]...", help="Model files or folders. Default: the corpus.")
    ] = None,
    as_json_wanted: options.JsonOption = False,
    errors_only: Annotated[bool, typer.Option("--errors", help="Leave out advice.")] = False,
    review: Annotated[
        bool, typer.Option("--review", help="List the models by weakness instead, weakest first, with every part.")
    ] = False,
    top: Annotated[
        int | None, typer.Option("--top", metavar="N", min=1, help="With --review: how many models.")
    ] = None,
    coverage: Annotated[
        bool, typer.Option("--coverage", help="Show instead which functions, settings and sizes the models cover.")
    ] = False,
    write: Annotated[
        Path | None,
        typer.Option("--write", metavar="DIR", help="With --coverage: write coverage.md and coverage.svg into DIR."),
    ] = None,
    corpus: options.CorpusOption = None,
) -> None:
    """Check models: every finding with file, line, field, what was found and expected, and how to mend it.

    Sub-purposes may name models of the given paths and of the corpus. Exit 1 if there is an error.
    """
    if review and coverage:
        raise UsageError("expected --review or --coverage, got both")
    if write is not None and not coverage:
        raise UsageError("expected --coverage with --write")
    if top is not None and not review:
        raise UsageError("expected --review with --top")
    if review or coverage:
        from analog.cli.review import show_coverage, show_review
        from analog.locate import corpus_folder

        places = paths or [corpus_folder(corpus)]
        if review:
            show_review(places, corpus_folder(corpus), top, as_json_wanted)
        else:
            show_coverage(places, write, as_json_wanted)
        return
    from analog.cli.known import known_terms
    from analog.locate import corpus_folder
    from analog.model.check import check_paths

    checked = check_paths(paths or [corpus_folder(corpus)], corpus_folder(corpus), known_terms())
    findings = [f for f in checked.findings if f.severity == "error" or not errors_only]
    errors = sum(f.severity == "error" for f in findings)
    advice = len(findings) - errors
    if as_json_wanted:
        record = {
            "models": checked.models,
            "errors": errors,
            "advice": advice,
            "findings": [f.to_dict() for f in findings],
        }
        data(as_json(record))
    else:
        for finding in findings:
            place = finding.file + (f":{finding.line}" if finding.line else "")
            data(f"{place}: {finding.severity} ({finding.rule})" + (f" at {finding.field}" if finding.field else ""))
            data(wrapped(f"found {finding.found}; expected {finding.expected}. {finding.mend}", "    "))
        data(f"{checked.models} models read, {errors} errors, {advice} pieces of advice")
    if errors:
        raise typer.Exit(1)
