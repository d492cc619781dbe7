"""`analog check --review` and `--coverage`."""

from __future__ import annotations

import json
from pathlib import Path

from tests.cli.conftest import Run


def test_the_review_shows_every_part_of_a_score(run: Run) -> None:
    ran = run("check", "--review", "--json")
    record = json.loads(ran.out)
    assert ran.status == 0
    scores = [model["score"] for model in record["models"]]
    assert len(scores) > 200
    assert scores == sorted(scores, reverse=True)
    for model in record["models"]:
        assert abs(model["score"] - sum(w["part"] for w in model["weaknesses"])) < 1e-3
        assert all(0 < w["part"] <= 1 for w in model["weaknesses"])


def test_the_review_for_a_reader_is_cut_to_the_weakest(run: Run) -> None:
    weakest = json.loads(run("check", "--review", "--json", "--top", "2").out)["models"]
    shown = run("check", "--review", "--top", "2").out
    assert shown.split()[1] == weakest[0]["model"]
    assert weakest[1]["model"] in shown
    assert "more; --top N" in shown
    assert "kinds used by one model only" in shown


def test_coverage_is_printed_or_written(run: Run, tmp_path: Path) -> None:
    printed = run("check", "--coverage")
    assert printed.out.startswith("# What the corpus covers")
    written = run("check", "--coverage", "--write", str(tmp_path))
    assert (written.status, written.out) == (0, "")
    assert (tmp_path / "coverage.md").read_text(encoding="utf-8") == printed.out
    assert (tmp_path / "coverage.svg").stat().st_size > 10_000
    assert len(json.loads(run("check", "--coverage", "--json").out)["functions"]) == 21


def test_options_that_do_not_belong_together_are_refused(run: Run) -> None:
    for arguments in (("--review", "--coverage"), ("--write", "."), ("--top", "3")):
        ran = run("check", *arguments)
        assert ran.status == 2
        assert "expected --" in ran.err
    assert run("check", "--coverage", "--write", "/no/such/folder").status == 2
