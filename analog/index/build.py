"""From a corpus to an index; what has not changed since the last build is taken over."""

from __future__ import annotations

import csv
import datetime
import json
import time
import warnings
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt

from analog import __version__
from analog.encode.encoder import Encoder
from analog.encode.facets import FacetText, model_texts, titles_and_statements
from analog.encode.stored import identify, store_encoder
from analog.errors import FormatError, IndexStateError
from analog.index import store
from analog.index.arrays import save_array
from analog.index.dense import TextTable, build_dense
from analog.index.lexical import build_lexical
from analog.index.lines import write_lines
from analog.index.lock import Tell, build_lock
from analog.index.manifest import FORMAT_VERSION, Manifest, describe_files, file_hash
from analog.index.signatures import build_signatures
from analog.index.sources import CORPUS, PHRASES, PRINCIPLES, PROGRAM, VOCABULARY, Sources, describe, group_hash
from analog.index.store import Index, is_stale, open_index, verify
from analog.index.swap import recover, refuse_foreign, replacing
from analog.index.tokens import tokens
from analog.model.expected import load_expected

if TYPE_CHECKING:
    from analog.model.load import ModelFile
    from analog.model.types import Model, Principle
    from analog.vocabulary import Vocabulary

Progress = Callable[[str, int, int], None]
"""Receives stage, done, total."""

Floats = npt.NDArray[np.float32]

ENCODED_AT_ONCE = 256
"""Texts between two calls of the progress function."""

LIBRARIES = ("numpy", "onnxruntime", "tokenizers", "faiss-cpu", "bm25s", "pydantic")


@dataclass
class BuildResult:
    """What a build did.

    skipped : (file, reason) of every model or principle left out. encoded, reused : texts sent to the encoder, and
    vectors taken over. read, kept : model files read, and compiled models taken over. seconds : stage to seconds.
    """

    models: int = 0
    skipped: list[tuple[str, str]] = field(default_factory=list)
    encoded: int = 0
    reused: int = 0
    read: int = 0
    kept: int = 0
    seconds: dict[str, float] = field(default_factory=dict)
    warnings: list[str] = field(default_factory=list)

    @property
    def encoder_share(self) -> float:
        """Share of the time, 0..1, spent on making the encoder ready and in it."""
        total = sum(self.seconds.values())
        return (self.seconds.get("encoder", 0.0) + self.seconds.get("encode", 0.0)) / total if total else 0.0


def build_index(
    corpus: Path,
    index: Path,
    encoder_name: str | None = None,
    *,
    progress: Progress | None = None,
    tell: Tell | None = None,
    sources: Sources | None = None,
    timeout_seconds: float = 600.0,
) -> BuildResult:
    """Build the index of a corpus; it takes its place when it is complete.

    encoder_name : see `find_encoder`, or "hashing" for the encoder without a trained model.
    tell : receives a sentence if another build has to be waited for, at most `timeout_seconds`.
    Models with errors are left out and listed in the result. Raises IndexStateError if the index cannot be written,
    UsageError if the encoder is not found.
    """
    with build_lock(index, timeout_seconds, tell):
        return _build(sources or Sources.of(corpus), index, encoder_name, progress or (lambda *_: None))


def ensure_index(
    corpus: Path,
    index: Path,
    encoder_name: str | None = None,
    *,
    progress: Progress | None = None,
    tell: Tell | None = None,
    sources: Sources | None = None,
    timeout_seconds: float = 600.0,
) -> Index:
    """Open an index that fits the corpus; build it first if it is missing, damaged or stale.

    encoder_name : None keeps the encoder of the index. tell : receives why a build is needed.
    An index that is stale but cannot be written anew is used with a warning.
    """
    sources = sources or Sources.of(corpus)
    opened, reason = _fitting(corpus, index, encoder_name, sources)
    if opened is not None and reason is None:
        return opened
    refuse_foreign(index)
    try:
        with build_lock(index, timeout_seconds, tell):
            recover(index)
            # another process may have built it while this one waited
            opened, reason = _fitting(corpus, index, encoder_name, sources)
            if opened is not None and reason is None:
                return opened
            if tell is not None:
                tell(f"building the index: {reason}")
            name = encoder_name or (opened.manifest.encoder["name"] if opened else None)
            _build(sources, index, name, progress or (lambda *_: None))
    except IndexStateError as fault:
        if opened is None:
            raise
        warnings.warn(f"the index is out of date ({reason}) and cannot be renewed: {fault}", stacklevel=2)
        return opened
    return open_index(index)


