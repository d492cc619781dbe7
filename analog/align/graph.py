"""Two systems of relations as graphs of expressions.

An expression is an entity (`sun`), an attribute (`yellow(sun)`), a function (`mass(sun)`), a relation
(`revolves(planet, sun)`) or a relation of relations (`cause(attracts(sun, planet), revolves(planet, sun))`).
Every distinct expression is one node; its arguments are nodes too. Order of a node: 0 for an entity and a function
of entities, 1 for a relation of those, one more for each level above (Gentner 1983, Cognitive Science 7, 155-170).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Literal

from analog.errors import FormatError

Role = Literal["entity", "attribute", "function", "relation"]

FILE_FIELDS = ("facts", "functions", "symmetric", "entities", "title", "source", "note")

MAXIMUM_NODES = 400
"""Larger systems are refused: the exact solver is made for accounts a person wrote."""

_TOKEN = re.compile(r"\s*(?:(?P<name>[^\s(),]+)|(?P<mark>[(),]))")


@dataclass(frozen=True)
class Node:
    """One expression: its name, its role and the positions of its arguments in the graph."""

    name: str
    role: Role
    arguments: tuple[int, ...] = ()
    symmetric: bool = False


@dataclass(frozen=True)
class RelationGraph:
    """Nodes in an order where arguments come before what is said of them."""

    nodes: tuple[Node, ...]

    @cached_property
    def orders(self) -> tuple[int, ...]:
        """(nodes,) int: 0 for entities and functions of them, else one more than the highest argument."""
        orders: list[int] = []
        for node in self.nodes:
            below = max((orders[a] for a in node.arguments), default=0)
            orders.append(below if node.role in {"entity", "function"} else below + 1)
        return tuple(orders)

    @cached_property
    def entities(self) -> tuple[int, ...]:
        """Positions of the entities."""
        return tuple(i for i, node in enumerate(self.nodes) if node.role == "entity")

    def text(self, index: int) -> str:
        """The expression as written: `cause(a(x), b(x, y))`."""
        node = self.nodes[index]
        if node.role == "entity":
            return node.name
        return f"{node.name}({', '.join(self.text(a) for a in node.arguments)})"

    def find(self, text: str) -> int:
        """Position of the expression written so. KeyError if there is none."""
        wanted = re.sub(r"\s+", "", text)
        for index in range(len(self.nodes)):
            if re.sub(r"\s+", "", self.text(index)) == wanted:
                return index
        raise KeyError(text)


def relation_graph(
    facts: Sequence[str | Sequence[Any]],
    *,
    functions: Iterable[str] = (),
    symmetric: Iterable[str] = (),
    entities: Iterable[str] = (),
) -> RelationGraph:
    """Read a list of facts.

    facts : each either text `relation(a, f(b))` or a nested list ["relation", "a", ["f", "b"]].
    functions : names of one-place expressions that bear a value (mass, temperature) and so may meet other functions.
    symmetric : relations whose arguments may change places (touches).
    entities : things that no fact mentions but that are there.

    Raises FormatError, saying what was expected, for a fact that cannot be read or a system of too many nodes.
    """
    build = _Builder(frozenset(functions), frozenset(symmetric))
    for entity in entities:
        build.add(str(entity))
    for index, fact in enumerate(facts):
        expression = _parse(fact, index) if isinstance(fact, str) else fact
        if isinstance(expression, str):
            raise FormatError(
                f"expected `relation(things)`, found the bare word {expression!r}", field=f"facts[{index}]"
            )
        build.add(_checked(expression, index, 0))
    return RelationGraph(tuple(build.nodes))


def graph_from_data(data: Any, name: str = "") -> RelationGraph:
    """From the plain form of a file: {"facts": […], "functions": […], "symmetric": […], "entities": […]}.

    A bare list counts as the facts. Raises FormatError naming the field.
    """
    if isinstance(data, list):
        data = {"facts": data}
    if not isinstance(data, Mapping) or not isinstance(data.get("facts"), list):
        raise FormatError('expected an object with a list "facts", or that list alone', path=name, field="facts")
    unknown = sorted(set(data) - set(FILE_FIELDS))
    if unknown:
        raise FormatError(f"unknown field {unknown[0]!r}; allowed: {', '.join(FILE_FIELDS)}", path=name)
    lists: dict[str, list[str]] = {}
    for key in ("functions", "symmetric", "entities"):
        value = data.get(key, [])
        if not isinstance(value, list) or not all(isinstance(item, str) for item in value):
            raise FormatError("expected a list of words", path=name, field=key)
        lists[key] = value
    try:
        return relation_graph(data["facts"], **lists)
    except FormatError as error:
        raise FormatError(error.message, path=name, field=error.field) from None


class _Builder:
    def __init__(self, functions: frozenset[str], symmetric: frozenset[str]) -> None:
        self.functions, self.symmetric = functions, symmetric
        self.nodes: list[Node] = []
        self.positions: dict[Node, int] = {}

    def add(self, expression: Any) -> int:
        if isinstance(expression, str):
            return self._position(Node(expression, "entity"))
        name, *arguments = expression
        inner = tuple(self.add(argument) for argument in arguments)
        role: Role = "relation"
        if len(inner) == 1 and self.nodes[inner[0]].role in {"entity", "function"}:
            role = "function" if name in self.functions else "attribute"
        return self._position(Node(name, role, inner, name in self.symmetric))

    def _position(self, node: Node) -> int:
        if node not in self.positions:
            if len(self.nodes) >= MAXIMUM_NODES:
                raise FormatError(f"more than the {MAXIMUM_NODES} expressions allowed in one system")
            self.positions[node] = len(self.nodes)
            self.nodes.append(node)
        return self.positions[node]


def _checked(expression: Any, index: int, depth: int) -> Any:
    field = f"facts[{index}]"
    if depth > 20:
        raise FormatError("nested deeper than the 20 levels allowed", field=field)
    if isinstance(expression, str):
        if not expression.strip():
            raise FormatError("expected a name, found an empty text", field=field)
        return expression.strip()
    if not isinstance(expression, list | tuple) or len(expression) < 2 or not isinstance(expression[0], str):
        raise FormatError(
            f'expected ["relation", argument, …] or "relation(argument, …)", found {str(expression)[:60]!r}',
            field=field,
        )
    return [expression[0].strip(), *(_checked(argument, index, depth + 1) for argument in expression[1:])]


def _parse(text: str, index: int) -> Any:
    tokens = []
    at = 0
    stripped = text.rstrip()
    while at < len(stripped):
        match = _TOKEN.match(stripped, at)
        if match is None:
            break
        tokens.append(match["name"] or match["mark"])
        at = match.end()
    position = 0
    field = f"facts[{index}]"

    def expression(depth: int) -> Any:
        nonlocal position
        if depth > 20:
            raise FormatError("nested deeper than the 20 levels allowed", field=field)
        if position >= len(tokens) or tokens[position] in "(),":
            raise FormatError(f"expected a name in {text[:80]!r}", field=field)
        name = tokens[position]
        position += 1
        if position >= len(tokens) or tokens[position] != "(":
            return name
        result: list[Any] = [name]
        while True:
            position += 1
            result.append(expression(depth + 1))
            if position >= len(tokens):
                raise FormatError(f"expected ')' at the end of {text[:80]!r}", field=field)
            if tokens[position] == ")":
                position += 1
                return result
            if tokens[position] != ",":
                raise FormatError(f"expected ',' or ')' before {tokens[position]!r} in {text[:80]!r}", field=field)

    parsed = expression(0)
    if position != len(tokens):
        raise FormatError(
            f"expected the end after {' '.join(map(str, tokens[:position]))!r} in {text[:80]!r}", field=field
        )
    return parsed
