"""The look of a DOCX that pandoc has written: paper, page numbers, tables and the styles of small and boxed text."""

from __future__ import annotations

from typing import Any

from analog.brief.document import Document, Heading
from analog.errors import printable
from analog.explain.sentences import shortened

LONGEST_PROPERTY = 255
"""Signs that a core property of a package may have (as python-docx holds it)."""

_GREY = "444444"

_AFTER_PARAGRAPH_BORDERS = tuple(
    f"w:{name}"
    for name in (
        "shd", "tabs", "suppressAutoHyphens", "kinsoku", "wordWrap", "overflowPunct", "topLinePunct", "autoSpaceDE",
        "autoSpaceDN", "bidi", "adjustRightInd", "snapToGrid", "spacing", "ind", "contextualSpacing", "mirrorIndents",
        "suppressOverlap", "jc", "textDirection", "textAlignment", "textboxTightWrap", "outlineLvl", "divId",
        "cnfStyle", "rPr", "sectPr", "pPrChange",
    )
)  # fmt: skip
_AFTER_TABLE_BORDERS = ("w:shd", "w:tblLayout", "w:tblCellMar", "w:tblLook", "w:tblCaption", "w:tblDescription")
"""What must follow the borders: the order of elements is part of the format (ECMA-376 part 1, CT_PPrBase, CT_TblPr)."""


def dress(opened: Any, document: Document, sheet: tuple[float, float], margin: float) -> None:
    """Set up an opened python-docx document. sheet : width and height in millimetres, margin in millimetres."""
    from docx.enum.text import WD_ALIGN_PARAGRAPH
    from docx.shared import Mm, Pt

    for section in opened.sections:
        section.page_width, section.page_height = Mm(sheet[0]), Mm(sheet[1])
        section.left_margin = section.right_margin = Mm(margin)
        section.top_margin = section.bottom_margin = Mm(22)
        footer = section.footer.paragraphs[0]
        footer.alignment = WD_ALIGN_PARAGRAPH.CENTER
        _page_number(footer)
    opened.core_properties.title = shortened(printable(document.title), LONGEST_PROPERTY)
    opened.core_properties.language = document.language
    _styles(opened, Pt)
    pages = {block.text for block in document.blocks if isinstance(block, Heading) and block.page}
    for paragraph in opened.paragraphs:
        if paragraph.style.name == "Heading 1" and paragraph.text in pages:
            paragraph.paragraph_format.page_break_before = True
    _box(opened)
    for table in opened.tables:
        _table(table)


def _styles(opened: Any, points: Any) -> None:
    from docx.shared import RGBColor

    black, grey = RGBColor(0x11, 0x11, 0x11), RGBColor.from_string(_GREY)
    for style in opened.styles:
        if getattr(style, "font", None) is not None and style.name.startswith(("Heading", "Title", "Caption")):
            style.font.color.rgb = black
    names = {style.name for style in opened.styles}
    opened.styles["Normal"].font.size = points(10.5)
    for name, size in (("Small", 9), ("Aside", 9.5), ("Image Caption", 9.5), ("Table Caption", 9.5)):
        if name in names:
            opened.styles[name].font.size = points(size)
    for name in names & {"Small", "Aside"}:
        opened.styles[name].font.color.rgb = grey
    if "Compact" in names:
        opened.styles["Compact"].paragraph_format.space_after = points(2)
    if "Box" in names:
        _border(opened.styles["Box"].element.get_or_add_pPr())


def _box(opened: Any) -> None:
    """Draw the items of a list that follows boxed text into its box.

    Neighbouring paragraphs share one box only if their borders and indents are the same (ECMA-376 part 1, 17.3.1.24),
    so the bullets stand at the edge of the text.
    """
    from docx.oxml.ns import qn
    from docx.shared import Mm

    inside = False
    for paragraph in opened.paragraphs:
        properties = paragraph._p.get_or_add_pPr()
        listed = properties.find(qn("w:numPr")) is not None
        inside = paragraph.style.name == "Box" or (inside and listed)
        if not (inside and listed):
            continue
        _border(properties)
        layout = paragraph.paragraph_format
        layout.left_indent = layout.first_line_indent = Mm(0)
        layout.tab_stops.add_tab_stop(Mm(4))
        layout.space_after = Mm(1)


def _border(properties: Any) -> None:
    """A line round a paragraph, or the paragraphs of a style, as ECMA-376 part 1, 17.3.1.24 (pBdr) has it."""
    from docx.oxml import OxmlElement
    from docx.oxml.ns import qn

    borders = OxmlElement("w:pBdr")
    for side in ("top", "left", "bottom", "right"):
        line = OxmlElement(f"w:{side}")
        for name, value in (("val", "single"), ("sz", "8"), ("space", "6"), ("color", "111111")):
            line.set(qn(f"w:{name}"), value)
        borders.append(line)
    properties.insert_element_before(borders, *_AFTER_PARAGRAPH_BORDERS)


def _table(table: Any) -> None:
    """Lines between the rows, a head that repeats on every page, small type.

    Rows may be parted by a page: with a repeated head as well, LibreOffice 7.4 loses rows that may not be.
    """
    from docx.oxml import OxmlElement
    from docx.oxml.ns import qn
    from docx.shared import Pt

    properties = table._tbl.tblPr
    borders = OxmlElement("w:tblBorders")
    for side in ("top", "bottom", "insideH"):
        line = OxmlElement(f"w:{side}")
        for name, value in (("val", "single"), ("sz", "4"), ("space", "0"), ("color", "777777")):
            line.set(qn(f"w:{name}"), value)
        borders.append(line)
    properties.insert_element_before(borders, *_AFTER_TABLE_BORDERS)
    for number, row in enumerate(table.rows):
        row_properties = row._tr.get_or_add_trPr()
        if number == 0 and row_properties.find(qn("w:tblHeader")) is None:
            row_properties.append(OxmlElement("w:tblHeader"))
        for cell in row.cells:
            for paragraph in cell.paragraphs:
                paragraph.paragraph_format.space_after = Pt(2)
                paragraph.paragraph_format.space_before = Pt(2)
                for run in paragraph.runs:
                    run.font.size = Pt(9)
                    run.font.bold = True if number == 0 else run.font.bold


def _page_number(paragraph: Any) -> None:
    """ "Page 2 of 9" as fields that the word processor fills."""
    from docx.oxml import OxmlElement
    from docx.oxml.ns import qn

    for text, field in (("Page ", "PAGE"), (" of ", "NUMPAGES")):
        paragraph.add_run(text)
        run = paragraph.add_run()
        for kind, content in (("begin", ""), ("", field), ("end", "")):
            if kind:
                element = OxmlElement("w:fldChar")
                element.set(qn("w:fldCharType"), kind)
            else:
                element = OxmlElement("w:instrText")
                element.set(qn("xml:space"), "preserve")
                element.text = content
            run._r.append(element)
