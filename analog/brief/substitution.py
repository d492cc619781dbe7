"""What could stand in for the parts and supplies that a natural system has and the problem lacks.

Options come, in this order, from the model's own needs, from other models that need the same thing, from published
precedents that name it, and from the engineered things of the thesaurus: kinds of the part's kind first, then others
of the same family where the family is narrow enough to mean something. Where that is too little, published precedents
of other models that work with the same kind of part by the same principle are named, then the nearest engineered kinds.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from analog.brief.content import Option, Substitution
from analog.brief.language import counted, fact_sentence, joined, the
from analog.explain.explanation import CarryOver, Explanation, principles_of
from analog.explain.surroundings import Surroundings
from analog.model.facts import parse_fact
from analog.model.types import EnergyNeed, FlowNeed, MediumNeed, Model
from analog.model.words import overlap, words
from analog.vocabulary.kinds import Kinds

ENOUGH = 2
"""Options that make a choice; a row with fewer says so."""

MOST, MOST_RELATIONS = 5, 3
MOST_OF_ONE_SOURCE = 3
NARROW, NARROW_FAMILY = 0.55, 0.9
"""Strength of a kind (see `Kinds.strength`) from which on what is below it, and what is beside, is worth naming."""

ENGINEERED = "kinds-engineering.ttl"
"""The part of the thesaurus that holds engineered things."""

NEAR = 0.65
"""Likeness of kinds from which on one is worth naming for the other where nothing nearer is known."""

LAST_RESORTS = ("a published precedent of the model", "near ")
"""Beginnings of the origins that are told only where too little else is."""

TROUBLES = ("contaminant", "foreign-body", "obstacle", "damage")
"""Kinds of what nobody would build."""

BUILT = "structure"
"""Only things of this kind are replaced by engineered things of the thesaurus: no ice, wind or animal is."""

SupplyNeed = MediumNeed | FlowNeed | EnergyNeed


@dataclass(frozen=True)
class Substitutes:
    """Looks options up. models : the whole corpus by id, read when a substitution is first asked for."""

    models: Mapping[str, Model]
    kinds: Kinds

    @cached_property
    def _instead(self) -> dict[str, list[tuple[str, str]]]:
        """Kind needed -> (what engineers might use in its place, id of the model that says so)."""
        found: dict[str, list[tuple[str, str]]] = {}
        for name in self.models:
            for transition in self.models[name].transitions:
                for need in transition.needs:
                    if isinstance(need, SupplyNeed):
                        found.setdefault(kind_of(need), []).extend((text, name) for text in need.instead)
        return found

    def options(
        self, model: Model, name: str, kind: str, instead: Sequence[str] = (), *, part: bool = False
    ) -> tuple[Option, ...]:
        """Options for something called `name`, of this kind.

        instead : what the model itself names for it. part : it is a thing to build, so that the engineered things of
        its kind may stand in; a kind of energy or water would not.
        """
        found: dict[str, Option] = {}
        for option in self._options(model, name, kind, instead, part):
            if option.origin.startswith(LAST_RESORTS) and len(found) >= ENOUGH:
                break  # whole devices and distant kinds, told only where nothing nearer is known
            found.setdefault(option.text.lower(), option)
        return tuple(found.values())[:MOST]

    def _options(self, model: Model, name: str, kind: str, instead: Sequence[str], part: bool) -> Iterator[Option]:
        for text in instead:
            yield Option(text=text, basis="model", origin="named in this model")
        yield from self._of_other_models(model, kind)
        for precedent in model.precedents:
            if len(words(name) & words(precedent.text)) >= min(2, len(words(name))) > 0:
                yield Option(text=precedent.text, basis=precedent.source, origin="a published precedent of this model")
        if not part or not self.kinds.known(kind):
            return
        if self.kinds.is_a(kind, BUILT):
            yield from self._of_thesaurus(kind)
        yield from self._of_precedents_elsewhere(model, kind)
        if self.kinds.is_a(kind, BUILT):
            yield from self._near_in_thesaurus(kind)

    def _of_other_models(self, model: Model, kind: str) -> Iterator[Option]:
        """What models with the same function, or resting on a shared principle, name for the same need."""
        verbs, principles = {purpose.verb for purpose in model.purposes}, principles_of(model)
        named: dict[str, tuple[float, str]] = {}
        for text, source in self._instead.get(kind, ()):
            other = self.models[source]
            shared = overlap(principles, principles_of(other))
            if source != model.id and shared and any(p.verb in verbs for p in other.purposes):
                named.setdefault(text, (shared, source))
        nearest = sorted(named.items(), key=lambda item: (-item[1][0], item[1][1]))
        for text, (_, source) in nearest[:MOST_OF_ONE_SOURCE]:
            yield Option(text=text, basis="inferred", origin=f"named for the same need in the model {source}")

    def _of_thesaurus(self, kind: str) -> Iterator[Option]:
        label = self.kinds.label(kind)
        if self.kinds.strength(kind) >= NARROW:
            for narrower in self._engineered_below(kind)[:MOST_OF_ONE_SOURCE]:
                origin = f"a kind of {label} in the thesaurus"
                yield Option(text=self.kinds.label(narrower), basis="inferred", origin=origin)
        for family in self.kinds.broader(kind):
            if self.kinds.strength(family) >= NARROW_FAMILY:
                for relative in [k for k in self.kinds.narrower(family) if self._is_engineered(k) and k != kind][:2]:
                    origin = f"of the same family as {label} in the thesaurus ({self.kinds.label(family)})"
                    yield Option(text=self.kinds.label(relative), basis="inferred", origin=origin)

    def _near_in_thesaurus(self, kind: str) -> Iterator[Option]:
        """The engineered kinds most like it, with the kind under which both meet."""
        label = self.kinds.label(kind)
        near = [(self.kinds.similarity(kind, other), other) for other in self._engineered]
        for similarity, other in sorted(near, key=lambda pair: (-pair[0], pair[1]))[:ENOUGH]:
            if similarity >= NEAR:
                met = self.kinds.meeting(kind, other)[1] or kind
                origin = f"near {label} in the thesaurus, where both count as {self.kinds.label(met)}"
                yield Option(text=self.kinds.label(other), basis="inferred", origin=origin)

    @cached_property
    def _engineered(self) -> tuple[str, ...]:
        return tuple(kind for kind in self.kinds.all() if self._is_engineered(kind))

    def _of_precedents_elsewhere(self, model: Model, kind: str) -> Iterator[Option]:
        """Precedents of models with the same kind of part and a shared principle, if they name it."""
        mine, label = principles_of(model), words(self.kinds.label(kind))
        for name in self._with_part.get(kind, ()):
            other = self.models[name]
            if name != model.id and mine & principles_of(other):
                for precedent in other.precedents:
                    if not label & words(precedent.text):
                        continue
                    origin = f"a published precedent of the model {name}, which has such a part too"
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

    def _is_engineered(self, kind: str) -> bool:
        """An engineered thing, and no complaint: the same part of the thesaurus holds the nouns of both."""
        wanted = not any(self.kinds.is_a(kind, trouble) for trouble in TROUBLES)
        return wanted and bool(self.kinds.record(kind)["file"] == ENGINEERED)

    def _engineered_below(self, kind: str) -> list[str]:
        """Engineered kinds below, the nearest first; none for a kind so general that everything is one."""
        if self.kinds.strength(kind) == 0:
            return []
        below = [k for k in self.kinds.descendants(kind) if self._is_engineered(k)]
        return sorted(below, key=lambda k: (self.kinds.ancestors(k)[kind], k))


def kind_of(need: SupplyNeed) -> str:
    """What a need asks for, as a kind of the thesaurus or a form of energy."""
    return need.kind or need.energy if isinstance(need, EnergyNeed) else need.kind


def substitutions(
    result: Explanation, surroundings: Surroundings, substitutes: Substitutes
) -> tuple[Substitution, ...]:
    """Every part without counterpart, then every supply that the problem does not have, each with its options."""
    instead: dict[str, list[str]] = {}
    for transition in result.model.transitions:
        for need in transition.needs:
            if isinstance(need, SupplyNeed):
                instead.setdefault(kind_of(need), []).extend(need.instead)
    rows = [_of_part(result.model, carry, instead.get(carry.kind, ()), substitutes) for carry in result.carry_overs]
    named = {carry.kind for carry in result.carry_overs}
    rows += list(_of_supplies(result, surroundings, substitutes, named, instead))
    return tuple(rows)


def _of_part(model: Model, carry: CarryOver, instead: Sequence[str], substitutes: Substitutes) -> Substitution:
    names = {part.id: part.name for part in model.parts}
    role = tuple(fact_sentence(parse_fact(text), lambda part: names.get(part, part)) for text in carry.relations)[
        :MOST_RELATIONS
    ]
    options = substitutes.options(model, carry.name, carry.kind, instead, part=True)
    kinds = substitutes.kinds
    return Substitution(name=carry.name, kind=kinds.label(carry.kind), role=role, options=options, note=_note(options))


def _of_supplies(
    result: Explanation,
    surroundings: Surroundings,
    substitutes: Substitutes,
    named: set[str],
    instead: Mapping[str, Sequence[str]],
) -> Iterator[Substitution]:
    kinds = substitutes.kinds
    steps: dict[str, list[str]] = {}
    for transition in result.model.transitions:
        for need in transition.needs:
            if isinstance(need, SupplyNeed):
                steps.setdefault(kind_of(need), []).append(transition.text)
    for kind, texts in steps.items():
        if kind in named or (kinds.known(kind) and kinds.strength(kind) == 0):
            continue
        if surroundings.supply(kind).status in {"there", "assumed"}:
            continue
        options = substitutes.options(result.model, kinds.label(kind), kind, instead.get(kind, ()))
        told = joined([f"“{text}”" for text in dict.fromkeys(texts)])
        yield Substitution(
            name=kinds.label(kind),
            kind="energy, medium or flow",
            role=(f"{counted(len(set(texts)), 'step')} cannot do without it: {told}",),
            options=options,
            note=_note(options),
        )


def _note(options: Sequence[Option], *, living: bool = False) -> str:
    if len(options) >= ENOUGH:
        return ""
    if living and not options:
        return (
            "It is a living party to the mechanism: say who or what takes its role in the problem, or that nobody must."
        )
    found = "Only one option" if options else "No option"
    return f"{found} is recorded for it in the models, the precedents or the thesaurus; ask whoever makes such parts."


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
    return f"In place of {the(substitutes.kinds.label(kind))} something else might do the work: {told}."
