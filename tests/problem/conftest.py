"""The shipped vocabulary, read once for the room's tests."""

from __future__ import annotations

import pytest

from analog.vocabulary import Vocabulary


@pytest.fixture(scope="session")
def vocabulary() -> Vocabulary:
    return Vocabulary.from_sources()
