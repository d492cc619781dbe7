"""Flow of fluids: regime, resistance of tubes and porous bodies, draught, pressure, grains and their sorting.

Every function takes and returns numbers in SI units, or arrays of them element by element.
"""

from __future__ import annotations

import numpy

from analog.scale.functions._between import between
from analog.scale.functions._constants import GAS_CONSTANT_OF_DRY_AIR
from analog.scale.functions._inputs import not_negative, positive, power
from analog.scale.registry import computes


@computes("ratio")
def ratio(numerator: float, denominator: float) -> float:
    """One quantity over another of the same unit. Raises ValueError unless the denominator is above 0."""
    positive(denominator=denominator)
    return numerator / denominator


@computes("reynolds-number")
def reynolds_number(fluid_density: float, speed: float, length: float, viscosity: float) -> float:
    """ρVL/μ; density kg/m³, speed m/s, length m, viscosity Pa·s. Reynolds 1883."""
    positive(viscosity=viscosity)
    not_negative(fluid_density=fluid_density, length=length)
    return fluid_density * abs(speed) * length / viscosity


@computes("stokes-settling-speed")
def stokes_settling_speed(
    density_difference: float, gravity: float, particle_diameter: float, viscosity: float
) -> float:
    """Δρ g d²/(18 μ) in m/s, negative when the particle is lighter; kg/m³, m/s², m, Pa·s. Stokes 1851."""
    positive(viscosity=viscosity)
    not_negative(particle_diameter=particle_diameter)
    return density_difference * gravity * particle_diameter**2 / (18 * viscosity)


@computes("tube-pressure-drop")
def tube_pressure_drop(viscosity: float, tube_length: float, flow_rate: float, tube_radius: float) -> float:
    """8 μ L Q/(π r⁴) in Pa; Pa·s, m, m³/s, m. Hagen and Poiseuille, see Sutera and Skalak 1993."""
    positive(tube_radius=tube_radius)
    not_negative(viscosity=viscosity, tube_length=tube_length)
    return 8 * viscosity * tube_length * flow_rate / (numpy.pi * tube_radius**4)


@computes("tube-reynolds-number")
def tube_reynolds_number(fluid_density: float, flow_rate: float, tube_radius: float, viscosity: float) -> float:
    """2ρQ/(π r μ), the Reynolds number on the diameter of a round tube; kg/m³, m³/s, m, Pa·s."""
    positive(tube_radius=tube_radius, viscosity=viscosity)
    return 2 * fluid_density * abs(flow_rate) / (numpy.pi * tube_radius * viscosity)


@computes("entrance-share")
def entrance_share(fluid_density: float, flow_rate: float, viscosity: float, tube_length: float) -> float:
    """Entrance length 0.06 Re D over tube length: 0.24 ρQ/(π μ L), free of the radius; kg/m³, m³/s, Pa·s, m."""
    positive(viscosity=viscosity, tube_length=tube_length)
    return 0.24 * fluid_density * abs(flow_rate) / (numpy.pi * viscosity * tube_length)


@computes("pressure-of-speed-difference")
def pressure_of_speed_difference(fluid_density: float, fast_speed: float, slow_speed: float) -> float:
    """½ρ(V₂² − V₁²) in Pa; kg/m³, m/s, m/s. Bernoulli along a streamline, Batchelor 1967."""
    not_negative(fluid_density=fluid_density)
    return fluid_density * (fast_speed**2 - slow_speed**2) / 2


@computes("stack-pressure")
def stack_pressure(
    air_pressure: float, outside_temperature: float, inside_temperature: float, gravity: float, shaft_height: float
) -> float:
    """(p/R)(1/T_o − 1/T_i) g h in Pa, positive upward; Pa, K, K, m/s², m. ASHRAE Handbook: Fundamentals."""
    positive(outside_temperature=outside_temperature, inside_temperature=inside_temperature)
    return (
        air_pressure
        / GAS_CONSTANT_OF_DRY_AIR
        * (1 / outside_temperature - 1 / inside_temperature)
        * gravity
        * shaft_height
    )