def _fitting(corpus: Path, index: Path, encoder: str | None, sources: Sources) -> tuple[Index | None, str | None]:
    try:
        opened = open_index(index)
        reason = is_stale(opened, corpus, sources)
    except IndexStateError as fault:
        return None, str(fault)
    if reason is None and encoder is not None and opened.manifest.encoder["name"] != encoder:
        reason = f"it was built with the encoder {opened.manifest.encoder['name']}, not {encoder}"
    return opened, reason


def _build(sources: Sources, target: Path, encoder_name: str | None, progress: Progress) -> BuildResult:
    result = BuildResult()
    with _timed(result, "previous"):
        recover(target)
        previous = _Previous.of(target)
        files = sources.files()
        described = describe(files)
        hashes = {group: group_hash(members) for group, members in described.items()}
        previous.keep_what_holds(described, hashes)
    with replacing(target) as folder:
        with _timed(result, "vocabulary"):
            vocabulary = _write_vocabulary(folder, previous)
        with _timed(result, "models"):
            principles = _principles(files[PRINCIPLES], previous, result)
            models = _models(files[CORPUS], previous, vocabulary, principles, result, progress)
        with _timed(result, "encoder"):
            progress("encoder", 0, 1)
            name, encoder_hash = identify(encoder_name)
            kept_encoder = previous.encoder(encoder_hash)
            encoder, cautions = store_encoder(encoder_name, folder / store.ENCODER, kept_encoder)
            result.warnings.extend(cautions)
            progress("encoder", 1, 1)
        with _timed(result, "texts"):
            named = titles_and_statements(principles)
            expected = load_expected(sources.corpus, {model.id for model, _ in models})
            result.skipped.extend(
                (finding.file, str(finding).removeprefix(finding.file).lstrip(": ")) for finding in expected.findings
            )
            sentences = expected.sentences
            signatures = [model_texts(model, named, sentences.get(model.id, ())) for model, _ in models]
            table = TextTable.of([[(text.facet, text.text) for text in texts] for texts in signatures])
            phrase_rows = _phrase_rows(files[PHRASES])
            known = previous.vectors() if kept_encoder is not None else {}
        with _timed(result, "encode"):
            vectors = _encode(encoder, table.texts, known, result, progress)
            phrase_vectors = _encode(encoder, [row["text"] for row in phrase_rows], known, result, progress)
        with _timed(result, "words"):
            (folder / store.LEXICAL).mkdir()
            build_lexical(
                [_words(model, texts) for (model, _), texts in zip(models, signatures, strict=True)],
                folder / store.LEXICAL,
            )
        with _timed(result, "write"):
            (folder / store.DENSE).mkdir()
            build_dense(table, vectors, folder / store.DENSE)
            build_signatures([model for model, _ in models], folder)
            save_array(folder / store.PHRASE_VECTORS, phrase_vectors)
            _write_json(folder / store.PHRASE_ROWS, phrase_rows)
            write_lines(folder / store.TEXTS, (json.dumps(text).encode() for text in table.texts))
            _write_records(folder, models, principles)
            _write_json(folder / store.EXPECTED_FILE, sentences)
            _write_json(folder / store.SOURCE_FILE, described)
            result.models = len(models)
            Manifest(
                format=FORMAT_VERSION,
                program=__version__,
                created=datetime.datetime.now(datetime.UTC).isoformat(timespec="seconds"),
                encoder={"name": name, "hash": encoder_hash},
                vocabulary=file_hash(folder / store.VOCABULARY_FILE),
                libraries=_library_versions(),
                counts={
                    "models": len(models),
                    "texts": len(table.texts),
                    "principles": len(principles),
                    "phrases": len(phrase_rows),
                    "dimension": int(vectors.shape[1]),
                },
                sources=hashes,
                skipped=tuple(result.skipped),
                files=describe_files(folder),
            ).write(folder)
    return result


