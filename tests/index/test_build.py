"""What a build makes, what it takes over from the last one, and what it leaves out."""

import json
import os

import numpy as np
import pytest
import yaml

from analog.encode.fake import HashingEncoder
from analog.errors import FormatError, UnknownTermError
from analog.index import build
from analog.index.build import build_index, ensure_index
from analog.index.store import is_stale, open_index, verify
from analog.model.types import Model
from analog.vocabulary import Vocabulary


def rebuilt(sources, target, **options):
    return build_index(sources.corpus, target, "hashing", sources=sources, **options)


def test_the_index_holds_the_models_as_they_were_written(sources, built):
    """Every model comes back equal to what its file says, each by itself."""
    index = open_index(built)
    verify(index)
    assert index.ids == ("a-brush", "b-comb", "c-wick")
    for identifier, file in zip(index.ids, index.files, strict=True):
        written = Model.model_validate(yaml.safe_load((sources.corpus / file).read_text("utf-8")))
        assert index.model(identifier) == written
    with pytest.raises(UnknownTermError, match="nearest: a-brush"):
        index.model("a-brus")


def test_the_index_finds_a_model_by_vector_and_by_word(built):
    """The title of one model leads to it in both ways; the text that matched can be shown."""
    index = open_index(built)
    query = index.encoder.encode(["Comb of hairs"])[0]
    hits = index.dense.search("summary", query, 3)
    assert index.ids[hits.models[0]] == "b-comb"
    _, texts = index.dense.score("summary", query, hits.models[:1])
    assert index.text(int(texts[0])).startswith("Comb of hairs.")
    assert index.ids[int(index.lexical.scores(["comb"]).argmax())] == "b-comb"


def test_vectors_are_those_of_the_texts(built):
    """Row n of the vectors is what the encoder makes of text n."""
    index = open_index(built)
    texts = [index.text(n) for n in range(len(index.texts))]
    np.testing.assert_allclose(index.dense.vectors, HashingEncoder().encode(texts), atol=1e-6)


def test_example_sentences_are_kept_with_their_labels(built):
    """All columns, and one vector a sentence."""
    rows, vectors = open_index(built).phrases
    assert rows[1] == {"text": "keep ice off wings", "verb": "prevent"}
    np.testing.assert_allclose(vectors, HashingEncoder().encode([row["text"] for row in rows]), atol=1e-6)


def test_nothing_changed_nothing_encoded(sources, built):
    """A second build reads no model file, encodes no text and gives the same vectors."""
    before = np.array(open_index(built).dense.vectors)
    result = rebuilt(sources, built)
    assert (result.read, result.encoded, result.kept) == (0, 0, 3)
    np.testing.assert_array_equal(open_index(built).dense.vectors, before)


def test_one_changed_question_costs_one_text(sources, built, write_model):
    """One file is read and one text encoded; the others are taken over, and the result equals a build from nothing."""
    path = sources.corpus / "b-comb.yaml"
    data = yaml.safe_load(path.read_text("utf-8"))
    data["questions"][0]["text"] = "What meters a powder without a valve?"
    path.write_text(yaml.safe_dump(data), encoding="utf-8")
    result = rebuilt(sources, built)
    assert (result.read, result.kept, result.encoded) == (1, 2, 1)
    fresh = built.with_name("fresh")
    rebuilt(sources, fresh)
    for file in ("dense/vectors.npy", "dense/pair-texts.npy", "lexical/bm25-data.npy", "models.jsonl", "texts.jsonl"):
        assert (built / file).read_bytes() == (fresh / file).read_bytes(), file


def test_another_encoder_means_new_vectors(sources, built, monkeypatch):
    """Vectors of one encoder are never mixed with those of another."""
    monkeypatch.setattr(build, "identify", lambda name: ("hashing", "hashing-2"))
    result = rebuilt(sources, built)
    assert result.reused == 0
    assert result.encoded > 0


def test_a_new_kind_does_not_mean_reading_the_dictionary_again(sources, built, small_vocabulary, monkeypatch):
    """The part from WordNet is taken over unless its own sources have changed; the rest is read again."""
    vocabulary = Vocabulary.from_sources()
    monkeypatch.setattr(build, "fresh_vocabulary", lambda: vocabulary)
    monkeypatch.setattr("analog.vocabulary.expand.build_blocks", lambda: {"nouns": "read again"})
    (sources.vocabulary / "kinds.ttl").write_text("# a new kind\n")
    rebuilt(sources, built)
    assert open_index(built).vocabulary["wordnet"] == {}
    (sources.vocabulary / "wordnet.py").write_text("# another selection\n")
    vocabulary = Vocabulary.from_sources()
    rebuilt(sources, built)
    assert open_index(built).vocabulary["wordnet"] == {"nouns": "read again"}


