"""Coverage: which functions the corpus serves, in which surroundings and at which size, and how deep its models go.

The functions are the 21 secondary functions of Hirtz, Stone, McAdams, Szykman, Wood (2002), NIST Technical Note 1447;
a model counts once under the secondary function of each of its purposes, so that one model may stand in several rows.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from analog.model.quantity import convert
from analog.model.types import Model, Quantity, Setting, measured

SETTINGS = tuple(str(setting) for setting in Setting)
SIZES = ("below 1 µm", "1 µm to 1 mm", "1 mm to 10 cm", "above 10 cm")
UNSIZED = "no length"
COLUMNS = (*SETTINGS, *SIZES, UNSIZED)
_BOUNDS = (1e-6, 1e-3, 1e-1)

WISHED_SHARE = 0.12
"""A class above this share of all entries weighs on the rest of the corpus."""


@dataclass(frozen=True)
class Functions:
    """The function vocabulary, handed in. secondary : in order. above : verb -> the secondary one it stands under."""

    secondary: tuple[str, ...]
    above: Mapping[str, str]


@dataclass(frozen=True)
class Counts:
    """Numbers about the whole corpus; shares are 0..1, and 0 where there is nothing to share."""

    models: int
    in_hierarchy: float
    reasons_a_transition: float
    quantities_a_model: float
    precedents_a_model: float
    models_with_precedent: float
    disputes: int
    sources: int
    sources_seen: float
    documents: int
    documents_seen: float


@dataclass(frozen=True)
class Coverage:
    """cells : function -> column -> models. models_in : function -> models. Row sums may exceed `models_in`."""

    functions: tuple[str, ...]
    cells: Mapping[str, Mapping[str, int]]
    models_in: Mapping[str, int]
    counts: Counts

    @property
    def shares(self) -> dict[str, float]:
        """Function -> its share of all entries (model under function); they add up to 1."""
        entries = sum(self.models_in.values())
        return {name: self.models_in[name] / entries if entries else 0.0 for name in self.functions}

    @property
    def empty(self) -> tuple[str, ...]:
        """Functions without a model."""
        return tuple(name for name in self.functions if not self.models_in[name])

    def to_dict(self) -> dict[str, Any]:
        """As plain data for JSON."""
        return {
            "counts": asdict(self.counts),
            "functions": {
                name: {"models": self.models_in[name], "share": round(self.shares[name], 4), **self.cells[name]}
                for name in self.functions
            },
            "empty": list(self.empty),
        }


def size_class(sizes: Iterable[Quantity]) -> str:
    """The class of the first size that is a length (the geometric mean of a range); UNSIZED if none is."""
    for size in sizes:
        ends = [end for end in size.bounds if end is not None and end > 0]
        try:
            metres = [convert(end, size.unit, "m") for end in ends]
        except ValueError:  # a mass or a count: the next one may be a length
            continue
        if metres:
            length = float((metres[0] * metres[-1]) ** 0.5)
            return SIZES[sum(length >= bound for bound in _BOUNDS)]
    return UNSIZED


def functions_of(model: Model, functions: Functions) -> tuple[str, ...]:
    """The secondary functions of a model's purposes, each once; a verb the vocabulary lacks is left out."""
    found = (functions.above.get(purpose.verb) for purpose in model.purposes)
    return tuple(dict.fromkeys(name for name in found if name is not None))


def cover(models: Iterable[Model], functions: Functions) -> Coverage:
    """Count models by function, setting and size."""
    models = tuple(models)
    cells: dict[str, Counter[str]] = {name: Counter() for name in functions.secondary}
    models_in: Counter[str] = Counter()
    for model in models:
        columns = [*dict.fromkeys(str(setting) for setting in model.habitat.settings), size_class(model.sizes)]
        for name in functions_of(model, functions):
            models_in[name] += 1
            cells[name].update(columns)
    return Coverage(
        functions.secondary,
        {name: {column: cells[name][column] for column in COLUMNS} for name in functions.secondary},
        {name: models_in[name] for name in functions.secondary},
        _counts(models),
    )


def _share(part: float, whole: float) -> float:
    return part / whole if whole else 0.0


