"""Fixtures shared by rooms: the vocabulary read once, and the shipped corpus with its index built once."""

from __future__ import annotations

import pytest

from analog.api import Library, open_library
from analog.vocabulary.expand import Vocabulary


@pytest.fixture(scope="session")
def vocabulary() -> Vocabulary:
    """The vocabulary from its sources; WordNet is read only by tests that need it."""
    return Vocabulary.from_sources()


@pytest.fixture(scope="session")
def library() -> Library:
    """The shipped corpus with the packaged encoder; built by the first test in need of it."""
    return open_library()
