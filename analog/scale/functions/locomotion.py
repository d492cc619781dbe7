"""Drag, lift, thrust and wall friction of bodies in a stream. Numbers in SI units, or arrays element by element."""

from __future__ import annotations

from analog.scale.functions._between import between
from analog.scale.functions._inputs import not_negative, positive, power
from analog.scale.functions.fluids import reynolds_number
from analog.scale.registry import computes


@computes("drag-force")
def drag_force(fluid_density: float, speed: float, drag_coefficient: float, frontal_area: float) -> float:
    """½ρV²C_dA in N; kg/m³, m/s, 1, m²."""
    not_negative(fluid_density=fluid_density, drag_coefficient=drag_coefficient, frontal_area=frontal_area)
    return fluid_density * speed**2 * drag_coefficient * frontal_area / 2


@computes("lift-force")
def lift_force(fluid_density: float, speed: float, lift_coefficient: float, wing_area: float) -> float:
    """½ρV²C_LS in N; kg/m³, m/s, 1, m². A negative coefficient pushes the other way."""
    not_negative(fluid_density=fluid_density, wing_area=wing_area)
    return fluid_density * speed**2 * lift_coefficient * wing_area / 2


@computes("streamlined-drag-coefficient")
def streamlined_drag_coefficient(friction_coefficient: float, thickness: float, body_length: float) -> float:
    """C_f[1 + 1.5(d/l)^1.5 + 7(d/l)³] on the wetted area of a body of revolution. Hoerner 1965."""
    positive(body_length=body_length)
    not_negative(friction_coefficient=friction_coefficient, thickness=thickness)
    slimness = thickness / body_length
    coefficient: float = friction_coefficient * (1 + 1.5 * slimness**1.5 + 7 * slimness**3)
    return coefficient


@computes("rib-spacing-in-wall-units")
def rib_spacing_in_wall_units(
    rib_spacing: float, speed: float, friction_coefficient: float, fluid_density: float, viscosity: float
) -> float:
    """s u_τ ρ/μ with u_τ = V√(C_f/2); m, m/s, 1, kg/m³, Pa·s. Bechert and others 1997."""
    positive(viscosity=viscosity)
    not_negative(rib_spacing=rib_spacing, friction_coefficient=friction_coefficient)
    spacing: float = rib_spacing * abs(speed) * (friction_coefficient / 2) ** 0.5 * fluid_density / viscosity
    return spacing


@computes("turbulent-layer-thickness")
def turbulent_layer_thickness(fluid_density: float, speed: float, length: float, viscosity: float) -> float:
    """0.37 x Re^(−1/5) in m; turbulent layer on a smooth plate, about 5e5 < Re < 1e7. Schlichting's one-fifth law."""
    positive(fluid_density=fluid_density, speed=abs(speed), length=length)
    thickness: float = 0.37 * length * reynolds_number(fluid_density, speed, length, viscosity) ** -0.2
    return thickness


@computes("device-to-layer-ratio")
def device_to_layer_ratio(
    device_height: float, fluid_density: float, speed: float, length: float, viscosity: float
) -> float:
    """Height of a bump or vane over the thickness of the turbulent layer at its place."""
    not_negative(device_height=device_height)
    return device_height / turbulent_layer_thickness(fluid_density, speed, length, viscosity)


@computes("strouhal-number")
def strouhal_number(beat_frequency: float, beat_width: float, speed: float) -> float:
    """fA/V with the width A from peak to peak; Hz, m, m/s. Taylor, Nudds and Thomas 2003."""
    positive(speed=speed)
    not_negative(beat_frequency=beat_frequency, beat_width=beat_width)
    return beat_frequency * beat_width / speed


@computes("jet-thrust")
def jet_thrust(fluid_density: float, nozzle_area: float, jet_speed: float, speed: float) -> float:
    """ρAv(v − V) in N; kg/m³, m², m/s relative to the craft, m/s. Negative for a jet slower than the craft."""
    not_negative(fluid_density=fluid_density, nozzle_area=nozzle_area, jet_speed=jet_speed)
    return fluid_density * nozzle_area * jet_speed * (jet_speed - speed)


@computes("autorotation-sinking-speed")
def autorotation_sinking_speed(
    mass: float, gravity: float, fluid_density: float, disc_coefficient: float, swept_area: float
) -> float:
    """√(2mg/(ρCA)) in m/s; kg, m/s², kg/m³, 1, m². Drag on the swept disc balances the weight."""
    positive(fluid_density=fluid_density, disc_coefficient=disc_coefficient, swept_area=swept_area)
    not_negative(mass=mass)
    between(0, 10, disc_coefficient=disc_coefficient)
    sinking: float = (2 * mass * gravity / (fluid_density * disc_coefficient * swept_area)) ** 0.5
    return sinking


@computes("counter-turn")
def counter_turn(swing: float, part_inertia: float, body_inertia: float) -> float:
    """θ I_p/(I_p + I_b) in radian: turn of the rest of a free body when a part swings by θ against it; radian, kg·m².

    Angular momentum stays zero: I_p (θ - θ_b) = I_b θ_b. Libby and others 2012.
    """
    not_negative(part_inertia=part_inertia, body_inertia=body_inertia)
    positive(moment_of_inertia_of_the_whole=part_inertia + body_inertia)
    return swing * part_inertia / (part_inertia + body_inertia)


@computes("reconfigured-drag")
def reconfigured_drag(bending_drag: float, speed: float, bending_speed: float, speed_exponent: float) -> float:
    """F₀ (U/U₀)^(2 + V) in N; N, m/s, m/s, exponent from -2 to 0, which is 0 for a stiff body. Vogel 1989."""
    positive(speed=speed, bending_speed=bending_speed)
    not_negative(bending_drag=bending_drag)
    between(-2, 0, speed_exponent=speed_exponent)
    return bending_drag * power(speed / bending_speed, 2 + speed_exponent)


@computes("least-wind-step")
def least_wind_step(gravity: float, crossing_time: float, glide_ratio: float) -> float:
    """g t/(L/D) in m/s: airspeed that drag takes between two crossings; m/s², s, lift over drag. Richardson 2011."""
    positive(glide_ratio=glide_ratio)
    not_negative(gravity=gravity, crossing_time=crossing_time)
    return gravity * crossing_time / glide_ratio
