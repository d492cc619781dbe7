"""The small tables of the reader, kept as tab-separated data beside the code."""

from __future__ import annotations

from functools import lru_cache
from importlib import resources


@lru_cache(maxsize=32)
def table(name: str) -> tuple[dict[str, str], ...]:
    """Rows of data/`name`.tsv as column → text. The first line names the columns; short lines are padded."""
    text = resources.files("analog.problem").joinpath("data", f"{name}.tsv").read_text(encoding="utf-8")
    first, *lines = text.splitlines()
    columns = first.split("\t")
    rows = []
    for line in lines:
        if line.strip():
            cells = [cell.strip() for cell in line.split("\t")]
            rows.append(dict(zip(columns, cells + [""] * (len(columns) - len(cells)), strict=False)))
    return tuple(rows)


@lru_cache(maxsize=64)
def word_class(name: str) -> frozenset[str]:
    """A closed list of words from data/word-classes.tsv, by the name of its class. KeyError for an unknown class."""
    return frozenset(_words_of_classes()[name].split("; "))


@lru_cache(maxsize=1)
def _words_of_classes() -> dict[str, str]:
    return {row["class"]: row["words"] for row in table("word-classes")}
