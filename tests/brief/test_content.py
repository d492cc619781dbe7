"""What a brief says: the recommendation, verdicts, options, experiments and criteria that follow from the results."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from analog.api import Library
from analog.brief.analogue import CRITERIA
from analog.brief.compose import LEAST_CHANCE
from analog.brief.content import BASES, Brief
from analog.brief.document import Heading, Listing, Picture, Table
from analog.brief.experiments import COUNT
from analog.brief.hazards import hazards
from analog.brief.outline import outline
from analog.brief.substitution import ENOUGH
from analog.brief.views import as_json, brief_schema
from analog.explain.sentences import in_words
from analog.problem.types import Problem, ProblemPurpose, Thing
from analog.rank.calibration import chance

ROOT = Path(__file__).parents[2]
NO_ANALOGUE = "negotiate a lower interest rate with a bank"


@pytest.fixture(scope="module")
def none_found(library: Library) -> Brief:
    return library.brief(NO_ANALOGUE)


def test_json_follows_the_published_schema(brief: Brief, none_found: Brief) -> None:
    """JSON Schema 2020-12, read by the reference library jsonschema; the file in docs is what the program prints."""
    published = (ROOT / "docs/brief.schema.json").read_text(encoding="utf-8")
    assert published == brief_schema()
    schema = json.loads(published)
    jsonschema.Draft202012Validator.check_schema(schema)
    for each in (brief, none_found):
        record = json.loads(as_json(each))
        jsonschema.validate(record, schema)
        assert Brief.model_validate_json(as_json(each)) == each
    record["summary"]["good"] = "perhaps"
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(record, schema)


def test_a_condition_reaches_outlook_breaks_and_recommendation(brief: Brief) -> None:
    gecko, lotus = brief.analogues
    assert "ruled out by “no water available”" in lotus.outlook
    assert lotus.breaks and all(b.what and b.mend for b in lotus.breaks)
    assert not gecko.breaks
    assert brief.summary.recommendation.startswith(f"Start from “{gecko.title}”")
    assert f"“{lotus.title}” breaks under the given conditions" in brief.summary.recommendation


def test_confidence_is_that_of_the_calibration(brief: Brief) -> None:
    share = round(100 * chance(brief.analogues[0].score))
    assert f"right in {share} of 100 cases" in brief.summary.confidence
    assert brief.summary.chance == pytest.approx(chance(brief.analogues[0].score), abs=5e-3)


def test_without_a_good_analogue_the_brief_says_so_and_recommends_nothing(none_found: Brief) -> None:
    assert not none_found.summary.good
    assert none_found.analogues == ()
    assert none_found.summary.recommendation.startswith("No good analogue was found")
    assert none_found.summary.chance is not None and none_found.summary.chance < LEAST_CHANCE
    assert none_found.alternatives, "the nearest are listed as leads"
    assert "leads only" in none_found.alternatives_note


def test_models_named_for_such_a_problem_are_told_as_leads(library: Library) -> None:
    asked = library.brief(NO_ANALOGUE, ["river-bend-cross-current"])
    assert [analogue.id for analogue in asked.analogues] == ["river-bend-cross-current"]
    assert not asked.summary.good
    assert "not as a recommendation" in asked.summary.recommendation


def test_without_models_the_best_of_the_search_is_taken(library: Library) -> None:
    results = library.search("remove dust from solar panels", top=2).results
    assert [a.id for a in library.brief("remove dust from solar panels").analogues] == [results[0].model.id]
    two = library.brief("remove dust from solar panels", top=2)
    assert [a.id for a in two.analogues] == [result.model.id for result in results]


TWO_CHANGES = """\
text: clean solar panels in a desert and gather drinking water for their keepers
purposes:
  - {text: remove dust from solar panels, verb: separate, object: dust, where: {relation: from, part: panel}}
  - {text: collect drinking water from fog, verb: collect, object: drops, where: {relation: from, part: fog}}
things:
  - {id: dust, kind: dust}
  - {id: panel, name: solar panel, kind: panel}
  - {id: drops, name: water drops, kind: droplet}
  - {id: fog, kind: fog-water}
