"""What could stand in for the parts and supplies that a natural system has and the problem lacks.

Options come, in this order, from the model's own needs, from other models that need the same thing in the same role,
from published precedents that name it, and from the usual engineered means for such a kind (`usual_means`). Where that
is too little, published precedents of other models are named that work with the same kind of part by the same
principle. Kinds that are only near in the thesaurus are not named: an option without the role is worse than none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from functools import cached_property

from analog.brief.content import Option, Substitution
from analog.brief.usual_means import means_for, ruled_out
from analog.explain.explanation import CarryOver, Explanation, principles_of
from analog.explain.sentences import counted_in_words as counted
from analog.explain.sentences import definite, fact_words, joined, names_of
from analog.explain.surroundings import Surroundings
from analog.model.facts import parse_fact
from analog.model.types import EnergyNeed, FlowNeed, MediumNeed, Model, PrincipleReason, Transition
from analog.model.words import overlap, words
from analog.vocabulary.kinds import Kinds

ENOUGH = 2
"""Options that make a choice; a row with fewer says so."""

MOST, MOST_RELATIONS = 5, 3
MOST_OF_OTHERS = 2
"""Options taken from the needs of other models."""

LAST_RESORT = "a published precedent of the model"
"""Beginning of the origins that are told only where too little else is."""

BUILT = "structure"
"""What is built; a precedent of another model that has such a part says something about it."""

SupplyNeed = MediumNeed | FlowNeed | EnergyNeed


@dataclass(frozen=True)
class _Named:
    """Something that a model names in place of what one of its steps needs."""

    text: str
    model: str
    principles: frozenset[str]
    verbs: frozenset[str]


@dataclass(frozen=True)
class Substitutes:
    """Looks options up. models : the whole corpus by id, read when a substitution is first asked for."""

    models: Mapping[str, Model]
    kinds: Kinds
    surroundings: Surroundings

    @cached_property
    def _instead(self) -> dict[str, list[_Named]]:
        """Kind needed -> what engineers might use in its place, and in which role."""
        found: dict[str, list[_Named]] = {}
        for name in self.models:
            verbs = frozenset(purpose.verb for purpose in self.models[name].purposes)
            for transition in self.models[name].transitions:
                principles = _principles_of_step(transition)
                for need in transition.needs:
                    if isinstance(need, SupplyNeed):
                        named = [_Named(text, name, principles, verbs) for text in need.instead]
                        found.setdefault(kind_of(need), []).extend(named)
        return found

    def options(
        self, model: Model, name: str, kind: str, instead: Sequence[str] = (), part: str = ""
    ) -> tuple[Option, ...]:
        """Options for something called `name`, of this kind; what the problem rules out comes last or not at all.

        instead : what the model itself names for it. part : its id, where it is a part of the model.
        """
        found: dict[str, Option] = {}
        hindered: dict[str, Option] = {}
        for option in self._options(model, name, kind, instead, part):
            if option.origin.startswith(LAST_RESORT) and len(found) >= ENOUGH:
                break  # whole devices, told only where nothing nearer is known
            lacking = ruled_out(option.text, self.surroundings)
            if not lacking:
                found.setdefault(option.text.lower(), option)
            elif option.basis == "model":
                origin = f"{option.origin}; only if it can do without {lacking}, which the problem rules out"
                hindered.setdefault(option.text.lower(), option.model_copy(update={"origin": origin}))
        return (*found.values(), *hindered.values())[:MOST]

    def _options(self, model: Model, name: str, kind: str, instead: Sequence[str], part: str) -> Iterator[Option]:
        for text in instead:
            yield Option(text=text, basis="model", origin="named in this model")
        yield from self._of_other_models(model, kind, part)
        for precedent in model.precedents:
            if len(words(name) & words(precedent.text)) >= min(2, len(words(name))) > 0:
                yield Option(text=precedent.text, basis=precedent.source, origin="a published precedent of this model")
        row = means_for(kind, self.kinds)
        if row is not None:
            label = self.kinds.label(row.kind)
            for text in row.means:
                yield Option(text=text, basis="practice", origin=f"common practice for {label}")
        if part and self.kinds.is_a(kind, BUILT):
            yield from self._of_precedents_elsewhere(model, kind)

    def _of_other_models(self, model: Model, kind: str, part: str) -> Iterator[Option]:
        """What other models name for the same need in the same role.

        The role is the same where the step that needs it rests on a principle of a step here that works with it; for
        a form of energy, which any step may use, the models must serve the same function too.
        """
        roles = [t for t in model.transitions if _works_with(t, kind, part)] or list(model.transitions)
        mine = frozenset(name for transition in roles for name in _principles_of_step(transition))
        verbs = {purpose.verb for purpose in model.purposes}
        named: dict[str, tuple[bool, float, str]] = {}
        for other in self._instead.get(kind, ()):
            shared, same_verb = overlap(mine, other.principles), bool(verbs & other.verbs)
            if other.model != model.id and shared and (same_verb or self.kinds.is_a(kind, BUILT)):
                named.setdefault(other.text, (same_verb, shared, other.model))
        nearest = sorted(named.items(), key=lambda item: (not item[1][0], -item[1][1], item[1][2]))
        for text, (_, _, source) in nearest[:MOST_OF_OTHERS]:
            yield Option(text=text, basis="inferred", origin=f"named for the same need in the model {source}")

    def _of_precedents_elsewhere(self, model: Model, kind: str) -> Iterator[Option]:
        """Precedents of models with the same kind of part and a shared principle or function, if they name it."""
        mine, label = principles_of(model), words(self.kinds.label(kind))
        verbs = {purpose.verb for purpose in model.purposes}
        for name in self._with_part.get(kind, ()):
            other = self.models[name]
            same_verb = any(purpose.verb in verbs for purpose in other.purposes)
            if name != model.id and mine & principles_of(other) and same_verb:
                for precedent in other.precedents:
                    if not label <= words(precedent.text):
                        continue
                    origin = f"{LAST_RESORT} {name}, which has such a part too"
                    yield Option(text=precedent.text, basis="inferred", origin=origin)

    @cached_property
    def _with_part(self) -> dict[str, list[str]]:
        """Kind of part -> models that have one and a precedent, in the order of their ids."""
        found: dict[str, list[str]] = {}
        for name in self.models:
            for kind in dict.fromkeys(part.kind for part in self.models[name].parts):
                if self.models[name].precedents:
                    found.setdefault(kind, []).append(name)
        return found


def _principles_of_step(transition: Transition) -> frozenset[str]:
    return frozenset(reason.principle for reason in transition.reasons if isinstance(reason, PrincipleReason))


def _works_with(transition: Transition, kind: str, part: str) -> bool:
    """Whether a step needs this kind, or a need of it or a reason for it speaks of this part."""
    if any(isinstance(need, SupplyNeed) and kind_of(need) == kind for need in transition.needs):
        return True
    return bool(part) and any(getattr(need, "part", None) == part for need in transition.needs)


def kind_of(need: SupplyNeed) -> str:
    """What a need asks for, as a kind of the thesaurus or a form of energy."""
    return need.kind or need.energy if isinstance(need, EnergyNeed) else need.kind


def substitutions(
    result: Explanation, surroundings: Surroundings, substitutes: Substitutes
) -> tuple[Substitution, ...]:
    """Every part without counterpart, then every supply that the problem does not have, each with its options."""
    rows, told = [], set()
    for carry in result.carry_overs:
        instead = _named_for(result.model, carry)
        if instead is not None:
            told.add(carry.kind)
        rows.append(_of_part(result.model, carry, instead or (), substitutes))
    return (*rows, *_of_supplies(result, surroundings, substitutes, told))


def _named_for(model: Model, carry: CarryOver) -> Sequence[str] | None:
    """What the needs of the model name in place of this part; None where they speak of another part of its kind.

    A need asks for a kind. Of several parts of that kind it speaks of those whose names its words share.
    """
    alone = sum(part.kind == carry.kind for part in model.parts) == 1
    found: list[str] = []
    meant = alone
    for transition in model.transitions:
        for need in transition.needs:
            if isinstance(need, SupplyNeed) and kind_of(need) == carry.kind:
                said = words(f"{need.note or ''} {transition.text}")
                if alone or words(carry.name) & said:
                    meant = True
                    found.extend(need.instead)
    return found if meant else None


def _of_part(model: Model, carry: CarryOver, instead: Sequence[str], substitutes: Substitutes) -> Substitution:
    names = names_of(model)
    role = tuple(fact_words(parse_fact(text), names) for text in carry.relations)[:MOST_RELATIONS]
    options = substitutes.options(model, carry.name, carry.kind, instead, part=carry.part)
    kinds = substitutes.kinds
    built = kinds.is_a(carry.kind, BUILT)
    label = kinds.label(carry.kind)
    return Substitution(name=carry.name, kind=label, role=role, options=options, note=_note(options, built=built))


def _of_supplies(
    result: Explanation,
    surroundings: Surroundings,
    substitutes: Substitutes,
    told: AbstractSet[str],
) -> Iterator[Substitution]:
    """The supplies of all steps but those of kinds that were told with a part."""
    kinds = substitutes.kinds
    steps: dict[str, list[str]] = {}
    instead: dict[str, list[str]] = {}
    for transition in result.model.transitions:
        for need in transition.needs:
            if isinstance(need, SupplyNeed):
                steps.setdefault(kind_of(need), []).append(transition.text)
                instead.setdefault(kind_of(need), []).extend(need.instead)
    for kind, texts in steps.items():
        if kind in told or (kinds.known(kind) and kinds.strength(kind) == 0):
            continue
        if surroundings.supply(kind).status in {"there", "assumed"}:
            continue
        options = substitutes.options(result.model, kinds.label(kind), kind, instead.get(kind, ()))
        where = joined([f"“{text}”" for text in dict.fromkeys(texts)])
        yield Substitution(
            name=kinds.label(kind),
            kind="energy, medium or flow",
            role=(f"{counted(len(set(texts)), 'step')} cannot do without it: {where}",),
            options=options,
            note=_note(options),
        )


def _note(options: Sequence[Option], *, built: bool = True) -> str:
    """What is said where a choice is lacking. built : it is a thing that somebody makes, or a supply."""
    if len(options) >= ENOUGH:
        return ""
    if options:
        return "No second option is recorded for it in the models, the precedents or common practice."
    if not built:
        return "Nobody builds this: name what plays its role in the problem, or show that nothing has to."
    return (
        "No option is recorded for it in the models, the precedents or common practice; ask whoever makes such parts."
    )


def mend_options(model: Model, kind: str, substitutes: Substitutes) -> str:
    """What might do instead of something ruled out, in a sentence; "" where nothing is known."""
    instead = [
        text
        for transition in model.transitions
        for need in transition.needs
        if isinstance(need, SupplyNeed) and kind_of(need) == kind
        for text in need.instead
    ]
    options = substitutes.options(model, substitutes.kinds.label(kind), kind, instead)
    if not options:
        return ""
    told = joined([f"{option.text} ({option.origin})" for option in options], "or")
    return f"In place of {definite(substitutes.kinds.label(kind))} something else might do the work: {told}."
