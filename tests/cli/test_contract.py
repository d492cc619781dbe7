"""The command contract: fields, exit codes, and what goes to which stream."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Run

DUST = "remove dust from solar panels"


def test_search_prints_a_readable_list(run: Run) -> None:
    ran = run("search", DUST, "--top", "3")
    assert ran.status == 0
    assert ran.out.startswith("separate · dust")
    assert "\n1. " in ran.out and "\n3. " in ran.out and "\n4. " not in ran.out
    assert max(map(len, ran.out.splitlines())) <= 100
    assert "\x1b" not in ran.out


def test_search_json_has_the_fields_of_the_contract(run: Run) -> None:
    ran = run("search", DUST, "--given", "no water available", "--top", "4", "--json")
    record = json.loads(ran.out)
    assert {"problem", "results", "elapsed_ms"} <= set(record)
    assert record["problem"]["given"] == ["no water available"]
    assert set(record["problem"]) == {"text", "reading", "given"}
    assert record["problem"]["text"] == DUST
    assert len(record["results"]) == 4
    for rank, result in enumerate(record["results"], start=1):
        assert {
            "rank",
            "id",
            "title",
            "organism",
            "score",
            "scores",
            "correspondences",
            "transitions",
            "cautions",
        } <= set(result)
        assert result["rank"] == rank
        assert set(result["organism"]) == {"common", "latin"}
        assert all(0 <= value <= 1 for value in result["scores"].values())
        for correspondence in result["correspondences"]:
            assert {"model", "problem", "kind", "similarity"} <= set(correspondence)
        for transition in result["transitions"]:
            assert {"id", "verdict", "reasons"} <= set(transition)
            assert transition["verdict"] in {"carries over", "carries over if", "breaks", "open"}
            assert transition["reasons"]
    scores = [result["score"] for result in record["results"]]
    assert scores == sorted(scores, reverse=True)


def test_no_water_breaks_what_needs_it_and_turns_the_ranking(run: Run) -> None:
    """The mechanism that rolls drops falls behind one that works dry, and says why."""

    def ranks(*given: str) -> dict[str, dict[str, object]]:
        arguments = [piece for condition in given for piece in ("--given", condition)]
        record = json.loads(run("search", DUST, *arguments, "--top", "50", "--json").out)
        return {result["id"]: result for result in record["results"]}

    free, dry = ranks(), ranks("no water available")
    lotus, gecko = "lotus-leaf-rolling-drops", "gecko-toe-dry-self-cleaning"
    assert dry[lotus]["rank"] > dry[gecko]["rank"]  # type: ignore[operator]
    assert dry[lotus]["score"] < free[lotus]["score"]  # type: ignore[operator]
    broken = [t for t in dry[lotus]["transitions"] if t["verdict"] == "breaks"]  # type: ignore[attr-defined]
    assert any("no water available" in reason for transition in broken for reason in transition["reasons"])
    assert not [t for t in dry[gecko]["transitions"] if t["verdict"] == "breaks"]  # type: ignore[attr-defined]


def test_a_sentence_and_a_problem_file_go_together(run: Run, tmp_path: Path) -> None:
    """The file overrules the reading of the sentence and adds conditions."""
    path = tmp_path / "problem.yaml"
    path.write_text('purposes:\n  - {verb: inhibit, object: dust}\ngiven: ["no water available"]\n')
    record = json.loads(run("search", DUST, "--problem", str(path), "--top", "1", "--json").out)["problem"]
    assert record["text"] == DUST
    assert record["reading"]["purposes"][0]["verb"] == "inhibit"
    assert record["given"] == ["no water available"]


def test_batch_prints_one_object_a_line_and_keeps_going_after_a_fault(run: Run, tmp_path: Path) -> None:
    lines = [
        {"id": "a", "text": DUST, "given": ["no water available"]},
        {"id": "b", "text": ""},
        {"id": "c", "text": "keep ice off a rotor blade"},
    ]
    path = tmp_path / "problems.jsonl"
    path.write_text("\n".join([*map(json.dumps, lines), "{not json", ""]))
    ran = run("search", "--batch", str(path), "--top", "2")
    records = [json.loads(line) for line in ran.out.splitlines()]
    assert [record["id"] for record in records] == ["a"] or [record["id"] for record in records] == ["a", "c"]
    assert ran.status == 1
    assert "Traceback" not in ran.err


def test_explain_json_is_one_result(run: Run) -> None:
    ran = run("explain", "gecko-toe-dry-self-cleaning", "--problem", DUST, "--json")
    record = json.loads(ran.out)
    assert record["id"] == "gecko-toe-dry-self-cleaning"
    assert record["correspondences"][0]["problem"] == "dust"


def test_show_compare_link_schema_print_and_leave_stderr_alone(run: Run) -> None:
    for arguments in (
        ("show", "cat-tongue-papillae"),
        ("show", "cat-tongue-papillae", "--json"),
        ("compare", "cat-tongue-papillae", "gecko-toe-dry-self-cleaning"),
        ("compare", "cat-tongue-papillae", "gecko-toe-dry-self-cleaning", "--problem", DUST, "--json"),
        ("link", "foreign body", "contaminant"),
        ("schema",),
    ):
        ran = run(*arguments)
        assert ran.status == 0, arguments
        assert ran.out.strip()
        assert ran.err == ""


def test_link_of_nothing_is_a_fault(run: Run) -> None:
    ran = run("link", "", "dust")
    assert (ran.status, ran.out) == (1, "")
    assert "Expected two terms" in ran.err


def test_link_json_has_similarity_and_path(run: Run) -> None:
    near = json.loads(run("link", "foreign body", "dust", "--json").out)
    assert 0.5 < near["similarity"] <= 1
    assert all(set(step) == {"from", "to", "relation", "source"} for step in near["path"])
    hull = json.loads(run("link", "ship hull", "wetted surface", "--json").out)
    assert hull["similarity"] > 0.5
    far = json.loads(run("link", "dust", "heart", "--json").out)
    assert far == {"similarity": 0.0, "path": []}


def test_align_takes_two_files(run: Run, tmp_path: Path) -> None:
    base, target = tmp_path / "a.json", tmp_path / "b.json"
    base.write_text('{"facts": ["cause(pulls(a, b), moves(b, a))"]}')
    target.write_text('["cause(pulls(x, y), moves(y, x))", "idle(z)"]')
    record = json.loads(run("align", str(base), str(target), "--json").out)
    assert {(m["base"], m["target"]) for m in record["things"]} == {("a", "x"), ("b", "y")}
    assert record["optimal"]
    text = run("align", str(base), str(target))
    assert "a -> x" in text.out


def test_brief_writes_the_file_its_ending_asks_for(run: Run, tmp_path: Path) -> None:
    for ending in ("md", "html", "json"):
        path = tmp_path / f"brief.{ending}"
        ran = run("brief", "gecko-toe-dry-self-cleaning", "--problem", DUST, "-o", str(path))
        assert ran.status == 0
        assert ran.out == ""
        assert path.stat().st_size > 2000
    again = run("brief", "gecko-toe-dry-self-cleaning", "--problem", DUST, "-o", str(tmp_path / "brief.md"))
    assert again.status == 2
    assert "exists" in again.err


def test_check_lists_faults_and_exits_with_one(run: Run, tmp_path: Path) -> None:
    (tmp_path / "bad.yaml").write_text("format: 1\nid: bad\n")
    ran = run("check", str(tmp_path), "--json")
    record = json.loads(ran.out)
    assert ran.status == 1
    assert record["errors"] > 3
    assert {"severity", "rule", "file", "line", "field", "found", "expected", "mend"} == set(record["findings"][0])


def test_the_shipped_corpus_has_no_error(run: Run) -> None:
    ran = run("check", "--errors")
    assert ran.status == 0, ran.out
    assert " 0 errors" in ran.out


@pytest.mark.parametrize(
    ("arguments", "status", "says"),
    [
        (("search",), 2, "expected a problem"),
        (("search", ""), 1, "got nothing"),
        (("search", "   "), 1, "got nothing"),
        (("search", "dust " * 25_000), 1, "20,000"),
        (("search", DUST, "--top", "0"), 2, "top"),
        (("search", DUST, "--given", "particle size 5 parrots"), 1, "parrots"),
        (("search", DUST, "--set", "verb"), 2, "FIELD=VALUE"),
        (("search", DUST, "--set", "verb=fly"), 1, "fly"),
        (("search", "--problem", "/no/such/file.yaml"), 1, "no/such/file.yaml"),
        (("search", "--batch", "/no/such/file.jsonl"), 1, "no/such/file.jsonl"),
        (("search", DUST, "--corpus", "/no/such/folder"), 2, "no/such/folder"),
        (("explain", "lotus-leaf", "--problem", DUST), 1, "lotus-leaf-rolling-drops"),
        (("show", "../../etc/passwd"), 1, "Unknown model"),
        (("brief", "cat-tongue-papillae", "--problem", DUST, "-o", "x.exe"), 2, ".md, .html, .pdf, .docx, .json"),
        (("compare", "cat-tongue-papillae"), 2, "two or more"),
        (("check", "/no/such/folder"), 1, "no/such/folder"),
        (("align", "/no/such.json", "/no/such.json"), 1, "no/such.json"),
        (("fly",), 2, "fly"),
    ],
)
def test_bad_input_is_told_in_a_line(run: Run, arguments: tuple[str, ...], status: int, says: str) -> None:
    """Exit 1 for faults of the input, 2 for usage; no traceback; nothing on standard output."""
    ran = run(*arguments)
    assert says.lower() in ran.err.lower()
    assert ran.status == status
    assert ran.out == ""
    assert "Traceback" not in ran.err
