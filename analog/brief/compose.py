"""From a problem and its results to the content of a brief."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from analog.brief.alternatives import alternatives
from analog.brief.analogue import Teller
from analog.brief.content import UNKNOWN, Analogue, Brief, Condition, Cover, Line, ProblemPart, Summary
from analog.brief.hazards import STANDING, hazards
from analog.brief.language import condition_text
from analog.explain.explanation import Explanation
from analog.explain.sentences import counted_in_words as counted
from analog.explain.sentences import definite, fact_words, in_words, joined, lowered, sentence, shortened
from analog.model.facts import parse_fact
from analog.problem.types import Problem, ProblemPurpose, Thing
from analog.rank.calibration import chance
from analog.scale.check import ScaleCheck

LEAST_CHANCE = 0.25
"""A best result that is right in fewer graded cases than one in four is no good analogue (docs/bench.md)."""

FAIR_CHANCE = 0.5
"""From here on an analogue is recommended; below, it is more often wrong than right, and only a lead."""

DOUBTFUL_READING = 0.7
"""A reading with less confidence than this is told on the first page."""

TITLE_LENGTH = 160
"""Signs of a problem that its brief is called by; the whole text stands where the problem is told."""


def brief_content(
    teller: Teller,
    chosen: Sequence[Explanation],
    ranked: Sequence[Explanation],
    checks: Mapping[str, Sequence[ScaleCheck]],
    made: Mapping[str, str],
    *,
    named: bool,
) -> Brief:
    """The brief for a problem.

    chosen : the analogues, best first. ranked : the results of the search, for the alternatives. checks : the scale
    checks by id of the model. named : the analogues were named by whoever asked, and are kept however unlikely.
    """
    problem = teller.problem
    good = any(chance(result.score) >= LEAST_CHANCE for result in chosen)
    told = chosen if good or named else ()
    analogues = tuple(teller.analogue(result, checks[result.model.id]) for result in told)
    return Brief(
        format=1,
        title=f"Transfer brief: {shortened(problem.text.strip().rstrip('.'), TITLE_LENGTH)}",
        problem=_problem(teller),
        summary=_summary(analogues, ranked, good, min(purpose.confidence for purpose in problem.purposes)),
        coverage=_coverage(problem, told),
        analogues=analogues,
        alternatives=alternatives(ranked, told, teller.weights),
        alternatives_note=_alternatives_note(told, ranked, good),
        cautions=(*STANDING, *hazards(problem)),
        made=dict(made),
    )


# The problem ---------------------------------------------------------------------------------------------------


def _problem(teller: Teller) -> ProblemPart:
    problem = teller.problem
    names = {thing.id: thing.name for thing in problem.things}

    def told(fact: str) -> str:
        return sentence(fact_words(parse_fact(fact), names))

    return ProblemPart(
        text=problem.text,
        reading=" ".join(_readings(teller)),
        confidence=round(min(purpose.confidence for purpose in problem.purposes), 2),
        others=_others(problem.purposes[0]),
        before=tuple(told(fact) for fact in problem.initial),
        after=tuple(told(fact) for fact in problem.objective),
        conditions=tuple(Condition(text=c.text, understood=condition_text(c)) for c in problem.conditions),
        notes=tuple(sentence(note) for note in problem.notes),
    )


def _readings(teller: Teller) -> Iterator[str]:
    problem = teller.problem
    for purpose in problem.purposes:
        verb = purpose.verb.replace("-", " ")
        place = ""
        if purpose.where is not None:
            place = f" {purpose.where.relation} {definite(problem.thing(purpose.where.part).name)}"
        thing = definite(problem.thing(purpose.object).name)
        if purpose.negated:
            far = purpose.where is not None and purpose.where.relation == "from"
            what = f"away{place}, or from coming about at all" if far else f"away, or from coming about{place}"
            yield f"The purpose is to keep {thing} {what} (function “{verb}”)."
        else:
            yield f"The purpose is to {verb} {thing}{place}."
    known = [f"{definite(thing.name)} counts as “{_kind(thing, teller)}”" for thing in problem.things if thing.kind]
    unknown = [definite(thing.name) for thing in problem.things if not thing.kind]
    if known:
        yield sentence(f"in the thesaurus, {joined(known)}")
    if unknown:
        yield sentence(f"no kind is known for {joined(unknown, 'or')}")


def _kind(thing: Thing, teller: Teller) -> str:
    """The label of a thing's kind; that of the next more general one where the first says no more than the name."""
    kinds, kind = teller.kinds, thing.kind or ""
    label = kinds.label(kind)
    broader = kinds.broader(kind) if label == thing.name and kinds.known(kind) else ()
    return kinds.label(broader[0]) if broader else label


