"""Sentences become problems. The readings asked for are our own judgement unless a source stands beside them."""

# ruff: noqa: E501 - tables of cases are easier to read whole

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from analog.errors import AnalogError, ReadingError
from analog.model.facts import parse_fact
from analog.problem.read import combine, read_problem
from analog.problem.text import MAXIMUM_CHARACTERS
from analog.vocabulary import Vocabulary

# The secondary and tertiary functions of NIST Technical Note 1447 (Hirtz, Stone, McAdams, Szykman, Wood 2002),
# written down here a second time, from memory of the note, so that the program's own table is checked against it.
NIST_TN_1447 = {
    "separate", "distribute", "import", "export", "transfer", "guide", "couple", "mix", "actuate", "regulate", "change",
    "stop", "convert", "store", "supply", "sense", "indicate", "process", "stabilize", "secure", "position",
    "divide", "extract", "remove", "transport", "transmit", "translate", "rotate", "allow-dof", "join", "link", "increase",
    "decrease", "increment", "decrement", "shape", "condition", "prevent", "inhibit", "contain", "collect", "detect",
    "measure", "track", "display",
}  # fmt: skip


def first(text: str, vocabulary: Vocabulary):  # type: ignore[no-untyped-def]
    problem = read_problem(text, (), vocabulary)
    names = {thing.id: thing.name for thing in problem.things}
    purpose = problem.purposes[0]
    return problem, purpose, names[purpose.object], names[purpose.where.part] if purpose.where else None


@pytest.mark.parametrize(
    ("text", "verbs", "thing", "place", "negated"),
    [
        ("remove dust from solar panels", {"separate", "remove", "export"}, "dust", "solar panel", False),
        ("keep ice off the wing", {"prevent", "inhibit"}, "ice", "wing", True),
        ("stop cracks spreading in a windscreen", {"prevent", "inhibit", "stop"}, "crack", "windscreen", True),
        ("how can we move slurry uphill without a pump?", {"transport", "transfer"}, "slurry", None, False),
        ("the joint must hold on wet rock", {"secure", "couple", "join"}, "joint", "wet rock", False),
        ("output drops as grime builds up on the cover glass", {"separate", "remove", "export"}, "grime", "cover glass", False),
        ("our pipes clog with scale", {"separate", "remove", "prevent"}, "scale", "pipe", False),
        ("protect the lens from sand", {"inhibit", "prevent"}, "sand", "lens", True),
        ("shield the pump against hail", {"inhibit", "prevent"}, "hail", "pump", True),
        ("prevent insects from sticking to the windscreen", {"prevent", "inhibit"}, "insect", "windscreen", True),
        ("rid the tank of sludge", {"separate", "remove", "export"}, "sludge", "tank", False),
        ("how could dust be kept away from seals?", {"prevent", "inhibit"}, "dust", "seal", True),
        ("get sand out of the gearbox", {"separate", "remove", "export", "extract"}, "sand", "gearbox", False),
        ("the hull must not corrode", {"prevent", "inhibit"}, "corrosion", "hull", True),
    ],
)  # fmt: skip
def test_verb_object_and_place(text, verbs, thing, place, negated, vocabulary) -> None:  # type: ignore[no-untyped-def]
    _, purpose, found, where = first(text, vocabulary)
    assert purpose.verb in verbs
    assert (found, where, purpose.negated) == (thing, place, negated)
    assert 0.3 <= purpose.confidence <= 1


def test_protected_and_removed_are_never_swapped(vocabulary: Vocabulary) -> None:
    """ "protect A from B" keeps B away, "clean B off A" and "clean A of B" take B away: A is always the place."""
    for text in ("protect the lens from sand", "clean sand off the lens", "clean the lens of sand", "keep sand off the lens",
                 "keep the lens free of sand", "shield the lens against sand", "remove sand from the lens"):  # fmt: skip
        _, _, thing, place = first(text, vocabulary)
        assert (thing, place) == ("sand", "lens"), text


