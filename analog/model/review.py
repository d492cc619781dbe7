"""The review: which models are weakest and why, so that a keeper of the corpus knows where to work next.

One function a weakness. Each measures one thing as a part between 0 (as wished) and 1 (wholly missing); a model's
score is the plain sum of its parts, so that every score can be read off its parts and nothing is hidden in weights. The
wished amounts (`WISHED`) are our own choice: about what the better half of the first corpus reached. A weakness is no
fault: a model with a high score may be right in every word, and a model with a low one may be wrong.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

from analog.model.load import LoadedCorpus, ModelFile, load_corpus
from analog.model.types import Model, PrincipleReason, TriggerReason, measured
from analog.model.words import alike_pairs, overlap, words

WISHED = {"reasons a transition": 2.0, "quantities": 6, "limits": 4, "precedents": 1}
MODELS_ALIKE = 0.4
"""Signatures at least this alike are shown as near-duplicates; two models of one mechanism told twice reach 0.6."""
QUESTIONS_ALIKE = 0.4
"""Questions sharing at least this share of their content words are too alike."""


@dataclass(frozen=True)
class KindWords:
    """What the thesaurus says of a kind, handed in so that this room needs no thesaurus of its own.

    others : alternative labels. matches : links to other concepts or to WordNet. above : more general kinds at which it
    means something to meet (strength above 0).
    """

    others: int = 0
    matches: int = 0
    above: tuple[str, ...] = ()


@dataclass(frozen=True)
class Weakness:
    """One part of a score. part : 0..1. found : what it rests on, in words."""

    rule: str
    part: float
    found: str

    def to_dict(self) -> dict[str, Any]:
        """As plain data for JSON."""
        return {"rule": self.rule, "part": round(self.part, 4), "found": self.found}


@dataclass(frozen=True)
class Reviewed:
    """A model with its weaknesses, the heaviest first."""

    model: str
    file: str
    weaknesses: tuple[Weakness, ...]

    @property
    def score(self) -> float:
        """The sum of the parts; 0 is as wished."""
        return sum(weakness.part for weakness in self.weaknesses)

    def to_dict(self) -> dict[str, Any]:
        """As plain data for JSON."""
        return {
            "model": self.model,
            "file": self.file,
            "score": round(self.score, 4),
            "weaknesses": [weakness.to_dict() for weakness in self.weaknesses],
        }


@dataclass(frozen=True)
class Review:
    """Models by weakness, weakest first; kinds that only one model uses; kinds no engineer's word leads to."""

    models: tuple[Reviewed, ...]
    kinds_of_one_model: Mapping[str, str] = field(default_factory=dict)
    unconnected_kinds: tuple[str, ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """As plain data for JSON."""
        return {
            "models": [reviewed.to_dict() for reviewed in self.models],
            "kinds_of_one_model": dict(self.kinds_of_one_model),
            "unconnected_kinds": list(self.unconnected_kinds),
        }


class Neighbourhood:
    """All models of a review, compared with each other once."""

    def __init__(self, models: Sequence[Model]) -> None:
        self.models = {model.id: model for model in models}

    @cached_property
    def nearest(self) -> dict[str, tuple[float, str]]:
        """Model -> (likeness of signatures, the most alike other model); only models that share a function and flow."""
        signatures = {name: Signature.of(model) for name, model in self.models.items()}
        sharing: dict[tuple[str, str], list[str]] = defaultdict(list)
        for name, signature in signatures.items():
            for function in signature.functions:
                sharing[function].append(name)
        nearest: dict[str, tuple[float, str]] = {}
        for name, signature in signatures.items():
            others = {other for function in signature.functions for other in sharing[function]} - {name}
            if others:
                nearest[name] = max((signature.likeness(signatures[other]), other) for other in sorted(others))
        return nearest

    @cached_property
    def alike_questions(self) -> dict[str, tuple[float, str, str]]:
        """Model -> (overlap, its question, the other question with its model) of its most alike pair."""
        texts = {f"{m.id}[{i}]": (m.id, q.text) for m in self.models.values() for i, q in enumerate(m.questions)}
        found: dict[str, tuple[float, str, str]] = {}
        for first, second, value in alike_pairs(
            {key: words(text) for key, (_, text) in texts.items()}, QUESTIONS_ALIKE
        ):
            for mine, other in ((first, second), (second, first)):
                model, text = texts[mine]
                found.setdefault(model, (value, text, f"{texts[other][1]} ({texts[other][0]})"))
        return found


@dataclass(frozen=True)
class Signature:
    """What two models are compared by."""

    functions: frozenset[tuple[str, str]]
    principles: frozenset[str]
    kinds: frozenset[str]
    purpose_words: frozenset[str]

    @classmethod
    def of(cls, model: Model) -> Signature:
        """The signature of a model."""
        return cls(
            frozenset((purpose.verb, purpose.flow) for purpose in model.purposes),
            frozenset(r.principle for t in model.transitions for r in t.reasons if isinstance(r, PrincipleReason)),
            frozenset(part.kind for part in model.parts),
            words(" ".join(purpose.text for purpose in model.purposes)),
        )

    def likeness(self, other: Signature) -> float:
        """Mean overlap of functions with flows, principles, kinds of parts and words of the purposes, 0..1."""
        return (
            overlap(self.functions, other.functions)
            + overlap(self.principles, other.principles)
            + overlap(self.kinds, other.kinds)
            + overlap(self.purpose_words, other.purpose_words)
        ) / 4


# Weaknesses of a model ------------------------------------------------------------------------------------------------

WeaknessRule = Callable[[Model, Neighbourhood], Iterable[Weakness]]


def _shortfall(found: float, wished: float) -> float:
    """How much of the wished amount is missing, 0..1."""
    return max(0.0, 1.0 - found / wished)


def _values(model: Model) -> Iterator[tuple[str, bool]]:
    """(source, from memory) of every value: quantities and needs with a source."""
    for quantity in measured(model):
        yield quantity.source, quantity.from_memory
    for transition in model.transitions:
        for need in transition.needs:
            source = getattr(need, "source", None)
            if source is not None:
                yield source, bool(getattr(need, "from_memory", False))


def few_reasons(model: Model, around: Neighbourhood) -> Iterator[Weakness]:
    """Transitions with few reasons: the causes are not told."""
    if model.transitions:
        mean = sum(len(transition.reasons) for transition in model.transitions) / len(model.transitions)
        wished = WISHED["reasons a transition"]
        yield Weakness("few-reasons", _shortfall(mean, wished), f"{mean:.2f} reasons a transition, wished {wished:.0f}")


def transitions_without_needs(model: Model, around: Neighbourhood) -> Iterator[Weakness]:
    """Transitions that need nothing are proposed where they cannot work."""
    without = [transition.id for transition in model.transitions if not transition.needs]
    if without:
        yield Weakness("no-needs", len(without) / len(model.transitions), f"no needs on {', '.join(without)}")


def values_from_memory(model: Model, around: Neighbourhood) -> Iterator[Weakness]:
    """Values whose source nobody has looked at."""
    seen = {source.key for source in model.sources if source.record_seen}
    values = list(_values(model))
    unseen = sum(from_memory or source not in seen for source, from_memory in values)
    if unseen:
        yield Weakness("values-from-memory", unseen / len(values), f"{unseen} of {len(values)} values from memory")


def few_quantities(model: Model, around: Neighbourhood) -> Iterator[Weakness]:
    """Few quantities: the scale check has nothing to compute with."""
    count = sum(1 for _ in measured(model))
    wished = WISHED["quantities"]
    yield Weakness("few-quantities", _shortfall(count, wished), f"{count} quantities, wished {wished:.0f}")


def few_limits(model: Model, around: Neighbourhood) -> Iterator[Weakness]:
    """Few limits: the cautions of a brief come from them."""
    count, wished = len(model.limits), WISHED["limits"]
    yield Weakness("few-limits", _shortfall(count, wished), f"{count} limits, wished {wished:.0f}")


def no_precedent(model: Model, around: Neighbourhood) -> Iterator[Weakness]:
    """Nobody is recorded to have built it. There may be nobody: then this part stays."""
    count, wished = len(model.precedents), WISHED["precedents"]
    yield Weakness("no-precedent", _shortfall(count, wished), f"{count} precedents")


def sources_from_memory(model: Model, around: Neighbourhood) -> Iterator[Weakness]:
    """All sources are general knowledge, or documents are cited and none of their records was looked up (half)."""
    if all(source.type == "memory" for source in model.sources):
        yield Weakness("sources-from-memory", 1.0, "no document among the sources")
    elif not any(source.record_seen for source in model.sources):
        yield Weakness("sources-from-memory", 0.5, "documents cited, no record seen")


def near_duplicate(model: Model, around: Neighbourhood) -> Iterator[Weakness]:
    """Another model with the same functions and flows, principles, kinds of parts and words of the purposes."""
    if model.id in around.nearest:
        value, other = around.nearest[model.id]
        if value >= MODELS_ALIKE:
            yield Weakness("near-duplicate", value, f"signature {value:.2f} like {other}")


def questions_alike(model: Model, around: Neighbourhood) -> Iterator[Weakness]:
    """Two questions in nearly the same words, here or in another model: one of them adds nothing."""
    if model.id in around.alike_questions:
        value, mine, other = around.alike_questions[model.id]
        yield Weakness("questions-alike", value, f"{mine!r} like {other!r}")


WEAKNESSES: tuple[WeaknessRule, ...] = (
    few_reasons,
    transitions_without_needs,
    values_from_memory,
    few_quantities,
    few_limits,
    no_precedent,
    sources_from_memory,
    near_duplicate,
    questions_alike,
)


# The whole corpus -----------------------------------------------------------------------------------------------------


def kinds_used(model: Model) -> frozenset[str]:
    """Every kind a model names, in parts, triggers and needs."""
    reasons = (r.kind for t in model.transitions for r in t.reasons if isinstance(r, TriggerReason))
    needs = (getattr(need, "kind", None) for t in model.transitions for need in t.needs)
    return frozenset({part.kind for part in model.parts} | set(reasons) | {kind for kind in needs if kind is not None})


def kinds_of_one_model(models: Iterable[Model]) -> dict[str, str]:
    """Kinds that a single model uses, with that model: too special, or not yet used where they belong."""
    users = Counter[str]()
    last: dict[str, str] = {}
    for model in models:
        for kind in kinds_used(model):
            users[kind] += 1
            last[kind] = model.id
    return {kind: last[kind] for kind in sorted(last) if users[kind] == 1}


def unconnected_kinds(kinds: Mapping[str, KindWords]) -> tuple[str, ...]:
    """Kinds to which nothing an engineer would say leads.

    A kind is connected when it has an alternative label or a match, or when some kind above it (at which it means
    something to meet) has one. A preferred label alone does not count: it is the name the author of the kind gave it.
    """

    def worded(name: str) -> bool:
        return name in kinds and kinds[name].others + kinds[name].matches > 0

    return tuple(
        sorted(name for name, kind in kinds.items() if not worded(name) and not any(worded(a) for a in kind.above))
    )


def review(
    files: Iterable[ModelFile], around: Iterable[Model] = (), kinds: Mapping[str, KindWords] | None = None
) -> Review:
    """Review models against each other and against further ones (`around`), which are not themselves reported on."""
    files = tuple(files)
    others = {model.id: model for model in around} | {file.model.id: file.model for file in files}
    neighbourhood = Neighbourhood(tuple(others.values()))
    reviewed = []
    for file in files:
        found = [w for rule in WEAKNESSES for w in rule(file.model, neighbourhood) if w.part > 0]
        reviewed.append(Reviewed(file.model.id, file.file, tuple(sorted(found, key=lambda w: (-w.part, w.rule)))))
    mine = {file.model.id for file in files}
    rare = {kind: model for kind, model in kinds_of_one_model(others.values()).items() if model in mine}
    ranked = sorted(reviewed, key=lambda r: (-r.score, r.model))
    return Review(tuple(ranked), rare, unconnected_kinds(kinds or {}))


def review_paths(paths: Sequence[Path], corpus: Path, kinds: Mapping[str, KindWords] | None = None) -> Review:
    """Review the models in files and folders, beside those of `corpus`. Files that are no models are left out."""
    wanted = load_corpus(*paths)
    apart = corpus.is_dir() and any(path.resolve() != corpus.resolve() for path in paths)
    around = load_corpus(corpus) if apart else LoadedCorpus((), ())
    return review(wanted.files, around.models, kinds)
