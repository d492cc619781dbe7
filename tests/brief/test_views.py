"""The five endings: the same content in every one, hostile text shown and never obeyed, files never overwritten."""

from __future__ import annotations

import json
import re
import sys
import unicodedata
from dataclasses import replace
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path
from typing import Any

import docx as python_docx
import pypandoc
import pypdf
import pytest
from docx.oxml.ns import qn

from analog.brief.content import UNKNOWN, Brief
from analog.brief.document import Heading, Picture, Table, strings
from analog.brief.draft import Draft
from analog.brief.markdown import markdown_text
from analog.brief.office import MILLIMETRES, _marks_escaped, typst_string
from analog.brief.outline import NO_FIGURES, outline
from analog.brief.views import VIEWS, as_json, docx, html, markdown, pdf, view_for
from analog.errors import UsageError
from analog.explain.sentences import shortened
from analog.figures.figure import Figure
from analog.files import write_bytes, write_text
from tests.brief.conftest import HOSTILE, SIGNS, stand_in

TABLE_PROPERTIES = (
    "tblStyle", "tblpPr", "tblOverlap", "bidiVisual", "tblStyleRowBandSize", "tblStyleColBandSize", "tblW", "jc",
    "tblCellSpacing", "tblInd", "tblBorders", "shd", "tblLayout", "tblCellMar", "tblLook", "tblCaption",
    "tblDescription",
)  # fmt: skip
"""ECMA-376 part 1, annex A, CT_TblPr."""


class Page(HTMLParser):
    """Tags, addresses and text of a page, as Python's own parser reads it."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.addresses: list[str] = []
        self.pieces: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.addresses += [value or "" for name, value in attrs if name in {"src", "href", "action", "xlink:href"}]
        assert not any(name.startswith("on") for name, _ in attrs)

    def handle_data(self, data: str) -> None:
        if self.tags and self.tags[-1] != "style":
            self.pieces.append(data)


def normal(text: str) -> str:
    """Letters, digits and signs alone: no spaces, no hyphens, ligatures and typographic quotes made plain."""
    plain = unicodedata.normalize("NFKC", text).translate({0x2018: "'", 0x2019: "'", 0x201C: '"', 0x201D: '"'})
    return re.sub(r"[\s\u00ad\u2010-]", "", plain)


@pytest.fixture(scope="module")
def pdf_file(hostile: Brief, figures: dict[str, Figure]) -> pypdf.PdfReader:
    """The one PDF that these tests compile."""
    return pypdf.PdfReader(BytesIO(pdf(hostile, figures, "a4")))


@pytest.fixture(scope="module")
def docx_file(hostile: Brief, figures: dict[str, Figure]) -> Any:
    """The one DOCX that these tests write."""
    return python_docx.Document(BytesIO(docx(hostile, figures, "letter")))


@pytest.fixture(scope="module")
def pdf_texts(pdf_file: pypdf.PdfReader) -> list[str]:
    """The text of each page."""
    return [page.extract_text() for page in pdf_file.pages]


def words_of_docx(document: Any) -> str:
    return "\n".join(element.text or "" for element in document.element.body.iter() if element.tag.endswith("}t"))


def words_of_pdf(texts: list[str], title: str) -> str:
    """The text without what stands at the head and foot of every page."""
    pages = []
    head = normal(title)
    for number, each in enumerate(texts, start=1):
        text = normal(each).replace(f"Page{number}of{len(texts)}", "")
        shared = next((n for n in range(len(head), 20, -1) if text.startswith(head[:n])), 0) if number > 1 else 0
        pages.append(text[shared:])
    return "".join(pages)


def words_of_markdown(text: str) -> str:
    """As pandoc's reader of GitHub Flavored Markdown understands it: an outside opinion on our escapes."""
    return str(pypandoc.convert_text(text, "plain", format="gfm", extra_args=["--wrap=none"]))


