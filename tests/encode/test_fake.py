"""The encoder without a trained model."""

import subprocess
import sys

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from analog.encode.fake import HashingEncoder


@given(st.lists(st.text(max_size=40), max_size=5))
def test_every_row_has_unit_length(texts):
    """Whatever the texts, empty ones included."""
    vectors = HashingEncoder(16).encode(texts)
    assert vectors.shape == (len(texts), 16)
    assert vectors.dtype == np.float32
    np.testing.assert_allclose(np.linalg.norm(vectors, axis=1), 1, atol=1e-6)


def test_likeness_of_spelling_shows():
    """A text is nearer to one that shares its words than to one that shares none."""
    same, near, far = HashingEncoder().encode(["remove dust from panels", "dust on panels", "quiet gearbox hum"])
    assert same @ near > same @ far + 0.2


def test_another_process_gives_the_same_vectors():
    """Python's own hash changes from process to process; this must not."""
    program = "from analog.encode.fake import HashingEncoder as H; print(H(8).encode(['dust'])[0].tolist())"
    runs = {
        subprocess.run(
            [sys.executable, "-c", program], capture_output=True, text=True, check=True, env={"PYTHONHASHSEED": seed}
        ).stdout
        for seed in ("1", "2")
    }
    assert len(runs) == 1
