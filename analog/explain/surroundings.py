"""What the engineer's side offers: the given conditions, the things of the problem, and what is assumed unsaid."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from math import inf, isinf
from typing import Literal, Protocol

from analog.problem.ambient import surrounding_temperatures
from analog.problem.types import Condition, Problem

Status = Literal["ruled out", "not around", "there", "assumed", "unsaid"]
"""`not around`: the surroundings are another medium; a mechanism that brings its own may still work."""

ASSUMED_KELVIN = 293.15
"""Where no temperature is given, ordinary room temperature is assumed, and every use of it says so."""

FREEZING_KELVIN = 273.15
"""Freezing point of pure water at one atmosphere."""

PLAIN_WORDS = {"liquid", "fresh", "running", "clean", "any", "available", "free", "external", "extra", "the", "open"}
"""Words before a noun that do not narrow what is ruled out: without “running water” there is none."""

UNDERCOOLED_KELVIN = 2.0
"""Salt in natural waters and small volumes keep them liquid this far below the freezing point of pure water."""

LEAST_STRENGTH = 0.3
"""A kind that says less than this is too general to be ruled out as a whole."""

AIR_KINDS = ("air", "surrounding-air", "oxygen", "atmosphere")

GRAVITY = "gravity-load"
"""Nobody supplies it: it is there unless a problem says otherwise."""

WIND_KINDS = ("wind", "rising-air")


class KindVocabulary(Protocol):
    """What explanations ask of the thesaurus."""

    def is_a(self, name: str, general: str) -> bool:
        """Whether a kind is the same as, or narrower than, another."""

    def label(self, name: str) -> str:
        """The preferred label."""

    def fact(self, name: str, key: str) -> object:
        """A recorded fact of the kind or of the nearest more general one; None without any."""

    def known(self, name: str) -> bool:
        """Whether `name` is a kind at all."""

    def strength(self, name: str) -> float:
        """How much a kind says, 0..1; 0 for one so general that everything falls under it."""


@dataclass(frozen=True)
class Supply:
    """Whether something a transition needs is there, and the words that say so."""

    status: Status
    why: str


@dataclass(frozen=True)
class Surroundings:
    """The conditions of one problem, ready to be asked."""

    problem: Problem
    kinds: KindVocabulary

    def _conditions(self, *types: str) -> Iterator[Condition]:
        return (condition for condition in self.problem.conditions if condition.type in types)

    @cached_property
    def temperature(self) -> tuple[float, float] | None:
        """(low, high) in kelvin of the surroundings as given, an open end infinite; None if nothing is given."""
        among = surrounding_temperatures(self.problem)
        lows = [c.low for c in among if c.low is not None]
        highs = [c.high for c in among if c.high is not None]
        if not lows and not highs:
            return None
        low, high = max(lows, default=-inf), min(highs, default=inf)
        return (low, high) if low <= high else (high, low)

    def supply(self, kind: str) -> Supply:
        """Whether a thing, medium or energy of this kind is there. Remembered: many models need the same."""
        if kind not in self._supplies:
            self._supplies[kind] = self._supply(kind)
        return self._supplies[kind]

    @cached_property
    def _supplies(self) -> dict[str, Supply]:
        return {}

    def _supply(self, kind: str) -> Supply:
        label = self.kinds.label(kind)
        for condition in self._conditions("absent"):
            if condition.kind and self._excludes_all(condition) and self._same_or_narrower(kind, condition.kind):
                return Supply("ruled out", f"needs {label}, which is ruled out by “{condition.text}”")
            if condition.kind == "air" and self._is_wind(kind):
                return Supply("ruled out", f"needs {label}, but without air there is none (“{condition.text}”)")
        media = [c for c in self._conditions("medium") if c.kind]
        for condition in (*self._conditions("present"), *media):
            if condition.kind and self._same_or_narrower(condition.kind, kind):
                return Supply("there", f"{label} is there (“{condition.text}”)")
        for thing in self.problem.things:
            if thing.kind and thing.kind_similarity >= 0.5 and self._same_or_narrower(thing.kind, kind):
                return Supply("there", f"{label} is part of the problem ({thing.name})")
        other = self.other_medium
        if other is not None and (self._is_air(kind) or self._is_wind(kind)):
            return Supply("not around", f"works in {label}, but the problem says “{other.text}”")
        if self._is_air(kind) or (kind == "gas" and other is None and not self._airless):
            return Supply("assumed", f"{label} around it is assumed")
        if kind == GRAVITY:
            return Supply("assumed", "gravity is assumed")
        return Supply("unsaid", f"{label} is not mentioned in the problem")

    def phase_trouble(self, kind: str) -> tuple[Literal["breaks", "partly"], str] | None:
        """Whether the given temperatures freeze or boil what must be liquid; None if all is well or nothing is said."""
        if not self.kinds.known(kind) or self.kinds.is_a(kind, "gas"):
            return None  # vapour does not freeze: it settles as frost or stays
        if self._vacuum and self.kinds.fact(kind, "boilsAt") is not None:
            return "partly", f"{self.kinds.label(kind)} is enclosed under pressure: in a vacuum it boils away"
        given = self.temperature
        if given is None:
            return None
        label = self.kinds.label(kind)
        low, high = given
        freezes, boils = self.kinds.fact(kind, "freezesAt"), self.kinds.fact(kind, "boilsAt")
        if isinstance(freezes, int | float | str) and low < float(freezes):
            entirely = high <= float(freezes) and low < float(freezes) - UNDERCOOLED_KELVIN
            return (
                "breaks" if entirely else "partly"
            ), f"{label} freezes at {celsius(float(freezes))}, given {spell(given)}"
        if isinstance(boils, int | float | str) and high > float(boils):
            entirely = low > float(boils)
            return (
                "breaks" if entirely else "partly"
            ), f"{label} boils at {celsius(float(boils))}, given {spell(given)}"
        return None

    def _excludes_all(self, condition: Condition) -> bool:
        """Whether a condition rules out a kind as a whole: “no signal” and “no heated water” do not."""
        kind = condition.kind or ""
        if self.kinds.known(kind) and self.kinds.strength(kind) < LEAST_STRENGTH:
            return False
        said, named = _singular(condition.about or ""), _singular(self.kinds.label(kind))
        same_noun = bool(said) and said[-1] == named[-1]
        return not (same_noun and set(said) - set(named) - PLAIN_WORDS)

    def substitute(self, options: Iterable[str]) -> str | None:
        """The first of the options that the given conditions themselves speak of as there; None without any."""
        for option in options:
            words = set(option.lower().replace("-", " ").split())
            for condition in self._conditions("present", "medium"):
                if condition.kind and self.kinds.label(condition.kind).lower().split()[-1] in words:
                    return option
            vacuum = any("vacuum" in condition.text.lower() for condition in self._conditions("absent", "medium"))
            if vacuum and "vacuum" in words:
                return option
        return None

    def _same_or_narrower(self, kind: str, general: str) -> bool:
        return kind == general or self.kinds.is_a(kind, general)

    @cached_property
    def other_medium(self) -> Condition | None:
        """The condition that puts the problem into another medium than air; None in air."""
        media = (condition for condition in self._conditions("medium") if condition.kind)
        return next((condition for condition in media if not self._is_air(condition.kind or "")), None)

    @cached_property
    def _vacuum(self) -> bool:
        """Whether there is no pressure around: below 611 Pa no water is liquid (triple point, IAPWS)."""
        said = (f"{c.text} {c.about or ''}".lower() for c in self._conditions("absent") if c.kind == "air")
        return any(word in text for text in said for word in ("vacuum", "space", "moon"))

    @cached_property
    def _airless(self) -> bool:
        return any(condition.kind in AIR_KINDS for condition in self._conditions("absent"))

    def _is_wind(self, kind: str) -> bool:
        return kind in WIND_KINDS or self.kinds.is_a(kind, "wind")

    def _is_air(self, kind: str) -> bool:
        return kind in AIR_KINDS or self.kinds.is_a(kind, "air")


def _singular(text: str) -> list[str]:
    """The words of a phrase without the s of a plural."""
    return [word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word
            for word in text.lower().split()]  # fmt: skip


def celsius(kelvin: float) -> str:
    """A temperature for people: 253.15 -> "-20 °C"."""
    degrees = round(kelvin - 273.15, 1)
    return f"{degrees:.0f} °C" if degrees == int(degrees) else f"{degrees:.1f} °C"


def spell(bounds: tuple[float, float]) -> str:
    """A temperature range for people."""
    low, high = bounds
    if isinf(low) or isinf(high):
        return f"at most {celsius(high)}" if isinf(low) else f"at least {celsius(low)}"
    return celsius(low) if low == high else f"{celsius(low)} to {celsius(high)}"
