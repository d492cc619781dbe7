"""Boxes in a grid and lines between them."""

from __future__ import annotations

import itertools
import random

import pytest

from analog.figures.layout import along, leaves_at, length_of, over, overlap, place, route, segments_cross

pytest.importorskip("networkx")


def test_every_box_has_a_cell_of_its_own_whatever_the_graph() -> None:
    draw = random.Random(7)
    for count in (0, 1, 2, 3, 5, 8, 13):
        pairs = list(itertools.combinations(range(count), 2))
        edges = draw.sample(pairs, min(len(pairs), draw.randrange(0, 12)))
        for columns in (2, 3):
            cells = place(count, edges, columns)
            assert len(set(cells)) == count
            assert all(0 <= column < columns and 0 <= row < -(-count // columns) for column, row in cells)
            assert cells == place(count, edges, columns)


def test_a_chain_lies_so_that_neighbours_are_neighbours() -> None:
    """Nine boxes in a row fit a grid of three by three without a long line: 8 lines of one cell."""
    cells = place(9, [(i, i + 1) for i in range(8)], 3)
    steps = [abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in itertools.pairwise(cells)]
    assert sum(step > 2 for step in steps) == 0


def test_over_says_what_sampling_the_segment_says() -> None:
    """Second opinion: points on the segment, a thousand of them."""
    draw = random.Random(3)
    box = (2.0, 3.0, 5.0, 6.0)
    hits = 0
    for _ in range(300):
        start, end = ((draw.uniform(0, 8), draw.uniform(0, 8)) for _ in range(2))
        points = (along([start, end], step / 1000) for step in range(1001))
        inside = any(box[0] <= x <= box[2] and box[1] <= y <= box[3] for x, y in points)
        grazing = over(start, end, box) and not inside  # sampling may miss a corner, never the other way round
        assert over(start, end, box) == inside or grazing
        hits += inside
    assert 50 < hits < 250


def test_segments_cross_as_on_paper() -> None:
    assert segments_cross((0, 0), (2, 2), (0, 2), (2, 0))
    assert not segments_cross((0, 0), (1, 1), (2, 2), (3, 3))
    assert not segments_cross((0, 0), (1, 0), (0, 1), (1, 1))


def test_a_line_goes_round_a_box_in_its_way() -> None:
    start, end, between = (0.0, 0.0, 10.0, 10.0), (80.0, 0.0, 90.0, 10.0), (40.0, 0.0, 50.0, 10.0)
    assert len(route(start, end, [], [])) == 2
    line = route(start, end, [between], [(45.0, 40.0), (45.0, 200.0)])
    assert len(line) == 3 and (45.0, 40.0) in line
    assert not any(over(p, q, between) for p, q in itertools.pairwise(line))


def test_a_line_starts_and_ends_at_the_edges_of_its_boxes() -> None:
    assert leaves_at((0, 0, 10, 4), (100, 2)) == (10, 2)
    assert leaves_at((0, 0, 10, 4), (5, -50)) == (5, 0)
    line = route((0, 0, 10, 4), (30, 0, 40, 4), [], [])
    assert line == [(10, 2), (30, 2)] and length_of(line) == 20


def test_rectangles_that_share_an_edge_do_not_overlap() -> None:
    assert not overlap((0, 0, 1, 1), (1, 0, 2, 1))
    assert overlap((0, 0, 1, 1), (0.5, 0.5, 2, 2))
