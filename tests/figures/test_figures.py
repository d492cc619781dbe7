"""Every figure shows and tells what it should, within its edges, without one text on another."""

from __future__ import annotations

import itertools
import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace

import pytest

from analog.api import Library
from analog.errors import UsageError
from analog.explain.explanation import Explanation
from analog.model.facts import parse_fact
from analog.problem.types import Problem
from tests.figures.helpers import HOSTILE, hostile_model, lines_of, root_of, shows, size_of, words_of

pytest.importorskip("matplotlib")

from analog.explain.comparison import compare_under
from analog.figures.alignment import alignment
from analog.figures.change import before_after, change_between
from analog.figures.comparison import comparison
from analog.figures.course import course
from analog.figures.figure import Figure
from analog.figures.model_graph import model_graph, shown_of
from analog.figures.regime import regime, tick_words
from analog.figures.terms import ranking_terms

MODELS = (
    "mussel-byssus-anchor",
    "hatchetfish-counter-light",
    "orderly-cell-suicide",
    "window-plant-light-well",
    "mound-ventilation",
    "gas-vesicle-shell",
    "phosphagen-buffer",
    "acid-loop-gas-concentrator",
)
"""Models with many parts, long names, long steps or many facts."""


@pytest.fixture(scope="module")
def problem(library: Library) -> Problem:
    return library.read("remove dust from solar panels", ["no water available", "particle size 5-50 um"])


@pytest.fixture(scope="module")
def explained(library: Library, problem: Problem) -> dict[str, Explanation]:
    return {name: library.explain(name, problem) for name in (*MODELS, "lotus-leaf-rolling-drops")}


def neat(figure: Figure) -> None:
    """Nothing leaves the sheet and no text lies on another."""
    wide, high = size_of(figure)
    lines = [line for line in lines_of(figure) if line.text.strip()]
    assert lines
    for line in lines:
        assert line.left >= -0.5 and line.right <= wide + 0.5, line
        assert line.top >= -0.5 and line.bottom <= high + 0.5, line
        assert line.size >= 8
    for one, other in itertools.combinations(lines, 2):
        apart = (
            one.right <= other.left + 0.2
            or other.right <= one.left + 0.2
            or one.bottom <= other.top + 0.2
            or other.bottom <= one.top + 0.2
        )
        assert apart, (one, other)


@pytest.mark.parametrize("name", MODELS)
def test_before_and_after_tells_every_fact_of_both_states(library: Library, name: str) -> None:
    model = library.model(name)
    for purpose in model.purposes:
        figure = before_after(model, purpose)
        neat(figure)
        change = change_between(model.state(purpose.initial).parsed, model.state(purpose.objective).parsed)
        before = [old for old, _ in change.turned] + [*change.ended, *change.stayed]
        after = [new for _, new in change.turned] + [*change.begun, *change.stayed]
        assert sorted(map(str, before)) == sorted(map(str, model.state(purpose.initial).parsed))
        assert sorted(map(str, after)) == sorted(map(str, model.state(purpose.objective).parsed))
        for fact in (*before, *after):
            for part in fact.parts:
                assert shows(figure, model.part(part).name)
                assert model.part(part).name in figure.description


def test_a_fact_that_is_denied_afterwards_turns_and_one_that_is_repeated_stays() -> None:
    facts = [parse_fact(text) for text in ("adheres-to(dirt, leaf)", "dry(leaf)", "closed(pore)", "moving(air)")]
    later = [parse_fact(text) for text in ("not adheres-to(dirt, leaf)", "dry(leaf)", "open(pore)", "clean(leaf)")]
    change = change_between(facts, later)
    assert change.turned == ((facts[0], later[0]), (facts[2], later[2]))
    assert change.stayed == (facts[1],)
    assert change.ended == (facts[3],) and change.begun == (later[3],)


