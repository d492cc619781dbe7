"""The endings of a brief: the same content as Markdown, HTML, JSON, DOCX and PDF."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from analog.brief import html as html_format
from analog.brief import markdown as markdown_format
from analog.brief.content import CONTENT_VERSION, Brief
from analog.brief.draft import Figures
from analog.brief.outline import outline
from analog.errors import UsageError

Paper = Literal["a4", "letter"]

NO_FIGURES: Figures = {}


def markdown(brief: Brief, figures: Figures = NO_FIGURES, paper: Paper = "a4") -> str:
    """The brief as Markdown (CommonMark with tables); figures stand as their description in words."""
    return markdown_format.markdown(outline(brief, figures=bool(figures)), figures)


def html(brief: Brief, figures: Figures = NO_FIGURES, paper: Paper = "a4") -> str:
    """The brief as one self-contained page; the printer of the reader picks the paper."""
    return html_format.html(outline(brief, figures=bool(figures)), figures)


def as_json(brief: Brief, figures: Figures = NO_FIGURES, paper: Paper = "a4") -> str:
    """The record itself, without figures."""
    return json.dumps(brief.model_dump(mode="json"), ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def docx(brief: Brief, figures: Figures = NO_FIGURES, paper: Paper = "a4") -> bytes:
    """The brief as a Word document. Raises UsageError where the extra `brief` is missing."""
    from analog.brief.office import docx_bytes

    return docx_bytes(outline(brief, figures=bool(figures)), figures, paper)


def pdf(brief: Brief, figures: Figures = NO_FIGURES, paper: Paper = "a4") -> bytes:
    """The brief as a PDF. Raises UsageError where the extra `brief` is missing."""
    from analog.brief.office import pdf_bytes

    return pdf_bytes(outline(brief, figures=bool(figures)), figures, paper)


@dataclass(frozen=True)
class View:
    """How one ending is made. pictures : whether figures show in it."""

    make: Callable[[Brief, Figures, Paper], str | bytes]
    pictures: bool = True


VIEWS: Mapping[str, View] = {
    ".md": View(markdown),
    ".html": View(html),
    ".pdf": View(pdf),
    ".docx": View(docx),
    ".json": View(as_json, pictures=False),
}
"""File ending -> view."""


def view_for(path: Path) -> View:
    """The view that the ending of a file name asks for. Raises UsageError listing the endings."""
    try:
        return VIEWS[path.suffix.lower()]
    except KeyError:
        found = path.suffix or "no ending"
        raise UsageError(f"expected a file ending in {', '.join(VIEWS)}, found {found} in {path.name!r}") from None


def brief_schema() -> str:
    """The JSON Schema of a brief as JSON text, ready to be written to docs/brief.schema.json."""
    dialect = "https://json-schema.org/draft/2020-12/schema"
    schema = {"$schema": dialect, "$id": f"urn:analog:brief:{CONTENT_VERSION}", **Brief.model_json_schema()}
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"
