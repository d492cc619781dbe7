"""A corpus of a few small models and a way to build its index without a trained encoder."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from analog.index import build
from analog.index.sources import Sources
from analog.vocabulary import Vocabulary

PATTERN = Path(__file__).with_name("pattern.yaml").read_text("utf-8")


@pytest.fixture(scope="session")
def small_vocabulary() -> Vocabulary:
    """The vocabulary without its part of WordNet, which takes long to read and plays no part here."""
    vocabulary = Vocabulary.from_sources()
    vocabulary._data["wordnet"] = {}
    return vocabulary


@pytest.fixture
def write_model() -> Callable[..., Path]:
    """Writes the pattern under another id, with other words in its title."""

    def write(folder: Path, identifier: str, title: str = "Hollow spines", **changes: object) -> Path:
        data = yaml.safe_load(PATTERN) | {"id": identifier, "title": title} | changes
        path = folder / f"{identifier}.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(yaml.safe_dump(data, allow_unicode=True), encoding="utf-8")
        return path

    return write


@pytest.fixture
def sources(tmp_path, small_vocabulary, monkeypatch, write_model) -> Sources:
    """Three models, no principle records, a vocabulary of one file, two example sentences."""
    monkeypatch.setattr(build, "fresh_vocabulary", lambda: small_vocabulary)
    for identifier, title in (("a-brush", "Brush of spines"), ("b-comb", "Comb of hairs"), ("c-wick", "Wicking gap")):
        write_model(tmp_path / "corpus", identifier, title)
    (tmp_path / "principles").mkdir()
    (tmp_path / "vocabulary").mkdir()
    (tmp_path / "vocabulary" / "kinds.ttl").write_text("# nothing\n")
    phrases = tmp_path / "phrases.tsv"
    phrases.write_text("text\tverb\nremove dust from panels\tseparate\nkeep ice off wings\tprevent\n", encoding="utf-8")
    return Sources(tmp_path / "corpus", tmp_path / "principles", tmp_path / "vocabulary", phrases)


@pytest.fixture
def target(tmp_path) -> Path:
    """Where the index goes."""
    return tmp_path / "index" / "current"


@pytest.fixture
def built(sources, target) -> Path:
    """An index of the three models."""
    build.build_index(sources.corpus, target, "hashing", sources=sources)
    return target