@computes("wind-to-stack-ratio")
def wind_to_stack_ratio(
    air_pressure: float,
    outside_temperature: float,
    inside_temperature: float,
    gravity: float,
    shaft_height: float,
    wind_speed: float,
) -> float:
    """½ρV² of the outside air over the size of the stack pressure. Infinite where both temperatures are equal."""
    stack = abs(stack_pressure(air_pressure, outside_temperature, inside_temperature, gravity, shaft_height))
    density = air_pressure / (GAS_CONSTANT_OF_DRY_AIR * outside_temperature)
    with numpy.errstate(divide="ignore"):
        share: float = numpy.divide(density * wind_speed**2 / 2, stack)
    return share


@computes("cavitation-number")
def cavitation_number(pressure: float, vapour_pressure: float, fluid_density: float, speed: float) -> float:
    """(p − p_v)/(½ρV²); Pa, Pa, kg/m³, m/s. Negative for a liquid under tension. Brennen 1995."""
    positive(fluid_density=fluid_density, speed=abs(speed))
    return (pressure - vapour_pressure) / (fluid_density * speed**2 / 2)


@computes("cavitation-margin")
def cavitation_margin(
    pressure: float, vapour_pressure: float, fluid_density: float, speed: float, peak_suction: float
) -> float:
    """Cavitation number over the strongest suction coefficient of the shape; bubbles are expected below 1."""
    positive(peak_suction=peak_suction)
    return cavitation_number(pressure, vapour_pressure, fluid_density, speed) / peak_suction


@computes("stokes-number")
def stokes_number(
    particle_density: float, speed: float, particle_diameter: float, viscosity: float, collector_radius: float
) -> float:
    """ρ_p V d²/(18 μ R) on the *radius* of the collector; kg/m³, m/s, m, Pa·s, m. Langmuir and Blodgett 1946."""
    positive(viscosity=viscosity, collector_radius=collector_radius)
    return particle_density * abs(speed) * particle_diameter**2 / (18 * viscosity * collector_radius)


@computes("impaction-efficiency")
def impaction_efficiency(
    particle_density: float, speed: float, particle_diameter: float, viscosity: float, collector_radius: float
) -> float:
    """Stk/(Stk + π/2), Stk on the radius; a fit for a cylinder in potential flow. Langmuir and Blodgett 1946."""
    number = stokes_number(particle_density, speed, particle_diameter, viscosity, collector_radius)
    return number / (number + numpy.pi / 2)


@computes("film-limited-flux")
def film_limited_flux(
    cross_flow_speed: float,
    diffusivity: float,
    channel_width: float,
    channel_length: float,
    wall_concentration: float,
    bulk_concentration: float,
) -> float:
    """1.62 (V D²/(d L))^(1/3) ln(c_w/c_b) in m/s; m/s, m²/s, m, m, equal units of concentration.

    Mass transfer of a laminar stream (Lévêque) in the film model, as in Belfort, Davis and Zydney 1994. The
    concentration at the filter cannot be below that of the stream.
    """
    positive(channel_width=channel_width, channel_length=channel_length, bulk_concentration=bulk_concentration)
    positive(concentration_at_the_wall_over_that_in_the_stream=wall_concentration / bulk_concentration)
    coefficient = 1.62 * (cross_flow_speed * diffusivity**2 / (channel_width * channel_length)) ** (1 / 3)
    flux: float = coefficient * numpy.log(wall_concentration / bulk_concentration)
    not_negative(flux_from_the_stream_to_the_filter=flux)
    return flux


@computes("sieve-rejection")
def sieve_rejection(particle_diameter: float, gap_width: float) -> float:
    """[λ(2 − λ)]² with λ = d/w, 1 from λ = 1 on; m, m. A ball in a round pore, Ferry 1936."""
    positive(gap_width=gap_width)
    not_negative(particle_diameter=particle_diameter)
    share = numpy.minimum(particle_diameter / gap_width, 1.0)
    rejection: float = (share * (2 - share)) ** 2
    return rejection


@computes("net-buoyancy")
def net_buoyancy(fluid_density: float, body_density: float, gravity: float, body_volume: float) -> float:
    """(ρ − ρ_b) g U in N, positive upward; kg/m³, kg/m³, m/s², m³. Archimedes."""
    not_negative(fluid_density=fluid_density, body_density=body_density, body_volume=body_volume)
    return (fluid_density - body_density) * gravity * body_volume


@computes("hydrostatic-pressure")
def hydrostatic_pressure(fluid_density: float, gravity: float, depth: float) -> float:
    """ρgh in Pa; kg/m³, m/s², m."""
    not_negative(fluid_density=fluid_density)
    return fluid_density * gravity * depth


