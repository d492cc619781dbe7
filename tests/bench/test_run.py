"""The comparison and its tables, on rankings given by hand."""

from pathlib import Path

import numpy as np
import pytest

from analog.bench.problems import GradedProblem
from analog.bench.report import groups_table, markdown, result_markdown, systems_table, write_section
from analog.bench.run import OURS, BenchResult, compare, only
from analog.errors import FormatError

PROBLEMS = [
    GradedProblem("p", "t", (), "near", "imperative", "trade", {"a": 3}, ("b",), True),
    GradedProblem("q", "t", ("no water",), "far", "complaint", "trade", {"b": 3}, ("a",), True),
    GradedProblem("r", "t", (), "near", "imperative", "trade", {}, (), False),
]
SYSTEMS = {
    OURS: {"p": ["a", "b"], "q": ["b", "a"], "r": ["a"]},
    "good": {"p": ["a", "b"], "q": ["x", "y", "b"], "r": ["a"]},
    "poor": {"p": ["x"], "q": ["x"], "r": ["a"]},
}


def result() -> BenchResult:
    rows, differences = compare(SYSTEMS, PROBLEMS)
    scores = {"covered": np.array([0.8, 0.6]), "not covered": np.array([0.3])}
    return BenchResult("development", 4, 4, 3, rows, differences, scores, 12.0, 1.0)


def test_groups_and_best_peer() -> None:
    """`good` finds b at rank 3, worth 1 / log2(4) = 0.5, so it has a mean of 0.75 over both covered problems."""
    rows, differences = compare(SYSTEMS, PROBLEMS)
    means = {(row.system, row.group): row.means["nDCG@10"] for row in rows}
    assert means[OURS, "all"] == pytest.approx(1)
    assert means["good", "all"] == pytest.approx((1 + 0.5) / 2)
    assert means["good", "far"] == means["good", "conditions"] == means["good", "complaints"] == pytest.approx(0.5)
    assert {d.group: (d.peer, d.mean) for d in differences}["all"] == ("good", pytest.approx(0.25))
    look_alikes = {(row.system, row.group): row.means["look-alikes below"] for row in rows}
    assert (look_alikes[OURS, "all"], look_alikes["good", "all"], look_alikes["poor", "all"]) == (1, 1, 0)


def test_models_that_nobody_graded_are_taken_out_of_the_rankings() -> None:
    """Sakai (2007), SIGIR, 71-78: a condensed list keeps the order of the judged ones."""
    assert only({"a", "b"}, {"p": ["new", "b", "newer", "a"], "q": ["new"]}) == {"p": ["b", "a"], "q": []}


def test_tables_hold_every_search_and_group() -> None:
    header, rows = systems_table(result(), "all")
    assert header[:2] == ["search", "nDCG@10"]
    assert [row[:2] for row in rows] == [[OURS, "1.000"], ["good", "0.750"], ["poor", "0.000"]]
    assert [row[0] for row in groups_table(result())[1]] == ["all", "near", "far", "conditions", "complaints"]
    assert markdown((["a", "b"], [["x|y", "1"]])) == "| a | b |\n| --- | ---: |\n| x\\|y | 1 |"


def test_a_section_is_replaced_and_the_rest_stays(tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    page.write_text("# Head\n\n<!-- begin report -->\nold\n<!-- end report -->\n\nTail\n", encoding="utf-8")
    write_section(page, "report", "analog bench --split report --write", result_markdown(result()))
    text = page.read_text(encoding="utf-8")
    assert text.startswith("# Head\n\n<!-- begin report -->")
    assert text.endswith("<!-- end report -->\n\nTail\n")
    assert "Made by `analog bench --split report --write`." in text
    assert "old" not in text
    write_section(page, "report", "analog bench --split report --write", result_markdown(result()))
    assert page.read_text(encoding="utf-8") == text
    assert [path.name for path in tmp_path.iterdir()] == ["page.md"]


def test_a_page_without_markers_is_left_alone(tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    page.write_text("# Head\n", encoding="utf-8")
    with pytest.raises(FormatError, match="begin report"):
        write_section(page, "report", "analog bench", "text")
    assert page.read_text(encoding="utf-8") == "# Head\n"