# Traps named beside TN 1447's table: everyday verbs that are not in it. What each means in the table's terms is our
# own reading of the table: "clean X" removes or separates a contaminant from X, "cool X" exports or transfers
# thermal energy, "stick" is couple or secure, "prevent icing" is prevent or inhibit and not stop.
@pytest.mark.parametrize(
    ("text", "verbs"),
    [
        ("clean the panel", {"remove", "separate", "export"}),
        ("wash the panel", {"remove", "separate", "export"}),
        ("cool the processor", {"export", "transfer"}),
        ("stick a sensor to the skin", {"couple", "secure", "join", "link"}),
        ("grip a wet bottle", {"couple", "secure"}),
        ("prevent icing", {"prevent", "inhibit"}),
        ("prevent icing of the blades", {"prevent", "inhibit"}),
        ("repel water from the fabric", {"prevent", "inhibit", "separate"}),
        ("camouflage the vehicle", {"inhibit", "prevent", "change", "condition", "shape"}),
        ("dampen noise", {"decrement", "inhibit", "decrease"}),
        ("harvest water from fog", {"collect", "extract", "separate"}),
        ("remove dust", {"separate", "export", "remove"}),
    ],
)
def test_everyday_verbs_outside_the_table(text: str, verbs: set[str], vocabulary: Vocabulary) -> None:
    _, purpose, _, _ = first(text, vocabulary)
    assert purpose.verb in verbs
    assert purpose.verb in NIST_TN_1447


def test_clean_implies_a_contaminant_and_cool_implies_heat(vocabulary: Vocabulary) -> None:
    _, _, thing, place = first("clean the panel", vocabulary)
    assert (thing, place) == ("contaminant", "panel")
    problem, purpose, thing, place = first("cool the processor", vocabulary)
    assert (thing, place, purpose.flow) == ("heat", "processor", "thermal-energy")
    assert 'temperature(processor, "high")' in problem.initial
    assert 'temperature(processor, "low")' in problem.objective


def test_prevent_icing_is_not_stop(vocabulary: Vocabulary) -> None:
    _, purpose, thing, _ = first("prevent icing of the rotor", vocabulary)
    assert purpose.verb != "stop"
    assert vocabulary.kinds.is_a(vocabulary.kind_of(thing).kind, "ice") or thing == "ice"  # type: ignore[union-attr]


def test_every_verb_ever_given_is_in_the_published_table(vocabulary: Vocabulary) -> None:
    from analog.problem.phrases import labelled
    from analog.problem.tables import table

    assert len(NIST_TN_1447) == 21 + 24
    for label in labelled("development")[::4]:
        try:
            problem = read_problem(label.text, (), vocabulary)
        except AnalogError:
            continue
        for purpose in problem.purposes:
            assert {purpose.verb, *(r.verb for r in purpose.runners_up)} <= NIST_TN_1447, label.text
    for split in ("development", "report"):
        for label in labelled(split):
            assert set(label.verbs) <= NIST_TN_1447, label.text
    for name, column in (("symptoms", "verb"), ("states", "verb"), ("changes", "verbs")):
        for row in table(name):
            assert set(row[column].split()) <= NIST_TN_1447, row


def test_several_purposes_and_what_it_stands_for(vocabulary: Vocabulary) -> None:
    problem = read_problem("collect dew and store it", (), vocabulary)
    assert [(p.verb, p.object) for p in problem.purposes] == [("collect", "dew"), ("store", "dew")]
    problem = read_problem("keep ice off the wing and cool the engine", (), vocabulary)
    assert [p.object for p in problem.purposes] == ["ice", "heat"]


def test_without_doing_is_a_preventive_purpose_and_without_a_thing_a_condition(vocabulary: Vocabulary) -> None:
    problem = read_problem("grip fragile fruit without bruising it", (), vocabulary)
    assert problem.purposes[0].negated is False
    assert (problem.purposes[1].verb, problem.purposes[1].negated) == ("prevent", True)
    problem = read_problem("wash solar panels without water", (), vocabulary)
    assert len(problem.purposes) == 1
    assert [(c.type, c.kind) for c in problem.conditions] == [("absent", "water")]


def test_conditions_inside_a_sentence(vocabulary: Vocabulary) -> None:
    problem = read_problem("remove ice from cables at -30 °C at night without electricity", (), vocabulary)
    found = {(c.type, c.kind, c.low) for c in problem.conditions}
    assert ("temperature", None, 243.15) in found  # 273.15 - 30
    assert ("absent", "electrical-energy", None) in found
    assert ("absent", "sunlight", None) in found
    assert problem.purposes[0].object == "ice"


def test_before_and_after(vocabulary: Vocabulary) -> None:
    problem = read_problem("remove dust from solar panels", (), vocabulary)
    assert problem.initial == ("adheres-to(dust, solar-panel)",)
    assert "not adheres-to(dust, solar-panel)" in problem.objective
    problem = read_problem("keep ice off the wing", (), vocabulary)
    assert problem.objective == ("not adheres-to(ice, wing)",)
    assert "adheres-to(ice, wing)" not in problem.initial


