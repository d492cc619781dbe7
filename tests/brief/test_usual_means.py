"""The table of usual engineered means: well formed, tied to the thesaurus, silent about what a problem rules out."""

from __future__ import annotations

import pytest

from analog.api import Library
from analog.brief.substitution import ENOUGH, Substitutes
from analog.brief.usual_means import SUPPLIES, means_for, ruled_out, usual_means
from analog.explain.surroundings import Surroundings
from analog.model.types import EnergyNeed, FlowNeed, MediumNeed


def test_every_row_names_a_kind_of_the_thesaurus_and_a_choice_of_means(library: Library) -> None:
    kinds = library.vocabulary.kinds
    assert len(usual_means()) > 200
    for row in usual_means().values():
        assert kinds.known(row.kind) or row.kind.endswith("-energy"), row.kind
        assert len(set(row.means)) == len(row.means) >= ENOUGH, row.kind
        assert all(text == text.strip() and not text.endswith(".") for text in row.means), row.kind


def test_a_row_holds_for_narrower_kinds_only_where_it_says_so(library: Library) -> None:
    kinds = library.vocabulary.kinds
    assert means_for("capture-fibre", kinds) == usual_means()["fibre"], "a capture fibre is a fibre"
    assert not usual_means()["cell"].below
    assert means_for("cancer-cell", kinds) is None, "no foam stands in for it"
    assert means_for("no-such-kind", kinds) is None


@pytest.mark.parametrize(
    ("text", "lacking"),
    [("electric motor", "electricity"), ("spray nozzles", "water"), ("coil spring", ""), ("falling weight", "")],
)
def test_means_that_need_what_is_ruled_out_are_known(library: Library, text: str, lacking: str) -> None:
    problem = library.read("remove dust from solar panels", ["no water available", "no electricity available"])
    surroundings = Surroundings(problem, library.vocabulary.kinds)
    assert ruled_out(text, surroundings) == lacking
    free = Surroundings(library.read("remove dust from solar panels"), library.vocabulary.kinds)
    assert ruled_out(text, free) == ""


def test_options_do_without_what_the_problem_rules_out_or_say_so(library: Library) -> None:
    told = library.brief("remove dust from solar panels", ["ant-antenna-comb"], ["no electricity available"])
    pattern = SUPPLIES["electrical-energy"][1]
    options = [option for row in told.analogues[0].substitutions for option in row.options]
    assert options
    for option in options:
        assert not pattern.search(option.text.lower()) or "which the problem rules out" in option.origin, option.text


def test_options_of_other_models_share_a_principle_and_the_function(library: Library) -> None:
    models = library.searcher.models
    model = models["bird-leg-counter-current"]
    problem = library.read("keep equipment warm")
    kinds = library.vocabulary.kinds
    substitutes = Substitutes(models, kinds, Surroundings(problem, kinds))
    found = [
        o for o in substitutes.options(model, "muscle", "muscle") if o.origin.startswith("named for the same need")
    ]
    for option in found:
        other = models[option.origin.rsplit(" ", 1)[1]]
        needs = [n for t in other.transitions for n in t.needs if isinstance(n, EnergyNeed | FlowNeed | MediumNeed)]
        assert any(option.text in need.instead for need in needs)
        assert {p.verb for p in other.purposes} & {p.verb for p in model.purposes}
