"""Before and after: the facts that a purpose turns from one into the other, by verb (data/changes.tsv).

Columns: verbs (any of them), negated (yes, no, any), flow (a flow or a more general one; * for all), initial and
objective facts. `object` and `where` stand for the things; a fact with `where` is left out when no place is known.
The word `on` stands for the relation that fits the two kinds: see `resting`.
"""

# ruff: noqa: E501 - tables and messages are easier to read whole

from __future__ import annotations

from typing import TYPE_CHECKING

from analog.problem.tables import table

if TYPE_CHECKING:
    from analog.vocabulary import Vocabulary


def facts_of(
    verb: str, negated: bool, flow: str | None, thing: tuple[str, str | None], place: tuple[str, str | None, str] | None, vocabulary: Vocabulary
) -> tuple[list[str], list[str]]:  # fmt: skip
    """(initial, objective) facts. thing : (id, kind). place : (id, kind, relation of the place) or None."""
    for row in table("changes"):
        if verb not in row["verbs"].split() or row["negated"] not in {"any", "yes" if negated else "no"}:
            continue
        if row["flow"] != "*" and not (flow is not None and vocabulary.flows.is_a(flow, row["flow"])):
            continue
        return _filled(row["initial"], thing, place, vocabulary), _filled(row["objective"], thing, place, vocabulary)
    return [], []


def _filled(
    template: str, thing: tuple[str, str | None], place: tuple[str, str | None, str] | None, vocabulary: Vocabulary
) -> list[str]:
    facts = []
    for fact in template.split(";"):
        fact = fact.strip()
        if not fact or ("where" in fact and place is None):
            continue
        body, negation = (fact[4:], "not ") if fact.startswith("not ") else (fact, "")
        relation, _, arguments = body.partition("(")
        names = [name.strip() for name in arguments.rstrip(")").split(",")]
        ids = {"object": thing[0], "where": place[0] if place is not None else ""}
        if relation == "on" and place is not None:
            relation, swap = resting(thing[1], place[1], place[2], vocabulary)
            names = names[::-1] if swap else names
        facts.append(f"{negation}{relation}({', '.join(ids.get(name, name) for name in names)})")
    return facts


def resting(thing: str | None, place: str | None, preposition: str, vocabulary: Vocabulary) -> tuple[str, bool]:
    """How a thing is at a place before it is taken away: (relation, whether the place comes first)."""
    kinds = vocabulary.kinds

    def is_a(kind: str | None, *general: str) -> bool:
        return kind is not None and any(kinds.is_a(kind, name) for name in general)

    if is_a(place, "liquid", "gas", "mixture"):
        return "mixes-with", False
    if preposition in {"in", "inside", "into", "through"} and not is_a(place, "surface", "surface-feature"):
        if is_a(thing, "contaminant", "foreign-body"):
            return "adheres-to", False
        return "contains", True
    if is_a(thing, "crack"):
        return "part-of", False
    if is_a(thing, "liquid", "water"):
        return "wets", False
    if is_a(thing, "gas", "signal", "energy"):
        return "acts-on", False
    return "adheres-to", False