def test_the_same_content_in_every_ending(
    hostile: Brief, figures: dict[str, Figure], pdf_texts: list[str], docx_file: Any
) -> None:
    """Every text of the outline stands in every view, signs of every format and all."""
    told = strings(outline(hostile))
    views = {
        "html": normal("".join(Page(html(hostile, figures)).pieces)),
        "pdf": words_of_pdf(pdf_texts, hostile.title),
        "docx": normal(words_of_docx(docx_file)),
    }
    for name, text in views.items():
        missing = [each for each in told if normal(each) not in text]
        assert not missing, f"{name}: {missing[:3]}"
    read = normal("".join(Page(pypandoc.convert_text(markdown(hostile, figures), "html", format="gfm")).pieces))
    missing = [each for each in told if normal(each) not in read]
    assert not missing, f"md: {missing[:3]}"


def leaves(record: Any) -> list[str]:
    """Every text of a JSON record."""
    if isinstance(record, str):
        return [record]
    if isinstance(record, dict):
        return [text for value in record.values() for text in leaves(value)]
    return [text for value in record for text in leaves(value)] if isinstance(record, list) else []


def test_the_views_show_every_text_of_the_record(brief: Brief) -> None:
    """What the JSON has, the page shows: sentences may gain a capital and a full stop, nothing else."""
    shown = normal(" ".join(strings(outline(brief)))).lower()
    record = json.loads(as_json(brief))
    for analogue in record["analogues"]:
        del analogue["terms"]  # told by the names of the terms
        analogue["summary"].pop("basis")
        for row in (*analogue["principles"], *analogue["substitutions"]):
            row.pop("note", None)
        for row in analogue["substitutions"]:
            for option in row["options"]:
                option.pop("basis")  # told in words
        for bound in analogue["scale"]["bounds"]:
            bound.pop("step")
            silent = bound["problem"] == UNKNOWN and not bound["decides"]  # told in a list of what to find out
            for name in ("formula", "basis", "outcome", "must_be") if silent else ("missing",):
                bound.pop(name)
        for condition in analogue["scale"]["conditions"]:
            condition.pop("basis")
        if not analogue["scale"]["bounds"]:
            analogue["scale"].pop("note")
    for point in (*record["summary"]["points"], *record["cautions"]):
        point.pop("basis")
    missing = [text for text in leaves(record) if normal(text).lower().rstrip(".") not in shown]
    assert not missing, missing[:5]


def test_hostile_text_is_shown_and_not_obeyed_in_html(hostile: Brief, figures: dict[str, Figure]) -> None:
    page = Page(html(hostile, figures))
    assert not {"script", "img", "iframe", "link", "label", "object"} & set(page.tags)
    assert all(address.startswith("https://doi.org/10.") for address in page.addresses)
    assert HOSTILE in "".join(page.pieces)


def test_hostile_text_is_shown_and_not_obeyed_in_markdown(hostile: Brief, figures: dict[str, Figure]) -> None:
    """Read by pandoc as GitHub Flavored Markdown: no link but the sources', no raw HTML but line breaks, no formula."""
    tree = pypandoc.convert_text(markdown(hostile, figures), "json", format="gfm+tex_math_dollars")
    kinds: list[tuple[str, Any]] = []

    def walk(node: Any) -> None:
        if isinstance(node, dict):
            if "t" in node:
                kinds.append((node["t"], node.get("c")))
            for value in node.values():
                walk(value)
        elif isinstance(node, list):
            for value in node:
                walk(value)

    walk(json.loads(tree))
    assert not {"Image", "Math", "CodeBlock", "Strikeout"} & {kind for kind, _ in kinds}
    assert [content[1] for kind, content in kinds if kind == "Code"] == [hostile.made["command"]]
    assert all("https://doi.org/10." in json.dumps(content) for kind, content in kinds if kind == "Link")
    assert all(content[1].strip() in {"<br>", "<br />"} for kind, content in kinds if kind in {"RawInline", "RawBlock"})
    assert not any(kind == "OrderedList" for kind, _ in kinds), "no text of ours starts a numbered list"


