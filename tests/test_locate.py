"""Where corpus and index are looked for."""

import tempfile
from pathlib import Path

import pytest

from analog import locate
from analog.errors import UsageError


@pytest.fixture(autouse=True)
def no_variables(monkeypatch):
    monkeypatch.delenv(locate.CORPUS_VARIABLE, raising=False)
    monkeypatch.delenv(locate.INDEX_VARIABLE, raising=False)


@pytest.fixture
def installed(tmp_path, monkeypatch):
    """The package as it lies after an installation: nothing but itself."""
    package = tmp_path / "site-packages" / "analog"
    (package / "_corpus").mkdir(parents=True)
    monkeypatch.setattr(locate, "PACKAGE", package)
    return package


def test_the_nearest_wish_wins(tmp_path, monkeypatch):
    """An argument before the variable, the variable before the rule."""
    (tmp_path / "given").mkdir()
    (tmp_path / "set").mkdir()
    monkeypatch.setenv(locate.CORPUS_VARIABLE, str(tmp_path / "set"))
    monkeypatch.setenv(locate.INDEX_VARIABLE, str(tmp_path / "set"))
    assert locate.corpus_folder(tmp_path / "given") == tmp_path / "given"
    assert locate.corpus_folder() == tmp_path / "set"
    assert locate.index_folder(tmp_path / "given") == tmp_path / "given"
    assert locate.index_folder() == tmp_path / "set"


def test_a_checkout_uses_its_own_folders():
    """These tests run in one."""
    root = Path(__file__).resolve().parents[1]
    assert locate.corpus_folder() == root / "corpus"
    assert locate.index_folder() == root / "index" / "current"


def test_an_installed_package_uses_its_corpus_and_the_cache(installed, tmp_path, monkeypatch):
    """platformdirs decides where a cache lies."""
    monkeypatch.setattr("platformdirs.user_cache_dir", lambda *a, **k: str(tmp_path / "cache"))
    assert locate.corpus_folder() == installed / "_corpus"
    assert locate.index_folder().parent == tmp_path / "cache"


def test_without_a_cache_a_temporary_folder_serves_with_a_warning(installed, tmp_path, monkeypatch):
    """A file stands where the cache should be, so nothing can be written there."""
    (tmp_path / "file").write_text("")
    monkeypatch.setattr("platformdirs.user_cache_dir", lambda *a, **k: str(tmp_path / "file" / "cache"))
    with pytest.warns(UserWarning, match="ANALOG_INDEX"):
        folder = locate.index_folder()
    assert Path(tempfile.gettempdir()) in folder.parents


def test_a_wrong_place_is_a_usage_error(tmp_path, monkeypatch):
    """The error says where the wish came from."""
    with pytest.raises(UsageError, match="from the command line"):
        locate.corpus_folder(tmp_path / "nothing")
    (tmp_path / "file").write_text("")
    monkeypatch.setenv(locate.INDEX_VARIABLE, str(tmp_path / "file"))
    with pytest.raises(UsageError, match="from the environment variable ANALOG_INDEX"):
        locate.index_folder()
