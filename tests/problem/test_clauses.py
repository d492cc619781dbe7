"""The rules that read one clause: common English usage, no source, except where one is named."""

from __future__ import annotations

import ast
import re
from graphlib import TopologicalSorter
from itertools import pairwise
from pathlib import Path

import pytest

import analog.problem.clauses as clauses
from analog.problem.chunk import Chunker, Phrase
from analog.problem.clauses import read_clause, split_clauses, strip_leads, style_of
from analog.problem.clauses.cut_phrase import cut_before_state, cut_before_verb
from analog.problem.clauses.functions import candidates, near, strongest
from analog.problem.clauses.leads import _LEADS
from analog.problem.clauses.lemma import lemma_at
from analog.problem.clauses.places import main_place
from analog.problem.clauses.request_start import starts_request
from analog.problem.clauses.subject import subject_of
from analog.problem.clauses.wording import Wording
from analog.problem.phrases import labelled
from analog.problem.tables import table
from analog.vocabulary import Vocabulary

FOLDER = Path(clauses.__file__).parent


@pytest.fixture(scope="module")
def chunker(vocabulary: Vocabulary) -> Chunker:
    return Chunker(vocabulary)


def test_rules_import_one_another_without_a_circle() -> None:
    """graphlib (standard library) finds an order of the files, or names the circle."""
    needs: dict[str, set[str]] = {}
    for path in FOLDER.glob("*.py"):
        nodes = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        modules = {node.module for node in nodes if isinstance(node, ast.ImportFrom) and node.module}
        needs[path.stem] = {m.rpartition(".")[2] for m in modules if m.startswith("analog.problem.clauses.")}
    order = list(TopologicalSorter(needs).static_order())
    assert order.index("wording") < order.index("keep") < order.index("act") < order.index("read_clause")


def test_a_wording_has_nothing_before_its_first_and_after_its_last_token(chunker: Chunker) -> None:
    wording = Wording.of("Keep it dry !", chunker)
    assert [wording.lower(i) for i in (-1, 0, 3, 4)] == ["", "keep", "!", ""]
    assert len(wording.without_closing_signs()) == 3
    assert wording.bases(-1) == wording.bases(9) == ()
    assert not wording.is_base(9)


@pytest.mark.parametrize(
    "lead",
    [
        "please ",
        "How to ",
        "We are looking for a way to ",
        "Could you tell me how to ",
        "Our goal is to ",
        "Is there a way to ",
        "So, we would like to ",
        "Please, help us to ",
    ],
)
def test_a_polite_beginning_changes_nothing_in_what_is_asked(lead: str, chunker: Chunker) -> None:
    request = "remove dust from the lens"
    assert strip_leads(request) == (request, False)
    assert strip_leads(lead + request) == (request, True)
    plain = read_clause(request, "imperative", chunker)
    polite = read_clause(lead + request, "imperative", chunker)
    assert plain is not None and plain == polite


def test_no_pattern_of_a_beginning_matches_without_one_of_its_openings() -> None:
    """Each opening is checked against the pattern itself, over the report and development phrasings behind leads."""
    leads = ["", "Our goal is to ", "WE NEED A WAY TO ", "Customers want to ", "Is it possible to ", "Ways to "]
    texts = [lead + label.text for split in ("development", "report") for label in labelled(split) for lead in leads]
    for openings, pattern in _LEADS:
        compiled = re.compile(pattern, re.I)
        assert all(text.casefold().startswith(openings) for text in texts if compiled.match(text)), pattern


def test_the_pieces_of_a_sentence_stand_in_it_in_order(chunker: Chunker) -> None:
    """Over all development phrasings, and each joined with the one after it."""
    texts = [label.text for label in labelled("development")]
    joined = [f"{a.rstrip('.?! ')}; {b}" for a, b in pairwise(texts)]
    for text in texts + joined:
        at = 0
        for piece in split_clauses(text, chunker):
            found = text.find(piece, at)
            assert piece and found >= at, (text, piece)
            at = found + len(piece)
    for (a, b), both in zip(pairwise(texts), joined, strict=True):
        apart = split_clauses(a.rstrip(".?! "), chunker) + split_clauses(b, chunker)
        if ";" not in a + b:
            assert split_clauses(both, chunker) == apart


def test_two_requests_are_cut_and_two_things_are_not(chunker: Chunker) -> None:
    assert split_clauses("collect dew and store it", chunker) == ["collect dew", "store it"]
    assert split_clauses("separate sand and gravel", chunker) == ["separate sand and gravel"]


@pytest.mark.parametrize(
    ("text", "style"),
    [
        ("Filter the sand from the water", "imperative"),
        ("Never let ice form on the edge", "imperative"),
        ("How can a wall shed rain", "question"),
        ("the wall sheds rain?", "question"),
        ("The tank must not crack", "requirement"),
        ("The filter clogs with sand", "complaint"),
    ],
)
def test_how_a_sentence_is_put(text: str, style: str, chunker: Chunker) -> None:
    assert style_of(text, chunker) == style


