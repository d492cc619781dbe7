"""The records of the model format: what one file of the corpus may say, and nothing else.

Every record forbids unknown fields, so a misspelt name is found at once. Text fields are plain text:
whoever renders them escapes them.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from functools import lru_cache
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, model_validator

from analog.model.facts import Fact, parse_fact

FORMAT_VERSION = 1
"""Written in every model file as `format`; raised when a reader of the old format would misread a new file."""

Identifier = Annotated[str, Field(pattern=r"^[a-z][a-z0-9]*(-[a-z0-9]+)*$", max_length=80)]
ShortText = Annotated[str, Field(min_length=1, max_length=200)]
Text = Annotated[str, Field(min_length=1, max_length=2000)]
Unit = Annotated[str, Field(max_length=40)]
FiniteFloat = Annotated[float, Field(allow_inf_nan=False)]


def _must_be_fact(text: str) -> str:
    parse_fact(text)
    return text


FactText = Annotated[str, Field(max_length=200), AfterValidator(_must_be_fact)]

parsed = lru_cache(maxsize=65536)(parse_fact)
"""`parse_fact` with memory: the same facts are read again and again by checker, index and alignment."""


class Record(BaseModel):
    """Base of all records: closed, immutable, compared by value."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)


class Setting(StrEnum):
    """Where the natural system does its work."""

    AIR = "air"
    WATER = "water"
    SOIL = "soil"
    SOLID_SURFACE = "solid surface"
    INSIDE_BODY = "inside a body"
    BETWEEN_ORGANISMS = "between organisms"


class Organism(Record):
    """The natural system by name; `latin` is null for a non-living system or a whole group without one name."""

    common: ShortText
    latin: ShortText | None = None
    group: Literal["animal", "plant", "fungus", "microbe", "protist", "non-living", "colony or community"]


class Measured(Record):
    """A value or a range with unit and source.

    unit : pint expression; "dimensionless" for a pure number. A temperature in degC is a point on the scale.
    source : key of one of the model's sources. from_memory : the figure was not re-read in that source.
    """

    value: FiniteFloat | None = None
    low: FiniteFloat | None = None
    high: FiniteFloat | None = None
    unit: Unit
    source: Identifier
    from_memory: bool = False
    note: Text | None = None

    @model_validator(mode="after")
    def _one_value_or_a_range(self) -> Measured:
        if (self.value is None) == (self.low is None and self.high is None):
            raise ValueError("expected either `value` or a range with `low` and/or `high`")
        if self.low is not None and self.high is not None and self.low > self.high:
            raise ValueError(f"expected low <= high, got {self.low} > {self.high}")
        return self

    @property
    def bounds(self) -> tuple[float | None, float | None]:
        """(low, high) in `unit`; both the value itself for a single value."""
        return (self.value, self.value) if self.value is not None else (self.low, self.high)


class Quantity(Measured):
    """A value or a range by name."""

    name: ShortText


class SymbolQuantity(Measured):
    """A value of one symbol of a principle (or of one of its groups) at one transition of the natural system.

    part : the part it belongs to, where it is the size or property of one.
    """

    symbol: Identifier
    part: Identifier | None = None


class Part(Record):
    """A thing in the model. kind : concept of the thesaurus of kinds. properties : what is known of it in numbers."""

    id: Identifier
    name: ShortText
    kind: Identifier
    material: ShortText | None = None
    note: Text | None = None
    properties: tuple[Quantity, ...] = ()


class Place(Record):
    """Where a purpose acts: the relation of its object to a part ("from the leaf")."""

    relation: Literal[
        "from",
        "on",
        "in",
        "inside",
        "through",
        "to",
        "into",
        "between",
        "against",
        "around",
        "along",
        "over",
        "under",
        "with",
        "by",
    ]
    part: Identifier


