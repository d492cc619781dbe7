"""Expected questions: further sentences an engineer might type for whom a model would be a right answer.

They stand beside the models (`expected-questions.tsv`, columns `model` and `text`) and only widen what a search finds
(document expansion: Nogueira, Yang, Lin, Cho 2019, arXiv:1904.08375); they are no part of a model.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from analog.errors import FormatError
from analog.model.findings import Finding

FILE_NAME = "expected-questions.tsv"
HEADER = ["model", "text"]
LONGEST = 200
MAXIMUM_BYTES = 5_000_000


@dataclass(frozen=True)
class Expected:
    """Model id -> sentences, in the order of the files; and findings for lines that are none."""

    sentences: dict[str, tuple[str, ...]]
    findings: tuple[Finding, ...]


def expected_files(corpus: Path) -> list[Path]:
    """The files of expected questions in a corpus, sorted."""
    return sorted(path for path in corpus.rglob(FILE_NAME) if path.is_file())


def load_expected(corpus: Path, models: Collection[str]) -> Expected:
    """Read every file; a line with a fault becomes a finding and the others are kept.

    models : the ids that sentences may belong to. Raises FormatError for a file that cannot be read.
    """
    sentences: dict[str, list[str]] = {}
    findings: list[Finding] = []
    seen: dict[str, str] = {}
    for path in expected_files(corpus):
        for number, line in enumerate(_lines(path), start=1):
            fault = _fault(line.split("\t"), number, models, seen)
            if fault is not None:
                findings.append(Finding("error", "expected-question", str(path), number, "", *fault))
            elif number > 1:
                model, text = line.split("\t")
                seen[text.casefold()] = f"{path.name}:{number}"
                sentences.setdefault(model, []).append(text)
    return Expected({model: tuple(texts) for model, texts in sentences.items()}, tuple(findings))


def _lines(path: Path) -> list[str]:
    try:
        with path.open("rb") as file:
            raw = file.read(MAXIMUM_BYTES + 1)
        if len(raw) > MAXIMUM_BYTES:
            raise FormatError(f"larger than the {MAXIMUM_BYTES:,} bytes allowed", path=str(path))
        return raw.decode("utf-8-sig").splitlines()
    except OSError as error:
        raise FormatError(f"cannot be read: {error.strerror or error}", path=str(path)) from None
    except UnicodeDecodeError as error:
        raise FormatError(f"expected UTF-8 text, found a wrong byte at offset {error.start}", path=str(path)) from None


def _fault(cells: list[str], number: int, models: Collection[str], seen: dict[str, str]) -> tuple[str, str, str] | None:
    """(found, expected, mend) or None."""
    if number == 1:
        return None if cells == HEADER else ("\t".join(cells)[:60], "model<TAB>text", "Write the header line.")
    if len(cells) != 2 or not cells[1].strip():
        return f"{len(cells)} columns", "a model and a text", "Separate the two by one tab."
    if cells[0] not in models:
        return repr(cells[0][:60]), "the id of a model", "Correct the id or write the model."
    if len(cells[1]) > LONGEST:
        return f"{len(cells[1])} characters", f"at most {LONGEST}", "Shorten the sentence."
    if cells[1].casefold() in seen:
        return (
            f"the same sentence as {seen[cells[1].casefold()]}",
            "each sentence once",
            "Keep it where it fits better.",
        )
    return None