@pytest.mark.parametrize(
    ("text", "asks"),
    [
        ("filter water", True),
        ("pumps wear out", False),
        ("pipe elbows clog", False),
        ("the pump", False),
        ("dust settles because of wind", False),
        ("cool the blade", True),
    ],
)
def test_a_noun_with_a_verb_of_its_own_is_no_request(text: str, asks: bool, chunker: Chunker) -> None:
    assert starts_request(Wording.of(text, chunker), 0) is asks


@pytest.mark.parametrize(
    ("text", "verb", "rest"),
    [
        ("get rid of scale", "get rid of", "scale"),
        ("keeping drinks cold", "keep", "drinks"),
        ("stabilises the mast", "stabilize", "the"),  # spelled as in NIST TN 1447
        ("break down plastic", "break down", "plastic"),
        ("walk on the ceiling", "walk", "on"),
    ],
)
def test_the_verb_with_its_particle(text: str, verb: str, rest: str, chunker: Chunker) -> None:
    wording = Wording.of(text, chunker)
    found = lemma_at(wording, 0)
    assert found is not None
    assert (found[0], wording.lower(found[1])) == (verb, rest)


def test_a_phrase_gives_back_the_verb_and_the_state_it_swallowed(chunker: Chunker) -> None:
    made = Wording.of("make droplets stay", chunker)
    assert cut_before_verb(made, 1, 3, Phrase(("droplets", "stay"))) == (Phrase(("droplet",)), 2)
    kept = Wording.of("keep a window clean", chunker)
    assert cut_before_state(kept, 1, 4, Phrase(("window", "clean"))) == (Phrase(("window",)), 3)
    whole = Phrase(("window", "pane"))
    assert cut_before_state(Wording.of("keep a window pane", chunker), 1, 4, whole) == (whole, 4)


def test_the_subject_stands_before_verb_auxiliary_and_adverb(chunker: Chunker) -> None:
    wording = Wording.of("when the fine chips of the mill are slowly clogging", chunker)
    subject = subject_of(wording, len(wording) - 1)
    assert subject is not None and subject.head == "chip"
    assert subject_of(Wording.of("it clogs", chunker), 1) is None


def test_what_something_comes_off_matters_more_than_what_does_it() -> None:
    brush, roof, winter = Phrase(("brush",)), Phrase(("roof",)), Phrase(("winter",))
    assert main_place([("with", brush)]) == ("with", brush)
    assert main_place([("with", brush), ("over", roof)]) == ("over", roof)
    assert main_place([("over", brush), ("off", roof)]) == ("from", roof)
    assert main_place([("in", winter)]) is None  # a time is no place
    assert main_place([]) is None


def test_every_function_the_tables_name_is_strongest_among_those_near_it(vocabulary: Vocabulary) -> None:
    """The functions themselves are those of NIST TN 1447."""
    for row in table("symptoms") + table("states"):
        functions = near(row["verb"])
        assert strongest(functions) == row["verb"], row
        assert all(vocabulary.verbs.known(function) and 0 < weight <= 1 for function, weight in functions.items())


def test_the_record_of_a_shape_is_not_shared_between_clauses(chunker: Chunker) -> None:
    first = read_clause("prevent leaks", "imperative", chunker)
    assert first is not None
    first.verbs["prevent"] = 0.0
    second = read_clause("prevent leaks", "imperative", chunker)
    assert second is not None and second.verbs["prevent"] > 0


def test_a_verb_of_places_acts_on_what_is_implied_unless_it_is_said(vocabulary: Vocabulary) -> None:
    of_place = candidates(vocabulary, "clean", Phrase(("window",)))
    assert of_place.of_place and of_place.implied == "contaminant"
    said = candidates(vocabulary, "drain", Phrase(("water",)))
    assert not said.of_place and said.implied is None
    assert candidates(vocabulary, "zzz", None) == ({}, False, None)


SAME = [
    ("Remove dust from the lens", ["Dust must be removed from the lens", "How can we remove dust from the lens?"]),
    ("Keep ice off the wing", ["Never let ice form on the wing", "Stop ice from forming on the wing"]),
    ("Protect the roof from hail", ["protection of the roof against hail", "Shield the roof against hail"]),
    ("Get rid of contaminants in the pipe", ["Rid the pipe of contaminants", "contaminant removal from the pipe"]),
]


@pytest.mark.parametrize(("text", "others"), SAME)
def test_the_same_wish_in_another_shape_has_the_same_thing_and_place(
    text: str, others: list[str], chunker: Chunker
) -> None:
    first = read_clause(text, style_of(text, chunker), chunker)
    assert first is not None and first.object is not None and first.where is not None
    for other in others:
        clause = read_clause(other, style_of(other, chunker), chunker)
        assert clause is not None and clause.object is not None and clause.where is not None, other
        assert clause.object == first.object, other
        assert clause.where[1] == first.where[1], other
        assert clause.negated == first.negated, other


def test_a_complaint_is_read_from_its_cause(chunker: Chunker) -> None:
    text = "Output drops as grime builds up on the panels"
    clause = read_clause(text, style_of(text, chunker), chunker)
    assert clause is not None and clause.style == "complaint"
    assert (clause.object, clause.where) == (Phrase(("grime",)), ("on", Phrase(("panel",))))
    again = read_clause("Output drops because grime builds up on the panels", "complaint", chunker)
    assert again is not None and (again.object, again.where) == (clause.object, clause.where)
