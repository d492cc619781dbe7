"""Sensing and signals: strain, voltage, fields, suppression by neighbours, thresholds and the adding up of steps.

Every function takes and returns numbers in SI units, or arrays of them element by element.
"""

from __future__ import annotations

from typing import Any

import numpy

from analog.scale.functions._between import between
from analog.scale.functions._constants import FARADAY_CONSTANT, MOLAR_GAS_CONSTANT
from analog.scale.functions._inputs import at_least, not_negative, positive, power
from analog.scale.functions._molecular_constants import BOLTZMANN_CONSTANT
from analog.scale.registry import computes

MAGNETIC_CONSTANT = 1.25663706127e-6
"""N/A² (CODATA 2022)."""


@computes("slit-narrowing")
def slit_narrowing(strain: float, slit_length: float) -> float:
    """2 ε l in m: a crack of length l across a thin plate under far strain ε closes by 4 ε (l/2) at its middle.

    Inglis 1913.
    """
    not_negative(slit_length=slit_length)
    return 2 * strain * slit_length


@computes("nernst-potential")
def nernst_potential(
    temperature: float, charge_number: float, outer_concentration: float, inner_concentration: float
) -> float:
    """(R T/(z F)) ln(c_o/c_i) in V, inside against outside; K, pure number, mol/m³, mol/m³. Nernst 1889."""
    positive(temperature=temperature, outer_concentration=outer_concentration, inner_concentration=inner_concentration)
    if not numpy.all(charge_number != 0):
        raise ValueError(f"expected a charge number other than zero, found {charge_number}")
    logarithm = numpy.log(outer_concentration / inner_concentration)
    result: float = MOLAR_GAS_CONSTANT * temperature / (charge_number * FARADAY_CONSTANT) * logarithm
    return result


@computes("dipole-field")
def dipole_field(current_dipole: float, conductivity: float, target_distance: float) -> float:
    """p/(4π σ r³) in V/m, to the side of a small current dipole in an even conductor; A·m, S/m, m."""
    positive(conductivity=conductivity, target_distance=target_distance)
    return abs(current_dipole) / (4 * numpy.pi * conductivity * target_distance**3)


@computes("field-over-threshold")
def field_over_threshold(
    current_dipole: float, conductivity: float, target_distance: float, field_threshold: float
) -> float:
    """Field of the dipole over the smallest that is noticed, pure number; A·m, S/m, m, V/m."""
    positive(field_threshold=field_threshold)
    return dipole_field(current_dipole, conductivity, target_distance) / field_threshold


@computes("magnetic-over-thermal-energy")
def magnetic_over_thermal_energy(magnetic_moment: float, flux_density: float, temperature: float) -> float:
    """m B/(k T), pure number; A·m², T, K."""
    positive(temperature=temperature)
    not_negative(magnetic_moment=magnetic_moment, flux_density=flux_density)
    return magnetic_moment * flux_density / (BOLTZMANN_CONSTANT * temperature)


@computes("magnetic-alignment")
def magnetic_alignment(magnetic_moment: float, flux_density: float, temperature: float) -> float:
    """coth x - 1/x with x = m B/(k T): mean cosine to the field, 0 to 1; A·m², T, K.

    Langevin, see Frankel and Blakemore 1980.
    """
    x = magnetic_over_thermal_energy(magnetic_moment, flux_density, temperature)
    # the two terms cancel near zero, where x/3 is exact to the last digit
    safe = numpy.maximum(x, 1e-4)
    alignment: Any = numpy.where(x < 1e-4, x / 3, 1 / numpy.tanh(safe) - 1 / safe)
    result: float = alignment[()]
    return result


@computes("inhibited-response")
def inhibited_response(
    own_excitation: float, left_excitation: float, right_excitation: float, inhibition: float
) -> float:
    """e - k (e_l + e_r), no less than zero, in the unit of the excitation.

    Hartline and Ratliff 1957 without their threshold.
    """
    not_negative(inhibition=inhibition)
    result: float = numpy.maximum(0.0, own_excitation - inhibition * (left_excitation + right_excitation))
    return result


@computes("total-inhibition")
def total_inhibition(inhibition: float) -> float:
    """2 k: what an even field loses to both neighbours, pure number."""
    not_negative(inhibition=inhibition)
    return 2 * inhibition


@computes("leaky-level")
def leaky_level(pulse_size: float, pulse_count: float, pulse_interval: float, decay_time: float) -> float:
    """a (1 - e^(-nT/τ))/(1 - e^(-T/τ)), just after the last of n pulses at interval T; unit of a, number, s, s.

    The sum of a geometric series; n a when the pulses come all at once.
    """
    positive(decay_time=decay_time)
    not_negative(pulse_size=pulse_size, pulse_interval=pulse_interval)
    at_least(1, pulse_count=pulse_count)
    ratio = pulse_interval / decay_time
    safe = numpy.maximum(ratio, 1e-12)
    series: Any = numpy.where(ratio > 1e-12, numpy.expm1(-pulse_count * safe) / numpy.expm1(-safe), pulse_count)
    result: float = pulse_size * series[()]
    return result


