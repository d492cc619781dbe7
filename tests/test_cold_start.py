"""A search starts quickly because of what it does not import. Times are measured in benchmarks, not here."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from analog.api import Library

NEVER = (
    "torch",
    "transformers",
    "sentence_transformers",
    "nltk",
    "rdflib",
    "onnx",
    "matplotlib",
    "networkx",
    "jinja2",
    "bm25s",
    "ranx",
    "sklearn",
)
"""Needed to build an index or to write a brief, never to search."""

NOT_WITHOUT_NUMBERS = ("pint", "scipy")

CODE = """
import json, sys
sys.argv = ["analog", *json.loads(sys.argv[1])]
from analog.cli.main import run
try:
    run()
except SystemExit as stop:
    assert not stop.code, stop.code
print("\\n" + json.dumps(sorted({name.split(".")[0] for name in sys.modules})))
"""


def loaded_by(*arguments: str) -> set[str]:
    """Top-level modules that a command has imported by its end, in a fresh interpreter."""
    command = [sys.executable, "-c", CODE, json.dumps(arguments)]
    ran = subprocess.run(command, capture_output=True, text=True, check=True, timeout=120)
    return set(json.loads(ran.stdout.splitlines()[-1]))


@pytest.mark.parametrize(
    "arguments",
    [
        ("search", "remove dust from solar panels", "--json"),
        ("search", "keep ice off a rotor blade", "--given", "no water available", "--given", "-30 degC"),
        ("explain", "cat-tongue-papillae", "--problem", "wet the base of a carpet"),
        ("show", "cat-tongue-papillae"),
        ("compare", "cat-tongue-papillae", "gecko-toe-dry-self-cleaning", "--problem", "remove dust from solar panels"),
        ("link", "dust", "contaminant"),
    ],
    ids=lambda arguments: arguments[0],
)
def test_what_a_question_never_imports(library: Library, arguments: tuple[str, ...]) -> None:
    assert not loaded_by(*arguments) & set(NEVER)


def test_a_search_without_numbers_needs_no_units(library: Library) -> None:
    assert not loaded_by("search", "remove dust from solar panels") & set(NOT_WITHOUT_NUMBERS)


def test_the_package_itself_loads_nothing() -> None:
    code = "import sys, analog; print(sorted(n for n in sys.modules if n.startswith('analog.')))"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"


def test_help_and_version_open_no_index() -> None:
    for arguments in (("--help",), ("--version",), ("search", "--help")):
        assert not loaded_by(*arguments) & {"numpy", "onnxruntime", *NEVER, *NOT_WITHOUT_NUMBERS}