def test_facts_use_known_relations_and_declared_things(vocabulary: Vocabulary) -> None:
    from analog.problem.phrases import labelled

    for label in labelled("development")[1::5]:
        try:
            problem = read_problem(label.text, (), vocabulary)
        except AnalogError:
            continue
        ids = {thing.id for thing in problem.things}
        for text in (*problem.initial, *problem.objective, *problem.relations):
            fact = parse_fact(text)
            assert vocabulary.relations.known(fact.relation), text
            assert set(fact.parts) <= ids, text
        for purpose in problem.purposes:
            assert purpose.object in ids


@pytest.mark.parametrize("text", ["", "   ", "\n\t", "!!!", "\u200b"])
def test_nothing_is_refused(text: str, vocabulary: Vocabulary) -> None:
    with pytest.raises(ReadingError, match="Expected a problem"):
        read_problem(text, (), vocabulary)


def test_a_hundred_kilobytes_are_refused_with_the_limit(vocabulary: Vocabulary) -> None:
    with pytest.raises(ReadingError, match="20,000"):
        read_problem("remove dust from panels " * 4200, (), vocabulary)
    long = ("remove dust from solar panels. " * 700)[:MAXIMUM_CHARACTERS]
    assert read_problem(long, (), vocabulary).purposes[0].object == "dust"


@pytest.mark.parametrize(
    "text",
    [
        "Wie kann man Staub von Solarzellen entfernen?",
        "comment enlever la poussière des panneaux solaires",
        "asdf qwer zxcv uiop",
        "如何清除太阳能电池板上的灰尘",
        "как удалить пыль с солнечных панелей",
    ],
)
def test_other_languages_and_gibberish_say_what_was_not_understood(text: str, vocabulary: Vocabulary) -> None:
    with pytest.raises(ReadingError, match="English"):
        read_problem(text, (), vocabulary)


def test_unknown_words_are_noted(vocabulary: Vocabulary) -> None:
    problem = read_problem("remove flurbgunk from solar panels", (), vocabulary)
    assert any("flurbgunk" in note for note in problem.notes)
    assert problem.thing("flurbgunk").kind is None


def test_letters_of_other_shapes(vocabulary: Vocabulary) -> None:
    """Curly quotes, dashes and decomposed letters read the same."""
    plain = read_problem("don't let ice form on the wing's edge", (), vocabulary)
    curly = read_problem("don’t let ice form on the wing’s edge", (), vocabulary)
    assert plain.purposes == curly.purposes
    text = "remove dust from a façade"
    assert read_problem(unicodedata.normalize("NFD", text), (), vocabulary).purposes[0].object == "dust"


def test_capitals_and_full_stop_change_nothing(vocabulary: Vocabulary) -> None:
    a = read_problem("remove dust from solar panels", (), vocabulary)
    b = read_problem("Remove Dust From Solar Panels.", (), vocabulary)
    assert [(p.verb, p.object, p.where) for p in a.purposes] == [(p.verb, p.object, p.where) for p in b.purposes]


def test_combining_is_a_weighted_mean_of_words_and_neighbours() -> None:
    ranked = combine({"separate": 0.9, "remove": 0.6}, {"remove": 1.0}, share=0.5)
    assert ranked == [("remove", 0.5 * 0.6 + 0.5 * 1.0), ("separate", 0.5 * 0.9)]
    assert combine({"separate": 0.9}, None) == [("separate", 0.9)]


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(max_size=200))
def test_any_text_gives_a_problem_or_a_deliberate_error(vocabulary: Vocabulary, text: str) -> None:
    try:
        problem = read_problem(text, (), vocabulary)
    except AnalogError as error:
        assert str(error)
    else:
        assert problem.purposes


_WORDS = st.sampled_from(
    [
        "remove",
        "keep",
        "stop",
        "prevent",
        "protect",
        "clean",
        "cool",
        "dust",
        "ice",
        "panels",
        "wing",
        "the",
        "a",
        "from",
        "off",
        "of",
        "on",
        "without",
        "and",
        "how",
        "can",
        "we",
        "must",
        "be",
        "not",
        "water",
        "spreading",
        "sticking",
        "builds",
        "up",
        "as",
        "because",
        "too",
        "hot",
        "-30",
        "°C",
        "5-50",
        "um",
        "get",
        "rid",
        "let",
        "make",
        "it",
        "with",
        "at",
        "in",
        "under",
        ",",
        ".",
        "?",
        "(",
        ")",
        "'",
    ]
)


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(_WORDS, max_size=25).map(" ".join))
def test_any_order_of_the_readers_own_words_is_safe(vocabulary: Vocabulary, text: str) -> None:
    try:
        problem = read_problem(text, (), vocabulary)
    except AnalogError:
        return
    ids = {thing.id for thing in problem.things}
    assert all(
        purpose.object in ids and (purpose.where is None or purpose.where.part in ids) for purpose in problem.purposes
    )
