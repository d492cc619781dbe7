"""Wetting and capillarity: contact angles, capillary pressures, wicking, drops that stick, roll, spread or jump.

Angles in radians, all else in SI units. Products and powers are written out here, because a call of the library of
dimensionless numbers (fluids) costs more at the start of a search than the arithmetic; the tests hold both together.
"""

from __future__ import annotations

import numpy as np

from analog.scale.functions._inputs import arc_cosine, at_least, cosine, half_turn, not_negative, positive, power, share
from analog.scale.registry import computes

JUMP_SHARE = 0.2
"""Measured jumping speed over √(γ / (ρ R)): Boreyko & Chen (2009), about the same in later work."""

LANDAU_LEVICH_PLATE = 0.9458
LANDAU_LEVICH_MENISCUS = 1.338
"""Film over meniscus radius and Ca^(2/3). On a plate that radius is capillary length / √2, and 1.338/√2 = 0.946."""


@computes("bond-number")
def bond_number(density_difference: float, gravity: float, length: float, surface_tension: float) -> float:
    """Weight against surface tension, Bo = Δρ g L² / γ.

    density_difference : kg/m³. gravity : m/s². length : m. surface_tension : N/m. Returns a number without unit.
    Raises ValueError for a tension that is not positive, or a negative density difference, gravity or length.
    Source: de Gennes (1985), Reviews of Modern Physics 57, 827-863.
    """
    positive(surface_tension=surface_tension)
    not_negative(density_difference=density_difference, gravity=gravity, length=length)
    return density_difference * gravity * length**2 / surface_tension


@computes("weber-number")
def weber_number(liquid_density: float, impact_speed: float, drop_diameter: float, surface_tension: float) -> float:
    """Momentum against surface tension, We = ρ V² D / γ.

    liquid_density : kg/m³. impact_speed : m/s. drop_diameter : m. surface_tension : N/m. Returns a number without unit.
    Raises ValueError for values that are not positive (speed: negative). Source: Clanet et al. (2004), JFM 517,
    199-208.

    """
    positive(liquid_density=liquid_density, drop_diameter=drop_diameter, surface_tension=surface_tension)
    not_negative(impact_speed=impact_speed)
    return liquid_density * impact_speed**2 * drop_diameter / surface_tension


@computes("capillary-number")
def capillary_number(liquid_viscosity: float, speed: float, surface_tension: float) -> float:
    """Viscous drag against surface tension, Ca = µ U / γ.

    liquid_viscosity : Pa s. speed : m/s. surface_tension : N/m. Returns a number without unit.
    Raises ValueError for values that are not positive (speed: negative). Source: Landau & Levich (1942).
    """
    positive(liquid_viscosity=liquid_viscosity, surface_tension=surface_tension)
    not_negative(speed=speed)
    return liquid_viscosity * speed / surface_tension


@computes("energy-balance")
def energy_balance(solid_vapour_energy: float, solid_liquid_energy: float, surface_tension: float) -> float:
    """Difference of the solid energies over surface tension, without sign; above 1 no contact angle exists.

    All three in N/m. Returns a number without unit. Raises ValueError for a tension that is not positive or a negative
    solid energy. Source: Young (1805); de Gennes (1985).

    """
    positive(surface_tension=surface_tension)
    not_negative(solid_vapour_energy=solid_vapour_energy, solid_liquid_energy=solid_liquid_energy)
    return abs(solid_vapour_energy - solid_liquid_energy) / surface_tension


@computes("young-contact-angle")
def young_contact_angle(solid_vapour_energy: float, solid_liquid_energy: float, surface_tension: float) -> float:
    """Contact angle at which the three interfaces balance, cos θ = (γ_SV − γ_SL) / γ.

    All three in N/m. Returns radians. Raises ValueError for a tension that is not positive, a negative solid energy, or
    where no angle balances: the liquid spreads, or leaves the solid. Source: Young (1805), Phil. Trans. 95, 65-87.

    """
    positive(surface_tension=surface_tension)
    not_negative(solid_vapour_energy=solid_vapour_energy, solid_liquid_energy=solid_liquid_energy)
    return arc_cosine(
        (solid_vapour_energy - solid_liquid_energy) / surface_tension,
        "no contact angle balances these energies (above 1 the liquid spreads to a film)",
    )