"""


def test_a_portfolio_tells_who_covers_what(library: Library, tmp_path: Path) -> None:
    (tmp_path / "two.yaml").write_text(TWO_CHANGES, encoding="utf-8")
    problem = library.read_file(tmp_path / "two.yaml")
    assert len(problem.purposes) == 2
    found = library.search(problem).portfolio
    told = library.brief(problem, portfolio=True)
    assert [a.id for a in told.analogues] == list(found.members)
    titles = {a.title: a.covers for a in told.analogues}
    assert len(told.coverage) == 2
    for cover in told.coverage:
        assert cover.by == tuple(title for title, covers in titles.items() if cover.purpose in covers)
        assert bool(cover.by) == (cover.purpose not in found.uncovered)


def test_every_row_of_the_substitution_table_has_two_options_or_says_why_not(brief: Brief) -> None:
    rows = [row for analogue in brief.analogues for row in analogue.substitutions]
    assert rows
    assert any(len(row.options) >= ENOUGH for row in rows)
    for row in rows:
        assert row.note or len(row.options) >= ENOUGH, row.name
        assert all(option.origin for option in row.options)


def test_options_named_in_a_model_come_from_that_model(brief: Brief, library: Library) -> None:
    for analogue in brief.analogues:
        needs = [need for transition in library.model(analogue.id).transitions for need in transition.needs]
        written = {text for need in needs for text in getattr(need, "instead", ())}
        named = {o.text for row in analogue.substitutions for o in row.options if o.origin == "named in this model"}
        assert named <= written
    assert named


def test_three_experiments_say_what_to_build_measure_and_what_ends_the_idea(brief: Brief) -> None:
    for analogue in brief.analogues:
        assert len(analogue.experiments) == COUNT
        assert len({experiment.title for experiment in analogue.experiments}) == COUNT
        for experiment in analogue.experiments:
            assert experiment.build and experiment.measure and experiment.stop
        assert analogue.experiments[-1].title == "Run the whole course once on the bench"
    lotus = brief.analogues[1]
    assert "breaks" in lotus.experiments[0].why, "what breaks is tried first"


def test_a_missing_value_of_the_problem_is_measured_first(library: Library) -> None:
    told = library.brief("remove dust from solar panels", ["gecko-toe-dry-self-cleaning"]).analogues[0]
    open_steps = [step for step in told.steps if step.verdict == "open" and step.on_course]
    assert open_steps
    assert told.experiments[0].title.lower().startswith("find out")
    assert any(step.text in told.experiments[0].why for step in open_steps)


def test_the_scale_check_shows_both_sides_and_the_deciding_values(library: Library) -> None:
    """Sieving by the comb: 5 to 50 µm over a gap of 2 to 10 µm is 0.5 to 25."""
    told = library.brief("remove dust from solar panels", ["ant-antenna-comb"], ["particle size 5-50 um"])
    bound = next(b for b in told.analogues[0].scale.bounds if b.group == "particle size over gap")
    assert bound.problem == "0.5 to 25"
    assert bound.must_be == "at least 1"
    assert bound.outcome == "at the edge"
    assert any("5 µm to 50 µm, given" in text for text in told.analogues[0].scale.inputs)
    decided = [b for b in told.analogues[0].scale.bounds if b.problem != "not known" and b.outcome == "at the edge"]
    verb = "is" if len(decided) == 1 else "are"
    assert any(f"{in_words(len(decided))} {verb} at the edge" in point.text for point in told.summary.points)


def test_without_numbers_the_scale_check_says_so(library: Library) -> None:
    told = library.brief("remove dust from solar panels", ["gecko-toe-dry-self-cleaning"]).analogues[0].scale
    assert "The problem gives no number" in told.note


def test_bounds_that_say_nothing_are_a_list_of_what_to_find_out(library: Library) -> None:
    """The table has what can be judged; the rest is told with the quantities that are missing, none is lost."""
    told = library.brief("remove dust from solar panels", ["ant-antenna-comb"], ["particle size 5-50 um"])
    bounds = told.analogues[0].scale.bounds
    silent = [bound for bound in bounds if not bound.says_something]
    spoken = [bound for bound in bounds if bound.says_something]
    assert silent and spoken
    blocks = outline(told).blocks
    table = next(b for b in blocks if isinstance(b, Table) and b.caption.startswith("Bounds of the principles"))
    assert len(table.rows) == len(spoken)
    listed = " ".join(run.text for b in blocks if isinstance(b, Listing) for item in b.items for run in item)
    for bound in silent:
        assert bound.group.lower() in listed.lower()
        assert all(name in listed for name in bound.missing)


def test_no_sentence_stands_twice_in_a_cell(library: Library) -> None:
    for name in ("bird-leg-counter-current", "ant-antenna-comb", "evaporating-wet-surface"):
        for step in library.brief("keep equipment warm", [name], ["-30 degC"]).analogues[0].steps:
            for texts in (step.grounds, step.why_in_nature):
                stems = [text.removesuffix(".") for text in texts]
                repeated = [a for a in stems for b in stems if a is not b and (a == b or b.startswith(f"{a}:"))]
                assert not repeated


def test_alternatives_say_why_they_lost(brief: Brief, library: Library) -> None:
    chosen = {analogue.id for analogue in brief.analogues}
    assert brief.alternatives
    ranks = [alternative.rank for alternative in brief.alternatives]
    assert ranks == sorted(ranks)
    for alternative in brief.alternatives:
        assert alternative.id not in chosen
        assert alternative.why
    broken = [a for a in brief.alternatives if any("breaks" in reason for reason in a.why)]
    for alternative in broken:
        explained = library.explain(alternative.id, "remove dust from solar panels", ["no water available"])
        assert any(t.verdict == "breaks" and t.on_course for t in explained.transitions)


def test_the_criteria_of_iso_18458_are_three_and_the_last_is_open(brief: Brief) -> None:
    """ISO 18458:2015 (wording from memory): analysed, abstracted, transferred; the last is the team's to meet."""
    for analogue in brief.analogues:
        assert tuple(c.text for c in analogue.criteria) == CRITERIA
        assert analogue.criteria[2].status == "open"
        assert all(c.evidence and c.remains for c in analogue.criteria)