def _counts(models: tuple[Model, ...]) -> Counts:
    known = {model.id for model in models}
    used = {sub.model for model in models for sub in model.sub_purposes if sub.model in known}
    above = {model.id for model in models if any(sub.model in known for sub in model.sub_purposes)}
    transitions = [transition for model in models for transition in model.transitions]
    sources = [source for model in models for source in model.sources]
    documents = [source for source in sources if source.type != "memory"]
    quantities = sum(1 for m in models for _ in measured(m))
    return Counts(
        models=len(models),
        in_hierarchy=_share(len(used | above), len(models)),
        reasons_a_transition=_share(sum(len(t.reasons) for t in transitions), len(transitions)),
        quantities_a_model=_share(quantities, len(models)),
        precedents_a_model=_share(sum(len(m.precedents) for m in models), len(models)),
        models_with_precedent=_share(sum(bool(m.precedents) for m in models), len(models)),
        disputes=sum(len(m.disputes) for m in models),
        sources=len(sources),
        sources_seen=_share(sum(source.record_seen for source in sources), len(sources)),
        documents=len(documents),
        documents_seen=_share(sum(source.record_seen for source in documents), len(documents)),
    )


# Views ----------------------------------------------------------------------------------------------------------------


def _percent(share: float) -> str:
    return f"{100 * share:.1f} %"


def findings(coverage: Coverage) -> list[str]:
    """What the table says, in sentences: the largest classes, and what is empty."""
    shares = coverage.shares
    large = sorted((name for name in shares if shares[name] > WISHED_SHARE), key=lambda name: -shares[name])
    told = []
    if coverage.functions:
        largest = max(coverage.functions, key=lambda name: shares[name])
        told.append(f"The largest class is *{largest}* with {_percent(shares[largest])} of all entries.")
    if large:
        names = ", ".join(f"*{name}* ({_percent(shares[name])})" for name in large)
        told.append(f"Above the wished {100 * WISHED_SHARE:.0f} %: {names}.")
    else:
        told.append(f"No class is above the wished {100 * WISHED_SHARE:.0f} %.")
    names = ", ".join(f"*{name}*" for name in coverage.empty)
    told.append(f"Without a model: {names}." if names else "No class is without a model.")
    holes = [f"{name}" for name in coverage.functions if coverage.models_in[name] in (1, 2)]
    if holes:
        told.append(f"With one or two models only: {', '.join(f'*{name}*' for name in holes)}.")
    return told


def text_alternative(coverage: Coverage) -> str:
    """What the figure shows, in sentences."""
    rows = (
        f"{name}: {coverage.models_in[name]} models ("
        + (", ".join(f"{column} {n}" for column, n in coverage.cells[name].items() if n) or "none")
        + ")"
        for name in coverage.functions
    )
    return "Number of models by function (rows), setting and size (columns). " + "; ".join(rows) + "."


def markdown(coverage: Coverage) -> str:
    """The page docs/coverage.md."""
    c = coverage.counts
    header = ["function", "models", "share", *COLUMNS]
    lines = [
        "# What the corpus covers",
        "",
        "Written by `analog check --coverage --write docs`; do not edit by hand. Rows are the 21 secondary functions",
        "of NIST Technical Note 1447. A model counts once under the function of each of its purposes, and once in the",
        "column of each of its settings; its size is the first of its sizes that is a length (the geometric mean of a",
        "range). The share is of all entries (a model under a function), so the shares add up to 100 %.",
        "",
        "![Number of models by function, setting and size; the table below holds the same numbers](coverage.svg)",
        "",
        "| " + " | ".join(header) + " |",
        "| --- |" + " ---: |" * (len(header) - 1),
        *(
            "| "
            + " | ".join(
                [
                    name,
                    str(coverage.models_in[name]),
                    _percent(coverage.shares[name]),
                    *(str(coverage.cells[name][column] or "·") for column in COLUMNS),
                ]
            )
            + " |"
            for name in coverage.functions
        ),
        "",
        *(f"- {sentence}" for sentence in findings(coverage)),
        "",
        "## Depth",
        "",
        "| measure | value |",
        "| --- | ---: |",
        f"| models | {c.models} |",
        f"| models that stand on another model, or under one (by a sub-purpose) | {_percent(c.in_hierarchy)} |",
        f"| reasons a transition, mean | {c.reasons_a_transition:.2f} |",
        f"| quantities a model, mean | {c.quantities_a_model:.2f} |",
        f"| precedents a model, mean | {c.precedents_a_model:.2f} |",
        f"| models with a precedent | {_percent(c.models_with_precedent)} |",
        f"| disputes recorded | {c.disputes} |",
        f"| sources | {c.sources} |",
        f"| sources whose record was seen | {_percent(c.sources_seen)} |",
        f"| sources that are documents, not general knowledge | {c.documents} |",
        f"| documents whose record was seen | {_percent(c.documents_seen)} |",
        "",
        "A source whose record was not seen was cited from memory: its values say `from_memory: true`, and nobody",
        "should build on them before reading it. `analog check --review` lists the models where this weighs most.",
        "",
    ]
    return "\n".join(lines)
