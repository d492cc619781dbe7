"""Stiffness, strength, fracture, release and wear of bodies, and the opening of holes in soil.

Every function takes and returns numbers in SI units, or arrays of them element by element.
"""

from __future__ import annotations

import numpy

from analog.scale.functions._between import between
from analog.scale.functions._inputs import half_turn, not_negative, positive, power
from analog.scale.registry import computes

GREENHILL_NUMBER = 7.837347
"""(9/4) j², j = 1.866351 the first zero of the Bessel function of order -1/3 (Greenhill 1881)."""


@computes("euler-buckling-force")
def euler_buckling_force(
    youngs_modulus: float, second_moment_of_area: float, effective_length_factor: float, length: float
) -> float:
    """π² E I/(K L)² in N; Pa, m⁴, pure number, m. Euler 1744, as in any text on strength of materials."""
    positive(effective_length_factor=effective_length_factor, length=length)
    not_negative(youngs_modulus=youngs_modulus, second_moment_of_area=second_moment_of_area)
    return numpy.pi**2 * youngs_modulus * second_moment_of_area / (effective_length_factor * length) ** 2


@computes("slenderness-over-limit")
def slenderness_over_limit(
    effective_length_factor: float,
    length: float,
    radius_of_gyration: float,
    youngs_modulus: float,
    yield_strength: float,
) -> float:
    """(K L/i)/(π √(E/σ_y)), pure number; above 1 a rod buckles before it yields. Pure number, m, m, Pa, Pa."""
    positive(radius_of_gyration=radius_of_gyration, youngs_modulus=youngs_modulus, yield_strength=yield_strength)
    not_negative(effective_length_factor=effective_length_factor, length=length)
    slenderness = effective_length_factor * length / radius_of_gyration
    return slenderness / (numpy.pi * power(youngs_modulus / yield_strength, 0.5))


@computes("self-weight-buckling-height")
def self_weight_buckling_height(youngs_modulus: float, stem_diameter: float, density: float, gravity: float) -> float:
    """(7.8373 E I/(ρ g A))^(1/3) in m, with I/A = d²/16 of a solid round column; Pa, m, kg/m³, m/s². Greenhill 1881."""
    positive(density=density, gravity=gravity)
    not_negative(youngs_modulus=youngs_modulus, stem_diameter=stem_diameter)
    return power(GREENHILL_NUMBER * youngs_modulus * stem_diameter**2 / (16 * density * gravity), 1 / 3)


@computes("height-over-critical")
def height_over_critical(
    height: float, youngs_modulus: float, stem_diameter: float, density: float, gravity: float
) -> float:
    """Height of a column over the height at which it buckles under its own weight, pure number."""
    not_negative(height=height)
    positive(youngs_modulus=youngs_modulus, stem_diameter=stem_diameter)
    return height / self_weight_buckling_height(youngs_modulus, stem_diameter, density, gravity)


@computes("snap-through-force")
def snap_through_force(youngs_modulus: float, bar_area: float, rise: float, half_span: float) -> float:
    """2/(3√3) E A (h/b)³ in N: greatest load of two shallow bars propped against each other; Pa, m², m, m.

    The strain of a bar is (y² - h²)/(2 b²) at height y of the apex; the load E A y (h² - y²)/b³ is greatest at h/√3.
    """
    positive(half_span=half_span)
    not_negative(youngs_modulus=youngs_modulus, bar_area=bar_area, rise=rise)
    return 2 / power(27.0, 0.5) * youngs_modulus * bar_area * (rise / half_span) ** 3


@computes("shell-parameter")
def shell_parameter(shell_length: float, curvature: float, thickness: float) -> float:
    """L⁴ κ²/h², pure number: stretching against bending of a curved shell; m, 1/m, m. Forterre and others 2005."""
    positive(thickness=thickness)
    not_negative(shell_length=shell_length)
    return shell_length**4 * curvature**2 / thickness**2


@computes("cantilever-deflection")
def cantilever_deflection(
    end_force: float, length: float, youngs_modulus: float, second_moment_of_area: float
) -> float:
    """F L³/(3 E I) in m: free end of a beam held at the other; N, m, Pa, m⁴."""
    positive(youngs_modulus=youngs_modulus, second_moment_of_area=second_moment_of_area)
    not_negative(length=length)
    return end_force * length**3 / (3 * youngs_modulus * second_moment_of_area)


