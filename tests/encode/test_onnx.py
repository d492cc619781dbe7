"""The exported encoder gives the vectors of sentence-transformers (the reference library for these models)."""

import json

import numpy as np
import pytest

from analog.encode.onnx import FILES, POOLINGS, SETTINGS, OnnxEncoder
from analog.encode.stored import identify, open_encoder, store_encoder
from analog.errors import IndexStateError, UsageError

TEXTS = [
    "",
    " ",
    "dust",
    "Dust",
    "remove dust from solar panels",
    "  How can we keep ice\toff\nwings at −30 °C?  ",
    "Größenänderung naïve café ÅÄÖ",
    "除去太阳能电池板上的灰尘",
    "🌵🦎 emoji and\u200bzero width\u00a0spaces",
    "a" * 300,
    "[SEP] [MASK] [CLS] special words in the text [PAD]",
    "dust " * 254,
    "dust " * 255,
    "dust and sand on glass " * 400,
]


@pytest.fixture(scope="module")
def original():
    from analog.encode.sentence import SentenceEncoder, find_encoder

    return SentenceEncoder(find_encoder().folder)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    target = tmp_path_factory.mktemp("encoder")
    _, warnings = store_encoder(None, target)
    assert warnings == ()
    return target


@pytest.mark.parametrize("prepack", [False, True])
def test_vectors_equal_those_of_sentence_transformers(original, folder, prepack):
    """Largest difference in a coordinate below 1e-4 and cosine within 1e-4 of 1, in a batch and alone."""
    expected = original.encode(TEXTS)
    encoder = open_encoder(folder, prepack=prepack)
    for found in (encoder.encode(TEXTS), np.concatenate([encoder.encode([text]) for text in TEXTS])):
        assert np.abs(found - expected).max() < 1e-4
        assert ((found * expected).sum(axis=1) > 1 - 1e-4).all()
        np.testing.assert_allclose(np.linalg.norm(found, axis=1), 1, atol=1e-5)
        assert found.dtype == np.float32


def test_text_beyond_the_longest_length_is_cut(folder):
    """MiniLM reads 256 tokens, two of them marks of beginning and end: word 254 counts, word 255 does not."""
    encoder = open_encoder(folder)
    cut, longer, other = encoder.encode(["dust " * 254, "dust " * 254 + "ice " * 50, "dust " * 253 + "ice"])
    np.testing.assert_allclose(cut, longer, atol=1e-5)
    assert np.abs(cut - other).max() > 1e-4


def test_no_texts_give_no_rows(folder):
    """The width is right all the same."""
    assert open_encoder(folder).encode([]).shape == (0, 384)


def test_an_export_is_kept_when_the_encoder_is_the_same(folder, tmp_path):
    """The files of the earlier export are used again, so nothing is exported and the vectors are the same."""
    encoder, _ = store_encoder(None, tmp_path / "new", previous=folder)
    assert all((tmp_path / "new" / name).stat().st_ino == (folder / name).stat().st_ino for name in FILES)
    np.testing.assert_array_equal(encoder.encode(["dust"]), open_encoder(folder, prepack=True).encode(["dust"]))


@pytest.mark.parametrize("name", FILES)
def test_a_damaged_file_is_named_in_the_error(folder, tmp_path, name):
    """Cut to a third of its length."""
    for file in FILES:
        data = (folder / file).read_bytes()
        (tmp_path / file).write_bytes(data[: len(data) // 3] if file == name else data)
    with pytest.raises(IndexStateError, match="query encoder"):
        OnnxEncoder(tmp_path)


def test_another_architecture_is_not_exported_but_used_with_a_warning(original, tmp_path, monkeypatch):
    """A model with a pooling that the query encoder does not know keeps running on sentence-transformers."""
    monkeypatch.delitem(POOLINGS, "mean")
    encoder, warnings = store_encoder(None, tmp_path)
    assert "expected one pooling of" in warnings[0]
    assert json.loads((tmp_path / "encoder.json").read_text())["runtime"] == "sentence-transformers"
    assert not (tmp_path / SETTINGS).exists()
    with pytest.warns(UserWarning, match="torch is loaded"):
        reopened = open_encoder(tmp_path)
    np.testing.assert_allclose(reopened.encode(["dust"]), original.encode(["dust"]), atol=1e-6)
    assert encoder.encode(["dust"]).shape == (1, 384)


def test_poolings_agree_with_their_definition():
    """Two texts of three tokens, the last token of the second being padding; worked by hand."""
    tokens = np.array([[[1, 2], [3, 4], [5, 9]], [[1, 8], [3, 4], [100, 100]]], dtype=np.float32)
    mask = np.array([[1, 1, 1], [1, 1, 0]])
    np.testing.assert_allclose(POOLINGS["mean"](tokens, mask), [[3, 5], [2, 6]])
    np.testing.assert_allclose(POOLINGS["cls"](tokens, mask), [[1, 2], [1, 8]])
    np.testing.assert_allclose(POOLINGS["max"](tokens, mask), [[5, 9], [3, 8]])


def test_an_unknown_encoder_is_a_usage_error(tmp_path):
    """The error says what was looked for and what is allowed; nothing is fetched."""
    with pytest.raises(UsageError, match=r"no encoder 'no-such-model'.*Allowed: a folder"):
        identify("no-such-model")
    with pytest.raises(UsageError, match=r"modules\.json"):
        identify(str(tmp_path))
