"""Text as it is read: bounded, free of control characters, with one spelling of signs and numbers."""

from __future__ import annotations

import re
import unicodedata

from analog.errors import ReadingError

MAXIMUM_CHARACTERS = 20_000
"""Longer texts are refused: a problem is a few sentences, and reading is quadratic in no case but slow in all."""

_SIGNS = str.maketrans(
    {
        "−": "-", "‐": "-", "‑": "-", "‒": "-", "–": "-", "—": " - ", "―": " - ", "’": "'", "‘": "'", "ʼ": "'",
        "“": '"', "”": '"', "„": '"', "«": '"', "»": '"', "µ": "u", "μ": "u", "℃": "°C", "℉": "°F", "º": "°",
        "˚": "°", "×": "x", "…": "...", "≤": "<=", "≥": ">=", "≈": "~", "\u200b": "", "\ufeff": "", "\u00ad": "",
    }
)  # fmt: skip


def plain_text(text: str) -> str:
    """One line with plain signs: typographic minus and dashes as -, both mu as u, ℃ as °C, spaces single."""
    text = text.translate(_SIGNS)
    text = "".join(" " if unicodedata.category(c)[0] in "CZ" else c for c in text)
    return " ".join(text.split())


def bounded_text(text: str) -> str:
    """`plain_text` of a problem. Raises ReadingError if it is empty or longer than MAXIMUM_CHARACTERS."""
    if len(text) > MAXIMUM_CHARACTERS:
        raise ReadingError(
            f"Expected a problem of at most {MAXIMUM_CHARACTERS:,} characters, got {len(text):,}; "
            "say in a sentence or two what is to be achieved"
        )
    plain = plain_text(text)
    if not plain:
        raise ReadingError('Expected a problem in a sentence, such as "remove dust from solar panels"; got nothing')
    return plain


_KEPT = re.compile(r"[a-z0-9]+")


def identifier(phrase: str) -> str:
    """Kebab-case of a phrase, at most 80 characters, beginning with a letter; "thing" if no letter is left."""
    folded = unicodedata.normalize("NFKD", phrase).encode("ascii", "ignore").decode().lower()
    name = "-".join(_KEPT.findall(folded.replace("'s", "")))[:80].strip("-")
    if not name:
        return "thing"
    return name if name[0].isalpha() else f"thing-{name}"[:80].strip("-")
