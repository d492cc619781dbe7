"""The table of check values is in step with the lists the tests run."""

from __future__ import annotations

from pathlib import Path

import pytest

from analog.scale.evaluate import shipped_principles
from analog.scale.table import check_lines, checkout_lists, page

ROOT = Path(__file__).resolve().parents[2]


def test_the_page_is_what_the_module_makes() -> None:
    made = page(check_lines(checkout_lists(ROOT)), shipped_principles())
    kept = (ROOT / "docs" / "principles.md").read_text(encoding="utf-8")
    assert kept == made, "run: python -m analog.scale.table --write"


def test_a_line_tells_our_value_and_its_error() -> None:
    [line] = check_lines({"field": [("ratio", (1.0, 4.0), 0.26, 0.05, "one quarter, rounded up")]})
    assert line.ours == 0.25
    assert line.error == pytest.approx(0.01 / 0.26)


def test_every_function_of_the_records_has_a_check_value() -> None:
    checked = {line.name for line in check_lines(checkout_lists(ROOT))}
    used = {group.function for p in shipped_principles().values() for group in p.groups}
    used |= {p.equation.function for p in shipped_principles().values() if p.equation and p.equation.function}
    assert not used - checked
