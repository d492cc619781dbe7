"""Problem files, and options that correct a reading.

A problem file is YAML or JSON with any of the fields of a problem, all optional but one of `text` and `purposes`:

    text: remove dust from solar panels
    given: [no water available, "particle size 5-50 um"]
    purposes: [{verb: separate, object: dust, where: {relation: from, part: panel}}]
    things: [{id: dust, kind: dust}, {id: panel, name: solar panel, kind: panel-surface}]
    initial: ["adheres-to(dust, panel)"]
    objective: ["not adheres-to(dust, panel)"]

What the file says overrules what is read from its `text`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, get_args

from pydantic import ValidationError

from analog.errors import AnalogError, FormatError, InputError, UnknownTermError
from analog.model.facts import parse_fact
from analog.model.types import Place
from analog.model.yaml_file import LineOf, load_yaml
from analog.problem.change import facts_of
from analog.problem.given import read_conditions
from analog.problem.read import read_problem
from analog.problem.text import identifier, plain_text
from analog.problem.types import Condition, Problem, ProblemPurpose, Thing

if TYPE_CHECKING:
    from analog.problem.phrases import PhraseMemory
    from analog.vocabulary import Vocabulary

FIELDS = ("text", "purposes", "things", "initial", "objective", "relations", "given", "conditions", "notes")
OVERRULING = ("verb", "object", "where", "kind", "negated", "flow")
MAXIMUM_ITEMS = 200
_PLACES = list(get_args(Place.model_fields["relation"].annotation))


def load_problem(
    path: Path,
    vocabulary: Vocabulary,
    phrases: PhraseMemory | None = None,
    given: Sequence[str] = (),
    text: str | None = None,
) -> Problem:
    """Read a problem file; `given` adds conditions to the file's own, `text` stands in for the file's own sentence.

    Raises FormatError, with file, line and field, for anything that is not a problem; ReadingError when only a text
    is given and it cannot be read.
    """
    data, line_of = load_yaml(path)
    if text is not None and isinstance(data, dict):
        data = {**data, "text": text}
    return _Merge(str(path), data, line_of, vocabulary, phrases).problem(given)


class _Merge:
    """One problem file on its way to a problem."""

    def __init__(
        self, path: str, data: Any, line_of: LineOf, vocabulary: Vocabulary, phrases: PhraseMemory | None
    ) -> None:
        self.path, self.line_of, self.vocabulary, self.phrases = path, line_of, vocabulary, phrases
        if not isinstance(data, dict):
            raise self.fault(
                f"expected a mapping with fields like {', '.join(FIELDS[:4])}, found {_kind_of_value(data)}"
            )
        self.data: dict[str, Any] = data
        for key in data:
            if key not in FIELDS:
                raise self.fault(f"unknown field {key[:40]!r}; allowed: {', '.join(FIELDS)}", key)
        for key in FIELDS[1:]:
            if data.get(key) is None:
                data.pop(key, None)
            elif not isinstance(data[key], list):
                raise self.fault(f"expected a list, found {_kind_of_value(data[key])}", key)
            elif len(data[key]) > MAXIMUM_ITEMS:
                raise self.fault(f"expected at most {MAXIMUM_ITEMS} entries, found {len(data[key]):,}", key)
        text = data.get("text")
        if text is not None and not isinstance(text, str):
            raise self.fault(f"expected text, found {_kind_of_value(text)}", "text")
        if not text and not data.get("purposes"):
            raise self.fault("expected `text` or `purposes`")

    def fault(self, message: str, *field: str | int) -> FormatError:
        name = ".".join(str(part) for part in field)
        return FormatError(message, path=self.path, line=self.line_of(tuple(field)), field=name)

    def problem(self, given: Sequence[str]) -> Problem:
        conditions = self.conditions()
        base = self.base(given)
        things = {thing.id: thing for thing in (base.things if base else ())}
        explicit = self.things()
        things.update({thing.id: thing for thing in explicit})
        fields: dict[str, Any] = {}
        if "purposes" in self.data:
            purposes = self.purposes(things)
            fields["purposes"] = purposes
            used = {name for p in purposes for name in (p.object, p.where.part if p.where else None) if name}
            things = {name: thing for name, thing in things.items() if name in used or thing in explicit}
            initial, objective = self.changes(purposes, things)
            fields["initial"], fields["objective"] = initial, objective
        elif base is not None:
            fields["purposes"], fields["initial"], fields["objective"] = base.purposes, base.initial, base.objective
        for key in ("initial", "objective", "relations"):
            if key in self.data:
                fields[key] = self.facts(key, things)
        from_text = (
            base.conditions if base else tuple(found for c in given for found in read_conditions(c, self.vocabulary))
        )
        fields["conditions"] = (*conditions, *(c for c in from_text if not _ruled(c, conditions)))
        fields["notes"] = (*(base.notes if base and "purposes" not in self.data else ()), *self.notes())
        fields["things"] = tuple(things.values())
        fields["text"] = (plain_text(self.data.get("text") or "") or fields["purposes"][0].text)[:2000]
        try:
            return Problem(**fields)
        except ValidationError as error:
            first = error.errors()[0]
            raise self.fault(str(first["msg"]), *(part for part in first["loc"])) from None

    def base(self, given: Sequence[str]) -> Problem | None:
        text = self.data.get("text")
        if not text:
            return None
        try:
            return read_problem(text, given, self.vocabulary, self.phrases)
        except InputError as error:
            if "purposes" in self.data:
                return None
            raise self.fault(str(error), "text") from None

    def notes(self) -> list[str]:
        for k, note in enumerate(self.data.get("notes", ())):
            if not isinstance(note, str) or not note.strip() or len(note) > 2000:
                raise self.fault("expected a note of 1 to 2000 characters", "notes", k)
        return list(self.data.get("notes", ()))

    def things(self) -> list[Thing]:
        found = []
        for k, entry in enumerate(self.data.get("things", ())):
            if isinstance(entry, str):
                entry = {"id": identifier(entry), "name": entry}
            if not isinstance(entry, dict):
                raise self.fault(f"expected a name or a mapping, found {_kind_of_value(entry)}", "things", k)
            entry = dict(entry)
            if "id" not in entry and isinstance(entry.get("name"), str):
                entry["id"] = identifier(entry["name"])
            if "name" not in entry and isinstance(entry.get("id"), str):
                entry["name"] = entry["id"].replace("-", " ")
            kind = entry.get("kind")
            if kind is not None:
                if not isinstance(kind, str) or not self.vocabulary.kinds.known(kind):
                    raise self.fault(
                        str(UnknownTermError("kind", str(kind)[:60], self.vocabulary.kinds.near(str(kind)[:60]))),
                        "things",
                        k,
                        "kind",
                    )
                entry.setdefault("kind_similarity", 1.0)
            elif isinstance(entry.get("name"), str):
                match = self.vocabulary.kind_of(entry["name"][:200])
                if match is not None:
                    entry["kind"], entry["kind_similarity"] = match.kind, round(match.similarity, 4)
            found.append(self.record(Thing, entry, "things", k))
        return found

    def purposes(self, things: dict[str, Thing]) -> tuple[ProblemPurpose, ...]:
        found = []
        for k, entry in enumerate(self.data["purposes"]):
            if not isinstance(entry, dict):
                raise self.fault(f"expected a mapping, found {_kind_of_value(entry)}", "purposes", k)
            entry = dict(entry)
            verb = entry.get("verb")
            if not isinstance(verb, str) or not self.vocabulary.verbs.known(verb):
                raise self.fault(
                    str(UnknownTermError("verb", str(verb)[:60], self.vocabulary.verbs.near(str(verb)[:60]))),
                    "purposes",
                    k,
                    "verb",
                )
            flow = entry.get("flow")
            if flow is not None and (not isinstance(flow, str) or not self.vocabulary.flows.known(flow)):
                raise self.fault(
                    str(UnknownTermError("flow", str(flow)[:60], self.vocabulary.flows.near(str(flow)[:60]))),
                    "purposes",
                    k,
                    "flow",
                )
            if isinstance(entry.get("where"), str):
                entry["where"] = dict(zip(("relation", "part"), _place(entry["where"]), strict=True))
            for holder, key in ((entry, "object"), (entry.get("where"), "part")):
                name = holder.get(key) if isinstance(holder, dict) else None
                if isinstance(name, str) and name.strip():
                    holder[key] = self.refer(name, things)  # type: ignore[index]
            thing = things.get(entry["object"]) if isinstance(entry.get("object"), str) else None
            if flow is None and thing is not None and thing.kind is not None:
                entry["flow"] = self.vocabulary.flow_of_kind(thing.kind)
            place = entry["where"].get("part") if isinstance(entry.get("where"), dict) else None
            entry.setdefault("text", f"{verb} {thing.name if thing else ''} {place or ''}".strip())
            found.append(self.record(ProblemPurpose, entry, "purposes", k))
        return tuple(found)

    def refer(self, name: str, things: dict[str, Thing]) -> str:
        """The id of a thing named in a purpose; one not declared is declared on the way."""
        thing_id = name if name in things else identifier(name[:200])
        if thing_id not in things:
            things[thing_id] = make_thing(name[:200].replace("-", " "), self.vocabulary)
        return thing_id

    def changes(
        self, purposes: tuple[ProblemPurpose, ...], things: dict[str, Thing]
    ) -> tuple[tuple[str, ...], tuple[str, ...]]:
        initial: list[str] = []
        objective: list[str] = []
        for purpose in purposes:
            before, after = change_of(purpose, things, self.vocabulary)
            initial += before
            objective += after
        return tuple(dict.fromkeys(initial)), tuple(dict.fromkeys(objective))

    def facts(self, key: str, things: dict[str, Thing]) -> tuple[str, ...]:
        found = []
        for k, text in enumerate(self.data[key]):
            if not isinstance(text, str) or len(text) > 200:
                raise self.fault('expected a fact such as "adheres-to(dust, panel)"', key, k)
            try:
                fact = parse_fact(text)
            except ValueError as error:
                raise self.fault(str(error), key, k) from None
            if not self.vocabulary.relations.known(fact.relation):
                near = self.vocabulary.relations.near(fact.relation)
                raise self.fault(str(UnknownTermError("relation", fact.relation, near)), key, k)
            for part in fact.parts:
                if part not in things:
                    raise self.fault(
                        f"{part!r} is no thing of this problem; declared: {', '.join(things)[:300]}", key, k
                    )
            found.append(str(fact))
        return tuple(found)

    def conditions(self) -> tuple[Condition, ...]:
        found: list[Condition] = []
        for k, entry in enumerate(self.data.get("given", ())):
            if not isinstance(entry, (str, int, float)) or isinstance(entry, bool):
                raise self.fault(f"expected a condition in words, found {_kind_of_value(entry)}", "given", k)
            try:
                found += read_conditions(str(entry), self.vocabulary)
            except AnalogError as error:
                raise self.fault(str(error), "given", k) from None
        for k, entry in enumerate(self.data.get("conditions", ())):
            if not isinstance(entry, dict):
                raise self.fault(f"expected a mapping, found {_kind_of_value(entry)}", "conditions", k)
            condition = self.record(Condition, {"text": str(entry.get("type", "condition")), **entry}, "conditions", k)
            if condition.kind is not None and not self.vocabulary.kinds.known(condition.kind):
                raise self.fault(
                    str(UnknownTermError("kind", condition.kind, self.vocabulary.kinds.near(condition.kind))),
                    "conditions",
                    k,
                    "kind",
                )
            if condition.low is not None and condition.high is not None and condition.low > condition.high:
                raise self.fault(f"expected low <= high, found {condition.low} > {condition.high}", "conditions", k)
            found.append(condition)
        return tuple(found)

    def record(self, of: Any, entry: Mapping[str, Any], *field: str | int) -> Any:
        try:
            return of.model_validate(dict(entry))
        except ValidationError as error:
            first = error.errors()[0]
            found = first.get("input")
            shown = f", found {str(found)[:60]!r}" if not isinstance(found, (dict, list)) else ""
            raise self.fault(f"{first['msg']}{shown}", *field, *(part for part in first["loc"])) from None


def _ruled(condition: Condition, by: Sequence[Condition]) -> bool:
    return any(
        condition.type == other.type and condition.kind == other.kind and condition.quantity == other.quantity
        for other in by
    )


def _kind_of_value(value: Any) -> str:
    names = {
        dict: "a mapping",
        list: "a list",
        str: "text",
        bool: "true or false",
        type(None): "nothing",
        int: "a number",
        float: "a number",
    }
    return names.get(type(value), type(value).__name__)


def make_thing(name: str, vocabulary: Vocabulary, kind: str | None = None) -> Thing:
    """A thing by its name; its kind from the thesaurus unless given. Raises UnknownTermError for no known kind."""
    name = plain_text(name)[:200] or "thing"
    if kind is not None:
        if not vocabulary.kinds.known(kind):
            raise UnknownTermError("kind", kind[:60], vocabulary.kinds.near(kind[:60]))
        return Thing(id=identifier(name), name=name, kind=kind, kind_similarity=1.0)
    match = vocabulary.kind_of(name)
    return Thing(
        id=identifier(name),
        name=name,
        kind=match.kind if match else None,
        kind_similarity=round(match.similarity, 4) if match else 0.0,
    )


def change_of(
    purpose: ProblemPurpose, things: Mapping[str, Thing], vocabulary: Vocabulary
) -> tuple[list[str], list[str]]:
    """(initial, objective) facts of a purpose over things known by id."""
    thing = things[purpose.object]
    place = None
    if purpose.where is not None and purpose.where.part in things:
        where = things[purpose.where.part]
        place = (where.id, where.kind, purpose.where.relation)
    return facts_of(purpose.verb, purpose.negated, purpose.flow, (thing.id, thing.kind), place, vocabulary)


def _place(text: str) -> tuple[str, str]:
    words = text.split(maxsplit=1)
    if len(words) == 2 and words[0].lower() in _PLACES:
        return words[0].lower(), words[1]
    return "on", text


def overrule(problem: Problem, options: Mapping[str, str], vocabulary: Vocabulary) -> Problem:
    """Correct the reading of the first purpose.

    options : verb (a function), object (a phrase), where ("from the panel"), kind ("dust" for the object, or
    "panel=panel-surface" for any thing), negated ("yes" or "no"), flow. The facts before and after follow.

    Raises UnknownTermError for a verb, flow or kind that is in no vocabulary; InputError for another option.
    """
    for name in options:
        if name not in OVERRULING:
            raise InputError(f"Unknown correction {name[:40]!r}; allowed: {', '.join(f'{n}=…' for n in OVERRULING)}")
    purpose = problem.purposes[0]
    things = {thing.id: thing for thing in problem.things}
    update: dict[str, Any] = {}
    if verb := options.get("verb", "").strip().lower():
        if not vocabulary.verbs.known(verb):
            raise UnknownTermError("verb", verb[:60], vocabulary.verbs.near(verb[:60]))
        update |= {"verb": verb, "confidence": 1.0, "runners_up": ()}
    if flow := options.get("flow", "").strip().lower():
        if not vocabulary.flows.known(flow):
            raise UnknownTermError("flow", flow[:60], vocabulary.flows.near(flow[:60]))
        update["flow"] = flow
    if "negated" in options:
        word = options["negated"].strip().lower()
        if word not in {"yes", "no", "true", "false"}:
            raise InputError(f"Expected negated=yes or negated=no, got {options['negated'][:40]!r}")
        update["negated"] = word in {"yes", "true"}
    if name := options.get("object", "").strip():
        thing = make_thing(re.sub(r"^(?:the|a|an)\s+", "", name), vocabulary)
        things.setdefault(thing.id, thing)
        update["object"] = thing.id
    if name := options.get("where", "").strip():
        relation, phrase = _place(name)
        place = make_thing(re.sub(r"^(?:the|a|an)\s+", "", phrase), vocabulary)
        things.setdefault(place.id, place)
        update["where"] = Place.model_validate({"relation": relation, "part": place.id})
    if kind := options.get("kind", "").strip():
        target, _, wanted = kind.rpartition("=")
        target_id = identifier(target) if target else str(update.get("object", purpose.object))
        if target_id not in things:
            raise UnknownTermError("thing", target[:60], list(things))
        things[target_id] = make_thing(things[target_id].name, vocabulary, wanted.strip()).model_copy(
            update={"id": target_id}
        )
    changed = purpose.model_copy(update=update)
    thing = things[changed.object]
    if "flow" not in update and ("object" in update or "kind" in options) and thing.kind is not None:
        changed = changed.model_copy(update={"flow": vocabulary.flow_of_kind(thing.kind)})
    purposes = (changed, *problem.purposes[1:])
    old_before, old_after = change_of(purpose, {t.id: t for t in problem.things}, vocabulary)
    new_before, new_after = change_of(changed, things, vocabulary)
    used = {n for p in purposes for n in (p.object, p.where.part if p.where else None)}
    before = tuple(dict.fromkeys([*new_before, *(f for f in problem.initial if f not in old_before)]))
    after = tuple(dict.fromkeys([*new_after, *(f for f in problem.objective if f not in old_after)]))
    named = used | {part for fact in (*before, *after, *problem.relations) for part in parse_fact(fact).parts}
    kept = tuple(t for t in things.values() if t.id in named)
    return problem.model_copy(update={"purposes": purposes, "things": kept, "initial": before, "objective": after})
