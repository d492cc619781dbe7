"""Laws with a single formula against what they were derived from: motion stepped in time, growth of small waves, draws
at random, slopes of an energy, and scipy where it has the same thing under another name."""

from __future__ import annotations

from math import log, pi, sqrt

import numpy
import pytest

from analog.model.quantity import registry
from analog.scale.registry import function
from tests.scale.record_checks import assert_unit_of_equation


@pytest.mark.parametrize(
    "principle",
    [
        "neighbour-averaging",
        "persistence-filter",
        "remaining-time-rationing",
        "risk-spreading",
        "use-dependent-depression",
        "many-switch-average",
        "relative-change-sensing",
        "series-stacking",
        "adaptation-by-slow-feedback",
        "offset-mass-righting",
        "secondary-flow-in-bends",
        "settling-against-turbulence",
        "stretch-and-fold-mixing",
        "pore-sound-absorption",
        "pressure-transformer",
        "tooth-train-frequency",
        "reach-centring",
        "reaction-diffusion-pattern",
        "stream-erosion",
        "wall-yielding-growth",
        "reaction-diffusion-penetration",
        "self-feeding-wave",
        "porous-convection",
        "solute-rejection-by-freezing",
        "thermal-transpiration",
        "surface-tension-support",
        "surfactant-stabilisation",
        "surface-to-volume",
        "wind-shear-soaring",
    ],
)
def test_the_equation_returns_the_unit_of_its_output(principle: str) -> None:
    if principle == "neighbour-averaging":  # the shared check asks with less than one member
        assert registry().Quantity(function("joining-neighbour-count")(registry().Quantity(20.0, ""))).dimensionless
    else:
        assert_unit_of_equation(principle)


def test_a_thread_has_one_ratio_of_drags_in_any_unit_of_length() -> None:
    unit = registry()
    ratio = function("thread-drag-ratio")(2.5 * unit.um, 10 * unit.nm)
    assert ratio.to("").magnitude == pytest.approx(function("thread-drag-ratio")(2.5e-6, 1e-8))


@pytest.mark.parametrize(("share", "count"), [(0.5, 25), (0.3, 50), (0.01, 1000)])
def test_scatter_of_switches_against_the_binomial_of_scipy(share: float, count: int) -> None:
    from scipy.stats import binom

    expected = binom(count, share).std() / count
    assert function("switched-share-scatter")(share, float(count)) == pytest.approx(expected, rel=1e-6)


def test_gain_of_adaptation_against_the_high_pass_of_scipy() -> None:
    from scipy.signal import butter, freqs

    adaptation = 0.2
    numerator, denominator = butter(1, 1 / adaptation, "high", analog=True)
    signal = numpy.array([1e-3, 0.05, 0.2, 1.0, 50.0])
    _, gain = freqs(numerator, denominator, 1 / signal)
    assert function("passed-share")(signal, adaptation) == pytest.approx(abs(gain), rel=1e-6)


def test_a_steady_input_ends_in_nothing_under_slow_feedback() -> None:
    """y = x - z, τ z' = y (integral of the output fed back): a sine of τ_s = 1/ω settles to the gain, a step to 0."""
    adaptation, step, omega = 1.0, 1e-3, 2.0
    fed_back, peak, steady, left = 0.0, 0.0, 0.0, 1.0
    for index in range(40_000):
        out = numpy.sin(omega * index * step) - fed_back
        fed_back += step / adaptation * out
        left = 1.0 - steady
        steady += step / adaptation * left
        if index > 30_000:
            peak = max(peak, abs(out))
    assert peak == pytest.approx(function("passed-share")(1 / omega, adaptation), rel=0.005)
    assert left < 1e-9


@pytest.mark.parametrize(("count", "low", "high"), [(4.0, 0.55, 1.0), (1.0, 0.0, 0.01)])
def test_nearest_neighbours_join_members_strewn_at_random(count: float, low: float, high: float) -> None:
    """2000 members: links to the 4 nearest, 0.5139 ln 2000 rounded up, join nearly all of them; to 1 hardly any.

    The share of members in the largest net; that all are joined is sure only as the number grows without limit.
    """
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components
    from scipy.spatial import cKDTree

    members = 2000
    assert numpy.ceil(function("joining-neighbour-count")(float(members))) == 4
    place = numpy.random.default_rng(7).random((members, 2))
    _, near = cKDTree(place).query(place, int(count) + 1)
    rows = numpy.repeat(numpy.arange(members), int(count))
    links = coo_array((numpy.ones(rows.size), (rows, near[:, 1:].ravel())), shape=(members, members))
    _, net = connected_components(links, directed=False)
    assert low < numpy.bincount(net).max() / members <= high


def test_a_rising_copy_reaches_its_level_after_the_delay() -> None:
    build_up, full, level, step, copy, time = 10.0, 2.0, 1.5, 1e-3, 0.0, 0.0
    while copy < level:
        copy += step * (full - copy) / build_up
        time += step
    assert function("start-delay")(build_up, full, level) == pytest.approx(time, rel=1e-3)


