"""Which values of a missing quantity would decide: the bound of a group solved for it.

The quantity is scanned over its whole range, by ratio where it is positive, and every change between "inside the
bound" and "outside" is closed in on by halving (Bolzano; sixty halvings leave less than one part in 10¹⁵). Written here
rather than called from scipy, whose import alone would take longer than a whole search.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from analog.model.types import Symbol
from analog.scale.interval import Range, corners
from analog.scale.units import spell

STEPS = 240
HALVINGS = 60


@dataclass(frozen=True)
class Decision:
    """The values of one quantity with which a group stays within its bound whatever the other ranges hold.

    intervals : (low, high) in the symbol's unit, None for an end that does not matter; empty if no value would do.
    """

    symbol: str
    name: str
    unit: str
    intervals: tuple[tuple[float | None, float | None], ...]
    difference: bool = False

    @property
    def decides(self) -> bool:
        """Whether some values would do and others not."""
        return bool(self.intervals) and self.intervals != ((None, None),)

    @property
    def text(self) -> str:
        """ "drop diameter must stay below 2.7 mm"."""
        if not self.intervals:
            return f"no value of the {self.name} would do"
        spans = []
        for low, high in self.intervals:
            first = spell(low, self.unit, difference=self.difference) if low is not None else None
            last = spell(high, self.unit, difference=self.difference) if high is not None else None
            if first and last:
                spans.append(f"between {first} and {last}")
            elif last:
                spans.append(f"below {last}")
            elif first:
                spans.append(f"above {first}")
            else:
                return f"any {self.name} would do"
        return f"{self.name} must stay {' or '.join(spans)}"

    def to_dict(self) -> dict[str, object]:
        """As JSON: values in the symbol's unit."""
        return {
            "symbol": self.symbol,
            "unit": self.unit,
            "intervals": [list(interval) for interval in self.intervals],
            "text": self.text,
        }


def is_difference(symbol: Symbol) -> bool:
    """Whether a symbol in kelvin is a distance on the scale and not a point: supercooling, lowering, swing."""
    said = f"{symbol.id} {symbol.name}".lower()
    return symbol.unit == "K" and any(
        word in said for word in ("difference", "lowering", "supercooling", "superheat", "swing", "rise", "depression",
                                  "below the", "above the", "hysteresis", "drop of", "excess", "undercooling")
    )  # fmt: skip


SHARES = ("fraction", "share", "emissivity", "humidity", "efficiency", "porosity", "reflectance", "effectiveness")


def domain(symbol: Symbol) -> tuple[float, float, bool]:
    """(low, high, by ratio): the values a quantity is sought in."""
    if symbol.unit == "radian":
        return 0.0, math.pi, False
    if symbol.unit == "K" and not is_difference(symbol):
        return 150.0, 2000.0, False
    if symbol.unit == "dimensionless" and any(word in f"{symbol.id} {symbol.name}" for word in SHARES):
        return 1e-6, 1.0, True
    return 1e-15, 1e15, True


def decide(
    function: Callable[..., float],
    ranges: Sequence[Range | None],
    symbol: Symbol,
    low: float | None,
    high: float | None,
) -> Decision | None:
    """The values of the one missing argument (None in `ranges`) that keep the function between low and high.

    None if the function cannot be computed for any value, or if nothing in the scan tells inside from outside.
    """
    place = list(ranges).index(None)
    others = corners([span for span in ranges if span is not None])
    first, last, by_ratio = domain(symbol)
    if by_ratio:
        ratio = math.log(last / first) / STEPS
        grid = [first * math.exp(ratio * i) for i in range(STEPS + 1)]
    else:
        grid = [first + (last - first) * i / STEPS for i in range(STEPS + 1)]

    def inside(value: float) -> bool | None:
        """Whether the bound holds at every corner of the other ranges; None where it cannot be computed."""
        for corner in others:
            arguments = [*corner[:place], value, *corner[place:]]
            try:
                result = float(function(*arguments))
            except (ValueError, ZeroDivisionError, OverflowError):
                return None
            if math.isnan(result):
                return None
            if (low is not None and result < low) or (high is not None and result > high):
                return False
        return True

    states = [inside(value) for value in grid]
    known = [state for state in states if state is not None]
    if not known:
        return None
    intervals: list[tuple[float | None, float | None]] = []
    start: float | None = None
    open_start = False
    for i, state in enumerate(states):
        before = states[i - 1] if i else None
        if state and not before:
            start, open_start = (
                (grid[i], True) if i == 0 or before is None else (_turn(inside, grid[i - 1], grid[i]), False)
            )
        if before and not state:
            end = grid[i - 1] if state is None else _turn(inside, grid[i - 1], grid[i])
            intervals.append((None if open_start else start, None if state is None else end))
    if states[-1]:
        intervals.append((None if open_start else start, None))
    return Decision(symbol.id, symbol.name, symbol.unit, tuple(intervals), is_difference(symbol))


def _turn(inside: Callable[[float], bool | None], left: float, right: float) -> float:
    """Where `inside` changes between two values, by halving."""
    at_left = bool(inside(left))
    for _ in range(HALVINGS):
        middle = math.sqrt(left * right) if left > 0 else (left + right) / 2
        if bool(inside(middle)) == at_left:
            left = middle
        else:
            right = middle
    return left if at_left else right
