"""Opening an index and encoding a query loads nothing heavy."""

import json
import subprocess
import sys

from analog.index.build import build_index

HEAVY = {
    "torch", "transformers", "sentence_transformers", "nltk", "rdflib", "bm25s", "numba", "scipy", "networkx", "onnx",
    "pint", "matplotlib", "jinja2", "yaml", "pydantic", "faiss",
}  # fmt: skip

PROGRAM = """
import json, sys
from pathlib import Path
from analog.index.store import open_index, is_stale
from analog.index.tokens import tokens

index = open_index(Path(sys.argv[1]))
query = index.encoder.encode(["remove dust from solar panels"])[0]
hits = index.dense.search("questions", query, 50)
index.lexical.scores(tokens("remove dust from solar panels"))
index.vocabulary, index.phrases
is_stale(index, Path(sys.argv[2]))
print(json.dumps({"hits": len(hits.models), "modules": sorted({name.split(".")[0] for name in sys.modules})}))
"""


def test_a_query_imports_nothing_heavy(sources, target):
    """With the real encoder, in a process of its own."""
    result = build_index(sources.corpus, target, sources=sources)
    assert result.warnings == []
    run = subprocess.run(
        [sys.executable, "-c", PROGRAM, str(target), str(sources.corpus)], capture_output=True, text=True, check=True
    )
    found = json.loads(run.stdout)
    assert found["hits"] == 3
    assert not HEAVY & set(found["modules"])
    assert run.stderr == ""


def test_a_rebuild_without_new_texts_needs_no_torch(sources, target):
    """The exported encoder is taken over; a change of one question is encoded by it."""
    build_index(sources.corpus, target, sources=sources)
    exported = (target / "encoder" / "model.bin").stat().st_ino
    path = sources.corpus / "a-brush.yaml"
    path.write_text(path.read_text("utf-8").replace("carpet pile", "velvet"), encoding="utf-8")
    result = build_index(sources.corpus, target, sources=sources)
    assert result.encoded == 1
    assert (target / "encoder" / "model.bin").stat().st_ino == exported
