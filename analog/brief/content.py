"""The content of a transfer brief: everything its views show, as one record of plain values.

Views add no fact of their own. What the corpus says carries its source; what the program concluded is marked as such.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from analog.brief.hazards import hazards
from analog.explain.explanation import Explanation
from analog.explain.verdict import SEVERITY, TransitionVerdict
from analog.model.types import Model, Principle, PrincipleReason, Source
from analog.problem.types import Problem

STANDING_CAUTIONS = (
    "This brief is a proposal to test, drawn up by a program from a library of models. It is no design, no "
    "calculation of safety and no permission to build.",
    "Local codes, standards and licensed practice decide; where they and this brief differ, they are right.",
    "Try it on the bench at low energy before it goes into the field, and with people only under supervision.",
)

CRITERIA = (
    "The function of the natural system was analysed.",
    "The natural system was abstracted into a model.",
    "The model was transferred and applied in the product.",
)
"""Three conditions under which a product may be called biomimetic (ISO 18458:2015; wording our own, from memory)."""


@dataclass(frozen=True)
class Line:
    """A statement and where it comes from: a source key of the analogue, or "" for the program's own inference."""

    text: str
    source: str = ""


@dataclass(frozen=True)
class Step:
    """One transition with its verdict and every ground for it. on_course : part of the primary course."""

    text: str
    verdict: str
    grounds: tuple[str, ...]
    why_in_nature: tuple[str, ...]
    on_course: bool


@dataclass(frozen=True)
class Pairing:
    """A thing of the problem and the part of the natural system in its role."""

    problem: str
    nature: str
    meets_as: str
    similarity: float
    path: str


@dataclass(frozen=True)
class Addition:
    """Something the natural system works with and the problem lacks."""

    name: str
    kind: str
    relations: tuple[str, ...]
    options: tuple[str, ...]


@dataclass(frozen=True)
class Reference:
    """One source of the corpus. seen : its bibliographic record was looked up; else it is cited from memory."""

    key: str
    text: str
    doi: str
    seen: bool


@dataclass(frozen=True)
class Criterion:
    """One of the criteria of ISO 18458 with its status and what supports it."""

    text: str
    status: str
    evidence: str


@dataclass(frozen=True)
class Analogue:
    """One chosen natural system under the problem."""

    id: str
    title: str
    organism: str
    latin: str
    summary: str
    score: float
    scores: Mapping[str, float]
    outlook: str
    pairings: tuple[Pairing, ...]
    steps: tuple[Step, ...]
    additions: tuple[Addition, ...]
    figures: tuple[Line, ...]
    principles: tuple[Line, ...]
    limits: tuple[Line, ...]
    precedents: tuple[Line, ...]
    disputes: tuple[Line, ...]
    cautions: tuple[str, ...]
    criteria: tuple[Criterion, ...]
    references: tuple[Reference, ...]


@dataclass(frozen=True)
class Brief:
    """A transfer brief. versions : program, index and corpus, so that it can be made again."""

    title: str
    problem: str
    reading: str
    conditions: tuple[str, ...]
    notes: tuple[str, ...]
    analogues: tuple[Analogue, ...]
    cautions: tuple[str, ...]
    versions: Mapping[str, str]

    def to_dict(self) -> dict[str, Any]:
        """As plain data for JSON."""
        return asdict(self)


def brief_content(
    problem: Problem,
    reading: str,
    results: Sequence[Explanation],
    principles: Mapping[str, Principle],
    versions: Mapping[str, str],
) -> Brief:
    """The brief for a problem and its chosen analogues. reading : the problem as read, in a line."""
    return Brief(
        title=f"Transfer brief: {problem.text.strip().rstrip('.')}",
        problem=problem.text,
        reading=reading,
        conditions=tuple(condition.text for condition in problem.conditions),
        notes=problem.notes,
        analogues=tuple(_analogue(result, principles) for result in results),
        cautions=(*STANDING_CAUTIONS, *hazards(problem)),
        versions=dict(versions),
    )


def _analogue(result: Explanation, principles: Mapping[str, Principle]) -> Analogue:
    model = result.model
    return Analogue(
        id=model.id,
        title=model.title,
        organism=model.organism.common,
        latin=model.organism.latin or "",
        summary=model.summary,
        score=round(result.score, 3),
        scores={name: round(value, 3) for name, value in result.scores.items()},
        outlook=_outlook(result.transitions),
        pairings=tuple(
            Pairing(
                c.thing_name,
                c.part_name,
                c.kind,
                round(c.similarity, 2),
                " → ".join([c.path[0].start, *(step.end for step in c.path)]) if c.path else "",
            )
            for c in result.correspondences
        ),
        steps=tuple(_step(model, verdict) for verdict in result.transitions),
        additions=_additions(result),
        figures=tuple(_figures(model)),
        principles=tuple(_principles(model, principles)),
        limits=tuple(Line(f"{limit.about}: {limit.text}", limit.source or "") for limit in model.limits),
        precedents=tuple(Line(precedent.text, precedent.source) for precedent in model.precedents),
        disputes=tuple(Line(dispute.text, ", ".join(dispute.sources)) for dispute in model.disputes),
        cautions=result.cautions,
        criteria=_criteria(model),
        references=tuple(_reference(source) for source in model.sources),
    )