class Purpose(Record):
    """What is achieved: a verb of the function vocabulary, its object, where, and the change.

    verb : a function of the published vocabulary (a secondary or tertiary term).
    flow : a term of the published flow vocabulary for the object.
    initial, objective : states of the model between which the change happens.
    """

    id: Identifier
    text: ShortText
    verb: Identifier
    flow: Identifier
    object: Identifier
    where: Place | None = None
    initial: Identifier
    objective: Identifier


class SubPurpose(Record):
    """A purpose inside the model that another model accounts for.

    model : id of that model, or null while nobody has written it.
    roles : parts of this model to the parts of the sub-model that stand for them, usually under a more general name.
    """

    id: Identifier
    text: ShortText
    verb: Identifier
    flow: Identifier
    object: Identifier
    where: Place | None = None
    model: Identifier | None = None
    roles: dict[Identifier, Identifier] = Field(default_factory=dict)


class State(Record):
    """A set of facts that hold at one moment."""

    id: Identifier
    text: ShortText
    facts: tuple[FactText, ...] = Field(min_length=1)

    @property
    def parsed(self) -> tuple[Fact, ...]:
        """The facts as records."""
        return tuple(parsed(text) for text in self.facts)


class PrincipleReason(Record):
    """A law or effect explains the transition. values : of its symbols, where no property of a part tells them."""

    type: Literal["principle"]
    principle: Identifier
    note: Text
    values: tuple[SymbolQuantity, ...] = ()


class StructureReason(Record):
    """A structural relation between parts explains the transition."""

    type: Literal["structure"]
    fact: FactText
    note: Text


class SubPurposeReason(Record):
    """A sub-purpose, with a model of its own, explains the transition."""

    type: Literal["sub-purpose"]
    purpose: Identifier
    note: Text


class TriggerReason(Record):
    """Something outside the system sets the transition off. kind : what acts, as a concept of the thesaurus."""

    type: Literal["trigger"]
    kind: Identifier
    note: Text


Reason = Annotated[PrincipleReason | StructureReason | SubPurposeReason | TriggerReason, Field(discriminator="type")]


class MediumNeed(Record):
    """The transition happens only in or with this medium. instead : what an engineer might use in its place."""

    type: Literal["medium"]
    kind: Identifier
    note: Text | None = None
    instead: tuple[ShortText, ...] = ()


class FlowNeed(Record):
    """The transition uses up or passes on this material or signal."""

    type: Literal["flow"]
    kind: Identifier
    note: Text | None = None
    instead: tuple[ShortText, ...] = ()


class EnergyNeed(Record):
    """The transition is driven by this form of energy. energy : an energy term of the flow vocabulary."""

    type: Literal["energy"]
    energy: Identifier
    kind: Identifier | None = None
    note: Text | None = None
    instead: tuple[ShortText, ...] = ()


class SizeNeed(Record):
    """The transition works only while this length of a part stays in the range."""

    type: Literal["size"]
    part: Identifier
    quantity: ShortText
    low: FiniteFloat | None = None
    high: FiniteFloat | None = None
    unit: Unit
    note: Text | None = None
    source: Identifier
    from_memory: bool = False


class TemperatureNeed(Record):
    """The transition works only while the temperature of a part, or of the surroundings, stays in the range."""

    type: Literal["temperature"]
    part: Identifier | None = None
    low: FiniteFloat | None = None
    high: FiniteFloat | None = None
    unit: Unit
    note: Text | None = None
    source: Identifier
    from_memory: bool = False


class PropertyNeed(Record):
    """The transition works only while some other quantity (an angle, a humidity, a speed) stays in the range."""

    type: Literal["property"]
    part: Identifier | None = None
    quantity: ShortText
    low: FiniteFloat | None = None
    high: FiniteFloat | None = None
    unit: Unit
    note: Text | None = None
    source: Identifier
    from_memory: bool = False


Need = Annotated[
    MediumNeed | FlowNeed | EnergyNeed | SizeNeed | TemperatureNeed | PropertyNeed, Field(discriminator="type")
]


