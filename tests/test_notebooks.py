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
    code = [cell for cell in notebook.cells if cell.cell_type == "code"]
    # kept with the outputs of one run from top to bottom, so that it can be read without running it
    assert [cell.execution_count for cell in code] == list(range(1, len(code) + 1))
    assert not [
        out for cell in code for out in cell.outputs if out.output_type == "error" or out.get("name") == "stderr"
    ]
    nbclient.NotebookClient(notebook, timeout=120, resources={"metadata": {"path": str(path.parent)}}).execute()


def test_the_notebooks_are_numbered_without_a_gap_and_listed() -> None:
    assert [path.name[:2] for path in NOTEBOOKS] == [f"{number:02}" for number in range(1, len(NOTEBOOKS) + 1)]
    listed = (NOTEBOOKS[0].parent / "README.md").read_text(encoding="utf-8")
    assert all(f"`{path.name}`" in listed for path in NOTEBOOKS)
