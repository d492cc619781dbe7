"""The checker: one function a rule. An error keeps a model out of the index; advice says what would make it better.

Rules of one model take a `Checked` (the model, its file, what is known); rules of the whole corpus take all files.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from analog.model.expected import load_expected
from analog.model.facts import Fact
from analog.model.findings import Finding, KnownTerms, Severity
from analog.model.load import LoadedCorpus, ModelFile, dotted, load_corpus
from analog.model.quantity import convertible, is_unit
from analog.model.types import (
    Measured,
    Model,
    PrincipleReason,
    Purpose,
    Quantity,
    StructureReason,
    SubPurpose,
    SubPurposeReason,
    SymbolQuantity,
    TriggerReason,
    parsed,
)

Location = tuple[str | int, ...]


@dataclass(frozen=True)
class Checked:
    """One model under the checker."""

    file: ModelFile
    terms: KnownTerms

    @property
    def model(self) -> Model:
        """The model itself."""
        return self.file.model

    def finding(
        self, severity: Severity, rule: str, location: Location, found: str, expected: str, mend: str
    ) -> Finding:
        """A finding at a place in this file."""
        return Finding(
            severity, rule, self.file.file, self.file.line_of(location), dotted(location), found, expected, mend
        )

    def error(self, rule: str, location: Location, found: str, expected: str, mend: str) -> Finding:
        """A finding that keeps the model out."""
        return self.finding("error", rule, location, found, expected, mend)

    def advice(self, rule: str, location: Location, found: str, expected: str, mend: str) -> Finding:
        """A finding that the author may weigh."""
        return self.finding("advice", rule, location, found, expected, mend)


Rule = Callable[[Checked], Iterable[Finding]]


def check_corpus(corpus: LoadedCorpus, terms: KnownTerms) -> list[Finding]:
    """All findings, those of the format first, then rule by rule, in the order of files and lines."""
    findings = list(corpus.findings)
    for file in corpus.files:
        checked = Checked(file, terms)
        for rule in MODEL_RULES:
            findings.extend(rule(checked))
    for corpus_rule in CORPUS_RULES:
        findings.extend(corpus_rule(corpus.files, terms))
    return sorted(findings, key=lambda f: (f.file, f.line or 0, f.rule, f.field))


@dataclass(frozen=True)
class CheckReport:
    """The findings for some files, and how many models were read in them."""

    findings: tuple[Finding, ...]
    models: int


def check_paths(paths: Sequence[Path], corpus: Path, terms: KnownTerms) -> CheckReport:
    """Check files and folders; their sub-purposes may name models of `corpus` too, which is not itself reported on."""
    wanted = load_corpus(*paths)
    mine = {file.file for file in wanted.files} | {finding.file for finding in wanted.findings}
    places = {Path(name).resolve() for name in mine}
    around = load_corpus(corpus) if corpus.is_dir() else LoadedCorpus((), ())
    ids = {file.model.id for file in wanted.files}
    others = tuple(f for f in around.files if Path(f.file).resolve() not in places and f.model.id not in ids)
    findings = check_corpus(LoadedCorpus(wanted.files + others, wanted.findings), terms)
    known = {file.model.id for file in (*wanted.files, *others)}
    beside = [finding for path in paths if path.is_dir() for finding in load_expected(path, known).findings]
    return CheckReport((*(f for f in findings if f.file in mine), *beside), len(mine))


def faultless(corpus: LoadedCorpus, findings: Iterable[Finding]) -> tuple[Model, ...]:
    """The models of files without an error."""
    faulty = {finding.file for finding in findings if finding.severity == "error"}
    return tuple(file.model for file in corpus.files if file.file not in faulty)


# What a model names ---------------------------------------------------------------------------------------------------


def _facts(model: Model) -> Iterator[tuple[Location, Fact]]:
    for index, text in enumerate(model.structure):
        yield ("structure", index), parsed(text)
    for s, state in enumerate(model.states):
        for f, text in enumerate(state.facts):
            yield ("states", s, "facts", f), parsed(text)
    for t, transition in enumerate(model.transitions):
        for r, reason in enumerate(transition.reasons):
            if isinstance(reason, StructureReason):
                yield ("transitions", t, "reasons", r, "fact"), parsed(reason.fact)


def _quantities(model: Model) -> Iterator[tuple[Location, Quantity]]:
    for index, quantity in enumerate(model.sizes):
        yield ("sizes", index), quantity
    for p, part in enumerate(model.parts):
        for q, quantity in enumerate(part.properties):
            yield ("parts", p, "properties", q), quantity


def _symbol_values(model: Model) -> Iterator[tuple[Location, PrincipleReason, SymbolQuantity]]:
    for t, transition in enumerate(model.transitions):
        for r, reason in enumerate(transition.reasons):
            if isinstance(reason, PrincipleReason):
                for v, value in enumerate(reason.values):
                    yield ("transitions", t, "reasons", r, "values", v), reason, value


def _measured(model: Model) -> Iterator[tuple[Location, Measured]]:
    yield from _quantities(model)
    for location, _, value in _symbol_values(model):
        yield location, value


def _purpose_lists(model: Model) -> tuple[tuple[str, Sequence[Purpose | SubPurpose]], ...]:
    return ("purposes", model.purposes), ("sub_purposes", model.sub_purposes)


def _part_references(model: Model) -> Iterator[tuple[Location, str]]:
    for location, fact in _facts(model):
        for part in fact.parts:
            yield location, part
    for name, purposes in _purpose_lists(model):
        for index, purpose in enumerate(purposes):
            yield (name, index, "object"), purpose.object
            if purpose.where is not None:
                yield (name, index, "where", "part"), purpose.where.part
    for index, sub in enumerate(model.sub_purposes):
        for part in sub.roles:
            yield ("sub_purposes", index, "roles", part), part
    for t, transition in enumerate(model.transitions):
        for n, need in enumerate(transition.needs):
            part_id = getattr(need, "part", None)
            if part_id is not None:
                yield ("transitions", t, "needs", n, "part"), part_id
    for location, _, value in _symbol_values(model):
        if value.part is not None:
            yield (*location, "part"), value.part


def _sources_cited(model: Model) -> Iterator[tuple[Location, str]]:
    for location, quantity in _measured(model):
        yield (*location, "source"), quantity.source
    for t, transition in enumerate(model.transitions):
        for n, need in enumerate(transition.needs):
            source = getattr(need, "source", None)
            if source is not None:
                yield ("transitions", t, "needs", n, "source"), source
    for index, limit in enumerate(model.limits):
        if limit.source is not None:
            yield ("limits", index, "source"), limit.source
    for index, precedent in enumerate(model.precedents):
        yield ("precedents", index, "source"), precedent.source
    for index, dispute in enumerate(model.disputes):
        for s, source in enumerate(dispute.sources):
            yield ("disputes", index, "sources", s), source


def _reached(model: Model, start: str) -> set[str]:
    """States that transitions lead to from `start`, itself included."""
    reached, frontier = {start}, [start]
    while frontier:
        state = frontier.pop()
        for transition in model.transitions:
            if transition.from_state == state and transition.to_state not in reached:
                reached.add(transition.to_state)
                frontier.append(transition.to_state)
    return reached


# Rules of one model ---------------------------------------------------------------------------------------------------


def file_name(checked: Checked) -> Iterator[Finding]:
    """A model stands in a file of its own name, so that it can be found by its id."""
    stem = Path(checked.file.file).stem
    if stem != checked.model.id:
        yield checked.error(
            "file-name",
            ("id",),
            f"id {checked.model.id!r} in file {stem!r}",
            "the same name",
            "Rename the file or the id.",
        )


def unique_ids(checked: Checked) -> Iterator[Finding]:
    """Ids are unique within each list of a model."""
    model = checked.model
    lists: dict[str, list[str]] = {
        "parts": [part.id for part in model.parts],
        "states": [state.id for state in model.states],
        "transitions": [transition.id for transition in model.transitions],
        "purposes": [purpose.id for purpose in model.purposes],
        "sub_purposes": [purpose.id for purpose in model.sub_purposes],
        "sources": [source.key for source in model.sources],
    }
    for name, ids in lists.items():
        for identifier, count in Counter(ids).items():
            if count > 1:
                index = len(ids) - 1 - ids[::-1].index(identifier)
                yield checked.error(
                    "repeated-id", (name, index), f"{identifier!r} {count} times", "each id once", "Rename one of them."
                )


def has_transition(checked: Checked) -> Iterator[Finding]:
    """A model without a transition explains nothing."""
    if not checked.model.transitions:
        yield checked.error(
            "no-transition",
            ("transitions",),
            "no transition",
            "at least one transition from state to state",
            "Write the step from the initial towards the objective state and why it happens.",
        )


def transitions_have_reasons(checked: Checked) -> Iterator[Finding]:
    """Every transition says why it happens."""
    for index, transition in enumerate(checked.model.transitions):
        if not transition.reasons:
            yield checked.error(
                "no-reason",
                ("transitions", index),
                f"transition {transition.id!r} without a reason",
                "at least one principle, structure, sub-purpose or trigger",
                "Say what makes this step happen.",
            )


def objectives_reached(checked: Checked) -> Iterator[Finding]:
    """From each purpose's initial state, transitions lead to its objective state."""
    model = checked.model
    states = {state.id for state in model.states}
    for index, purpose in enumerate(model.purposes):
        for name in ("initial", "objective"):
            state = getattr(purpose, name)
            if state not in states:
                yield checked.error(
                    "unknown-state",
                    ("purposes", index, name),
                    f"{state!r}",
                    f"one of {', '.join(sorted(states))}",
                    "Name a declared state.",
                )
        if purpose.initial in states and purpose.objective in states and model.transitions:
            if purpose.objective not in _reached(model, purpose.initial):
                yield checked.error(
                    "objective-not-reached",
                    ("purposes", index, "objective"),
                    f"{purpose.objective!r} is never reached from {purpose.initial!r}",
                    "a chain of transitions between them",
                    "Add the missing transition, or correct the state.",
                )
            elif purpose.initial == purpose.objective:
                yield checked.error(
                    "no-change",
                    ("purposes", index, "objective"),
                    "the same state before and after",
                    "two different states",
                    "Give the purpose the state in which the trouble is gone (or, where something is kept, is over).",
                )


