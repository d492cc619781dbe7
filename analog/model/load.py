"""From files to models: each file is read, validated and, where it fails, reported with line and field."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from analog.errors import FormatError
from analog.model.findings import Finding
from analog.model.types import Model, Principle
from analog.model.yaml_file import LineOf, load_yaml

R = TypeVar("R", bound=BaseModel)


@dataclass(frozen=True)
class ModelFile:
    """A model with the file it came from and the line of every field."""

    model: Model
    file: str
    line_of: LineOf


@dataclass(frozen=True)
class LoadedCorpus:
    """What a corpus holds: the files that are models, and findings for those that are not."""

    files: tuple[ModelFile, ...]
    findings: tuple[Finding, ...]

    @property
    def models(self) -> tuple[Model, ...]:
        """The models, in the order of their ids."""
        return tuple(file.model for file in self.files)


def model_paths(path: Path) -> list[Path]:
    """The model files under a folder (*.yaml, *.yml), sorted; or the file itself.

    Raises FormatError if nothing is there. Links that lead out of the folder are not followed.
    """
    if path.is_file():
        return [path]
    if not path.is_dir():
        raise FormatError("expected a model file or a folder of them, found nothing there", path=str(path))
    return sorted(p for p in path.rglob("*") if p.suffix in {".yaml", ".yml"} and p.is_file())


def load_corpus(*places: Path) -> LoadedCorpus:
    """Read every model under the given folders and files; nothing is lost: what fails becomes a finding."""
    files: list[ModelFile] = []
    findings: list[Finding] = []
    seen: set[Path] = set()
    for place in places:
        for path in model_paths(place):
            if path.resolve() in seen:
                continue
            seen.add(path.resolve())
            try:
                files.append(load_model_file(path))
            except ModelFaultsError as faults:
                findings.extend(faults.findings)
    files.sort(key=lambda file: (file.model.id, file.file))
    return LoadedCorpus(tuple(files), tuple(findings))


class ModelFaultsError(FormatError):
    """A file is not a model; `findings` says why, field by field."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        first = self.findings[0]
        more = f" (and {len(self.findings) - 1} more)" if len(self.findings) > 1 else ""
        super().__init__(
            f"{first.found}; expected {first.expected}{more}", path=first.file, line=first.line, field=first.field
        )


def load_model_file(path: Path) -> ModelFile:
    """Read one model. Raises ModelFaultsError with a finding for every field that is wrong."""
    data, line_of = _read(path)
    return ModelFile(_validated(Model, data, line_of, str(path)), str(path), line_of)


def load_principles(folder: Path) -> dict[str, Principle]:
    """Read the principle records of a folder (one a file), by id. Raises ModelFaultsError for the first wrong file."""
    principles = {}
    for path in model_paths(folder):
        data, line_of = _read(path)
        principle = _validated(Principle, data, line_of, str(path))
        principles[principle.id] = principle
    return principles


def _read(path: Path) -> tuple[Any, LineOf]:
    try:
        return load_yaml(path)
    except FormatError as error:
        raise ModelFaultsError(
            [
                Finding(
                    "error",
                    "format",
                    str(path),
                    error.line,
                    "",
                    error.message,
                    "a readable YAML file",
                    "Mend the file so that it can be read.",
                )
            ]
        ) from None


def _validated(record: type[R], data: Any, line_of: LineOf, file: str) -> R:
    try:
        return record.model_validate(data)
    except ValidationError as error:
        faults = error.errors(include_url=False)
        # a wrong item also makes its list too short: only the innermost fault helps
        inner = [f for f in faults if not any(_inside(other["loc"], f["loc"]) for other in faults)]
        raise ModelFaultsError([_format_finding(fault, line_of, file) for fault in inner]) from None


def _inside(location: tuple[str | int, ...], outer: tuple[str | int, ...]) -> bool:
    return len(location) > len(outer) and location[: len(outer)] == outer


def _format_finding(fault: Any, line_of: LineOf, file: str) -> Finding:
    location = _without_tags(fault["loc"])
    found = fault["input"]
    shown = (
        f"{type(found).__name__} {str(found)[:60]!r}"
        if not isinstance(found, dict | list)
        else f"a {'mapping' if isinstance(found, dict) else 'list'}"
    )
    if fault["type"] == "missing":
        shown = "nothing"
    if fault["type"] == "extra_forbidden":
        expected, mend = (
            "no field of this name",
            "Remove the field, or correct its name (docs/model-format.md lists them).",
        )
    else:
        expected, mend = fault["msg"].removeprefix("Value error, "), "Correct the field."
    return Finding("error", "format", file, line_of(location), dotted(location), shown, expected, mend)


def _without_tags(location: tuple[str | int, ...]) -> tuple[str | int, ...]:
    """pydantic names the branch of a union in the location; the file has no such level."""
    tags = {
        "principle",
        "structure",
        "sub-purpose",
        "trigger",
        "medium",
        "flow",
        "energy",
        "size",
        "temperature",
        "property",
    }
    return tuple(
        step
        for index, step in enumerate(location)
        if not (
            step in tags
            and index >= 2
            and isinstance(location[index - 1], int)
            and location[index - 2] in {"reasons", "needs"}
        )
    )


def dotted(location: tuple[str | int, ...]) -> str:
    """("states", 1, "facts", 0) -> "states[1].facts[0]"."""
    text = ""
    for step in location:
        text += f"[{step}]" if isinstance(step, int) else (f".{step}" if text else step)
    return text
