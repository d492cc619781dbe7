"""The terms of the score, by arithmetic the reader can follow."""

from __future__ import annotations

import pytest

from analog.model.types import Model
from analog.problem.types import ProblemPurpose, VerbCandidate
from analog.rank import terms
from analog.rank.fuse import DEFAULT_WEIGHTS, FusionWeights
from tests.model.sample import sample

PURPOSES = Model(**sample()).purposes  # separate, particulate


class Table:
    """Similarities from a table; 1 for the same term, else what is listed or 0."""

    def __init__(self, **listed: float) -> None:
        self.listed = listed

    def similarity(self, a: str, b: str) -> float:
        return 1.0 if a == b else self.listed.get(f"{a}_{b}", 0.0)


def purpose(verb: str, confidence: float, *others: tuple[str, float]) -> ProblemPurpose:
    runners_up = tuple(VerbCandidate(verb=v, confidence=c) for v, c in others)
    return ProblemPurpose(text="x", verb=verb, confidence=confidence, runners_up=runners_up, object="x", flow="solid")


def test_a_runner_up_counts_by_its_share_of_the_first_confidence() -> None:
    read = [purpose("mix", 0.8, ("separate", 0.2))]
    assert terms.verb(read, PURPOSES, Table()) == pytest.approx(0.2 / 0.8)
    assert terms.verb([purpose("separate", 0.8)], PURPOSES, Table()) == 1.0
    assert terms.verb([purpose("export", 0.8)], PURPOSES, Table(export_separate=0.7)) == pytest.approx(0.7)


def test_flows_compare_and_an_unknown_flow_says_nothing() -> None:
    assert terms.flow([purpose("x", 1)], PURPOSES, Table(solid_particulate=0.8)) == pytest.approx(0.8)
    unknown = ProblemPurpose(text="x", verb="x", object="x")
    assert terms.flow([unknown], PURPOSES, Table()) == 0.0


def test_one_broken_step_halves_what_is_left() -> None:
    assert terms.conditions(("carries over", "carries over")) == 1.0
    assert terms.conditions(("carries over", "breaks")) == pytest.approx(0.5 * (1.0 + 0.0) / 2)
    assert terms.conditions(("open", "carries over if")) == pytest.approx((0.9 + 0.95) / 2)
    assert terms.conditions(()) == 1.0


def test_a_broken_mechanism_falls_behind_an_equal_one_that_works() -> None:
    alike = dict.fromkeys(DEFAULT_WEIGHTS.terms, 0.6)
    works = DEFAULT_WEIGHTS.score({**alike, "conditions": 0.95})
    broken = DEFAULT_WEIGHTS.score({**alike, "conditions": terms.conditions(("carries over", "breaks"))})
    assert broken < 0.95 * works


def test_what_does_another_thing_falls_back_as_far_as_the_reading_is_sure() -> None:
    """1 - 0.9^3 x (1 - 0.2) for a sure reading; an unsure one hardly speaks: 1 - 0.3^3 x 0.8."""
    assert terms.function([purpose("separate", 0.9)], 0.2) == pytest.approx(1 - 0.9**3 * 0.8)
    assert terms.function([purpose("separate", 0.3)], 0.2) == pytest.approx(1 - 0.3**3 * 0.8)
    assert terms.function([purpose("separate", 0.9)], 1.0) == 1.0
    weights = FusionWeights({"a": 1.0}, conditions_reach=0.0, function_reach=0.5)
    assert weights.score({"a": 0.8, "function": 0.4}) == pytest.approx(0.8 * (0.5 + 0.5 * 0.4))


def test_the_score_is_the_weighted_mean_times_the_conditions() -> None:
    weights = FusionWeights({"a": 1.0, "b": 3.0}, conditions_reach=0.5)
    assert weights.score({"a": 1.0, "b": 0.2}) == pytest.approx((1.0 + 3 * 0.2) / 4)
    assert weights.score({"a": 1.0, "b": 0.2, "conditions": 0.4}) == pytest.approx(0.4 * (0.5 + 0.5 * 0.4))


def test_a_term_without_value_is_left_out_of_the_mean() -> None:
    weights = FusionWeights({"a": 1.0, "b": 3.0}, conditions_reach=0.0)
    assert weights.score({"a": 0.6}) == pytest.approx(0.6)
    assert weights.score({}) == 0.0


def test_a_change_made_the_other_way_round_lowers_the_score_by_its_reach() -> None:
    weights = FusionWeights({"a": 1.0}, conditions_reach=0.0, direction_reach=0.8)
    assert weights.score({"a": 0.5, "direction": terms.direction(1)}) == pytest.approx(0.5 * 0.2)
    assert weights.score({"a": 0.5, "direction": terms.direction(0)}) == pytest.approx(0.5)


def test_the_weights_name_terms_that_exist() -> None:
    assert set(DEFAULT_WEIGHTS.terms) <= {*terms.FACET_TERMS, "words", "verb", "flow", "structure"}
    assert all(weight >= 0 for weight in DEFAULT_WEIGHTS.terms.values())
