"""One vocabulary for all tests of this room: reading the sources takes about a second, WordNet several."""

from __future__ import annotations

import pytest

from analog.vocabulary import Vocabulary


@pytest.fixture(scope="session")
def words() -> Vocabulary:
    """The vocabulary as read from the sources."""
    return Vocabulary.from_sources()


@pytest.fixture(scope="session")
def baked(words: Vocabulary) -> Vocabulary:
    """The same after a trip through JSON."""
    import json

    return Vocabulary.from_baked(json.loads(json.dumps(words.bake())))