def test_a_junction_settles_where_repeats_lead_it() -> None:
    interval, recovery, use, answer = 3.0, 10.0, 0.4, 1.0
    for _ in range(200):
        answer = 1 - (1 - (1 - use) * answer) * numpy.exp(-interval / recovery)
    assert function("settled-answer")(interval, recovery, use) == pytest.approx(answer, rel=1e-9)


def test_a_store_lasts_to_the_end_after_a_theft() -> None:
    """Half the store is taken at half time; drawn on at the law's rate it still lasts to the end, not longer."""
    store, end, steps, used_before = 100.0, 12.0, 1200, []
    for index in range(steps):
        if index == steps // 2:
            store /= 2
        drawn = function("even-draw-rate")(store, end - index * end / steps) * end / steps
        store -= drawn
        used_before.append(drawn)
    assert store == pytest.approx(0.0, abs=1e-9)
    assert used_before[-1] == pytest.approx(used_before[-2]) == pytest.approx(used_before[0] / 2)


def test_the_best_stake_is_that_of_kelly() -> None:
    """Nothing is lost from the reserve: best share p - (1 - p)/(g - 1), Kelly 1956; sure loss at the full stake."""
    chance, gain = 0.6, 3.0
    shares = numpy.linspace(0.0, 1.0, 1001)
    growth = function("long-run-growth")(shares, gain, 1.0, chance)
    assert shares[numpy.argmax(growth)] == pytest.approx(chance - (1 - chance) / (gain - 1), abs=1e-3)
    assert growth[-1] == 0.0


def test_growth_over_many_rounds_drawn_at_random() -> None:
    share, gain, kept, chance = 0.4, 4.0, 0.8, 0.7
    good = numpy.random.default_rng(11).random(200_000) < chance
    rounds = share * gain * good + (1 - share) * kept
    expected = float(numpy.exp(numpy.log(rounds).mean()))
    assert function("long-run-growth")(share, gain, kept, chance) == pytest.approx(expected, rel=0.01)


def test_a_ball_in_shear_tilts_until_weight_balances_viscosity() -> None:
    """Stokes's moment 8π μ a³ (ω/2) on a held ball against its weight at the lever h sin θ: sin θ = B ω."""
    viscosity, radius, density, gravity, offset, vorticity = 1e-3, 5e-6, 1050.0, 9.80665, 1e-7, 0.1
    weight = density * gravity * 4 / 3 * pi * radius**3
    sine = 8 * pi * viscosity * radius**3 * vorticity / 2 / (weight * offset)
    assert function("righting-time")(viscosity, 6.0, density, gravity, offset) * vorticity == pytest.approx(sine)


def test_the_clinging_layer_is_where_the_swing_has_fallen_to_one_over_e() -> None:
    """i ω u = ν u'' in steps of depth, u = 1 at the wall and 0 far off, solved as a linear system."""
    viscosity, density, omega = 1.8e-5, 1.2, 2 * pi * 200
    depth = function("clinging-layer")(viscosity, density, omega)
    points, step = 4000, 12 * depth / 4000
    diagonal = numpy.full(points, -2.0 - 1j * omega * density / viscosity * step**2)
    bands = numpy.vstack([numpy.ones(points, complex), diagonal, numpy.ones(points, complex)])
    from scipy.linalg import solve_banded

    right = numpy.zeros(points, complex)
    right[0] = -1.0
    swing = abs(solve_banded((1, 1), bands, right))
    found = step * (1 + numpy.argmax(swing < numpy.exp(-1)))
    assert depth == pytest.approx(found, rel=0.005)


def test_the_first_pattern_of_two_reacting_substances() -> None:
    """Brusselator: at the B where a wave first stops fading, its wavelength is that of the law (det = A²).

    Nicolis and Prigogine 1977: B_c = (1 + A √(D_x/D_y))².
    """
    feed, slow, fast = 3.0, 1.0, 8.0
    control = (1 + feed * sqrt(slow / fast)) ** 2
    matrix = numpy.array([[control - 1, feed**2], [-control, -(feed**2)]])
    waves = numpy.linspace(0.01, 3.0, 3000)
    growth = [numpy.linalg.eigvals(matrix - k**2 * numpy.diag([slow, fast])).real.max() for k in waves]
    assert max(growth) == pytest.approx(0.0, abs=1e-4)
    found = 2 * pi / waves[int(numpy.argmax(growth))]
    assert function("pattern-wavelength")(slow, fast, feed, feed) == pytest.approx(found, rel=0.002)


