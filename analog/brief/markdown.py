"""A document as Markdown: CommonMark with the tables of GitHub Flavored Markdown.

Every sign that means something to Markdown is escaped (CommonMark 0.31.2, section 2.4: any ASCII punctuation may be),
so that a title can start no list, link, table cell or HTML.
"""

from __future__ import annotations

import re

from analog.brief.document import Block, Box, Document, Heading, Listing, Paragraph, Picture, Run, Table, Text
from analog.brief.draft import Figures
from analog.errors import printable

_MARKS = re.compile(r"([\\`*_\[\]<>#|~!&$@])")


def markdown_text(value: object) -> str:
    """Text that Markdown shows as it is, inside a line (for its start see `_paragraph`)."""
    return _MARKS.sub(r"\\\1", " ".join(printable(str(value)).split()))


def markdown(document: Document, figures: Figures) -> str:
    """The document as Markdown text. A figure stands as its caption and its description in words."""
    pieces = [f"# {markdown_text(document.title)}"]
    pieces += [piece for block in document.blocks if (piece := _block(block, figures))]
    return "\n\n".join(pieces) + "\n"


def _block(block: Block, figures: Figures) -> str:
    if isinstance(block, Heading):
        return f"{'#' * block.level} {markdown_text(block.text)}"
    if isinstance(block, Paragraph):
        return _paragraph(block.text)
    if isinstance(block, Listing):
        return _listing(block)
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Box):
        inner = [f"**{markdown_text(block.title)}**"]
        inner += [_paragraph(b.text) if isinstance(b, Paragraph) else _listing(b) for b in block.blocks]
        return "\n".join(f"> {line}".rstrip() for line in "\n\n".join(inner).split("\n"))
    return _picture(block, figures)


def _picture(block: Picture, figures: Figures) -> str:
    figure = figures.get(block.key)
    if figure is None:
        return ""
    return f"> *Figure: {markdown_text(figure.title)}* {markdown_text(figure.description)}"


def _listing(block: Listing) -> str:
    marks = [f"{number}." if block.numbered else "-" for number in range(1, len(block.items) + 1)]
    return "\n".join(f"{mark} {_paragraph(item)}" for mark, item in zip(marks, block.items, strict=True))


def _table(block: Table) -> str:
    rows = [[" <br> ".join(_text(part) for part in cell) for cell in row] for row in block.rows]
    lines = [f"*{markdown_text(block.caption)}*", ""]
    lines.append(f"| {' | '.join(markdown_text(name) for name in block.head)} |")
    lines.append(f"|{' --- |' * len(block.head)}")
    lines += [f"| {' | '.join(row)} |" for row in rows]
    return "\n".join(lines)


def _paragraph(text: Text) -> str:
    """A text at the start of a line, where a number with a full stop, a dash, a plus or an equals sign means more."""
    return re.sub(r"^(\d*)([-+=.)])", r"\1\\\2", _text(text))


def _text(text: Text) -> str:
    return "".join(_run(run) for run in text)


def _run(run: Run) -> str:
    if run.style == "code":
        return _code(run.text)
    shown = markdown_text(run.text)
    if not shown:
        return ""
    before = " " if run.text[:1].isspace() else ""
    after = " " if run.text[-1:].isspace() else ""
    if run.style in {"strong", "verdict"}:
        shown = f"**{shown}**"
    elif run.style == "emphasis":
        shown = f"*{shown}*"
    elif run.style == "link":
        shown = f"[{shown}](<{run.target.translate(_IN_ADDRESS)}>)"
    return f"{before}{shown}{after}"


def _code(text: str) -> str:
    """A code span: its fence is longer than any row of backticks inside (CommonMark 0.31.2, section 6.1)."""
    shown = " ".join(printable(text).split())
    fence = "`" * (1 + max((len(row) for row in re.findall("`+", shown)), default=0))
    pad = " " if shown.startswith("`") or shown.endswith("`") else ""
    return f"{fence}{pad}{shown}{pad}{fence}"


_IN_ADDRESS = str.maketrans({"<": "%3C", ">": "%3E", "\\": "%5C", "|": "%7C", "\n": " ", " ": "%20"})
