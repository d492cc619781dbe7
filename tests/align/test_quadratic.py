"""The solver for pairings with worths of pairs of pairs: against enumeration and against scipy."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest
from scipy.optimize import quadratic_assignment

from analog.align.quadratic import best_pairing, pairing_value


def random_case(m: int, n: int, seed: int) -> tuple[np.ndarray, np.ndarray]:
    """Worths of any sign, symmetric in the order of the two pairs."""
    rng = np.random.default_rng(seed)
    double = rng.normal(size=(m, m, n, n))
    return rng.normal(size=(m, n)), double + double.transpose(1, 0, 3, 2)


@pytest.mark.parametrize(("m", "n"), [(1, 1), (1, 4), (2, 2), (3, 5), (4, 4), (5, 5), (4, 6)])
def test_the_best_pairing_is_the_best_of_all(m: int, n: int) -> None:
    for seed in range(5):
        single, double = random_case(m, n, seed)
        best = max(pairing_value(single, double, images) for images in permutations(range(n), m))
        found = best_pairing(single, double)
        assert found.optimal
        assert found.value == pytest.approx(best)
        assert found.bound == pytest.approx(best)
        assert pairing_value(single, double, found.images) == pytest.approx(best)
        assert len(set(found.images)) == m


def test_scipy_finds_nothing_better() -> None:
    """Flows times distances, the form scipy's approximate methods take (Koopmans & Beckmann 1957)."""
    for seed in range(6):
        rng = np.random.default_rng(seed)
        flows, distances = rng.random((2, 7, 7))
        grid = np.einsum("ij,kl->ijkl", flows, distances)
        found = best_pairing(np.einsum("ii,kk->ik", flows, distances), grid + grid.transpose(1, 0, 3, 2))
        assert found.optimal
        for method in ("faq", "2opt"):
            peer = quadratic_assignment(
                flows, distances, method=method, options={"maximize": True, "rng": np.random.default_rng(seed)}
            )
            assert found.value >= peer.fun - 1e-9


def test_out_of_time_it_says_how_far_the_best_may_be() -> None:
    single, double = random_case(12, 12, 1)
    found = best_pairing(single, double, time_limit_seconds=0.0)
    assert not found.optimal
    assert found.bound > found.value
    longer = best_pairing(single, double, time_limit_seconds=0.5)
    assert longer.value <= found.bound + 1e-9
    assert longer.bound <= found.bound + 1e-9


def test_shapes_that_disagree_are_refused() -> None:
    single, double = random_case(3, 4, 0)
    with pytest.raises(ValueError, match="m <= n"):
        best_pairing(single.T, double)
