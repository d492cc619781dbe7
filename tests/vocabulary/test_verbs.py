"""Functions against NIST Technical Note 1447 (Hirtz, Stone, McAdams, Szykman, Wood 2002), everyday verbs beside them.

Counts, names and starred correspondents were collected from memory of that report; the classes of Secure, Position,
Stabilize, Guide, Transfer, Export, Import, Couple, Actuate, Regulate, Stop, Store and Supply were seen in a public
source that cites it.
"""

from __future__ import annotations

import pytest

from analog.vocabulary import Vocabulary

TABLE = {
    "branch": {"separate": ["divide", "extract", "remove"], "distribute": []},
    "channel": {
        "import": [],
        "export": [],
        "transfer": ["transport", "transmit"],
        "guide": ["translate", "rotate", "allow-dof"],
    },
    "connect": {"couple": ["join", "link"], "mix": []},
    "control-magnitude": {
        "actuate": [],
        "regulate": ["increase", "decrease"],
        "change": ["increment", "decrement", "shape", "condition"],
        "stop": ["prevent", "inhibit"],
    },
    "convert": {"convert": []},
    "provision": {"store": ["contain", "collect"], "supply": []},
    "signal": {"sense": ["detect", "measure"], "indicate": ["track", "display"], "process": []},
    "support": {"stabilize": [], "secure": [], "position": []},
}

STARRED = {
    "isolate", "clear", "allow", "capture", "emit", "remove", "move", "constrain", "interrupt", "process", "locate",
}  # fmt: skip


def test_there_are_eight_classes_twenty_one_secondary_and_twenty_four_tertiary_functions(words: Vocabulary) -> None:
    levels = [words.verbs.level(name) for name in words.verbs.records]
    assert (levels.count("class"), levels.count("secondary"), levels.count("tertiary")) == (8, 21, 24)
    assert len(words.verbs.all()) == 21 + 24


def test_every_function_stands_where_the_report_puts_it(words: Vocabulary) -> None:
    for class_name, secondary in TABLE.items():
        assert set(words.verbs.narrower(f"{class_name}-class")) == set(secondary)
        for name, tertiary in secondary.items():
            assert set(words.verbs.narrower(name)) == set(tertiary)
            assert all(words.verbs.class_of(function) == f"{class_name}-class" for function in [name, *tertiary])


def test_exactly_the_starred_correspondents_are_ambiguous(words: Vocabulary) -> None:
    assert {word for word in words.verbs.correspondents if words.verbs.ambiguous(word)} == STARRED
    assert all(len(words.verbs.candidates(word)) > 1 for word in STARRED)


def test_the_flow_decides_between_the_readings_of_a_starred_correspondent(words: Vocabulary) -> None:
    emit = [words.verbs.candidates("emit", flow)[0].verb for flow in ("thermal-energy", "visual")]
    assert emit == ["export", "display"]
    assert {match.verb for match in words.verbs.candidates("emit", "visual")} >= {
        "export",
        "display",
    }  # none is dropped
    assert words.verbs.candidates("isolate", "liquid")[0].verb == "separate"


@pytest.mark.parametrize("word", ["clean", "wash", "repel", "stick", "grip", "cool", "camouflage", "harvest"])
def test_everyday_verbs_are_not_in_the_report_but_are_read(words: Vocabulary, word: str) -> None:
    assert not words.verbs.known(word)
    assert word not in words.verbs.correspondents
    assert words.verbs.candidates(word)


def _best(words: Vocabulary, verb: str, count: int = 3) -> set[str]:
    return {match.verb for match in words.verbs.candidates(verb)[:count]}


def test_to_clean_a_thing_is_to_part_a_contaminant_from_it(words: Vocabulary) -> None:
    first = words.verbs.candidates("clean")[0]
    assert (first.object_role, first.implied_kind) == ("place", "contaminant")
    assert {"separate", "remove"} <= _best(words, "clean")


def test_to_cool_is_to_send_out_heat(words: Vocabulary) -> None:
    assert {"export", "transfer"} <= _best(words, "cool")
    assert words.verbs.candidates("cool")[0].implied_kind == "thermal-energy"


def test_to_stick_is_to_couple_or_secure(words: Vocabulary) -> None:
    assert {"couple", "secure"} <= _best(words, "stick")


def test_preventing_ice_is_not_stopping_it(words: Vocabulary) -> None:
    assert _best(words, "prevent icing", 2) == {"prevent", "inhibit"}


def test_everyday_remove_may_be_separate_export_or_remove(words: Vocabulary) -> None:
    assert _best(words, "remove") == {"separate", "export", "remove"}
    assert min(words.verbs.similarity(a, b) for a in _best(words, "remove") for b in _best(words, "remove")) >= 0.75


def test_at_least_three_hundred_and_fifty_everyday_verbs_lead_to_functions(words: Vocabulary) -> None:
    everyday = words.verbs.everyday
    verbs = {label for record in everyday.records.values() for label in [record["label"], *record["alt"]]}
    assert len(verbs) >= 350
    for verb in verbs:
        matches = words.verbs.candidates(verb)
        assert matches and all(words.verbs.known(match.verb) and 0 < match.weight <= 1 for match in matches), verb


def test_every_implied_kind_is_a_kind(words: Vocabulary) -> None:
    implied = [
        kind for record in words.verbs.everyday.records.values() for kind in record["facts"].get("impliedKind", [])
    ]
    assert implied and all(words.kinds.known(kind) for kind in implied)


def test_likeness_of_functions_is_symmetric_and_falls_with_distance(words: Vocabulary) -> None:
    verbs = words.verbs
    for a in verbs.all():
        for b in verbs.all():
            value = verbs.similarity(a, b)
            assert value == verbs.similarity(b, a)
            assert (value == 1.0) == (a == b)
            assert 0.0 <= value <= 1.0
    assert verbs.similarity("separate", "extract") > verbs.similarity("divide", "extract") > 0
    assert verbs.similarity("prevent", "inhibit") >= 0.75
    assert verbs.similarity("secure", "convert") == verbs.similarity("separate", "sense") == 0.0


def test_a_verb_nobody_listed_is_read_through_wordnet_or_not_at_all(baked: Vocabulary) -> None:
    matches = baked.verbs.candidates("jettison")
    assert "export" in {match.verb for match in matches}
    assert all(match.source.startswith("WordNet 3.0") and match.weight < 1 for match in matches)
    assert baked.verbs.candidates("xyzzy") == []


def test_an_unknown_function_gets_near_names(words: Vocabulary) -> None:
    assert words.verbs.near("seperate")[0] == "separate"
    assert "separate" in words.verbs.near("clean")
