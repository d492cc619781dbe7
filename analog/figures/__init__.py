"""Figures for briefs and pages: drawn by matplotlib (extra `plot`), each with a text alternative, readable in black and
white."""

from __future__ import annotations

from importlib.util import find_spec


def available() -> bool:
    """Whether figures can be drawn: matplotlib is there. Nothing is imported to find out."""
    return find_spec("matplotlib") is not None
