"""Adhesion and contact: pull-off, attraction, peeling, suction, films, hooks, friction, bonds, charges.

Angles in radians, all else in SI units.

"""

from __future__ import annotations

import numpy as np

from analog.scale.functions._inputs import at_least, cosine, half_turn, not_negative, positive, power
from analog.scale.registry import computes


@computes("bridge-force")
def bridge_force(
    surface_tension: float,
    contact_angle: float,
    radius_of_curvature: float,
    gap_height: float,
    bridge_half_height: float,
) -> float:
    """Pull of a small liquid bridge between a ball and a flat, 4 π γ R cos θ / (1 + D / (2 r cos θ)).

    surface_tension : N/m. contact_angle : radians. radius_of_curvature, gap_height, bridge_half_height : m. Returns N.
    Raises ValueError for a value that is not positive (gap: negative), or a liquid that does not wet (90° and more).
    Source: Israelachvili (2011), Intermolecular and Surface Forces, section 17.11.

    """
    positive(
        surface_tension=surface_tension, radius_of_curvature=radius_of_curvature, bridge_half_height=bridge_half_height
    )
    not_negative(gap_height=gap_height)
    half_turn(contact_angle=contact_angle)
    pull = cosine(contact_angle)
    if not np.all(pull > 0):
        raise ValueError(
            f"expected a contact angle below 90 degrees, found {np.degrees(contact_angle)}: the bridge pushes apart"
        )
    touching = 4 * np.pi * surface_tension * radius_of_curvature * pull
    return touching / (1 + gap_height / (2 * bridge_half_height * pull))


@computes("bridge-slenderness")
def bridge_slenderness(bridge_half_height: float, radius_of_curvature: float) -> float:
    """Half height of a liquid bridge over the radius of the body, both in metres; a number without unit.

    Raises ValueError for a value that is not positive. Source: Israelachvili (2011).
    """
    positive(bridge_half_height=bridge_half_height, radius_of_curvature=radius_of_curvature)
    return bridge_half_height / radius_of_curvature


@computes("tabor-parameter")
def tabor_parameter(
    radius_of_curvature: float, work_of_adhesion: float, reduced_modulus: float, equilibrium_separation: float
) -> float:
    """Which limit an adhesive contact obeys, µ = (R W² / (E*² z₀³))^(1/3): above 5 soft (JKR), below 0.1 stiff (DMT).

    radius_of_curvature, equilibrium_separation : m. work_of_adhesion : J/m². reduced_modulus : Pa. Returns a number
    without unit. Raises ValueError for a value that is not positive. Source: Tabor (1977), JCIS 58, 2-13.
    """
    positive(
        radius_of_curvature=radius_of_curvature,
        work_of_adhesion=work_of_adhesion,
        reduced_modulus=reduced_modulus,
        equilibrium_separation=equilibrium_separation,
    )
    return power(radius_of_curvature * work_of_adhesion**2 / (reduced_modulus**2 * equilibrium_separation**3), 1 / 3)


@computes("jkr-pull-off")
def jkr_pull_off(work_of_adhesion: float, radius_of_curvature: float) -> float:
    """Force that parts a soft sticky contact, (3/2) π W R.

    work_of_adhesion : J/m². radius_of_curvature : m. Returns N. Raises ValueError for a value that is not positive.
    Source: Johnson, Kendall & Roberts (1971), Proc. R. Soc. A 324, 301-313.
    """
    positive(work_of_adhesion=work_of_adhesion, radius_of_curvature=radius_of_curvature)
    return 1.5 * np.pi * work_of_adhesion * radius_of_curvature


@computes("jkr-contact-share")
def jkr_contact_share(work_of_adhesion: float, radius_of_curvature: float, reduced_modulus: float) -> float:
    """Contact radius at zero load over radius, (9 π W R² / (2 E*))^(1/3) / R.

    work_of_adhesion : J/m². radius_of_curvature : m. reduced_modulus : Pa. Returns a number without unit.
    Raises ValueError for a value that is not positive. Source: Johnson, Kendall & Roberts (1971).
    """
    positive(
        work_of_adhesion=work_of_adhesion, radius_of_curvature=radius_of_curvature, reduced_modulus=reduced_modulus
    )
    return power(9 * np.pi * work_of_adhesion / (2 * reduced_modulus * radius_of_curvature), 1 / 3)