def _outlook(verdicts: Sequence[TransitionVerdict]) -> str:
    """One sentence on how the steps of the course fare."""
    course = [verdict for verdict in verdicts if verdict.on_course]
    counts = {name: sum(v.verdict == name for v in course) for name in SEVERITY}
    if counts["breaks"]:
        first = next(v for v in course if v.verdict == "breaks")
        count = counts["breaks"]
        many = "One step breaks" if count == 1 else f"{count} steps break"
        return f"{many} under the given conditions, first “{first.text}”: {first.grounds[0].text}."
    pieces = []
    if counts["carries over"]:
        pieces.append(f"{counts['carries over']} of {len(course)} steps carry over as they are")
    if counts["carries over if"]:
        pieces.append(f"{counts['carries over if']} carry over if something is supplied or built")
    if counts["open"]:
        pieces.append(f"{counts['open']} stay open until a missing value is known")
    return ("; ".join(pieces) + ".") if pieces else "The model has no course to judge."


def _step(model: Model, verdict: TransitionVerdict) -> Step:
    transition = next(t for t in model.transitions if t.id == verdict.id)
    why = []
    for reason in transition.reasons:
        name = reason.principle.replace("-", " ") + ": " if isinstance(reason, PrincipleReason) else ""
        why.append(f"{name}{reason.note}")
    return Step(
        text=transition.text,
        verdict=verdict.verdict,
        grounds=tuple(ground.text for ground in verdict.grounds),
        why_in_nature=tuple(why),
        on_course=verdict.on_course,
    )


def _additions(result: Explanation) -> tuple[Addition, ...]:
    """Carry-overs with what engineers might use instead, as far as the needs of the model name it."""
    options: dict[str, list[str]] = {}
    for transition in result.model.transitions:
        for need in transition.needs:
            kind, instead = getattr(need, "kind", None), getattr(need, "instead", ())
            if kind:
                options.setdefault(kind, []).extend(instead)
    return tuple(
        Addition(
            carry.name, carry.kind.replace("-", " "), carry.relations, tuple(dict.fromkeys(options.get(carry.kind, ())))
        )
        for carry in result.carry_overs
    )


def _figures(model: Model) -> list[Line]:
    named = [("", size) for size in model.sizes] + [(part.name, q) for part in model.parts for q in part.properties]
    lines = []
    for part, quantity in named:
        low, high = quantity.bounds
        if low == high:
            number = f"{low:g}"
        elif low is None:
            number = f"up to {high:g}"
        else:
            number = f"at least {low:g}" if high is None else f"{low:g} to {high:g}"
        unit = "" if quantity.unit == "dimensionless" else f" {quantity.unit}"
        memory = ", from memory" if quantity.from_memory else ""
        owner = f"{part}, " if part else ""
        lines.append(Line(f"{owner}{quantity.name}: {number}{unit}{memory}", quantity.source))
    return lines


def _principles(model: Model, principles: Mapping[str, Principle]) -> list[Line]:
    reasons = [r for t in model.transitions for r in t.reasons if isinstance(r, PrincipleReason)]
    lines = []
    for name in dict.fromkeys(reason.principle for reason in reasons):
        record = principles.get(name)
        if record is None:
            lines.append(Line(name.replace("-", " ")))
            continue
        equation = f" ({record.equation.text})" if record.equation else ""
        lines.append(Line(f"{record.title}: {record.statement}{equation}", record.sources[0].title))
    return lines


def _criteria(model: Model) -> tuple[Criterion, ...]:
    documents = [source for source in model.sources if source.type != "memory"]
    evidence = f"{len(documents)} published source{'s' if len(documents) != 1 else ''} on the natural system"
    analysed = "met" if documents and not model.disputes else "open"
    disputed = "; the mechanism is contested" if model.disputes else ""
    return (
        Criterion(CRITERIA[0], analysed, evidence + disputed),
        Criterion(
            CRITERIA[1], "met", f"model {model.id}: {len(model.states)} states, {len(model.transitions)} transitions"
        ),
        Criterion(CRITERIA[2], "open", "for the design team; until then the result must not be called biomimetic"),
    )


def _reference(source: Source) -> Reference:
    pieces = [source.authors, f"({source.year})" if source.year else None, f"{source.title}.", source.venue]
    return Reference(source.key, " ".join(piece for piece in pieces if piece), source.doi or "", source.record_seen)
