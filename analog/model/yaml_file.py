"""Reading YAML from strangers: size, nesting, aliases and tags are bounded, and every value keeps its line.

Plain scalars follow the core schema of YAML 1.2 (`on` and `no` are words, not truth values). Anchors, aliases and
explicit tags are refused, because a model needs none and they are how a small file becomes a huge one.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import yaml

from analog.errors import FormatError

MAXIMUM_BYTES = 1_000_000
MAXIMUM_DEPTH = 20

LineOf = Callable[[tuple[str | int, ...]], "int | None"]
"""Path into the data -> 1-based line of that value, or of the nearest value around it."""

_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_INTEGER = re.compile(r"[-+]?[0-9]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_WORDS: dict[str, Any] = {"true": True, "false": False, "null": None, "~": None, "": None}


def load_yaml(path: Path, shown_as: str | None = None) -> tuple[Any, LineOf]:
    """Read one YAML (or JSON) document of plain data.

    Returns (data, line_of). Raises FormatError with file and line if the file cannot be read, is not UTF-8, is
    larger than MAXIMUM_BYTES, nested deeper than MAXIMUM_DEPTH, or uses anchors, aliases, tags or repeated keys.
    """
    name = shown_as or str(path)
    try:
        with path.open("rb") as file:
            raw = file.read(MAXIMUM_BYTES + 1)
    except OSError as error:
        raise FormatError(f"cannot be read: {error.strerror or error}", path=name) from None
    if len(raw) > MAXIMUM_BYTES:
        raise FormatError(f"larger than the {MAXIMUM_BYTES:,} bytes allowed", path=name)
    return parse_yaml(raw, name)


def parse_yaml(raw: bytes, name: str) -> tuple[Any, LineOf]:
    """The same for bytes already read; `name` stands for the file in errors."""
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise FormatError(
            f"expected UTF-8 text, found byte 0x{raw[error.start]:02x} at offset {error.start}", path=name, line=line
        ) from None
    try:
        _refuse_hostile(text, name)
        node = yaml.compose(text, Loader=_Loader)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        problem = " ".join(part for part in (error.context, error.problem) if part)
        raise FormatError(f"not valid YAML: {problem}", path=name, line=mark.line + 1 if mark else None) from None
    except yaml.YAMLError as error:
        raise FormatError(f"not valid YAML: {str(error).splitlines()[0]}", path=name) from None
    if node is None:
        raise FormatError("expected a mapping, found an empty file", path=name)
    lines: dict[tuple[str | int, ...], int] = {}
    data = _value(node, (), lines, name)

    def line_of(path: tuple[str | int, ...]) -> int | None:
        while path and path not in lines:
            path = path[:-1]
        return lines.get(path)

    return data, line_of


def _refuse_hostile(text: str, name: str) -> None:
    depth = 0
    for event in yaml.parse(text, Loader=_Loader):
        line = event.start_mark.line + 1 if event.start_mark else None
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise FormatError("anchors and aliases are not allowed; write the value out", path=name, line=line)
        tag = getattr(event, "tag", None)
        if tag is not None and tag != "!":
            raise FormatError(f"tags are not allowed, found {str(tag)[:60]!r}", path=name, line=line)
        if isinstance(event, yaml.CollectionStartEvent):
            depth += 1
            if depth > MAXIMUM_DEPTH:
                raise FormatError(f"nested deeper than the {MAXIMUM_DEPTH} levels allowed", path=name, line=line)
        elif isinstance(event, yaml.CollectionEndEvent):
            depth -= 1


def _value(node: Any, path: tuple[str | int, ...], lines: dict[tuple[str | int, ...], int], name: str) -> Any:
    lines[path] = node.start_mark.line + 1
    if isinstance(node, yaml.SequenceNode):
        return [_value(child, (*path, index), lines, name) for index, child in enumerate(node.value)]
    if isinstance(node, yaml.MappingNode):
        mapping: dict[str, Any] = {}
        for key_node, value_node in node.value:
            line = key_node.start_mark.line + 1
            if not isinstance(key_node, yaml.ScalarNode):
                raise FormatError("expected a word as a key", path=name, line=line)
            key = str(key_node.value)
            if key in mapping:
                raise FormatError(f"the key {key[:60]!r} stands twice in one mapping", path=name, line=line)
            mapping[key] = _value(value_node, (*path, key), lines, name)
        return mapping
    return _scalar(node, name)


def _scalar(node: Any, name: str) -> Any:
    if node.style is not None and node.style != "":
        return node.value
    text = node.value
    if text in _WORDS:
        return _WORDS[text]
    try:
        if _INTEGER.fullmatch(text):
            return int(text)
        if _FLOAT.fullmatch(text):
            return float(text)
    except ValueError:  # Python refuses integers of thousands of digits
        raise FormatError(
            f"expected a number of sensible length, found {len(text)} digits", path=name, line=node.start_mark.line + 1
        ) from None
    return text