@computes("dmt-pull-off")
def dmt_pull_off(work_of_adhesion: float, radius_of_curvature: float) -> float:
    """Force that parts a stiff small contact, 2 π W R.

    work_of_adhesion : J/m². radius_of_curvature : m. Returns N. Raises ValueError for a value that is not positive.
    Source: Derjaguin, Muller & Toporov (1975), JCIS 53, 314-326.
    """
    positive(work_of_adhesion=work_of_adhesion, radius_of_curvature=radius_of_curvature)
    return 2 * np.pi * work_of_adhesion * radius_of_curvature


@computes("van-der-waals-force")
def van_der_waals_force(hamaker_constant: float, radius_of_curvature: float, gap: float) -> float:
    """Attraction of a ball and a flat, A R / (6 D²); two balls with 1/R = 1/R₁ + 1/R₂.

    hamaker_constant : J, negative where the medium drives the bodies apart. radius_of_curvature, gap : m. Returns N.
    Raises ValueError for a radius or gap that is not positive. Source: Hamaker (1937), Physica 4, 1058-1072.
    """
    positive(radius_of_curvature=radius_of_curvature, gap=gap)
    return hamaker_constant * radius_of_curvature / (6 * gap**2)


@computes("gap-share")
def gap_share(gap: float, radius_of_curvature: float) -> float:
    """Gap over radius, both in metres; a number without unit.

    Raises ValueError for a value that is not positive. Source: Derjaguin approximation, Israelachvili (2011).
    """
    positive(gap=gap, radius_of_curvature=radius_of_curvature)
    return gap / radius_of_curvature


@computes("retardation-ratio")
def retardation_ratio(gap: float, retardation_length: float) -> float:
    """Gap over the length beyond which the attraction falls off faster, both in metres; a number without unit.

    Raises ValueError for a value that is not positive. Source: Israelachvili (2011).
    """
    positive(gap=gap, retardation_length=retardation_length)
    return gap / retardation_length


@computes("split-force")
def split_force(whole_force: float, contact_count: float) -> float:
    """Force of n self-similar round contacts of the same total area, √n F₁.

    whole_force : N. contact_count : 1 or more. Returns N. Raises ValueError for a negative force or a count below 1.
    Source: Arzt, Gorb & Spolenak (2003), PNAS 100, 10603-10606.
    """
    not_negative(whole_force=whole_force)
    at_least(1, contact_count=contact_count)
    return whole_force * power(contact_count, 0.5)


@computes("split-strength-ratio")
def split_strength_ratio(work_of_adhesion: float, contact_radius: float, theoretical_strength: float) -> float:
    """Mean stress of a round tip at pull-off over theoretical strength, 3 W / (2 a σ): the tip as wide as its contact.

    work_of_adhesion : J/m². contact_radius : m. theoretical_strength : Pa. Returns a number without unit. Raises
    ValueError for a value that is not positive. Source: pull-off of Johnson, Kendall & Roberts (1971) over π a².

    """
    positive(
        work_of_adhesion=work_of_adhesion, contact_radius=contact_radius, theoretical_strength=theoretical_strength
    )
    return 1.5 * work_of_adhesion / (contact_radius * theoretical_strength)


@computes("hertz-contact-radius")
def hertz_contact_radius(normal_force: float, radius_of_curvature: float, reduced_modulus: float) -> float:
    """Radius of the contact of two elastic curved bodies, (3 F R / (4 E*))^(1/3).

    normal_force : N. radius_of_curvature : m, 1/R = 1/R₁ + 1/R₂. reduced_modulus : Pa. Returns m. Raises ValueError for
    a value that is not positive (force: negative). Source: Johnson (1985), Contact Mechanics, ch. 4.

    """
    positive(radius_of_curvature=radius_of_curvature, reduced_modulus=reduced_modulus)
    not_negative(normal_force=normal_force)
    return power(0.75 * normal_force * radius_of_curvature / reduced_modulus, 1 / 3)


