"""Whether a principle holds for a set of values: every group computed, every bound put to it.

holds     the whole range lies within the bound, farther from it than the factor called the edge
edge      within that factor of the bound, or only part of the range lies within
fails     the whole range lies outside, farther than the factor
missing   a value is missing or the group cannot be computed; what value would decide is told
no bound  the group tells the regime in words but no number bounds it
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from analog.model.types import Bound, Group, Principle, Symbol
from analog.scale.interval import Propagated, Range, propagate
from analog.scale.invert import Decision, decide, is_difference
from analog.scale.registry import function
from analog.scale.units import spell, spell_range
from analog.scale.values import SymbolValue

Status = Literal["holds", "edge", "fails", "missing", "no bound"]
WORST: tuple[Status, ...] = ("fails", "missing", "edge", "holds", "no bound")


@dataclass(frozen=True)
class GroupCheck:
    """One bound put to one group.

    low, high : the group's value (equal for a single value), None if it cannot be computed. bound : low and high, None
    where open. missing : ids of the symbols nobody gives. decisions : for each quantity asked about, the values that
    would do. note : why a group cannot be computed, or that part of a range could not.
    """

    group: Group
    bound: Bound | None
    low: float | None
    high: float | None
    status: Status
    missing: tuple[str, ...] = ()
    decisions: tuple[Decision, ...] = ()
    note: str = ""
    method: str = ""

    @property
    def value_text(self) -> str:
        """The value for people."""
        if self.low is None or self.high is None:
            return "not known"
        return spell_range(self.low, self.high, "dimensionless")

    @property
    def bound_text(self) -> str:
        """The bound for people: "at least 1"."""
        return bound_text(self.bound)

    def to_dict(self) -> dict[str, object]:
        """As JSON."""
        return {
            "group": self.group.id,
            "name": self.group.name,
            "formula": self.group.text,
            "value": None if self.low is None else {"low": self.low, "high": self.high},
            "bound": None
            if self.bound is None
            else {
                "low": self.bound.low,
                "high": self.bound.high,
                "edge": self.bound.edge,
                "text": self.bound.text,
                "source": self.bound.source,
            },
            "status": self.status,
            "missing": list(self.missing),
            "decides": [decision.to_dict() for decision in self.decisions],
            "note": self.note,
            "method": self.method,
        }


@dataclass(frozen=True)
class Output:
    """What the governing equation gives. low, high : in the symbol's unit, None with a reason in `note`."""

    symbol: str
    name: str
    unit: str
    low: float | None
    high: float | None
    missing: tuple[str, ...]
    note: str
    difference: bool = False

    @property
    def text(self) -> str:
        """The value for people."""
        if self.low is None or self.high is None:
            return "not known"
        return spell_range(self.low, self.high, self.unit, difference=self.difference)

    def to_dict(self) -> dict[str, object]:
        """As JSON."""
        return {
            "symbol": self.symbol,
            "name": self.name,
            "unit": self.unit,
            "low": self.low,
            "high": self.high,
            "missing": list(self.missing),
            "note": self.note,
        }


@dataclass(frozen=True)
class RegimeCheck:
    """A principle put to a set of values.

    values : by symbol, with where each comes from. conditions : bounds in words, which no number decides.
    assumptions : in sentences, every value that nobody gave.
    """

    principle: Principle
    values: Mapping[str, SymbolValue]
    groups: tuple[GroupCheck, ...]
    output: Output | None
    status: Status
    conditions: tuple[str, ...]
    assumptions: tuple[str, ...]

    def to_dict(self) -> dict[str, object]:
        """As JSON."""
        equation = self.principle.equation
        return {
            "principle": self.principle.id,
            "title": self.principle.title,
            "equation": equation.text if equation else None,
            "status": self.status,
            "symbols": [
                {"id": symbol.id, "symbol": symbol.symbol, "name": symbol.name, "unit": symbol.unit}
                for symbol in self.principle.symbols
            ],
            "values": [value.to_dict() for value in self.values.values()],
            "output": self.output.to_dict() if self.output else None,
            "groups": [group.to_dict() for group in self.groups],
            "conditions": list(self.conditions),
            "assumptions": list(self.assumptions),
        }


