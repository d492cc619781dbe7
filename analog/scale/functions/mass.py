"""Diffusion, osmosis, water potential, swelling, surfaces that bind, membranes and pumps.

Every function takes and returns numbers in SI units (temperatures in kelvin), or arrays of them element by element.
"""

from __future__ import annotations

import numpy

from analog.scale.functions._between import between
from analog.scale.functions._constants import FARADAY_CONSTANT, MOLAR_GAS_CONSTANT
from analog.scale.functions._inputs import not_negative, positive
from analog.scale.registry import computes


@computes("diffusion-time")
def diffusion_time(distance: float, diffusivity: float) -> float:
    """L²/(2D) in s, the time to a root mean square displacement L along one axis; m, m²/s. Berg 1993."""
    positive(diffusivity=diffusivity)
    return distance**2 / (2 * diffusivity)


@computes("diffusion-time-share")
def diffusion_time_share(distance: float, diffusivity: float, available_time: float) -> float:
    """L²/(2Dτ): time to spread over the time available; m, m²/s, s."""
    positive(available_time=available_time)
    return diffusion_time(distance, diffusivity) / available_time


@computes("peclet-number")
def peclet_number(speed: float, distance: float, diffusivity: float) -> float:
    """VL/D; m/s, m, m²/s."""
    positive(diffusivity=diffusivity)
    return abs(speed) * distance / diffusivity


@computes("osmotic-pressure")
def osmotic_pressure(particle_concentration: float, temperature: float) -> float:
    """cRT in Pa; mol of dissolved particles in a m³, K. van 't Hoff 1887."""
    not_negative(particle_concentration=particle_concentration, temperature=temperature)
    return particle_concentration * MOLAR_GAS_CONSTANT * temperature


@computes("solute-volume-share")
def solute_volume_share(particle_concentration: float, solvent_molar_volume: float) -> float:
    """cV: dissolved particles for each molecule of solvent, by volume; mol/m³, m³/mol."""
    not_negative(particle_concentration=particle_concentration, solvent_molar_volume=solvent_molar_volume)
    return particle_concentration * solvent_molar_volume


@computes("water-potential-of-air")
def water_potential_of_air(temperature: float, relative_humidity: float, molar_volume: float) -> float:
    """(RT/V_w) ln φ in Pa, 0 in saturated air; K, humidity above 0 up to 1, m³/mol. Nobel 2009."""
    positive(temperature=temperature, relative_humidity=relative_humidity, molar_volume=molar_volume)
    between(0, 1, relative_humidity=relative_humidity)
    potential: float = MOLAR_GAS_CONSTANT * temperature / molar_volume * numpy.log(relative_humidity)
    return potential


@computes("gravity-to-suction-share")
def gravity_to_suction_share(
    fluid_density: float,
    gravity: float,
    height: float,
    temperature: float,
    relative_humidity: float,
    molar_volume: float,
) -> float:
    """ρgh/|ψ|: weight of a water column over the pull of the air. Infinite in saturated air."""
    pull = abs(water_potential_of_air(temperature, relative_humidity, molar_volume))
    with numpy.errstate(divide="ignore"):
        share: float = numpy.divide(fluid_density * gravity * height, pull)
    return share


@computes("gravity-to-capillary-share")
def gravity_to_capillary_share(
    fluid_density: float, gravity: float, height: float, pore_radius: float, surface_tension: float
) -> float:
    """ρghr/(2γ): weight of a column over what wettable pores hold; kg/m³, m/s², m, m, N/m."""
    positive(surface_tension=surface_tension)
    return fluid_density * gravity * height * pore_radius / (2 * surface_tension)


@computes("bilayer-curvature")
def bilayer_curvature(
    strain_difference: float, total_thickness: float, thickness_ratio: float, stiffness_ratio: float
) -> float:
    """Curvature in 1/m of two bonded layers that swell differently; strain 1, m, ratios of layer 1 over layer 2.

    6Δs(1+m)²/(h[3(1+m)² + (1+mn)(m² + 1/(mn))]). Timoshenko 1925.
    """
    positive(total_thickness=total_thickness, thickness_ratio=thickness_ratio, stiffness_ratio=stiffness_ratio)
    product = thickness_ratio * stiffness_ratio
    square = (1 + thickness_ratio) ** 2
    return (
        6
        * strain_difference
        * square
        / (total_thickness * (3 * square + (1 + product) * (thickness_ratio**2 + 1 / product)))
    )


@computes("fill-ratio")
def fill_ratio(binding_constant: float, concentration: float) -> float:
    """Kc, the concentration over that which fills half the sites; m³/mol, mol/m³."""
    not_negative(binding_constant=binding_constant, concentration=concentration)
    return binding_constant * concentration


