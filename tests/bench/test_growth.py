"""The corpus of the first view: its models, the sentences expected for them, and nothing else."""

from __future__ import annotations

from pathlib import Path

from analog.bench.growth import first_corpus
from analog.bench.problems import judged_models
from analog.locate import corpus_folder
from analog.model.expected import load_expected
from analog.model.load import load_corpus


def test_the_first_models_are_copied_with_their_sentences(tmp_path: Path) -> None:
    corpus = corpus_folder()
    files = {path.stem: str(path.relative_to(corpus)) for path in corpus.rglob("*.yaml")}
    first_corpus(corpus, tmp_path, files)
    models = {model.id for model in load_corpus(tmp_path).models}
    assert models == judged_models()
    expected = load_expected(tmp_path, models)
    assert not expected.findings
    assert set(expected.sentences) == models
