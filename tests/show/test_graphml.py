"""GraphML of a model: valid by the schema's own rules, read back with networkx, and counting the same as the model."""

from __future__ import annotations

import io
from collections import Counter
from xml.etree import ElementTree

import pytest

from analog.api import Library
from analog.show.graphml import graph_of, graphml
from tests.figures.helpers import hostile_model

networkx = pytest.importorskip("networkx")

GRAPHML = "{http://graphml.graphdrawing.org/xmlns}"
NAMES = ("lotus-leaf-rolling-drops", "mussel-byssus-anchor", "beetle-jigsaw-suture")


@pytest.mark.parametrize("name", NAMES)
def test_what_is_read_back_counts_the_same_as_the_model(library: Library, name: str) -> None:
    model = library.model(name)
    graph = networkx.read_graphml(io.BytesIO(graphml(model).encode()))
    nodes = Counter(kind for _, kind in graph.nodes(data="type"))
    assert nodes["part"] == len(model.parts)
    assert nodes["state"] == len(model.states)
    assert nodes["transition"] == len(model.transitions)
    assert nodes["reason"] == sum(len(transition.reasons) for transition in model.transitions)
    assert nodes["need"] == sum(len(transition.needs) for transition in model.transitions)
    assert nodes["purpose"] == len(model.purposes)
    edges = Counter(kind for *_, kind in graph.edges(data="type"))
    facts = [*model.parsed_structure, *(fact for state in model.states for fact in state.parsed)]
    assert edges["relation"] == sum(max(0, len(fact.parts) - 1) for fact in facts)
    assert edges["explains"] == nodes["reason"] and edges["needs"] == nodes["need"]
    assert edges["leaves"] == edges["reaches"] == len(model.transitions)
    course = {node for node, on in graph.nodes(data="on_course") if on == "yes"}
    assert course == {f"transition:{step}" for step in model.course}


@pytest.mark.parametrize("name", NAMES)
def test_nothing_changes_on_the_way_to_the_file_and_back(library: Library, name: str) -> None:
    graph = graph_of(library.model(name))
    back = networkx.read_graphml(io.BytesIO(graphml(library.model(name)).encode()))
    assert dict(back.nodes(data=True)) == dict(graph.nodes(data=True))
    assert Counter(map(repr, back.edges(data=True))) == Counter(map(repr, graph.edges(data=True)))


def test_the_document_keeps_the_rules_of_the_format(library: Library) -> None:
    """GraphML primer: root graphml, keys declared before use, edges between nodes of the graph, ids unique."""
    root = ElementTree.fromstring(graphml(library.model(NAMES[0])))
    assert root.tag == f"{GRAPHML}graphml"
    keys = {key.get("id") for key in root.findall(f"{GRAPHML}key")}
    (graph,) = root.findall(f"{GRAPHML}graph")
    assert graph.get("edgedefault") == "directed"
    nodes = [node.get("id") for node in graph.findall(f"{GRAPHML}node")]
    assert len(nodes) == len(set(nodes))
    for edge in graph.findall(f"{GRAPHML}edge"):
        assert {edge.get("source"), edge.get("target")} <= set(nodes)
    assert {data.get("key") for data in root.iter(f"{GRAPHML}data")} <= keys
    assert all(node.find(f"{GRAPHML}data") is not None for node in graph.findall(f"{GRAPHML}node"))


def test_hostile_names_are_data() -> None:
    document = graphml(hostile_model())
    assert "<script" not in document and "\x1b" not in document
    graph = networkx.read_graphml(io.BytesIO(document.encode()))
    assert "<script>" in graph.nodes["part:grit"]["label"] and "$x_1$" in graph.nodes["part:grit"]["label"]
