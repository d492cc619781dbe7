"""Vibration, sound and echo.

Every function takes and returns numbers in SI units, or arrays of them element by element.
"""

from __future__ import annotations

import numpy

from analog.scale.functions._inputs import not_negative, positive, power
from analog.scale.registry import computes


@computes("natural-frequency")
def natural_frequency(spring_constant: float, mass: float) -> float:
    """√(k/m)/(2π) in Hz; N/m, kg."""
    positive(mass=mass)
    not_negative(spring_constant=spring_constant)
    return power(spring_constant / mass, 0.5) / (2 * numpy.pi)


@computes("damping-ratio")
def damping_ratio(damping_coefficient: float, spring_constant: float, mass: float) -> float:
    """c/(2 √(k m)), pure number; N·s/m, N/m, kg."""
    positive(spring_constant=spring_constant, mass=mass)
    not_negative(damping_coefficient=damping_coefficient)
    return damping_coefficient / (2 * power(spring_constant * mass, 0.5))


@computes("damped-amplitude")
def damped_amplitude(initial_amplitude: float, cycle_count: float, damping_ratio: float) -> float:
    """x₀ exp(-2π n ζ/√(1 - ζ²)), in the unit of x₀.

    Raises ValueError from critical damping on, where no cycle is left.
    """
    not_negative(cycle_count=cycle_count, damping_ratio=damping_ratio)
    if not numpy.all(damping_ratio < 1):
        raise ValueError(f"expected a damping ratio below 1 (else nothing swings), found {damping_ratio}")
    decrement = 2 * numpy.pi * damping_ratio / numpy.sqrt(1 - damping_ratio**2)
    result: float = initial_amplitude * numpy.exp(-cycle_count * decrement)
    return result


@computes("impedance-ratio")
def impedance_ratio(
    first_density: float, first_sound_speed: float, second_density: float, second_sound_speed: float
) -> float:
    """ρ₂c₂/(ρ₁c₁), pure number; kg/m³, m/s, kg/m³, m/s."""
    positive(
        first_density=first_density,
        first_sound_speed=first_sound_speed,
        second_density=second_density,
        second_sound_speed=second_sound_speed,
    )
    return second_density * second_sound_speed / (first_density * first_sound_speed)


@computes("sound-reflection")
def sound_reflection(
    first_density: float, first_sound_speed: float, second_density: float, second_sound_speed: float
) -> float:
    """Reflected share of the energy, 0 to 1, plane boundary at right angles; kg/m³, m/s, kg/m³, m/s.

    Kinsler and others 2000.
    """
    contrast = impedance_ratio(first_density, first_sound_speed, second_density, second_sound_speed)
    return ((contrast - 1) / (contrast + 1)) ** 2


@computes("cavity-resonance-frequency")
def cavity_resonance_frequency(sound_speed: float, neck_area: float, cavity_volume: float, neck_length: float) -> float:
    """c/(2π) √(A/(V l)) in Hz; m/s, m², m³, m (with end corrections). Helmholtz, see Kinsler and others 2000."""
    positive(cavity_volume=cavity_volume, neck_length=neck_length)
    not_negative(sound_speed=sound_speed, neck_area=neck_area)
    return sound_speed / (2 * numpy.pi) * power(neck_area / (cavity_volume * neck_length), 0.5)


@computes("cavity-size-over-wavelength")
def cavity_size_over_wavelength(cavity_volume: float, frequency: float, sound_speed: float) -> float:
    """V^(1/3) f/c, pure number; m³, Hz, m/s."""
    positive(sound_speed=sound_speed)
    not_negative(cavity_volume=cavity_volume, frequency=frequency)
    return power(cavity_volume, 1 / 3) * frequency / sound_speed


@computes("serration-noise-reduction")
def serration_noise_reduction(half_amplitude: float, tooth_spacing: float) -> float:
    """10 log₁₀(1 + (4h/λ)²) in decibels; m, m. Upper bound of Howe 1991 for saw teeth of depth 2h and spacing λ."""
    positive(tooth_spacing=tooth_spacing)
    not_negative(half_amplitude=half_amplitude)
    result: float = 10 * numpy.log10(1 + (4 * half_amplitude / tooth_spacing) ** 2)
    return result


@computes("tooth-depth-in-eddies")
def tooth_depth_in_eddies(frequency: float, half_amplitude: float, flow_speed: float) -> float:
    """2π f h/U, pure number; Hz, m, m/s. Howe 1991."""
    positive(flow_speed=flow_speed)
    not_negative(frequency=frequency, half_amplitude=half_amplitude)
    return 2 * numpy.pi * frequency * half_amplitude / flow_speed


