"""Candidate inferences: what the base says and the target does not say yet, told in the target's own terms."""

from __future__ import annotations

from dataclasses import dataclass

from analog.align.graph import RelationGraph
from analog.align.solve import Alignment


@dataclass(frozen=True)
class Inference:
    """One unmatched relation of the base, carried over.

    text : with the correspondences put in; an entity without counterpart stands in braces, `{pipe}`.
    conjectured : the names of such entities. attached : whether the relation hangs on matched relations
    (a connected inference) or only on matched things.
    """

    text: str
    base_text: str
    conjectured: tuple[str, ...]
    attached: bool


def infer(base: RelationGraph, target: RelationGraph, alignment: Alignment) -> tuple[Inference, ...]:
    """The relations of the base without counterpart that touch what is matched, those on matched relations first.

    Attributes are never carried over (a nucleus is not yellow because the sun is).
    """
    mapping = alignment.mapping
    functions = {
        base.nodes[b].name: target.nodes[t].name for b, t in alignment.pairs if base.nodes[b].role == "function"
    }
    told_with_parent = {
        argument
        for index, node in enumerate(base.nodes)
        if node.role == "relation" and index not in mapping
        for argument in node.arguments
    }
    inferences = []
    for index, node in enumerate(base.nodes):
        if node.role != "relation" or index in mapping or index in told_with_parent:
            continue
        conjectured: list[str] = []
        text = _carried(base, target, index, mapping, functions, conjectured)
        leaves, known = _leaves(base, index)
        if not any(leaf in mapping for leaf in leaves):
            continue
        attached = any(below in mapping for below in known)
        inferences.append(Inference(text, base.text(index), tuple(dict.fromkeys(conjectured)), attached))
    return tuple(sorted(inferences, key=lambda inference: not inference.attached))


def _carried(
    base: RelationGraph,
    target: RelationGraph,
    index: int,
    mapping: dict[int, int],
    functions: dict[str, str],
    conjectured: list[str],
) -> str:
    if index in mapping:
        return target.text(mapping[index])
    node = base.nodes[index]
    if node.role == "entity":
        conjectured.append(node.name)
        return "{" + node.name + "}"
    inner = ", ".join(_carried(base, target, a, mapping, functions, conjectured) for a in node.arguments)
    name = functions.get(node.name, node.name) if node.role == "function" else node.name
    return f"{name}({inner})"


def _leaves(base: RelationGraph, index: int) -> tuple[set[int], set[int]]:
    """(entities under an expression, relations and attributes under it)."""
    leaves: set[int] = set()
    relations: set[int] = set()
    stack = list(base.nodes[index].arguments)
    while stack:
        at = stack.pop()
        node = base.nodes[at]
        if node.role == "entity":
            leaves.add(at)
        elif node.role != "function":
            relations.add(at)
        stack.extend(node.arguments)
    return leaves, relations
