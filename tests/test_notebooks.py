"""The notebooks run from top to bottom."""

from __future__ import annotations

from pathlib import Path

import pytest

from analog.api import Library

NOTEBOOKS = sorted((Path(__file__).parents[1] / "notebooks").glob("*.ipynb"))


@pytest.mark.filterwarnings("default")  # the kernel's own libraries warn of their futures
@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_notebook_runs(library: Library, path: Path) -> None:
    nbformat = pytest.importorskip("nbformat")
    nbclient = pytest.importorskip("nbclient")
    notebook = nbformat.read(path, as_version=4)
    assert all(not cell.get("outputs") for cell in notebook.cells), "kept without output"
    nbclient.NotebookClient(notebook, timeout=120, resources={"metadata": {"path": str(path.parent)}}).execute()
