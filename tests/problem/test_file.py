"""Problem files: merged over the reading of their text; faults carry file, line and field."""

# ruff: noqa: E501 - tables of cases are easier to read whole

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from analog.errors import AnalogError, FormatError, InputError, UnknownTermError
from analog.problem.file import load_problem, overrule
from analog.problem.read import read_problem
from analog.vocabulary import Vocabulary

WHOLE = """\
text: remove dust from solar panels
given: [no water available, "particle size 5-50 um", "-30 degC"]
purposes:
  - {verb: export, object: sand, where: {relation: from, part: mirror}}
things:
  - {id: sand, kind: sand}
  - {id: mirror, name: heliostat mirror, kind: mirror}
initial: ["rests-on(sand, mirror)"]
objective: ["not rests-on(sand, mirror)"]
"""


def write(folder: Path, text: str, name: str = "problem.yaml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_the_file_overrules_its_text(tmp_path: Path, vocabulary: Vocabulary) -> None:
    problem = load_problem(write(tmp_path, WHOLE), vocabulary)
    assert problem.text == "remove dust from solar panels"
    assert [(p.verb, p.object) for p in problem.purposes] == [("export", "sand")]
    assert {t.id for t in problem.things} == {"sand", "mirror"}
    assert problem.initial == ("rests-on(sand, mirror)",)
    assert [c.type for c in problem.conditions] == ["absent", "range", "temperature"]


def test_a_text_alone_is_read(tmp_path: Path, vocabulary: Vocabulary) -> None:
    problem = load_problem(write(tmp_path, "text: keep ice off the wing\n"), vocabulary, given=["no electricity"])
    assert problem.purposes == read_problem("keep ice off the wing", (), vocabulary).purposes
    assert problem.conditions[0].kind == "electrical-energy"


def test_json_is_yaml_too(tmp_path: Path, vocabulary: Vocabulary) -> None:
    path = write(tmp_path, json.dumps({"text": "collect dew", "given": ["in the desert"]}), "problem.json")
    assert load_problem(path, vocabulary).purposes[0].object == "dew"


def test_purposes_without_text_declare_their_things(tmp_path: Path, vocabulary: Vocabulary) -> None:
    path = write(tmp_path, "purposes: [{verb: separate, object: dust, where: from solar panel}]\n")
    problem = load_problem(path, vocabulary)
    assert problem.thing("dust").kind == "dust"
    assert problem.initial == ("adheres-to(dust, solar-panel)",)


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("text: remove dust\nverbs: [a]\n", 2, "unknown field 'verbs'"),
        ("text: remove dust\nthings:\n  - {id: dust, kind: dustt}\n", 3, "Unknown kind 'dustt'.*dust"),
        ("purposes:\n  - {verb: cleanse-up, object: dust}\n", 2, "Unknown verb"),
        ("text: remove dust from panels\ninitial:\n  - nonsense\n", 3, "expected `relation"),
        ("text: remove dust from panels\ninitial:\n  - adheres-to(dust, moon)\n", 3, "'moon' is no thing"),
        ("text: remove dust from panels\ninitial:\n  - sits-on(dust, panel)\n", 3, "Unknown relation"),
        ("text: remove dust\ngiven:\n  - 5 flurbs\n", 3, "Unknown unit"),
        ("text: remove dust\ngiven: no water\n", 2, "expected a list"),
        ("text: [a]\n", 1, "expected text"),
        ("- a\n", 1, "expected a mapping"),
        ("given: [in air]\n", 1, "expected `text` or `purposes`"),
        ("text: xyzzy plugh\n", 1, "English"),
        ("text: !!python/object/apply:os.system ['true']\n", 1, "tags are not allowed"),
        ("a: &a [x, x]\nb: [*a, *a]\n", 1, "anchors and aliases"),
        ("text: 'unclosed\n", None, "not valid YAML"),
    ],
)
def test_faults_name_file_line_and_field(text, line, said, tmp_path, vocabulary) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(FormatError, match=said) as caught:
        load_problem(write(tmp_path, text), vocabulary)
    assert "problem.yaml" in str(caught.value)
    if line is not None:
        assert caught.value.line == line


def test_size_depth_and_encoding_are_bounded(tmp_path: Path, vocabulary: Vocabulary) -> None:
    with pytest.raises(FormatError, match="larger than"):
        load_problem(write(tmp_path, "text: " + "x" * 1_000_001), vocabulary)
    with pytest.raises(FormatError, match="nested deeper"):
        load_problem(write(tmp_path, "text: " + "[" * 200 + "]" * 200), vocabulary)
    path = tmp_path / "latin.yaml"
    path.write_bytes("text: remove dust\ngiven: [at 5 °C]\n".encode("latin-1"))
    with pytest.raises(FormatError, match="UTF-8") as caught:
        load_problem(path, vocabulary)
    assert caught.value.line == 2
    with pytest.raises(FormatError, match="cannot be read"):
        load_problem(tmp_path / "missing.yaml", vocabulary)


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.dictionaries(
        st.sampled_from(["text", "purposes", "things", "initial", "given", "conditions", "notes", "relations"]),
        st.recursive(
            st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12) | st.sampled_from(["dust", "remove dust", "separate"]),
            lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(["verb", "object", "where", "id", "kind", "type", "low"]), inner, max_size=4),
            max_leaves=8,
        ),
    )
)  # fmt: skip
def test_any_mapping_gives_a_problem_or_a_deliberate_error(
    tmp_path: Path, vocabulary: Vocabulary, data: dict[str, object]
) -> None:
    path = write(tmp_path, json.dumps(data))
    try:
        load_problem(path, vocabulary)
    except AnalogError as error:
        assert str(error)


def test_corrections(vocabulary: Vocabulary) -> None:
    problem = read_problem("remove dust from solar panels", (), vocabulary)
    options = {"verb": "prevent", "negated": "yes", "object": "snow", "where": "on roof"}
    changed = overrule(problem, options, vocabulary)
    purpose = changed.purposes[0]
    assert (purpose.verb, purpose.confidence, purpose.object, purpose.negated) == ("prevent", 1.0, "snow", True)
    assert (purpose.where.relation, purpose.where.part) == ("on", "roof")  # type: ignore[union-attr]
    assert {t.id for t in changed.things} == {"snow", "roof"}
    assert all("dust" not in fact for fact in (*changed.initial, *changed.objective))
    assert overrule(problem, {"kind": "sand"}, vocabulary).thing("dust").kind == "sand"
    assert overrule(problem, {"kind": "solar panel=mirror"}, vocabulary).thing("solar-panel").kind == "mirror"


def test_wrong_corrections_name_what_is_allowed(vocabulary: Vocabulary) -> None:
    problem = read_problem("remove dust from solar panels", (), vocabulary)
    with pytest.raises(UnknownTermError, match=r"Unknown verb 'clean'; nearest: .*separate"):
        overrule(problem, {"verb": "clean"}, vocabulary)
    with pytest.raises(UnknownTermError, match="Unknown kind"):
        overrule(problem, {"kind": "flurb"}, vocabulary)
    with pytest.raises(InputError, match="allowed: verb=…"):
        overrule(problem, {"colour": "red"}, vocabulary)
    with pytest.raises(InputError, match="negated=yes"):
        overrule(problem, {"negated": "perhaps"}, vocabulary)
