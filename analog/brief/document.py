"""The blocks that a brief is made of, whatever format it ends up in: headings, paragraphs, lists, tables, pictures.

A text is a row of runs, each plain or in one style; whoever writes a format escapes them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Style = Literal["", "strong", "emphasis", "small", "link", "verdict", "code"]


@dataclass(frozen=True)
class Run:
    """Text in one style. target : where a link leads."""

    text: str
    style: Style = ""
    target: str = ""


Text = tuple[Run, ...]


@dataclass(frozen=True)
class Heading:
    """level : 2 for a part of the brief, 3 for a section. page : begins a new page in print. anchor : id in a page."""

    level: int
    text: str
    anchor: str
    page: bool = False
    kind: Literal["heading"] = "heading"


@dataclass(frozen=True)
class Paragraph:
    """small : said beside the matter, such as where a section comes from."""

    text: Text
    small: bool = False
    kind: Literal["paragraph"] = "paragraph"


@dataclass(frozen=True)
class Listing:
    """A list, numbered or not."""

    items: tuple[Text, ...]
    numbered: bool = False
    kind: Literal["listing"] = "listing"


@dataclass(frozen=True)
class Table:
    """A table with a head. Each cell is a row of paragraphs. widths : share of each column, in percent, sum 100."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[tuple[Text, ...], ...], ...]
    widths: tuple[int, ...]
    kind: Literal["table"] = "table"


@dataclass(frozen=True)
class Picture:
    """The place of a figure; what stands there is looked up under its key."""

    key: str
    kind: Literal["picture"] = "picture"


@dataclass(frozen=True)
class Box:
    """Paragraphs and lists that stand out from the rest."""

    title: str
    blocks: tuple[Paragraph | Listing, ...]
    kind: Literal["box"] = "box"


Block = Heading | Paragraph | Listing | Table | Picture | Box


@dataclass(frozen=True)
class Document:
    """A brief as blocks. language : of its text."""

    title: str
    blocks: tuple[Block, ...]
    language: str = "en"


def plain(text: str, style: Style = "") -> Text:
    """A text of one run."""
    return (Run(text, style),)


def labelled(label: str, text: str) -> Text:
    """A text that begins with a word in bold."""
    return Run(f"{label} ", "strong"), Run(text)


def cell(*texts: str | Text) -> tuple[Text, ...]:
    """A cell of a table: one paragraph a text; empty ones are left out."""
    return tuple(plain(text) if isinstance(text, str) else text for text in texts if text)


def strings(document: Document) -> Sequence[str]:
    """Every text of the document in reading order, whatever its style; pictures are left out."""
    found = [document.title]
    for block in document.blocks:
        if isinstance(block, Heading):
            found.append(block.text)
        elif isinstance(block, Paragraph):
            found.append(_joined(block.text))
        elif isinstance(block, Listing):
            found += [_joined(item) for item in block.items]
        elif isinstance(block, Table):
            found += [block.caption, *block.head]
            found += [_joined(text) for row in block.rows for each in row for text in each]
        elif isinstance(block, Box):
            found.append(block.title)
            for inner in block.blocks:
                found += [_joined(inner.text)] if isinstance(inner, Paragraph) else [_joined(i) for i in inner.items]
    return found


def _joined(text: Text) -> str:
    return "".join(run.text for run in text)