NOTHING: Mapping[str, str] = {}


def check_regime(
    principle: Principle,
    values: Mapping[str, SymbolValue],
    unavailable: Mapping[str, str] = NOTHING,
    *,
    solve: bool = True,
) -> RegimeCheck:
    """Put a principle to values by symbol id (or by group id for a group given as such).

    unavailable : by symbol, why a value cannot be had (water is frozen). solve : also work out which values of what is
    missing would decide.
    """
    used = {name for group in principle.groups for name in group.inputs}
    if principle.equation:
        used.update(principle.equation.inputs)
    output = _output(principle, values, unavailable)
    given, values = values, _with_output(values, output)
    groups = []
    bounded = {bound.group for bound in principle.regime if bound.group is not None}
    for bound in principle.regime:
        if bound.group is not None:
            group = next(g for g in principle.groups if g.id == bound.group)
            groups.append(_group_check(principle, group, bound, values, unavailable, solve))
    for group in principle.groups:
        if group.id not in bounded:
            groups.append(_group_check(principle, group, None, values, unavailable, False))
    status = overall([group.status for group in groups])
    told = [value.told for name, value in values.items() if name in used and value.told]
    return RegimeCheck(
        principle=principle,
        values=dict(given),
        groups=tuple(groups),
        output=output,
        status=status,
        conditions=tuple(bound.text for bound in principle.regime if bound.group is None),
        assumptions=tuple(dict.fromkeys(told)),
    )


def _with_output(values: Mapping[str, SymbolValue], output: Output | None) -> Mapping[str, SymbolValue]:
    """The values and what the equation makes of them, for groups that ask for it; a value somebody gave comes first.

    As a range it is taken for independent of what it was made of, which makes a group's range too wide at worst.
    """
    if output is None or output.low is None or output.high is None or output.symbol in values:
        return values
    reckoned = SymbolValue(
        output.symbol, output.name, output.unit, output.low, output.high, "computed", "computed by the equation"
    )
    return {**values, output.symbol: reckoned}


def overall(statuses: Sequence[Status]) -> Status:
    """The status of a whole check: the worst of its groups."""
    return next((status for status in WORST if status in statuses), "no bound")


def group_range(
    principle: Principle, group: Group, values: Mapping[str, SymbolValue]
) -> tuple[Propagated | None, tuple[str, ...]]:
    """(the group's range, what is missing). A group given as such needs no computing."""
    given = given_as_such(principle, group, values)
    if given is not None:
        return Propagated(given.low, given.high, 1, 0, "", f"given as such ({given.where})"), ()
    missing = tuple(name for name in dict.fromkeys(group.inputs) if name not in values)
    if missing:
        return None, missing
    return _propagated(group.function, tuple(values[name].range for name in group.inputs), group.inputs), ()


def given_as_such(principle: Principle, group: Group, values: Mapping[str, SymbolValue]) -> SymbolValue | None:
    """A value of the group itself: under its own id, or under the output of an equation that computes the same."""
    if group.id in values and values[group.id].origin != "default":
        return values[group.id]
    equation = principle.equation
    if equation and equation.output and (equation.function, equation.inputs) == (group.function, group.inputs):
        found = values.get(equation.output)
        return found if found is not None and found.origin not in ("default", "computed") else None
    return None


@lru_cache(maxsize=65536)
def _propagated(name: str, ranges: tuple[Range, ...], inputs: tuple[str, ...]) -> Propagated:
    """The range of a registered function; a symbol that enters twice varies as one."""
    computed = function(name)
    distinct = list(dict.fromkeys(inputs))
    if len(distinct) == len(inputs):
        return propagate(computed, ranges)
    places = [distinct.index(symbol) for symbol in inputs]
    return propagate(
        lambda *arguments: computed(*(arguments[place] for place in places)),
        [ranges[inputs.index(symbol)] for symbol in distinct],
    )


