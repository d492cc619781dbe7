"""The coverage table as a heat map in SVG: the darker, the more models; every cell also holds its number.

Read in black and white: only grey is used, and numbers on dark cells are white. matplotlib is the extra `plot`.
"""

from __future__ import annotations

import io
from html import escape
from pathlib import Path
from typing import Any

from analog.errors import UsageError
from analog.files import write_text
from analog.model.coverage import COLUMNS, SETTINGS, Coverage, text_alternative

DARK = 0.55
"""Share of the largest number above which a cell is dark enough for white figures."""


def draw(coverage: Coverage, path: Path) -> None:
    """Write the heat map, over an older one. Raises UsageError without matplotlib."""
    write_text(path, svg(coverage), replace=True)


def svg(coverage: Coverage) -> str:
    """The figure as SVG text with a title and a description for readers who do not see it."""
    canvas = _figure(coverage)
    import matplotlib

    file = io.StringIO()
    with matplotlib.rc_context({"svg.hashsalt": "analog", "svg.fonttype": "none"}):
        # no date in the file, so that the same table gives the same figure
        canvas.savefig(file, format="svg", metadata={"Date": None})
    # an image with a title and a description, as SVG 2 (section 5.7) and WAI-ARIA Graphics have it
    start, opening, rest = file.getvalue().partition("<svg ")
    attributes, closing, body = rest.partition(">")
    told = escape(text_alternative(coverage))
    head = (
        f'{opening}role="img" aria-labelledby="title description" {attributes}{closing}\n'
        f' <title id="title">What the corpus covers</title>\n <desc id="description">{told}</desc>'
    )
    return start + head + body


def _figure(coverage: Coverage) -> Any:
    try:
        from matplotlib.figure import Figure
    except ImportError:
        raise UsageError("expected matplotlib for a figure; install it with: pip install 'analog[plot]'") from None
    numbers = [[coverage.cells[name][column] for column in COLUMNS] for name in coverage.functions]
    most = max((n for row in numbers for n in row), default=0) or 1
    canvas = Figure(figsize=(9.0, 1.8 + 0.3 * len(numbers)), layout="constrained")
    axes = canvas.subplots()
    # a mesh, not an image: its cells stay sharp at any size
    axes.pcolormesh(numbers, cmap="Greys", vmin=0, vmax=most, edgecolors="0.8", linewidth=0.5)
    axes.invert_yaxis()
    for y, row in enumerate(numbers):
        for x, number in enumerate(row):
            colour = "white" if number > DARK * most else "black"
            axes.text(x + 0.5, y + 0.5, str(number or "·"), ha="center", va="center", fontsize=8, color=colour)
    axes.set_xticks(
        [x + 0.5 for x in range(len(COLUMNS))], COLUMNS, rotation=35, ha="left", rotation_mode="anchor", fontsize=8
    )
    labels = [f"{name}  ({coverage.models_in[name]})" for name in coverage.functions]
    axes.set_yticks([y + 0.5 for y in range(len(labels))], labels, fontsize=8)
    axes.xaxis.tick_top()
    axes.tick_params(length=0)
    axes.axvline(len(SETTINGS), color="black", linewidth=1.5)  # settings on the left, sizes on the right
    axes.set_xlabel("number of models; in brackets: models under the function", fontsize=8)
    return canvas