def test_hostile_text_is_shown_and_not_obeyed_in_pdf(pdf_file: pypdf.PdfReader) -> None:
    addresses = []
    for page in pdf_file.pages:
        for annotation in page.get("/Annots", ()):
            action = annotation.get_object().get("/A", {})
            addresses.append(str(action.get("/URI", "https://doi.org/10.")))
            assert action.get("/S") in {"/URI", "/GoTo"}
    assert all(address.startswith("https://doi.org/10.") for address in addresses)
    assert "/JavaScript" not in str(pdf_file.trailer["/Root"])


def test_hostile_text_is_shown_and_not_obeyed_in_docx(docx_file: Any) -> None:
    links = [r for r in docx_file.part.rels.values() if r.is_external]
    assert all(link.target_ref.startswith("https://doi.org/10.") for link in links)
    assert HOSTILE in words_of_docx(docx_file).replace("\n", "") or normal(HOSTILE) in normal(words_of_docx(docx_file))


def test_hostile_text_stays_itself_in_json(hostile: Brief) -> None:
    assert json.loads(as_json(hostile))["problem"]["text"] == HOSTILE


def test_the_pdf_has_title_pages_bookmarks_and_alternatives(
    pdf_file: pypdf.PdfReader, pdf_texts: list[str], hostile: Brief, figures: dict[str, Figure]
) -> None:
    """A4 is 210 × 297 mm (ISO 216); a point is 1/72 inch."""
    assert pdf_file.metadata is not None and pdf_file.metadata.title == hostile.title
    width, height = MILLIMETRES["a4"]
    box = pdf_file.pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((width / 25.4 * 72, height / 25.4 * 72), abs=0.1)
    assert len(pdf_file.pages) >= 5
    for number in (1, len(pdf_texts)):
        assert f"Page {number} of {len(pdf_texts)}" in pdf_texts[number - 1]
    bookmarks = {normal(item.title) for item in pdf_file.outline if not isinstance(item, list)}
    assert {normal(b.text) for b in outline(hostile).blocks if isinstance(b, Heading) and b.level == 2} <= bookmarks
    assert pdf_file.trailer["/Root"]["/MarkInfo"]["/Marked"], "tagged, so that a reading aid finds its way"
    described = pdf_file.trailer["/Root"]["/Metadata"].get_object().get_data()
    assert b"pdfuaid:part" in described, "ISO 14289-1, clause 5: the file says which part it follows"
    told = _alternatives(pdf_file)
    assert {figure.description for figure in figures.values()} <= told


def _alternatives(reader: pypdf.PdfReader) -> set[str]:
    """The /Alt texts of the structure tree (ISO 32000-1, 14.9.3)."""
    found, seen = set(), set()
    stack = [reader.trailer["/Root"]["/StructTreeRoot"]]
    while stack:
        node = stack.pop()
        if isinstance(node, pypdf.generic.IndirectObject):
            if node.idnum in seen:
                continue
            seen.add(node.idnum)
            node = node.get_object()
        if isinstance(node, dict):
            if "/Alt" in node:
                found.add(str(node["/Alt"]))
            if "/K" in node:
                stack.append(node["/K"])
        elif isinstance(node, list):
            stack.extend(node)
    return found


def test_signs_of_science_are_in_the_fonts(pdf_file: pypdf.PdfReader, pdf_texts: list[str]) -> None:
    """No sign of the text is drawn as the box of a missing one; every font is inside the file."""
    for page in pdf_file.pages:
        for font in page["/Resources"]["/Font"].values():
            described = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"].get_object()
            assert {"/FontFile2", "/FontFile3"} & set(described)
    text = unicodedata.normalize("NFC", "".join(pdf_texts)).replace("μ", "µ")
    for sign in SIGNS.split():
        assert sign in text, sign
    assert "\ufffd" not in text
    command = "analog brief --problem 'remove `dust` from solar panels'"
    assert command in " ".join(text.split()), "what is to be typed can be copied"