@computes("hydrostatic-compression")
def hydrostatic_compression(fluid_density: float, gravity: float, depth: float, bulk_modulus: float) -> float:
    """ρgh/K, the share by which the column compresses its lowest layer; kg/m³, m/s², m, Pa."""
    positive(bulk_modulus=bulk_modulus)
    return hydrostatic_pressure(fluid_density, gravity, depth) / bulk_modulus


@computes("womersley-number")
def womersley_number(tube_radius: float, beat_frequency: float, fluid_density: float, viscosity: float) -> float:
    """r √(2πfρ/μ); m, Hz, kg/m³, Pa·s. Womersley 1955."""
    positive(viscosity=viscosity)
    not_negative(tube_radius=tube_radius, beat_frequency=beat_frequency, fluid_density=fluid_density)
    number: float = tube_radius * (2 * numpy.pi * beat_frequency * fluid_density / viscosity) ** 0.5
    return number


@computes("darcy-flow")
def darcy_flow(
    permeability: float, area: float, pressure_difference: float, viscosity: float, thickness: float
) -> float:
    """k A Δp/(μ L) in m³/s; m², m², Pa, Pa·s, m. Darcy 1856."""
    positive(viscosity=viscosity, thickness=thickness)
    not_negative(permeability=permeability, area=area)
    return permeability * area * pressure_difference / (viscosity * thickness)


@computes("hopping-threshold")
def hopping_threshold(
    threshold_constant: float, grain_density: float, fluid_density: float, gravity: float, grain_diameter: float
) -> float:
    """A √((ρ_p − ρ) g d/ρ) in m/s; grains must be denser than the fluid. Bagnold 1941."""
    positive(fluid_density=fluid_density, grain_diameter=grain_diameter)
    positive(grain_density_less_fluid_density=grain_density - fluid_density)
    threshold: float = (
        threshold_constant * ((grain_density - fluid_density) * gravity * grain_diameter / fluid_density) ** 0.5
    )
    return threshold


@computes("shear-to-threshold-ratio")
def shear_to_threshold_ratio(
    shear_speed: float,
    threshold_constant: float,
    grain_density: float,
    fluid_density: float,
    gravity: float,
    grain_diameter: float,
) -> float:
    """Shear speed of the stream over the threshold at which grains start to hop."""
    return shear_speed / hopping_threshold(threshold_constant, grain_density, fluid_density, gravity, grain_diameter)


@computes("slope-to-repose-ratio")
def slope_to_repose_ratio(slope: float, repose_angle: float) -> float:
    """tan θ/tan φ; both in radian, the slope from 0 to below π/2, the angle of repose above 0."""
    positive(repose_angle=repose_angle)
    between(0, 1.57, slope=slope, repose_angle=repose_angle)
    steepness: float = numpy.tan(slope) / numpy.tan(repose_angle)
    return steepness


@computes("critical-upward-gradient")
def critical_upward_gradient(grain_density: float, fluid_density: float, void_fraction: float) -> float:
    """(ρ_s/ρ − 1)(1 − ε): upward pressure gradient over ρg that carries the grains. Terzaghi 1943."""
    positive(fluid_density=fluid_density)
    between(0, 1, void_fraction=void_fraction)
    return (grain_density / fluid_density - 1) * (1 - void_fraction)


@computes("bedform-speed")
def bedform_speed(crest_flux: float, heap_height: float) -> float:
    """Q/H in m/s of a heap that keeps its shape; m²/s (volume with pores, for each metre of width), m. Bagnold 1941."""
    positive(heap_height=heap_height)
    return crest_flux / heap_height


@computes("overturn-speed")
def overturn_speed(buoyancy_flux: float, layer_depth: float) -> float:
    """(B h)^(1/3) in m/s, the scale of free convection under a steady flux; m²/s³, m. Deardorff 1970."""
    not_negative(buoyancy_flux=buoyancy_flux, layer_depth=layer_depth)
    return power(buoyancy_flux * layer_depth, 1 / 3)


@computes("righting-time")
def righting_time(
    viscosity: float, turning_resistance: float, body_density: float, gravity: float, mass_offset: float
) -> float:
    """μ α/(2 ρ g h) in s; Pa·s, pure number (6 for a ball), kg/m³, m/s², m. Pedley and Kessler 1992."""
    positive(body_density=body_density, gravity=gravity, mass_offset=mass_offset)
    not_negative(viscosity=viscosity, turning_resistance=turning_resistance)
    return viscosity * turning_resistance / (2 * body_density * gravity * mass_offset)