@computes("echo-range")
def echo_range(sound_speed: float, echo_delay: float) -> float:
    """c t/2 in m; m/s, s."""
    not_negative(sound_speed=sound_speed, echo_delay=echo_delay)
    return sound_speed * echo_delay / 2


@computes("circumference-over-wavelength")
def circumference_over_wavelength(target_diameter: float, frequency: float, sound_speed: float) -> float:
    """π d f/c, pure number; m, Hz, m/s."""
    positive(sound_speed=sound_speed)
    not_negative(target_diameter=target_diameter, frequency=frequency)
    return numpy.pi * target_diameter * frequency / sound_speed


@computes("arrival-time-difference")
def arrival_time_difference(receiver_spacing: float, bearing: float, sound_speed: float) -> float:
    """d sin θ/c in s for a plane wave, negative from the other side; m, radian from straight ahead, m/s."""
    positive(sound_speed=sound_speed)
    not_negative(receiver_spacing=receiver_spacing)
    delay: float = receiver_spacing * numpy.sin(bearing) / sound_speed
    return delay


@computes("clinging-layer")
def clinging_layer(viscosity: float, fluid_density: float, angular_frequency: float) -> float:
    """√(2μ/(ρω)) in m, the depth to which a wall holds back a fluid that swings along it; Pa·s, kg/m³, 1/s.

    Stokes's oscillating layer; Kinsler and others 2000.
    """
    positive(fluid_density=fluid_density, angular_frequency=angular_frequency)
    not_negative(viscosity=viscosity)
    return power(2 * viscosity / (fluid_density * angular_frequency), 0.5)


@computes("pressure-gain")
def pressure_gain(
    large_face_area: float, small_face_area: float, input_lever_arm: float, output_lever_arm: float
) -> float:
    """(A₁/A₂)(L₁/L₂), pressure at the small face over that at the large one; m², m², m, m.

    Balance of moments of stiff pistons on a lever, as in textbooks of mechanics.
    """
    positive(small_face_area=small_face_area, output_lever_arm=output_lever_arm)
    not_negative(large_face_area=large_face_area, input_lever_arm=input_lever_arm)
    return (large_face_area / small_face_area) * (input_lever_arm / output_lever_arm)


@computes("coupled-receiver-contrast")
def coupled_receiver_contrast(
    frequency: float,
    rocking_frequency: float,
    translation_frequency: float,
    rocking_damping: float,
    translation_damping: float,
    receiver_spacing: float,
    wavelength: float,
    bearing: float,
) -> float:
    """Swing of the nearer over that of the farther of two joined receivers, pure number, 1 for sound from ahead.

    Frequencies in Hz, damping as a share of critical, spacing and wavelength in m, bearing in radian from straight
    ahead. Equal masses in one plane wave; the two ways of swinging are independent oscillators. Miles and others 1995.
    """
    positive(rocking_frequency=rocking_frequency, translation_frequency=translation_frequency, wavelength=wavelength)
    not_negative(frequency=frequency, rocking_damping=rocking_damping, translation_damping=translation_damping)
    half_lag = numpy.pi * receiver_spacing * numpy.sin(bearing) / wavelength

    def answer(own: float, damping: float) -> complex:
        return 1 / (1 - (frequency / own) ** 2 + 2j * damping * frequency / own) / (own / rocking_frequency) ** 2

    together = answer(translation_frequency, translation_damping) * numpy.cos(half_lag)
    rocking = 1j * answer(rocking_frequency, rocking_damping) * numpy.sin(half_lag)
    contrast: float = abs(together + rocking) / abs(together - rocking)
    return contrast


@computes("tooth-strike-frequency")
def tooth_strike_frequency(stroke_speed: float, tooth_pitch: float) -> float:
    """v/p in Hz, one blow a tooth; m/s, m."""
    positive(tooth_pitch=tooth_pitch)
    not_negative(stroke_speed=stroke_speed)
    return stroke_speed / tooth_pitch


@computes("horn-cutoff-frequency")
def horn_cutoff_frequency(flare_constant: float, sound_speed: float) -> float:
    """m c/(4π) in Hz for a horn whose section grows as e^(m x); 1/m, m/s. Webster 1919, see Kinsler and others 2000."""
    not_negative(flare_constant=flare_constant, sound_speed=sound_speed)
    return flare_constant * sound_speed / (4 * numpy.pi)


@computes("lag-of-held-mass")
def lag_of_held_mass(mass: float, acceleration: float, spring_constant: float) -> float:
    """-m a/k in m, against the frame and slower than the spring answers; kg, m/s², N/m. Textbook of measurement."""
    positive(spring_constant=spring_constant)
    not_negative(mass=mass)
    return -mass * acceleration / spring_constant
