"""Models side by side: the rows say what the records say."""

from __future__ import annotations

import pytest

from analog.api import Library
from analog.explain.comparison import OUTCOMES, Comparison, compare, compare_under

CHOSEN = ("lotus-leaf-rolling-drops", "gecko-toe-dry-self-cleaning", "ant-antenna-comb")


@pytest.fixture(scope="module")
def compared(library: Library) -> Comparison:
    problem = library.read("remove dust from solar panels", ["no water available", "particle size 5-50 um"])
    return compare_under(problem, [library.explain(name, problem) for name in CHOSEN], library.searcher.principles)


def values(compared: Comparison, name: str) -> tuple[str, ...]:
    return next(criterion.values for criterion in compared.criteria if criterion.name == name)


def test_every_row_has_a_value_for_every_model(compared: Comparison) -> None:
    assert all(len(criterion.values) == len(CHOSEN) for criterion in compared.criteria)
    assert all(value for criterion in compared.criteria for value in criterion.values)
    assert len({(criterion.heading, criterion.name) for criterion in compared.criteria}) == len(compared.criteria)


def test_verdicts_are_counted_over_the_course_and_add_up_to_it(compared: Comparison) -> None:
    rows = [row for row in compared.criteria if row.name.startswith("Steps: ")]
    assert len(rows) == 4
    for place, result in enumerate(compared.results):
        assert sum(int(row.values[place]) for row in rows) == len(result.model.course)


def test_counts_of_evidence_are_those_of_the_models(compared: Comparison) -> None:
    for place, model in enumerate(compared.models):
        assert int(values(compared, "Precedents")[place]) == len(model.precedents)
        assert int(values(compared, "Sources seen")[place]) == sum(source.record_seen for source in model.sources)
        assert values(compared, "Contested")[place] == ("yes" if model.disputes else "no")


def test_what_breaks_is_named_with_its_reason(compared: Comparison) -> None:
    """The condition rules out the water that the drops need; the dry mechanisms need none."""
    assert "no water available" in values(compared, "What breaks")[0]
    assert values(compared, "What breaks")[1:] == ("nothing breaks", "nothing breaks")


def test_scale_checks_are_counted_only_where_the_problem_gives_numbers(library: Library, compared: Comparison) -> None:
    assert compared.scale is not None
    assert all(set(counts) == set(OUTCOMES) for counts in compared.scale)
    assert sum(sum(counts.values()) for counts in compared.scale) > 0
    problem = library.read("remove dust from solar panels")
    plain = compare_under(problem, [library.explain(CHOSEN[0], problem)], library.searcher.principles)
    assert plain.scale is None
    assert "no numbers" in values(plain, "Scale checks")[0]


def test_a_surface_likeness_is_told(compared: Comparison) -> None:
    for place, result in enumerate(compared.results):
        assert values(compared, "Surface only")[place] == ("yes" if result.likeness.surface else "no")
        assert float(values(compared, "Of relations")[place]) == pytest.approx(result.likeness.relations, abs=0.005)


def test_without_a_problem_there_is_no_score(library: Library) -> None:
    compared = compare([library.model(name) for name in CHOSEN])
    assert {criterion.heading for criterion in compared.criteria} == {"What it is", "Evidence"}
    assert compared.to_dict()["problem"] is None
