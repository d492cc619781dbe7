"""A regime check in lines for people, and `NAME=VALUE` taken apart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from analog.errors import InputError
from analog.scale.regime import GroupCheck, RegimeCheck

Line = tuple[str, str, str]
"""(indent of later lines, start of the first line, text)."""


def assigned(pairs: Iterable[str]) -> dict[str, str]:
    """["drop diameter=2 mm"] -> {"drop diameter": "2 mm"}. Raises InputError for anything else or a name said twice."""
    values: dict[str, str] = {}
    for pair in pairs:
        name, equals, value = pair.partition("=")
        if not equals or not name.strip() or not value.strip():
            raise InputError(f'Expected NAME=VALUE UNIT, such as "drop diameter=2 mm", found {pair[:60]!r}')
        if name.strip() in values:
            raise InputError(f"Expected each quantity once, found {name.strip()!r} twice")
        values[name.strip()] = value.strip()
    return values


def lines(check: RegimeCheck, *, brief: bool = False) -> Iterator[Line]:
    """A check for people. brief : without title, words and assumptions."""
    if not brief:
        yield "", "", f"{check.principle.title} ({check.principle.id}): {SPOKEN[check.status]}"
        if check.principle.equation:
            yield "    ", "  ", check.principle.equation.text
    for value in check.values.values():
        yield "    ", "  ", f"{value.name} {value.text} ({value.where})"
    output = check.output
    if output is not None and (output.low is not None or not brief):
        named = [symbol.name for symbol in check.principle.symbols if symbol.id in output.missing]
        why = "; ".join([*([f"missing: {', '.join(named)}"] if named else []), *([output.note] if output.note else [])])
        yield "    ", "  ", f"=> {output.name} {output.text}" + (f" ({why})" if why else "")
    for group in check.groups:
        yield from _group(check, group)
    if not brief:
        for condition in check.conditions:
            yield "    ", "  ", f"Not computed: {condition}"
        for assumption in check.assumptions:
            yield "    ", "  ", f"Assumed: {assumption}"


SPOKEN = {
    "holds": "holds",
    "edge": "at the edge",
    "fails": "fails",
    "missing": "a value is missing",
    "no bound": "no number bounds it",
}


def _group(check: RegimeCheck, group: GroupCheck) -> Iterator[Line]:
    text = f"{group.group.name}: {SPOKEN[group.status]}"
    if group.low is not None:
        text += f", {group.value_text}"
    if group.bound is not None:
        text += f", must be {group.bound_text}" if group.status != "no bound" else ""
    yield "    ", "  ", text
    if group.missing:
        named = ", ".join(symbol.name for symbol in check.principle.symbols if symbol.id in group.missing)
        yield "        ", "      ", f"missing: {named}"
    for decision in group.decisions:
        yield "        ", "      ", f"{decision.text}"
    if group.note:
        yield "        ", "      ", group.note