class Transition(Record):
    """From one state to the next, with every reason and every need."""

    id: Identifier
    from_state: Identifier = Field(alias="from")
    to_state: Identifier = Field(alias="to")
    text: ShortText
    reasons: tuple[Reason, ...] = ()
    needs: tuple[Need, ...] = ()


class Source(Record):
    """Where a claim comes from.

    type : "memory" marks general knowledge of the trade with no document behind it (then `title` says what).
    record_seen : the bibliographic record was looked up while the model was written; false means from memory.
    """

    key: Identifier
    type: Literal["article", "book", "chapter", "thesis", "standard", "report", "dataset", "memory"]
    authors: ShortText | None = None
    year: Annotated[int, Field(ge=1600, le=2100)] | None = None
    title: Text
    venue: ShortText | None = None
    doi: Annotated[str, Field(pattern=r"^10\.\d{4,9}/\S+$", max_length=200)] | None = None
    record_seen: bool = False

    @model_validator(mode="after")
    def _documents_have_authors(self) -> Source:
        if self.type != "memory" and (self.authors is None or self.year is None):
            raise ValueError(f"expected `authors` and `year` for a source of type {self.type!r}")
        return self


class Question(Record):
    """A question the model answers, in an engineer's words, and the industry it could come from."""

    text: ShortText
    industry: ShortText


class Limit(Record):
    """Where the mechanism fails."""

    about: Literal[
        "wear",
        "scale",
        "temperature",
        "fouling",
        "speed",
        "humidity",
        "chemistry",
        "load",
        "life",
        "energy",
        "geometry",
        "other",
    ]
    text: Text
    source: Identifier | None = None


class Precedent(Record):
    """A published engineering result that used the mechanism."""

    text: Text
    source: Identifier


class Dispute(Record):
    """A disagreement about the mechanism: what is contested, and by whom."""

    text: Text
    sources: tuple[Identifier, ...] = Field(min_length=1)


class Habitat(Record):
    """Where the system lives or happens."""

    settings: tuple[Setting, ...] = Field(min_length=1)
    text: Text


class Model(Record):
    """One structured account of a natural system. See docs/model-format.md for how to write one."""

    format: Literal[1]
    id: Identifier
    title: ShortText
    summary: Text
    organism: Organism
    habitat: Habitat
    sizes: tuple[Quantity, ...] = Field(min_length=1)
    purposes: tuple[Purpose, ...] = Field(min_length=1)
    sub_purposes: tuple[SubPurpose, ...] = ()
    parts: tuple[Part, ...] = Field(min_length=1)
    structure: tuple[FactText, ...] = ()
    states: tuple[State, ...] = Field(min_length=1)
    transitions: tuple[Transition, ...] = ()
    course: tuple[Identifier, ...] = ()
    questions: tuple[Question, ...] = ()
    limits: tuple[Limit, ...] = ()
    precedents: tuple[Precedent, ...] = ()
    disputes: tuple[Dispute, ...] = ()
    sources: tuple[Source, ...] = ()

    def part(self, part_id: str) -> Part:
        """The part with this id; KeyError if there is none."""
        for part in self.parts:
            if part.id == part_id:
                return part
        raise KeyError(part_id)

    def state(self, state_id: str) -> State:
        """The state with this id; KeyError if there is none."""
        for state in self.states:
            if state.id == state_id:
                return state
        raise KeyError(state_id)

    @property
    def parsed_structure(self) -> tuple[Fact, ...]:
        """The structural facts as records."""
        return tuple(parsed(text) for text in self.structure)


class Symbol(Record):
    """A symbol of an equation.

    id : how functions and the command line name it, whole words (`droplet-diameter`). name : the same for readers, as
    a quantity of a model or a problem would be called; `also` : other names under which it may be given.
    unit : SI unit as pint names it. typical : usual values, in words. default : value in that unit to take where
    nobody gives one (gravity, or water at room temperature), always told when it is used.
    """

    id: Identifier
    symbol: ShortText
    name: ShortText
    also: tuple[ShortText, ...] = ()
    unit: Unit
    meaning: Text | None = None
    typical: Text | None = None
    default: FiniteFloat | None = None


