"""Pairing a problem's things with a model's parts: roles, order, changes, and enumeration as second opinion."""

from __future__ import annotations

import itertools
import random

import numpy as np
import pytest

from analog.align.case import Case, CaseFact
from analog.align.things import ThingPolicy, align_things, branch_and_bound

POLICY = ThingPolicy(
    kinds=lambda a, b: 1.0 if a == b else 0.5 if a[0] == b[0] else 0.0,
    relations=lambda a, b: 1.0 if a == b else 0.0,
    symmetric=lambda relation: relation == "touches",
)


def case(kinds: str, facts: list[tuple[str, str, tuple[int, ...]]], object_: int = 0, place: int | None = 1) -> Case:
    """A case from one kind a word and facts as (phase, relation, things); `not ` before a relation negates it."""
    names = tuple(kinds.split())
    read = tuple(
        CaseFact(phase, relation.removeprefix("not "), things, (), relation.startswith("not "))  # type: ignore[arg-type]
        for phase, relation, things in facts
    )
    return Case(names, names, object_, place, "from", read)


PROBLEM = case("dust panel", [("before", "adheres", (0, 1)), ("after", "not adheres", (0, 1))])


def pairs(problem: Case, model: Case) -> dict[str, str]:
    return {problem.ids[p.thing]: model.ids[p.part] for p in align_things(problem, model, POLICY).pairs}


def test_object_and_place_are_never_swapped() -> None:
    """Even where the kinds would fit better crosswise, the thing removed does not meet the thing cleaned."""
    model = case("panel dust", [("before", "adheres", (0, 1)), ("after", "not adheres", (0, 1))])
    assert pairs(PROBLEM, model) == {"dust": "panel", "panel": "dust"}  # object 0 is the model's "panel": by role
    crosswise = align_things(PROBLEM, model, POLICY)
    straight = align_things(PROBLEM, case("dust panel", [("before", "adheres", (0, 1))]), POLICY)
    assert crosswise.pairs[0].similarity == 0
    assert straight.pairs[0].similarity == 1


def test_a_change_found_again_is_worth_more_than_its_facts() -> None:
    """Before and after together beat the same two facts without the change between them."""
    whole = case("dirt pane", [("before", "adheres", (0, 1)), ("after", "not adheres", (0, 1))])
    half = case("dirt pane", [("before", "adheres", (0, 1)), ("during", "not adheres", (0, 1))])
    assert align_things(PROBLEM, whole, POLICY).share > align_things(PROBLEM, half, POLICY).share


def test_a_change_turned_round_is_no_change_found_again() -> None:
    """A model that lets dust settle does what the problem wants undone."""
    reversed_ = case("dirt pane", [("before", "not adheres", (0, 1)), ("after", "adheres", (0, 1))])
    unrelated = case("dirt pane", [])
    assert align_things(PROBLEM, reversed_, POLICY).value == align_things(PROBLEM, unrelated, POLICY).value


def test_a_perfect_match_has_share_one() -> None:
    assert align_things(PROBLEM, PROBLEM, POLICY).share == pytest.approx(1.0)


def test_nothing_in_common_is_an_empty_alignment() -> None:
    found = align_things(case("dust", [], 0, None), case("xylem", [], None, None), POLICY)  # type: ignore[arg-type]
    assert found.pairs == ()
    assert found.value == 0
    assert found.optimal


def test_a_shuffled_model_gives_the_shuffled_pairs() -> None:
    model = case("dirt pane drop", [("before", "adheres", (0, 1)), ("after", "not adheres", (0, 1))])
    shuffled = Case(
        ("drop", "dirt", "pane"),
        ("drop", "dirt", "pane"),
        1,
        2,
        "from",
        (CaseFact("before", "adheres", (1, 2)), CaseFact("after", "adheres", (1, 2), (), True)),
    )
    assert pairs(PROBLEM, model) == pairs(PROBLEM, shuffled)
    assert align_things(PROBLEM, model, POLICY).value == align_things(PROBLEM, shuffled, POLICY).value


@pytest.mark.parametrize("seed", range(30))
def test_branch_and_bound_finds_what_enumeration_finds(seed: int) -> None:
    """Random worths for up to 5 things and 6 parts: the best over all one-to-one choices, by brute force."""
    rng = np.random.default_rng(seed)
    things, parts = int(rng.integers(1, 6)), int(rng.integers(1, 7))
    single = np.where(rng.random((things, parts)) < 0.7, rng.random((things, parts)), 0.0)
    keys = [key for key in itertools.combinations(range(things), 2) if rng.random() < 0.6]
    double = {key: np.where(rng.random((parts, parts)) < 0.3, rng.random((parts, parts)), 0.0) for key in keys}
    best = 0.0
    for image in itertools.product([*range(parts), -1], repeat=things):
        used = [p for p in image if p >= 0]
        if len(set(used)) < len(used) or any(p >= 0 and single[a, p] == 0 for a, p in enumerate(image)):
            continue
        worth = sum(single[a, p] for a, p in enumerate(image) if p >= 0)
        worth += sum(grid[image[a], image[b]] for (a, b), grid in double.items() if image[a] >= 0 and image[b] >= 0)
        best = max(best, float(worth))
    chosen, value, bound, proven = branch_and_bound(single, double, 10.0)
    assert proven
    assert value == pytest.approx(best)
    assert bound == pytest.approx(best)
    assert len([p for p in chosen if p >= 0]) == len({p for p in chosen if p >= 0})


def test_out_of_time_the_bound_still_holds() -> None:
    """With no time at all the value found is reported as unproven, under a bound that no choice exceeds."""
    rng = np.random.default_rng(1)
    single = rng.random((7, 9))
    double = {key: rng.random((9, 9)) for key in itertools.combinations(range(7), 2)}
    _, value, bound, proven = branch_and_bound(single, double, 0.0)
    _, best, _, _ = branch_and_bound(single, double, 60.0)
    assert not proven
    assert value <= best <= bound


def test_random_cases_respect_one_to_one() -> None:
    rng = random.Random(5)
    for _ in range(20):
        kinds = " ".join(rng.choice("abc") + str(i) for i in range(5))
        facts = [("before", rng.choice(["adheres", "touches"]), tuple(rng.sample(range(5), 2))) for _ in range(6)]
        found = align_things(case(kinds, facts[:3]), case(kinds, facts), POLICY)
        assert len({p.part for p in found.pairs}) == len(found.pairs)
