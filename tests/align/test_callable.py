"""The package can be called, and the room of the same name stays a room."""

from __future__ import annotations

import subprocess
import sys

import analog
from analog.align.report import AlignmentReport, align

BASE, TARGET = ["cause(pulls(a, b), moves(b, a))"], ["cause(pulls(x, y), moves(y, x))"]


def test_all_ways_to_call_it_agree() -> None:
    report: AlignmentReport = analog.align(BASE, TARGET)
    assert [str(match) for match in report.things] == ["a -> x", "b -> y"]
    assert report.things == align(BASE, TARGET).things == analog.align_relations(BASE, TARGET).things


def test_it_works_without_importing_the_room_first_and_loads_no_solver_before_the_call() -> None:
    code = (
        "import sys, analog; analog.align; assert 'numpy' not in sys.modules, 'numpy'; "
        f"print(analog.align({BASE!r}, {TARGET!r}, time_limit_seconds=5).optimal); "
        "from analog.align.report import align"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "True"