def _others(purpose: ProblemPurpose) -> str:
    near = [runner for runner in purpose.runners_up if runner.confidence >= 0.3][:3]
    if not near:
        return ""
    told = joined([f"“{runner.verb.replace('-', ' ')}” ({runner.confidence:.2f})" for runner in near], "or")
    return f"The sentence may also ask to {told}; --set verb=… corrects the reading."


# The summary ---------------------------------------------------------------------------------------------------


def _summary(analogues: Sequence[Analogue], ranked: Sequence[Explanation], good: bool, reading: float) -> Summary:
    if not analogues:
        best = max((chance(result.score) for result in ranked), default=None)
        return Summary(
            good=False,
            recommendation="No good analogue was found in the library for this problem. Nothing is recommended; the "
            "nearest models are listed below as leads only.",
            confidence=_confidence(best),
            chance=None if best is None else round(best, 3),
            points=(
                Line(
                    text="Say the problem in other words, or name the physical change that is wanted: the reading "
                    "above shows what was understood.",
                    basis="practice",
                ),
                Line(
                    text="A problem that asks for no physical change (a price, a text, a rule) has no analogue here, "
                    "because the library holds natural mechanisms only.",
                    basis="inferred",
                ),
            ),
        )
    first = analogues[0]
    best_chance = max(analogue.chance for analogue in analogues)
    return Summary(
        good=good,
        recommendation=_recommendation(analogues, good),
        confidence=_confidence(best_chance if not good else first.chance),
        chance=first.chance,
        points=(*_doubt(reading), *_points(analogues)),
    )


def _recommendation(analogues: Sequence[Analogue], good: bool) -> str:
    names = joined([f"“{analogue.title}” ({analogue.organism})" for analogue in analogues])
    if not good:
        return (
            "No good analogue was found: the models of this brief were asked for by name, and none of them scores as "
            f"high as right ones do. Take {names} as {'a lead' if len(analogues) == 1 else 'leads'}, not as "
            "a recommendation."
        )
    broken = [analogue for analogue in analogues if any(s.on_course and s.verdict == "breaks" for s in analogue.steps)]
    sound = [analogue for analogue in analogues if analogue not in broken]
    if not sound:
        one = len(analogues) == 1
        return (
            f"{names} {'comes' if one else 'come'} near, but under the given conditions "
            f"{'it does' if one else 'none of them does'} not run as it stands: look first at what breaks and what "
            "would mend it."
        )
    first = sound[0]
    start = "Start from" if first.chance >= FAIR_CHANCE else "Only a weak lead was found. Look first at"
    text = f"{start} “{first.title}” ({first.organism})."
    if len(sound) > 1:
        rest = joined([f"“{analogue.title}” ({analogue.organism})" for analogue in sound[1:]])
        together = any(set(analogue.covers) - set(first.covers) for analogue in sound[1:])
        text += f" Combine it with {rest}." if together else f" Keep {rest} beside it as a second idea."
    if broken:
        told = joined([f"“{analogue.title}”" for analogue in broken])
        text += f" {told} {'breaks' if len(broken) == 1 else 'break'} under the given conditions and "
        text += "is told for what it teaches only." if len(broken) == 1 else "are told for what they teach only."
    return text


