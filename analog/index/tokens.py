"""Words of a text as the lexical index counts them; build and query share this file."""

from __future__ import annotations

import re
from functools import lru_cache

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")

STOP_WORDS = frozenset(
    # a paragraph is easier to read than sixty quoted words
    """
    a an and are as at be been being but by can could did do does for from had has have how i if in into is it its
    may might must of on or our should so such than that the their them then there these they this those to us was
    we were what when where which while who whose why will with would you your
    """.split()  # noqa: SIM905
)
"""Words without a subject of their own. No verb of the function vocabulary is among them."""

VERSION = 1
"""Raised when the same text would give other tokens."""


def tokens(text: str) -> list[str]:
    """The words of a text in order: lower case, light stems, without stop words. Hyphens divide words."""
    return [stem(word) for word in _WORD.findall(text.casefold()) if word not in STOP_WORDS]


@lru_cache(maxsize=65536)
def stem(word: str) -> str:
    """Take the ending of plurals and of -ing, -ed off, and no more ("panels" and "panel", "separated" and "separate").

    Light on purpose: a stem shared by words of different sense costs more than a missed likeness, which the vectors
    find anyway. Plurals follow Harman (1991), How effective is suffixing?, JASIS 42(1), 7-15 (the "S" stemmer);
    -ing, -ed and the final -e follow step 1b and 5a of Porter (1980), An algorithm for suffix stripping.
    """
    word = word.replace("’", "'").removesuffix("'s")
    word = _plural(word)
    if word.endswith("ied") and len(word) > 4:
        return word[:-3] + "y"
    for ending in ("ing",) if word.endswith("eed") else ("ing", "ed"):
        root = word.removesuffix(ending)
        if root != word and len(root) >= 3 and any(letter in "aeiouy" for letter in root):
            if root[-1] == root[-2] and root[-1] not in "lsz":
                root = root[:-1]
            word = root
            break
    return word[:-1] if word.endswith("e") and len(word) > 3 else word


def _plural(word: str) -> str:
    if len(word) > 4 and word.endswith("ies") and not word.endswith(("eies", "aies")):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("sses", "shes", "ches", "xes")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("us", "ss", "is")):
        return word[:-1]
    return word
