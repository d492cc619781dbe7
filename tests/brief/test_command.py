"""`analog brief` from the command line: choices, refusals and what is written."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from analog.api import Library
from analog.brief.views import brief_schema
from tests.cli.conftest import Run, run  # noqa: F401 - the fixture is used by its name

DUST = "remove dust from solar panels"


def test_without_models_the_best_result_is_told_and_the_command_is_kept(run: Run, library: Library,  # noqa: F811
                                                                        tmp_path: Path) -> None:  # fmt: skip
    path = tmp_path / "brief.json"
    ran = run("brief", "--problem", DUST, "--given", "no water available", "-o", str(path))
    assert ran.status == 0, ran.err
    record = json.loads(path.read_text(encoding="utf-8"))
    best = library.search(DUST, ["no water available"], top=1).results[0].model.id
    assert [analogue["id"] for analogue in record["analogues"]] == [best]
    assert record["made"]["command"].startswith("analog")


def test_a_problem_without_analogue_is_told_on_standard_error_too(run: Run, tmp_path: Path) -> None:  # noqa: F811
    ran = run("brief", "--problem", "negotiate a lower interest rate with a bank", "-o", str(tmp_path / "b.md"))
    assert ran.status == 0
    assert "no good analogue" in ran.err
    assert "No good analogue was found" in (tmp_path / "b.md").read_text(encoding="utf-8")


def test_the_schema_is_printed(run: Run) -> None:  # noqa: F811
    ran = run("brief", "--schema")
    assert ran.status == 0
    assert ran.out == brief_schema()


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--problem", DUST), "-o FILE"),
        (("-o", "x.md"), "--problem"),
        (("cat-tongue-papillae", "--portfolio", "--problem", DUST, "-o", "x.md"), "found both"),
        (("--problem", DUST, "-o", "x.odt"), "expected a file ending in .md, .html, .pdf, .docx, .json"),
        (("--problem", DUST, "-o", "x.pdf", "--paper", "a3"), "a3"),
    ],
)
def test_wrong_calls_are_told(run: Run, arguments: tuple[str, ...], says: str, tmp_path: Path,  # noqa: F811
                              monkeypatch: pytest.MonkeyPatch) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    ran = run("brief", *arguments)
    assert ran.status == 2
    assert says in ran.err
    assert "Traceback" not in ran.err
    assert list(tmp_path.iterdir()) == []


def test_an_existing_file_is_kept(run: Run, tmp_path: Path) -> None:  # noqa: F811
    path = tmp_path / "brief.html"
    path.write_text("kept", encoding="utf-8")
    ran = run("brief", "cat-tongue-papillae", "--problem", DUST, "-o", str(path))
    assert ran.status == 2
    assert path.read_text(encoding="utf-8") == "kept"