@computes("hertz-contact-share")
def hertz_contact_share(normal_force: float, radius_of_curvature: float, reduced_modulus: float) -> float:
    """Hertz contact radius over radius of curvature; a number without unit.

    Inputs and errors as `hertz_contact_radius`. Source: Johnson (1985), chapter 4.

    """
    return hertz_contact_radius(normal_force, radius_of_curvature, reduced_modulus) / radius_of_curvature


@computes("hertz-yield-ratio")
def hertz_yield_ratio(
    normal_force: float, radius_of_curvature: float, reduced_modulus: float, yield_strength: float
) -> float:
    """Peak pressure 3 F / (2 π a²) over 1.6 times the yield strength; above 1 a permanent dent begins.

    As `hertz_contact_radius`, with yield_strength in Pa. Returns a number without unit. Raises ValueError for a value
    that is not positive. Source: Johnson (1985), section 6.1.

    """
    positive(normal_force=normal_force, yield_strength=yield_strength)
    radius = hertz_contact_radius(normal_force, radius_of_curvature, reduced_modulus)
    return 1.5 * normal_force / (np.pi * radius**2) / (1.6 * yield_strength)


def _peel_force_per_width(work: float, angle: float, modulus: float, thickness: float) -> float:
    """Positive root of x²/(2 d E) + x (1 − cos φ) − W = 0, in the form that does not cancel at large angles (N/m)."""
    positive(work_of_adhesion=work, strip_modulus=modulus, strip_thickness=thickness)
    half_turn(peel_angle=angle)
    opening = 1 - cosine(angle)
    return 2 * work / (opening + power(opening**2 + 2 * work / (thickness * modulus), 0.5))


@computes("peel-force")
def peel_force(
    strip_width: float, work_of_adhesion: float, peel_angle: float, strip_modulus: float, strip_thickness: float
) -> float:
    """Force that peels a thin elastic strip: (F/b)² / (2 d E) + (F/b)(1 − cos φ) − W = 0.

    strip_width, strip_thickness : m. work_of_adhesion : J/m². peel_angle : radians. strip_modulus : Pa. Returns N.
    Raises ValueError for a value that is not positive or an angle beyond 180°.
    Source: Kendall (1975), J. Phys. D 8, 1449-1452.
    """
    positive(strip_width=strip_width)
    return strip_width * _peel_force_per_width(work_of_adhesion, peel_angle, strip_modulus, strip_thickness)


@computes("peel-strain")
def peel_strain(work_of_adhesion: float, peel_angle: float, strip_modulus: float, strip_thickness: float) -> float:
    """Strain of the free part of a peeled strip, F / (b d E); a number without unit. Inputs and errors as `peel_force`.

    Source: Kendall (1975).
    """
    per_width = _peel_force_per_width(work_of_adhesion, peel_angle, strip_modulus, strip_thickness)
    return per_width / (strip_thickness * strip_modulus)


@computes("suction-force")
def suction_force(pressure_difference: float, cup_area: float) -> float:
    """Force that holds a sealed cup, Δp A.

    pressure_difference : Pa. cup_area : m². Returns N. Raises ValueError for a negative difference or an area that is
    not positive. Source: definition of pressure, common textbook.

    """
    positive(cup_area=cup_area)
    not_negative(pressure_difference=pressure_difference)
    return pressure_difference * cup_area


@computes("pressure-share")
def pressure_share(pressure_difference: float, ambient_pressure: float) -> float:
    """Suction over surrounding pressure, both in Pa; a number without unit.

    Raises ValueError for a surrounding pressure that is not positive or a negative difference. Source: common textbook.

    """
    positive(ambient_pressure=ambient_pressure)
    not_negative(pressure_difference=pressure_difference)
    return pressure_difference / ambient_pressure


def _check_film(liquid_viscosity: float, contact_radius: float, separation_speed: float, film_thickness: float) -> None:
    positive(liquid_viscosity=liquid_viscosity, contact_radius=contact_radius, film_thickness=film_thickness)
    not_negative(separation_speed=separation_speed)


