"""Many texts in one file."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from analog.errors import IndexStateError
from analog.index.lines import Lines, write_lines


@given(st.lists(st.binary(max_size=30), max_size=20))
def test_what_goes_in_comes_out(tmp_path_factory, texts):
    """Empty texts and texts with line ends included."""
    path = tmp_path_factory.mktemp("lines") / "texts"
    write_lines(path, texts)
    lines = Lines(path)
    assert [lines[n] for n in range(len(lines))] == texts
    with pytest.raises(IndexError):
        lines[len(texts)]


def test_a_file_cut_short_is_refused(tmp_path):
    """The error gives the size that was found."""
    write_lines(tmp_path / "texts", [b"dust", b"ice"])
    (tmp_path / "texts").write_bytes(b"dust\nic")
    with pytest.raises(IndexStateError, match="has 7 bytes"):
        Lines(tmp_path / "texts")
