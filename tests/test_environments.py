"""Other places to run in: closed pipes, no home, nothing to write in, other locales; and what the wheel holds."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from analog.api import Library
from analog.locate import checkout, corpus_folder, index_folder

DUST = "remove dust from solar panels"

COMMANDS: tuple[tuple[str, ...], ...] = (
    ("search", DUST),
    ("search", DUST, "--json"),
    ("explain", "cat-tongue-papillae", "--problem", DUST),
    ("show", "cat-tongue-papillae"),
    ("compare", "cat-tongue-papillae", "gecko-toe-dry-self-cleaning"),
    ("link", "dust", "contaminant"),
    ("scale", "capillary-rise"),
    ("check", str(corpus_folder() / "grooming" / "cat-tongue-papillae.yaml")),
    ("schema",),
    ("--version",),
    ("--help",),
    ("search", "--help"),
)

FORKS = """
import json, os, sys
import analog.cli.main as entry
import analog.cli.render, analog.index.build, analog.model.check, analog.search  # once, and not in every child

how, commands = json.loads(sys.argv[1])
told = []
for arguments in commands:
    noise, status = os.pipe()
    child = os.fork()
    if child == 0:
        os.dup2(status, 2)
        if how == "reader gone":
            reader, writer = os.pipe()
            os.close(reader)
            os.dup2(writer, 1)
        elif how == "full":
            os.dup2(os.open("/dev/full", os.O_WRONLY), 1)
        sys.argv = ["analog", *arguments]
        sys.stdout = None if how == "closed" else open(1, "w", encoding="utf-8", closefd=False)
        code = 0
        try:
            entry.run()
        except SystemExit as stop:
            code = stop.code or 0
        except BaseException as fault:
            os.write(2, f"Traceback: {fault!r}".encode())
            code = 99
        try:
            if sys.stdout is not None:
                sys.stdout.flush()  # as the interpreter does at its end
        except BaseException as fault:
            os.write(2, f"at the end: {fault!r}".encode())
        os._exit(code)
    os.close(status)
    with os.fdopen(noise) as file:
        error = file.read()
    told.append([arguments, os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), error])