@computes("level-over-threshold")
def level_over_threshold(
    pulse_size: float, pulse_count: float, pulse_interval: float, decay_time: float, threshold: float
) -> float:
    """Level after the pulses over the threshold, pure number; threshold in the unit of the pulse."""
    positive(threshold=threshold)
    return leaky_level(pulse_size, pulse_count, pulse_interval, decay_time) / threshold


@computes("path-error")
def path_error(step_length: float, heading_deviation: float, step_count: float) -> float:
    """s σ √N in m: spread across the way after N steps with independent small heading errors σ (radian).

    Units: m, radian, number.
    """
    not_negative(step_length=step_length, heading_deviation=heading_deviation, step_count=step_count)
    result: float = step_length * heading_deviation * numpy.sqrt(step_count)
    return result


@computes("error-over-search")
def error_over_search(step_length: float, heading_deviation: float, step_count: float, search_radius: float) -> float:
    """Spread of the position over the radius within which the goal is found, pure number; m, radian, number, m."""
    positive(search_radius=search_radius)
    return path_error(step_length, heading_deviation, step_count) / search_radius


@computes("switched-share-scatter")
def switched_share_scatter(switched_share: float, unit_count: float) -> float:
    """√(p(1 - p)/N), standard deviation of the share of N independent units that have switched; share, number.

    The binomial distribution, as in any textbook of statistics.
    """
    between(0, 1, switched_share=switched_share)
    positive(unit_count=unit_count)
    return power(switched_share * (1 - switched_share) / unit_count, 0.5)


@computes("relative-response")
def relative_response(sensor_gain: float, level_change: float, background: float) -> float:
    """g ΔS/S, pure number, for small changes; pure number, both levels in one unit. Weber's law."""
    positive(background=background)
    return sensor_gain * level_change / background


@computes("stack-voltage")
def stack_voltage(cell_count: float, cell_voltage: float) -> float:
    """n u in V, sources head to tail without load; number, V. Kirchhoff's second law."""
    not_negative(cell_count=cell_count)
    return cell_count * cell_voltage


@computes("coriolis-force")
def coriolis_force(mass: float, drive_speed: float, turn_rate: float) -> float:
    """2 m v Ω in N, turn across the motion; kg, m/s, radian/s. Coriolis 1835, as in any text on mechanics."""
    not_negative(mass=mass)
    return 2 * mass * drive_speed * turn_rate


@computes("tuned-speed")
def tuned_speed(input_spacing: float, delay: float) -> float:
    """d/τ in m/s, the speed at which a pattern meets the second input just when the first comes out of its delay; m, s.

    Hassenstein and Reichardt 1956; Jeffress 1948.
    """
    positive(delay=delay)
    not_negative(input_spacing=input_spacing)
    return input_spacing / delay


@computes("passed-share")
def passed_share(signal_time: float, adaptation_time: float) -> float:
    """1/√(1 + (τ_s/τ_a)²), 0 to 1: gain of a high-pass filter of one time constant; s, s, τ_s one over 2π frequency.

    Horowitz and Hill 1989.
    """
    positive(adaptation_time=adaptation_time)
    not_negative(signal_time=signal_time)
    return power(1 + (signal_time / adaptation_time) ** 2, -0.5)


@computes("gate-open-share")
def gate_open_share(gate_force: float, displacement: float, half_open_displacement: float, temperature: float) -> float:
    """1/(1 + exp(-z (x - x₀)/(k T))), 0 to 1, gates of two states in thermal balance; N, m, m, K.

    Howard and Hudspeth 1988, see Hudspeth 1989.
    """
    positive(temperature=temperature)
    work = gate_force * (displacement - half_open_displacement) / (BOLTZMANN_CONSTANT * temperature)
    opened: float = (1 + numpy.tanh(work / 2)) / 2  # the same, without overflow far from the middle
    return opened


@computes("leak-length")
def leak_length(wall_resistance: float, core_radius: float, core_resistivity: float) -> float:
    """√(r_w a/(2 ρ_c)) in m, over which a steady potential falls to 1/e; Ω·m² of wall, m, Ω·m.

    Hodgkin and Rushton 1946, outer resistance neglected.
    """
    positive(core_resistivity=core_resistivity)
    not_negative(wall_resistance=wall_resistance, core_radius=core_radius)
    length: float = (wall_resistance * core_radius / (2 * core_resistivity)) ** 0.5
    return length


@computes("dipole-pair-energy")
def dipole_pair_energy(grain_moment: float, centre_distance: float) -> float:
    """μ₀ m²/(2π d³) in J to part two equal magnets lying end to end; A·m², m. Textbook of magnetism."""
    positive(centre_distance=centre_distance)
    return MAGNETIC_CONSTANT * grain_moment**2 / (2 * numpy.pi * centre_distance**3)
