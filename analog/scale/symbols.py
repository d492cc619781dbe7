"""Which symbol of a principle a quantity in somebody's words is the value of.

A quantity goes to every symbol whose name it bears (see `names`) and whose unit measures the same thing; where several
bear the name of one symbol, the surest is taken, and of equals the first.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from analog.model.types import Principle, Symbol, SymbolQuantity
from analog.scale.invert import is_difference
from analog.scale.names import Match, match, words
from analog.scale.units import same_dimension, spell_range, to_si
from analog.scale.values import Origin, SymbolValue

LEAST = 0.3
"""Matches below this are none."""


@dataclass(frozen=True)
class Said:
    """A quantity in somebody's words.

    context : words by which its thing is known. known : words of the other things around. near : the thing takes part.
    """

    text: str
    low: float | None
    high: float | None
    unit: str
    where: str
    context: frozenset[str]
    near: bool
    bonus: float = 0.0
    part: str | None = None
    to_build: bool = False
    known: frozenset[str] = frozenset()


@dataclass(frozen=True)
class _Reader:
    """A principle with what was asked of it before: the same few quantities are put to it for every candidate."""

    principle: Principle
    hits: dict[tuple[str, str, frozenset[str], frozenset[str]], tuple[tuple[Symbol, Match], ...]] = field(
        default_factory=dict
    )
    groups: dict[frozenset[str], str] = field(default_factory=dict)

    def read(self, said: Said) -> tuple[tuple[Symbol, Match], ...]:
        """The symbols a quantity could be, each with how sure that is."""
        key = said.text, said.unit, said.context, said.known
        found = self.hits.get(key)
        if found is None:
            results = (
                (symbol, match(said.text, said.context, names_of(symbol), said.known))
                for symbol in self.principle.symbols
                if same_dimension(said.unit, symbol.unit)
            )
            found = self.hits[key] = tuple((symbol, result) for symbol, result in results if result.score > 0)
        return found


_READERS: dict[str, _Reader] = {}


def _reader(principle: Principle) -> _Reader:
    reader = _READERS.get(principle.id)
    if reader is None or reader.principle is not principle:
        reader = _READERS[principle.id] = _Reader(principle, {}, {words(g.name): g.id for g in principle.groups})
    return reader


def assign(
    principle: Principle, said: Sequence[Said], origin: Origin, only: frozenset[str] | None = None
) -> dict[str, SymbolValue]:
    """The best quantity for each symbol, and for each group that is given as such.

    only : symbols to look for; then groups are left out.
    """
    reader = _reader(principle)
    best: dict[str, tuple[float, Symbol, Said, Match]] = {}
    # a part that tells two quantities of a law is the one it speaks of: the size and the speed of the same grain
    told: Counter[str | None] = Counter(each.part for each in said if each.part is not None and reader.read(each))
    values: dict[str, SymbolValue] = {}
    for each in said:
        for symbol, result in reader.read(each):
            if (only is not None and symbol.id not in only) or (result.generic and not each.near):
                continue
            score = result.score + each.bonus - (0.0 if each.near else 0.1) + 0.01 * min(told[each.part], 3)
            if score > max(best[symbol.id][0] if symbol.id in best else 0.0, LEAST):
                best[symbol.id] = score, symbol, each, result
    for symbol in principle.symbols:
        if symbol.id in best:
            values[symbol.id] = _value(*best[symbol.id][1:], origin)
    if only is not None:
        return values
    for each in said:
        group = reader.groups.get(words(each.text)) if each.unit == "dimensionless" else None
        if group is not None and group not in values:
            low, high = _ends(each)
            values[group] = SymbolValue(group, each.text, "dimensionless", low, high, origin, each.where)
    return values


@lru_cache(maxsize=16384)
def names_of(symbol: Symbol) -> tuple[str, ...]:
    """Every name of a symbol: its name, its id in words, and the others it is given under."""
    return tuple(dict.fromkeys((symbol.name, symbol.id.replace("-", " "), *symbol.also)))


DECADE = 10.0
"""A range with one open end is taken to span this factor: "below 50 um" as 5 to 50 um. It is told."""


def _ends(said: Said) -> tuple[float, float]:
    """Both ends in the unit as said; an open end a decade off, or at 1 for a share; none for points on a scale."""
    low, high = said.low, said.high
    if low is not None and high is not None:
        return low, high
    known = low if low is not None else high
    assert known is not None  # both records demand one end
    if known <= 0 or any(same_dimension(said.unit, unit) for unit in ("K", "radian")):
        return known, known
    if low is None:
        return known / DECADE, known
    top = known * DECADE
    if said.unit in {"dimensionless", "percent"} and known <= (one := to_si(1.0, "dimensionless", said.unit)):
        top = min(top, one)
    return known, top


def explicit(principle: Principle, told: Sequence[SymbolQuantity], where: str) -> dict[str, SymbolValue]:
    """The values a model gives for the symbols and groups of a principle by their ids; a wrong unit gives none."""
    symbols = {symbol.id: symbol for symbol in principle.symbols}
    groups = {group.id: group for group in principle.groups}
    values: dict[str, SymbolValue] = {}
    for each in told:
        symbol = symbols.get(each.symbol)
        name, unit = (symbol.name, symbol.unit) if symbol else ("", "dimensionless")
        if symbol is None and each.symbol in groups:
            name = groups[each.symbol].name
        if not name or not same_dimension(each.unit, unit):
            continue  # the checker tells of it
        difference = symbol is not None and is_difference(symbol)
        said = Said(name, *each.bounds, each.unit, where, frozenset(), near=True)
        low, high = (to_si(end, each.unit, unit, difference=difference) for end in _ends(said))
        told_text = f"{name} as in nature: {spell_range(low, high, unit, difference=difference)}" if each.part else ""
        values[each.symbol] = SymbolValue(
            each.symbol, name, unit, low, high, "nature", where, told_text, each.part, each.part is not None, difference
        )
    return values


def _value(symbol: Symbol, said: Said, result: Match, origin: Origin) -> SymbolValue:
    difference = is_difference(symbol)
    low, high = (to_si(end, said.unit, symbol.unit, difference=difference) * result.factor for end in _ends(said))
    where = said.where
    if result.factor != 1.0:
        where = f"{'half' if result.factor == 0.5 else 'twice'} the {said.text}, {where}"
    span = spell_range(low, high, symbol.unit, difference=difference)
    told = ""
    if said.low is None or said.high is None:
        told = f"only one end of the {symbol.name} is given ({where}); {span} is taken"
    if said.to_build:
        told = f"{symbol.name} as in nature: {span} ({where})"
    return SymbolValue(
        symbol.id,
        symbol.name,
        symbol.unit,
        low,
        high,
        origin,
        where,
        told,
        said.part,
        said.to_build,
        difference,
    )
