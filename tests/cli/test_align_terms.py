"""`analog align` with lists of terms, and JSON that says a thing twice."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Run

FLOW = {"terms": ["water", "pipe", "flows"]}
CURRENT = {"title": "current", "terms": ["moves", "electricity", "wire"]}


def files(folder: Path, *contents: object) -> list[str]:
    paths = [folder / f"{number}.json" for number in range(len(contents))]
    for path, content in zip(paths, contents, strict=True):
        path.write_text(content if isinstance(content, str) else json.dumps(content))
    return list(map(str, paths))


def test_terms_without_relations_are_paired_and_it_says_so(run: Run, tmp_path: Path) -> None:
    pair = files(tmp_path, FLOW, CURRENT)
    record = json.loads(run("align", *pair, "--json").out)
    assert record["relations_given"] is False
    assert {"base", "target", "likeness"} == set(record["terms"][0])
    assert {(m["base"], m["target"]) for m in record["terms"]} == {
        ("water", "electricity"),
        ("pipe", "wire"),
        ("flows", "moves"),
    }
    assert record["optimal"]
    text = run("align", *pair).out
    assert "No relations were given" in text
    assert "pipe -> wire" in text


@pytest.mark.parametrize(
    ("base", "target", "says"),
    [
        (FLOW, ["p(a, b)"], "either two lists"),
        (FLOW, {"terms": ["a", "b"], "facts": []}, "unknown field 'facts'"),
        (FLOW, {"terms": ["a"]}, "expected 2 to"),
        (FLOW, {"terms": "a b"}, "list of words"),
        (FLOW, '{"terms": ["a", "b"], "terms": ["c", "d"]}', "every key once, found 'terms' again"),
        (["p(a, b)"], '{"facts": ["p(x, y)"], "facts": ["q(x, y)"]}', "every key once, found 'facts' again"),
    ],
)
def test_what_cannot_be_used_is_told_with_its_file(
    run: Run, tmp_path: Path, base: object, target: object, says: str
) -> None:
    ran = run("align", *files(tmp_path, base, target))
    assert ran.status == 1
    assert says in " ".join(ran.err.split())
    assert ".json" in ran.err
    assert ran.out == ""


def test_a_batch_line_with_a_key_twice_is_told_and_costs_no_other(run: Run, tmp_path: Path) -> None:
    """RFC 8259, section 4: names within an object should be unique."""
    batch = tmp_path / "batch.jsonl"
    batch.write_text(
        '{"id": 1, "text": "cool a hot engine", "text": "remove dust"}\n{"id": 2, "text": "remove dust from panels"}\n'
    )
    ran = run("search", "--batch", str(batch), "--top", "1")
    assert ran.status == 1
    assert "batch.jsonl:1" in ran.err
    assert "every key once, found 'text' again" in ran.err
    assert [json.loads(line)["id"] for line in ran.out.splitlines()] == [2]
