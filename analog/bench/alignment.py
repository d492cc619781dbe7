"""How good and how quick the alignment of problems with models is, beside kept libraries.

    python -m analog.bench.alignment

Pairs are development problems with models of the corpus, as a search aligns them. Peers work on the same worths: an
integer programme (scipy's HiGHS, exact), fused Gromov-Wasserstein (POT; Vayer et al. 2019, ICML: a relaxation, turned
into a pairing by an assignment), an assignment without relations (scipy), and, on pairs small enough, graph edit paths
(networkx; Abu-Aisheh et al. 2015). Quality is the share of the exact value that the pairing of a peer reaches.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from analog.align.case import Case
from analog.align.things import ThingPolicy, ThingWeights, branch_and_bound, worths

Worths = tuple[np.ndarray, dict[tuple[int, int], np.ndarray]]
Pairing = list[int]

PAIRS = 600
SEED = 5


@dataclass(frozen=True)
class Row:
    """One method: milliseconds a pair (median, 95th percentile), mean share of the best value, share solved exactly."""

    name: str
    pairs: int
    median_ms: float
    high_ms: float
    quality: float
    exact: float


def value_of(pairing: Pairing, single: np.ndarray, double: dict[tuple[int, int], np.ndarray]) -> float:
    """Worth of a pairing; a pair that is not allowed (single worth 0) is dropped first."""
    kept = [p if p >= 0 and single[a, p] > 0 else -1 for a, p in enumerate(pairing)]
    total = sum(float(single[a, p]) for a, p in enumerate(kept) if p >= 0)
    for (a, b), grid in double.items():
        if kept[a] >= 0 and kept[b] >= 0:
            total += float(grid[kept[a], kept[b]])
    return total


def by_branch_and_bound(single: np.ndarray, double: dict[tuple[int, int], np.ndarray]) -> Pairing:
    """This project's solver."""
    return branch_and_bound(single, double, 5.0)[0]


def by_integer_programme(single: np.ndarray, double: dict[tuple[int, int], np.ndarray]) -> Pairing:
    """The same objective, linearised: one variable a pair, one for each pair of pairs with a worth; HiGHS."""
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import coo_array

    things, parts = single.shape
    joint = [
        (a, int(p), b, int(q), float(grid[p, q])) for (a, b), grid in double.items() for p, q in np.argwhere(grid > 0)
    ]
    cost = np.concatenate([single.ravel(), [worth for *_, worth in joint]])
    rows: list[int] = []
    columns: list[int] = []
    values: list[float] = []
    upper: list[float] = []

    def row(limit: float, entries: list[tuple[int, float]]) -> None:
        for column, entry in entries:
            rows.append(len(upper))
            columns.append(column)
            values.append(entry)
        upper.append(limit)

    for a in range(things):
        row(1, [(a * parts + p, 1.0) for p in range(parts)])
    for p in range(parts):
        row(1, [(a * parts + p, 1.0) for a in range(things)])
    for k, (a, p, b, q, _) in enumerate(joint):
        row(0, [(single.size + k, 1.0), (a * parts + p, -1.0)])
        row(0, [(single.size + k, 1.0), (b * parts + q, -1.0)])
    matrix = coo_array((values, (rows, columns)), shape=(len(upper), len(cost))).tocsr()
    allowed = np.concatenate([(single.ravel() > 0).astype(float), np.ones(len(joint))])
    solved = milp(
        -cost,
        integrality=np.ones(len(cost)),
        bounds=Bounds(0, allowed),
        constraints=LinearConstraint(matrix, -np.inf, np.array(upper, dtype=float)),
    )
    chosen = np.round(solved.x[: single.size]).reshape(single.shape)
    return [int(row_.argmax()) if row_.any() else -1 for row_ in chosen]


def by_assignment(single: np.ndarray, double: dict[tuple[int, int], np.ndarray]) -> Pairing:
    """Kinds and roles alone, relations ignored: the Hungarian method."""
    from scipy.optimize import linear_sum_assignment

    pairing = [-1] * single.shape[0]
    for a, p in zip(*linear_sum_assignment(single, maximize=True), strict=True):
        pairing[int(a)] = int(p)
    return pairing


