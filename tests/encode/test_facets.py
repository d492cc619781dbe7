"""Signature texts of models and problems."""

from pathlib import Path

import yaml

from analog.encode.facets import FACETS, model_texts, phrase, problem_texts
from analog.model.types import Model, Place
from analog.problem.types import Problem, ProblemPurpose, Thing

PATTERN = Path(__file__).resolve().parents[1] / "index" / "pattern.yaml"
CAT = Model.model_validate(yaml.safe_load(PATTERN.read_text("utf-8")))


def of(texts, facet):
    return [text.text for text in texts if text.facet == facet]


def test_every_purpose_and_sub_purpose_gives_a_text():
    """As many texts as purposes, in their order, each with the author's words in it."""
    texts = of(model_texts(CAT), "purposes")
    purposes = [*CAT.purposes, *CAT.sub_purposes]
    assert len(texts) == len(purposes)
    assert all(purpose.text in text for purpose, text in zip(purposes, texts, strict=True))


def test_purposes_are_also_told_in_one_form():
    """Verb, object by name, relation and place."""
    assert phrase("separate", "dust", Place(relation="from", part="panel"), {"panel": "solar panel"}) == (
        "separate dust from solar panel"
    )
    assert phrase("allow-dof", "hinge", None, {}) == "allow dof hinge"


def test_a_principle_goes_by_its_record_or_by_its_id():
    """Known principles give title and statement, unknown ones their id in words; each once."""
    records = {"capillary-rise": ("Capillary rise", "A wetting liquid climbs a narrow gap.")}
    texts = of(model_texts(CAT, records), "principles")
    assert "Capillary rise. A wetting liquid climbs a narrow gap." in texts
    assert texts.count("mechanical interlock") == 1  # two transitions give it as a reason
    named = {r.principle for t in CAT.transitions for r in t.reasons if r.type == "principle"}
    assert len(texts) == len(named)


def test_parts_are_one_text_with_names_and_kinds():
    """A kind that says the same as the name is not repeated."""
    (text,) = of(model_texts(CAT), "parts")
    assert all(part.name in text for part in CAT.parts)
    assert "fur (hairy surface)" in text
    assert "saliva (saliva)" not in text


def test_one_text_a_question_and_one_summary():
    """Questions are texts of their own; title and summary are one."""
    texts = model_texts(CAT)
    assert of(texts, "questions") == [question.text for question in CAT.questions]
    assert of(texts, "summary") == [f"{CAT.title}. {CAT.summary}"]
    assert {text.model_id for text in texts} == {CAT.id}


def problem(**changes):
    purpose = {
        "text": "remove dust from solar panels",
        "verb": "separate",
        "object": "dust",
        "where": Place(relation="from", part="solar-panel"),
    }
    things = (
        Thing(id="dust", name="dust", kind="particulate"),
        Thing(id="solar-panel", name="solar panel", kind="surface"),
    )
    return Problem(text="remove dust from solar panels", purposes=(ProblemPurpose(**purpose | changes),), things=things)


def test_a_problem_has_a_text_for_every_facet():
    """Nothing of a model is compared with nothing."""
    texts = problem_texts(problem())
    assert {text.facet for text in texts} == set(FACETS)
    assert of(texts, "purposes") == ["remove dust from solar panels; separate dust from solar panel"]
    assert of(texts, "parts") == ["dust (particulate); solar panel (surface)"]
    assert of(texts, "questions") == ["remove dust from solar panels"]


def test_a_purpose_that_wards_off_says_so():
    """ "keep ice off" is not a wish for ice."""
    (text,) = of(problem_texts(problem(negated=True, verb="prevent")), "purposes")
    assert text.endswith("keep dust away from solar panel")