@computes("line-tension-number")
def line_tension_number(line_tension: float, surface_tension: float, contact_line_radius: float) -> float:
    """Pull of the rim of a drop against surface tension, |τ| / (γ R).

    line_tension : N, of either sign. surface_tension : N/m. contact_line_radius : m. Returns a number without unit.
    Raises ValueError for a tension or radius that is not positive. Source: de Gennes (1985).
    """
    positive(surface_tension=surface_tension, contact_line_radius=contact_line_radius)
    return abs(line_tension) / (surface_tension * contact_line_radius)


@computes("texture-fineness")
def texture_fineness(drop_diameter: float, texture_spacing: float) -> float:
    """Drop size over texture spacing, both in metres; a number without unit.

    Raises ValueError for a size that is not positive. Source: Marmur (2003), Langmuir 19, 8343-8348.
    """
    positive(drop_diameter=drop_diameter, texture_spacing=texture_spacing)
    return drop_diameter / texture_spacing


@computes("filled-texture-tendency")
def filled_texture_tendency(contact_angle: float, roughness_ratio: float) -> float:
    """r |cos θ|; above 1 a filled texture carries no drop with an angle.

    contact_angle : radians. roughness_ratio : true over projected area, at least 1. Returns a number without unit.
    Raises ValueError for an angle beyond 180° or a ratio below 1. Source: Quéré (2008).
    """
    half_turn(contact_angle=contact_angle)
    at_least(1, roughness_ratio=roughness_ratio)
    return roughness_ratio * abs(cosine(contact_angle))


@computes("wenzel-contact-angle")
def wenzel_contact_angle(contact_angle: float, roughness_ratio: float) -> float:
    """Angle of a drop on a texture it fills, cos θ* = r cos θ.

    contact_angle : radians. roughness_ratio : true over projected area, at least 1. Returns radians. Raises ValueError
    for an angle beyond 180°, a ratio below 1, or where r |cos θ| exceeds 1 (the liquid runs into the texture as a film,
    or air is kept under the drop). Source: Wenzel (1936), Ind. Eng. Chem. 28, 988-994.

    """
    half_turn(contact_angle=contact_angle)
    at_least(1, roughness_ratio=roughness_ratio)
    return arc_cosine(
        roughness_ratio * cosine(contact_angle), "no drop stands on a filled texture; it spreads, or keeps air below"
    )


@computes("cassie-contact-angle")
def cassie_contact_angle(contact_angle: float, solid_fraction: float) -> float:
    """Angle of a drop that rests on flat tops with air between, cos θ* = f (cos θ + 1) − 1.

    contact_angle : radians. solid_fraction : wetted solid over projected area, above 0 and at most 1. Returns radians.
    Raises ValueError outside these. Source: Cassie & Baxter (1944), Trans. Faraday Soc. 40, 546-551.

    """
    half_turn(contact_angle=contact_angle)
    share(solid_fraction=solid_fraction)
    return arc_cosine(solid_fraction * (cosine(contact_angle) + 1) - 1, "beyond what a drop can show")


@computes("trapped-air-stability")
def trapped_air_stability(contact_angle: float, solid_fraction: float, roughness_ratio: float) -> float:
    """Contact angle over the critical one, cos θ_c = (f − 1)/(r − f), above which trapped air is the stable state.

    contact_angle : radians. solid_fraction : above 0, below 1. roughness_ratio : at least 1. Returns a number without
    unit. Raises ValueError outside these. Source: Lafuma & Quéré (2003), Nature Materials 2, 457-460.

    """
    half_turn(contact_angle=contact_angle)
    share(solid_fraction=solid_fraction)
    at_least(1, roughness_ratio=roughness_ratio)
    if np.any(solid_fraction >= 1):
        raise ValueError(f"expected a solid fraction below 1, found {solid_fraction}: no air is left under the drop")
    critical = (solid_fraction - 1) / (roughness_ratio - solid_fraction)
    return contact_angle / arc_cosine(critical, "no critical angle")


