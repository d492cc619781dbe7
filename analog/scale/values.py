"""The record of one value of a symbol and where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from analog.scale.units import spell_range

Origin = Literal["given", "nature", "fluid", "default", "computed"]


@dataclass(frozen=True)
class SymbolValue:
    """A value or range in the symbol's unit.

    origin : given by the problem or the caller; of the natural system; computed for water or air; the record's default;
    computed by the equation from the others.
    where : in words. told : a sentence for the assumptions.
    part : id of the model's part it belongs to. to_build : of a part that the problem has nothing for, so that its size
    is the engineer's to choose.
    """

    symbol: str
    name: str
    unit: str
    low: float
    high: float
    origin: Origin
    where: str
    told: str = ""
    part: str | None = None
    to_build: bool = False
    difference: bool = False

    @property
    def range(self) -> tuple[float, float]:
        """(low, high)."""
        return self.low, self.high

    @property
    def text(self) -> str:
        """The value for people."""
        return spell_range(self.low, self.high, self.unit, difference=self.difference)

    def to_dict(self) -> dict[str, object]:
        """As JSON; values in the symbol's unit."""
        return {
            "symbol": self.symbol,
            "name": self.name,
            "unit": self.unit,
            "low": self.low,
            "high": self.high,
            "text": self.text,
            "origin": self.origin,
            "where": self.where,
        }
