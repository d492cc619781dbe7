"""The graded problems: well formed, about models that exist, in words of their own, and frozen where promised."""

import hashlib
import json
from collections import Counter
from functools import cache
from pathlib import Path

import pytest
import yaml

from analog.bench.problems import GradedProblem, judged_models, load_problems, problems_file, unknown_models
from analog.bench.wording import shared_words, words_of
from analog.errors import FormatError
from analog.locate import corpus_folder

REPORT_SHA256 = "3405bcba94ee2bc9aa178fbc24e589476338ed4efac566444e7fdd1cc2f62326"
LIKE_A_QUESTION = 0.5
"""Share of common stems (over all stems of both, Jaccard 1912) from which a problem counts as a copy. Own choice."""


@cache
def models() -> dict[str, dict]:  # type: ignore[type-arg]
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # the same in C, ten times faster
    texts = (path.read_text(encoding="utf-8") for path in corpus_folder().rglob("*.yaml"))
    records = (yaml.load(text, Loader=loader) for text in texts)
    return {record["id"]: record for record in records}


@cache
def both() -> dict[str, list[GradedProblem]]:
    return {split: load_problems(problems_file(split)) for split in ("development", "report")}


def every() -> list[GradedProblem]:
    return [problem for problems in both().values() for problem in problems]


def test_the_report_problems_are_those_that_were_frozen() -> None:
    """The checksum stands in the docs too; changing the problems after results were seen would show."""
    assert hashlib.sha256(problems_file("report").read_bytes()).hexdigest() == REPORT_SHA256
    assert REPORT_SHA256 in (Path(__file__).parents[2] / "docs" / "bench.md").read_text(encoding="utf-8")


def test_all_graded_models_exist() -> None:
    assert unknown_models(every(), judged_models()) == {}
    assert judged_models() <= set(models())


def test_there_are_enough_problems_of_every_kind() -> None:
    for problems, least in ((both()["development"], 160), (both()["report"], 90)):
        assert len(problems) >= least
        assert len({p.industry for p in problems}) >= 30
        assert Counter(p.wording for p in problems)["far"] >= 30
        assert sum(bool(p.given) for p in problems) >= 30
        assert sum(not p.covered for p in problems) >= 5
        assert {p.style for p in problems} == {"imperative", "question", "requirement", "complaint"} or least == 90


def test_every_graded_model_is_the_direct_answer_of_a_development_problem() -> None:
    direct = {m for p in both()["development"] for m, grade in p.relevant.items() if grade == 3}
    assert judged_models() - direct == set()


def test_the_two_sets_share_no_sentence() -> None:
    texts = {split: {p.text.casefold() for p in problems} for split, problems in both().items()}
    assert not texts["development"] & texts["report"]


def test_no_problem_copies_a_question_of_a_model() -> None:
    """A question taken over would make the search look better than it is."""
    copies = []
    for problem in every():
        own = words_of([problem.text])
        for model in models().values():
            for question in model.get("questions", ()):
                theirs = words_of([question["text"]])
                if len(own & theirs) / len(own | theirs) >= LIKE_A_QUESTION:
                    copies.append((problem.id, problem.text, question["text"]))
    assert not copies


def test_far_wording_shares_no_word_with_a_right_model() -> None:
    shared = {
        (problem.id, model): sorted(words)
        for problem in every()
        if problem.wording == "far"
        for model in problem.right
        for words in [shared_words(problem.text, models()[model])]
        if words
    }
    assert not shared, "reword these problems, or call their wording near"


def _line(**changes: object) -> str:
    record = {
        "id": "p1",
        "text": "Keep it dry",
        "given": [],
        "wording": "near",
        "style": "imperative",
        "industry": "trade",
        "relevant": {"a": 3},
        "look_alikes": ["b"],
        "covered": True,
    }
    return json.dumps(record | changes)


@pytest.mark.parametrize(
    ("line", "field", "found"),
    [
        (_line(relevant={"a": 4}), "relevant.a", "4"),
        (_line(relevant={"a": True}), "relevant.a", "True"),
        (_line(look_alikes=["a"]), "look_alikes", "a"),
        (_line(covered=False), "covered", "False"),
        (_line(wording="medium"), "wording", "medium"),
        (_line(style="rant"), "style", "rant"),
        (_line(given="no water"), "given", "no water"),
        ("[]", "", "[]"),
        ("{", "", "not JSON"),
    ],
)
def test_faults_are_told_with_line_and_field(tmp_path: Path, line: str, field: str, found: str) -> None:
    path = tmp_path / "problems.jsonl"
    path.write_text(_line() + "\n" + line + "\n", encoding="utf-8")
    with pytest.raises(FormatError) as caught:
        load_problems(path)
    assert (caught.value.line, caught.value.field) == (2, field)
    assert found in str(caught.value)


def test_an_id_may_stand_once(tmp_path: Path) -> None:
    path = tmp_path / "problems.jsonl"
    path.write_text(_line() + "\n" + _line() + "\n", encoding="utf-8")
    with pytest.raises(FormatError, match="'p1' stands here twice"):
        load_problems(path)