@pytest.mark.parametrize("name", MODELS)
def test_the_course_shows_states_steps_verdicts_and_reasons(explained: dict[str, Explanation], name: str) -> None:
    explanation = explained[name]
    figure = course(explanation)
    neat(figure)
    model = explanation.model
    steps = [transition for transition in model.transitions if transition.id in model.course]
    for text in (
        *(model.state(step.from_state).text for step in steps),
        *(model.state(step.to_state).text for step in steps),
        *(verdict.text for verdict in explanation.transitions),
        *(verdict.grounds[0].text for verdict in explanation.transitions),
    ):
        assert shows(figure, text[1:])  # its first letter may have become a capital
        assert text[1:].rstrip(".") in figure.description
    for verdict in explanation.transitions:
        assert shows(figure, verdict.verdict)


def test_verdicts_differ_without_colour(explained: dict[str, Explanation]) -> None:
    """By their words, by the sign in the mark, and by the style of its line; black, white and grey are all there is."""
    styles = set()
    figure = course(explained["lotus-leaf-rolling-drops"])
    for line in ("+", "?", "o", "x"):
        if any(text.text == line for text in lines_of(figure)):
            styles.add(line)
    assert len(styles) >= 3
    for element in root_of(figure).iter():
        style = element.get("style", "")
        for piece in style.split(";"):
            key, _, value = piece.partition(":")
            if key.strip() in {"fill", "stroke"} and value.strip().startswith("#"):
                red, green, blue = (value.strip()[i : i + 2] for i in (1, 3, 5))
                assert red == green == blue, value
    dashes = {e.get("style", "").partition("stroke-dasharray:")[2].split(";")[0] for e in root_of(figure).iter()}
    assert len(dashes) >= 3  # solid (none), dashed, dotted


@pytest.mark.parametrize("name", MODELS)
def test_every_part_and_thing_has_its_place_in_the_alignment(
    explained: dict[str, Explanation], problem: Problem, name: str
) -> None:
    explanation = explained[name]
    figure = alignment(explanation, problem)
    neat(figure)
    for part in explanation.model.parts:
        assert shows(figure, part.name) and part.name in figure.description
    for thing in problem.things:
        assert shows(figure, thing.name) and thing.name in figure.description
    for pair in explanation.correspondences:
        assert shows(figure, f"{pair.kind}, {pair.similarity:.2f}" if pair.kind else "the same role only")


@pytest.mark.parametrize("name", MODELS)
def test_the_graph_shows_every_part_and_every_structural_relation(library: Library, name: str) -> None:
    model = library.model(name)
    figure = model_graph(model)
    neat(figure)
    shown = shown_of(model)
    for part in model.parts:
        assert shows(figure, part.name) and part.name in figure.description
    for relation in shown.relations:
        assert shows(figure, relation.words)
    asked = {(fact.parts[0], other) for fact in model.parsed_structure for other in fact.parts[1:]}
    assert asked == {(relation.subject, relation.object) for relation in shown.relations if relation.standing}


def test_the_words_of_arrows_find_room_in_nearly_every_model_of_the_corpus(library: Library) -> None:
    """Where they do not, the arrow bears a number and the words stand below. Every sixteenth model is drawn."""
    told_below = [
        name
        for name in library.ids[::16]
        if any(line.text.startswith("1: ") for line in lines_of(model_graph(library.model(name))))
    ]
    assert len(told_below) <= 2, told_below


def test_terms_of_the_score_are_shown_with_their_numbers(explained: dict[str, Explanation]) -> None:
    chosen = list(explained.values())[:5]
    figure = ranking_terms(chosen)
    neat(figure)
    for explanation in chosen:
        assert shows(figure, explanation.model.title)
        assert f"{explanation.score:.2f}" in figure.description
        for value in explanation.scores.values():
            assert shows(figure, f"{value:.2f}")
    with pytest.raises(UsageError):
        ranking_terms([])


def test_candidates_stand_side_by_side(library: Library, problem: Problem, explained: dict[str, Explanation]) -> None:
    chosen = list(explained.values())[:5]
    compared = compare_under(problem, chosen, library.searcher.principles)
    for scale in (None, compared.scale):
        figure = comparison(chosen, scale)
        neat(figure)
        for explanation in chosen:
            assert shows(figure, explanation.model.title)
            for carry in explanation.carry_overs:
                assert shows(figure, carry.name) and carry.name in figure.description
    with pytest.raises(UsageError):
        comparison([])