def test_nothing_is_called_biomimetic_while_a_criterion_is_open(brief: Brief) -> None:
    """ISO 18458:2015: the word is reserved for what meets all three criteria (from memory)."""
    allowed = ("must not be called biomimetic", "may be called biomimetic only")
    text = as_json(brief).lower()
    for phrase in allowed:
        text = text.replace(phrase, "")
    own = " ".join(line.text for a in brief.analogues for line in (*a.precedents, *a.limits)).lower()
    titles = " ".join(r.text for a in brief.analogues for r in a.references).lower()
    assert text.count("biomimetic") <= own.count("biomimetic") + titles.count("biomimetic")


def test_every_statement_rests_on_a_listed_source_or_says_what_it_is(brief: Brief) -> None:
    for analogue in brief.analogues:
        keys = {reference.key for reference in analogue.references} | set(BASES)
        lines = [*analogue.limits, *analogue.precedents, *analogue.disputes, *analogue.figures, *analogue.differences]
        bases = [line.basis for line in lines] + [experiment.basis for experiment in analogue.experiments]
        bases += [option.basis for row in analogue.substitutions for option in row.options]
        for basis in bases:
            assert set(basis.split(", ")) <= keys, basis
        assert all(line.basis for line in analogue.principles)


def test_no_section_is_empty(brief: Brief, none_found: Brief, library: Library) -> None:
    plain_model = library.brief("seal a leaking pipe", top=1)
    for each in (brief, none_found, plain_model):
        blocks = [block for block in outline(each).blocks if not isinstance(block, Picture)]
        for block, following in zip(blocks, [*blocks[1:], None], strict=True):
            if isinstance(block, Heading):
                nested = isinstance(following, Heading) and following.level > block.level
                assert following is not None and (nested or not isinstance(following, Heading)), block.text
            if isinstance(block, Table):
                assert block.rows and all(cell for row in block.rows for cell in row[:1]), block.caption
                assert sum(block.widths) == 100
            if isinstance(block, Listing):
                assert block.items


def test_versions_and_command_let_it_be_made_again(brief: Brief, library: Library) -> None:
    assert brief.made["program"] == library.versions()["program"]
    assert "contents" in brief.made["corpus"]
    assert brief.made["command"].startswith("analog brief")


@pytest.mark.parametrize(
    ("text", "word", "standard"),
    [
        ("keep ice off a wind turbine rotor blade", "height", "ISO 12494"),
        ("clean a catheter without biocide", "Medical", "ISO 10993-1"),
        ("stop milk fouling in a dairy heat exchanger", "Food", "1935/2004"),
        ("seal a leaking steam pipe", "Pressure", "2014/68/EU"),
        ("remove dust from solar panels", "Electricity", "IEC 61215"),
        ("keep insects off a crop", "Living organisms", "Nagoya"),
    ],
)
def test_hazards_of_the_domain_are_named(text: str, word: str, standard: str) -> None:
    """Common practice, no source; the numbers of the standards from memory."""
    purpose = ProblemPurpose(text="x", verb="separate", object="x")
    problem = Problem(text=text, purposes=(purpose,), things=(Thing(id="x", name="x"),))
    found = hazards(problem)
    assert any(word in caution.text for caution in found)
    assert any(standard in name for caution in found for name in caution.standards)


def test_a_word_inside_another_is_no_hazard() -> None:
    purpose = ProblemPurpose(text="x", verb="separate", object="x")
    problem = Problem(text="sort rice by size in a device", purposes=(purpose,), things=(Thing(id="x", name="x"),))
    assert not any("Ice" in caution.text for caution in hazards(problem))
