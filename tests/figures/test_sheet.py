"""Text on the sheet: measured, wrapped and kept as text."""

from __future__ import annotations

import itertools
import struct

import pytest

from tests.figures.helpers import HOSTILE, lines_of, root_of, size_of, words_of

pytest.importorskip("matplotlib")

from analog.figures.figure import Figure, dressed
from analog.figures.sheet import BODY, DOTS, HEAD, SMALL, WIDTH, Sheet, height_of, text_width, wrap

TEXTS = (
    "upper part of a thread, rubbery at the flesh and stiffer towards the pad",
    "a",
    "glyceraldehyde-3-phosphate-dehydrogenase-and-then-some-more-of-it without end",
    "W" * 90,
    "塵 и пыль, ἄτομος",
)


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize("width", [20.0, 54.0, 110.0, 400.0])
def test_no_line_is_wider_than_its_room_and_nothing_is_lost(text: str, width: float) -> None:
    lines = wrap(text, width)
    assert all(text_width(line) <= width or len(line) == 1 for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_an_empty_text_is_one_empty_line() -> None:
    assert wrap("", 50) == [""] == wrap("   ", 50)


@pytest.mark.parametrize("size", [SMALL, BODY, HEAD])
@pytest.mark.parametrize("bold", [False, True])
def test_the_width_is_that_of_the_letters_drawn(size: float, bold: bool) -> None:
    """Second opinion: the raster renderer of matplotlib (its own hinting moves it by a few parts in a hundred)."""
    from matplotlib.backends.backend_agg import RendererAgg
    from matplotlib.font_manager import FontProperties

    text = TEXTS[0]
    font = FontProperties(family="DejaVu Sans", size=size, weight="bold" if bold else "normal")
    dots = 600
    wide, _, _ = RendererAgg(100, 100, dots).get_text_width_height_descent(text, font, ismath=False)
    assert text_width(text, size, bold) == pytest.approx(wide * 72 / dots, rel=0.03)


def test_lines_are_stacked_by_the_height_that_is_reckoned_with() -> None:
    sheet = Sheet()
    below = sheet.text(0, 10, TEXTS[0], width=90)
    lines = lines_of(sheet.finish("A.", "B."))
    assert len(lines) == len(wrap(TEXTS[0], 90)) > 2
    assert below == pytest.approx(10 + height_of(len(lines)))
    assert all(upper.bottom <= lower.top for upper, lower in itertools.pairwise(lines))


def drawn(text: str) -> Figure:
    sheet = Sheet()
    sheet.text(0, 0, text, width=200)
    sheet.box(0, 60, 50, 20, style="dashed")
    sheet.line([(0, 90), (60, 90)], style="dotted", arrow=True)
    sheet.mark(80, 90, "x", style="heavy")
    sheet.ring(120, 90)
    return sheet.finish(text, text)


def test_hostile_text_is_shown_letter_by_letter_and_does_nothing() -> None:
    """Markup is escaped, `$…$` is no formula, and what XML does not allow (XML 1.0, 2.2) is not there."""
    figure = drawn(HOSTILE)
    root = root_of(figure)  # a parser of XML reads it
    assert not list(root.iter("{http://www.w3.org/2000/svg}script"))
    assert "<script>alert" not in figure.svg
    shown = words_of(figure)
    for piece in ("<script>", "&", "$x_1$", "\\frac{1}{2}", "{{7*7}}", "塵"):
        assert piece in shown
    assert "\x1b" not in figure.svg and "\u202e" not in figure.svg


def test_the_image_has_a_title_and_a_description_and_needs_nothing_else() -> None:
    figure = drawn("one line")
    root = root_of(figure)
    title, told = root[0], root[1]
    assert (title.tag, told.tag) == ("{http://www.w3.org/2000/svg}title", "{http://www.w3.org/2000/svg}desc")
    assert root.get("role") == "img"
    assert root.get("aria-labelledby", "").split() == [title.get("id"), told.get("id")]
    outside = figure.svg.replace("http://www.w3.org/2000/svg", "").replace("http://www.w3.org/1999/xlink", "")
    assert "http" not in outside and "DOCTYPE" not in outside and "<style" not in outside and "data:" not in outside
    assert figure.inline.startswith("<svg ") and figure.inline in figure.svg


def test_two_figures_in_one_page_share_no_identifier() -> None:
    def identifiers(figure: Figure) -> set[str]:
        return {element.get("id", "") for element in root_of(figure).iter() if element.get("id")}

    one, other = identifiers(drawn("one")), identifiers(drawn("other"))
    assert len(one) > 5 and not one & other


def test_references_inside_the_figure_still_lead_somewhere() -> None:
    svg = '<?xml version="1.0"?><svg viewBox="0 0 1 1"><g id="a"/><use xlink:href="#a"/><g clip-path="url(#a)"/></svg>'
    out = dressed(svg, "t", "d")
    prefix = out.split('id="', 1)[1].split("-", 1)[0]
    assert f'<g id="{prefix}-a"/>' in out and f'href="#{prefix}-a"' in out and f"url(#{prefix}-a)" in out


def test_it_is_as_wide_as_the_text_of_a_page_and_no_letter_is_below_8_points() -> None:
    """16 cm between margins of 25 mm on A4 (210 mm, ISO 216)."""
    figure = drawn("some text")
    wide, _ = size_of(figure)
    assert pytest.approx(21.0 - 2 * 2.5) == WIDTH / 72 * 2.54
    assert wide == pytest.approx(WIDTH, rel=0.01)
    assert min(line.size for line in lines_of(figure)) >= 8


def test_the_picture_has_150_dots_an_inch() -> None:
    """PNG (Third Edition), 5.6 and 11.3.4.3: IHDR holds width and height, pHYs the pixels a metre."""
    figure = drawn("some text")
    assert figure.png.startswith(b"\x89PNG\r\n\x1a\n")
    wide, high = struct.unpack(">II", figure.png[16:24])
    across, down = size_of(figure)
    assert (wide, high) == (pytest.approx(across / 72 * DOTS, abs=1), pytest.approx(down / 72 * DOTS, abs=1))
    start = figure.png.index(b"pHYs") + 4
    x, y, unit = struct.unpack(">IIB", figure.png[start : start + 9])
    assert (round(x * 0.0254), round(y * 0.0254), unit) == (DOTS, DOTS, 1)
