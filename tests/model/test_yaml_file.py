"""YAML from strangers: nothing is executed, nothing grows, and every refusal names the file and the line."""

from __future__ import annotations

from pathlib import Path

import pytest

from analog.errors import FormatError
from analog.model.yaml_file import MAXIMUM_BYTES, load_yaml, parse_yaml


def refused(text: bytes | str) -> FormatError:
    with pytest.raises(FormatError) as caught:
        parse_yaml(text if isinstance(text, bytes) else text.encode(), "model.yaml")
    assert caught.value.path == "model.yaml"
    return caught.value


def test_aliases_that_would_multiply_are_refused_before_they_do() -> None:
    """The well-known expansion attack: nine levels of nine references (common practice, no source)."""
    bomb = "a: &a [x,x,x,x,x,x,x,x,x]\n" + "".join(
        f"{chr(98 + i)}: &{chr(98 + i)} [{','.join(['*' + chr(97 + i)] * 9)}]\n" for i in range(8)
    )
    assert "anchors and aliases" in refused(bomb).message


@pytest.mark.parametrize("tag", ["!!python/object/apply:os.system [id]", "!!binary aGk=", "!own x", "!!set {a, b}"])
def test_tags_are_refused(tag: str) -> None:
    error = refused(f"title: fine\nvalue: {tag}\n")
    assert "tags are not allowed" in error.message
    assert error.line == 2


def test_size_depth_repeats_and_encodings_are_bounded(tmp_path: Path) -> None:
    assert "nested deeper" in refused("[" * 50 + "]" * 50).message
    assert "twice" in refused("a: 1\na: 2\n").message
    assert "expected UTF-8" in refused(b"title: caf\xe9\n").message
    assert "empty" in refused("").message
    assert "digits" in refused("a: " + "9" * 5000).message
    big = tmp_path / "big.yaml"
    big.write_bytes(b"a: " + b"x" * MAXIMUM_BYTES)
    with pytest.raises(FormatError, match="larger than"):
        load_yaml(big)
    with pytest.raises(FormatError, match="cannot be read"):
        load_yaml(tmp_path / "missing.yaml")
    with pytest.raises(FormatError, match="cannot be read"):
        load_yaml(tmp_path)


@pytest.mark.parametrize("text", ["a: [1, 2", "a: b: c", "\tx: 1", "a: 'open", "{a: 1", "- a\nb: 2", "a: \x01"])
def test_broken_yaml_is_told_in_a_line(text: str) -> None:
    assert "not valid YAML" in refused(text).message


def test_plain_scalars_follow_the_core_schema_of_yaml_1_2() -> None:
    """YAML 1.2.2, section 10.3.2: on, no and yes are words; only true and false are truth values."""
    data, _ = parse_yaml(b"{a: on, b: no, c: true, d: 1e3, e: 0x10, f: ~, g: 2002-01-01, h: '1', i: .5}", "x")
    assert data == {
        "a": "on",
        "b": "no",
        "c": True,
        "d": 1000.0,
        "e": "0x10",
        "f": None,
        "g": "2002-01-01",
        "h": "1",
        "i": 0.5,
    }


def test_every_value_keeps_its_line() -> None:
    _, line_of = parse_yaml(b"a: 1\nb:\n  - x\n  - {c: 2,\n     d: 3}\n", "x")
    assert line_of(("b", 0)) == 3
    assert line_of(("b", 1, "d")) == 5
    assert line_of(("b", 1, "nothing", "there")) == 4
