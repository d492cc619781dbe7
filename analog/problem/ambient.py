"""Which of the given temperatures is that of the surroundings, and which that of something else."""

from __future__ import annotations

import re
from functools import lru_cache

from analog.problem.tables import table
from analog.problem.types import Condition, Problem


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


_SURROUNDING = _words(
    """ambient outdoor outdoors outside air surrounding surroundings temperature weather climate cold space working
    operating service process environment environmental room night day winter summer night-time daytime site"""
)
"""Words that say a temperature is that of the place or of the medium the solution works in."""

_OF_A_SOURCE = _words(
    """heat source oven furnace boiler exhaust flame fire burner heater steam melt melting curing boiling sun lamp
    radiator engine"""
)
"""Words for what is hot beside the solution: its temperature is not that of the surroundings."""


@lru_cache(maxsize=1)
def _told_by_settings() -> frozenset[str]:
    """What the table of settings notes of its temperatures: "room temperature taken as …"."""
    return frozenset(row["note"] for row in table("settings") if row["type"] == "temperature")


def is_ambient(condition: Condition) -> bool:
    """Whether a temperature is said of the surroundings: of nothing in particular, of the air, or as a setting."""
    about = condition.about or ""
    return about in _told_by_settings() or set(re.findall(r"[a-z-]+", about.lower())) <= _SURROUNDING


def surrounding_temperatures(problem: Problem) -> tuple[Condition, ...]:
    """The temperatures among which a solution works.

    Those said of the surroundings; where there is none, those said of a thing but not of a source of heat beside it.
    """
    told = [condition for condition in problem.conditions if condition.type == "temperature"]
    ambient = tuple(condition for condition in told if is_ambient(condition))
    return ambient or tuple(
        condition
        for condition in told
        if not set(re.findall(r"[a-z]+", (condition.about or "").lower())) & _OF_A_SOURCE
    )
