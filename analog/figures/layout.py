"""Boxes in a grid and lines between them, so that no box covers another and lines keep away from boxes.

The start is a force-directed layout (Fruchterman & Reingold 1991, Software: Practice and Experience 21(11), 1129-1164,
as networkx has it; over the corpus as good a start as others and the quickest), snapped to the cells of a grid by an
optimal assignment, and then improved by exchanging cells while that shortens lines or takes them off boxes and off each
other. Everything is deterministic.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from functools import lru_cache

Point = tuple[float, float]
Cell = tuple[int, int]
Edge = tuple[int, int]
Rectangle = tuple[float, float, float, float]
"""left, top, right, bottom."""

OVER_BOX, CROSSING, LENGTH = 6.0, 2.0, 1.0
"""What a line over a box, two lines that cross, and a cell of length cost. Own choice, by eye."""

ROUNDS = 12
ITERATIONS = 60


def place(count: int, edges: Sequence[Edge], columns: int) -> list[Cell]:
    """A (column, row) for each of `count` boxes, all different, with few lines over boxes and few crossings."""
    if count == 0:
        return []
    rows = math.ceil(count / columns)
    cells = [(column, row) for row in range(rows) for column in range(columns)]
    where = _snapped(count, edges, cells, columns, rows)
    return _improved(where, edges, cells)


def _snapped(count: int, edges: Sequence[Edge], cells: Sequence[Cell], columns: int, rows: int) -> list[Cell]:
    import networkx as nx
    import numpy as np
    from scipy.optimize import linear_sum_assignment

    graph = nx.Graph()
    graph.add_nodes_from(range(count))
    graph.add_edges_from(edges)
    spread = nx.spring_layout(graph, pos=nx.circular_layout(graph), seed=1, iterations=ITERATIONS)
    points = np.array([spread[node] for node in range(count)], dtype=float)
    size = np.ptp(points, axis=0)
    points = (points - points.min(axis=0)) / np.where(size > 1e-9, size, 1.0)
    if rows > columns and size[0] > size[1]:
        points = points[:, ::-1]  # the longer way of the graph along the longer way of the grid
    points = points * (columns - 1, rows - 1)
    cost = ((points[:, None, :] - np.array(cells, dtype=float)[None]) ** 2).sum(axis=2)
    mine, theirs = linear_sum_assignment(np.round(cost, 6))
    chosen = dict(zip(mine.tolist(), theirs.tolist(), strict=True))
    return [cells[chosen[node]] for node in range(count)]


def _improved(where: list[Cell], edges: Sequence[Edge], cells: Sequence[Cell]) -> list[Cell]:
    """Exchanges of two cells (one may be empty), as long as one of them helps."""
    best = _cost(where, edges)
    for _ in range(ROUNDS):
        before = best
        for first, second in itertools.combinations(cells, 2):
            trial = [second if cell == first else first if cell == second else cell for cell in where]
            if trial == where:
                continue
            cost = _cost(trial, edges)
            if cost < best - 1e-9:
                where, best = trial, cost
        if best >= before - 1e-9:
            break
    return where


def _cost(where: Sequence[Cell], edges: Sequence[Edge]) -> float:
    total = 0.0
    lines = [(where[a], where[b]) for a, b in edges]
    for (x0, y0), (x1, y1) in lines:
        total += LENGTH * math.hypot(x1 - x0, (y1 - y0) * 0.7)
        total += OVER_BOX * sum(_near((x0, y0), (x1, y1), cell) for cell in where)
    for (a, b), (c, d) in itertools.combinations(lines, 2):
        if a != c and a != d and b != c and b != d and _cross(a, b, c, d):
            total += CROSSING
    return total


@lru_cache(maxsize=262144)
def _cross(a: Cell, b: Cell, c: Cell, d: Cell) -> bool:
    return segments_cross(a, b, c, d)


@lru_cache(maxsize=65536)
def _near(start: Cell, end: Cell, cell: Cell) -> bool:
    """Whether the straight line between two cells runs over a third."""
    if cell in (start, end):
        return False
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = math.hypot(dx, dy)
    if length == 0:
        return False
    along = ((cell[0] - start[0]) * dx + (cell[1] - start[1]) * dy) / length
    aside = abs((cell[0] - start[0]) * dy - (cell[1] - start[1]) * dx) / length
    return 0 < along < length and aside < 0.42


def segments_cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two segments share a point."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) <= 0 and side(c, d, a) * side(c, d, b) <= 0 and _boxes_meet(a, b, c, d)


def _boxes_meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    return all(min(a[i], b[i]) <= max(c[i], d[i]) and min(c[i], d[i]) <= max(a[i], b[i]) for i in (0, 1))


def over(start: Point, end: Point, rectangle: Rectangle) -> bool:
    """Whether a segment touches a rectangle (Liang & Barsky 1984, clipping by parameter)."""
    left, top, right, bottom = rectangle
    dx, dy = end[0] - start[0], end[1] - start[1]
    first, last = 0.0, 1.0
    for step, room in ((-dx, start[0] - left), (dx, right - start[0]), (-dy, start[1] - top), (dy, bottom - start[1])):
        if step == 0:
            if room < 0:
                return False
            continue
        share = room / step
        if step < 0:
            first = max(first, share)
        else:
            last = min(last, share)
    return first <= last


def overlap(a: Rectangle, b: Rectangle) -> bool:
    """Whether two rectangles share more than an edge."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def grown(rectangle: Rectangle, by: float) -> Rectangle:
    """A rectangle larger by `by` on every side."""
    left, top, right, bottom = rectangle
    return left - by, top - by, right + by, bottom + by


