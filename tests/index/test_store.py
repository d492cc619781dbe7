"""Damage, interruption and two builds at once: a clear error, and the old index stays usable."""

import multiprocessing
import os
import shutil
import signal
import subprocess
import sys
import threading
import time

import pytest

from analog.errors import IndexStateError
from analog.index import build
from analog.index.build import build_index, ensure_index
from analog.index.lock import build_lock
from analog.index.manifest import FORMAT_VERSION, HASHED_AT_OPENING_BYTES
from analog.index.store import open_index, verify


def use(folder):
    """Open an index and read all of it."""
    index = open_index(folder)
    verify(index)
    index.encoder.encode(["dust"])
    return index, index.vocabulary, index.phrases, [index.model(name) for name in index.ids], len(index.texts)


def files_of(folder):
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def damaged(data, way):
    if way == "cut":
        return data[: len(data) // 2]
    if way == "emptied":
        return b""
    middle = len(data) // 2
    return data[:middle] + bytes([data[middle] ^ 0xFF]) + data[middle + 1 :]


@pytest.mark.parametrize("way", ["cut", "emptied", "changed", "lost"])
def test_every_damaged_file_is_found(built, way):
    """Cutting, emptying, changing one byte of or losing any file of the index ends in IndexStateError."""
    use(built)
    for name in files_of(built):
        path, data = built / name, (built / name).read_bytes()
        if not data and way != "lost":
            continue
        if way == "lost":
            path.unlink()
        else:
            path.write_bytes(damaged(data, way))
        with pytest.raises(IndexStateError):
            use(built)
        if way != "changed" or len(data) <= HASHED_AT_OPENING_BYTES:
            with pytest.raises(IndexStateError):  # without the thorough look, too
                open_index(built)
        path.write_bytes(data)
    use(built)


def test_a_missing_index_says_how_to_make_one(tmp_path):
    """Nothing there, and a folder without a manifest."""
    with pytest.raises(IndexStateError, match=r"no index at .*analog build"):
        open_index(tmp_path / "nothing")
    with pytest.raises(IndexStateError, match=r"no index at .*analog build"):
        open_index(tmp_path)


def test_an_index_of_another_format_is_refused(built):
    """Before its hash is looked at, for the hash may be made otherwise in another format."""
    path = built / "manifest.json"
    path.write_text(path.read_text().replace(f'"format": {FORMAT_VERSION}', '"format": 99'))
    with pytest.raises(IndexStateError, match=r"expected an index of format \d+ .*found 99"):
        open_index(built)


def test_a_folder_of_other_things_is_never_replaced(sources, tmp_path):
    """Somebody names the wrong folder: the error comes before any of its files is touched."""
    folder = tmp_path / "thesis"
    folder.mkdir()
    (folder / "chapter.txt").write_text("years of work")
    for attempt in (build_index, ensure_index):
        with pytest.raises(IndexStateError, match="found other files"):
            attempt(sources.corpus, folder, "hashing", sources=sources)
    assert (folder / "chapter.txt").read_text() == "years of work"


@pytest.mark.parametrize("step", ["build_lexical", "build_dense", "describe_files"])
def test_a_failed_build_leaves_the_old_index(sources, built, monkeypatch, step):
    """A full disk at any step: a clear error, the old index opens, nothing is left lying about."""
    (sources.corpus / "c-wick.yaml").unlink()

    def full(*arguments, **options):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(build, step, full)
    with pytest.raises(IndexStateError, match="the disk is full; the old one is unchanged"):
        build_index(sources.corpus, built, "hashing", sources=sources)
    assert len(use(built)[0].ids) == 3
    assert sorted(path.name for path in built.parent.iterdir()) == ["current", "current.lock"]


KILLED_BUILD = """
import sys, time
from pathlib import Path
from analog.index import build, swap
from analog.index.sources import Sources

corpus, principles, vocabulary, phrases, target, step = sys.argv[1:]

def halt(*arguments, **options):
    print("reached", flush=True)
    time.sleep(60)

if step == "between the renames":
    import pathlib
    rename = pathlib.Path.rename
    def first_only(self, to):
        rename(self, to)
        halt()
    pathlib.Path.rename = first_only
else:
    setattr(build, step, halt)
build.build_index(Path(corpus), Path(target), "hashing",
                  sources=Sources(Path(corpus), Path(principles), Path(vocabulary), Path(phrases)))
"""


@pytest.mark.skipif(os.name == "nt", reason="needs a signal that cannot be caught")
@pytest.mark.parametrize("step", ["build_lexical", "describe_files", "between the renames"])
def test_a_killed_build_leaves_the_old_index(sources, built, step):
    """Killed in the middle: the old index still answers, and the next build cleans up and goes through."""
    (sources.corpus / "c-wick.yaml").unlink()
    places = [sources.corpus, sources.principles, sources.vocabulary, sources.phrases, built]
    process = subprocess.Popen(
        [sys.executable, "-c", KILLED_BUILD, *map(str, places), step], stdout=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "reached\n"
    process.send_signal(signal.SIGKILL)
    process.wait()
    process.stdout.close()
    if step != "between the renames":  # then it is put back by the next build or search
        assert len(use(built)[0].ids) == 3
    index = ensure_index(sources.corpus, built, sources=sources, timeout_seconds=5)
    assert index.ids == ("a-brush", "b-comb")
    assert index.manifest.encoder["name"] == "hashing"
    assert sorted(path.name for path in built.parent.iterdir()) == ["current", "current.lock"]


def test_two_builds_at_once_take_turns(sources, target):
    """Both end well, the second having waited, and the index is whole."""
    told, faults = [], []

    def run():
        try:
            build_index(sources.corpus, target, "hashing", sources=sources, tell=told.append)
        except Exception as fault:
            faults.append(fault)

    threads = [threading.Thread(target=run) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert faults == []
    assert told
    assert all("waiting for another build" in sentence for sentence in told)
    assert len(use(target)[0].ids) == 3


def _hold(folder, ready):
    with build_lock(folder):
        ready.set()
        time.sleep(60)


@pytest.mark.skipif(os.name == "nt", reason="needs a signal that cannot be caught")
def test_the_lock_of_a_dead_process_is_taken_over(tmp_path):
    """While the process lives the wait ends in an error that names it; once it is killed the lock is free."""
    context = multiprocessing.get_context("spawn")
    ready = context.Event()
    process = context.Process(target=_hold, args=(tmp_path / "current", ready))
    process.start()
    assert ready.wait(30)
    with (
        pytest.raises(IndexStateError, match=rf"written by another process \(process {process.pid}\); waited 0 s"),
        build_lock(tmp_path / "current", timeout_seconds=0.2),
    ):
        pass
    process.kill()
    process.join()
    with build_lock(tmp_path / "current", timeout_seconds=1):
        assert (tmp_path / "current.lock").is_file()


def test_an_open_index_survives_a_new_build(sources, built):
    """A search that runs while the index is replaced goes on with the old one."""
    index = open_index(built)
    (sources.corpus / "c-wick.yaml").unlink()
    build_index(sources.corpus, built, "hashing", sources=sources)
    assert index.model("c-wick").id == "c-wick"
    assert index.dense.search("purposes", index.dense.vectors[0], 3).models.size == 3
    assert open_index(built).ids == ("a-brush", "b-comb")


def test_a_copied_index_is_an_index(built, tmp_path):
    """Nothing in it depends on where it lies."""
    shutil.copytree(built, tmp_path / "elsewhere")
    assert use(tmp_path / "elsewhere")[0].ids == use(built)[0].ids
