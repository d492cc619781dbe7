"""A document as one self-contained page of HTML: no script, nothing loaded from elsewhere, made to be printed."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from analog.brief.document import Document
from analog.brief.draft import Figures
from analog.show.pages import page_environment

if TYPE_CHECKING:
    from analog.figures.figure import Figure

TEMPLATES = Path(__file__).parent / "templates"


def html(document: Document, figures: Figures) -> str:
    """The page, its figures inside as SVG."""
    return page(document, figures, _inline)


def page(document: Document, figures: Figures, image: Callable[[Figure], str], *, whole: bool = True) -> str:
    """The page with figures as `image` writes them. whole : with style and title, else for another program to read."""
    import markupsafe

    rendered: str = (
        page_environment(TEMPLATES)
        .get_template("brief.html")
        .render(document=document, figures=figures, image=lambda f: markupsafe.Markup(image(f)), page=whole)
    )
    return re.sub(r"\n{2,}", "\n", rendered).lstrip()


def _inline(figure: Figure) -> str:
    """The SVG as an element of the page; it was written by matplotlib, which escapes what it is given."""
    return figure.inline
