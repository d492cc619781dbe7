"""What the docs say is what the program does."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest
import typer.main

from analog.api import Library
from analog.cli.main import app
from tests.docs_output import blocks, output_of

ROOT = Path(__file__).parents[1]
DOCS = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").glob("*.md"))]
COMMANDS = sorted(typer.main.get_command(app).commands)  # type: ignore[attr-defined]


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_is_in_the_readme_and_explains_itself(command: str) -> None:
    assert f"`analog {command}" in (ROOT / "README.md").read_text(encoding="utf-8")
    callback = typer.main.get_command(app).commands[command]  # type: ignore[attr-defined]
    assert callback.help and len(callback.help) > 20
    for parameter in callback.params:
        assert getattr(parameter, "help", None), f"{command} {parameter.name}"


@pytest.mark.parametrize(("command", "shown"), blocks((ROOT / "README.md").read_text(encoding="utf-8")))
def test_the_readme_shows_what_the_program_prints(library: Library, command: str, shown: str) -> None:
    """`sh scripts/docs` writes it anew."""
    assert output_of(command) == shown


@pytest.mark.parametrize("path", DOCS, ids=lambda path: path.name)
def test_links_between_docs_lead_somewhere(path: Path) -> None:
    for target in re.findall(r"\]\(([^)#:]+)\)", path.read_text(encoding="utf-8")):
        assert (path.parent / target).exists(), target


def test_the_python_of_the_readme_runs(library: Library) -> None:
    code = re.search(r"```python\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    assert code is not None
    ran = subprocess.run([sys.executable, "-c", code[1]], capture_output=True, text=True, check=True)
    assert ran.stdout.startswith("1 ")


def test_ci_runs_the_command_of_the_readme() -> None:
    assert "sh scripts/test" in (ROOT / "README.md").read_text(encoding="utf-8")
    lines = (ROOT / ".ci/run").read_text(encoding="utf-8").splitlines()
    assert lines[-1] == "sh scripts/test"