@computes("deflection-over-length")
def deflection_over_length(
    end_force: float, length: float, youngs_modulus: float, second_moment_of_area: float
) -> float:
    """F L²/(3 E I), pure number: deflection of the free end over the length, without regard to direction."""
    positive(length=length)
    return abs(cantilever_deflection(end_force, length, youngs_modulus, second_moment_of_area)) / length


@computes("sandwich-bending-stiffness")
def sandwich_bending_stiffness(face_modulus: float, face_thickness: float, face_distance: float) -> float:
    """E t d²/2 in N·m for a unit width, two thin equal faces on a core that only holds them apart; Pa, m, m.

    Allen 1969.
    """
    not_negative(face_modulus=face_modulus, face_thickness=face_thickness, face_distance=face_distance)
    return face_modulus * face_thickness * face_distance**2 / 2


@computes("open-foam-modulus")
def open_foam_modulus(solid_modulus: float, foam_density: float, solid_density: float) -> float:
    """E_s (ρ*/ρ_s)² in Pa, open cells whose walls bend; Pa, kg/m³, kg/m³. Gibson and Ashby 1997."""
    positive(solid_density=solid_density)
    not_negative(solid_modulus=solid_modulus, foam_density=foam_density)
    if not numpy.all(foam_density <= solid_density):
        raise ValueError(f"expected a foam lighter than its solid ({solid_density}), found {foam_density}")
    return solid_modulus * (foam_density / solid_density) ** 2


@computes("fibre-composite-modulus")
def fibre_composite_modulus(fibre_fraction: float, fibre_modulus: float, matrix_modulus: float) -> float:
    """V E_f + (1 - V) E_m in Pa, along the fibres; pure number, Pa, Pa. Rule of mixtures, Hull and Clyne 1996."""
    between(0, 1, fibre_fraction=fibre_fraction)
    not_negative(fibre_modulus=fibre_modulus, matrix_modulus=matrix_modulus)
    return fibre_fraction * fibre_modulus + (1 - fibre_fraction) * matrix_modulus


@computes("fibre-length-over-critical")
def fibre_length_over_critical(
    fibre_length: float, fibre_diameter: float, fibre_strength: float, interface_shear_strength: float
) -> float:
    """2 l τ/(σ_f d), pure number: length over that at which a fibre breaks rather than pulls out.

    Kelly and Tyson 1965.
    """
    positive(fibre_diameter=fibre_diameter, fibre_strength=fibre_strength)
    not_negative(fibre_length=fibre_length, interface_shear_strength=interface_shear_strength)
    return 2 * fibre_length * interface_shear_strength / (fibre_strength * fibre_diameter)


@computes("gradient-stress-step")
def gradient_stress_step(
    soft_modulus: float, stiff_modulus: float, strain: float, flaw_size: float, gradient_length: float
) -> float:
    """|E₂ - E₁| ε a/l in Pa: change of stress over a flaw of size a where stiffness changes evenly over a length l.

    Pa, Pa, pure number, m, m. A flaw longer than the gradient sees the whole change.
    """
    positive(gradient_length=gradient_length)
    not_negative(soft_modulus=soft_modulus, stiff_modulus=stiff_modulus, flaw_size=flaw_size)
    seen: float = numpy.minimum(flaw_size / gradient_length, 1.0)
    return abs(stiff_modulus - soft_modulus) * abs(strain) * seen


@computes("stiffness-mismatch")
def stiffness_mismatch(soft_modulus: float, stiff_modulus: float) -> float:
    """(E₂ - E₁)/(E₂ + E₁), from -1 to 1; Pa, Pa. First parameter of Dundurs 1969 for equal Poisson ratios."""
    positive(soft_modulus=soft_modulus, stiff_modulus=stiff_modulus)
    return (stiff_modulus - soft_modulus) / (stiff_modulus + soft_modulus)


@computes("griffith-stress")
def griffith_stress(youngs_modulus: float, surface_energy: float, crack_half_length: float) -> float:
    """√(2 E γ/(π a)) in Pa, plane stress, sharp crack of length 2a; Pa, J/m², m. Griffith 1921."""
    positive(crack_half_length=crack_half_length)
    not_negative(youngs_modulus=youngs_modulus, surface_energy=surface_energy)
    return power(2 * youngs_modulus * surface_energy / (numpy.pi * crack_half_length), 0.5)