class Equation(Record):
    """The governing relation as readable text and as LaTeX.

    function : name of the function that computes it (analog/scale/functions), from symbols `inputs` to symbol `output`.
    """

    text: ShortText
    latex: ShortText
    function: Identifier | None = None
    inputs: tuple[Identifier, ...] = ()
    output: Identifier | None = None


class Group(Record):
    """A dimensionless group (or ratio) that decides whether the principle holds.

    function : name of the function that computes it from the symbols `inputs`, in that order.
    """

    id: Identifier
    name: ShortText
    text: ShortText
    function: Identifier
    inputs: tuple[Identifier, ...] = Field(min_length=1)
    meaning: Text


class Bound(Record):
    """One condition of the regime in which a principle holds.

    group : id of the group that must lie between low and high (null: open), or null for a condition in words.
    edge : within this factor of a bound counts as "at the edge" (1.25: 25 % inside or outside).
    """

    text: Text
    group: Identifier | None = None
    low: FiniteFloat | None = None
    high: FiniteFloat | None = None
    edge: Annotated[float, Field(ge=1, le=10)] = 1.25
    source: Identifier
    from_memory: bool = False


class Principle(Record):
    """A law or effect that explains transitions.

    equation : null for a rule without one; then `decided_by` says what would decide whether it holds.
    media : kinds the principle cannot do without (a capillary force needs a liquid).
    """

    format: Literal[1]
    id: Identifier
    title: ShortText
    field: Literal[
        "surface physics",
        "adhesion and contact",
        "fluids",
        "aerodynamics and locomotion",
        "heat",
        "mass and moisture",
        "structures and fracture",
        "vibration and acoustics",
        "optics and colour",
        "electricity and sensing",
        "chemistry and transport",
        "growth and branching",
        "networks and collective behaviour",
    ]
    statement: Text
    equation: Equation | None = None
    symbols: tuple[Symbol, ...] = ()
    groups: tuple[Group, ...] = ()
    regime: tuple[Bound, ...] = ()
    fails: tuple[Text, ...] = Field(min_length=1)
    decided_by: Text | None = None
    media: tuple[Identifier, ...] = ()
    related: tuple[Identifier, ...] = ()
    sources: tuple[Source, ...] = Field(min_length=1)

    @property
    def units(self) -> dict[str, str]:
        """Symbol or group -> its unit; groups have none."""
        return {group.id: "dimensionless" for group in self.groups} | {each.id: each.unit for each in self.symbols}

    @model_validator(mode="after")
    def _computes_or_says_what_decides(self) -> Principle:
        if self.equation is None and self.decided_by is None:
            raise ValueError("expected `equation`, or `decided_by` for a principle without one")
        return self

    @model_validator(mode="after")
    def _names_only_what_it_declares(self) -> Principle:
        symbols, groups = {symbol.id for symbol in self.symbols}, {group.id for group in self.groups}
        keys = {source.key for source in self.sources}
        named = [*(i for group in self.groups for i in group.inputs), *(self.equation.inputs if self.equation else ())]
        if self.equation and self.equation.output:
            named.append(self.equation.output)
        for name in named:
            if name not in symbols:
                raise ValueError(f"expected a declared symbol, got {name!r}")
        for bound in self.regime:
            if bound.group is not None and bound.group not in groups:
                raise ValueError(f"expected a declared group, got {bound.group!r}")
            if bound.source not in keys:
                raise ValueError(f"expected a listed source, got {bound.source!r}")
        return self


def measured(model: Model) -> Iterator[Measured]:
    """Everything a model tells in numbers with a source: sizes, properties of parts, values of symbols."""
    yield from model.sizes
    for part in model.parts:
        yield from part.properties
    for transition in model.transitions:
        for reason in transition.reasons:
            if isinstance(reason, PrincipleReason):
                yield from reason.values