class _Previous:
    """The last index as far as its work can be used again."""

    def __init__(self, index: Index | None) -> None:
        self.index = index
        self.models: dict[str, bytes] = {}
        self.principles: dict[str, bytes] = {}
        self.vocabulary: Path | None = None
        self.dictionary: Any = None
        self.unchanged: set[str] = set()

    @classmethod
    def of(cls, folder: Path) -> _Previous:
        try:
            index = open_index(folder)
            verify(index)
        except IndexStateError:
            return cls(None)
        return cls(index)

    def keep_what_holds(self, described: Mapping[str, Mapping[str, list[Any]]], hashes: Mapping[str, str]) -> None:
        """Find the compiled models, principles and vocabulary whose sources have the same contents as then."""
        if self.index is None:
            return
        then = self.index.manifest.sources
        self.unchanged = {group for group, now in hashes.items() if then.get(group) == now}
        recorded = self.index.read_json(store.SOURCE_FILE)
        if VOCABULARY in self.unchanged:
            self.vocabulary = self.index.folder / store.VOCABULARY_FILE
        elif _dictionary_sources(recorded[VOCABULARY]) == _dictionary_sources(described[VOCABULARY]):
            # a new kind is read in a second; the part taken from WordNet takes half a minute and stays the same
            self.dictionary = self.index.vocabulary.get("wordnet")
        if PROGRAM not in self.unchanged:
            return
        for position, file in enumerate(self.index.files):
            if recorded[CORPUS].get(file, [None] * 3)[2] == described[CORPUS].get(file, [None, None, ""])[2]:
                self.models[file] = self.index.model_line(position)
        if PRINCIPLES in self.unchanged:
            self.principles = {name: self.index.principle_line(n) for n, name in enumerate(self.index.principle_ids)}

    def encoder(self, wanted_hash: str) -> Path | None:
        if self.index is None or self.index.manifest.encoder.get("hash") != wanted_hash:
            return None
        return self.index.folder / store.ENCODER

    def vectors(self) -> dict[str, Floats]:
        """Text to its vector."""
        if self.index is None:
            return {}
        found = {self.index.text(n): self.index.dense.vectors[n] for n in range(len(self.index.texts))}
        rows, vectors = self.index.phrases
        return found | {row["text"]: vectors[n] for n, row in enumerate(rows)}


def _dictionary_sources(described: Mapping[str, list[Any]]) -> dict[str, str]:
    """Name to hash of the files that decide which part of WordNet goes into the vocabulary."""
    return {name: entry[2] for name, entry in described.items() if name.startswith(("wordnet", "data/wordnet/"))}


def _write_vocabulary(folder: Path, previous: _Previous) -> Vocabulary:
    """Write the baked vocabulary; an unchanged one is copied, for making it means reading a whole dictionary."""
    from analog.vocabulary import Vocabulary

    target = folder / store.VOCABULARY_FILE
    if previous.vocabulary is not None:
        target.write_bytes(previous.vocabulary.read_bytes())
        return Vocabulary.from_baked(json.loads(target.read_bytes()))
    vocabulary = fresh_vocabulary()
    if previous.dictionary is not None:
        vocabulary._data["wordnet"] = previous.dictionary
    _write_json(target, vocabulary.bake())
    return vocabulary


def fresh_vocabulary() -> Vocabulary:
    """The vocabulary from its source files."""
    from analog.vocabulary import Vocabulary

    return Vocabulary.from_sources()


def _principles(paths: Mapping[str, Path], previous: _Previous, result: BuildResult) -> dict[str, Principle]:
    from analog.model.load import load_principles
    from analog.model.types import Principle

    if previous.principles:
        return {name: Principle.model_validate_json(line) for name, line in previous.principles.items()}
    principles: dict[str, Principle] = {}
    for name, path in paths.items():
        try:
            principles |= load_principles(path)
        except FormatError as fault:
            result.skipped.append((f"principles/{name}", str(fault).replace(str(path), name)))
    return dict(sorted(principles.items()))


def _models(
    paths: Mapping[str, Path],
    previous: _Previous,
    vocabulary: Vocabulary,
    principles: Mapping[str, Principle],
    result: BuildResult,
    progress: Progress,
) -> list[tuple[Model, str]]:
    """The models without errors, with the name of their file, in order of their ids."""
    from analog.model.check import check_corpus, faultless
    from analog.model.load import LoadedCorpus, ModelFaultsError, ModelFile, load_model_file
    from analog.model.types import Model

    loaded: list[ModelFile] = []
    for count, (name, path) in enumerate(paths.items(), start=1):
        line = previous.models.get(name)
        if line is not None:
            loaded.append(ModelFile(Model.model_validate_json(line), name, _no_line))
            result.kept += 1
        else:
            try:
                loaded.append(_renamed(load_model_file(path), name))
            except ModelFaultsError as faults:
                result.skipped.append((name, "; ".join(_inside(finding, path, name) for finding in faults.findings)))
            result.read += 1
        if count % 25 == 0 or count == len(paths):
            progress("models", count, len(paths))
    loaded.sort(key=lambda file: (file.model.id, file.file))
    whole = LoadedCorpus(tuple(loaded), ())
    if result.read == 0 and previous.unchanged >= {CORPUS, VOCABULARY, PRINCIPLES, PROGRAM}:
        findings = []  # nothing that the checker looks at has changed since it let these models pass
    else:
        findings = check_corpus(whole, _known_terms(vocabulary, principles))
    sound = {model.id for model in faultless(whole, findings)}
    reasons: dict[str, list[str]] = {}
    for finding in findings:
        if finding.severity == "error":
            reasons.setdefault(finding.file, []).append(str(finding).removeprefix(finding.file).lstrip(": "))
    result.skipped.extend((file, "; ".join(texts)) for file, texts in reasons.items())
    return [(file.model, file.file) for file in loaded if file.file not in reasons and file.model.id in sound]


