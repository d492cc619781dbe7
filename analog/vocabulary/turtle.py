"""Read the SKOS files of this room into plain records, so that nothing else needs an RDF library.

Standard: SKOS Simple Knowledge Organization System Reference, W3C Recommendation 18 August 2009.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from pathlib import Path
from typing import Any

from analog.errors import FormatError

Record = dict[str, Any]
"""A concept: label, alt, definition, broader, matches [[type, target, weight, note, flow]], facts, file."""

DATA = Path(__file__).parent / "data"
ANALOG = "urn:analog:"
WORDNET = "urn:wordnet:"
TERM = "urn:analog:term:"
MATCHES = {"exactMatch": "exact match", "closeMatch": "close match", "broadMatch": "broad match"}
DEFAULT_WEIGHT = {"exact match": 0.97, "close match": 0.9, "broad match": 0.75}


def _name(node: object) -> str:
    """`urn:analog:kind:dust` → `dust`; `urn:wordnet:dust.n.01` → `wordnet:dust.n.01`; a literal → its text."""
    text = str(node)
    if text.startswith(WORDNET):
        return "wordnet:" + text[len(WORDNET) :]
    return text.rsplit(":", 1)[-1] if text.startswith(ANALOG) else text


def _value(node: Any) -> Any:
    value = node.toPython()
    if isinstance(value, bool | int | float):
        return value
    return float(value) if isinstance(value, Decimal) else _name(node)


def read_concepts(paths: Iterable[Path], prefix: str) -> dict[str, Record]:
    """Read every concept whose name starts with `urn:analog:<prefix>:` from Turtle files, in the files' order.

    A match (exact, close, broad) takes its weight and note from the reified statement about it; the weight
    falls back to a fixed one for its type. Raises FormatError with file and line when a file is not Turtle,
    and when two files describe the same concept.
    """
    from rdflib import RDF, Graph, Namespace, URIRef

    skos = Namespace("http://www.w3.org/2004/02/skos/core#")
    start = f"{ANALOG}{prefix}:"
    concepts: dict[str, Record] = {}
    elsewhere: list[tuple[str, list[list[Any]]]] = []
    for path in paths:
        graph = Graph()
        try:
            graph.parse(path, format="turtle")
        except Exception as error:  # the parser raises many types; all mean the same to the reader
            line = getattr(error, "lines", None)
            reason = getattr(error, "_why", None) or str(error).strip().splitlines()[0]
            raise FormatError(
                f"expected Turtle, found: {reason}",
                path=path.name,
                line=line + 1 if isinstance(line, int) else None,
            ) from None
        notes: dict[tuple[str, str, str], tuple[float | None, str, str | None]] = {}
        for statement in graph.subjects(RDF.type, RDF.Statement):
            key = tuple(_name(graph.value(statement, part)) for part in (RDF.subject, RDF.predicate, RDF.object))
            weight = graph.value(statement, URIRef(TERM + "weight"))
            flow = graph.value(statement, URIRef(TERM + "flow"))
            notes[key[0], key[1].rsplit("#", 1)[-1], key[2]] = (
                float(str(weight)) if weight is not None else None,
                str(graph.value(statement, skos.note) or ""),
                _name(flow) if flow is not None else None,
            )
        for subject in graph.subjects(RDF.type, skos.Concept):
            if not str(subject).startswith(start):
                continue
            name = _name(subject)
            if name in concepts:
                raise FormatError(f"{prefix} {name!r} is described in {concepts[name]['file']} too", path=path.name)
            concepts[name] = _record(graph, subject, name, notes, path.name)
        for subject in {s for p in MATCHES for s in graph.subjects(skos[p])}:
            name = _name(subject)
            if str(subject).startswith(start) and (subject, RDF.type, skos.Concept) not in graph:
                elsewhere.append((name, _matches(graph, subject, name, notes)))
    for name, matches in elsewhere:  # matches stated in another file than the concept, as the anchors to WordNet are
        if name in concepts:
            concepts[name]["matches"] += matches
    return dict(sorted(concepts.items()))


def _matches(graph: Any, subject: Any, name: str, notes: dict[Any, Any]) -> list[list[Any]]:
    from rdflib import Namespace

    skos = Namespace("http://www.w3.org/2004/02/skos/core#")
    found = []
    for predicate, kind in MATCHES.items():
        for target in graph.objects(subject, skos[predicate]):
            weight, note, flow = notes.get((name, predicate, _name(target)), (None, "", None))
            found.append([kind, _name(target), DEFAULT_WEIGHT[kind] if weight is None else weight, note, flow])
    return sorted(found, key=lambda match: (-match[2], match[1]))


def _record(graph: Any, subject: Any, name: str, notes: dict[Any, Any], file: str) -> Record:
    from rdflib import Namespace

    skos = Namespace("http://www.w3.org/2004/02/skos/core#")
    facts: dict[str, Any] = {}
    for predicate, value in graph.predicate_objects(subject):
        if str(predicate).startswith(TERM):
            key = str(predicate)[len(TERM) :]
            facts.setdefault(key, []).append(_value(value))
    return {
        "label": str(graph.value(subject, skos.prefLabel) or name.replace("-", " ")),
        "alt": sorted(str(label) for label in graph.objects(subject, skos.altLabel)),
        "definition": str(graph.value(subject, skos.definition) or ""),
        "broader": sorted(_name(concept) for concept in graph.objects(subject, skos.broader)),
        "matches": _matches(graph, subject, name, notes),
        "facts": {key: sorted(values, key=str) for key, values in sorted(facts.items())},
        "file": file,
    }