def test_the_docx_has_headings_tables_and_figures_with_words(
    docx_file: Any, hostile: Brief, figures: dict[str, Figure]
) -> None:
    """US letter is 8.5 × 11 inches (ANSI/ASME Y14.1); heads of tables repeat (ECMA-376 part 1, 17.4.78)."""
    told = outline(hostile)
    headings = [p.text for p in docx_file.paragraphs if p.style.name.startswith("Heading")]
    assert [normal(h) for h in headings] == [normal(b.text) for b in told.blocks if isinstance(b, Heading)]
    levels = [int(p.style.name.split()[-1]) for p in docx_file.paragraphs if p.style.name.startswith("Heading")]
    assert set(levels) == {1, 2}
    tables = [block for block in told.blocks if isinstance(block, Table)]
    assert [len(table.rows) for table in docx_file.tables] == [len(block.rows) + 1 for block in tables]
    for table in docx_file.tables:
        assert table.rows[0]._tr.xpath("./w:trPr/w:tblHeader")
        assert not table._tbl.xpath(".//w:cantSplit"), "with a repeated head, LibreOffice loses rows that may not part"
        names = [element.tag.split("}")[1] for element in table._tbl.tblPr]
        assert names == sorted(names, key=TABLE_PROPERTIES.index), "the order of elements is part of the format"
    described = {str(e.get("descr")) for e in docx_file.element.body.iter() if e.tag.endswith("}docPr")}
    assert {figure.description for figure in figures.values()} <= described
    section = docx_file.sections[0]
    assert (section.page_width.inches, section.page_height.inches) == pytest.approx((8.5, 11), abs=0.01)
    assert docx_file.core_properties.title == shortened(hostile.title, 255)
    assert "Page" in section.footer.paragraphs[0].text


def test_the_page_needs_nothing_from_elsewhere(brief: Brief, figures: dict[str, Figure]) -> None:
    page = Page(html(brief, figures))
    assert {"script", "link", "img", "iframe"} & set(page.tags) == set()
    assert page.tags.count("svg") == sum(key in figures for key in figures)
    elsewhere = re.sub(r'href="https://doi\.org/|xmlns(:xlink)?="http://www\.w3\.org/', "", html(brief, figures))
    assert "://" not in elsewhere


def test_identifiers_in_a_page_are_unique(brief: Brief) -> None:
    """HTML Living Standard, 3.2.6: an id is unique in its tree."""
    found = re.findall(r'\bid="([^"]+)"', html(brief))
    assert len(found) == len(set(found))


def test_missing_figures_are_told_once(brief: Brief) -> None:
    for view in (markdown, html):
        text = view(brief).replace("\\", "").replace("&#39;", "'")
        assert text.count(NO_FIGURES) == 1
        figures = {"terms": stand_in("terms")}
        assert NO_FIGURES not in view(brief, figures).replace("\\", "").replace("&#39;", "'")


def test_real_figures_stand_where_the_outline_has_a_place(draft: Draft) -> None:
    pytest.importorskip("matplotlib")
    content = draft.content.model_copy(update={"analogues": draft.content.analogues[:1]})
    drawn = replace(draft, content=content, results=draft.results[:1]).figures()
    page = html(content, drawn)
    assert {f"change {a.id}" for a in content.analogues} <= set(drawn)
    assert page.count("<svg") == len(drawn)
    assert len(page.encode()) < 1_500_000
    found = re.findall(r'\bid="([^"]+)"', page)
    assert len(found) == len(set(found))


def test_markdown_text_has_no_mark_left() -> None:
    assert markdown_text("# a") == "\\# a"
    assert markdown_text("a\n# b") == "a \\# b"
    assert markdown_text("a | b") == "a \\| b"


