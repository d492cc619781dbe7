"""`analog show` and `analog compare`: formats, files, and what they say to a wrong call."""

from __future__ import annotations

import html
import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.cli.conftest import Run
from tests.test_hostile_input import call

DUST = "remove dust from solar panels"
LOTUS, GECKO, COMB = "lotus-leaf-rolling-drops", "gecko-toe-dry-self-cleaning", "ant-antenna-comb"


def test_a_model_is_told_in_80_columns_without_colour(run: Run) -> None:
    ran = run("show", LOTUS)
    assert ran.status == 0 and ran.err == ""
    assert max(map(len, ran.out.splitlines())) <= 80
    assert "\x1b" not in ran.out
    assert "The wax tubules cover the papilla." in ran.out


def test_json_is_the_record(run: Run) -> None:
    by_flag, by_format = run("show", LOTUS, "--json"), run("show", LOTUS, "--format", "json")
    assert by_flag.out == by_format.out
    assert json.loads(by_flag.out)["id"] == LOTUS


@pytest.mark.parametrize("ending", ["txt", "html", "svg", "graphml", "json"])
def test_the_ending_picks_the_format_and_standard_output_gives_the_same(run: Run, tmp_path: Path, ending: str) -> None:
    if ending in {"html", "svg"}:
        pytest.importorskip("matplotlib")
    path = tmp_path / f"model.{ending}"
    ran = run("show", LOTUS, "-o", str(path))
    assert (ran.status, ran.out) == (0, "")
    assert str(path) in ran.err
    shown = run("show", LOTUS, "--format", "text" if ending == "txt" else ending)
    assert shown.out == path.read_text(encoding="utf-8")
    assert list(tmp_path.iterdir()) == [path]  # nothing half written is left
    if ending in {"svg", "graphml"}:
        ElementTree.fromstring(path.read_text(encoding="utf-8"))
    if ending == "html":
        assert path.read_text(encoding="utf-8").startswith("<!doctype html>")


def test_a_page_for_a_plain_locale_reads_the_same(run: Run) -> None:
    """What ASCII lacks goes out as character references (HTML, "Character references"; XML 1.0, section 4.1)."""
    plain = call("show", LOTUS, "--format", "html", encoding="ascii").out
    whole = run("show", LOTUS, "--format", "html").out
    assert plain.isascii() and not whole.isascii()
    assert html.unescape(plain) == html.unescape(whole)


def test_a_file_is_replaced_only_when_told(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "model.txt"
    path.write_text("mine")
    ran = run("show", LOTUS, "-o", str(path))
    assert ran.status == 2 and "--overwrite" in ran.err and path.read_text() == "mine"
    assert run("show", LOTUS, "-o", str(path), "--overwrite").status == 0
    assert path.read_text() != "mine"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("show", LOTUS, "-o", "model.pdf"), ".graphml"),
        (("show", LOTUS, "-o", "model"), "no ending"),
        (("show", LOTUS, "--json", "--format", "html"), "one format"),
        (("show", LOTUS, "-o", "no/such/folder/model.txt"), "folder"),
        (("compare", LOTUS, LOTUS), "two or more different models"),
        (("compare", LOTUS, GECKO, "-o", "out.docx"), ".md"),
        (("compare", LOTUS, GECKO, "--figure", "out.png", "--problem", DUST), ".svg"),
        (("compare", LOTUS, GECKO, "--figure", "out.svg"), "--problem"),
        (("compare", LOTUS, GECKO, "--given", "no water available"), "--problem"),
    ],
)
def test_a_wrong_call_is_told_in_a_line(run: Run, arguments: tuple[str, ...], words: str) -> None:
    ran = run(*arguments)
    assert ran.status == 2 and ran.out == ""
    assert words in ran.err and "Traceback" not in ran.err


def test_an_unknown_model_is_told_with_the_nearest(run: Run) -> None:
    for arguments in (("show", "lotus-leaf"), ("compare", LOTUS, "gecko-toe")):
        ran = run(*arguments)
        assert ran.status == 1 and "nearest" in ran.err


def test_candidates_are_compared_by_criterion(run: Run) -> None:
    given = ("--problem", DUST, "--given", "no water available", "--given", "particle size 5-50 um")
    ran = run("compare", LOTUS, GECKO, COMB, *given)
    assert ran.status == 0 and ran.err == ""
    assert max(map(len, ran.out.splitlines())) <= 80
    for words in (
        "Score",
        "Steps: breaks",
        "What breaks",
        "What must be added",
        "Scale checks",
        "Limits",
        "Sources seen",
    ):
        assert words in ran.out
    record = json.loads(run("compare", LOTUS, GECKO, COMB, *given, "--json").out)
    assert record["models"] == [LOTUS, GECKO, COMB] and record["problem"] == DUST
    assert all(len(row["values"]) == 3 and set(row) == {"heading", "criterion", "values"} for row in record["rows"])


@pytest.mark.parametrize("ending", ["html", "md", "json", "svg"])
def test_the_comparison_is_written_as_its_ending_asks(run: Run, tmp_path: Path, ending: str) -> None:
    if ending in {"html", "svg"}:
        pytest.importorskip("matplotlib")
    path = tmp_path / f"comparison.{ending}"
    ran = run("compare", LOTUS, GECKO, "--problem", DUST, "-o", str(path))
    assert (ran.status, ran.out) == (0, "")
    written = path.read_text(encoding="utf-8")
    if ending == "json":
        assert json.loads(written)["models"] == [LOTUS, GECKO]
    elif ending == "svg":
        assert ElementTree.fromstring(written).get("role") == "img"
    elif ending == "md":
        rows = [line for line in written.splitlines() if line.startswith("|")]
        assert rows and all(row.replace("\\|", "").count("|") == 4 for row in rows)
    else:
        assert written.count("<svg ") == 2 and "<script" not in written


def test_the_figure_is_written_beside_the_text(run: Run, tmp_path: Path) -> None:
    pytest.importorskip("matplotlib")
    path = tmp_path / "comparison.svg"
    ran = run("compare", LOTUS, GECKO, "--problem", DUST, "--figure", str(path))
    assert ran.status == 0 and "Score" in ran.out
    assert "<title" in path.read_text(encoding="utf-8")
    again = run("compare", LOTUS, GECKO, "--problem", DUST, "--figure", str(path))
    assert again.status == 2 and "--overwrite" in again.err
