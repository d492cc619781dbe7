"""A figure of a scale check: for every group where each system sits and where the regime ends, on a logarithmic axis.

Read in black and white: systems differ by the shape of their mark, the regime is a light band with its ends drawn as
lines. matplotlib is imported when a figure is asked for; it is the extra `plot`.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from analog.errors import UsageError
from analog.scale.regime import GroupCheck, RegimeCheck

MARKS = ("o", "s", "^", "D")
FORMATS = (".svg", ".png")


def draw(checks: Mapping[str, RegimeCheck], path: Path, *, replace: bool = False) -> str:
    """Draw checks of one principle, by label, into an SVG or PNG file; returns the text alternative.

    Raises UsageError if the ending is another, the file exists and replace is False, matplotlib is not installed, or
    nothing can be drawn (no group has a value).
    """
    if path.suffix.lower() not in FORMATS:
        raise UsageError(f"expected a figure ending in {' or '.join(FORMATS)}, found {path.name!r}")
    if path.exists() and not replace:
        raise UsageError(f"{path} exists; name another file, or say --overwrite")
    if not path.parent.is_dir():
        raise UsageError(f"expected the folder {path.parent} to exist")
    told = text_alternative(checks)
    _written(figure(checks), path, told)
    return told


def text_alternative(checks: Mapping[str, RegimeCheck]) -> str:
    """What the figure shows, in sentences."""
    sentences = []
    for identity, rows in _rows(checks).items():
        first = next(iter(rows.values()))
        values = ", ".join(f"{label} at {row.value_text} ({row.status})" for label, row in rows.items())
        sentences.append(f"{first.group.name} ({identity}), must be {first.bound_text}: {values}.")
    if not sentences:
        raise UsageError("expected at least one group with a value to draw; give the missing quantities")
    return " ".join(sentences)


def _rows(checks: Mapping[str, RegimeCheck]) -> dict[str, dict[str, GroupCheck]]:
    """Group id -> label -> its check, for groups with a positive value (the axis is logarithmic)."""
    rows: dict[str, dict[str, GroupCheck]] = {}
    for label, check in checks.items():
        for group in check.groups:
            if group.low is not None and group.high is not None and group.high > 0:
                rows.setdefault(group.group.id, {}).setdefault(label, group)
    return rows


def figure(checks: Mapping[str, RegimeCheck]) -> Any:
    """The matplotlib Figure: one line of marks a group."""
    try:
        from matplotlib.figure import Figure
    except ImportError:
        raise UsageError("expected matplotlib for a figure; install it with: pip install 'analog[plot]'") from None
    rows = _rows(checks)
    if not rows:
        raise UsageError("expected at least one group with a value to draw; give the missing quantities")
    canvas = Figure(figsize=(7.2, 1.1 + 1.25 * len(rows)), layout="constrained")
    axes = canvas.subplots(len(rows), 1, squeeze=False)[:, 0]
    labels = list(checks)
    for axis, row in zip(axes, rows.values(), strict=True):
        _row(axis, row, labels)
    title = next(iter(checks.values())).principle.title
    # a title may hold any sign, and none of them is a formula
    canvas.suptitle(title, fontsize=11).set_parse_math(False)
    legend = axes[-1].legend(
        loc="upper center", bbox_to_anchor=(0.5, -0.45), ncols=len(labels), frameon=False, fontsize=9
    )
    for text in legend.get_texts():
        text.set_parse_math(False)
    return canvas


def _row(axis: Any, row: Mapping[str, GroupCheck], labels: list[str]) -> None:
    first = next(iter(row.values()))
    bound = first.bound
    ends = [end for check in row.values() for end in (check.low, check.high) if end is not None and end > 0]
    limits = [end for end in (bound.low, bound.high) if end is not None and end > 0] if bound else []
    left, right = min(ends + limits) / 4, max(ends + limits) * 4
    axis.set_xscale("log")
    axis.set_xlim(left, right)
    if bound is not None and limits:
        low = bound.low if bound.low is not None and bound.low > 0 else left
        high = bound.high if bound.high is not None else right
        axis.axvspan(low, high, facecolor="0.88", edgecolor="none", zorder=0)
        for end in limits:
            axis.axvline(end, color="black", linewidth=1.5, linestyle="--", zorder=1)
    for place, label in enumerate(labels):
        if label not in row:
            axis.plot([], [], MARKS[place % len(MARKS)], color="black", mfc="white", label=label)
            continue
        check = row[label]
        low, high = max(check.low or left, left), max(check.high or left, left)
        height = 0.7 - 0.4 * place / max(1, len(labels) - 1) if len(labels) > 1 else 0.5
        middle = (low * high) ** 0.5
        axis.plot([low, high], [height, height], color="black", linewidth=2, solid_capstyle="butt", zorder=2)
        mark = {"marker": MARKS[place % len(MARKS)], "markersize": 8, "mfc": "white", "color": "black"}
        axis.plot([middle], [height], linestyle="none", label=label, zorder=3, **mark)
    axis.set_ylim(0, 1)
    axis.set_yticks([])
    words = {"holds": "holds", "edge": "at the edge", "fails": "fails", "no bound": "no bound", "missing": "missing"}
    told = "; ".join(f"{label}: {words[check.status]}" for label, check in row.items())
    axis.set_title(f"{first.group.name}, must be {first.bound_text}  ({told})", fontsize=9, loc="left").set_parse_math(
        False
    )


def _written(canvas: Any, path: Path, told: str) -> None:
    """Write beside, then move; no date in the file, so that the same check gives the same bytes."""
    import matplotlib

    ending = path.suffix.lower()[1:]
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=f".{ending}")
    os.close(handle)
    beside = Path(name)
    metadata = {"Date": None, "Description": told} if ending == "svg" else {"Description": told}
    try:
        with matplotlib.rc_context({"svg.hashsalt": "analog", "svg.fonttype": "none"}):
            canvas.savefig(beside, format=ending, dpi=160, metadata=metadata)
        mask = os.umask(0)
        os.umask(mask)
        beside.chmod(0o666 & ~mask)
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
