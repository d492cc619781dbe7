"""A model told: nothing is lost on the way to text and page, and hostile texts do nothing there."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest

from analog.api import Library
from analog.explain.sentences import fact_sentence, names_of
from analog.model.types import Model
from analog.show.account import account, in_turn, ordered_states
from analog.show.pages import model_page
from analog.show.text import text
from tests.figures.helpers import HOSTILE, hostile_model

NAMES = ("lotus-leaf-rolling-drops", "mussel-byssus-anchor", "mound-ventilation")
VOID = {"meta", "br", "link", "img", "hr", "input"}


class Page(HTMLParser):
    """The page as read: its elements, whether every element is closed, and the words it shows."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open and self.open[-1] == tag, f"</{tag}> closes {self.open[-1:]}"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        if "style" not in self.open:
            self.words.append(data)

    @property
    def shown(self) -> str:
        return " ".join(" ".join(self.words).split())


def plain(told: str) -> str:
    return " ".join(told.split())


@pytest.fixture(params=NAMES)
def model(request: pytest.FixtureRequest, library: Library) -> Model:
    return library.model(request.param)


def everything(model: Model) -> list[str]:
    """What any view of a model must hold."""
    names = names_of(model)
    return [
        model.title,
        model.organism.common,
        *(part.name for part in model.parts),
        *(fact_sentence(fact, names) for fact in model.parsed_structure),
        *(state.text[1:] for state in model.states),
        *(fact_sentence(fact, names) for state in model.states for fact in state.parsed),
        *(transition.text[1:] for transition in model.transitions),
        *(reason.note[1:].rstrip(".") for transition in model.transitions for reason in transition.reasons),
        *(need.note.rstrip(".") for t in model.transitions for need in t.needs if need.note),
        *(limit.text.rstrip(".") for limit in model.limits),
        *(precedent.text.rstrip(".") for precedent in model.precedents),
        *(question.text[1:] for question in model.questions),
        *(source.title.rstrip(".") for source in model.sources),
        *(quantity.name for part in model.parts for quantity in part.properties),
    ]


def test_the_text_holds_everything_in_80_columns(library: Library, model: Model) -> None:
    shown = text(account(model, library.searcher.principles), 80)
    assert max(map(len, shown.splitlines())) <= 80
    read = plain(shown)
    for piece in everything(model):
        assert plain(piece) in read, piece


def test_the_page_holds_everything_and_is_well_formed(library: Library, model: Model) -> None:
    page = Page(model_page(model, account(model, library.searcher.principles)))
    assert page.open == []
    for piece in everything(model):
        assert plain(piece) in page.shown, piece


def test_the_page_loads_nothing_and_its_figures_have_words(library: Library, model: Model) -> None:
    pytest.importorskip("matplotlib")
    page = Page(model_page(model, account(model)))
    tags = [tag for tag, _ in page.seen]
    assert not {"script", "link", "img", "iframe", "object", "form"} & set(tags)
    pictures = [attributes for tag, attributes in page.seen if tag == "svg"]
    assert len(pictures) == 1 + len(model.purposes)
    assert all(attributes.get("role") == "img" for attributes in pictures)
    assert tags.count("figcaption") == len(pictures) == tags.count("desc")
    identifiers = [attributes["id"] for _, attributes in page.seen if "id" in attributes]
    assert len(identifiers) == len(set(identifiers))
    for _, attributes in page.seen:
        for name in (attributes.get("aria-labelledby") or "").split():
            assert name in identifiers
        target = attributes.get("href") or ""
        assert not target.startswith("#") or target[1:] in identifiers
        assert not any(key.startswith("on") for key in attributes)
    policy = [attributes.get("content") for tag, attributes in page.seen if "http-equiv" in attributes]
    assert policy == ["default-src 'none'; style-src 'unsafe-inline'"]


def test_without_matplotlib_the_page_says_what_is_left_out(
    library: Library, model: Model, monkeypatch: pytest.MonkeyPatch
) -> None:
    from analog.show import pages

    monkeypatch.setattr(pages, "available", lambda: False)
    page = Page(model_page(model, account(model)))
    assert not [tag for tag, _ in page.seen if tag == "svg"]
    assert "matplotlib is not installed" in page.shown
    for piece in everything(model):
        assert plain(piece) in page.shown


def test_hostile_texts_are_shown_and_do_nothing() -> None:
    model = hostile_model()
    told = account(model)
    source = model_page(model, told)
    page = Page(source)
    assert not [tag for tag, _ in page.seen if tag in {"script", "b"}]
    assert "<script" not in source and "\x1b" not in source
    assert '<script>alert("1")</script> & $x_1$' in page.shown and "{{7*7}}" in page.shown
    assert "49" not in re.sub(r"<[^>]*>", "", source.partition("<main>")[2].partition("<svg")[0])
    shown = text(told, 80)
    assert "\x1b" not in shown and "\u202e" not in shown
    assert "<script>" in shown
    assert HOSTILE not in shown


def test_states_come_in_the_order_of_the_course(model: Model) -> None:
    steps = {transition.id: transition for transition in model.transitions}
    order = [state.id for state in ordered_states(model)]
    assert sorted(order) == sorted(state.id for state in model.states)
    for step in model.course:
        assert order.index(steps[step].from_state) < order.index(steps[step].to_state) or steps[step].to_state in [
            steps[earlier].from_state for earlier in model.course[: model.course.index(step) + 1]
        ]
    told = account(model)
    course, others = in_turn(told)
    shown = {item.number for item in course if hasattr(item, "facts")} | {state.number for state in others}
    assert shown == {state.number for state in told.states}


def test_memory_is_told(library: Library) -> None:
    """What nobody looked up says so, in both views."""
    model = library.model("lotus-leaf-rolling-drops")
    told = account(model)
    unseen = [source.key for source in model.sources if not source.record_seen]
    assert [source.key for source in told.sources if not source.seen] == unseen
    assert text(told).count("From memory.") == len(unseen)