@computes("breakthrough-pressure")
def breakthrough_pressure(
    surface_tension: float, contact_angle: float, gap_radius: float, overhang_angle: float = 0.0
) -> float:
    """Pressure that pushes a liquid surface past the edge of a round gap, −2 γ cos(θ + ψ) / R, θ + ψ at most 180°.

    surface_tension : N/m. contact_angle, overhang_angle (wall leaning in, from upright) : radians. gap_radius : m; for
    a long slit its full width, since 2/R becomes 1/(half width) = 2/width. Returns Pa; negative: the liquid is drawn
    in. Raises ValueError for a tension or radius that is not positive or an angle beyond 180°. Source: Quéré (2008);
    undercut walls after Tuteja et al. (2007), Science 318, 1618-1622.

    """
    positive(surface_tension=surface_tension, gap_radius=gap_radius)
    half_turn(contact_angle=contact_angle, overhang_angle=overhang_angle)
    turned: float = np.minimum(contact_angle + overhang_angle, np.pi)  # a surface cannot bulge beyond a half ball
    return -2 * surface_tension * cosine(turned) / gap_radius


@computes("breakthrough-margin")
def breakthrough_margin(
    surface_tension: float, contact_angle: float, gap_radius: float, overhang_angle: float, liquid_pressure: float
) -> float:
    """Breakthrough pressure over the acting pressure; below 1 the liquid passes.

    As `breakthrough_pressure`, with liquid_pressure in Pa. Returns a number without unit, negative where the liquid is
    drawn in. Raises ValueError for an acting pressure that is not positive. Source: Quéré (2008).

    """
    positive(liquid_pressure=liquid_pressure)
    return breakthrough_pressure(surface_tension, contact_angle, gap_radius, overhang_angle) / liquid_pressure


@computes("laplace-pressure")
def laplace_pressure(surface_tension: float, first_radius: float, second_radius: float) -> float:
    """Pressure jump across a curved liquid surface, γ (1/R₁ + 1/R₂).

    surface_tension : N/m. Radii : m, negative where the surface bends the other way, infinite where it is straight.
    Returns Pa. Raises ValueError for a tension that is not positive or a radius of zero. Source: Young (1805).
    """
    positive(surface_tension=surface_tension, first_radius=abs(first_radius), second_radius=abs(second_radius))
    return surface_tension * (1 / first_radius + 1 / second_radius)


@computes("continuum-ratio")
def continuum_ratio(first_radius: float, molecule_size: float) -> float:
    """Radius of curvature, without sign, over the size of a molecule; both in metres, the ratio without unit.

    Raises ValueError for a size that is not positive. Source: Israelachvili (2011), chapter 17.
    """
    positive(first_radius=abs(first_radius), molecule_size=molecule_size)
    return abs(first_radius) / molecule_size


@computes("capillary-length")
def capillary_length(surface_tension: float, density_difference: float, gravity: float) -> float:
    """Length at which weight and surface tension are equal, √(γ / (Δρ g)).

    surface_tension : N/m. density_difference : kg/m³. gravity : m/s². Returns m. Raises ValueError for a value that is
    not positive. Source: de Gennes (1985).

    """
    positive(surface_tension=surface_tension, density_difference=density_difference, gravity=gravity)
    return power(surface_tension / (density_difference * gravity), 0.5)


@computes("capillary-rise")
def capillary_rise(
    surface_tension: float, contact_angle: float, liquid_density: float, gravity: float, tube_radius: float
) -> float:
    """Height of a liquid in a narrow tube, 2 γ cos θ / (ρ g r); negative where it is pushed down.

    surface_tension : N/m. contact_angle : radians. liquid_density : kg/m³. gravity : m/s². tube_radius : m. Returns m.
    Raises ValueError for a value that is not positive or an angle beyond 180°. Source: Jurin's law, de Gennes (1985).

    """
    positive(surface_tension=surface_tension, liquid_density=liquid_density, gravity=gravity, tube_radius=tube_radius)
    half_turn(contact_angle=contact_angle)
    return 2 * surface_tension * cosine(contact_angle) / (liquid_density * gravity * tube_radius)


@computes("wicking-distance")
def wicking_distance(
    surface_tension: float, pore_radius: float, contact_angle: float, liquid_viscosity: float, time: float
) -> float:
    """Length a pore has filled by itself after a time, √(γ r t cos θ / (2 µ)).

    surface_tension : N/m. pore_radius : m. contact_angle : radians. liquid_viscosity : Pa s. time : s. Returns m.
    Raises ValueError for a value that is not positive, or a contact angle of 90° or more, at which nothing is drawn in.
    Source: Washburn (1921), Physical Review 17, 273-283.

    """
    positive(surface_tension=surface_tension, pore_radius=pore_radius, liquid_viscosity=liquid_viscosity)
    not_negative(time=time)
    half_turn(contact_angle=contact_angle)
    pull = cosine(contact_angle)
    if not np.all(pull > 0):
        raise ValueError(
            f"expected a contact angle below 90 degrees, found {np.degrees(contact_angle)}: the liquid is not drawn in"
        )
    return power(surface_tension * pore_radius * time * pull / (2 * liquid_viscosity), 0.5)


