"""Running the command line inside the test's own process, as the entry point does."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass

import pytest

from analog.api import Library


@dataclass(frozen=True)
class Ran:
    """What a call gave."""

    status: int
    out: str
    err: str


Run = Callable[..., Ran]


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], library: Library) -> Run:
    """Call `analog` with arguments; the shipped index is ready (the `library` fixture builds it)."""

    def call(*arguments: str) -> Ran:
        from analog.cli.main import run as entry_point

        monkeypatch.setattr(sys, "argv", ["analog", *arguments])
        capsys.readouterr()
        status = 0
        try:
            entry_point()
        except SystemExit as stop:
            status = stop.code if isinstance(stop.code, int) else int(stop.code is not None)
        captured = capsys.readouterr()
        return Ran(status, captured.out, captured.err)

    return call
