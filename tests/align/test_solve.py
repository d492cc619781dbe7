"""The solver for free graphs: rules of structure mapping, invariants, and a second opinion by enumeration."""

from __future__ import annotations

import itertools
import random
import re

import pytest

from analog.align.compatible import STRUCTURE_MAPPING
from analog.align.graph import RelationGraph, relation_graph
from analog.align.objective import SYSTEMATIC
from analog.align.solve import align_graphs, own_worth


def mapping(base: RelationGraph, target: RelationGraph) -> dict[str, str]:
    return {base.text(b): target.text(t) for b, t in align_graphs(base, target).pairs if base.nodes[b].role == "entity"}


def test_argument_order_counts() -> None:
    base = relation_graph(["supports(a, b)", "heavier(b, a)"])
    assert mapping(base, relation_graph(["supports(x, y)", "heavier(y, x)"])) == {"a": "x", "b": "y"}
    swapped = relation_graph(["supports(x, y)", "heavier(x, y)"])
    assert len([p for p in align_graphs(base, swapped).pairs if base.nodes[p[0]].role == "relation"]) == 1


def test_a_symmetric_relation_matches_either_way_round() -> None:
    base = relation_graph(["touches(a, b)", "pulls(a, b)"], symmetric=["touches"])
    target = relation_graph(["touches(y, x)", "pulls(x, y)"], symmetric=["touches"])
    assert mapping(base, target) == {"a": "x", "b": "y"}
    assert align_graphs(base, target).value == pytest.approx(align_graphs(base, base).value)


def test_three_connected_relations_beat_four_isolated_ones() -> None:
    base = relation_graph(["cause(p(a, b), q(b, a))", "r(c, d)", "s(c, d)", "t(c, d)", "u(c, d)"])
    target = relation_graph(["cause(p(x, y), q(y, x))", "r(x, y)", "s(x, y)", "t(x, y)", "u(x, y)"])
    assert mapping(base, target) == {"a": "x", "b": "y"}


def test_no_common_relation_is_an_empty_alignment() -> None:
    found = align_graphs(relation_graph(["p(a, b)"]), relation_graph(["q(x, y)"]))
    assert found.pairs == ()
    assert found.value == 0
    assert found.optimal


def test_a_graph_aligns_with_itself_and_with_its_shuffle() -> None:
    """Renaming things and shuffling facts changes nothing."""
    rng = random.Random(7)
    facts = ["cause(p(a, b), q(b, c))", "p(c, a)", "r(a, c)", "cause(r(a, c), p(a, b))"]
    base = relation_graph(facts)
    whole = align_graphs(base, base)
    assert all(b == t for b, t in whole.pairs)
    names = {"a": "zebra", "b": "yak", "c": "xerus"}
    renamed = [re.sub(r"\b[abc]\b", lambda m: names[m[0]], fact) for fact in facts]
    rng.shuffle(renamed)
    shuffled = relation_graph(renamed)
    found = align_graphs(base, shuffled)
    assert found.value == pytest.approx(whole.value)
    assert mapping(base, shuffled) == names


def test_the_worth_of_a_graph_by_itself_needs_no_search() -> None:
    """Second opinion: the solver, on the same graph twice."""
    graph = relation_graph(
        ["cause(p(a, b), touches(b, c))", "u(a)", "q(m(a), m(c))"], functions=["m"], symmetric=["touches"]
    )
    assert own_worth(graph, STRUCTURE_MAPPING, SYSTEMATIC) == pytest.approx(align_graphs(graph, graph).value)


def enumerated(base: RelationGraph, target: RelationGraph) -> float:
    """Best worth over all injections of things; relations of things and one level above, without functions."""
    best = 0.0
    mine, theirs = list(base.entities), list(target.entities)
    slots = [*theirs, *[None] * len(mine)]
    for image in set(itertools.permutations(slots, len(mine))):
        pairs = {b: t for b, t in zip(mine, image, strict=True) if t is not None}
        best = max(best, _worth_of(base, target, pairs))
    return best


def _worth_of(base: RelationGraph, target: RelationGraph, pairs: dict[int, int]) -> float:
    """Given the things, every relation has at most one counterpart, so the worth is a plain sum."""
    known = dict(pairs)
    worth = 0.0
    parents = [{a for i, node in enumerate(g.nodes) if g.orders[i] > 1 for a in node.arguments} for g in (base, target)]
    at = {(n.name, n.arguments): i for i, n in enumerate(target.nodes)}
    for index, node in enumerate(base.nodes):
        if node.role == "entity" or not all(a in known for a in node.arguments):
            continue
        image = at.get((node.name, tuple(known[a] for a in node.arguments)))
        if image is None:
            continue
        known[index] = image
        if node.role == "attribute":
            worth += SYSTEMATIC.attribute
        else:
            order = min(base.orders[index], target.orders[image])
            worth += SYSTEMATIC.relation * SYSTEMATIC.deeper ** (order - 1)
            if index in parents[0] or image in parents[1]:
                worth += SYSTEMATIC.promise
        for argument in node.arguments:
            role = base.nodes[argument].role
            worth += SYSTEMATIC.support if role == "relation" else 0.0
            worth += SYSTEMATIC.entity * STRUCTURE_MAPPING.entities("a", "b") if role == "entity" else 0.0
    return worth


@pytest.mark.parametrize("seed", range(25))
def test_the_solver_finds_what_enumeration_finds(seed: int) -> None:
    """Random graphs of up to 5 things: the value equals the best over all injections (brute force)."""
    rng = random.Random(seed)

    def random_graph(letters: str) -> RelationGraph:
        things = list(letters[: rng.randint(2, 5)])
        first = [f"{rng.choice('pqr')}({', '.join(rng.sample(things, 2))})" for _ in range(rng.randint(2, 6))]
        second = [f"cause({', '.join(rng.sample(first, 2))})" for _ in range(rng.randint(0, 3)) if len(first) > 1]
        attributes = [f"{rng.choice('uv')}({rng.choice(things)})" for _ in range(rng.randint(0, 3))]
        return relation_graph([*first, *second, *attributes])

    base, target = random_graph("abcde"), random_graph("vwxyz")
    found = align_graphs(base, target)
    assert found.optimal
    assert found.value == pytest.approx(enumerated(base, target), abs=1e-6)


def test_one_to_one_and_parallel_connectivity_hold_on_every_output() -> None:
    rng = random.Random(3)
    for _ in range(10):
        facts = [f"{rng.choice('pqr')}({', '.join(rng.sample('abcdef', 2))})" for _ in range(8)]
        base = relation_graph(facts)
        target = relation_graph([*facts[:5], f"cause({facts[0]}, {facts[1]})"])
        found = align_graphs(base, target)
        assert len({b for b, _ in found.pairs}) == len(found.pairs) == len({t for _, t in found.pairs})
        chosen = set(found.pairs)
        for b, t in found.pairs:
            for pair in zip(base.nodes[b].arguments, target.nodes[t].arguments, strict=True):
                assert pair in chosen
