"""The thesaurus: sound data, and likeness that rises with what two kinds share."""

from __future__ import annotations

from itertools import pairwise

import pytest

from analog.errors import FormatError, UnknownTermError
from analog.vocabulary import Vocabulary
from analog.vocabulary.turtle import read_concepts


def test_every_concept_has_a_definition_and_every_match_a_note(words: Vocabulary) -> None:
    for vocabulary in (words.kinds, words.flows, words.verbs, words.verbs.everyday):
        assert vocabulary.faults() == []


def test_every_kind_leads_up_to_thing(words: Vocabulary) -> None:
    assert [name for name in words.kinds.all() if not words.kinds.is_a(name, "thing")] == []


def test_matches_lead_to_kinds_or_to_wordnet(words: Vocabulary) -> None:
    targets = {match[1] for record in words.kinds.records.values() for match in record["matches"]}
    assert all(words.kinds.known(target) or target.startswith("wordnet:") for target in targets)


@pytest.mark.parametrize(
    ("a", "b", "low", "high"),
    [  # our own judgement, no published figures
        ("dust", "contaminant", 0.8, 1.0),
        ("dust", "foreign-body", 0.6, 0.8),
        ("dust", "sand", 0.55, 0.8),
        ("hull-surface", "wetted-surface", 0.7, 1.0),
        ("hull", "wetted-surface", 0.6, 1.0),
        ("leaf-surface", "panel-surface", 0.5, 0.9),
        ("vessel", "pipe", 0.8, 1.0),
        ("dust", "muscle", 0.0, 0.0),
        ("dust", "pump", 0.0, 0.0),
        ("leaf", "noise", 0.0, 0.0),
    ],
)
def test_likeness_of_kinds(words: Vocabulary, a: str, b: str, low: float, high: float) -> None:
    assert low <= words.kind_similarity(a, b) <= high


def test_likeness_is_symmetric_and_one_only_for_the_same(words: Vocabulary) -> None:
    some = words.kinds.all()[::9]
    for a in some:
        for b in some:
            value = words.kind_similarity(a, b)
            assert value == words.kind_similarity(b, a)
            assert (value == 1.0) == (a == b)


@pytest.mark.parametrize(
    "general", ["thing", "matter", "material", "solid", "object", "structure", "machine", "organism"]
)
def test_kinds_do_not_meet_in_the_most_general_ones(words: Vocabulary, general: str) -> None:
    children = words.kinds.narrower(general)
    met = [words.kinds.meeting(a, b)[1] for a in children for b in children if a != b]
    assert general not in met


def test_a_path_goes_up_then_down_and_its_steps_join(words: Vocabulary) -> None:
    some = words.kinds.all()[::11]
    seen = 0
    for a in some:
        for b in some:
            path = words.kinds.path(a, b)
            assert bool(path) == (a != b and words.kind_similarity(a, b) > 0)
            if not path:
                continue
            seen += 1
            assert (path[0].start, path[-1].end) == (a, b)
            assert all(one.end == two.start for one, two in pairwise(path))
            relations = [step.relation for step in path]
            if "narrower" in relations and "broader" in relations:
                assert max(i for i, r in enumerate(relations) if r == "broader") < relations.index("narrower")
            assert sum("match" in relation for relation in relations) <= 2
    assert seen > 20


def test_unknown_kinds_are_like_themselves_only(words: Vocabulary) -> None:
    assert words.kind_similarity("no-such-kind", "dust") == 0.0
    assert words.kind_similarity("no-such-kind", "no-such-kind") == 1.0
    with pytest.raises(UnknownTermError, match=r"Unknown kind 'dusst'; nearest: dust"):
        words.kinds.record("dusst")


def test_water_freezes_and_boils_where_the_handbook_says(words: Vocabulary) -> None:
    # CRC Handbook of Chemistry and Physics: 273.15 K and 373.12 K at 101.325 kPa; sea water of 35 g/kg: 271.2 K by
    # TEOS-10. All from memory.
    assert words.kinds.fact("liquid-water", "freezesAt") == pytest.approx(273.15, abs=0.05)
    assert words.kinds.fact("rain-water", "boilsAt") == pytest.approx(373.15, abs=0.05)
    assert words.kinds.fact("sea-water", "freezesAt") == pytest.approx(271.2, abs=0.1)
    assert words.kinds.fact("dust", "freezesAt") is None


def test_what_a_circumstance_provides_or_lacks(words: Vocabulary) -> None:
    assert "rain-water" in words.kinds.facts("liquid-water", "providedBy")
    assert "night" in words.kinds.facts("sunlight", "absentIn")
    assert "vacuum" in words.kinds.facts("air", "absentIn")


def test_a_file_that_is_not_turtle_is_named(tmp_path) -> None:  # type: ignore[no-untyped-def]
    broken = tmp_path / "kinds-broken.ttl"
    broken.write_text("kind:dust a skos:Concept .", encoding="utf-8")
    with pytest.raises(FormatError, match=r"kinds-broken\.ttl"):
        read_concepts([broken], "kind")


def test_a_concept_described_twice_is_refused(tmp_path) -> None:  # type: ignore[no-untyped-def]
    text = "<urn:analog:kind:dust> a <http://www.w3.org/2004/02/skos/core#Concept> ."
    paths = [tmp_path / "kinds-a.ttl", tmp_path / "kinds-b.ttl"]
    for path in paths:
        path.write_text(text, encoding="utf-8")
    with pytest.raises(FormatError, match=r"kinds-b\.ttl.*'dust' is described in kinds-a\.ttl too"):
        read_concepts(paths, "kind")
