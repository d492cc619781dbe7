"""The sheet that figures are drawn on: boxes, lines, marks and wrapped text in points, from the top left downwards.

The width is that of the text of an A4 page (16 cm), so that a size in points here is the size in print. Black, white
and greys only: what matters is told by words, by line style and by the shape of a mark.
"""

from __future__ import annotations

import io
import math
import warnings
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, Literal

from analog.errors import UsageError, printable
from analog.figures.figure import Drawn, Figure, dressed

WIDTH = 16 / 2.54 * 72
"""Points: the width of the text on a printed page of A4 with margins of 25 mm (ISO 216 gives 210 mm for the page)."""

BODY, SMALL, HEAD = 8.8, 8.2, 10.0
"""Sizes of text in points; none is below 8."""

LEADING = 1.24
DOTS = 150
UNITS = 1000
MARGIN = 2.0
FONT = "DejaVu Sans"
"""Comes with matplotlib, so that a figure is the same everywhere."""

Style = Literal["solid", "dashed", "dotted", "heavy", "none"]
_DASHES: dict[str, tuple[float, ...]] = {"dashed": (5.0, 2.5), "dotted": (1.2, 2.2)}
LIGHT = "0.92"

MARKS = {"carries over": "+", "carries over if": "?", "open": "o", "breaks": "x"}
VERDICT_STYLE: dict[str, Style] = {
    "carries over": "solid",
    "carries over if": "dashed",
    "open": "dotted",
    "breaks": "heavy",
}
"""How a verdict looks beside its words: the mark that the terminal prints too, and the style of its line."""

Point = tuple[float, float]


def matplotlib_or_told() -> Any:
    """matplotlib. Raises UsageError, saying how to get it, where it is not installed."""
    try:
        import matplotlib
    except ImportError:
        raise UsageError("expected matplotlib for a figure; install it with: pip install 'analog[plot]'") from None
    return matplotlib


@contextmanager
def _settings() -> Iterator[None]:
    """The same settings whoever draws: no settings file of a user, text kept as text, nothing that varies."""
    matplotlib_or_told()
    import matplotlib.style

    fixed = {"svg.hashsalt": "analog", "svg.fonttype": "none", "font.family": [FONT], "savefig.dpi": DOTS}
    with matplotlib.style.context(["default", fixed]), warnings.catch_warnings():
        warnings.filterwarnings("ignore", message="Glyph .* missing")  # told by a box in the picture
        yield


@lru_cache(maxsize=4096)
def _advance(character: str, bold: bool) -> float:
    """How far a character moves the pen, over the size of the font; a character without a shape counts as a box."""
    matplotlib_or_told()
    from matplotlib.font_manager import FontProperties, findfont, get_font
    from matplotlib.ft2font import LoadFlags

    font = get_font(findfont(FontProperties(family=FONT, weight="bold" if bold else "normal")))
    font.set_size(UNITS, 72)  # anew each time: the font is shared with whoever draws
    glyph = font.load_glyph(font.get_char_index(ord(character)), flags=LoadFlags.NO_HINTING)
    return float(glyph.linearHoriAdvance) / 65536 / UNITS


@lru_cache(maxsize=65536)
def text_width(text: str, size: float = BODY, bold: bool = False) -> float:
    """Width of one line in points: the sum of its letters, without the little that kerning takes away."""
    return size * sum(_advance(character, bold) for character in text)


def wrap(text: str, width: float, size: float = BODY, bold: bool = False) -> list[str]:
    """Lines of at most `width` points; a word that is longer is cut where it must be."""
    lines: list[str] = []
    line = ""
    for word in printable(text).split():
        longer = f"{line} {word}" if line else word
        if text_width(longer, size, bold) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        while text_width(word, size, bold) > width and len(word) > 1:
            fits = _fitting(word, width, size, bold)
            lines.append(word[:fits])
            word = word[fits:]
        line = word
    return [*lines, line] if line else lines or [""]


def _fitting(word: str, width: float, size: float, bold: bool) -> int:
    """How many characters of a long word fit; the cut goes after its last hyphen there, if it has one."""
    fits = max((n for n in range(1, len(word)) if text_width(word[:n], size, bold) <= width), default=1)
    hyphen = word.rfind("-", 1, fits)
    return hyphen + 1 if hyphen > 0 else fits


def height_of(lines: Sequence[str] | int, size: float = BODY) -> float:
    """Height of lines of text in points."""
    return (lines if isinstance(lines, int) else len(lines)) * size * LEADING


