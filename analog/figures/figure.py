"""A finished figure, and the SVG it carries: free of dates, outside references and names that could clash in a page."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from html import escape

_PROLOGUE = re.compile(r"\A.*?(?=<svg\b)", re.DOTALL)
_METADATA = re.compile(r"\s*<metadata>.*?</metadata>", re.DOTALL)
_STYLE = re.compile(r"\s*<defs>\s*<style[^>]*>[^<]*</style>\s*</defs>", re.DOTALL)
_ROOT = re.compile(r"<svg\b([^>]*)>")
_IDENTIFIER = re.compile(r'\b(id="|url\(#|href="#)([^")]+)')
_ANCHORLESS = re.compile(r"[^\t\n\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True)
class Figure:
    """A picture with its words.

    title : caption, a sentence. description : text alternative, the same content in sentences.
    svg : standalone SVG text with <title> and <desc>. png : the same picture, 150 dots an inch.
    """

    title: str
    description: str
    svg: str
    png: bytes

    @property
    def inline(self) -> str:
        """The <svg> element alone, to stand inside a page of HTML."""
        return _PROLOGUE.sub("", self.svg, count=1)


class Drawn(Figure):
    """A figure whose pixels are drawn when they are first asked for: pages need none."""

    def __init__(self, title: str, description: str, svg: str, pixels: Callable[[], bytes]) -> None:
        # frozen like its base: set once, here
        for name, value in (("title", title), ("description", description), ("svg", svg), ("_draw", pixels)):
            object.__setattr__(self, name, value)

    @cached_property
    def png(self) -> bytes:
        """The same picture, 150 dots an inch."""
        draw: Callable[[], bytes] = self.__dict__["_draw"]
        return draw()


def dressed(svg: str, title: str, description: str) -> str:
    """The SVG of matplotlib as a standalone image with a title and a description.

    role="img" with title and description: SVG 2 section 5.7 and WAI-ARIA 1.2. What matplotlib says of itself, the
    reference to a document type elsewhere and the style that would reach beyond the figure are left out; identifiers
    get a prefix from the content, so that several figures can stand in one page.
    """
    body = _STYLE.sub("", _METADATA.sub("", _PROLOGUE.sub("", svg, count=1)))
    prefix = "f" + hashlib.sha256((title + description + body).encode()).hexdigest()[:10] + "-"
    # where the font of the figure is not installed, one of the same widths, else any without serifs
    body = body.replace("'DejaVu Sans'", "'DejaVu Sans', Verdana, sans-serif")
    body = _IDENTIFIER.sub(rf"\g<1>{prefix}\g<2>", body)
    spoken_title, told = (escape(_ANCHORLESS.sub(" ", text)) for text in (title, description))
    head = (
        rf'<svg role="img" aria-labelledby="{prefix}title {prefix}description" '
        r'style="stroke-linejoin: round; stroke-linecap: butt"\1>'
    )
    body = _ROOT.sub(head, body, count=1)
    start, closing, rest = body.partition(">")
    named = f'\n <title id="{prefix}title">{spoken_title}</title>\n <desc id="{prefix}description">{told}</desc>'
    return f'<?xml version="1.0" encoding="utf-8"?>\n{start}{closing}{named}{rest}'