def _confidence(value: float | None) -> str:
    if value is None:
        return "The search returned nothing at all."
    share = round(100 * value)
    if value >= 0.8:
        how = "This is a strong lead"
    elif value >= FAIR_CHANCE:
        how = "This is a fair lead, more often right than wrong"
    elif value >= LEAST_CHANCE:
        how = "This is a weak lead, more often wrong than right"
    else:
        how = "This is too little to recommend anything"
    return (
        f"{how}: among problems whose answers were graded, results with a score like this were right in {share} of "
        "100 cases. That says how well purpose and structure fit, not whether the transfer will work."
    )


def _doubt(reading: float) -> Iterator[Line]:
    """A word on the reading where it may be wrong: all else rests on it."""
    if reading < DOUBTFUL_READING:
        yield Line(
            text="Check first how the problem was read: the confidence in its function is "
            f"{round(100 * reading)} in 100, and everything below rests on it.",
            basis="inferred",
        )


def _points(analogues: Sequence[Analogue]) -> Iterator[Line]:
    for analogue in analogues:
        named = f"{analogue.organism[:1].upper()}{analogue.organism[1:]}: " if len(analogues) > 1 else ""
        yield Line(text=f"{named}{lowered(analogue.outlook) if named else analogue.outlook}", basis="inferred")
        if not any(pairing.meets_as for pairing in analogue.pairings):
            text = "Nothing of the problem meets a part of the model under a common kind: read the likeness with doubt."
            yield Line(text=f"{named}{lowered(text) if named else text}", basis="inferred")
        if analogue.substitutions:
            names = [row.name for row in analogue.substitutions]
            more = f" and {counted(len(names) - 4, 'more thing')}" if len(names) > 4 else ""
            told = ", ".join(names[:4]) + more if more else joined(names)
            yield Line(text=f"{named}to be added or replaced: {told}." if named
                       else f"To be added or replaced: {told}.", basis="inferred")  # fmt: skip
    decided = [b for a in analogues for b in a.scale.bounds if b.problem != UNKNOWN and b.bounded]
    if decided:
        counts = {o: sum(b.outcome == o for b in decided) for o in ("holds", "at the edge", "fails")}
        words = {"holds": ("holds", "hold"), "at the edge": ("is at the edge", "are at the edge"),
                 "fails": ("fails", "fail")}  # fmt: skip
        fates = [f"{in_words(n)} {words[o][n != 1]}" for o, n in counts.items() if n]
        built = any("as in nature" in text for a in analogues for text in a.scale.inputs)
        nature = "; sizes still to be built were taken from nature" if built else ""
        yield Line(text=sentence(f"of the scale bounds that the problem's numbers reach, {joined(fates)}{nature}"),
                   basis="inferred")  # fmt: skip
    first = analogues[0]
    for dispute in first.disputes[:1]:
        yield Line(text=f"Contested about {definite(first.organism)}: {lowered(dispute.text)}", basis=dispute.basis)
    for limit in first.limits[:1]:
        kind, _, told = limit.text.partition(": ")
        yield Line(text=f"A limit ({lowered(kind)}) of {definite(first.organism)}: {lowered(told)}", basis=limit.basis)
    if first.experiments:
        title, stop = lowered(first.experiments[0].title), lowered(first.experiments[0].stop)
        yield Line(text=f"First to test: {title}. The result that would end the idea: {stop}", basis="inferred")


# Coverage and alternatives -------------------------------------------------------------------------------------


def _coverage(problem: Problem, chosen: Sequence[Explanation]) -> tuple[Cover, ...]:
    """Who serves which purpose. Purposes may read alike: each is told once."""
    return tuple(
        Cover(purpose=text, by=tuple(result.model.title for result in chosen if text in result.covers))
        for text in dict.fromkeys(purpose.text for purpose in problem.purposes)
    )


def _alternatives_note(chosen: Sequence[Explanation], ranked: Sequence[Explanation], good: bool) -> str:
    if not ranked:
        return "The search found nothing near."
    if not chosen:
        return "They are leads only: none of them scores as high as right answers do."
    if len(ranked) <= len(chosen):
        return "The search found nothing else near."
    return "They ranked next in the same search. What put each behind is read off its score and its steps."