@computes("bed-flow-deflection")
def bed_flow_deflection(flow_depth: float, bend_radius: float) -> float:
    """arctan(7 h/R) in radian: how far the current at the bed turns towards the inner bank; m, m. Engelund 1974."""
    positive(bend_radius=bend_radius)
    not_negative(flow_depth=flow_depth)
    angle: float = numpy.arctan(7 * flow_depth / bend_radius)
    return angle


@computes("interception-share")
def interception_share(particle_diameter: float, collector_diameter: float, collector_reynolds_number: float) -> float:
    """[2(1+R) ln(1+R) − (1+R) + 1/(1+R)]/(2(2 − ln Re)), R = d/D: share of what heads for a lone fibre; m, m, number.

    Creeping flow across a cylinder (Lamb 1911), so that Re may be at most 1. Langmuir 1942, see Rubenstein and Koehl
    1977.
    """
    positive(collector_diameter=collector_diameter, collector_reynolds_number=collector_reynolds_number)
    not_negative(particle_diameter=particle_diameter)
    between(0, 1, collector_reynolds_number=collector_reynolds_number)
    width = 1 + particle_diameter / collector_diameter
    share: float = (2 * width * numpy.log(width) - width + 1 / width) / (2 * (2 - numpy.log(collector_reynolds_number)))
    return share


@computes("sheltered-threshold-ratio")
def sheltered_threshold_ratio(
    frontal_area_index: float, area_ratio: float, drag_ratio: float, unevenness: float
) -> float:
    """1/√((1 − mσλ)(1 + mβλ)) with λ, σ, β, m: threshold shear speed of bare over that of sheltered ground.

    All are pure numbers. Raises ValueError where the elements leave no ground bare (mσλ of 1 or more). Raupach and
    others 1993.
    """
    not_negative(
        frontal_area_index=frontal_area_index, area_ratio=area_ratio, drag_ratio=drag_ratio, unevenness=unevenness
    )
    covered = unevenness * area_ratio * frontal_area_index
    positive(share_of_the_ground_left_bare=1 - covered)
    return power((1 - covered) * (1 + unevenness * drag_ratio * frontal_area_index), -0.5)


@computes("floating-lens-depth")
def floating_lens_depth(light_density: float, head: float, heavy_density: float) -> float:
    """ρh/(ρ_s − ρ) in m below the outer level, liquids at rest; kg/m³, m, kg/m³. Ghijben 1889 and Herzberg 1901."""
    not_negative(light_density=light_density, head=head)
    positive(heavy_density_less_light_density=heavy_density - light_density)
    return light_density * head / (heavy_density - light_density)


@computes("rouse-number")
def rouse_number(settling_speed: float, shear_speed: float) -> float:
    """w/(κ u*), pure number, κ = 0.41; m/s, m/s. Rouse 1937."""
    positive(shear_speed=shear_speed)
    return settling_speed / (0.41 * shear_speed)


@computes("thread-drag-ratio")
def thread_drag_ratio(pitch: float, thread_radius: float) -> float:
    """2 q/(q + 1/2) with q = ln(0.18 λ/a), drag across over drag along a bent thread; m, m. Lighthill 1976.

    Raises ValueError where the thread is too thick beside its wavelength for the formula (0.18 λ must exceed a).
    """
    positive(
        pitch=pitch, thread_radius=thread_radius, a_fifth_of_the_pitch_less_the_radius=0.18 * pitch - thread_radius
    )
    slenderness: float = numpy.log(0.18 * pitch / thread_radius)
    return 2 * slenderness / (slenderness + 0.5)


@computes("stirred-mixing-time")
def stirred_mixing_time(patch_width: float, stretching_rate: float, patch_diffusivity: float) -> float:
    """ln(L √(λ/D))/λ in s: a patch thins to the streak that diffusion crosses; m, 1/s, m²/s. Ottino 1989.

    0 where the patch is no wider than such a streak from the start.
    """
    positive(patch_width=patch_width, stretching_rate=stretching_rate, patch_diffusivity=patch_diffusivity)
    widths: float = numpy.log(patch_width * (stretching_rate / patch_diffusivity) ** 0.5)
    time: float = numpy.maximum(0.0, widths) / stretching_rate
    return time
