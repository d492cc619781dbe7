"""`analog check`: the faults and weaknesses of model files."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from analog.cli import options
from analog.cli.output import as_json, data, wrapped


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("check")(check)


def check(
    paths: Annotated[
        list[Path] | None, typer.Argument(metavar="[PATH]...", help="Model files or folders. Default: the corpus.")
    ] = None,
    as_json_wanted: options.JsonOption = False,
    errors_only: Annotated[bool, typer.Option("--errors", help="Leave out advice.")] = False,
    corpus: options.CorpusOption = None,
) -> None:
    """Check models: every finding with file, line, field, what was found and expected, and how to mend it.

    Sub-purposes may name models of the given paths and of the corpus. Exit 1 if there is an error.
    """
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