@computes("plastic-zone-over-crack")
def plastic_zone_over_crack(
    youngs_modulus: float, surface_energy: float, yield_strength: float, crack_half_length: float
) -> float:
    """(K/σ_y)²/a with K² = 2 E γ, pure number; Pa, J/m², Pa, m. At most 0.4 for a sharp-crack test by ASTM E399."""
    positive(yield_strength=yield_strength, crack_half_length=crack_half_length)
    not_negative(youngs_modulus=youngs_modulus, surface_energy=surface_energy)
    return 2 * youngs_modulus * surface_energy / (yield_strength**2 * crack_half_length)


@computes("flaw-tolerant-thickness")
def flaw_tolerant_thickness(surface_energy: float, youngs_modulus: float, ideal_strength: float) -> float:
    """π γ E/σ_th² in m: below it a platelet is as strong as without flaws; J/m², Pa, Pa. Gao and others 2003."""
    positive(ideal_strength=ideal_strength)
    not_negative(surface_energy=surface_energy, youngs_modulus=youngs_modulus)
    return numpy.pi * surface_energy * youngs_modulus / ideal_strength**2


@computes("thickness-over-tolerant")
def thickness_over_tolerant(
    platelet_thickness: float, surface_energy: float, youngs_modulus: float, ideal_strength: float
) -> float:
    """Thickness of a platelet over the thickness that tolerates flaws, pure number."""
    not_negative(platelet_thickness=platelet_thickness)
    positive(surface_energy=surface_energy, youngs_modulus=youngs_modulus)
    return platelet_thickness / flaw_tolerant_thickness(surface_energy, youngs_modulus, ideal_strength)


@computes("sacrificial-bond-energy")
def sacrificial_bond_energy(bonds_per_area: float, bond_force: float, hidden_length: float) -> float:
    """n F l in J/m²: work of opening the bonds of an area, each over its hidden length; 1/m², N, m."""
    not_negative(bonds_per_area=bonds_per_area, bond_force=bond_force, hidden_length=hidden_length)
    return bonds_per_area * bond_force * hidden_length


@computes("uniform-stress-diameter")
def uniform_stress_diameter(end_force: float, distance_from_load: float, target_stress: float) -> float:
    """(32 F x/(π σ))^(1/3) in m: round section whose bending stress is σ at distance x from the load; N, m, Pa."""
    positive(target_stress=target_stress)
    not_negative(end_force=end_force, distance_from_load=distance_from_load)
    return power(32 * end_force * distance_from_load / (numpy.pi * target_stress), 1 / 3)


@computes("lever-force")
def lever_force(effort_force: float, effort_arm: float, load_arm: float) -> float:
    """F₁ L₁/L₂ in N; N, m, m. Archimedes."""
    positive(load_arm=load_arm)
    not_negative(effort_arm=effort_arm)
    return effort_force * effort_arm / load_arm


@computes("elastic-energy")
def elastic_energy(spring_constant: float, extension: float) -> float:
    """k x²/2 in J; N/m, m."""
    not_negative(spring_constant=spring_constant)
    return spring_constant * extension**2 / 2


@computes("mean-deceleration")
def mean_deceleration(impact_speed: float, stopping_distance: float) -> float:
    """v²/(2 s) in m/s²; m/s, m."""
    positive(stopping_distance=stopping_distance)
    return impact_speed**2 / (2 * stopping_distance)


@computes("bearable-tension")
def bearable_tension(built_in_stress: float, tensile_strength: float) -> float:
    """Built-in compression plus tensile strength, in Pa; Pa, Pa."""
    not_negative(tensile_strength=tensile_strength)
    return built_in_stress + tensile_strength


@computes("zigzag-fold-poisson-ratio")
def zigzag_fold_poisson_ratio(fold_angle: float, sector_angle: float) -> float:
    """-cos²θ tan²γ, pure number, in the plane of a sheet with the zigzag fold of Miura; radians.

    Schenk and Guest 2013.
    """
    between(0, numpy.pi / 2, fold_angle=fold_angle, sector_angle=sector_angle)
    result: float = -(numpy.cos(fold_angle) ** 2) * numpy.tan(sector_angle) ** 2
    return result


@computes("closing-time")
def closing_time(wound_width: float, closing_speed: float) -> float:
    """w/(2 v) in s: two edges advance toward each other; m, m/s."""
    positive(closing_speed=closing_speed)
    not_negative(wound_width=wound_width)
    return wound_width / (2 * closing_speed)


@computes("interval-over-closing")
def interval_over_closing(damage_interval: float, wound_width: float, closing_speed: float) -> float:
    """Time between damages over time to close, pure number; s, m, m/s."""
    positive(wound_width=wound_width)
    not_negative(damage_interval=damage_interval)
    return damage_interval / closing_time(wound_width, closing_speed)


