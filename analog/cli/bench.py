"""`analog bench`: this search beside plain ones, on problems with graded answers."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, cast

import typer

from analog.cli import options
from analog.cli.library import library, stage
from analog.cli.output import as_json, data, progress, table
from analog.errors import InputError, UsageError

if TYPE_CHECKING:
    from collections.abc import Collection

    from analog.bench.ablation import Stage
    from analog.bench.problems import GradedProblem, Split
    from analog.bench.values import TermTable
    from analog.problem.types import Problem
    from analog.search import Searcher


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command("bench")(bench)


def bench(
    split: Annotated[
        str, typer.Option("--split", metavar="NAME", help="development (may be tuned on) or report (only counted).")
    ] = "development",
    ablation: Annotated[bool, typer.Option("--ablation", help="Also add the kinds of evidence one by one.")] = False,
    weights: Annotated[
        bool, typer.Option("--weights", help="Choose the weights of the score by cross-validation (development only).")
    ] = False,
    first_judge: Annotated[
        bool, typer.Option("--first-judge", help="Only the grades of the first judge, over the models of that time.")
    ] = False,
    write: Annotated[bool, typer.Option("--write", help="Put the tables into docs/bench.md of the checkout.")] = False,
    as_json_wanted: options.JsonOption = False,
    corpus: options.CorpusOption = None,
    index: options.IndexOption = None,
) -> None:
    """Compare this search with word search, vector search and both fused, on problems with graded answers.

    Needs the extra `bench` (ranx).
    """
    from importlib.util import find_spec

    if split not in ("development", "report"):
        raise UsageError(f"expected --split development or report, found {split!r}")
    if weights and split == "report":
        raise UsageError("weights are chosen on development problems only; leave out --split report or --weights")
    if find_spec("ranx") is None:
        raise UsageError("the comparison needs the library ranx: pip install 'analog[bench]'")
    page = _page() if write else None

    from analog.bench import report
    from analog.bench.grades import all_judged_models, graded_problems
    from analog.bench.problems import judged_models, load_problems, problems_file
    from analog.bench.run import run_bench

    searcher = library(corpus, index).searcher
    if first_judge:
        problems, judged = load_problems(problems_file(cast("Split", split))), judged_models()
    else:
        models = {name: searcher.index.model(name) for name in searcher.index.ids}
        problems, judged = graded_problems(cast("Split", split), models), all_judged_models()
    terms = _terms(searcher, problems, judged) if ablation or weights else None
    if weights and terms is not None:
        from analog.bench.weights import choose

        chosen = choose(terms, searcher.weights)
        text = (
            f"nDCG@10 with the weights in use {chosen.before:.3f}; chosen on all development problems "
            f"{chosen.fitted:.3f}; on problems left out (5 parts) {chosen.validated:.3f}."
        )
        if page:
            command = "analog bench --weights --write"
            report.write_section(page, "weights", command, f"{text}\n\n{report.markdown(report.weights_table(chosen))}")
        if as_json_wanted:
            record = {
                "before": chosen.before,
                "fitted": chosen.fitted,
                "validated": chosen.validated,
                "weights": {name: round(value, 4) for name, value in chosen.weights.terms.items()},
                "conditions_reach": chosen.weights.conditions_reach,
                "without": {name: round(value, 4) for name, value in chosen.without.items()},
            }
            data(as_json(record))
        else:
            data(text)
            data(table(*report.weights_table(chosen)))
        return
    result = run_bench(searcher, problems, split, judged, lambda done, total: _step("search", done, total))
    if result.missing:
        progress(f"not in the index, and so never found: {', '.join(sorted(result.missing))}")
    stages: tuple[Stage, ...] = ()
    if terms is not None:
        from analog.bench.ablation import ablation as stages_of

        stages = stages_of(terms, searcher.weights)
    if page:
        options_said = f"{' --ablation' if ablation else ''}{' --first-judge' if first_judge else ''}"
        command = f"analog bench --split {split}{options_said} --write"
        report.write_section(
            page, f"{split}{', first judge' if first_judge else ''}", command, report.result_markdown(result, stages)
        )
    if as_json_wanted:
        record = result.to_dict()
        if stages:
            record["ablation"] = [
                {
                    "evidence": s.name,
                    "nDCG@10": dict(s.ndcg),
                    "look-alikes below": s.look_alikes,
                    "brings": {group: list(values) for group, values in s.brings.items()},
                    "over text": {group: list(values) for group, values in s.above_text.items()},
                }
                for s in stages
            ]
        data(as_json(record))
        return
    data(f"{result.problems} problems ({split}), {result.models} models, {result.median_ms:.0f} ms median a search\n")
    tables = [report.systems_table(result, "all"), report.groups_table(result), report.uncovered_table(result)]
    if stages:
        tables += [report.ablation_table(stages), report.gains_table(stages)]
    data("\n\n".join(table(*each) for each in tables))


def _terms(searcher: Searcher, problems: list[GradedProblem], judged: Collection[str]) -> TermTable:
    from analog.bench.run import read_graded
    from analog.bench.values import term_table

    def read(problem: GradedProblem) -> Problem | None:
        try:
            return read_graded(searcher, problem)
        except InputError:
            return None

    return term_table(searcher, problems, read, judged, lambda done, total: _step("terms", done, total))


def _step(name: str, done: int, total: int) -> None:
    if done % 50 == 0 or done == total:
        stage(name, done, total)


def _page() -> Path:
    from analog.locate import checkout

    root = checkout()
    if root is None:
        raise UsageError("--write puts the tables into docs/bench.md of a checkout; this is an installed package")
    return root / "docs" / "bench.md"