@computes("viscous-time-ratio")
def viscous_time_ratio(time: float, liquid_viscosity: float, liquid_density: float, pore_radius: float) -> float:
    """Time over ρ r² / µ, the time in which viscosity takes hold of the liquid in a pore.

    time : s. liquid_viscosity : Pa s. liquid_density : kg/m³. pore_radius : m. Returns a number without unit.
    Raises ValueError for a value that is not positive (time: negative). Source: de Gennes (1985).
    """
    positive(liquid_viscosity=liquid_viscosity, liquid_density=liquid_density, pore_radius=pore_radius)
    not_negative(time=time)
    return time * liquid_viscosity / (liquid_density * pore_radius**2)


@computes("drop-retention")
def drop_retention(
    surface_tension: float,
    receding_angle: float,
    advancing_angle: float,
    drop_width: float,
    drop_volume: float,
    liquid_density: float,
    gravity: float,
    retention_shape_factor: float = 1.0,
) -> float:
    """Hold of the rim of a drop over its weight, k w γ (cos θᵣ − cos θₐ) / (ρ V g); above 1 it never leaves by weight.

    surface_tension : N/m. Angles : radians. drop_width : m. drop_volume : m³. liquid_density : kg/m³. gravity : m/s².
    Returns a number without unit. Raises ValueError for a value that is not positive, an angle beyond 180°, or a
    receding angle above the advancing one. Source: Furmidge (1962), J. Colloid Sci. 17, 309-324.

    """
    positive(
        surface_tension=surface_tension,
        drop_width=drop_width,
        drop_volume=drop_volume,
        liquid_density=liquid_density,
        gravity=gravity,
        retention_shape_factor=retention_shape_factor,
    )
    half_turn(receding_angle=receding_angle, advancing_angle=advancing_angle)
    difference = cosine(receding_angle) - cosine(advancing_angle)
    if not np.all(difference >= 0):
        raise ValueError(
            f"expected a receding angle no larger than the advancing one, found {np.degrees(receding_angle)} "
            f"and {np.degrees(advancing_angle)} degrees"
        )
    hold = retention_shape_factor * drop_width * surface_tension * difference
    return hold / (liquid_density * drop_volume * gravity)


@computes("roll-off-angle")
def roll_off_angle(
    surface_tension: float,
    receding_angle: float,
    advancing_angle: float,
    drop_width: float,
    drop_volume: float,
    liquid_density: float,
    gravity: float,
    retention_shape_factor: float = 1.0,
) -> float:
    """Slope on which a drop begins to leave, sin α = `drop_retention`.

    Inputs and errors as there; ValueError also where the drop never leaves, even from a wall. Returns radians.
    Source: Furmidge (1962).
    """
    sine = drop_retention(
        surface_tension,
        receding_angle,
        advancing_angle,
        drop_width,
        drop_volume,
        liquid_density,
        gravity,
        retention_shape_factor,
    )
    if not np.all(sine <= 1):
        raise ValueError(
            f"expected a hold of the rim below the weight, found {sine} times it: the drop never rolls off"
        )
    angle: float = np.arcsin(sine)
    return angle


@computes("roll-off-margin")
def roll_off_margin(
    surface_tension: float,
    receding_angle: float,
    advancing_angle: float,
    drop_width: float,
    drop_volume: float,
    liquid_density: float,
    gravity: float,
    retention_shape_factor: float,
    tilt_angle: float,
) -> float:
    """Weight of a drop along a slope over the hold of its rim; above 1 it leaves.

    As `drop_retention`, with tilt_angle in radians; ValueError also without any hysteresis. Returns a number without
    unit. Source: Furmidge (1962).

    """
    half_turn(tilt_angle=tilt_angle)
    hold = drop_retention(
        surface_tension,
        receding_angle,
        advancing_angle,
        drop_width,
        drop_volume,
        liquid_density,
        gravity,
        retention_shape_factor,
    )
    positive(hold_of_the_rim=hold)
    along: float = np.sin(tilt_angle)
    return along / hold