@computes("worn-volume")
def worn_volume(wear_coefficient: float, normal_force: float, sliding_distance: float, hardness: float) -> float:
    """k F s/H in m³; pure number, N, m, Pa. Archard 1953."""
    positive(hardness=hardness)
    not_negative(wear_coefficient=wear_coefficient, normal_force=normal_force, sliding_distance=sliding_distance)
    return wear_coefficient * normal_force * sliding_distance / hardness


@computes("cavity-limit-pressure")
def cavity_limit_pressure(far_pressure: float, shear_strength: float, shear_modulus: float) -> float:
    """p₀ + s_u (1 + ln(G/s_u)) in Pa, long round hole in cohesive soil; Pa, Pa, Pa. Gibson and Anderson 1961."""
    positive(shear_strength=shear_strength, shear_modulus=shear_modulus)
    logarithm: float = numpy.log(shear_modulus / shear_strength)
    return far_pressure + shear_strength * (1 + logarithm)


@computes("shear-strength-under-pressure")
def shear_strength_under_pressure(cohesion: float, normal_stress: float, friction_angle: float) -> float:
    """c + σ tan φ in Pa; Pa, Pa borne by the grains, radian below a right angle. Coulomb, see Terzaghi 1943."""
    not_negative(cohesion=cohesion, normal_stress=normal_stress)
    between(0, 1.57, friction_angle=friction_angle)
    strength: float = cohesion + normal_stress * numpy.tan(friction_angle)
    return strength


@computes("largest-enclosed-section")
def largest_enclosed_section(wall_length: float) -> float:
    """P²/(4π) in m²: the circle that a wall of this length encloses when drawn flat; m. Isoperimetric inequality."""
    not_negative(wall_length=wall_length)
    result: float = wall_length**2 / (4 * numpy.pi)
    return result


@computes("rocking-moment")
def rocking_moment(body_weight: float, curvature_radius: float, centre_height: float, rocking_angle: float) -> float:
    """W (R - h) sin θ in N·m, positive where it turns the body back; N, m, m, radian from 0 to π.

    Slope of the potential energy of a body that rolls on a face of one radius, as in textbooks of mechanics.
    """
    half_turn(rocking_angle=rocking_angle)
    not_negative(body_weight=body_weight, curvature_radius=curvature_radius, centre_height=centre_height)
    moment: float = body_weight * (curvature_radius - centre_height) * numpy.sin(rocking_angle)
    return moment


@computes("shell-wrinkling-stress")
def shell_wrinkling_stress(
    youngs_modulus: float, wall_thickness: float, tube_radius: float, poisson_ratio: float
) -> float:
    """E t/(R √(3 (1 - ν²))) in Pa, a perfect tube pressed along its axis; Pa, m, m, number. Timoshenko and Gere."""
    positive(tube_radius=tube_radius)
    not_negative(youngs_modulus=youngs_modulus, wall_thickness=wall_thickness)
    between(-1, 0.5, poisson_ratio=poisson_ratio)
    return youngs_modulus * wall_thickness / (tube_radius * power(3 * (1 - poisson_ratio**2), 0.5))


@computes("restrained-shrinkage-stress")
def restrained_shrinkage_stress(youngs_modulus: float, shrinkage_strain: float, poisson_ratio: float) -> float:
    """E ε/(1 - ν) in Pa, a layer held in both directions of its plane; Pa, pure number, pure number. Hooke's law."""
    not_negative(youngs_modulus=youngs_modulus)
    between(-1, 0.5, poisson_ratio=poisson_ratio)
    return youngs_modulus * shrinkage_strain / (1 - poisson_ratio)


@computes("rocking-acceleration")
def rocking_acceleration(gravity: float, half_base: float, centre_height: float) -> float:
    """g b/h in m/s², sideways acceleration of the ground at which a body tips about its edge; m/s², m, m.

    Housner 1963.
    """
    positive(centre_height=centre_height)
    not_negative(gravity=gravity, half_base=half_base)
    return gravity * half_base / centre_height


@computes("meshed-turning-speed")
def meshed_turning_speed(first_turning_speed: float, first_pitch_radius: float, second_pitch_radius: float) -> float:
    """ω₁ r₁/r₂ in radian/s, equal lengths of rim in equal times; radian/s, m, m. Law of gearing."""
    positive(second_pitch_radius=second_pitch_radius)
    not_negative(first_pitch_radius=first_pitch_radius)
    return first_turning_speed * first_pitch_radius / second_pitch_radius
