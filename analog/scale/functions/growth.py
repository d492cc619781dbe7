"""Branching, body size, packing and channels that grow with use.

Every function takes and returns numbers in SI units, or arrays of them element by element.
"""

from __future__ import annotations

import numpy

from analog.scale.functions._inputs import not_negative, positive, power
from analog.scale.registry import computes

RESTING_WATTS = 70 * 4184 / 86400
"""70 kcal (of 4184 J) a day for a mammal of 1 kg, in W (Kleiber 1932, with his later exponent of 3/4)."""


@computes("cost-minimal-parent-radius")
def cost_minimal_parent_radius(daughter_count: float, daughter_radius: float) -> float:
    """(n r³)^(1/3) in m, laminar flow, upkeep in proportion to volume; number, m. Murray 1926."""
    not_negative(daughter_count=daughter_count, daughter_radius=daughter_radius)
    return power(daughter_count, 1 / 3) * daughter_radius


@computes("cubes-ratio")
def cubes_ratio(daughter_count: float, daughter_radius: float, parent_radius: float) -> float:
    """n r³/r₀³, pure number, 1 at least cost; number, m, m. Murray 1926."""
    positive(parent_radius=parent_radius)
    not_negative(daughter_count=daughter_count, daughter_radius=daughter_radius)
    return daughter_count * (daughter_radius / parent_radius) ** 3


@computes("resting-metabolic-rate")
def resting_metabolic_rate(body_mass: float) -> float:
    """3.39 M^0.75 in W; kg. Kleiber 1932."""
    not_negative(body_mass=body_mass)
    return RESTING_WATTS * power(body_mass, 0.75)


@computes("spiral-radius")
def spiral_radius(element_spacing: float, organ_number: float) -> float:
    """c √n in m: distance of the n-th element from the centre when each takes the same area; m, number. Vogel 1979."""
    not_negative(element_spacing=element_spacing, organ_number=organ_number)
    result: float = element_spacing * numpy.sqrt(organ_number)
    return result


@computes("relative-conductance")
def relative_conductance(flow: float, reference_flow: float, growth_exponent: float) -> float:
    """|Q/Q_r|^μ, pure number: settled conductance of a channel against one with the flow Q_r; m³/s, m³/s.

    Tero and others 2007.

    Settled, the growth |Q|^μ balances the loss in proportion to conductance.
    """
    positive(growth_exponent=growth_exponent)
    if not numpy.all(reference_flow != 0):
        raise ValueError(f"expected a reference flow other than zero, found {reference_flow}")
    return power(abs(flow / reference_flow), growth_exponent)


@computes("centring-pull")
def centring_pull(pull_per_length: float, far_reach: float, near_reach: float) -> float:
    """f (l₁ - l₂) in N, towards the far wall: two opposite feelers that pull in proportion to their length; N/m, m, m.

    Balance of forces, for the exponent 1 of the rule of Minc and others 2011.
    """
    not_negative(far_reach=far_reach, near_reach=near_reach)
    return pull_per_length * (far_reach - near_reach)


@computes("pattern-wavelength")
def pattern_wavelength(slow_spread: float, fast_spread: float, slow_rate: float, fast_rate: float) -> float:
    """2π (D_a D_i/(k_a k_i))^(1/4) in m, wavelength at which an even state first gives way; m²/s, m²/s, 1/s, 1/s.

    k_a k_i is the determinant of the matrix of reaction rates. Turing 1952.
    """
    positive(slow_rate=slow_rate, fast_rate=fast_rate)
    not_negative(slow_spread=slow_spread, fast_spread=fast_spread)
    result: float = 2 * numpy.pi * (slow_spread * fast_spread / (slow_rate * fast_rate)) ** 0.25
    return result


@computes("stream-incision-rate")
def stream_incision_rate(
    reference_rate: float,
    drained_area: float,
    source_area: float,
    area_exponent: float,
    slope: float,
    slope_exponent: float,
) -> float:
    """E₀ (A/A₀)^m S^n in m/s; m/s at A₀ on a slope of 1, m², m², number, rise over run, number.

    The law k A^m S^n of Whipple and Tucker 1999 with k A₀^m written E₀, so that its unit does not hang on m.
    """
    positive(source_area=source_area)
    not_negative(reference_rate=reference_rate, drained_area=drained_area, slope=slope)
    return reference_rate * power(drained_area / source_area, area_exponent) * power(slope, slope_exponent)


@computes("wall-growth-rate")
def wall_growth_rate(extensibility: float, inner_pressure: float, yield_threshold: float) -> float:
    """m (P - Y) in 1/s, 0 at and below the threshold; 1/(Pa·s), Pa, Pa. Lockhart 1965."""
    not_negative(extensibility=extensibility, yield_threshold=yield_threshold)
    over = inner_pressure - yield_threshold
    return extensibility * (over + abs(over)) / 2