@computes("spread-diameter")
def spread_diameter(liquid_density: float, impact_speed: float, drop_diameter: float, surface_tension: float) -> float:
    """Largest width of a drop after impact, D We^(1/4), taken as D where We is below 1.

    liquid_density : kg/m³. impact_speed : m/s. drop_diameter : m. surface_tension : N/m. Returns m.
    Raises ValueError as `weber_number`. Source: Clanet et al. (2004), JFM 517, 199-208.
    """
    weber = weber_number(liquid_density, impact_speed, drop_diameter, surface_tension)
    stretch: float = power(np.maximum(weber, 1.0), 0.25)  # a drop is never narrower than it was in flight
    return drop_diameter * stretch


def _drop_reynolds_number(density: float, speed: float, diameter: float, viscosity: float) -> float:
    positive(liquid_viscosity=viscosity, impact_speed=speed)
    return density * speed * diameter / viscosity


@computes("impact-number")
def impact_number(
    liquid_density: float, impact_speed: float, drop_diameter: float, surface_tension: float, liquid_viscosity: float
) -> float:
    """P = We / Re^(4/5): below 1 surface tension ends the spreading of a drop, above 1 viscosity does.

    Inputs as `weber_number`, with liquid_viscosity in Pa s. Returns a number without unit. Raises ValueError for a
    value that is not positive. Source: Clanet et al. (2004).

    """
    weber = weber_number(liquid_density, impact_speed, drop_diameter, surface_tension)
    return weber / power(_drop_reynolds_number(liquid_density, impact_speed, drop_diameter, liquid_viscosity), 0.8)


@computes("splash-number")
def splash_number(
    liquid_density: float, impact_speed: float, drop_diameter: float, surface_tension: float, liquid_viscosity: float
) -> float:
    """K = We^(1/2) Re^(1/4): above about 57.7 a drop splashes on a dry smooth wall.

    Inputs and errors as `impact_number`. Returns a number without unit. Source: Mundo, Sommerfeld & Tropea (1995), who
    write it Oh Re^(5/4), the same number.

    """
    weber = weber_number(liquid_density, impact_speed, drop_diameter, surface_tension)
    reynolds = _drop_reynolds_number(liquid_density, impact_speed, drop_diameter, liquid_viscosity)
    return power(weber, 0.5) * power(reynolds, 0.25)


@computes("curvature-gradient-pressure")
def curvature_gradient_pressure(
    surface_tension: float, narrow_end_radius: float, wide_end_radius: float, drop_radius: float
) -> float:
    """Pressure that drives a drop along a slender cone, 2 γ (1/(R₁ + R₀) − 1/(R₂ + R₀)).

    surface_tension : N/m. Local radii of the cone at the two ends of the drop, and the drop's own : m. Returns Pa,
    positive towards the wide end. Raises ValueError for a value that is not positive or a narrow end wider than the
    wide one. Source: integral over the drop in Ju et al. (2012), Nature Communications 3, 1247, for a small half angle.

    """
    positive(surface_tension=surface_tension, narrow_end_radius=narrow_end_radius, drop_radius=drop_radius)
    if not np.all(wide_end_radius >= narrow_end_radius):
        raise ValueError(
            f"expected a wide end no narrower than the narrow end, found {wide_end_radius} against {narrow_end_radius}"
        )
    return 2 * surface_tension * (1 / (narrow_end_radius + drop_radius) - 1 / (wide_end_radius + drop_radius))


@computes("gradient-drive")
def gradient_drive(
    surface_tension: float,
    narrow_end_radius: float,
    wide_end_radius: float,
    drop_radius: float,
    receding_angle: float,
    advancing_angle: float,
) -> float:
    """Drive of a drop on a cone over the hold of its rim, Δp R₀ / (γ (cos θᵣ − cos θₐ)); right to a factor of a few.

    As `curvature_gradient_pressure`, with angles in radians. Returns a number without unit. Raises ValueError if the
    receding angle is not below the advancing one. Source: own estimate from the two forces weighed in Ju et al. (2012).

    """
    half_turn(receding_angle=receding_angle, advancing_angle=advancing_angle)
    difference = cosine(receding_angle) - cosine(advancing_angle)
    positive(difference_of_cosines_of_receding_and_advancing_angle=difference)
    drive = curvature_gradient_pressure(surface_tension, narrow_end_radius, wide_end_radius, drop_radius)
    return drive * drop_radius / (surface_tension * difference)


