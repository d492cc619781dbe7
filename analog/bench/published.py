"""Published analogy material that no one here wrote: lists of terms to be mapped, and short stories to choose from.

    python -m analog.bench.published

Weights are fitted on one half and measured on the other. Prints Markdown for docs/bench.md, and the weights that the
program ships, fitted on all term problems.
"""

from __future__ import annotations

import csv
import json
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, permutations
from pathlib import Path

import numpy as np
import numpy.typing as npt

from analog.align.quadratic import best_pairing
from analog.align.term_lists import DOUBLE, SINGLE, Evidence, TermWeights, evidence
from analog.bench import short_texts
from analog.bench.log_linear import Choice, best_ridge, fitted
from analog.encode.encoder import Encoder
from analog.vocabulary import Vocabulary
from analog.vocabulary.entries import Entries

DATA = Path(__file__).parent / "data"
MAPPINGS = DATA / "term-mappings.tsv"
STORIES = DATA / "short-stories.jsonl"

SAMPLES = 10_000
SEED = 5

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Mapping:
    """A mapping problem: source[i] belongs to target[i]."""

    id: str
    source: tuple[str, ...]
    target: tuple[str, ...]


@dataclass(frozen=True)
class Story:
    """A four-choice item. types : "target" for the true analogue, "noun" for the one that shares nouns, "random"."""

    source: str
    choices: tuple[str, ...]
    answer: int
    types: tuple[str, ...]


@dataclass(frozen=True)
class Row:
    """One method on one set: shares right of each problem, 0..1."""

    method: str
    set: str
    shares: tuple[float, ...]


def load_mappings(path: Path = MAPPINGS) -> list[Mapping]:
    """The problems in their order."""
    with path.open(encoding="utf-8", newline="") as file:
        lines = csv.DictReader((line for line in file if not line.startswith("#")), delimiter="\t")
        pairs: dict[str, list[tuple[str, str]]] = {}
        for line in lines:
            pairs.setdefault(line["problem"], []).append((line["source"], line["target"]))
    return [Mapping(name, tuple(a for a, _ in rows), tuple(b for _, b in rows)) for name, rows in pairs.items()]


def load_stories(path: Path = STORIES) -> list[Story]:
    """The items in their order."""
    records = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    return [Story(r["source"], tuple(r["choices"]), r["answer"], tuple(r["types"])) for r in records]


def interval(shares: Sequence[float]) -> tuple[float, float]:
    """95 % percentile interval of the mean, bootstrap over problems (Efron & Tibshirani 1993)."""
    values = np.array(shares)
    draws = np.random.default_rng(SEED).integers(len(values), size=(SAMPLES, len(values)))
    low, high = np.percentile(values[draws].mean(axis=1), [2.5, 97.5])
    return float(low), float(high)


# Terms ---------------------------------------------------------------------------------------------------------------


def all_pairings(found: Evidence, names: Sequence[str]) -> Choice:
    """Every pairing of a problem as an option; the right one pairs like positions and comes first."""
    m = len(next(iter(found.single.values())))
    orders = np.array(list(permutations(range(m))), dtype=np.intp)
    columns = []
    for name in names:
        total = np.zeros(len(orders))
        if name in found.single:
            total = found.single[name][np.arange(m), orders].sum(axis=1)
        else:
            for i, j in combinations(range(m), 2):
                total += found.double[name][i, j][orders[:, i], orders[:, j]]
        columns.append(total)
    return Choice(np.stack(columns, axis=1), 0)


def term_weights(problems: Sequence[Evidence], names: Sequence[str] = (*SINGLE, *DOUBLE)) -> TermWeights:
    """Fitted weights for the named evidence, 0 for the rest; the ridge is chosen on problems left out."""
    choices = [all_pairings(found, names) for found in problems]
    weights = fitted(choices, best_ridge(choices))
    values = dict.fromkeys((*SINGLE, *DOUBLE), 0.0) | dict(zip(names, map(float, weights), strict=True))
    return TermWeights(**values)


def share_paired(found: Evidence, weights: TermWeights) -> float:
    """Share of the terms that get their right image."""
    images = best_pairing(*found.worths(weights)).images
    return sum(i == k for i, k in enumerate(images)) / len(images)


def by_one_grid(grid: Floats) -> float:
    """The same for an assignment over one grid of likeness (the Hungarian method of scipy)."""
    from scipy.optimize import linear_sum_assignment

    rows, columns = linear_sum_assignment(grid, maximize=True)
    return float(np.mean(rows == columns))