def leaves_at(rectangle: Rectangle, towards: Point) -> Point:
    """Where the straight line from the middle of a rectangle towards a point leaves it."""
    left, top, right, bottom = rectangle
    x, y = (left + right) / 2, (top + bottom) / 2
    dx, dy = towards[0] - x, towards[1] - y
    shares = [half / abs(step) for half, step in (((right - left) / 2, dx), ((bottom - top) / 2, dy)) if step]
    share = min([1.0, *shares])
    return x + dx * share, y + dy * share


def route(
    start: Rectangle, end: Rectangle, others: Sequence[Rectangle], bends: Sequence[Point], shift: float = 0.0
) -> list[Point]:
    """A line from one box to another that keeps off the others: straight if it can be, else by one or two bends.

    bends : points between the boxes where a line may turn. shift : points by which the line is moved aside, so that two
    lines between the same boxes can be told apart. If nothing is free, the straight line.
    """
    away = [grown(box, 3.0) for box in others]

    def through(*between: Point) -> list[Point]:
        middle_start, middle_end = _middle(start), _middle(end)
        first = between[0] if between else middle_end
        last = between[-1] if between else middle_start
        points = [leaves_at(start, first), *between, leaves_at(end, last)]
        if shift and not between:
            (x0, y0), (x1, y1) = points
            length = math.hypot(x1 - x0, y1 - y0) or 1.0
            dx, dy = -(y1 - y0) / length * shift, (x1 - x0) / length * shift
            points = [(x0 + dx, y0 + dy), (x1 + dx, y1 + dy)]
        return points

    def blocked(points: Sequence[Point]) -> bool:
        own = [start, end]
        if any(over(p, q, box) for p, q in itertools.pairwise(points) for box in away):
            return True
        inner = list(itertools.pairwise(points))
        # a bend must not lead the line back over the box it comes from
        return any(over(p, q, grown(box, -1.0)) for p, q in inner for box in own)

    straight = through()
    if not any(over(p, q, box) for p, q in itertools.pairwise(straight) for box in away):
        return straight
    for number in (1, 2):
        free = [points for chosen in itertools.permutations(bends, number) if not blocked(points := through(*chosen))]
        if free:
            return min(free, key=lambda points: (round(length_of(points), 3), points))
    return straight


def length_of(points: Sequence[Point]) -> float:
    """Length of a line through points."""
    return sum(math.dist(p, q) for p, q in itertools.pairwise(points))


def along(points: Sequence[Point], share: float) -> Point:
    """The point at a share of the length."""
    left = length_of(points) * share
    for p, q in itertools.pairwise(points):
        step = math.dist(p, q)
        if left <= step and step > 0:
            return p[0] + (q[0] - p[0]) * left / step, p[1] + (q[1] - p[1]) * left / step
        left -= step
    return points[-1]


def _middle(rectangle: Rectangle) -> Point:
    return (rectangle[0] + rectangle[2]) / 2, (rectangle[1] + rectangle[3]) / 2
