"""Tables of a run, for the console and for docs/bench.md."""

from __future__ import annotations

import math
import os
from collections.abc import Iterable, Sequence
from pathlib import Path

import numpy as np

from analog.bench.ablation import Stage
from analog.bench.metrics import MEASURES
from analog.bench.run import GROUPS, LOOK_ALIKES, BenchResult
from analog.bench.weights import ChosenWeights
from analog.errors import FormatError

Table = tuple[list[str], list[list[str]]]
"""Header and rows, all text."""

SYSTEM_COLUMNS = (*MEASURES, LOOK_ALIKES)


def number(value: float) -> str:
    """Three decimals; a dash where there is no value."""
    return "–" if math.isnan(value) else f"{value:.3f}"


def systems_table(result: BenchResult, group: str) -> Table:
    """Every search on one group."""
    rows = [[r.system, *(number(r.means[name]) for name in SYSTEM_COLUMNS)] for r in result.rows if r.group == group]
    return ["search", *SYSTEM_COLUMNS], rows


def groups_table(result: BenchResult) -> Table:
    """This search by group, beside the best peer of the group."""
    rows = []
    for difference in result.differences:
        row = next(r for r in result.rows if r.group == difference.group)
        peer = next(r for r in result.rows if r.group == difference.group and r.system == difference.peer)
        rows.append(
            [
                difference.group,
                str(row.problems),
                number(row.means["nDCG@10"]),
                number(peer.means["nDCG@10"]),
                interval((difference.mean, difference.low, difference.high)),
                difference.peer,
            ]
        )
    return ["group", "problems", "nDCG@10", "best peer", "difference, 95 % interval", "which peer"], rows


def uncovered_table(result: BenchResult) -> Table:
    """Score of the first result where the corpus has an answer and where it has none."""
    rows = []
    for name, scores in result.best_scores.items():
        if len(scores):
            quartiles = np.percentile(scores, [0, 25, 50, 75, 100])
            rows.append([name, str(len(scores)), *(number(float(q)) for q in quartiles)])
    return ["first result", "problems", "lowest", "quarter", "median", "three quarters", "highest"], rows


def ablation_table(stages: Sequence[Stage]) -> Table:
    """Stages down, groups across."""
    nothing = float("nan")
    rows = [[s.name, *(number(s.ndcg.get(group, nothing)) for group in GROUPS), number(s.look_alikes)] for s in stages]
    return ["evidence", *(f"nDCG@10 {group}" for group in GROUPS), LOOK_ALIKES], rows


def gains_table(stages: Sequence[Stage]) -> Table:
    """What each stage brings over the one before, and all up to it over text alone, with 95 % intervals."""
    groups = [group for group in ("all", "far") if stages and group in stages[0].ndcg]
    header = ["evidence"]
    for group in groups:
        header += [f"brings, {group}", f"over text, {group}"]
    rows = [
        [stage.name, *(interval(each[group]) for group in groups for each in (stage.brings, stage.above_text))]
        for stage in stages[1:]
    ]
    return header, rows


def interval(difference: tuple[float, float, float]) -> str:
    """A difference with its interval."""
    mean, low, high = difference
    return f"{mean:+.3f} [{low:+.3f}, {high:+.3f}]"


def weights_table(chosen: ChosenWeights) -> Table:
    """Weight of each term, its spread over the folds, and what the others reach without it."""
    rows = []
    for name, weight in chosen.weights.terms.items():
        low, high = chosen.spread[name]
        without = chosen.without[name]
        loss = f"{chosen.validated - without:+.3f}"
        rows.append([name, number(weight), f"{number(low)}–{number(high)}", number(without), loss])
    without = chosen.without["conditions"]
    reach = f"reach {number(chosen.weights.conditions_reach)}"
    rows.append(["conditions", reach, "", number(without), f"{chosen.validated - without:+.3f}"])
    return ["term", "weight", "over the folds", "nDCG@10 without", "brings"], rows


def markdown(table: Table) -> str:
    """A table in Markdown."""
    header, rows = table

    def line(cells: Iterable[str]) -> str:
        return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"

    rule = "| --- |" + " ---: |" * (len(header) - 1)
    return "\n".join([line(header), rule, *(line(row) for row in rows)])


def result_markdown(result: BenchResult, stages: Sequence[Stage] = ()) -> str:
    """The generated part of docs/bench.md for one split."""
    lines = [
        f"{result.problems} problems, {result.models} models of which {result.judged} were graded, "
        f"{result.median_ms:.0f} ms median a search (reading not counted).",
    ]
    if result.missing:
        lines.append(f"Not in the index, and so never found: {', '.join(sorted(result.missing))}.")
    if result.unread:
        lines.append(f"Could not be read (empty ranking): {', '.join(sorted(result.unread))}.")
    if result.not_understood:
        undecided = sum(len(given) for given in result.not_understood.values())
        lines.append(f"Given conditions that were not understood and so decide nothing: {undecided}.")
    lines += ["", markdown(systems_table(result, "all")), "", markdown(groups_table(result)), ""]
    lines += ["Score of the first result:", "", markdown(uncovered_table(result))]
    if stages:
        lines += ["", "Evidence added step by step:", "", markdown(ablation_table(stages))]
        lines += [
            "",
            "What each step brings in nDCG@10, with 95 % intervals of the paired bootstrap over problems:",
            "",
        ]
        lines.append(markdown(gains_table(stages)))
    return "\n".join(lines)


def markers(section: str) -> tuple[str, str]:
    """The lines between which a generated section stands."""
    return f"<!-- begin {section} -->", f"<!-- end {section} -->"


def write_section(path: Path, section: str, command: str, text: str) -> None:
    """Put a generated section into a Markdown file between its markers, with the command that made it.

    Raises FormatError if the markers are not there, each once and in order. The file is replaced in one step.
    """
    begin, end = markers(section)
    try:
        page = path.read_text(encoding="utf-8")
    except OSError as fault:
        raise FormatError(f"cannot be read: {fault}", path=str(path)) from fault
    if page.count(begin) != 1 or page.count(end) != 1 or page.index(begin) > page.index(end):
        raise FormatError(f"expected {begin!r} and later {end!r}, each once", path=str(path))
    head, tail = page[: page.index(begin) + len(begin)], page[page.index(end) :]
    beside = path.with_name(f"{path.name}.new-{os.getpid()}")
    try:
        beside.write_text(f"{head}\n\nMade by `{command}`.\n\n{text}\n\n{tail}", encoding="utf-8")
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