def measure_terms(vocabulary: Vocabulary, encoder: Encoder) -> tuple[list[Row], TermWeights]:
    """All methods on both halves, each half with weights from the other, and the weights from all problems."""
    entries = Entries(vocabulary.wordnet)
    problems = load_mappings()
    found = {p.id: evidence(p.source, p.target, vocabulary, encoder, entries) for p in problems}
    cosines = {p.id: np.asarray(encoder.encode(p.source) @ encoder.encode(p.target).T) for p in problems}
    halves = {half: [p for p in problems if p.id.startswith(half)] for half in "AM"}
    rows = []
    for half, other in (("A", "M"), ("M", "A")):
        mine = [p.id for p in halves[half]]
        theirs = [found[p.id] for p in halves[other]]
        for name, kinds in (("analog", (*SINGLE, *DOUBLE)), ("analog, single terms only", SINGLE)):
            weights = term_weights(theirs, kinds)
            rows.append(Row(name, half, tuple(share_paired(found[i], weights) for i in mine)))
        rows.append(Row("assignment on cosines", half, tuple(by_one_grid(cosines[i]) for i in mine)))
        rows.append(Row("chance", half, tuple(1 / len(cosines[i]) for i in mine)))
    return rows, term_weights(list(found.values()))


# Stories -------------------------------------------------------------------------------------------------------------


def measure_stories(vocabulary: Vocabulary, encoder: Encoder) -> list[Row]:
    """All methods on both halves. Weights are fitted on the other half; the first is the one that was looked at."""
    items = load_stories()
    reader = short_texts.TextReader(vocabulary)
    grids = [
        short_texts.evidence(reader.read(item.source), [reader.read(c) for c in item.choices], encoder)
        for item in items
    ]
    choices = [Choice(grid, item.answer) for grid, item in zip(grids, items, strict=True)]
    middle = len(items) // 2
    halves = {"first": range(middle), "second": range(middle, len(items))}
    rows = []
    for half, other in (("second", "first"), ("first", "second")):
        for name, columns in (("shape of the text", [0, 1, 2, 3]), ("the same, shared nouns not counted", [0, 1, 2])):
            learnt = [Choice(choices[i].options[:, columns], choices[i].right) for i in halves[other]]
            weights = fitted(learnt, best_ridge(learnt))
            right = [float(np.argmax(grids[i][:, columns] @ weights) == items[i].answer) for i in halves[half]]
            rows.append(Row(name, half, tuple(right)))
        cosine = []
        for i in halves[half]:
            vectors = encoder.encode([items[i].source, *items[i].choices])
            cosine.append(float(int(np.argmax(vectors[1:] @ vectors[0])) == items[i].answer))
        rows.append(Row("cosine of the texts", half, tuple(cosine)))
        fewest = [float(np.mean(_ties(grids[i][:, 3], items[i].answer))) for i in halves[half]]
        rows.append(Row("fewest shared nouns", half, tuple(fewest)))
        rows.append(Row("chance", half, tuple(1 / len(items[i].choices) for i in halves[half])))
    return rows


def _ties(values: Floats, answer: int) -> npt.NDArray[np.bool_]:
    """Whether each of the best options is the right one: their mean is what drawing among them would give."""
    best: npt.NDArray[np.bool_] = np.flatnonzero(values == values.max()) == answer
    return best


def table(rows: Sequence[Row], sets: Sequence[str]) -> str:
    """Methods by sets, and all sets together, as Markdown."""
    lines = [
        "| method | " + " | ".join(sets) + " | together, 95 % interval |",
        "| --- |" + " ---: |" * (len(sets) + 1),
    ]
    for method in dict.fromkeys(row.method for row in rows):
        of = {row.set: row.shares for row in rows if row.method == method}
        together = [share for name in sets for share in of[name]]
        low, high = interval(together)
        cells = [f"{np.mean(of[name]):.0%}" for name in sets]
        lines.append(f"| {method} | {' | '.join(cells)} | {np.mean(together):.0%} [{low:.0%}, {high:.0%}] |")
    return "\n".join(lines)


def main() -> None:
    """Print both tables and the weights."""
    from analog.api import open_library

    library = open_library()
    encoder = library.searcher.index.encoder
    rows, weights = measure_terms(library.vocabulary, encoder)
    sys.stdout.write(table(rows, ("A", "M")) + "\n\n")
    sys.stdout.write(table(measure_stories(library.vocabulary, encoder), ("second", "first")) + "\n\n")
    shown = ", ".join(f"{name}={getattr(weights, name):.2f}" for name in (*SINGLE, *DOUBLE))
    sys.stdout.write(f"Weights of terms from all problems: {shown}\n")


if __name__ == "__main__":
    main()