def _no_line(location: tuple[str | int, ...]) -> None:
    """A compiled model has no lines of a file."""


def _renamed(file: ModelFile, name: str) -> ModelFile:
    from dataclasses import replace

    return replace(file, file=name)


def _inside(finding: Any, path: Path, name: str) -> str:
    return str(finding).replace(str(path), name)


def _known_terms(vocabulary: Vocabulary, principles: Mapping[str, Principle]) -> Any:
    from analog.model.findings import KnownTerms

    return KnownTerms(
        verbs=frozenset(vocabulary.verbs.all()),
        flows=frozenset(vocabulary.flows.all()),
        kinds=frozenset(vocabulary.kinds.all()),
        relations=frozenset(vocabulary.relations.all()),
        principles=frozenset(principles),
        symbols={name: principle.units for name, principle in principles.items()},
        kind_similarity=vocabulary.kind_similarity,
    )


def _encode(
    encoder: Encoder, texts: Sequence[str], known: Mapping[str, Floats], result: BuildResult, progress: Progress
) -> Floats:
    """Vectors (n, d) of n texts; only texts without a known vector are sent to the encoder."""
    fresh = [position for position, text in enumerate(texts) if text not in known]
    parts = [encoder.encode([])]
    for start in range(0, len(fresh), ENCODED_AT_ONCE):
        parts.append(encoder.encode([texts[position] for position in fresh[start : start + ENCODED_AT_ONCE]]))
        progress("encode", min(start + ENCODED_AT_ONCE, len(fresh)), len(fresh))
    encoded = np.concatenate(parts)
    vectors = np.empty((len(texts), encoded.shape[1]), dtype=np.float32)
    vectors[fresh] = encoded
    for position, text in enumerate(texts):
        if text in known:
            vectors[position] = known[text]
    result.encoded += len(fresh)
    result.reused += len(texts) - len(fresh)
    return vectors


def _words(model: Model, texts: Sequence[FacetText]) -> list[str]:
    """The tokens of a model: its signature texts, and its names in case somebody asks by them."""
    everything = [text.text for text in texts] + [model.organism.common, model.organism.latin or ""]
    return [word for text in everything for word in tokens(text)]


def _phrase_rows(paths: Mapping[str, Path]) -> list[dict[str, str]]:
    rows: list[dict[str, str]] = []
    for path in paths.values():
        with path.open(encoding="utf-8", newline="") as file:
            lines = (line for line in file if not line.startswith("#"))
            rows += [{k: v or "" for k, v in row.items() if k} for row in csv.DictReader(lines, delimiter="\t")]
        if rows and "text" not in rows[0]:
            raise FormatError(f"expected a column `text`, found {', '.join(rows[0])}", path=path.name)
    return rows


def _write_records(folder: Path, models: Sequence[tuple[Model, str]], principles: Mapping[str, Principle]) -> None:
    write_lines(folder / store.MODELS, (model.model_dump_json(by_alias=True).encode() for model, _ in models))
    write_lines(
        folder / store.PRINCIPLE_LINES,
        (principle.model_dump_json(by_alias=True).encode() for principle in principles.values()),
    )
    _write_json(
        folder / store.NAMES,
        {
            "models": [model.id for model, _ in models],
            "files": [name for _, name in models],
            "principles": list(principles),
        },
    )


def _write_json(path: Path, data: Any) -> None:
    path.write_text(json.dumps(data, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")


def _library_versions() -> dict[str, str]:
    from importlib.metadata import PackageNotFoundError, version

    versions = {}
    for library in LIBRARIES:
        try:
            versions[library] = version(library)
        except PackageNotFoundError:
            versions[library] = "not installed as a package"
    return versions


@contextmanager
def _timed(result: BuildResult, stage: str) -> Iterator[None]:
    start = time.perf_counter()
    yield
    result.seconds[stage] = result.seconds.get(stage, 0.0) + time.perf_counter() - start