def course_runs(checked: Checked) -> Iterator[Finding]:
    """The primary course leads from the first purpose's initial state to its objective, step by step."""
    model = checked.model
    by_id = {transition.id: transition for transition in model.transitions}
    if not model.course:
        if model.transitions:
            yield checked.error(
                "course",
                ("course",),
                "no course",
                "the transitions from the first purpose's initial to its objective state, in order",
                "List the ids of the transitions.",
            )
        return
    at = model.purposes[0].initial
    for index, step in enumerate(model.course):
        if step not in by_id:
            yield checked.error(
                "course", ("course", index), f"{step!r}", f"one of {', '.join(by_id)}", "Name a declared transition."
            )
            return
        if by_id[step].from_state != at:
            yield checked.error(
                "course",
                ("course", index),
                f"{step!r} starts from {by_id[step].from_state!r}",
                f"a transition from {at!r}",
                "Order the course so that each step starts where the last one ended.",
            )
            return
        at = by_id[step].to_state
    if at != model.purposes[0].objective:
        yield checked.error(
            "course",
            ("course",),
            f"the course ends in {at!r}",
            f"the objective {model.purposes[0].objective!r}",
            "Continue the course to the objective.",
        )


def states_declared_and_used(checked: Checked) -> Iterator[Finding]:
    """Transitions join declared states, and every state lies on some transition."""
    model = checked.model
    states = {state.id for state in model.states}
    used: set[str] = set()
    for index, transition in enumerate(model.transitions):
        for name, state in (("from", transition.from_state), ("to", transition.to_state)):
            used.add(state)
            if state not in states:
                yield checked.error(
                    "unknown-state",
                    ("transitions", index, name),
                    f"{state!r}",
                    f"one of {', '.join(sorted(states))}",
                    "Name a declared state.",
                )
    for index, state_record in enumerate(model.states):
        if model.transitions and state_record.id not in used:
            yield checked.error(
                "state-unused",
                ("states", index),
                f"state {state_record.id!r} on no transition",
                "every state entered or left by a transition",
                "Join it by a transition or remove it.",
            )


