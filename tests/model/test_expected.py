"""Expected questions: what is right is kept, and every wrong line is a finding with its place."""

from __future__ import annotations

from pathlib import Path

import pytest

from analog.errors import FormatError
from analog.model.expected import FILE_NAME, load_expected

MODELS = {"one", "two"}


def write(folder: Path, *lines: str) -> None:
    (folder / FILE_NAME).write_text("\n".join(["model\ttext", *lines]) + "\n", encoding="utf-8")


def test_sentences_are_kept_by_model(tmp_path: Path) -> None:
    write(tmp_path, "one\tKeep grit off a lens", "two\tMove slurry uphill", "one\tLenses get dirty")
    read = load_expected(tmp_path, MODELS)
    assert read.sentences == {"one": ("Keep grit off a lens", "Lenses get dirty"), "two": ("Move slurry uphill",)}
    assert read.findings == ()


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("one Keep grit off", "1 columns"),
        ("one\ta\tb", "3 columns"),
        ("one\t ", "2 columns"),
        ("three\tKeep grit off", "'three'"),
        ("one\t" + "x" * 300, "300 characters"),
        ("two\tLENSES get dirty", "the same sentence as"),
    ],
)
def test_a_wrong_line_is_a_finding_and_the_others_are_kept(tmp_path: Path, line: str, found: str) -> None:
    write(tmp_path, "one\tLenses get dirty", line)
    read = load_expected(tmp_path, MODELS)
    assert read.sentences == {"one": ("Lenses get dirty",)}
    assert [(f.line, f.rule) for f in read.findings] == [(3, "expected-question")]
    assert found in read.findings[0].found


def test_a_file_that_is_no_text_is_told(tmp_path: Path) -> None:
    (tmp_path / FILE_NAME).write_bytes(b"model\ttext\none\t\xff\n")
    with pytest.raises(FormatError, match="UTF-8"):
        load_expected(tmp_path, MODELS)