def test_the_regime_is_drawn_with_values_bounds_and_what_is_missing() -> None:
    from analog.scale.evaluate import evaluate

    given = evaluate("capillary-adhesion", {"radius of curvature": "5 to 50 um", "bridge half height": "1 um"})
    nothing = evaluate("capillary-adhesion", {"radius of curvature": "2 um"})
    figure = regime({"asked by the engineer": given, "a second system with a long name": nothing})
    neat(figure)
    for text in ("asked by the engineer", "a second system with a long name", "a value is missing"):
        assert shows(figure, text) and text in figure.description
    for text in (given.groups[0].bound_text, "0.02 to 0.2"):  # r / R = 1 µm / 50 µm to 1 µm / 5 µm
        assert shows(figure, text) and text in figure.description
    nothing = replace(given, groups=tuple(replace(group, low=None, high=None) for group in given.groups))
    with pytest.raises(UsageError, match="missing quantities"):
        regime({"a system without a value": nothing})


def test_ticks_are_read_as_numbers() -> None:
    assert [tick_words(value) for value in (0.01, 1, 1000, 1e4, 2e-5)] == ["0.01", "1", "1000", "10⁴", "2·10⁻⁵"]


def hostile_figures(library: Library, problem: Problem) -> dict[str, Callable[[], Figure]]:
    model = hostile_model()
    name = f"{HOSTILE} thing"
    things = tuple(thing.model_copy(update={"name": name}) for thing in problem.things)
    asked = problem.model_copy(update={"text": HOSTILE, "things": things})
    real = library.explain("lotus-leaf-rolling-drops", problem)
    verdict = replace(
        real.transitions[0], id="step", text=HOSTILE, grounds=(replace(real.transitions[0].grounds[0], text=HOSTILE),)
    )
    pairs = tuple(
        replace(pair, part="grit", part_name=HOSTILE, thing_name=HOSTILE, kind=HOSTILE)
        for pair in real.correspondences[:1]
    )
    carries = tuple(replace(carry, part="pad", name=HOSTILE) for carry in real.carry_overs[:1])
    explanation = replace(real, model=model, transitions=(verdict,), correspondences=pairs, carry_overs=carries)
    return {
        "change": lambda: before_after(model),
        "graph": lambda: model_graph(model),
        "course": lambda: course(explanation),
        "alignment": lambda: alignment(explanation, asked),
        "terms": lambda: ranking_terms([explanation]),
        "comparison": lambda: comparison([explanation]),
    }


def test_hostile_names_are_shown_and_do_nothing(library: Library, problem: Problem) -> None:
    for name, draw in hostile_figures(library, problem).items():
        figure = draw()
        neat(figure)
        assert not [e for e in root_of(figure).iter() if e.tag.endswith("script")], name
        assert "<script" not in figure.svg
        assert "\x1b" not in figure.svg + figure.title + figure.description
        assert "<script>" in words_of(figure) and "$x_1$" in words_of(figure), name


def test_the_same_input_gives_the_same_bytes(
    library: Library, explained: dict[str, Explanation], problem: Problem
) -> None:
    explanation = explained["window-plant-light-well"]
    model = explanation.model
    for draw in (lambda: model_graph(model), lambda: alignment(explanation, problem)):
        one, other = draw(), draw()
        assert (one.title, one.description, one.svg, one.png) == (
            other.title,
            other.description,
            other.svg,
            other.png,
        )


def test_another_process_draws_the_same_bytes() -> None:
    """Whatever the seed of Python's hashes is."""
    code = (
        "import hashlib, sys\nfrom analog.model.types import Model\nfrom tests.model.sample import sample\n"
        "from analog.figures.model_graph import model_graph\nfigure = model_graph(Model.model_validate(sample()))\n"
        "print(hashlib.sha256(figure.svg.encode() + figure.png).hexdigest())"
    )
    found = {
        subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            env={**os.environ, "PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "2")
    }
    assert len(found) == 1


def test_without_matplotlib_it_is_told_what_to_install(monkeypatch: pytest.MonkeyPatch, library: Library) -> None:
    from analog.figures import sheet

    monkeypatch.setitem(sys.modules, "matplotlib", None)
    sheet.text_width.cache_clear()
    with pytest.raises(UsageError, match=r"pip install 'analog\[plot\]'"):
        before_after(library.model("mussel-byssus-anchor"))