def parts_declared(checked: Checked) -> Iterator[Finding]:
    """Facts, purposes and needs speak only of declared parts."""
    declared = frozenset(part.id for part in checked.model.parts)
    for location, part in _part_references(checked.model):
        if part not in declared:
            near = checked.terms.near(part, declared)
            yield checked.error(
                "undeclared-part",
                location,
                f"{part!r}",
                f"a declared part{' such as ' + ', '.join(near) if near else ''}",
                "Declare the part or correct its name.",
            )


def parts_used(checked: Checked) -> Iterator[Finding]:
    """A part that no fact, purpose or need mentions plays no role."""
    used = {part for _, part in _part_references(checked.model)}
    for index, part in enumerate(checked.model.parts):
        if part.id not in used:
            yield checked.error(
                "part-unused",
                ("parts", index),
                f"part {part.id!r} in no fact, purpose or need",
                "every part used",
                "Say in a state or in the structure what the part does, or remove it.",
            )


def terms_known(checked: Checked) -> Iterator[Finding]:
    """Verbs, flows, kinds, relations and principles come from the vocabularies."""
    model, terms = checked.model, checked.terms

    def unknown(rule: str, location: Location, name: str, allowed: frozenset[str]) -> Iterator[Finding]:
        if allowed and name not in allowed:
            near = terms.near(name, allowed)
            yield checked.error(
                rule,
                location,
                f"{name!r}",
                f"a term of the vocabulary{'; nearest: ' + ', '.join(near) if near else ''}",
                "Use a listed term, or add the term to the vocabulary with a definition.",
            )

    for name, group in _purpose_lists(model):
        for index, purpose in enumerate(group):
            yield from unknown("unknown-verb", (name, index, "verb"), purpose.verb, terms.verbs)
            yield from unknown("unknown-flow", (name, index, "flow"), purpose.flow, terms.flows)
    for index, part in enumerate(model.parts):
        yield from unknown("unknown-kind", ("parts", index, "kind"), part.kind, terms.kinds)
    for location, fact in _facts(model):
        yield from unknown("unknown-relation", location, fact.relation, terms.relations)
    for t, transition in enumerate(model.transitions):
        for r, reason in enumerate(transition.reasons):
            if isinstance(reason, PrincipleReason):
                yield from unknown(
                    "unknown-principle",
                    ("transitions", t, "reasons", r, "principle"),
                    reason.principle,
                    terms.principles,
                )
            if isinstance(reason, TriggerReason):
                yield from unknown("unknown-kind", ("transitions", t, "reasons", r, "kind"), reason.kind, terms.kinds)
        for n, need in enumerate(transition.needs):
            kind, energy = getattr(need, "kind", None), getattr(need, "energy", None)
            if kind is not None:
                yield from unknown("unknown-kind", ("transitions", t, "needs", n, "kind"), kind, terms.kinds)
            if energy is not None:
                yield from unknown("unknown-flow", ("transitions", t, "needs", n, "energy"), energy, terms.flows)