def test_a_front_runs_at_the_speed_of_fisher() -> None:
    """u_t = D u_xx + k u (1 - u) stepped on a line; the front nears its speed as 3/(2 t)."""
    step, cell, u = 0.02, 0.4, numpy.zeros(1200)
    u[:20] = 1.0
    place = {}
    for index in range(10_001):
        if index in (5000, 10_000):
            place[index] = cell * int(numpy.argmax(u < 0.5))
        u[1:-1] += step * ((u[2:] - 2 * u[1:-1] + u[:-2]) / cell**2 + u[1:-1] * (1 - u[1:-1]))
    speed = (place[10_000] - place[5000]) / (5000 * step)
    assert speed == pytest.approx(function("front-speed")(1.0, 1.0), rel=0.03)


def test_a_substance_used_up_on_its_way_in() -> None:
    """D c'' = q stepped in time from an empty layer, no more removed than is there: where it first is gone."""
    supply, removal, cells, size = 1.0, 50.0, 60, 0.4
    cell = size / cells
    step = 0.2 * cell**2
    level = numpy.zeros(cells + 1)
    level[0] = supply
    for _ in range(20_000):
        level[1:-1] += step * (level[2:] - 2 * level[1:-1] + level[:-2]) / cell**2
        level[1:-1] = numpy.maximum(0.0, level[1:-1] - step * removal)
        level[-1] = level[-2]
    found = cell * numpy.argmax(level < 1e-6)
    assert function("reached-depth")(1.0, supply, removal) == pytest.approx(found, abs=1.5 * cell)


def test_a_rounded_body_on_a_slope_of_its_energy() -> None:
    """Height of the centre of mass R - (R - h) cos θ: the moment is the slope of weight times height."""
    weight, radius, height, tilt, step = 10.0, 0.1, 0.07, 0.4, 1e-6
    energy = [weight * (radius - (radius - height) * numpy.cos(a)) for a in (tilt - step, tilt + step)]
    expected = (energy[1] - energy[0]) / (2 * step)
    assert function("rocking-moment")(weight, radius, height, tilt) == pytest.approx(expected, rel=1e-6)


def test_solute_before_a_growing_front() -> None:
    """D c'' + V c' = 0 through the layer, what the solid refuses goes back: BVP of scipy for salt in slow ice."""
    from scipy.integrate import solve_bvp

    share, speed, layer, diffusivity = 0.2, 1.5, 1.0, 1.0

    def slopes(_: numpy.ndarray, c: numpy.ndarray) -> numpy.ndarray:
        return numpy.vstack([c[1], -speed / diffusivity * c[1]])

    def ends(front: numpy.ndarray, far: numpy.ndarray) -> numpy.ndarray:
        return numpy.array([diffusivity * front[1] + speed * (1 - share) * front[0], far[0] - 1.0])

    place = numpy.linspace(0.0, layer, 50)
    solved = solve_bvp(slopes, ends, place, numpy.ones((2, place.size)), tol=1e-8)
    assert solved.success
    expected = share * solved.sol(0.0)[0]
    assert function("solute-share-kept")(share, speed, layer, diffusivity) == pytest.approx(expected, rel=1e-5)


def test_limits_far_from_the_middle() -> None:
    """Where a group goes to nothing or beyond all bounds the laws go where they must."""
    assert function("resonant-transfer-share")(1e-12, 5e-9) == pytest.approx(1.0)
    assert function("resonant-transfer-share")(1e-6, 5e-9) < 1e-12
    assert function("thread-drag-ratio")(1.0, 1e-30) == pytest.approx(2.0, rel=0.01)
    assert function("solute-share-kept")(0.1, 1.0, 1.0, 1e-3) == pytest.approx(1.0)
    assert function("settled-answer")(1e3, 1.0, 0.5) == pytest.approx(1.0)
    assert function("settled-answer")(1e-9, 1.0, 0.5) < 1e-8
    assert function("bed-flow-deflection")(0.0, 10.0) == 0.0
    assert function("passed-share")(1e6, 1.0) == pytest.approx(1e-6)
    assert function("start-delay")(1.0, 1.0, 1 - 1e-9) == pytest.approx(9 * log(10), rel=1e-6)


@pytest.mark.parametrize(
    ("name", "inputs", "message"),
    [
        ("start-delay", (1.0, 0.5, 0.7), "full level less switching level above zero"),
        ("thread-drag-ratio", (1e-6, 1e-6), "a fifth of the pitch less the radius above zero"),
        ("long-run-growth", (1.2, 2.0, 0.9, 0.5), "stake share between 0 and 1, found 1.2"),
        ("joining-neighbour-count", (0.0,), "member count of at least 1"),
        ("shell-wrinkling-stress", (1e9, 1e-3, 0.1, 0.7), "poisson ratio between -1 and 0.5, found 0.7"),
        ("rocking-moment", (1.0, 1.0, 0.5, 4.0), "rocking angle from 0 to 180 degrees"),
        ("even-draw-rate", (1.0, 0.0), "time left above zero"),
        ("passed-share", (1.0, float("nan")), "found nan"),
    ],
)
def test_what_cannot_be_is_refused_with_what_was_found(name: str, inputs: tuple, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        function(name)(*inputs)