def test_models_with_errors_are_left_out_and_listed(sources, target, write_model):
    """A file that is no model, one that breaks a rule, and a second file with the same id."""
    (sources.corpus / "broken.yaml").write_text("id: [\n", encoding="utf-8")
    write_model(sources.corpus, "no-course", course=["fill", "soak"])
    path = write_model(sources.corpus / "again", "a-brush")
    result = rebuilt(sources, target)
    reasons = dict(result.skipped)
    assert {"broken.yaml", "no-course.yaml", "again/a-brush.yaml"} <= set(reasons)
    assert "course" in reasons["no-course.yaml"]
    assert {"b-comb", "c-wick"} <= set(open_index(target).ids)
    assert "broken.yaml" in dict(open_index(target).manifest.skipped)
    assert path.is_file()


def test_an_empty_corpus_gives_an_empty_index(sources, target):
    """Nothing is found, and nothing fails."""
    for path in sources.corpus.iterdir():
        path.unlink()
    assert rebuilt(sources, target).models == 0
    index = open_index(target)
    assert index.dense.search("purposes", index.encoder.encode(["dust"])[0], 5).models.size == 0
    assert index.lexical.scores(["dust"]).size == 0


def test_progress_reaches_its_end(sources, target):
    """Done never exceeds total, and every stage ends at its total."""
    seen = []
    rebuilt(sources, target, progress=lambda *report: seen.append(report))
    last = {stage: (done, total) for stage, done, total in seen}
    assert {"models", "encoder", "encode"} <= set(last)
    assert all(done == total for done, total in last.values())


def test_sentences_without_a_text_column_are_refused(sources, target):
    """The error names the column."""
    sources.phrases.write_text("sentence\nremove dust\n", encoding="utf-8")
    with pytest.raises(FormatError, match="expected a column `text`, found sentence"):
        rebuilt(sources, target)


def test_staleness_names_its_reason(sources, built, write_model):
    """A touched file is not stale, for its contents decide; a changed, a new or a lost one is."""
    index = open_index(built)
    path = sources.corpus / "a-brush.yaml"
    assert is_stale(index, sources.corpus, sources) is None
    os.utime(path, (1, 1))
    assert is_stale(index, sources.corpus, sources) is None
    text = path.read_text("utf-8")
    path.write_text(text.replace("hollow", "hallow"), encoding="utf-8")
    assert is_stale(index, sources.corpus, sources) == "corpus file a-brush.yaml has changed"
    path.write_text(text, encoding="utf-8")
    extra = write_model(sources.corpus, "d-new")
    assert is_stale(index, sources.corpus, sources) == "corpus file d-new.yaml is new"
    extra.unlink()
    (sources.vocabulary / "kinds.ttl").unlink()
    assert is_stale(index, sources.corpus, sources) == "vocabulary file kinds.ttl is gone"


def test_ensure_builds_only_when_needed(sources, target):
    """Missing: built. Fitting: opened. Stale: built again with the same encoder. Damaged: built again."""
    told = []

    def ensure(**options):
        told.clear()
        return ensure_index(sources.corpus, target, sources=sources, tell=told.append, **options)

    assert len(ensure(encoder_name="hashing").ids) == 3
    assert "no index at" in told[0]
    ensure()
    assert told == []
    (sources.corpus / "c-wick.yaml").unlink()
    index = ensure()
    assert index.ids == ("a-brush", "b-comb")
    assert index.manifest.encoder["name"] == "hashing"
    assert "c-wick.yaml is gone" in told[0]
    (target / "names.json").write_text("[]")
    assert len(ensure(encoder_name="hashing").ids) == 2
    assert "damaged" in told[0]


def test_a_stale_index_that_cannot_be_renewed_is_used_with_a_warning(sources, built, monkeypatch):
    """A search on a read-only disk goes on with what there is."""
    (sources.corpus / "c-wick.yaml").unlink()

    def full(*arguments, **options):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(build, "build_lexical", full)
    with pytest.warns(UserWarning, match="out of date.*the disk is full"):
        index = ensure_index(sources.corpus, built, sources=sources)
    assert len(index.ids) == 3


def test_the_manifest_says_what_the_index_is(built):
    """Versions, encoder, counts and a hash for every file."""
    manifest = json.loads((built / "manifest.json").read_text("utf-8"))
    files = {path.relative_to(built).as_posix() for path in built.rglob("*") if path.is_file()}
    assert set(manifest["files"]) == files - {"manifest.json"}
    assert manifest["encoder"] == {"name": "hashing", "hash": "hashing-1"}
    assert manifest["counts"]["models"] == 3
    assert manifest["libraries"]["numpy"] == np.__version__