def symbols_known(checked: Checked) -> Iterator[Finding]:
    """A value is one of a symbol or group of its principle, once, in a unit that measures the same thing."""
    told: set[tuple[Location, str]] = set()
    for location, reason, value in _symbol_values(checked.model):
        units = checked.terms.symbols.get(reason.principle)
        if units is None:  # another rule tells of an unknown principle
            continue
        if value.symbol not in units:
            yield checked.error(
                "unknown-symbol",
                (*location, "symbol"),
                f"{value.symbol!r}",
                f"one of {', '.join(units)}",
                f"Name a symbol or a group of {reason.principle}.",
            )
        elif is_unit(value.unit) and not convertible(value.unit, units[value.symbol]):
            yield checked.error(
                "unit-of-symbol",
                (*location, "unit"),
                f"{value.unit!r}",
                f"a unit that converts to {units[value.symbol]!r}",
                "Give the value in such a unit.",
            )
        if (location[:-1], value.symbol) in told:
            yield checked.error(
                "symbol-twice",
                (*location, "symbol"),
                f"{value.symbol!r} a second time",
                "one value a symbol",
                "Give one value, or a range.",
            )
        told.add((location[:-1], value.symbol))


def units_known(checked: Checked) -> Iterator[Finding]:
    """Every unit is one that pint can convert."""
    model = checked.model
    places: list[tuple[Location, str]] = [
        ((*location, "unit"), quantity.unit) for location, quantity in _measured(model)
    ]
    for t, transition in enumerate(model.transitions):
        for n, need in enumerate(transition.needs):
            unit = getattr(need, "unit", None)
            if unit is not None:
                places.append((("transitions", t, "needs", n, "unit"), unit))
    for location, fact in _facts(model):
        places.extend((location, a.unit) for a in fact.arguments if a.number is not None and a.unit)
    for location, unit in places:
        if not is_unit(unit):
            yield checked.error(
                "unknown-unit",
                location,
                f"{unit!r}",
                'a unit such as "mm", "Pa", "degree", "dimensionless"',
                "Write the unit as pint names it.",
            )