@computes("film-slip-speed")
def film_slip_speed(
    sliding_force: float, film_thickness: float, lubricant_viscosity: float, contact_area: float
) -> float:
    """Speed at which a body slides on a liquid film, F h / (µ A).

    sliding_force : N. film_thickness : m. lubricant_viscosity : Pa s. contact_area : m². Returns m/s.
    Raises ValueError for a value that is not positive (force: negative). Source: plane shear flow, common textbook.
    """
    positive(film_thickness=film_thickness, lubricant_viscosity=lubricant_viscosity, contact_area=contact_area)
    not_negative(sliding_force=sliding_force)
    return sliding_force * film_thickness / (lubricant_viscosity * contact_area)


@computes("film-coverage")
def film_coverage(film_thickness: float, texture_height: float) -> float:
    """Film thickness over texture height, both in metres; a number without unit.

    Raises ValueError for a texture height that is not positive. Source: Wong et al. (2011), Nature 477, 443-447.
    """
    positive(texture_height=texture_height)
    not_negative(film_thickness=film_thickness)
    return film_thickness / texture_height


@computes("film-drainage")
def film_drainage(
    liquid_density: float,
    gravity: float,
    film_height: float,
    texture_gap: float,
    lubricant_tension: float,
    lubricant_angle: float,
) -> float:
    """Weight of a held film over the hold of its texture, ρ g H s / (2 γ cos θ); above 1 it drains.

    liquid_density : kg/m³. gravity : m/s². film_height, texture_gap : m. lubricant_tension : N/m. lubricant_angle :
    radians. Returns a number without unit. Raises ValueError for a value that is not positive, or a lubricant that does
    not wet (90° and more). Source: capillary rise between plates, de Gennes (1985).

    """
    positive(
        liquid_density=liquid_density, gravity=gravity, texture_gap=texture_gap, lubricant_tension=lubricant_tension
    )
    not_negative(film_height=film_height)
    half_turn(lubricant_angle=lubricant_angle)
    pull = cosine(lubricant_angle)
    if not np.all(pull > 0):
        raise ValueError(
            f"expected a lubricant angle below 90 degrees, found {np.degrees(lubricant_angle)}: the texture sheds it"
        )
    return liquid_density * gravity * film_height * texture_gap / (2 * lubricant_tension * pull)


@computes("marangoni-speed")
def marangoni_speed(tension_difference: float, length: float, film_thickness: float, liquid_viscosity: float) -> float:
    """Mean speed of a thin film drawn along by a difference of surface tension, Δγ h / (2 µ L).

    tension_difference : N/m. length, film_thickness : m. liquid_viscosity : Pa s. Returns m/s, with the sign of the
    difference. Raises ValueError for a length, thickness or viscosity that is not positive.
    Source: shear Δγ/L at the surface, no slip at the wall: common textbook; effect: Scriven & Sternling (1960).
    """
    positive(length=length, film_thickness=film_thickness, liquid_viscosity=liquid_viscosity)
    return tension_difference * film_thickness / (2 * liquid_viscosity * length)


@computes("film-aspect")
def film_aspect(film_thickness: float, length: float) -> float:
    """Film thickness over length, both in metres; a number without unit.

    Raises ValueError for a value that is not positive. Source: lubrication approximation, common textbook.
    """
    positive(film_thickness=film_thickness, length=length)
    return film_thickness / length


@computes("film-inertia")
def film_inertia(
    liquid_density: float, tension_difference: float, film_thickness: float, liquid_viscosity: float, length: float
) -> float:
    """Inertia against viscosity in a film drawn by surface tension, ρ |Δγ| h³ / (µ² L²).

    liquid_density : kg/m³. tension_difference : N/m. film_thickness, length : m. liquid_viscosity : Pa s. Returns a
    number without unit, twice the Reynolds number times h/L. Raises ValueError for a value that is not positive.
    Source: lubrication approximation, common textbook.
    """
    positive(
        liquid_density=liquid_density, film_thickness=film_thickness, liquid_viscosity=liquid_viscosity, length=length
    )
    return liquid_density * abs(tension_difference) * film_thickness**3 / (liquid_viscosity**2 * length**2)


