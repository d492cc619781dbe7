"""A set of concepts with broader links and matches: what kinds, flows, verbs and relations share."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import Any

from analog.errors import UnknownTermError
from analog.vocabulary.turtle import Record

_SPACES = str.maketrans(dict.fromkeys("-_/,.;:!?'’\"()", " "))


def plain(text: str) -> str:
    """A label as it is compared: lower case, words parted by single spaces, hyphens and other marks as spaces."""
    return " ".join(text.lower().translate(_SPACES).split())


class Hierarchy:
    """Concepts by id. The ids are those of the data; labels and alternative labels find them again."""

    called = "term"

    def __init__(self, records: Mapping[str, Record]) -> None:
        self.records = dict(records)

    def all(self) -> tuple[str, ...]:
        """Every id, sorted."""
        return tuple(sorted(self.records))

    def known(self, name: str) -> bool:
        """Whether `name` is an id of this vocabulary."""
        return name in self.records

    def record(self, name: str) -> Record:
        """The record of an id. Raises UnknownTermError with the nearest ids."""
        try:
            return self.records[name]
        except KeyError:
            raise UnknownTermError(self.called, name, self.near(name)) from None

    def label(self, name: str) -> str:
        """The preferred label; the id with spaces when the concept is unknown."""
        record = self.records.get(name)
        return record["label"] if record else name.replace("-", " ")

    def definition(self, name: str) -> str:
        """What the concept means, in a sentence."""
        return str(self.record(name)["definition"])

    def broader(self, name: str) -> tuple[str, ...]:
        """The next more general concepts."""
        return tuple(parent for parent in self.record(name)["broader"] if parent in self.records)

    @cached_property
    def _narrower(self) -> dict[str, tuple[str, ...]]:
        below: dict[str, list[str]] = {name: [] for name in self.records}
        for name in self.records:
            for parent in self.broader(name):
                below[parent].append(name)
        return {name: tuple(sorted(children)) for name, children in below.items()}

    def narrower(self, name: str) -> tuple[str, ...]:
        """The next more special concepts."""
        self.record(name)
        return self._narrower[name]

    def ancestors(self, name: str) -> dict[str, int]:
        """Every more general concept with its distance in steps; the concept itself at 0. Not to be changed."""
        memory: dict[str, dict[str, int]] = self.__dict__.setdefault("_ancestors", {})
        if name in memory:
            return memory[name]
        distance = {name: 0}
        ring = [name]
        while ring:
            ring = sorted({parent for child in ring for parent in self.broader(child)} - distance.keys())
            step = max(distance.values()) + 1
            distance.update(dict.fromkeys(ring, step))
        memory[name] = distance
        return distance

    def is_a(self, name: str, general: str) -> bool:
        """Whether `name` is `general` or stands below it."""
        return name in self.records and general in self.ancestors(name)

    def descendants(self, name: str) -> set[str]:
        """Every concept below, without the concept itself."""
        found: set[str] = set()
        stack = list(self.narrower(name))
        while stack:
            child = stack.pop()
            if child not in found:
                found.add(child)
                stack += self._narrower[child]
        return found

    def fact(self, name: str, key: str) -> Any:
        """A fact recorded for the concept, or for the nearest more general one that has it; None without any."""
        for concept in self.ancestors(name):
            values = self.records[concept]["facts"].get(key)
            if values:
                return values[0]
        return None

    def facts(self, name: str, key: str) -> tuple[Any, ...]:
        """All values of a fact for the concept and everything more general, nearest first."""
        found = [value for concept in self.ancestors(name) for value in self.records[concept]["facts"].get(key, ())]
        return tuple(dict.fromkeys(found))

    @cached_property
    def labels(self) -> dict[str, tuple[str, ...]]:
        """Plain label → ids; a preferred label comes before the alternative labels of others."""
        index: dict[str, list[str]] = {}
        for name in self.records:
            index.setdefault(plain(name), []).append(name)
        for name, record in self.records.items():
            index.setdefault(plain(record["label"]), []).append(name)
        for name, record in self.records.items():
            for label in record["alt"]:
                index.setdefault(plain(label), []).append(name)
        return {label: tuple(dict.fromkeys(names)) for label, names in index.items()}

    def find(self, text: str) -> tuple[str, ...]:
        """Ids that carry this text as id, label or alternative label; () when there is none."""
        return (text,) if text in self.records else self.labels.get(plain(text), ())

    def near(self, word: str, count: int = 5) -> list[str]:
        """Ids whose spelling is close to `word` (by id or label), best first: for the text of an error."""
        exact = self.find(word)
        if exact:
            return list(exact)[:count]
        from difflib import get_close_matches

        close = get_close_matches(plain(word), list(self.labels), n=count, cutoff=0.7)
        return list(dict.fromkeys(name for label in close for name in self.labels[label]))[:count]

    def faults(self) -> list[str]:
        """What is wrong with the data, one sentence each; empty when it is sound."""
        found = []
        for name, record in self.records.items():
            where = f"{record['file']}: {name}"
            if not record["definition"]:
                found.append(f"{where} has no definition")
            found += [
                f"{where} is broader-linked to {parent!r}, which is not described"
                for parent in record["broader"]
                if parent not in self.records
            ]
            if name in _upwards(self.records, record["broader"]):
                found.append(f"{where} is more general than itself")
            found += [f"{where}: the match with {match[1]} has no note" for match in record["matches"] if not match[3]]
        return found


def _upwards(records: Mapping[str, Record], start: Iterable[str]) -> set[str]:
    seen: set[str] = set()
    stack = list(start)
    while stack:
        name = stack.pop()
        if name not in seen and name in records:
            seen.add(name)
            stack += records[name]["broader"]
    return seen
