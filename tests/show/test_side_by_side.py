"""Models side by side: text, page and Markdown hold every value, and hostile titles do nothing in any of them."""

from __future__ import annotations

import re

import pytest

from analog.api import Library
from analog.errors import UsageError
from analog.explain.comparison import compare
from analog.model.types import Model
from analog.show.side_by_side import figure, markdown, page, text
from tests.figures.helpers import hostile_model
from tests.model.sample import sample
from tests.show.test_views import Page, plain

NAMES = ("lotus-leaf-rolling-drops", "mussel-byssus-anchor", "ant-antenna-comb")


def test_every_value_is_in_every_view(library: Library) -> None:
    compared = compare([library.model(name) for name in NAMES])
    shown, told, written = text(compared, 80), Page(page(compared)), markdown(compared)
    assert told.open == []
    assert max(map(len, shown.splitlines())) <= 80
    unescaped = re.sub(r"\\(.)", r"\1", written)
    for criterion in compared.criteria:
        for value in criterion.values:
            for view in (plain(shown), told.shown, unescaped):
                assert plain(value) in view, (criterion.name, value)


def test_a_table_of_markdown_keeps_its_columns() -> None:
    """GitHub Flavored Markdown, 4.10: a bar in a cell must be escaped."""
    record = sample()
    record.update(id="other", title="a | b", summary="c")
    written = markdown(compare([Model.model_validate(record), hostile_model()]))
    rows = [line for line in written.splitlines() if line.startswith("|")]
    assert rows and all(len(re.findall(r"(?<!\\)\|", row)) == 4 for row in rows)


def test_hostile_titles_do_nothing() -> None:
    compared = compare([hostile_model(), Model.model_validate(sample())])
    source = page(compared)
    assert "<script" not in source and "\x1b" not in source
    assert '<script>alert("1")</script>' in Page(source).shown
    written = markdown(compared)
    assert "<script" not in written.replace("\\<", "") and "\x1b" not in written
    assert "\x1b" not in text(compared)


def test_a_figure_needs_a_problem(library: Library) -> None:
    with pytest.raises(UsageError, match="--problem"):
        figure(compare([library.model(name) for name in NAMES]))