def sources_known_and_cited(checked: Checked) -> Iterator[Finding]:
    """What is cited is listed, and what is listed is cited."""
    model = checked.model
    keys = {source.key for source in model.sources}
    cited = list(_sources_cited(model))
    for location, key in cited:
        if key not in keys:
            yield checked.error(
                "unknown-source",
                location,
                f"{key!r}",
                f"one of {', '.join(sorted(keys)) or 'the sources (none listed)'}",
                "List the source or correct the key.",
            )
    used = {key for _, key in cited}
    for index, source in enumerate(model.sources):
        if source.key not in used:
            yield checked.error(
                "source-uncited",
                ("sources", index),
                f"source {source.key!r} that nothing cites",
                "every source cited by a value, need, limit, precedent or dispute",
                "Cite it where it is the evidence, or remove it.",
            )


def memory_is_marked(checked: Checked) -> Iterator[Finding]:
    """A value that rests on general knowledge says that it is from memory."""
    memory = {source.key for source in checked.model.sources if source.type == "memory"}
    places: list[tuple[Location, str, bool]] = [
        (location, q.source, q.from_memory) for location, q in _measured(checked.model)
    ]
    for t, transition in enumerate(checked.model.transitions):
        for n, need in enumerate(transition.needs):
            source = getattr(need, "source", None)
            if source is not None:
                places.append((("transitions", t, "needs", n), source, getattr(need, "from_memory", False)))
    for location, source, from_memory in places:
        if source in memory and not from_memory:
            yield checked.error(
                "memory-unmarked",
                location,
                f"a value that cites {source!r} without from_memory",
                "from_memory: true",
                "Mark the value as from memory, or cite a document.",
            )


def structure_reasons_hold(checked: Checked) -> Iterator[Finding]:
    """A structural reason is a fact of the structure, or of the state the transition leaves or enters."""
    model = checked.model
    states = {state.id: set(map(str, state.parsed)) for state in model.states}
    structure = set(map(str, model.parsed_structure))
    for t, transition in enumerate(model.transitions):
        around = structure | states.get(transition.from_state, set()) | states.get(transition.to_state, set())
        for r, reason in enumerate(transition.reasons):
            if isinstance(reason, StructureReason) and str(parsed(reason.fact)) not in around:
                yield checked.error(
                    "structure-not-stated",
                    ("transitions", t, "reasons", r, "fact"),
                    f"{reason.fact}",
                    "a fact listed under structure, or in the state before or after",
                    "Add the fact to the structure, or correct the reason.",
                )


