"""Briefs told once for every test of this folder, and figures that cost no drawing."""

from __future__ import annotations

import struct
import zlib

import pytest

from analog.api import Library
from analog.brief.content import Brief, Line
from analog.brief.draft import Draft
from analog.figures.figure import Figure

HOSTILE = (
    "1. <script>alert(1)</script> ![x](javascript:alert(1)) [y](javascript:2) `rm -rf` | a | $x^2$ @ref "
    '#let z = 1 #panic("no") #read("/etc/passwd") \\evil{a} *b* _c_ ~d~ "e" \' & &lt; {{ 7 * 7 }} // /* */ <label> = f'
)
"""Marks of HTML, Markdown, typst, TeX and templates in one text."""


SIGNS = "α γ Δ θ λ µ σ Ω × − ± ≤ ≥ ≈ √ ∞ ° ² ³ ⁻ ₁ → · …"
"""Greek letters and signs that principles and quantities use."""


def small_picture(red: int) -> bytes:
    """A PNG of one pixel (ISO/IEC 15948): signature, header, data, end."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))

    header = struct.pack(">IIBBBBB", 1, 1, 8, 2, 0, 0, 0)
    data = zlib.compress(b"\x00" + bytes([red, 0, 0]))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", data) + chunk(b"IEND", b"")


def stand_in(name: str) -> Figure:
    """A figure for the views to place."""
    svg = (
        f'<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30" role="img">'
        f"<title>{name}</title><desc>words of {name}</desc><rect width='40' height='30'/></svg>"
    )
    return Figure(title=f"Caption of {name}.", description=f"What {name} shows: θ ≥ 5 µm.", svg=svg,
                  png=small_picture(len(name) % 256))  # fmt: skip


@pytest.fixture(scope="session")
def draft(library: Library) -> Draft:
    """Two analogues in a dry desert: one breaks there, and numbers are given."""
    return library.draft_brief(
        "remove dust from solar panels",
        ["gecko-toe-dry-self-cleaning", "lotus-leaf-rolling-drops"],
        ["no water available", "particle size 5-50 um"],
        command="analog brief --problem 'remove `dust` from solar panels'",
    )


@pytest.fixture(scope="session")
def brief(draft: Draft) -> Brief:
    """Its content."""
    return draft.content


@pytest.fixture(scope="session")
def hostile(brief: Brief) -> Brief:
    """The same with marks of every format in texts of every kind."""
    first = brief.analogues[0]
    wrong = first.model_copy(
        update={
            "title": f"{HOSTILE} title",
            "organism": HOSTILE,
            "summary": Line(text=HOSTILE, basis="model"),
            "cautions": (HOSTILE,),
            "limits": (Line(text=HOSTILE, basis="<b>key</b>"),),
            "steps": (first.steps[0].model_copy(update={"text": HOSTILE, "grounds": (HOSTILE,)}), *first.steps[1:]),
        }
    )
    problem = brief.problem.model_copy(
        update={"text": HOSTILE, "reading": HOSTILE, "notes": (HOSTILE, "- a", "+ b", SIGNS)}
    )
    return brief.model_copy(
        update={"title": f"Transfer brief: {HOSTILE}", "problem": problem, "analogues": (wrong, *brief.analogues[1:])}
    )


@pytest.fixture(scope="session")
def figures(hostile: Brief) -> dict[str, Figure]:
    """One figure for every place of the hostile brief."""
    from analog.brief.document import Picture
    from analog.brief.outline import outline

    places = [block.key for block in outline(hostile).blocks if isinstance(block, Picture)]
    return {key: stand_in(key) for key in places}
