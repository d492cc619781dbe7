"""The content of a transfer brief: everything its views show, as one record of plain values.

Views add no fact of their own. Every statement says what it rests on (`basis`): the key of a source that the brief
lists, or one of the words in BASES. docs/brief.schema.json is the published schema of this record.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from analog.model.types import Record

CONTENT_VERSION = 1
"""Written in every brief as `format`; raised when a reader of the old record would misread a new one."""

BASES = {
    "model": "said by the model in the library, on the sources listed with it but not tied to a single one",
    "inferred": "concluded by the program from the model, the problem and the thesaurus",
    "practice": "common engineering practice, from memory and without a single source",
}
"""What a statement may rest on besides a listed source."""

UNKNOWN = "not known"
"""What stands for a number of the scale check that cannot be computed."""

NO_BOUND = "no numeric bound"
"""What stands where a principle names a number but no bound for it."""

VerdictWord = Literal["carries over", "carries over if", "open", "breaks"]
OutcomeWord = Literal["holds", "at the edge", "fails", "a value is missing", "no number bounds it"]


class Line(Record):
    """A statement and what it rests on: keys of sources parted by ", ", or a word of BASES."""

    text: str
    basis: str


class Condition(Record):
    """A given condition in the words of whoever gave it, and as it was understood."""

    text: str
    understood: str


class ProblemPart(Record):
    """The problem as read.

    reading : in sentences. confidence : 0..1, how sure the reading of the function is. others : which other functions
    the sentence may mean, "" where none comes near. before, after : facts in sentences.
    """

    text: str
    reading: str
    confidence: float
    others: str
    before: tuple[str, ...]
    after: tuple[str, ...]
    conditions: tuple[Condition, ...]
    notes: tuple[str, ...]


class Summary(Record):
    """The first page.

    good : whether any analogue is worth starting from. chance : 0..1, share of results with such a score that judges
    found right among graded problems; null where nothing was found. points : what decides, in sentences.
    """

    good: bool
    recommendation: str
    confidence: str
    chance: float | None
    points: tuple[Line, ...]


class Cover(Record):
    """A change the problem asks for, and the analogues of this brief that serve it (titles)."""

    purpose: str
    by: tuple[str, ...]


class Step(Record):
    """One transition with its verdict.

    grounds : why, as inferred. why_in_nature : the reasons the model gives. on_course : part of the primary course.
    """

    text: str
    leads_to: str
    verdict: VerdictWord
    grounds: tuple[str, ...]
    why_in_nature: tuple[str, ...]
    on_course: bool


class Pairing(Record):
    """A thing of the problem and the part of the natural system in its role.

    meets_as : the general kind they share, "" where only their roles agree. path : how the thesaurus leads from one
    to the other, in words.
    """

    problem: str
    nature: str
    meets_as: str
    similarity: float
    path: str


class Option(Record):
    """An engineering option and where it comes from."""

    text: str
    basis: str
    origin: str = Field(description="In words: which model, precedent or branch of the thesaurus names it.")


class Substitution(Record):
    """Something the natural system works with and the problem lacks.

    role : what it does there, in sentences. note : said where fewer than two options are known.
    """

    name: str
    kind: str
    role: tuple[str, ...]
    options: tuple[Option, ...]
    note: str


class Break(Record):
    """What breaks, and what would mend it."""

    step: str
    what: str
    mend: str


class Bound(Record):
    """One bound of one principle, put to nature and to the problem.

    nature, problem, must_be : for people, without unit. decides : the values of a quantity that would do, in words.
    missing : quantities of the problem that nobody gives. basis : the source of the bound.
    """

    step: str
    principle: str
    group: str
    formula: str
    nature: str
    problem: str
    must_be: str
    outcome: OutcomeWord
    decides: tuple[str, ...]
    missing: tuple[str, ...]
    basis: str

    @property
    def bounded(self) -> bool:
        """Whether a number bounds it."""
        return self.must_be != NO_BOUND

    @property
    def says_something(self) -> bool:
        """Whether it has a number of the problem, or a single value would decide it."""
        return self.problem != UNKNOWN or bool(self.decides)


class ScaleCheck(Record):
    """The scale check of an analogue. note : what could not be computed and why. inputs : values the check used."""

    bounds: tuple[Bound, ...]
    inputs: tuple[str, ...]
    conditions: tuple[Line, ...]
    note: str


class Experiment(Record):
    """Something to build and measure, and the result that would end the idea. why : the step or bound behind it."""

    title: str
    why: str
    build: str
    measure: str
    stop: str
    basis: str


class Criterion(Record):
    """One of the criteria of ISO 18458 with its status, what supports it and what remains."""

    text: str
    status: Literal["met", "open", "not met"]
    evidence: str
    remains: str


class Reference(Record):
    """One source of the corpus. seen : its bibliographic record was looked up; else it is cited from memory."""

    key: str
    text: str
    doi: str
    seen: bool


class Term(Record):
    """A term of the score. weight : its share of the likeness, 0 for one that only multiplies."""

    name: str
    value: float
    weight: float


class Analogue(Record):
    """One chosen natural system under the problem."""

    id: str
    title: str
    organism: str
    latin: str
    summary: Line
    purpose: str
    before: str
    after: str
    place: str = Field(description="Where the natural system does its work.")
    score: float
    chance: float
    terms: tuple[Term, ...]
    covers: tuple[str, ...]
    outlook: str
    pairings: tuple[Pairing, ...]
    steps: tuple[Step, ...]
    carries_over: tuple[str, ...]
    substitutions: tuple[Substitution, ...]
    breaks: tuple[Break, ...]
    scale: ScaleCheck
    principles: tuple[Line, ...]
    figures: tuple[Line, ...] = Field(description="Numbers of the natural system.")
    differences: tuple[Line, ...]
    limits: tuple[Line, ...]
    precedents: tuple[Line, ...]
    disputes: tuple[Line, ...]
    cautions: tuple[str, ...]
    experiments: tuple[Experiment, ...]
    criteria: tuple[Criterion, ...]
    references: tuple[Reference, ...]


class Alternative(Record):
    """A model that ranked close. rank : in the search. why : in sentences, why it was not taken."""

    id: str
    title: str
    organism: str
    rank: int
    score: float
    chance: float
    why: tuple[str, ...]


class Caution(Record):
    """What to be careful with. standards : published rules to look at first, as examples."""

    text: str
    standards: tuple[str, ...]
    basis: str


class Brief(Record):
    """A transfer brief. made : program, corpus, index and command, so that it can be made again."""

    format: Literal[1]
    title: str
    problem: ProblemPart
    summary: Summary
    coverage: tuple[Cover, ...]
    analogues: tuple[Analogue, ...]
    alternatives: tuple[Alternative, ...]
    alternatives_note: str
    cautions: tuple[Caution, ...]
    made: dict[str, str]
