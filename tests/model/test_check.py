"""Every rule of the checker: a sound model passes, and each fault is its own finding at its own place."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml

from analog.model.check import CORPUS_RULES, MODEL_RULES, check_corpus
from analog.model.findings import Finding, KnownTerms
from analog.model.load import load_corpus
from tests.model.sample import sample

TERMS = KnownTerms(
    verbs=frozenset({"separate", "remove", "export"}),
    flows=frozenset({"particulate", "mechanical-energy"}),
    kinds=frozenset({"sand", "pad", "dust"}),
    relations=frozenset({"adheres-to", "part-of"}),
    principles=frozenset({"peeling"}),
    symbols={"peeling": {"width": "m", "share": "dimensionless"}},
)

Spoil = Callable[[dict[str, Any]], object]


def findings_of(folder: Path, *models: dict[str, Any]) -> list[Finding]:
    for model in models:
        (folder / f"{model['id']}.yaml").write_text(yaml.safe_dump(model, sort_keys=False))
    return check_corpus(load_corpus(folder), TERMS)


def errors(findings: list[Finding]) -> list[Finding]:
    return [finding for finding in findings if finding.severity == "error"]


def test_a_sound_model_has_no_error(tmp_path: Path) -> None:
    assert errors(findings_of(tmp_path, sample())) == []


def _step(model: dict[str, Any]) -> dict[str, Any]:
    return model["transitions"][0]  # type: ignore[no-any-return]


def _value(**change: Any) -> Spoil:
    """The only reason is peeling, with a value of its width; `change` spoils it."""
    value = {"symbol": "width", "value": 1, "unit": "mm", "source": "memory", "from_memory": True, **change}
    reason = {"type": "principle", "principle": "peeling", "note": "x", "values": [value]}
    return lambda m: _step(m).update(reasons=[reason])


def _only_reason(**reason: str) -> Spoil:
    return lambda m: _step(m).update(reasons=[{"note": "x", **reason}])


IDLE_STATE = {"id": "idle", "text": "x", "facts": ["adheres-to(grit, pad)"]}
SPOILT: list[tuple[str, str, Spoil]] = [
    ("no-transition", "transitions", lambda m: m.update(transitions=[], course=[])),
    ("no-reason", "transitions[0]", lambda m: _step(m).update(reasons=[])),
    ("objective-not-reached", "purposes[0].objective", lambda m: _step(m).update({"from": "clean", "to": "dirty"})),
    ("part-unused", "parts[2]", lambda m: m["parts"].append({"id": "idle", "name": "idle", "kind": "dust"})),
    ("undeclared-part", "states[0].facts[0]", lambda m: m["states"][0].update(facts=["adheres-to(grid, pad)"])),
    ("unknown-verb", "purposes[0].verb", lambda m: m["purposes"][0].update(verb="clean")),
    ("unknown-flow", "purposes[0].flow", lambda m: m["purposes"][0].update(flow="grit")),
    ("unknown-kind", "parts[0].kind", lambda m: m["parts"][0].update(kind="grime")),
    ("unknown-principle", "transitions[0].reasons[0].principle", _only_reason(type="principle", principle="magic")),
    ("unknown-unit", "sizes[0].unit", lambda m: m["sizes"][0].update(unit="parrots")),
    ("unknown-relation", "structure[0]", lambda m: m.update(structure=["hugs(pad, grit)"])),
    ("source-uncited", "sources[1]", lambda m: m["sources"].append({"key": "idle", "type": "memory", "title": "x"})),
    ("unknown-source", "sizes[0].source", lambda m: m["sizes"][0].update(source="nobody")),
    ("memory-unmarked", "sizes[0]", lambda m: m["sizes"][0].update(from_memory=False)),
    ("unknown-state", "transitions[0].to", lambda m: _step(m).update(to="gone")),
    ("state-unused", "states[2]", lambda m: m["states"].append(IDLE_STATE)),
    ("course", "course", lambda m: m.update(course=[])),
    ("repeated-id", "parts[2]", lambda m: m["parts"].append(dict(m["parts"][0]))),
    (
        "structure-not-stated",
        "transitions[0].reasons[0].fact",
        _only_reason(type="structure", fact="part-of(grit, pad)"),
    ),
    ("unknown-sub-purpose", "transitions[0].reasons[0].purpose", _only_reason(type="sub-purpose", purpose="none")),
    ("unknown-symbol", "transitions[0].reasons[0].values[0].symbol", _value(symbol="height")),
    ("unit-of-symbol", "transitions[0].reasons[0].values[0].unit", _value(unit="s")),
    ("no-change", "purposes[0]", lambda m: m["states"][1].update(facts=["adheres-to(grit, pad)"])),
]


def test_a_value_of_a_symbol_is_checked_like_any_other(tmp_path: Path) -> None:
    faults = {}
    for name, change in {
        "sound": {},
        "unknown-unit": {"unit": "parrots"},
        "unknown-source": {"source": "nobody"},
        "memory-unmarked": {"from_memory": False},
        "undeclared-part": {"part": "nobody"},
    }.items():
        spoilt = sample()
        _value(**change)(spoilt)
        faults[name] = [finding.rule for finding in errors(findings_of(tmp_path, spoilt))]
    assert faults == {name: [name] if name != "sound" else [] for name in faults}


@pytest.mark.parametrize(("rule", "field", "spoil"), SPOILT, ids=[rule for rule, _, _ in SPOILT])
def test_each_fault_is_its_own_finding(tmp_path: Path, rule: str, field: str, spoil: Spoil) -> None:
    """File, line, field, found, expected and how to mend it are all there."""
    model = sample()
    spoil(model)
    found = [f for f in errors(findings_of(tmp_path, model)) if f.rule == rule]
    assert field in [f.field for f in found]
    for finding in found:
        assert finding.file.endswith("sample.yaml")
        assert finding.line and finding.line >= 1
        assert finding.found and finding.expected and finding.mend


def test_nearest_terms_are_offered(tmp_path: Path) -> None:
    model = sample()
    model["purposes"][0]["verb"] = "seperate"
    assert "separate" in errors(findings_of(tmp_path, model))[0].expected


def with_sub_purpose(name: str, below: str) -> dict[str, Any]:
    model = sample()
    model["id"] = name
    model["sub_purposes"] = [
        {"id": "sub", "text": "x", "verb": "separate", "flow": "particulate", "object": "grit", "model": below}
    ]
    model["transitions"][0]["reasons"].append({"type": "sub-purpose", "purpose": "sub", "note": "x"})
    return model


def test_a_circle_of_sub_purposes_is_found_from_each_of_its_models(tmp_path: Path) -> None:
    found = errors(findings_of(tmp_path, with_sub_purpose("one", "two"), with_sub_purpose("two", "one")))
    assert [f.rule for f in found] == ["sub-purpose-cycle", "sub-purpose-cycle"]
    assert found[0].found == "one -> two -> one"


def test_a_sub_purpose_names_a_model_of_the_corpus(tmp_path: Path) -> None:
    found = errors(findings_of(tmp_path, with_sub_purpose("one", "nowhere")))
    assert [(f.rule, f.field) for f in found] == [("unknown-model", "sub_purposes[0].model")]


def test_roles_name_parts_of_both_models(tmp_path: Path) -> None:
    parent = with_sub_purpose("one", "sample")
    parent["sub_purposes"][0]["roles"] = {"grit": "grain", "nothing": "pad"}
    found = errors(findings_of(tmp_path, parent, sample()))
    assert {f.field for f in found} == {"sub_purposes[0].roles.grit", "sub_purposes[0].roles.nothing"}


def test_a_file_is_named_like_its_model(tmp_path: Path) -> None:
    (tmp_path / "other.yaml").write_text(yaml.safe_dump(sample()))
    assert [f.rule for f in errors(check_corpus(load_corpus(tmp_path), TERMS))] == ["file-name"]


def test_two_files_of_one_model_are_reported(tmp_path: Path) -> None:
    for folder in ("a", "b"):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "sample.yaml").write_text(yaml.safe_dump(sample()))
    assert [f.rule for f in errors(check_corpus(load_corpus(tmp_path), TERMS))] == ["repeated-model"]


@pytest.mark.parametrize(
    ("spoil", "field", "found"),
    [
        (lambda m: m["parts"][0].update(colour="red"), "parts[0].colour", "str 'red'"),
        (lambda m: m.pop("title"), "title", "nothing"),
        (lambda m: m["sizes"][0].update(value="thick"), "sizes[0].value", "str 'thick'"),
        (lambda m: m["states"][0].update(facts=["adheres"]), "states[0].facts[0]", "str 'adheres'"),
        (lambda m: m["transitions"][0]["needs"][0].update(energy=7), "transitions[0].needs[0].energy", "int '7'"),
    ],
)
def test_a_wrong_field_is_told_with_its_place(tmp_path: Path, spoil: Spoil, field: str, found: str) -> None:
    """A file that is no model at all is a finding too, and the other files are still read."""
    model = sample()
    spoil(model)
    other = sample()
    other["id"] = "other"
    findings = errors(findings_of(tmp_path, model, other))
    assert [(f.rule, f.field, f.found) for f in findings] == [("format", field, found)]
    assert len(load_corpus(tmp_path).files) == 1


def test_non_finite_numbers_are_refused(tmp_path: Path) -> None:
    model = sample()
    text = yaml.safe_dump(model).replace("value: 1", "value: 1e999")
    (tmp_path / "sample.yaml").write_text(text)
    assert [f.rule for f in errors(check_corpus(load_corpus(tmp_path), TERMS))] == ["format"]


def test_every_rule_is_documented() -> None:
    for rule in (*MODEL_RULES, *CORPUS_RULES):
        assert rule.__doc__ and len(rule.__doc__) > 20