@computes("surface-coverage")
def surface_coverage(binding_constant: float, concentration: float) -> float:
    """Kc/(1 + Kc), the share of sites filled; m³/mol, mol/m³. Langmuir 1918."""
    filled = fill_ratio(binding_constant, concentration)
    return filled / (1 + filled)


@computes("binding-to-thermal-ratio")
def binding_to_thermal_ratio(binding_energy: float, temperature: float) -> float:
    """E/(RT); J/mol, K."""
    positive(temperature=temperature)
    return binding_energy / (MOLAR_GAS_CONSTANT * temperature)


@computes("membrane-flux")
def membrane_flux(permeability_coefficient: float, concentration_difference: float) -> float:
    """PΔc in mol/m²/s; m/s, mol/m³. Solution and diffusion, Wijmans and Baker 1995."""
    not_negative(permeability_coefficient=permeability_coefficient)
    return permeability_coefficient * concentration_difference


@computes("ion-transport-energy")
def ion_transport_energy(
    temperature: float, source_concentration: float, target_concentration: float, charge_number: float, voltage: float
) -> float:
    """RT ln(c_2/c_1) + zFU in J/mol; K, equal units of concentration, 1, V of the goal less that of the start."""
    positive(
        temperature=temperature,
        source_concentration=source_concentration,
        target_concentration=target_concentration,
    )
    energy: float = (
        MOLAR_GAS_CONSTANT * temperature * numpy.log(target_concentration / source_concentration)
        + charge_number * FARADAY_CONSTANT * voltage
    )
    return energy


@computes("pump-energy-share")
def pump_energy_share(
    ions_moved: float,
    fuel_energy: float,
    temperature: float,
    source_concentration: float,
    target_concentration: float,
    charge_number: float,
    voltage: float,
) -> float:
    """nW/G: energy that moving the ions needs over that which one unit of fuel supplies; J/mol for the fuel."""
    positive(ions_moved=ions_moved, fuel_energy=fuel_energy)
    needed = ion_transport_energy(temperature, source_concentration, target_concentration, charge_number, voltage)
    return ions_moved * needed / fuel_energy


@computes("carried-flux")
def carried_flux(
    gas_diffusivity: float,
    free_concentration: float,
    far_concentration: float,
    carrier_diffusivity: float,
    carrier_concentration: float,
    half_loading: float,
    path_length: float,
) -> float:
    """[D (c₁ - c₂) + D_m m (Y₁ - Y₂)]/L in mol/m²/s, Y = c/(c + K); m²/s, mol/m³, mol/m³, m²/s, mol/m³, mol/m³, m.

    One site a carrier, in balance with the free gas all along the way. Wittenberg 1970.
    """
    positive(half_loading=half_loading, path_length=path_length)
    not_negative(free_concentration=free_concentration, far_concentration=far_concentration)
    near = free_concentration / (free_concentration + half_loading)
    far = far_concentration / (far_concentration + half_loading)
    free = gas_diffusivity * (free_concentration - far_concentration)
    return (free + carrier_diffusivity * carrier_concentration * (near - far)) / path_length


@computes("porous-drainage-speed")
def porous_drainage_speed(density_difference: float, gravity: float, permeability: float, viscosity: float) -> float:
    """Δρ g Π/μ in m/s, Darcy's law driven by weight alone; kg/m³, m/s², m², Pa·s. Notz and Worster 2009."""
    positive(viscosity=viscosity)
    not_negative(permeability=permeability)
    return density_difference * gravity * permeability / viscosity


@computes("solute-share-kept")
def solute_share_kept(
    equilibrium_share: float, growth_speed: float, unstirred_layer: float, solute_diffusivity: float
) -> float:
    """k/(k + (1 - k) exp(-V δ/D)), solute in the solid over that in the melt far off; share, m/s, m, m²/s.

    Burton, Prim and Slichter 1953.
    """
    between(0, 1, equilibrium_share=equilibrium_share)
    positive(solute_diffusivity=solute_diffusivity)
    not_negative(growth_speed=growth_speed, unstirred_layer=unstirred_layer)
    left: float = numpy.exp(-growth_speed * unstirred_layer / solute_diffusivity)
    return equilibrium_share / (equilibrium_share + (1 - equilibrium_share) * left)


@computes("fine-pore-pressure-ratio")
def fine_pore_pressure_ratio(inside_temperature: float, outside_temperature: float) -> float:
    """√(T₂/T₁), pressure inside over outside where no gas flows through pores finer than its free path; K, K.

    Reynolds 1879; Knudsen 1910.
    """
    positive(inside_temperature=inside_temperature, outside_temperature=outside_temperature)
    ratio: float = (inside_temperature / outside_temperature) ** 0.5
    return ratio
