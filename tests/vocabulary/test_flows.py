"""Flows against NIST Technical Note 1447 (2002), from memory of its table."""

from __future__ import annotations

from analog.vocabulary import Vocabulary


def test_flows_stand_in_three_classes_as_in_the_report(words: Vocabulary) -> None:
    by_class = dict.fromkeys(("material-class", "signal-class", "energy-class"), 0)
    for flow in words.flows.all():
        by_class[words.flows.class_of(flow)] += 1
    # material: 6 secondary, 3 kinds of solid, 8 mixtures; signal: 2, 5, 2; energy: 12, and 2 + 2 tertiary
    assert by_class == {"material-class": 6 + 3 + 8, "signal-class": 2 + 5 + 2, "energy-class": 12 + 2 + 2}


def test_likeness_of_flows_is_symmetric_and_nothing_across_classes_without_a_link(words: Vocabulary) -> None:
    flows = words.flows
    for a in flows.all():
        for b in flows.all():
            assert flows.similarity(a, b) == flows.similarity(b, a) <= 1.0
    assert flows.similarity("particulate", "solid") == 0.8
    assert flows.similarity("particulate", "thermal-energy") == 0.0
    assert flows.similarity("acoustic-energy", "auditory") > 0.0


def test_a_kind_has_the_flow_of_the_nearest_kind_that_names_one(words: Vocabulary) -> None:
    expected = {
        "dust": "particulate", "water": "liquid", "sea-water": "liquid", "thermal-energy": "thermal-energy",
        "noise": "acoustic-energy", "leaf": "object", "oxygen": "gas", "sunlight": "solar-energy",
    }  # fmt: skip
    assert {kind: words.flow_of_kind(kind) for kind in expected} == expected
    assert words.flow_of_kind("no-such-kind") is None


def test_every_flow_a_kind_names_is_a_flow(words: Vocabulary) -> None:
    named = {flow for record in words.kinds.records.values() for flow in record["facts"].get("flow", [])}
    assert named and all(words.flows.known(flow) for flow in named)
