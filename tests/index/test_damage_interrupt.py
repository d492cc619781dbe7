"""Damage and interruption as a user meets them: the index is built again, or the old one stays."""

import errno
import os
from pathlib import Path

import pytest

from analog.errors import IndexStateError
from analog.index import build
from analog.index.build import build_index, ensure_index
from analog.index.store import open_index, verify


def files_of(folder):
    return sorted(path for path in folder.rglob("*") if path.is_file())


@pytest.mark.parametrize("way", ["cut", "emptied", "changed", "lost"])
def test_a_search_builds_a_damaged_index_again(sources, built, way):
    """Whichever file is damaged, the next opening finds three models in a whole index and says why it was built."""
    for name in [path.relative_to(built) for path in files_of(built)]:
        path = built / name
        data = path.read_bytes()
        if way == "lost" and path.name == "manifest.json":
            continue  # see below
        if way == "lost":
            path.unlink()
        elif data:
            middle = len(data) // 2
            changed = data[:middle] + bytes([data[middle] ^ 0xFF]) + data[middle + 1 :]
            path.write_bytes({"cut": data[:middle], "emptied": b"", "changed": changed}[way])
        else:
            continue
        told = []
        index = ensure_index(sources.corpus, built, "hashing", sources=sources, tell=told.append)
        verify(index)
        assert index.ids == ("a-brush", "b-comb", "c-wick"), name
        assert len(told) == 1 and told[0].startswith("building the index: "), name


def test_a_folder_that_does_not_say_it_is_an_index_is_not_replaced(sources, built):
    """Without its manifest an index cannot be told from somebody's own files: an error, and nothing is removed."""
    (built / "manifest.json").unlink()
    before = files_of(built)
    with pytest.raises(IndexStateError, match="name another folder"):
        ensure_index(sources.corpus, built, "hashing", sources=sources)
    assert files_of(built) == before


@pytest.mark.parametrize("step", ["_models", "_encode", "build_lexical", "build_dense", "describe_files"])
def test_an_interrupt_from_the_keyboard_leaves_the_old_index(sources, built, monkeypatch, step):
    """Control-C at any step: nothing half-written stays behind, and the lock is free for the next build."""
    (sources.corpus / "c-wick.yaml").unlink()
    real = getattr(build, step)

    def interrupted(*arguments, **options):
        raise KeyboardInterrupt

    monkeypatch.setattr(build, step, interrupted)
    with pytest.raises(KeyboardInterrupt):
        build_index(sources.corpus, built, "hashing", sources=sources)
    verify(open_index(built))
    assert open_index(built).ids == ("a-brush", "b-comb", "c-wick")
    assert sorted(path.name for path in built.parent.iterdir()) == ["current", "current.lock"]
    monkeypatch.setattr(build, step, real)
    build_index(sources.corpus, built, "hashing", sources=sources, timeout_seconds=1)
    assert open_index(built).ids == ("a-brush", "b-comb")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs named pipes")
def test_pipes_and_dead_links_among_the_models_are_passed_over(sources, target):
    """Reading the pipe would wait for a writer that never comes; the index is not stale because of them."""
    os.mkfifo(sources.corpus / "pipe.yaml")
    (sources.corpus / "nowhere.yaml").symlink_to(sources.corpus / "nothing")
    (sources.corpus / "itself.yaml").symlink_to(sources.corpus / "itself.yaml")
    (sources.corpus / "folder.yaml").mkdir()
    result = build_index(sources.corpus, target, "hashing", sources=sources)
    assert (result.models, result.skipped) == (3, [])
    told = []
    ensure_index(sources.corpus, target, sources=sources, tell=told.append)
    assert told == []


def test_a_model_that_may_not_be_read_is_listed_and_costs_no_other(sources, target, monkeypatch):
    """Refused by the system (simulated: the super-user may read everything); later searches do not build again."""
    real = Path.open

    def refused(self, *arguments, **options):
        if self.name == "b-comb.yaml":
            raise PermissionError(errno.EACCES, "Permission denied", str(self))
        return real(self, *arguments, **options)

    monkeypatch.setattr(Path, "open", refused)
    result = build_index(sources.corpus, target, "hashing", sources=sources)
    assert result.models == 2
    assert [name for name, _ in result.skipped] == ["b-comb.yaml"]
    assert "Permission denied" in result.skipped[0][1]
    told = []
    assert ensure_index(sources.corpus, target, sources=sources, tell=told.append).ids == ("a-brush", "c-wick")
    assert told == []
    monkeypatch.undo()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_disk_that_is_really_full_leaves_the_old_index(sources, built, monkeypatch):
    """The system's own error, from a device where every write fails, and not one made up here."""
    (sources.corpus / "c-wick.yaml").unlink()

    def onto_full_disk(path, data):
        with Path("/dev/full").open("w") as file:
            file.write(str(data))

    monkeypatch.setattr(build, "_write_json", onto_full_disk)
    with pytest.raises(IndexStateError, match="the disk is full; the old one is unchanged"):
        build_index(sources.corpus, built, "hashing", sources=sources)
    verify(open_index(built))
    assert open_index(built).ids == ("a-brush", "b-comb", "c-wick")
