"""The table of check values in docs/principles.md, made from the lists the tests run, and the counts in docs/scale.md.

    python -m analog.scale.table            print the page of check values
    python -m analog.scale.table --write    write both pages of this checkout

Every test file tests/scale/test_*_values.py holds a list CHECKS of (function, inputs, expected, tolerance or kind of
source, source); each becomes a line with our value and its relative error.
"""

from __future__ import annotations

import importlib
import sys
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from analog.model.types import Principle
from analog.scale.registry import function

HEADER = """# Principles and their check values

This page is generated from the check lists in `tests/scale` by `python -m analog.scale.table --write`; a test keeps
it in step. Inputs are in SI units, angles in radians. *Relative error* is of our value against the expected one; a
figure from memory or from a rounded sum is held to less than a library's.
"""


@dataclass(frozen=True)
class CheckLine:
    """One check value. error : relative, absolute where the expected value is 0."""

    field: str
    name: str
    inputs: str
    expected: float
    ours: float
    error: float
    source: str


def check_lines(lists: Mapping[str, Iterable[tuple[Any, ...]]]) -> list[CheckLine]:
    """The lines of the table. lists : field -> its CHECKS."""
    lines = []
    for field, checks in lists.items():
        for name, inputs, expected, _, source in checks:
            arguments: Any = inputs
            if isinstance(arguments, Mapping):
                ours, told = function(name)(**arguments), list(arguments.values())
            else:
                told = list(arguments) if isinstance(arguments, tuple | list) else [arguments]
                ours = function(name)(*told)
            error = abs(float(ours) - expected) / (abs(expected) or 1.0)
            shown = ", ".join(_number(value) for value in told)
            lines.append(CheckLine(field, name, shown, float(expected), float(ours), error, str(source)))
    return lines


def _number(value: Any) -> str:
    return f"{value:.6g}" if isinstance(value, int | float) else str(value)


def page(lines: Iterable[CheckLine], principles: Mapping[str, Principle]) -> str:
    """The whole page as Markdown."""
    shown = list(lines)
    used: dict[str, list[str]] = {}
    for principle in principles.values():
        names = {group.function for group in principle.groups}
        if principle.equation and principle.equation.function:
            names.add(principle.equation.function)
        for name in names:
            used.setdefault(name, []).append(principle.id)
    computing = [p for p in principles.values() if p.groups or (p.equation and p.equation.function)]
    bounded = [p for p in principles.values() if any(b.group and (b.low, b.high) != (None, None) for b in p.regime)]
    text = [
        HEADER,
        f"{len(principles)} principles; {len(computing)} compute something, {len(bounded)} have a bound in numbers. "
        f"{len(shown)} check values of {len({line.name for line in shown})} functions.\n",
    ]
    for field in dict.fromkeys(line.field for line in shown):
        text.append(f"## {field.capitalize()}\n")
        text.append("| function | inputs | expected | ours | relative error | used by | source |")
        text.append("| --- | --- | --- | --- | --- | --- | --- |")
        for line in (line for line in shown if line.field == field):
            # two digits of an error, and none below what rounding of the sums gives on another machine
            error = "< 1e-9" if line.error < 1e-9 else f"{line.error:.1e}"
            by = ", ".join(sorted(used.get(line.name, [])))
            cells = (line.name, line.inputs, f"{line.expected:.6g}", f"{line.ours:.6g}", error, by, line.source)
            text.append("| " + " | ".join(cell.replace("|", "/") for cell in cells) + " |")
        text.append("")
    return "\n".join(text)


def checkout_lists(root: Path) -> dict[str, list[tuple[Any, ...]]]:
    """Field -> CHECKS of every test file of computed values in a checkout."""
    if str(root) not in sys.path:
        sys.path.insert(0, str(root))
    lists = {}
    for path in sorted((root / "tests" / "scale").glob("test_*_values.py")):
        field = path.stem.removeprefix("test_").removesuffix("_values")
        lists[field] = list(importlib.import_module(f"tests.scale.{path.stem}").CHECKS)
    return lists


START, END = "<!-- counts: made by python -m analog.scale.table --write -->", "<!-- end of counts -->"


def with_counts(text: str, counted: str) -> str:
    """docs/scale.md with the counts between its two marks replaced. Raises ValueError if a mark is missing."""
    before, start, rest = text.partition(START)
    _, end, after = rest.partition(END)
    if not start or not end:
        raise ValueError(f"expected the marks {START!r} and {END!r}")
    return f"{before}{START}\n\n{counted}\n\n{END}{after}"


def main(arguments: list[str]) -> int:
    """Print or write the page."""
    from analog.files import write_text
    from analog.locate import checkout
    from analog.model.load import load_corpus
    from analog.scale.corpus import counts, nature_checks
    from analog.scale.evaluate import shipped_principles

    root = checkout()
    if root is None:
        sys.stderr.write("expected a checkout with tests/scale, found an installed package\n")
        return 1
    text = page(check_lines(checkout_lists(root)), shipped_principles())
    if "--write" in arguments:
        write_text(root / "docs" / "principles.md", text, replace=True)
        guide = root / "docs" / "scale.md"
        counted = counts(nature_checks(load_corpus(root / "corpus").models, shipped_principles()))
        write_text(guide, with_counts(guide.read_text(encoding="utf-8"), counted), replace=True)
    else:
        sys.stdout.write(text)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