@computes("jumping-speed")
def jumping_speed(surface_tension: float, liquid_density: float, drop_radius: float) -> float:
    """Speed at which two equal drops leave a repellent surface on merging, 0.2 √(γ / (ρ R)).

    surface_tension : N/m. liquid_density : kg/m³. drop_radius : m, before merging. Returns m/s. Raises ValueError for a
    value that is not positive. Source: Boreyko & Chen (2009), PRL 103, 184501; factor as measured.

    """
    positive(surface_tension=surface_tension, liquid_density=liquid_density, drop_radius=drop_radius)
    return JUMP_SHARE * power(surface_tension / (liquid_density * drop_radius), 0.5)


@computes("drop-ohnesorge-number")
def drop_ohnesorge_number(
    liquid_viscosity: float, liquid_density: float, surface_tension: float, drop_radius: float
) -> float:
    """Viscous loss in a drop, Oh = µ / √(ρ γ R), on its radius.

    liquid_viscosity : Pa s. liquid_density : kg/m³. surface_tension : N/m. drop_radius : m. Returns a number without
    unit. Raises ValueError for a value that is not positive. Source: Enright et al. (2014), ACS Nano 8, 10352-10362.
    """
    positive(
        liquid_viscosity=liquid_viscosity,
        liquid_density=liquid_density,
        surface_tension=surface_tension,
        drop_radius=drop_radius,
    )
    return liquid_viscosity / power(liquid_density * surface_tension * drop_radius, 0.5)


@computes("drawn-film-thickness")
def drawn_film_thickness(
    liquid_viscosity: float, withdrawal_speed: float, surface_tension: float, density_difference: float, gravity: float
) -> float:
    """Film on an upright plate drawn from a bath, 0.9458 √(γ / (Δρ g)) Ca^(2/3).

    liquid_viscosity : Pa s. withdrawal_speed : m/s. surface_tension : N/m. density_difference : kg/m³. gravity : m/s².
    Returns m. Raises ValueError for a value that is not positive (speed: negative). Source: Landau & Levich (1942),
    Acta Physicochimica URSS 17, 42-54.

    """
    capillary = capillary_number(liquid_viscosity, withdrawal_speed, surface_tension)
    length = capillary_length(surface_tension, density_difference, gravity)
    return LANDAU_LEVICH_PLATE * length * power(capillary, 2 / 3)


@computes("meniscus-film-share")
def meniscus_film_share(liquid_viscosity: float, speed: float, surface_tension: float) -> float:
    """Film drawn from a liquid wedge over the radius of its surface, 1.338 Ca^(2/3).

    Inputs and errors as `capillary_number`. Returns a number without unit. Source: Landau & Levich (1942); Quéré
    (1999), Annual Review of Fluid Mechanics 31, 347-384.

    """
    return LANDAU_LEVICH_MENISCUS * power(capillary_number(liquid_viscosity, speed, surface_tension), 2 / 3)


@computes("contact-line-force")
def contact_line_force(surface_tension: float, contact_perimeter: float) -> float:
    """γ P in N, the most that a liquid surface bears where it stands upright along the contact line; N/m, m.

    Hu, Chan and Bush 2003.
    """
    not_negative(surface_tension=surface_tension, contact_perimeter=contact_perimeter)
    return surface_tension * contact_perimeter


@computes("emulsifier-needed")
def emulsifier_needed(surface_load: float, dispersed_volume: float, drop_radius: float) -> float:
    """3 Γ V/r in kg: load times the surface of drops of one radius; kg/m², m³, m. Textbook geometry of balls."""
    positive(drop_radius=drop_radius)
    not_negative(surface_load=surface_load, dispersed_volume=dispersed_volume)
    return 3 * surface_load * dispersed_volume / drop_radius


@computes("largest-stable-drop")
def largest_stable_drop(surface_tension: float, fluid_density: float, dissipation_rate: float) -> float:
    """Largest drop that stirring leaves whole, 0.725 (γ/ρ)^(3/5) ε^(-2/5).

    surface_tension : N/m. fluid_density : kg/m³ of the stirred fluid. dissipation_rate : W/kg. All above 0. Returns m.
    Raises ValueError for another sign.
    Source: Hinze (1955), turbulence finer than the drop, thin liquids; the number fits the tests of Clay (1940).
    """
    positive(surface_tension=surface_tension, fluid_density=fluid_density, dissipation_rate=dissipation_rate)
    return 0.725 * power(surface_tension / fluid_density, 3 / 5) * power(dissipation_rate, -2 / 5)