def by_gromov_wasserstein(single: np.ndarray, double: dict[tuple[int, int], np.ndarray]) -> Pairing:
    """Fused Gromov-Wasserstein on the graphs of who is related to whom, rounded by an assignment."""
    import ot
    from scipy.optimize import linear_sum_assignment

    things, parts = single.shape
    mine, theirs = np.zeros((things, things)), np.zeros((parts, parts))
    for (a, b), grid in double.items():
        mine[a, b] = mine[b, a] = 1.0
        theirs = np.maximum(theirs, np.maximum(grid, grid.T) > 0)
    features = single.max(initial=1.0) - single
    plan = ot.gromov.fused_gromov_wasserstein(features, mine, theirs, alpha=0.5, symmetric=True)
    pairing = [-1] * things
    for a, p in zip(*linear_sum_assignment(np.asarray(plan), maximize=True), strict=True):
        pairing[int(a)] = int(p)
    return pairing


def by_edit_paths(single: np.ndarray, double: dict[tuple[int, int], np.ndarray]) -> Pairing:
    """Cheapest graph edit path, half a second at most: substitution costs what a pair lacks, leaving out costs 1."""
    import networkx

    mine, theirs = networkx.Graph(), networkx.Graph()
    mine.add_nodes_from((a, {"at": a}) for a in range(single.shape[0]))
    theirs.add_nodes_from((p, {"at": p}) for p in range(single.shape[1]))
    for (a, b), grid in double.items():
        mine.add_edge(a, b)
        theirs.add_edges_from((int(p), int(q)) for p, q in np.argwhere(grid > 0) if p != q)
    top = float(single.max(initial=1.0))
    paths = networkx.optimize_edit_paths(
        mine,
        theirs,
        node_subst_cost=lambda x, y: 1.0 - single[x["at"], y["at"]] / top,
        node_ins_cost=lambda _: 0.0,
        edge_ins_cost=lambda _: 0.0,
        timeout=0.5,
    )
    best: Pairing = [-1] * single.shape[0]
    for nodes, _, _ in paths:
        best = [-1] * single.shape[0]
        for a, p in nodes:
            if a is not None and p is not None:
                best[a] = int(p)
    return best


METHODS: dict[str, Callable[[np.ndarray, dict[tuple[int, int], np.ndarray]], Pairing]] = {
    "branch and bound (this project)": by_branch_and_bound,
    "integer programme (scipy HiGHS)": by_integer_programme,
    "assignment without relations (scipy)": by_assignment,
    "fused Gromov-Wasserstein (POT)": by_gromov_wasserstein,
    "graph edit paths (networkx)": by_edit_paths,
}


def measure(problems: list[tuple[Case, Case]], policy: ThingPolicy) -> list[Row]:
    """Every method on every pair of cases; the exact value is the integer programme's."""
    prepared = [worths(mine, theirs, policy, ThingWeights()) for mine, theirs in problems]
    exact = [value_of(by_integer_programme(*worth), *worth) for worth in prepared]
    rows = []
    for name, method in METHODS.items():
        seconds, shares = [], []
        few = name.startswith("graph edit")
        for worth, best in list(zip(prepared, exact, strict=True))[: 60 if few else None]:
            started = time.perf_counter()
            pairing = method(*worth)
            seconds.append(time.perf_counter() - started)
            shares.append(value_of(pairing, *worth) / best if best > 0 else 1.0)
        milliseconds = 1000 * np.array(seconds)
        rows.append(
            Row(
                name,
                len(shares),
                float(np.median(milliseconds)),
                float(np.percentile(milliseconds, 95)),
                float(np.mean(shares)),
                float(np.mean(np.array(shares) > 1 - 1e-9)),
            )
        )
    return rows


def table(rows: list[Row]) -> str:
    """The rows as Markdown."""
    lines = [
        "| method | pairs | median ms | 95 % ms | share of the best value | pairs solved exactly |",
        "| --- | ---: | ---: | ---: | ---: | ---: |",
    ]
    lines += [
        f"| {r.name} | {r.pairs} | {r.median_ms:.2f} | {r.high_ms:.2f} | {r.quality:.3f} | {r.exact:.1%} |"
        for r in rows
    ]
    return "\n".join(lines)


def main() -> None:
    """Print the table."""
    from analog.align.case import case_of_model, case_of_problem
    from analog.api import open_library
    from analog.bench.problems import load_problems, problems_file

    library = open_library()
    rng = np.random.default_rng(SEED)
    problems = [library.read(problem.text, problem.given) for problem in load_problems(problems_file("development"))]
    pairs = []
    for _ in range(PAIRS):
        problem = problems[int(rng.integers(len(problems)))]
        model = library.model(library.ids[int(rng.integers(len(library.ids)))])
        pairs.append((case_of_problem(problem, problem.purposes[0]), case_of_model(model, model.purposes[0])))
    sys.stdout.write(table(measure(pairs, library.searcher.policy)) + "\n")


if __name__ == "__main__":
    main()
