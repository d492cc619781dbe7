"""Nature keeps its own laws: no model's figures break a bound of the principles it rests on."""

from __future__ import annotations

from pathlib import Path

from analog.model.load import load_corpus
from analog.scale.corpus import NatureCheck, counts, lacking, nature_checks
from analog.scale.evaluate import shipped_principles
from analog.scale.table import with_counts
from tests.scale.helpers import model, principle

ROOT = Path(__file__).resolve().parents[2]
CHECKS: list[NatureCheck] = list(nature_checks(load_corpus(ROOT / "corpus").models, shipped_principles()))


def test_no_model_breaks_a_principle_it_rests_on() -> None:
    broken = [
        f"{each.model}/{each.transition}/{each.check.principle.id}: {group.group.name} {group.value_text}, "
        f"must be {group.bound_text}"
        for each in CHECKS
        for group in each.check.groups
        if group.status == "fails"
    ]
    assert not broken, broken


def test_what_has_all_its_figures_can_be_computed() -> None:
    faults = [
        f"{each.model}/{each.check.principle.id}: {group.note}"
        for each in CHECKS
        for group in each.check.groups
        if group.status == "missing" and not group.missing
    ]
    assert not faults, faults


UNKNOWN = {
    ("bristle-neighbour-veto", "run-away"),
    ("short-circuit-respiration-heat", "open-bypass"),
    ("wood-frog-freeze-tolerance", "flood"),
    ("diatom-shell-casting", "set"),
    ("ferritin-cage-store", "deposit"),
}
"""Steps for which nobody here knew a figure even to an order of magnitude."""


def test_every_use_of_a_principle_computes_its_bounded_groups_on_natures_side() -> None:
    assert len(CHECKS) > 1000
    left = {(each.model, each.transition) for each in CHECKS if lacking(each)}
    assert left <= UNKNOWN, left - UNKNOWN


def test_a_model_that_breaks_a_bound_is_found() -> None:
    parts = model().model_dump(mode="json")["parts"]
    parts[0]["properties"][0] |= {"low": 300, "high": 400}  # grit of 0.3 mm through gaps of 0.1 mm
    coarse = model(parts=parts)
    [check] = nature_checks([coarse], {"small-enough": principle()})
    assert check.check.status == "fails"


def test_the_counts_in_the_guide_are_those_of_the_corpus() -> None:
    guide = (ROOT / "docs" / "scale.md").read_text(encoding="utf-8")
    assert guide == with_counts(guide, counts(CHECKS)), "run: python -m analog.scale.table --write"