@computes("stefan-force")
def stefan_force(
    liquid_viscosity: float, contact_radius: float, separation_speed: float, film_thickness: float
) -> float:
    """Resistance of a thin film between round plates to being parted, 3 π µ a⁴ V / (2 h³).

    liquid_viscosity : Pa s. contact_radius, film_thickness : m. separation_speed : m/s. Returns N. Raises ValueError
    for a value that is not positive (speed: negative). Source: Stefan (1874).

    """
    _check_film(liquid_viscosity, contact_radius, separation_speed, film_thickness)
    return 1.5 * np.pi * liquid_viscosity * contact_radius**4 * separation_speed / film_thickness**3


@computes("film-tension-ratio")
def film_tension_ratio(
    liquid_viscosity: float,
    separation_speed: float,
    contact_radius: float,
    film_thickness: float,
    ambient_pressure: float,
) -> float:
    """Drop of pressure in the middle of a parted film over surrounding pressure, 3 µ V a² / (h³ p₀).

    As `stefan_force`, with ambient_pressure in Pa. Returns a number without unit; at 1 the film reaches vacuum.
    Source: pressure of the squeeze flow, whose integral over the disc is Stefan's force; common textbook.
    """
    _check_film(liquid_viscosity, contact_radius, separation_speed, film_thickness)
    positive(ambient_pressure=ambient_pressure)
    return 3 * liquid_viscosity * separation_speed * contact_radius**2 / (film_thickness**3 * ambient_pressure)


@computes("film-slenderness")
def film_slenderness(film_thickness: float, contact_radius: float) -> float:
    """Film thickness over contact radius, both in metres; a number without unit.

    Raises ValueError for a value that is not positive. Source: lubrication approximation, common textbook.
    """
    positive(film_thickness=film_thickness, contact_radius=contact_radius)
    return film_thickness / contact_radius


def _film_reynolds_number(density: float, speed: float, thickness: float, viscosity: float) -> float:
    positive(film_density=density, film_thickness=thickness, film_viscosity=viscosity)
    not_negative(speed=speed)
    return density * speed * thickness / viscosity


@computes("squeeze-reynolds-number")
def squeeze_reynolds_number(
    liquid_density: float, separation_speed: float, film_thickness: float, liquid_viscosity: float
) -> float:
    """Inertia against viscosity in a film whose faces part, ρ V h / µ.

    liquid_density : kg/m³. separation_speed : m/s. film_thickness : m. liquid_viscosity : Pa s. Returns a number
    without unit. Raises ValueError for a value that is not positive (speed: negative). Source: common textbook.

    """
    return _film_reynolds_number(liquid_density, separation_speed, film_thickness, liquid_viscosity)


@computes("hook-release-force")
def hook_release_force(hook_strength: float, hook_diameter: float, hook_arm: float) -> float:
    """Force that bends a round hook open at its root, π σ d³ / (32 a).

    hook_strength : Pa. hook_diameter, hook_arm : m. Returns N. Raises ValueError for a value that is not positive.
    Source: bending stress 32 F a / (π d³) of a round cantilever, common textbook.
    """
    positive(hook_strength=hook_strength, hook_diameter=hook_diameter, hook_arm=hook_arm)
    return np.pi * hook_strength * hook_diameter**3 / (32 * hook_arm)


@computes("hook-fit")
def hook_fit(hook_opening: float, feature_size: float) -> float:
    """Opening of a hook over the thickness of what it should catch, both in metres; a number without unit.

    Raises ValueError for a value that is not positive. Source: Gorb & Gorb (2002).
    """
    positive(hook_opening=hook_opening, feature_size=feature_size)
    return hook_opening / feature_size


@computes("tip-fit")
def tip_fit(feature_size: float, tip_diameter: float) -> float:
    """Size of a grain over the diameter of a claw tip, both in metres; a number without unit.

    Raises ValueError for a value that is not positive. Source: Dai, Gorb & Schwarz (2002), J. Exp. Biol. 205,
    2479-2488.
    """
    positive(feature_size=feature_size, tip_diameter=tip_diameter)
    return feature_size / tip_diameter