def sub_purposes_explained(checked: Checked) -> Iterator[Finding]:
    """Reasons name declared sub-purposes; a sub-purpose that no transition uses explains nothing."""
    model = checked.model
    declared = {sub.id for sub in model.sub_purposes}
    used = set()
    for t, transition in enumerate(model.transitions):
        for r, reason in enumerate(transition.reasons):
            if isinstance(reason, SubPurposeReason):
                used.add(reason.purpose)
                if reason.purpose not in declared:
                    yield checked.error(
                        "unknown-sub-purpose",
                        ("transitions", t, "reasons", r, "purpose"),
                        f"{reason.purpose!r}",
                        f"one of {', '.join(sorted(declared)) or 'the sub-purposes (none declared)'}",
                        "Declare the sub-purpose or correct its id.",
                    )
    for index, sub in enumerate(model.sub_purposes):
        if sub.id not in used:
            yield checked.error(
                "sub-purpose-unused",
                ("sub_purposes", index),
                f"sub-purpose {sub.id!r} that no transition cites",
                "a sub-purpose reason in the transition it explains",
                "Cite it as a reason or remove it.",
            )
        if sub.model is None:
            yield checked.advice(
                "sub-purpose-open",
                ("sub_purposes", index, "model"),
                "no model yet",
                "a model that accounts for it",
                "Write the model.",
            )


def purpose_changes_something(checked: Checked) -> Iterator[Finding]:
    """Before and after share a relation, so that the change can be seen and aligned."""
    model = checked.model
    states = {state.id: state for state in model.states}
    for index, purpose in enumerate(model.purposes):
        if purpose.initial not in states or purpose.objective not in states:
            continue
        before, after = states[purpose.initial].parsed, states[purpose.objective].parsed
        if set(before) == set(after):
            yield checked.error(
                "no-change",
                ("purposes", index),
                "the same facts before and after",
                "a difference",
                "State what the purpose changes.",
            )
        elif not any(purpose.object in fact.parts for fact in (*before, *after)):
            yield checked.advice(
                "object-unstated",
                ("purposes", index, "object"),
                f"no fact about {purpose.object!r} before or after",
                "the object in the initial and objective facts",
                "State the trouble and the result in facts about the object.",
            )


def depth(checked: Checked) -> Iterator[Finding]:
    """Advice on thin models: few states, reasons, needs, quantities, questions or limits."""
    model = checked.model
    reasons = sum(len(transition.reasons) for transition in model.transitions)
    if len(model.states) < 4:
        yield checked.advice(
            "few-states",
            ("states",),
            f"{len(model.states)} states",
            "at least 4",
            "Do not skip the state where the work is done.",
        )
    if model.transitions and reasons / len(model.transitions) < 1.6:
        yield checked.advice(
            "few-reasons",
            ("transitions",),
            f"{reasons / len(model.transitions):.2f} reasons a transition",
            "at least 1.6",
            "Add the structural relations and triggers that also act.",
        )
    without = [transition.id for transition in model.transitions if not transition.needs]
    if len(without) > len(model.transitions) / 2:
        yield checked.advice(
            "few-needs",
            ("transitions",),
            f"no needs on {', '.join(without)}",
            "the flow, medium, energy, size or temperature each step needs",
            "Say what each step cannot do without.",
        )
    quantities = sum(1 for _ in _measured(model))
    if quantities < 4:
        yield checked.advice(
            "few-quantities",
            ("parts",),
            f"{quantities} quantities",
            "at least 4 with source",
            "Add sizes and properties that decide whether the principle holds.",
        )
    if not 3 <= len(model.questions) <= 6:
        yield checked.advice(
            "questions",
            ("questions",),
            f"{len(model.questions)} questions",
            "3 to 6, from different industries",
            "Write what an engineer would ask.",
        )
    if len(model.limits) < 2:
        yield checked.advice(
            "few-limits", ("limits",), f"{len(model.limits)} limits", "at least 2", "Say where the mechanism fails."
        )


_SMALL_WORDS = {"with", "from", "that", "other", "their", "body", "water", "snow", "sand", "soil", "wall", "surface"}
"""Words of organisms' names that an engineer says too."""


def questions_speak_engineering(checked: Checked) -> Iterator[Finding]:
    """A question that names the organism only finds itself."""
    organism = f"{checked.model.organism.common} {checked.model.organism.latin or ''}".replace("-", " ")
    names = {word.lower() for word in organism.split() if len(word) > 3} - _SMALL_WORDS
    for index, question in enumerate(checked.model.questions):
        said = names & {word.strip("?.,").lower() for word in question.text.replace("-", " ").split()}
        if said:
            yield checked.advice(
                "question-names-organism",
                ("questions", index),
                f"the words {', '.join(sorted(said))}",
                "an engineer's words",
                "Ask as somebody who has never heard of the organism.",
            )