def _group_check(
    principle: Principle,
    group: Group,
    bound: Bound | None,
    values: Mapping[str, SymbolValue],
    unavailable: Mapping[str, str],
    solve: bool,
) -> GroupCheck:
    found, missing = group_range(principle, group, values)
    if found is None:
        decisions: tuple[Decision, ...] = ()
        if solve and bound is not None and len(missing) == 1:
            decision = deciding(group, bound, symbol_of(principle, missing[0]), values)
            decisions = (decision,) if decision is not None else ()
        return GroupCheck(group, bound, None, None, "missing", missing, decisions, _why(missing, unavailable))
    if found.low is None or found.high is None:
        return GroupCheck(
            group, bound, None, None, "missing", (), (), f"cannot be computed: {found.fault}", found.method
        )
    note = f"{found.failures} of {found.points} points could not be computed: {found.fault}" if found.failures else ""
    status = judge(found.low, found.high, bound)
    if found.failures and status == "holds":
        status = "edge"
    return GroupCheck(group, bound, found.low, found.high, status, (), (), note, found.method)


def symbol_of(principle: Principle, symbol_id: str) -> Symbol:
    """The symbol of this id; a record names only symbols that it declares."""
    return next(symbol for symbol in principle.symbols if symbol.id == symbol_id)


def _why(missing: Sequence[str], unavailable: Mapping[str, str]) -> str:
    return "; ".join(dict.fromkeys(unavailable[name] for name in missing if name in unavailable))


@lru_cache(maxsize=16384)
def _decided(
    name: str,
    inputs: tuple[str, ...],
    ranges: tuple[Range | None, ...],
    symbol: Symbol,
    low: float | None,
    high: float | None,
) -> Decision | None:
    computed = function(name)
    distinct = list(dict.fromkeys(inputs))
    places = [distinct.index(each) for each in inputs]
    return decide(
        lambda *arguments: computed(*(arguments[place] for place in places)),
        [ranges[inputs.index(each)] for each in distinct],
        symbol,
        low,
        high,
    )


def deciding(group: Group, bound: Bound, symbol: Symbol, values: Mapping[str, SymbolValue]) -> Decision | None:
    """The values of `symbol` that keep a group within its bound, the others as they are."""
    if bound.low is None and bound.high is None:
        return None
    if any(name != symbol.id and name not in values for name in group.inputs):
        return None  # the group was given as such, and what it is made of is not known
    ranges = tuple(None if name == symbol.id else values[name].range for name in group.inputs)
    return _decided(group.function, group.inputs, ranges, symbol, bound.low, bound.high)


def judge(low: float, high: float, bound: Bound | None) -> Status:
    """The status of a range under a bound. A bound of 0 has no edge: no factor leads there."""
    if bound is None or (bound.low is None and bound.high is None):
        return "no bound"
    statuses: list[Status] = []
    if bound.low is not None:
        outer, inner = sorted((bound.low / bound.edge, bound.low * bound.edge))
        statuses.append("holds" if low >= inner else "fails" if high < outer else "edge")
    if bound.high is not None:
        inner, outer = sorted((bound.high / bound.edge, bound.high * bound.edge))
        statuses.append("holds" if high <= inner else "fails" if low > outer else "edge")
    return overall(statuses)


def bound_text(bound: Bound | None) -> str:
    """A bound for people."""
    if bound is None or (bound.low is None and bound.high is None):
        return "no numeric bound"
    low = spell(bound.low, "dimensionless") if bound.low is not None else None
    high = spell(bound.high, "dimensionless") if bound.high is not None else None
    if low is not None and high is not None:
        return f"between {low} and {high}"
    return f"at least {low}" if low is not None else f"at most {high}"


def _output(principle: Principle, values: Mapping[str, SymbolValue], unavailable: Mapping[str, str]) -> Output | None:
    equation = principle.equation
    if equation is None or equation.function is None or equation.output is None:
        return None
    symbol = symbol_of(principle, equation.output)
    missing = tuple(name for name in dict.fromkeys(equation.inputs) if name not in values)
    difference = is_difference(symbol)
    if missing:
        note = _why(missing, unavailable)
        return Output(symbol.id, symbol.name, symbol.unit, None, None, missing, note, difference)
    found = _propagated(equation.function, tuple(values[name].range for name in equation.inputs), equation.inputs)
    return Output(symbol.id, symbol.name, symbol.unit, found.low, found.high, (), found.fault, difference)