@computes("friction-force")
def friction_force(friction_coefficient: float, normal_force: float) -> float:
    """Resistance of dry faces to sliding, µ N.

    friction_coefficient : number. normal_force : N. Returns N. Raises ValueError for a negative value.
    Source: Amontons and Coulomb, common textbook.
    """
    not_negative(friction_coefficient=friction_coefficient, normal_force=normal_force)
    return friction_coefficient * normal_force


@computes("adhesion-share")
def adhesion_share(adhesion_force: float, normal_force: float) -> float:
    """Adhesion over pressing force, both in N; a number without unit.

    Raises ValueError for a pressing force that is not positive or a negative adhesion. Source: Israelachvili (2011),
    ch. 18.

    """
    positive(normal_force=normal_force)
    not_negative(adhesion_force=adhesion_force)
    return adhesion_force / normal_force


@computes("film-shear-stress")
def film_shear_stress(film_viscosity: float, sliding_speed: float, film_thickness: float) -> float:
    """Friction per area of a fluid film, µ V / h.

    film_viscosity : Pa s. sliding_speed : m/s. film_thickness : m. Returns Pa. Raises ValueError for a value that is
    not positive (speed: negative). Source: plane shear flow, common textbook.

    """
    positive(film_viscosity=film_viscosity, film_thickness=film_thickness)
    not_negative(sliding_speed=sliding_speed)
    return film_viscosity * sliding_speed / film_thickness


@computes("lambda-ratio")
def lambda_ratio(film_thickness: float, roughness_height: float) -> float:
    """Film thickness over the root mean square roughness of both faces, both in metres; a number without unit.

    Raises ValueError for a value that is not positive. Source: common textbook of lubrication.
    """
    positive(film_thickness=film_thickness, roughness_height=roughness_height)
    return film_thickness / roughness_height


@computes("film-reynolds-number")
def film_reynolds_number(
    film_density: float, sliding_speed: float, film_thickness: float, film_viscosity: float
) -> float:
    """Inertia against viscosity in a sheared film, ρ V h / µ.

    film_density : kg/m³. sliding_speed : m/s. film_thickness : m. film_viscosity : Pa s. Returns a number without unit.
    Raises ValueError for a value that is not positive (speed: negative). Source: common textbook.

    """
    return _film_reynolds_number(film_density, sliding_speed, film_thickness, film_viscosity)


@computes("bond-force-ratio")
def bond_force_ratio(bond_force: float, bond_reach: float, temperature: float) -> float:
    """Work of the force on a bond over thermal energy, f x / (k T).

    bond_force : N. bond_reach : m. temperature : K. Returns a number without unit. Raises ValueError for a reach or
    temperature that is not positive or a negative force. Source: Bell (1978), Science 200, 618-627.
    """
    from scipy.constants import k

    positive(bond_reach=bond_reach, temperature=temperature)
    not_negative(bond_force=bond_force)
    thermal_energy: float = k * temperature
    return bond_force * bond_reach / thermal_energy


@computes("bond-lifetime")
def bond_lifetime(unloaded_lifetime: float, bond_force: float, bond_reach: float, temperature: float) -> float:
    """Mean time a bond holds under a force, τ₀ exp(−f x / (k T)).

    As `bond_force_ratio`, with unloaded_lifetime in s. Returns s. Raises ValueError for a lifetime that is not
    positive. Source: Bell (1978), Science 200, 618-627.

    """
    positive(unloaded_lifetime=unloaded_lifetime)
    fall: float = np.exp(-bond_force_ratio(bond_force, bond_reach, temperature))
    return unloaded_lifetime * fall


@computes("bond-load-share")
def bond_load_share(applied_stress: float, bond_density: float, bond_strength: float) -> float:
    """Applied stress over the strength of all bonds together, σ / (n f).

    applied_stress : Pa. bond_density : 1/m². bond_strength : N. Returns a number without unit. Raises ValueError for a
    value that is not positive (stress: negative). Source: sum over independent bonds, Bell (1978).

    """
    positive(bond_density=bond_density, bond_strength=bond_strength)
    not_negative(applied_stress=applied_stress)
    return applied_stress / (bond_density * bond_strength)


