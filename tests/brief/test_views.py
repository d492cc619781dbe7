"""Briefs: the same content in every view, hostile text shown and never obeyed, files never overwritten unasked."""

from __future__ import annotations

import json
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest

from analog.api import Library
from analog.brief.content import CRITERIA, Brief
from analog.brief.hazards import hazards
from analog.brief.views import VIEWS, html, markdown, markdown_text, view_for
from analog.errors import UsageError
from analog.files import write_text
from analog.problem.types import Problem, ProblemPurpose, Thing

HOSTILE = "<script>alert(1)</script> | ![x](javascript:1) `rm` \" ' & {{ 7 * 7 }}"


@pytest.fixture(scope="module")
def brief(library: Library) -> Brief:
    return library.brief(
        "remove dust from solar panels",
        ["lotus-leaf-rolling-drops", "gecko-toe-dry-self-cleaning"],
        ["no water available"],
    )


class Elements(HTMLParser):
    """The tags and addresses of a page, as Python's own parser reads it."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.addresses: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.addresses += [value or "" for name, value in attrs if name in {"src", "href", "action"}]


def test_every_view_tells_problem_verdicts_sources_and_cautions(brief: Brief) -> None:
    for view in VIEWS.values():
        text = view(brief).replace("\\", "")
        assert "remove dust from solar panels" in text
        assert "no water available" in text
        assert "breaks" in text
        assert "Local codes, standards and licensed practice decide" in text
        assert brief.analogues[0].references[0].key in text
        assert brief.versions["index"].split()[1] in text


def test_a_condition_reaches_the_outlook(brief: Brief) -> None:
    assert "break" in brief.analogues[0].outlook
    assert "ruled out by “no water available”" in brief.analogues[0].outlook
    assert "break" not in brief.analogues[1].outlook


def test_the_criteria_of_iso_18458_are_three_and_the_last_is_open(brief: Brief) -> None:
    """ISO 18458:2015 (wording from memory): analysed, abstracted, transferred; the last is the team's to meet."""
    for analogue in brief.analogues:
        assert tuple(c.text for c in analogue.criteria) == CRITERIA
        assert analogue.criteria[2].status == "open"


def test_hostile_text_is_shown_and_not_obeyed(brief: Brief) -> None:
    hostile = replace(
        brief,
        title=HOSTILE,
        problem=HOSTILE,
        reading=HOSTILE,
        conditions=(HOSTILE,),
        analogues=(replace(brief.analogues[0], title=HOSTILE, summary=HOSTILE, cautions=(HOSTILE,)),),
    )
    page = Elements()
    page.feed(html(hostile))
    assert "script" not in page.tags
    assert "img" not in page.tags
    assert page.addresses == []
    assert "{{ 7 * 7 }}" in html(hostile)
    text = markdown(hostile)
    assert "<script" not in text.replace("\\<", "")
    assert "![" not in text.replace("\\!", "").replace("\\[", "")
    assert json.loads(VIEWS[".json"](hostile))["title"] == HOSTILE


def test_the_page_needs_nothing_from_elsewhere(brief: Brief) -> None:
    page = Elements()
    page.feed(html(brief))
    assert page.addresses == []
    assert {"script", "link", "img", "iframe"} & set(page.tags) == set()


def test_markdown_text_starts_no_list_heading_or_rule() -> None:
    assert markdown_text("- a") == "\\- a"
    assert markdown_text("# a") == "\\# a"
    assert markdown_text("a\n# b") == "a \\# b"


def test_the_ending_picks_the_view_and_others_are_refused() -> None:
    assert view_for(Path("x.HTML")) is html
    with pytest.raises(UsageError, match=r"\.md, \.html, \.json"):
        view_for(Path("x.exe"))


def test_a_file_is_never_overwritten_unasked_and_never_half_written(tmp_path: Path) -> None:
    target = tmp_path / "brief.md"
    write_text(target, "first")
    with pytest.raises(UsageError, match="exists"):
        write_text(target, "second")
    assert target.read_text() == "first"
    write_text(target, "third", replace=True)
    assert target.read_text() == "third"
    with pytest.raises(UsageError, match="folder"):
        write_text(tmp_path / "no" / "x.md", "x")
    with pytest.raises(UnicodeEncodeError):
        write_text(target, "\ud800", replace=True)
    assert [p.name for p in tmp_path.iterdir()] == ["brief.md"]
    assert target.read_text() == "third"


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("keep ice off a wind turbine rotor blade", "height"),
        ("clean a catheter without biocide", "Medical"),
        ("stop milk fouling in a dairy heat exchanger", "Food"),
        ("seal a leaking steam pipe", "Pressure"),
    ],
)
def test_hazards_of_the_domain_are_named(text: str, word: str) -> None:
    """Common practice, no source."""
    purpose = ProblemPurpose(text="x", verb="separate", object="x")
    problem = Problem(text=text, purposes=(purpose,), things=(Thing(id="x", name="x"),))
    assert any(word in caution for caution in hazards(problem))
