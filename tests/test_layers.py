"""Dependencies point one way: a room imports only from itself and from rooms above it."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "analog"

ORDER = (
    "errors",
    "files",
    "locate",
    "model",
    "vocabulary",
    "problem",
    "encode",
    "index",
    "align",
    "scale",
    "rank",
    "explain",
    "figures",
    "show",
    "brief",
    "search",
    "api",
)
"""Rooms from the ground up. `cli` and `bench` stand on top; nobody imports them but `cli` the commands of `bench`."""

TOP = ("cli", "bench")

HEAVY = (
    "torch",
    "transformers",
    "sentence_transformers",
    "nltk",
    "rdflib",
    "pint",
    "matplotlib",
    "scipy",
    "networkx",
    "bm25s",
    "jinja2",
    "faiss",
    "onnx",
    "onnxruntime",
    "fluids",
    "ht",
    "chemicals",
    "CoolProp",
    "ranx",
    "sklearn",
    "pypandoc",
    "typst",
    "docx",
)
"""Imported where they are used, never at the top of a file: a search must not pay for them."""


def files() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def room(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imports(path: Path) -> Iterator[str]:
    """Every module named in an import, wherever it stands (a late import is a dependency too)."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            assert node.level == 0, f"{path}: relative import"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


@pytest.mark.parametrize("path", files(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_a_room_imports_only_from_rooms_above(path: Path) -> None:
    mine = room(path)
    if mine in TOP or mine in {"__init__", "__main__"}:
        return
    allowed = ORDER[: ORDER.index(mine) + 1]
    for name in imports(path):
        parts = name.split(".")
        if (
            parts[0] == "analog"
            and len(parts) > 1
            and (PACKAGE / parts[1]).exists() | (PACKAGE / f"{parts[1]}.py").exists()
        ):
            assert parts[1] in allowed, f"{path.name} in {mine} imports {name}"


@pytest.mark.parametrize("path", files(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_heavy_libraries_wait_until_they_are_used(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    top = [node for node in tree.body if isinstance(node, ast.Import | ast.ImportFrom)]
    for node in top:
        names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else [node.module or ""]
        for name in names:
            assert name.split(".")[0] not in HEAVY, f"{path} imports {name} at its top"


def test_the_order_names_every_room() -> None:
    rooms = {room(path) for path in files()} - {"__init__", "__main__"}
    assert rooms == set(ORDER) | set(TOP)