print(json.dumps(told))
"""


def surroundings(**changes: str | None) -> dict[str, str]:
    """The environment with changes; None takes a variable away. Corpus and index are those of the tests."""
    whole = {**os.environ, "ANALOG_CORPUS": str(corpus_folder()), "ANALOG_INDEX": str(index_folder())}
    return {name: value for name, value in {**whole, **changes}.items() if value is not None}


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
@pytest.mark.parametrize("how", ["reader gone", "closed", "full"])
def test_every_printing_command_with_a_standard_output_that_takes_nothing(library: Library, how: str) -> None:
    """A reader that has gone (`| head -1`) and a closed output are no fault; a full disk is told in a line.

    Common practice: a program whose reader goes ends quietly (POSIX gives it SIGPIPE for that).
    """
    if how == "full" and not Path("/dev/full").exists():
        pytest.skip("no such device on this system")
    ran = subprocess.run(
        [sys.executable, "-c", FORKS, json.dumps([how, COMMANDS if how == "reader gone" else COMMANDS[::3]])],
        capture_output=True,
        text=True,
        check=True,
        timeout=300,
        env=surroundings(PYTHONUNBUFFERED=None),
    )
    for arguments, status, error in json.loads(ran.stdout):
        if how == "full":
            assert (status, error) == (1, "analog: cannot read or write: No space left on device\n"), arguments
        else:
            assert (status, error) == (0, ""), arguments


def analog(*arguments: str, **changes: str | None) -> subprocess.CompletedProcess[str]:
    """A fresh interpreter with `analog` in it."""
    command = [sys.executable, "-m", "analog", *arguments]
    return subprocess.run(command, capture_output=True, text=True, timeout=300, env=surroundings(**changes))


def test_a_search_leaves_nothing_in_home_and_cache(library: Library, tmp_path: Path) -> None:
    """Neither the program nor a library under it (onnxruntime keeps a number for its reports) writes there."""
    home, cache = tmp_path / "home", tmp_path / "cache"
    home.mkdir()
    cache.mkdir()
    ran = analog("search", DUST, "--top", "1", HOME=str(home), XDG_CACHE_HOME=str(cache), ORT_DISABLE_TELEMETRY=None)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert [path.name for path in (*home.rglob("*"), *cache.rglob("*"))] == []


def test_a_search_without_home_and_cache(library: Library) -> None:
    """No home, a cache folder that cannot be made, a terminal that can do nothing, a locale that is not installed."""
    bare = {"HOME": None, "XDG_CACHE_HOME": "/dev/null/x", "TERM": "dumb", "NO_COLOR": "1", "LC_ALL": "de_DE.UTF-8"}
    ran = analog("search", DUST, "--top", "1", **bare)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert "1. " in ran.stdout


def test_a_plain_locale(library: Library) -> None:
    """LC_ALL=C and a standard output of ASCII alone: JSON stays JSON, with numbers as everywhere."""
    ran = analog("search", DUST, "--top", "3", "--json", LC_ALL="C", PYTHONIOENCODING="ascii")
    assert (ran.returncode, ran.stderr) == (0, "")
    assert ran.stdout.isascii()
    assert len(json.loads(ran.stdout)["results"]) == 3


def test_an_index_that_can_be_written_nowhere_is_told(tmp_path: Path) -> None:
    """In one line, with the place."""
    (tmp_path / "file").write_text("x")
    ran = analog("search", DUST, ANALOG_INDEX=str(tmp_path / "file" / "index"))
    assert ran.returncode == 1
    assert ran.stdout == ""
    assert ran.stderr.startswith("analog: the index cannot be written: ") and ran.stderr.count("\n") == 1


# The wheel ---------------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    """Names of the files in the wheel, built by the build backend of the project."""
    backend = pytest.importorskip("hatchling.builders.wheel", reason="the build backend is in the extra `test`")
    root = checkout()
    if root is None:
        pytest.skip("there is nothing to build from beside an installed package")
    folder = tmp_path_factory.mktemp("wheel")
    (built,) = backend.WheelBuilder(str(root)).build(directory=str(folder), versions=["standard"])
    with zipfile.ZipFile(built) as file:
        return file.namelist()


def beside(folder: Path, pattern: str, inside: str) -> set[str]:
    """Names that the files of a folder of the checkout have in the wheel."""
    return {f"{inside}/{path.relative_to(folder).as_posix()}" for path in folder.rglob(pattern) if path.is_file()}


def test_the_wheel_holds_all_that_the_program_reads(wheel: list[str]) -> None:
    root = checkout()
    assert root is not None
    package = root / "analog"
    wanted = beside(root / "corpus", "*", "analog/_corpus")
    for folder, pattern in (
        ("scale/principles", "*.yaml"),
        ("vocabulary/data", "*.ttl"),
        ("vocabulary/data/wordnet", "*"),
        ("brief/templates", "*"),
        ("problem/data", "*"),
        (".", "*.py"),
    ):
        found = beside(package / folder, pattern, f"analog/{folder}".removesuffix("/."))
        assert found, folder
        wanted |= {name for name in found if "__pycache__" not in name}
    assert wanted <= set(wheel), sorted(wanted - set(wheel))[:5]


def test_the_wheel_holds_both_licences_and_nothing_else_of_the_checkout(wheel: list[str]) -> None:
    """The WordNet licence asks that its notice stays with every copy."""
    assert "analog/vocabulary/data/wordnet/LICENSE" in wheel
    assert any(name.endswith(".dist-info/licenses/LICENSE") for name in wheel)
    assert any(name.endswith(".dist-info/licenses/analog/vocabulary/data/wordnet/LICENSE") for name in wheel)
    tops = {name.split("/")[0] for name in wheel}
    assert {top for top in tops if not top.endswith(".dist-info")} == {"analog"}
    assert not [name for name in wheel if name.endswith((".pyc", ".npy", ".lock")) or "/tests/" in name]