@dataclass
class Sheet:
    """What has been put on the sheet; it grows downwards as things are added."""

    width: float = WIDTH
    bottom: float = 0.0
    _drawn: list[tuple[str, tuple[Any, ...]]] = field(default_factory=list)

    def text(
        self,
        x: float,
        y: float,
        text: str,
        *,
        width: float | None = None,
        size: float = BODY,
        bold: bool = False,
        italic: bool = False,
        align: Literal["left", "center", "right"] = "left",
    ) -> float:
        """Text with its top at y, wrapped into `width`; returns the y below it.

        x is the left edge, the middle or the right edge, as `align` says.
        """
        lines = wrap(text, width, size, bold) if width is not None else [" ".join(printable(text).split())]
        for number, line in enumerate(lines):
            baseline = y + size * (number * LEADING + 0.98)
            self._drawn.append(("text", (x, baseline, line, size, bold, italic, align)))
        below = y + height_of(lines, size)
        self._reach(below)
        return below

    def box(
        self, x: float, y: float, width: float, height: float, *, style: Style = "solid", fill: str = "white"
    ) -> None:
        """A rectangle with its top left corner at (x, y)."""
        self._drawn.append(("box", (x, y, width, height, style, fill)))
        self._reach(y + height)

    def line(
        self, points: Sequence[Point], *, style: Style = "solid", arrow: bool = False, weight: float = 1.0
    ) -> None:
        """A line through points, with an arrow head at its end if wanted."""
        self._drawn.append(("line", (tuple(points), style, arrow, weight)))
        self._reach(max(y for _, y in points))

    def mark(self, x: float, y: float, sign: str, *, side: float = 12.0, style: Style = "solid") -> None:
        """A sign in a small square frame, its middle at (x, y)."""
        self.box(x - side / 2, y - side / 2, side, side, style=style)
        self._drawn.append(("text", (x, y + SMALL * 0.36, sign, SMALL, True, False, "center")))

    def ring(self, x: float, y: float, radius: float = 3.0, *, filled: bool = False) -> None:
        """A small ring or dot: the open or closed end of a line."""
        self._drawn.append(("ring", (x, y, radius, filled)))
        self._reach(y + radius)

    def _reach(self, y: float) -> None:
        self.bottom = max(self.bottom, y)

    def finish(self, title: str, description: str) -> Figure:
        """The figure. Raises UsageError without matplotlib."""
        svg = io.StringIO()
        with _settings():
            self._canvas().savefig(svg, format="svg", dpi=72, metadata={"Date": None, "Creator": None})
        clean_title, told = (" ".join(printable(text).split()) for text in (title, description))
        return Drawn(clean_title, told, dressed(svg.getvalue(), clean_title, told), self._pixels)

    def _pixels(self) -> bytes:
        png = io.BytesIO()
        with _settings():
            self._canvas().savefig(png, format="png", dpi=DOTS, metadata={"Software": None})
        return png.getvalue()

    def _canvas(self) -> Any:
        from matplotlib.figure import Figure as Canvas

        wide, high = self.width + 2 * MARGIN, self.bottom + 2 * MARGIN
        canvas = Canvas(figsize=(wide / 72, high / 72), facecolor="white")
        axes = canvas.add_axes((0, 0, 1, 1))
        axes.set(xlim=(-MARGIN, self.width + MARGIN), ylim=(self.bottom + MARGIN, -MARGIN))
        axes.set_axis_off()
        for order, (what, how) in enumerate(self._drawn):
            _PUT[what](axes, order, *how)
        return canvas


def _put_text(
    axes: Any, order: int, x: float, y: float, text: str, size: float, bold: bool, italic: bool, align: str
) -> None:
    axes.text(
        x,
        y,
        text,
        fontsize=size,
        fontweight="bold" if bold else "normal",
        fontstyle="italic" if italic else "normal",
        ha=align,
        va="baseline",
        color="black",
        zorder=order,
        parse_math=False,  # a text may hold any sign, and none of them begins a formula
    )


def _stroke(style: Style, weight: float = 1.0) -> dict[str, Any]:
    if style == "none":
        return {"linewidth": 0.0}
    look: dict[str, Any] = {"linewidth": 2.2 if style == "heavy" else weight}
    if style in _DASHES:
        look["linestyle"] = (0, _DASHES[style])
        look["linewidth"] = 1.3 * weight if style == "dotted" else weight
    return look


def _put_box(axes: Any, order: int, x: float, y: float, width: float, height: float, style: Style, fill: str) -> None:
    from matplotlib.patches import Rectangle

    edge = "none" if style == "none" else "black"
    axes.add_patch(
        Rectangle((x, y), width, height, facecolor=fill, edgecolor=edge, zorder=order, clip_on=False, **_stroke(style))
    )


def _put_line(axes: Any, order: int, points: Sequence[Point], style: Style, arrow: bool, weight: float) -> None:
    from matplotlib.lines import Line2D

    shown = list(points)
    if arrow:
        (x0, y0), (x1, y1) = shown[-2:]
        length = math.hypot(x1 - x0, y1 - y0) or 1.0
        ux, uy = (x1 - x0) / length, (y1 - y0) / length
        head, half = min(6.0, length), 2.8
        shown[-1] = (x1 - ux * head * 0.9, y1 - uy * head * 0.9)
        tip = [
            (x1, y1),
            (x1 - ux * head - uy * half, y1 - uy * head + ux * half),
            (x1 - ux * head + uy * half, y1 - uy * head - ux * half),
        ]
        from matplotlib.patches import Polygon

        axes.add_patch(Polygon(tip, closed=True, facecolor="black", edgecolor="none", zorder=order, clip_on=False))
    xs, ys = zip(*shown, strict=True)
    axes.add_line(Line2D(xs, ys, color="black", zorder=order, clip_on=False, **_stroke(style, weight)))


def _put_ring(axes: Any, order: int, x: float, y: float, radius: float, filled: bool) -> None:
    from matplotlib.patches import Circle

    face = "black" if filled else "white"
    axes.add_patch(
        Circle((x, y), radius, facecolor=face, edgecolor="black", linewidth=1.0, zorder=order, clip_on=False)
    )


_PUT: dict[str, Any] = {"text": _put_text, "box": _put_box, "line": _put_line, "ring": _put_ring}
