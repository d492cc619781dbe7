"""PDF and DOCX, written by kept tools: pandoc reads the page and writes both formats, typst sets the PDF.

Both come as wheels (the extra `brief`): pypandoc_binary carries pandoc, typst the compiler with its fonts. python-docx
sets what pandoc leaves to a reference document: paper, page numbers, borders and heads of tables.
"""

from __future__ import annotations

import re
import tempfile
from collections.abc import Mapping
from html import escape
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from analog.brief.document import Document, Heading, Table
from analog.brief.draft import Figures
from analog.brief.html import TEMPLATES, page
from analog.errors import AnalogError, UsageError, printable

if TYPE_CHECKING:
    from analog.figures.figure import Figure

Paper = Literal["a4", "letter"]

MILLIMETRES: Mapping[Paper, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height of a sheet: ISO 216 and ANSI/ASME Y14.1."""

MARGIN = 20.0
HIGHEST_FIGURE = 140.0
"""Millimetres a figure may be high, so that its caption stays on its page."""

LONGEST_WHOLE_ROW = 2400
"""Signs in a row of a table from which on it may be parted by a page; a longer one might not fit on any."""

MISSING = "expected {name} for a file ending in {ending}; install it with: pip install 'analog[brief]'"


# PDF -----------------------------------------------------------------------------------------------------------


def pdf_bytes(document: Document, figures: Figures, paper: Paper) -> bytes:
    """The document as PDF with tags, bookmarks and page numbers, by PDF/UA-1 (ISO 14289-1), which typst enforces.

    Raises UsageError where pandoc or typst is not installed, AnalogError where they refuse the document.
    """
    typst = _typst()
    with tempfile.TemporaryDirectory(prefix="analog-brief-") as folder:
        names = _write_figures(Path(folder), figures, "svg")
        body = _pandoc(_page_for_pandoc(document, figures, names, paper, "svg"), "typst", ".pdf")
        body = _with_descriptions(_marks_escaped(body), figures, names, paper)
        source = Path(folder) / "brief.typ"
        source.write_text(_typst_head(document, paper) + body, encoding="utf-8")
        try:
            made: bytes = typst.compile(
                str(source),
                font_paths=_font_folders(),
                ignore_system_fonts=True,
                format="pdf",
                pdf_standards=["ua-1"],
            )
        except Exception as error:  # the compiler's own class is not typed and may change its name
            raise AnalogError(f"the PDF could not be set: {error}") from None
    return made


def _typst() -> Any:
    try:
        import typst
    except ImportError:
        raise UsageError(MISSING.format(name="typst", ending=".pdf")) from None
    return typst


def _font_folders() -> list[str]:
    """The fonts of matplotlib beside those in the wheel of typst: figures are lettered in them, and they have signs
    that a text font may lack."""
    try:
        import matplotlib
    except ImportError:
        return []
    return [str(Path(matplotlib.get_data_path()) / "fonts" / "ttf")]


def _typst_head(document: Document, paper: Paper) -> str:
    """The page: our template with the title, the paper and the headings that begin a page."""
    pages = [block.anchor for block in document.blocks if isinstance(block, Heading) and block.page]
    rows = [row for block in document.blocks if isinstance(block, Table) for row in block.rows]
    longest = max((sum(len(run.text) for cell in row for text in cell for run in text) for row in rows), default=0)
    values = {
        "TITLE": typst_string(document.title),
        "PAPER": typst_string({"a4": "a4", "letter": "us-letter"}[paper]),
        "LANGUAGE": typst_string(document.language),
        "MARGIN": f"{MARGIN:g}mm",
        "PAGES": f"({''.join(f'{typst_string(anchor)}, ' for anchor in pages)})",
        "BREAKABLE": "true" if longest > LONGEST_WHOLE_ROW else "false",
    }
    template = (TEMPLATES / "brief.typ").read_text(encoding="utf-8")
    return re.sub(r"\{\{(\w+)\}\}", lambda match: values[match[1]], template)


def typst_string(text: str) -> str:
    """A string literal of typst: quotes and backslashes escaped, signs that steer a terminal told by their number."""
    safe = printable(" ".join(text.split()))
    return '"' + safe.replace("\\", "\\\\").replace('"', '\\"') + '"'


_STARTS = re.compile(r"(?:(?<=(?<!\\)\[)|(?<=\n- )|(?<=\n\+ ))(?=\s*(?:\d+\.|[-+/]|=+)\s)")


def _marks_escaped(body: str) -> str:
    """pandoc 3.9 escapes what starts a list or a heading at the start of a paragraph, not of a cell or an item."""
    return _STARTS.sub(r"\\", body)


def _with_descriptions(body: str, figures: Figures, names: Mapping[str, str], paper: Paper) -> str:
    """pandoc leaves the text alternative of an image out and takes its natural size: both are put in here."""
    for key, name in names.items():
        share = 100 * _width(figures[key], paper) / _text_width(paper)
        told = f'image("{name}", width: {share:.1f}%, alt: {typst_string(figures[key].description)})'
        body = body.replace(f'image("{name}")', told)
    return body


# DOCX ----------------------------------------------------------------------------------------------------------


def docx_bytes(document: Document, figures: Figures, paper: Paper) -> bytes:
    """The document as DOCX with headings, tables whose heads repeat, and figures with text alternatives.

    Raises UsageError where pandoc or python-docx is not installed, AnalogError where they refuse the document.
    """
    try:
        import docx
    except ImportError:
        raise UsageError(MISSING.format(name="python-docx", ending=".docx")) from None
    from analog.brief.docx_style import dress

    with tempfile.TemporaryDirectory(prefix="analog-brief-") as folder:
        names = _write_figures(Path(folder), figures, "png")
        target = Path(folder) / "brief.docx"
        text = _page_for_pandoc(document, figures, names, paper, "png", Path(folder))
        _pandoc(text, "docx", ".docx", target)
        opened = docx.Document(str(target))
        width, height = MILLIMETRES[paper]
        dress(opened, document, (width, height), MARGIN)
        buffer = BytesIO()
        opened.save(buffer)
    return buffer.getvalue()


# Shared --------------------------------------------------------------------------------------------------------


def _write_figures(folder: Path, figures: Figures, ending: Literal["svg", "png"]) -> dict[str, str]:
    """Figures as files; key -> file name."""
    names = {}
    for number, (key, figure) in enumerate(figures.items(), start=1):
        names[key] = f"figure-{number}.{ending}"
        content = figure.png if ending == "png" else figure.svg.encode("utf-8")
        (folder / names[key]).write_bytes(content)
    return names


def _page_for_pandoc(
    document: Document,
    figures: Figures,
    names: Mapping[str, str],
    paper: Paper,
    ending: str,
    folder: Path | None = None,
) -> str:
    by_figure = {id(figures[key]): name for key, name in names.items()}

    def image(figure: Figure) -> str:
        name = by_figure[id(figure)]
        place = str(folder / name) if folder is not None else name
        size = f' style="width: {_width(figure, paper):.1f}mm"' if ending == "png" else ""
        return f'<img src="{escape(place)}" alt="{escape(printable(figure.description))}"{size}>'

    return page(document, figures, image, whole=False)


def _pandoc(text: str, target: str, ending: str, file: Path | None = None) -> str:
    """One conversion by pandoc, headings one level up since the title is not one of them."""
    try:
        import pypandoc
    except ImportError:
        raise UsageError(MISSING.format(name="pypandoc_binary", ending=ending)) from None
    arguments = ["--shift-heading-level-by=-1", "--wrap=none"]
    try:
        made: str = pypandoc.convert_text(
            text, target, format="html", extra_args=arguments, outputfile=None if file is None else str(file)
        )
    except OSError:  # the package without its program
        raise UsageError(MISSING.format(name="pandoc", ending=ending)) from None
    except RuntimeError as error:
        raise AnalogError(f"pandoc refused the document: {error}") from None
    return made


def _text_width(paper: Paper) -> float:
    return MILLIMETRES[paper][0] - 2 * MARGIN


def _width(figure: Figure, paper: Paper) -> float:
    """Millimetres a figure is wide: the text's width, less where it would become too high."""
    size = re.search(r'<svg\b[^>]*?\bviewBox="[-\d.]+ [-\d.]+ ([\d.]+) ([\d.]+)"', figure.svg)
    ratio = float(size[1]) / float(size[2]) if size else 1.6
    return min(_text_width(paper), HIGHEST_FIGURE * ratio)
