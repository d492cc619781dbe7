"""Results as text for a terminal: plain characters, no colour, readable at 80 columns and by a screen reader."""

from __future__ import annotations

from typing import TYPE_CHECKING

from analog.cli.output import wrapped

if TYPE_CHECKING:
    from analog.explain.explanation import Explanation
    from analog.explain.verdict import TransitionVerdict
    from analog.problem.types import Problem
    from analog.search import SearchResult

MARKS = {"carries over": "+", "carries over if": "?", "open": "o", "breaks": "x"}
"""One character a verdict, beside the words."""

GROUNDS_SHOWN = 2


def results(result: SearchResult) -> str:
    """The reading, then the ranked list."""
    lines = [reading(result.problem), ""]
    if not result.results:
        lines.append("No natural system in the corpus comes near this problem.")
    for explained in result.results:
        lines += [summary(explained), ""]
    if len(result.problem.purposes) > 1:
        lines += [portfolio(result), ""]
    lines.append(f"{len(result.results)} results in {result.elapsed_ms:.0f} ms.")
    lines.append(
        wrapped("Analogues are candidates to test, not designs: local codes, standards and licensed practice decide.")
    )
    return "\n".join(lines)


def portfolio(result: SearchResult) -> str:
    """Which analogues together cover the purposes of a problem that has several."""
    lines = ["Together they cover the purposes:"] if result.portfolio.members else []
    for name, covered in result.portfolio.members.items():
        lines.append(wrapped(f"{name}: {'; '.join(covered)}", "     ", "   "))
    for text in result.portfolio.uncovered:
        lines.append(wrapped(f"not covered by any: {text}", "     ", "   "))
    return "\n".join(lines)


def reading(problem: Problem) -> str:
    """How the problem was read, and that it can be overruled."""
    from analog.problem.render import render

    return "\n".join(wrapped(line, "  ", "") for line in render(problem).splitlines())


def _name(explained: Explanation) -> str:
    organism = explained.model.organism
    return f"{organism.common} ({organism.latin})" if organism.latin else organism.common


def identity(explained: Explanation) -> str:
    """Name, id and score, with how often a result of this score was right among graded ones (docs/bench.md)."""
    from analog.rank.calibration import chance

    right = f"right in {100 * chance(explained.score):.0f} of 100 graded cases"
    return f"{_name(explained)} · {explained.model.id} · score {explained.score:.2f}, {right}"


def summary(explained: Explanation) -> str:
    """One ranked result in a few lines."""
    lines = [
        wrapped(f"{explained.rank}. {explained.model.title}", "   ", ""),
        wrapped(identity(explained), "   "),
    ]
    pairs = [
        f"{c.thing_name} ~ {c.part_name}" + (f" [{c.kind}, {c.similarity:.2f}]" if c.kind else " [same role]")
        for c in explained.correspondences
    ]
    if pairs:
        lines.append(wrapped("Corresponds: " + "; ".join(pairs), "     ", "   "))
    for verdict in explained.transitions:
        if verdict.on_course:
            lines.append(transition(verdict, grounds=1))
    broken_off_course = [v for v in explained.transitions if not v.on_course and v.verdict == "breaks"]
    lines += [transition(verdict, grounds=1) for verdict in broken_off_course]
    if explained.carry_overs:
        names = ", ".join(carry.name for carry in explained.carry_overs)
        lines.append(wrapped(f"To add: {names}", "     ", "   "))
    if explained.cautions:
        lines.append(wrapped(f"Caution: {explained.cautions[0]}", "     ", "   "))
    return "\n".join(lines)


def transition(verdict: TransitionVerdict, grounds: int) -> str:
    """A verdict with its first grounds."""
    mark = MARKS[verdict.verdict]
    shown = [ground.text for ground in verdict.grounds if ground.verdict == verdict.verdict][:grounds]
    because = "; ".join(shown)
    word = f"{verdict.verdict}: " if verdict.verdict != "carries over if" else "carries over if "
    return wrapped(f"{mark} {verdict.text} — {word}{because}", "     ", "   ")


def explanation(problem: Problem, explained: Explanation) -> str:
    """Everything about one result."""
    lines = [
        reading(problem),
        "",
        wrapped(explained.model.title),
        wrapped(identity(explained), "  "),
        "",
        wrapped(explained.model.summary),
        "",
        "Correspondences",
    ]
    for c in explained.correspondences:
        role = f", {c.role} of the purpose" if c.role else ""
        meets = f"meet as {c.kind}, similarity {c.similarity:.2f}" if c.kind else "the same role, no common kind"
        lines.append(wrapped(f"{c.thing_name} ~ {c.part_name}: {meets}{role}", "    ", "  "))
        if c.path:
            steps = " ".join([c.path[0].start, *(f"-[{step.relation}]-> {step.end}" for step in c.path)])
            lines.append(wrapped(steps, "      ", "    "))
    if not explained.correspondences:
        lines.append("  none")
    if explained.matched_facts:
        lines += ["", "Relations found again"]
        lines += [wrapped(f"{mine} ~ {theirs}", "    ", "  ") for mine, theirs in explained.matched_facts]
    lines += ["", "Transitions"]
    for verdict in explained.transitions:
        off = "" if verdict.on_course else " (off the primary course)"
        lines.append(wrapped(f"{MARKS[verdict.verdict]} {verdict.text} — {verdict.verdict}{off}", "    ", "  "))
        lines += [wrapped(f"- {MARKS[g.verdict]} {g.text}", "        ", "      ") for g in verdict.grounds]
    if explained.carry_overs:
        lines += ["", "To add or replace"]
        for carry in explained.carry_overs:
            lines.append(wrapped(f"{carry.name} [{carry.kind}]: {'; '.join(carry.relations)}", "    ", "  "))
    if explained.cautions:
        lines += ["", "Cautions", *(wrapped(f"- {caution}", "    ", "  ") for caution in explained.cautions)]
    terms = ", ".join(f"{name} {value:.2f}" for name, value in explained.scores.items())
    lines += ["", wrapped(f"Score {explained.score:.3f} from: {terms}", "  ")]
    return "\n".join(lines)