def test_typst_strings_end_where_they_end() -> None:
    assert typst_string('a "b" \\') == '"a \\"b\\" \\\\"'


def test_marks_at_the_start_of_a_cell_or_item_are_escaped_for_typst() -> None:
    """typst's syntax (its reference, "Markup"): a dash, a plus, a number with a full stop or an equals sign start
    a list or a heading at the start of any content."""
    assert _marks_escaped("[1. a], [- b], [= c], [d - e]") == "[\\1. a], [\\- b], [\\= c], [d - e]"
    assert _marks_escaped("x\n- 1. a\n- - b\n- c - d") == "x\n- \\1. a\n- \\- b\n- c - d"


def test_the_ending_picks_the_view_and_others_are_refused() -> None:
    assert view_for(Path("x.HTML")) is VIEWS[".html"]
    with pytest.raises(UsageError, match=r"\.md, \.html, \.pdf, \.docx, \.json"):
        view_for(Path("x.exe"))


@pytest.mark.parametrize(("view", "module"), [(pdf, "typst"), (docx, "docx"), (pdf, "pypandoc"), (docx, "pypandoc")])
def test_a_missing_extra_is_named(view: Any, module: str, brief: Brief, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, module, None)
    with pytest.raises(UsageError, match=re.escape("pip install 'analog[brief]'")):
        view(brief)


def test_a_file_is_never_overwritten_unasked_and_never_half_written(tmp_path: Path) -> None:
    target = tmp_path / "brief.md"
    write_text(target, "first")
    with pytest.raises(UsageError, match="exists"):
        write_bytes(target, b"second")
    assert target.read_text() == "first"
    write_text(target, "third", replace=True)
    assert target.read_text() == "third"
    with pytest.raises(UsageError, match="folder"):
        write_text(tmp_path / "no" / "x.md", "x")
    with pytest.raises(UnicodeEncodeError):
        write_text(target, "\ud800", replace=True)
    assert [p.name for p in tmp_path.iterdir()] == ["brief.md"]
    assert target.read_text() == "third"


def test_the_box_of_a_docx_holds_its_list(docx_file: Any) -> None:
    """Neighbours share one box only with the same borders and indents (ECMA-376 part 1, 17.3.1.24, pBdr)."""
    paragraphs = docx_file.paragraphs
    last = max(number for number, p in enumerate(paragraphs) if p.style.name == "Box")
    items = []
    for paragraph in paragraphs[last + 1 :]:
        if paragraph._p.pPr is None or paragraph._p.pPr.find(qn("w:numPr")) is None:
            break
        items.append(paragraph)
    assert items, "the summary has a list"
    style = docx_file.styles["Box"].element.pPr.find(qn("w:pBdr"))
    lines = [(line.tag, dict(line.attrib)) for line in style]
    for item in items:
        assert [(line.tag, dict(line.attrib)) for line in item._p.pPr.find(qn("w:pBdr"))] == lines
        assert item.paragraph_format.left_indent == item.paragraph_format.first_line_indent == 0


def test_each_picture_of_the_pdf_stands_after_its_heading(
    hostile: Brief, figures: dict[str, Figure], pdf_texts: list[str]
) -> None:
    """A picture that floats may come later than its place, never before the heading of its section."""
    document = outline(hostile)
    heading, checked = "", 0
    whole = [normal(text) for text in pdf_texts]
    for block in document.blocks:
        if isinstance(block, Heading):
            heading = normal(block.text)
        if isinstance(block, Picture) and block.key in figures and block.key.startswith(("course", "alignment")):
            of_heading = [number for number, text in enumerate(whole) if heading in text]
            of_caption = [number for number, text in enumerate(whole) if normal(figures[block.key].title) in text]
            assert of_heading and of_caption
            assert of_caption[-1] >= of_heading[0], block.key
            checked += 1
    assert checked
