"""One chosen natural system under the problem, told for the brief."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from analog.brief.content import Analogue, Break, Criterion, Line, Pairing, Reference, Step, Term
from analog.brief.experiments import experiments
from analog.brief.language import quantity_text, typeset
from analog.brief.scale_part import checks_of, cited, scale_part
from analog.brief.substitution import Substitutes, SupplyNeed, kind_of, mend_options, substitutions
from analog.explain.explanation import Correspondence, Explanation
from analog.explain.sentences import counted_in_words as counted
from analog.explain.sentences import joined, lowered, sentence, with_article
from analog.explain.surroundings import Surroundings
from analog.explain.verdict import SEVERITY, TransitionVerdict, Verdict
from analog.model.types import Model, Principle, PrincipleReason, Source, Transition, TriggerReason
from analog.problem.types import Problem
from analog.rank.calibration import chance
from analog.scale.check import ScaleCheck
from analog.vocabulary.kinds import Kinds

CRITERIA = (
    "The function of the natural system was analysed.",
    "The natural system was abstracted into a model.",
    "The model was transferred and applied in the product.",
)
"""Three conditions under which a product may be called biomimetic (ISO 18458:2015; wording our own, from memory)."""


@dataclass(frozen=True)
class Teller:
    """What every analogue of one brief is told from.

    weights : term of the score -> its share of the likeness. advice : what else might do where something breaks.
    """

    problem: Problem
    kinds: Kinds
    models: Mapping[str, Model]
    principles: Mapping[str, Principle]
    weights: Mapping[str, float]

    @cached_property
    def surroundings(self) -> Surroundings:
        """The conditions of the problem, ready to be asked."""
        return Surroundings(self.problem, self.kinds)

    @cached_property
    def substitutes(self) -> Substitutes:
        """Options from the whole corpus and the thesaurus."""
        return Substitutes(self.models, self.kinds, self.surroundings)

    def checks(self, result: Explanation) -> tuple[ScaleCheck, ...]:
        """The scale checks of a result, on both sides."""
        return checks_of(result, self.problem, self.principles)

    def analogue(self, result: Explanation, checks: Sequence[ScaleCheck]) -> Analogue:
        """The record of one analogue."""
        model = result.model
        purpose = next(purpose for purpose in model.purposes if purpose.id == result.purpose)
        return Analogue(
            id=model.id,
            title=model.title,
            organism=model.organism.common,
            latin=model.organism.latin or "",
            summary=_line(model.summary, "model"),
            purpose=purpose.text,
            before=model.state(purpose.initial).text,
            after=model.state(purpose.objective).text,
            place=sentence(typeset(model.habitat.text)),
            score=round(result.score, 3),
            chance=round(chance(result.score), 3),
            terms=tuple(
                Term(name=name, value=round(value, 3), weight=round(self.weights.get(name, 0.0), 3))
                for name, value in result.scores.items()
            ),
            covers=result.covers,
            outlook=outlook(result.transitions),
            pairings=tuple(_pairing(c, self.kinds) for c in result.correspondences),
            steps=tuple(_step(model, verdict, self.principles) for verdict in result.transitions),
            carries_over=tuple(dict.fromkeys(
                v.text for v in result.transitions if v.on_course and v.verdict == "carries over"
            )),
            substitutions=substitutions(result, self.surroundings, self.substitutes),
            breaks=tuple(self._breaks(result)),
            scale=scale_part(result, self.problem, checks),
            principles=tuple(_principles(model, self.principles)),
            figures=tuple(_figures(model)),
            differences=tuple(_differences(model, self.problem)),
            limits=tuple(_line(f"{limit.about.capitalize()}: {limit.text}", limit.source or "model")
                         for limit in model.limits),
            precedents=tuple(_line(precedent.text, precedent.source) for precedent in model.precedents),
            disputes=tuple(_line(dispute.text, ", ".join(dispute.sources)) for dispute in model.disputes),
            cautions=tuple(c for c in result.cautions if not c.startswith(("Contested:", "Limit ("))),
            experiments=experiments(result, self.problem, checks, self.substitutes),
            criteria=_criteria(model),
            references=tuple(_reference(source) for source in model.sources),
        )  # fmt: skip

    def _breaks(self, result: Explanation) -> Iterator[Break]:
        transitions = {transition.id: transition for transition in result.model.transitions}
        for verdict in result.transitions:
            for ground in verdict.grounds:
                if ground.verdict == "breaks":
                    mend = self._mend(result.model, transitions[verdict.id], ground.text)
                    where = "" if verdict.on_course else " (beside the primary course)"
                    yield Break(step=verdict.text + where, what=sentence(typeset(ground.text)), mend=mend)

    def _mend(self, model: Model, transition: Transition, ground: str) -> str:
        """What would mend a step that breaks for this reason; the honest word where nothing is recorded."""
        ways = []
        for need in transition.needs:
            if isinstance(need, SupplyNeed) and self.kinds.label(kind_of(need)) in ground:
                ways.append(mend_options(model, kind_of(need), self.substitutes))
        if " must be " in ground or "works only" in ground:
            ways.append("The size, the speed or the surroundings would have to come within the bound that is named.")
        ways = [way for way in dict.fromkeys(ways) if way]
        return " ".join(ways) or (
            "Nothing recorded would mend it: either the condition falls, or another analogue is needed for this step."
        )


_FATES: tuple[tuple[Verdict, str, str], ...] = (
    ("breaks", "breaks", "break"),
    ("carries over", "carries over as it is", "carry over as they are"),
    ("carries over if", "carries over if something is supplied or built",
     "carry over if something is supplied or built"),
    ("open", "stays open until a missing value is known", "stay open until a missing value is known"),
)  # fmt: skip
"""Verdict -> what happens to one step, and to several."""


def outlook(verdicts: Sequence[TransitionVerdict]) -> str:
    """How the steps of the course fare, in a sentence or two."""
    course = [verdict for verdict in verdicts if verdict.on_course]
    if not course:
        return "The model has no course to judge."
    counts = {name: sum(v.verdict == name for v in course) for name in SEVERITY}
    told = [
        f"{counted(counts[name], 'step')} {say if counts[name] == 1 else says}"
        for name, say, says in _FATES
        if counts[name]
    ]
    text = sentence(f"of the {counted(len(course), 'step')} of the course, {joined(told)}")
    if len(course) == 1 or len(told) == 1:
        text = text.replace(f"Of the {counted(len(course), 'step')} of the course, ", "In the course, ")
    if counts["breaks"]:
        first = next(v for v in course if v.verdict == "breaks")
        text += f" The first to break is “{first.text}”: {typeset(first.grounds[0].text)}."
    return text


def _pairing(correspondence: Correspondence, kinds: Kinds) -> Pairing:
    steps = correspondence.path
    path = ""
    if steps:
        told = [kinds.label(steps[0].start)]
        told += [f"{_RELATIONS.get(step.relation, step.relation)} {kinds.label(step.end)}" for step in steps]
        path = ", ".join(told)
    return Pairing(
        problem=correspondence.thing_name,
        nature=correspondence.part_name,
        meets_as=correspondence.kind,
        similarity=round(correspondence.similarity, 2),
        path=path,
    )


_RELATIONS = {
    "broader": "which is a kind of",
    "narrower": "which includes",
    "exact match": "which is the same as",
    "close match": "which is close to",
    "broad match": "which belongs under",
    "narrow match": "which covers",
}


def _step(model: Model, verdict: TransitionVerdict, principles: Mapping[str, Principle]) -> Step:
    transition = next(t for t in model.transitions if t.id == verdict.id)
    why = []
    for reason in transition.reasons:
        text = sentence(typeset(reason.note))
        if isinstance(reason, PrincipleReason):
            record = principles.get(reason.principle)
            text = f"{record.title if record else reason.principle.replace('-', ' ').capitalize()}: {lowered(text)}"
        elif isinstance(reason, TriggerReason):
            text = f"Set off from outside: {lowered(text)}"
        why.append(text)
    return Step(
        text=transition.text,
        leads_to=typeset(model.state(transition.to_state).text),
        verdict=verdict.verdict,
        grounds=_once(_told(ground.verdict, ground.text, transition) for ground in verdict.grounds),
        why_in_nature=_once(why),
        on_course=verdict.on_course,
    )


def _once(texts: Iterable[str]) -> tuple[str, ...]:
    """Sentences without those that another one says too: the same again, or its beginning."""
    found = list(dict.fromkeys(texts))

    def told_by_another(text: str) -> bool:
        stem = text.removesuffix(".")
        return any(other != text and re.match(rf"{re.escape(stem)}(?=[:,;.]|$)", other) for other in found)

    return tuple(text for text in found if not told_by_another(text))


_SUPPLIED = re.compile(
    r"(?P<what>.+?) is supplied(?: \(instead of it: (?P<instead>.+)\))?; "
    r"(?:needs|driven by|set off by|.+ works with) (?P=what)(?:: (?P<note>.+))?",
    re.DOTALL,
)


def _told(verdict: str, text: str, transition: Transition) -> str:
    """A ground as a sentence; a condition begins with "if" and says what stays, not what must."""
    text = typeset(text)
    text = re.sub(r"^works( only)? at least ([^,;]+)", r"works\1 at \2 and above", text)
    text = re.sub(r"^works( only)? at most ([^,;]+)", r"works\1 at \2 and below", text)
    if verdict != "carries over if":
        return sentence(text)
    supplied = _SUPPLIED.fullmatch(text)
    if supplied:
        named = {", ".join(need.instead): need.instead for need in transition.needs if isinstance(need, SupplyNeed)}
        choice = joined(named.get(supplied["instead"] or "", (supplied["instead"] or "",)), "or")
        text = f"{supplied['what']} is supplied{f', or in its place {choice}' if choice else ''}"
        notes = re.split(
            rf"; (?:needs|driven by|set off by|[^;]+ works with) {re.escape(supplied['what'])}(?::\s*|(?=;)|$)",
            supplied["note"] or "",
        )
        told = "; ".join(_once(lowered(note) for note in notes if note))
        text += f": {told}" if told else ""
    text = re.sub(r"^([^;()]+?) must stay ", r"\1 stays ", text)
    text = re.sub(r" is kept (at (?:least|most)) ", r" is kept to \1 ", text)
    return sentence(f"if {text}")


def _line(text: str, basis: str) -> Line:
    return Line(text=typeset(text), basis=basis)


def _figures(model: Model) -> Iterator[Line]:
    named = [("", size) for size in model.sizes] + [(part.name, q) for part in model.parts for q in part.properties]
    for part, quantity in named:
        memory = " (from memory)" if quantity.from_memory else ""
        owner = f"{part}, " if part else ""
        text = f"{owner}{quantity_text(quantity)}{memory}"
        yield Line(text=text[:1].upper() + text[1:], basis=quantity.source)


def _principles(model: Model, principles: Mapping[str, Principle]) -> Iterator[Line]:
    reasons = [r for t in model.transitions for r in t.reasons if isinstance(r, PrincipleReason)]
    for name in dict.fromkeys(reason.principle for reason in reasons):
        record = principles.get(name)
        if record is None:
            yield Line(text=sentence(name.replace("-", " ")), basis="model")
            continue
        equation = f" In symbols: {record.equation.text}." if record.equation else ""
        yield Line(text=f"{record.title}: {sentence(record.statement)}{equation}", basis=cited(record.sources[0]))


def _differences(model: Model, problem: Problem) -> Iterator[Line]:
    """Where the natural system and the engineered one are unlike, however well the steps agree."""
    media = joined(list(model.habitat.settings))
    given = [condition for condition in problem.conditions if condition.type == "medium" and condition.kind]
    asked = joined([f"“{condition.text}”" for condition in given])
    there = f"the problem says {asked}" if given else "the problem names no medium"
    yield Line(text=f"Medium: the natural system works in or on {media}; {there}.", basis="inferred")
    if model.sizes:
        sizes = joined([quantity_text(size) for size in model.sizes[:3]])
        lengths = [c for c in problem.conditions if c.type == "range"]
        told = joined([f"“{condition.text}”" for condition in lengths]) if lengths else "nothing of its sizes"
        yield Line(text=f"Size: nature gives {sizes}; the problem gives {told}.", basis=model.sizes[0].source)
    temperatures = [c for c in problem.conditions if c.type == "temperature"]
    if temperatures:
        told = joined([f"“{condition.text}”" for condition in temperatures])
        yield Line(
            text=f"Temperature: the problem gives {told}; the natural system is known from this place: "
            f"{sentence(lowered(model.habitat.text))}",
            basis="model",
        )
    materials = list(dict.fromkeys(part.material for part in model.parts if part.material))
    if materials:
        yield Line(
            text=f"Material: nature builds with {joined(materials[:5])}; an engineered part will be of another "
            "material, with other stiffness, wear and ageing.",
            basis="model",
        )
    if model.organism.group != "non-living":
        yield Line(
            text=f"Upkeep: {with_article('living system')} grows, repairs and renews itself; what is built wears until "
            "somebody replaces it, so life and cleaning have to be designed.",
            basis="inferred",
        )


def _criteria(model: Model) -> tuple[Criterion, ...]:
    documents = [source for source in model.sources if source.type != "memory"]
    evidence = f"{counted(len(documents), 'published source').capitalize()} on the natural system"
    if model.disputes:
        evidence += "; the mechanism is contested"
    analysed = bool(documents) and not model.disputes
    return (
        Criterion(
            text=CRITERIA[0],
            status="met" if analysed else "open",
            evidence=f"{evidence}.",
            remains="Read the sources again before designing with them."
            if analysed
            else "Settle by reading or experiment which explanation holds.",
        ),
        Criterion(
            text=CRITERIA[1],
            status="met",
            evidence=f"The model {model.id} has {counted(len(model.states), 'state')} and "
            f"{counted(len(model.transitions), 'transition')}.",
            remains="Have somebody who knows the natural system read the model.",
        ),
        Criterion(
            text=CRITERIA[2],
            status="open",
            evidence="Nothing has been built yet.",
            remains="The team designs, builds and tests; until then the result must not be called biomimetic.",
        ),
    )


def _reference(source: Source) -> Reference:
    pieces = [source.authors, f"({source.year})" if source.year else None, sentence(source.title), source.venue]
    return Reference(
        key=source.key,
        text=" ".join(piece for piece in pieces if piece),
        doi=source.doi or "",
        seen=source.record_seen,
    )
