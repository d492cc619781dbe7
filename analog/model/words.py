"""How alike two short texts or two sets are: shared words, no meaning. Enough to see that somebody wrote a thing twice.

Jaccard, P. (1912), "The distribution of the flora in the alpine zone", New Phytologist 11: shared over all.
"""

from __future__ import annotations

import math
import re
from collections import Counter, defaultdict
from collections.abc import Collection, Hashable, Mapping
from collections.abc import Set as AbstractSet

_WORD = re.compile(r"[a-z0-9]+(?:'[a-z]+)?")

_SMALL = """
a an and any are as at be by can could do does for from get has have how i if in into is it its must need needs no not
of off on one or our out over should so that the their them then there they this to under up us use want we what when
where which while will with without would you your
"""
SMALL_WORDS = frozenset(_SMALL.split())
"""Words that nearly every question holds: two questions do not resemble each other by them."""


def words(text: str) -> frozenset[str]:
    """The content words of a text: lower case, no small words, the plural s taken off."""
    found = set(_WORD.findall(text.lower().replace("-", " "))) - SMALL_WORDS
    return frozenset(w[:-1] if len(w) > 3 and w.endswith("s") and not w.endswith("ss") else w for w in found)


def overlap(first: AbstractSet[Hashable], second: AbstractSet[Hashable]) -> float:
    """Shared over all members (Jaccard), 0..1; two empty sets have nothing in common."""
    union = len(first | second)
    return len(first & second) / union if union else 0.0


def alike_pairs(sets: Mapping[str, Collection[str]], least: float) -> list[tuple[str, str, float]]:
    """Every pair of sets whose overlap is at least `least` (above 0), most alike first.

    Not every pair is compared: sets that much alike share one of their rarest members (prefix filter; Chaudhuri,
    Ganti, Kaushik 2006, "A primitive operator for similarity joins in data cleaning", ICDE).
    """
    counts = Counter(member for members in sets.values() for member in set(members))
    seen: dict[str, list[str]] = defaultdict(list)
    found = []
    for name, members in sets.items():
        mine = frozenset(members)
        rarest_first = sorted(mine, key=lambda member: (counts[member], member))
        prefix = rarest_first[: len(mine) - math.ceil(least * len(mine) - 1e-9) + 1]
        for other in dict.fromkeys(o for member in prefix for o in seen[member]):
            value = overlap(mine, frozenset(sets[other]))
            if value >= least:
                found.append((other, name, value))
        for member in prefix:
            seen[member].append(name)
    return sorted(found, key=lambda pair: (-pair[2], pair[0], pair[1]))