MODEL_RULES: tuple[Rule, ...] = (
    file_name,
    unique_ids,
    has_transition,
    transitions_have_reasons,
    objectives_reached,
    course_runs,
    states_declared_and_used,
    parts_declared,
    parts_used,
    terms_known,
    symbols_known,
    units_known,
    sources_known_and_cited,
    memory_is_marked,
    structure_reasons_hold,
    sub_purposes_explained,
    purpose_changes_something,
    depth,
    questions_speak_engineering,
)


# Rules of the whole corpus --------------------------------------------------------------------------------------------


def one_file_a_model(files: tuple[ModelFile, ...], terms: KnownTerms) -> Iterator[Finding]:
    """An id stands for one model."""
    first: dict[str, str] = {}
    for file in files:
        if file.model.id in first:
            yield Checked(file, terms).error(
                "repeated-model",
                ("id",),
                f"{file.model.id!r}, also in {first[file.model.id]}",
                "one file a model",
                "Rename or remove one of them.",
            )
        first.setdefault(file.model.id, file.file)


def sub_purposes_resolve(files: tuple[ModelFile, ...], terms: KnownTerms) -> Iterator[Finding]:
    """A sub-purpose names a model of the corpus, and its roles name that model's parts."""
    models = {file.model.id: file.model for file in files}
    for file in files:
        checked = Checked(file, terms)
        kinds = {part.id: part.kind for part in file.model.parts}
        for index, sub in enumerate(file.model.sub_purposes):
            if sub.model is None:
                continue
            if sub.model not in models:
                near = terms.near(sub.model, frozenset(models))
                yield checked.error(
                    "unknown-model",
                    ("sub_purposes", index, "model"),
                    f"{sub.model!r}",
                    f"a model of the corpus{'; nearest: ' + ', '.join(near) if near else ''}",
                    "Write that model, correct the id, or leave it null for now.",
                )
                continue
            theirs = {part.id: part.kind for part in models[sub.model].parts}
            for mine, other in sub.roles.items():
                location = ("sub_purposes", index, "roles", mine)
                if other not in theirs:
                    yield checked.error(
                        "undeclared-part",
                        location,
                        f"{other!r}",
                        f"a part of {sub.model}: {', '.join(theirs)}",
                        "Correct the name.",
                    )
                elif (
                    mine in kinds
                    and terms.kind_similarity is not None
                    and terms.kind_similarity(kinds[mine], theirs[other]) <= 0
                ):
                    yield checked.advice(
                        "roles-unlike",
                        location,
                        f"{kinds[mine]} stands for {theirs[other]}",
                        "kinds that meet in the thesaurus",
                        "Check the role, or connect the kinds in the thesaurus.",
                    )


def no_cycle(files: tuple[ModelFile, ...], terms: KnownTerms) -> Iterator[Finding]:
    """Sub-purposes lead downwards only."""
    children = {
        file.model.id: [(i, sub.model) for i, sub in enumerate(file.model.sub_purposes) if sub.model] for file in files
    }

    def leads_back(start: str) -> tuple[int, list[str]] | None:
        for index, child in children[start]:
            stack, seen = [(child, [start, child])], set[str]()
            while stack:
                at, path = stack.pop()
                if at == start:
                    return index, path
                if at in seen or at not in children:
                    continue
                seen.add(at)
                stack.extend((following, [*path, following]) for _, following in children[at])
        return None

    for file in files:
        found = leads_back(file.model.id)
        if found is not None:
            index, path = found
            yield Checked(file, terms).error(
                "sub-purpose-cycle",
                ("sub_purposes", index, "model"),
                " -> ".join(path),
                "sub-purposes that lead down to simpler models",
                "Break the circle: one of them does not explain the other.",
            )


CORPUS_RULES: tuple[Callable[[tuple[ModelFile, ...], KnownTerms], Iterable[Finding]], ...] = (
    one_file_a_model,
    sub_purposes_resolve,
    no_cycle,
)
