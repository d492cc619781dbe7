"""A model as a graph in GraphML: parts, states, transitions, reasons and needs as nodes, facts and links as edges.

Format: Brandes, Eiglsperger, Herman, Himsolt, Marshall (2002), "GraphML progress report", Graph Drawing 2001, LNCS
2265, as networkx writes it; other graph programs open it. Every node and edge has the attributes `type` and `label`.
"""

from __future__ import annotations

import re
from typing import Any

from analog.errors import printable
from analog.explain.quantities import value_words
from analog.explain.sentences import fact_sentence, names_of, spoken
from analog.model.facts import Fact
from analog.model.types import Model
from analog.show.account import need_words, reason_told

_NO_XML = re.compile(r"[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Characters that XML 1.0 (section 2.2) does not allow in a document."""


def graph_of(model: Model) -> Any:
    """The model as a networkx.MultiDiGraph.

    Nodes are named by type and id: part:leaf, state:soiled, transition:land, reason:land:1, need:land:1. A fact with
    several parts becomes an edge from its first part to each other one; a fact about one part becomes an attribute of
    it. Edges of a state bear its id in `state`, those of the structure none.
    """
    import networkx as nx

    graph = nx.MultiDiGraph(id=model.id, title=_clean(model.title), organism=_clean(model.organism.common))
    names = names_of(model)

    def node(name: str, **attributes: str) -> None:
        graph.add_node(name, **{key: _clean(value) for key, value in attributes.items() if value})

    def edge(start: str, end: str, **attributes: str) -> None:
        graph.add_edge(start, end, **{key: _clean(value) for key, value in attributes.items() if value})

    for part in model.parts:
        figures = "; ".join(f"{q.name}: {value_words(q)}" for q in part.properties)
        node(
            f"part:{part.id}",
            type="part",
            label=part.name,
            kind=part.kind,
            material=part.material or "",
            values=figures,
        )
    for number, fact in enumerate(model.parsed_structure, start=1):
        _fact(graph, fact, names, "", f"structure {number}")
    for state in model.states:
        name = f"state:{state.id}"
        facts = " ".join(fact_sentence(fact, names) for fact in state.parsed)
        node(name, type="state", label=state.text, facts=facts)
        for fact in state.parsed:
            for part_id in dict.fromkeys(fact.parts):
                if part_id in names:
                    edge(
                        name,
                        f"part:{part_id}",
                        type="fact of state",
                        label=fact_sentence(fact, names),
                        relation=fact.relation,
                    )
            _fact(graph, fact, names, state.id, "")
    for transition in model.transitions:
        name = f"transition:{transition.id}"
        on_course = "yes" if transition.id in model.course else "no"
        node(name, type="transition", label=transition.text, on_course=on_course)
        edge(f"state:{transition.from_state}", name, type="leaves", label="begins")
        edge(name, f"state:{transition.to_state}", type="reaches", label="ends")
        for number, reason in enumerate(transition.reasons, start=1):
            told = reason_told(reason, model, names, {})
            reason_name = f"reason:{transition.id}:{number}"
            node(reason_name, type="reason", sort=told.sort, label=told.text)
            edge(reason_name, name, type="explains", label="explains")
        for number, need in enumerate(transition.needs, start=1):
            need_name = f"need:{transition.id}:{number}"
            node(need_name, type="need", sort=need.type, label=need_words(need, names))
            edge(name, need_name, type="needs", label="needs")
            about_part: str | None = getattr(need, "part", None)
            if about_part in names:
                edge(need_name, f"part:{about_part}", type="about", label="about")
    for purpose in model.purposes:
        name = f"purpose:{purpose.id}"
        node(name, type="purpose", label=purpose.text, verb=purpose.verb, flow=purpose.flow)
        edge(name, f"part:{purpose.object}", type="acts on", label=spoken(purpose.verb))
        if purpose.where:
            edge(name, f"part:{purpose.where.part}", type="acts at", label=purpose.where.relation)
        edge(name, f"state:{purpose.initial}", type="starts from", label="starts from")
        edge(name, f"state:{purpose.objective}", type="aims at", label="aims at")
    return graph


def graphml(model: Model) -> str:
    """The graph as GraphML text."""
    import networkx as nx

    lines = nx.generate_graphml(graph_of(model), named_key_ids=True)
    return '<?xml version="1.0" encoding="utf-8"?>\n' + "\n".join(lines) + "\n"


def _fact(graph: Any, fact: Fact, names: dict[str, str], state: str, where: str) -> None:
    parts = [part for part in fact.parts if part in names]
    told = _clean(fact_sentence(fact, names))
    if len(parts) == 1 and not state:
        node = graph.nodes[f"part:{parts[0]}"]
        node["told"] = f"{node['told']} {told}" if "told" in node else told
        return
    for other in parts[1:]:
        attributes = {
            "type": "relation",
            "relation": fact.relation,
            "label": told,
            "holds": "no" if fact.negated else "yes",
        }
        if state:
            attributes["state"] = state
        if where:
            attributes["fact"] = where
        graph.add_edge(f"part:{parts[0]}", f"part:{other}", **attributes)


def _clean(text: str) -> str:
    return _NO_XML.sub(" ", " ".join(printable(text).split()))
