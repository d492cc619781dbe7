"""The views of a brief: Markdown, HTML and JSON, each made from the same record."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from typing import Any

from analog.brief.content import Brief
from analog.errors import UsageError, printable

TEMPLATES = Path(__file__).parent / "templates"
_MARKDOWN = re.compile(r"([\\`*_{}\[\]<>()#+|~!&])")
_STARTS = re.compile(r"^(\s*)([-=]|\d+\.)(?=\s)", re.MULTILINE)


def markdown_text(value: object) -> str:
    """Text that Markdown shows as it is: its marks are escaped, so that a title can start no list, link or HTML."""
    return _STARTS.sub(r"\1\\\2", _MARKDOWN.sub(r"\\\1", " ".join(printable(str(value)).split())))


@lru_cache(maxsize=2)
def _environment(escape_html: bool) -> Any:
    import jinja2

    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES),
        autoescape=escape_html,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=lambda value: printable(value) if type(value) is str else value,
    )
    environment.filters["md"] = markdown_text
    return environment


def markdown(brief: Brief) -> str:
    """The brief as Markdown (CommonMark with tables)."""
    text: str = _environment(False).get_template("brief.md").render(brief=brief)
    return re.sub(r"\n{3,}", "\n\n", text)


def html(brief: Brief) -> str:
    """The brief as one self-contained HTML file: no script, nothing loaded from elsewhere, made to be printed."""
    text: str = _environment(True).get_template("brief.html").render(brief=brief)
    return text


def as_json(brief: Brief) -> str:
    """The record itself."""
    return json.dumps(brief.to_dict(), ensure_ascii=False, indent=2, allow_nan=False) + "\n"


VIEWS: dict[str, Callable[[Brief], str]] = {".md": markdown, ".html": html, ".json": as_json}
"""File ending -> view."""


def view_for(path: Path) -> Callable[[Brief], str]:
    """The view that the ending of a file name asks for. Raises UsageError listing the endings."""
    try:
        return VIEWS[path.suffix.lower()]
    except KeyError:
        found = path.suffix or "no ending"
        raise UsageError(f"expected a file ending in {', '.join(VIEWS)}, found {found} in {path.name!r}") from None