@computes("coulomb-force")
def coulomb_force(
    first_charge: float, second_charge: float, charge_distance: float, relative_permittivity: float = 1.0
) -> float:
    """Force between two point charges, q₁ q₂ / (4 π ε₀ ε_r d²): positive pushes apart, negative pulls together.

    Charges : C, with sign. charge_distance : m. relative_permittivity : 1 or more. Returns N. Raises ValueError for a
    distance that is not positive or a permittivity below 1. Source: Coulomb's law, constant from CODATA (scipy).

    """
    from scipy.constants import epsilon_0

    positive(charge_distance=charge_distance)
    at_least(1, relative_permittivity=relative_permittivity)
    permittivity: float = epsilon_0 * relative_permittivity
    return first_charge * second_charge / (4 * np.pi * permittivity * charge_distance**2)


@computes("breakdown-ratio")
def breakdown_ratio(
    first_charge: float, relative_permittivity: float, charged_body_radius: float, breakdown_field: float
) -> float:
    """Field at the surface of a charged ball over the field its medium bears, |q| / (4 π ε₀ ε_r R² E_b).

    first_charge : C. relative_permittivity : 1 or more. charged_body_radius : m. breakdown_field : V/m. Returns a
    number without unit. Raises ValueError for a radius or field that is not positive. Source: Coulomb's law, common
    textbook.

    """
    from scipy.constants import epsilon_0

    positive(charged_body_radius=charged_body_radius, breakdown_field=breakdown_field)
    at_least(1, relative_permittivity=relative_permittivity)
    permittivity: float = epsilon_0 * relative_permittivity
    field = abs(first_charge) / (4 * np.pi * permittivity * charged_body_radius**2)
    return field / breakdown_field


@computes("screening-ratio")
def screening_ratio(charge_distance: float, screening_length: float) -> float:
    """Distance over the length within which ions hide a charge, both in metres; a number without unit.

    Raises ValueError for a value that is not positive. Source: Israelachvili (2011), chapter 14.
    """
    positive(charge_distance=charge_distance, screening_length=screening_length)
    return charge_distance / screening_length


@computes("two-ball-area")
def two_ball_area(body_volume: float) -> float:
    """Surface of two equal balls that together hold a volume, (72 π)^(1/3) V^(2/3).

    body_volume : m³, not negative. Returns m². Raises ValueError for another sign.
    Source: geometry; the limit of a slit thin along the flow as in Moreau et al. (2023).
    """
    not_negative(body_volume=body_volume)
    area: float = (72 * np.pi) ** (1 / 3) * power(body_volume, 2 / 3)
    return area


@computes("wound-line-hold")
def wound_line_hold(slack_pull: float, friction: float, wound_angle: float) -> float:
    """Largest pull held by a limp line wound round a post, T₁ exp(µ φ).

    slack_pull : N, pull at the other end, not negative. friction : number without unit. wound_angle : radian. Both not
    negative. Returns N. Raises ValueError for another sign. Source: Euler and Eytelwein; for twiners Silk & Holbrook
    (2005).
    """
    not_negative(slack_pull=slack_pull, friction=friction, wound_angle=wound_angle)
    hold: float = slack_pull * np.exp(friction * wound_angle)
    return hold


@computes("centripetal-acceleration")
def centripetal_acceleration(turn_rate: float, radius: float) -> float:
    """Acceleration towards the axis of what turns with a body, ω² r.

    turn_rate : radian/s. radius : m, not negative. Returns m/s². Raises ValueError for another sign.
    Source: Kleppner & Kolenkow (1973).
    """
    not_negative(radius=radius)
    return turn_rate**2 * radius


@computes("flinging-ratio")
def flinging_ratio(mass: float, turn_rate: float, radius: float, holding_force: float) -> float:
    """Pull that a turn asks for over the force that holds, m ω² r / F; a number without unit.

    mass : kg. turn_rate : radian/s. radius : m. holding_force : N, above 0. Raises ValueError for another sign.
    """
    positive(holding_force=holding_force)
    not_negative(mass=mass)
    return mass * centripetal_acceleration(turn_rate, radius) / holding_force
