"""Engineered means that usually do the work of a kind of part or supply: common practice, written down in one table."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from analog.explain.surroundings import Surroundings
from analog.vocabulary.kinds import Kinds

TABLE = Path(__file__).parent / "data" / "usual_means.tsv"

MOST_STEPS = 2
"""Steps in the thesaurus from a kind up to the row of a more general one; further up, its means fit by accident."""

SUPPLIES: Mapping[str, tuple[str, re.Pattern[str]]] = {
    "electrical-energy": (
        "electricity",
        re.compile(
            r"electr|motor|solenoid|piezo|batter|diode|laser|lamp|\bfans?\b|blower|\bpump(?:s|ed)?\b|heater|controller|"
            r"software|digital|camera|loudspeaker|ultraso|chiller|compressor|humidifier|flywheel|robot|shaker"
        ),
    ),
    "liquid-water": ("water", re.compile(r"water|\bspray|steam|brine|\bwet|\bdamp|humidifier|\bdrip|\bfogger")),
}
"""A kind that problems rule out -> its name, and words of means that usually need it."""


@dataclass(frozen=True)
class Row:
    """below : the row holds for narrower kinds too. means : at least two, in words."""

    kind: str
    below: bool
    means: tuple[str, ...]


@lru_cache(maxsize=1)
def usual_means() -> Mapping[str, Row]:
    """The table by kind, read once."""
    rows = {}
    for line in TABLE.read_text(encoding="utf-8").splitlines():
        if line.startswith("#") or line == "kind\tbelow\tmeans":
            continue
        kind, below, means = line.split("\t")
        rows[kind] = Row(kind, below == "+", tuple(text.strip() for text in means.split(";")))
    return rows


def means_for(kind: str, kinds: Kinds) -> Row | None:
    """The row of this kind, or of the nearest more general one if that holds for narrower ones too; else None."""
    table = usual_means()
    if kind in table:
        return table[kind]
    if not kinds.known(kind):
        return None
    above = [(steps, not table[general].below, general) for general, steps in kinds.ancestors(kind).items()
             if general in table]  # fmt: skip
    steps, alone, nearest = min(above, default=(MOST_STEPS + 1, True, ""))
    return None if alone or steps > MOST_STEPS else table[nearest]


def ruled_out(text: str, surroundings: Surroundings) -> str:
    """The supply that these means usually need and the problem rules out, in a word; "" where there is none."""
    for kind, (name, wording) in SUPPLIES.items():
        if wording.search(text.lower()) and surroundings.supply(kind).status == "ruled out":
            return name
    return ""
