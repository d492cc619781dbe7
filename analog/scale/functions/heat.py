"""Heat: conduction, convection, evaporation, radiation, exchangers, melting and setting.

Every function takes and returns numbers in SI units (temperatures in kelvin), or arrays of them element by element.
"""

from __future__ import annotations

from typing import Any

import numpy

from analog.scale.functions._between import between
from analog.scale.functions._constants import STEFAN_BOLTZMANN_CONSTANT
from analog.scale.functions._inputs import half_turn, not_negative, positive
from analog.scale.registry import computes

COLDEST_KELVIN = 235.0
"""Below this, water cannot be kept from freezing and vapour over liquid water means nothing (about -38 degC)."""


@computes("conduction-time")
def conduction_time(thickness: float, thermal_diffusivity: float) -> float:
    """L²/α in s; m, m²/s. Carslaw and Jaeger 1959."""
    positive(thermal_diffusivity=thermal_diffusivity)
    return thickness**2 / thermal_diffusivity


@computes("fourier-number")
def fourier_number(thermal_diffusivity: float, available_time: float, thickness: float) -> float:
    """ατ/L²; m²/s, s, m."""
    positive(thickness=thickness)
    not_negative(thermal_diffusivity=thermal_diffusivity, available_time=available_time)
    return thermal_diffusivity * available_time / thickness**2


@computes("convective-heat-flow")
def convective_heat_flow(
    transfer_coefficient: float, area: float, surface_temperature: float, fluid_temperature: float
) -> float:
    """hA(T_s − T_f) in W, negative when the fluid heats the surface; W/m²/K, m², K, K. Newton's law of cooling."""
    not_negative(transfer_coefficient=transfer_coefficient, area=area)
    return transfer_coefficient * area * (surface_temperature - fluid_temperature)


@computes("biot-number")
def biot_number(transfer_coefficient: float, half_thickness: float, conductivity: float) -> float:
    """hL/k; W/m²/K, m, W/m/K."""
    positive(conductivity=conductivity)
    not_negative(transfer_coefficient=transfer_coefficient, half_thickness=half_thickness)
    return transfer_coefficient * half_thickness / conductivity


@computes("evaporative-heat-flow")
def evaporative_heat_flow(evaporation_rate: float, latent_heat: float) -> float:
    """ṁ h_fg in W; kg/s, J/kg."""
    not_negative(latent_heat=latent_heat)
    return evaporation_rate * latent_heat


def water_vapour_pressure(temperature: float) -> float:
    """Saturation pressure over liquid water in Pa, temperature in K (235 to 647.096).

    Below freezing it is that over supercooled water. Fit to IAPWS-95 (Wagner and Pruß 2002) of the library chemicals.
    """
    between(COLDEST_KELVIN, 647.096, temperature=temperature)
    from chemicals import iapws

    library: Any = iapws  # it carries no types
    return float(library.iapws95_Psat(temperature))


@computes("vapour-pressure-share")
def vapour_pressure_share(relative_humidity: float, air_temperature: float, surface_temperature: float) -> float:
    """φ p_s(T_a)/p_s(T_s) for water; above 1 water settles on the surface, below 1 it leaves. 1, K, K."""
    between(0, 1, relative_humidity=relative_humidity)
    return relative_humidity * water_vapour_pressure(air_temperature) / water_vapour_pressure(surface_temperature)


@computes("dew-point")
def dew_point(relative_humidity: float, air_temperature: float) -> float:
    """Temperature in K at which water vapour of the air saturates; humidity above 0 up to 1, temperature in K."""
    positive(relative_humidity=relative_humidity)
    between(0, 1, relative_humidity=relative_humidity)
    pressure = relative_humidity * water_vapour_pressure(air_temperature)
    if pressure < water_vapour_pressure(COLDEST_KELVIN):
        raise ValueError(
            f"expected a dew point of {COLDEST_KELVIN} K or more, found drier air: "
            f"relative humidity {relative_humidity} at {air_temperature} K"
        )
    from chemicals import iapws

    library: Any = iapws  # it carries no types
    return float(library.iapws95_Tsat(pressure))


@computes("radiative-heat-flow")
def radiative_heat_flow(emissivity: float, area: float, surface_temperature: float, sky_temperature: float) -> float:
    """εσA(T_s⁴ − T_sky⁴) in W; 1, m², K, K. Stefan and Boltzmann."""
    between(0, 1, emissivity=emissivity)
    not_negative(area=area, surface_temperature=surface_temperature, sky_temperature=sky_temperature)
    return emissivity * STEFAN_BOLTZMANN_CONSTANT * area * (surface_temperature**4 - sky_temperature**4)


@computes("radiation-exchange")
def radiation_exchange(
    emissivity: float, view_factor: float, warm_temperature: float, cool_temperature: float
) -> float:
    """εσF(T_1⁴ − T_2⁴) in W/m² on a small absorber; 1, 1, K, K. Stefan and Boltzmann."""
    between(0, 1, emissivity=emissivity, view_factor=view_factor)
    not_negative(warm_temperature=warm_temperature, cool_temperature=cool_temperature)
    return emissivity * STEFAN_BOLTZMANN_CONSTANT * view_factor * (warm_temperature**4 - cool_temperature**4)


@computes("counter-current-effectiveness")
def counter_current_effectiveness(wall_conductance: float, smaller_stream: float, larger_stream: float) -> float:
    """Share handed over between opposed streams; all in W/K, the first stream not above the second.

    (1 − e^(−N(1−c)))/(1 − c e^(−N(1−c))), N = G/C_min, c = C_min/C_max; N/(1 + N) for equal streams.
    Kays and London 1984.
    """
    positive(smaller_stream=smaller_stream, larger_stream=larger_stream)
    not_negative(wall_conductance=wall_conductance)
    units, balance = wall_conductance / smaller_stream, smaller_stream / larger_stream
    between(0, 1, smaller_over_larger_stream=balance)
    # Written with x = N(1 − c) and expm1: near equal streams the plain form subtracts nearly equal numbers.
    gap = -numpy.expm1(-units * (1 - balance))
    equal = 1 - balance < 1e-12
    with numpy.errstate(invalid="ignore"):
        share: Any = numpy.where(
            equal, units / (1 + units), gap / numpy.where(equal, 1.0, (1 - balance) + balance * gap)
        )
    result: float = share if numpy.ndim(share) else float(share)
    return result


@computes("fin-parameter")
def fin_parameter(
    transfer_coefficient: float, fin_perimeter: float, conductivity: float, fin_section: float, fin_length: float
) -> float:
    """mL with m = √(hP/(kA)); W/m²/K, m, W/m/K, m², m. Incropera and others 2007."""
    positive(conductivity=conductivity, fin_section=fin_section)
    not_negative(transfer_coefficient=transfer_coefficient, fin_perimeter=fin_perimeter, fin_length=fin_length)
    parameter: float = (transfer_coefficient * fin_perimeter / (conductivity * fin_section)) ** 0.5 * fin_length
    return parameter


@computes("fin-efficiency")
def fin_efficiency(
    transfer_coefficient: float, fin_perimeter: float, conductivity: float, fin_section: float, fin_length: float
) -> float:
    """tanh(mL)/(mL) of a straight fin with an insulated tip; 1 for no length at all."""
    parameter = fin_parameter(transfer_coefficient, fin_perimeter, conductivity, fin_section, fin_length)
    safe = numpy.where(parameter == 0, 1.0, parameter)
    efficiency: Any = numpy.where(parameter == 0, 1.0, numpy.tanh(safe) / safe)
    result: float = efficiency if numpy.ndim(efficiency) else float(efficiency)
    return result


@computes("fin-biot-number")
def fin_biot_number(
    transfer_coefficient: float, fin_section: float, fin_perimeter: float, conductivity: float
) -> float:
    """hA/(Pk); W/m²/K, m², m, W/m/K. The length across which heat must pass is section over perimeter."""
    positive(fin_perimeter=fin_perimeter, conductivity=conductivity)
    return transfer_coefficient * fin_section / (fin_perimeter * conductivity)


@computes("latent-heat-stored")
def latent_heat_stored(mass: float, latent_heat: float) -> float:
    """mL in J; kg, J/kg."""
    not_negative(mass=mass, latent_heat=latent_heat)
    return mass * latent_heat


@computes("stefan-number")
def stefan_number(specific_heat: float, temperature_swing: float, latent_heat: float) -> float:
    """cΔT/L; J/kg/K, K, J/kg."""
    positive(latent_heat=latent_heat)
    not_negative(specific_heat=specific_heat)
    return specific_heat * abs(temperature_swing) / latent_heat


@computes("freezing-point-lowering")
def freezing_point_lowering(cryoscopic_constant: float, osmolality: float) -> float:
    """K_f b in K; K·kg/mol, mol of dissolved particles in a kg of solvent. Ideal dilute solution."""
    not_negative(cryoscopic_constant=cryoscopic_constant, osmolality=osmolality)
    return cryoscopic_constant * osmolality


@computes("solute-share")
def solute_share(osmolality: float, solvent_molar_mass: float) -> float:
    """bM: dissolved particles for each molecule of solvent; mol/kg, kg/mol."""
    not_negative(osmolality=osmolality, solvent_molar_mass=solvent_molar_mass)
    return osmolality * solvent_molar_mass


@computes("nucleation-barrier-share")
def nucleation_barrier_share(contact_angle: float) -> float:
    """(2 + cos θ)(1 − cos θ)²/4 for a flat surface; angle in radian from 0 to π. Volmer's factor, Kashchiev 2000."""
    half_turn(contact_angle=contact_angle)
    share: float = (2 + numpy.cos(contact_angle)) * (1 - numpy.cos(contact_angle)) ** 2 / 4
    return share


@computes("curvature-lowering-share")
def curvature_lowering_share(
    interface_energy: float, crystal_density: float, latent_heat: float, curvature_radius: float
) -> float:
    """2γ/(ρLr), the lowering of the melting point over the flat melting point; J/m², kg/m³, J/kg, m."""
    positive(crystal_density=crystal_density, latent_heat=latent_heat, curvature_radius=curvature_radius)
    not_negative(interface_energy=interface_energy)
    return 2 * interface_energy / (crystal_density * latent_heat * curvature_radius)


@computes("curvature-melting-lowering")
def curvature_melting_lowering(
    interface_energy: float,
    melting_point: float,
    crystal_density: float,
    latent_heat: float,
    curvature_radius: float,
) -> float:
    """2γT_m/(ρLr) in K for a spherical crystal surface (Gibbs-Thomson). Dash, Rempel and Wettlaufer 2006."""
    positive(melting_point=melting_point)
    return melting_point * curvature_lowering_share(interface_energy, crystal_density, latent_heat, curvature_radius)


@computes("premelted-film-pressure")
def premelted_film_pressure(
    melting_point: float, crystal_density: float, latent_heat: float, supercooling: float
) -> float:
    """ρLΔT/T_m in Pa, the most that the film between ice and a solid can press; K, kg/m³, J/kg, K. Dash et al. 2006."""
    positive(melting_point=melting_point, crystal_density=crystal_density, latent_heat=latent_heat)
    not_negative(supercooling=supercooling)
    return crystal_density * latent_heat * supercooling / melting_point


@computes("premelted-film-load-share")
def premelted_film_load_share(
    load_pressure: float, melting_point: float, crystal_density: float, latent_heat: float, supercooling: float
) -> float:
    """Load over the greatest pressure of the film; Pa and the inputs of `premelted_film_pressure`."""
    positive(supercooling=supercooling)
    not_negative(load_pressure=load_pressure)
    return load_pressure / premelted_film_pressure(melting_point, crystal_density, latent_heat, supercooling)


@computes("pressure-melting-lowering")
def pressure_melting_lowering(melting_point: float, volume_change: float, pressure: float, latent_heat: float) -> float:
    """T_m Δv p/L in K (Clapeyron); K, m³/kg lost on melting, Pa, J/kg. Nye 1967."""
    positive(melting_point=melting_point, latent_heat=latent_heat)
    not_negative(pressure=pressure)
    return melting_point * volume_change * pressure / latent_heat


@computes("sensible-heat-stored")
def sensible_heat_stored(mass: float, specific_heat: float, temperature_swing: float) -> float:
    """mcΔT in J; kg, J/kg/K, K."""
    not_negative(mass=mass, specific_heat=specific_heat)
    return mass * specific_heat * temperature_swing


@computes("oxidation-heat-flow")
def oxidation_heat_flow(oxygen_uptake: float, heat_per_oxygen: float) -> float:
    """eV in W; m³/s of oxygen, J for each m³ of it. Thornton 1917."""
    not_negative(oxygen_uptake=oxygen_uptake, heat_per_oxygen=heat_per_oxygen)
    return oxygen_uptake * heat_per_oxygen


@computes("sunlit-temperature-rise")
def sunlit_temperature_rise(sunlight_absorbed_share: float, irradiance: float, transfer_coefficient: float) -> float:
    """aI/h in K above the air, in steady sun; share from 0 to 1, W/m², W/m²/K. Sol-air temperature."""
    between(0, 1, sunlight_absorbed_share=sunlight_absorbed_share)
    positive(transfer_coefficient=transfer_coefficient)
    not_negative(irradiance=irradiance)
    return sunlight_absorbed_share * irradiance / transfer_coefficient


@computes("site-to-nucleus-ratio")
def site_to_nucleus_ratio(
    site_radius: float,
    phase_density: float,
    latent_heat: float,
    supercooling: float,
    interface_energy: float,
    melting_point: float,
) -> float:
    """Rρ LΔT/(2γT_m): site radius over the radius of the smallest nucleus that grows. Fletcher 1958."""
    positive(interface_energy=interface_energy, melting_point=melting_point)
    not_negative(site_radius=site_radius, supercooling=supercooling)
    return site_radius * phase_density * latent_heat * supercooling / (2 * interface_energy * melting_point)


@computes("glass-transition-of-mixture")
def glass_transition_of_mixture(
    softener_share: float, dry_transition: float, softener_transition: float, mixing_constant: float
) -> float:
    """(w_1T_1 + k w_2T_2)/(w_1 + k w_2) in K, w_2 the share of softener by mass. Gordon and Taylor 1952."""
    between(0, 1, softener_share=softener_share)
    positive(dry_transition=dry_transition, softener_transition=softener_transition, mixing_constant=mixing_constant)
    dry, wet = 1 - softener_share, mixing_constant * softener_share
    return (dry * dry_transition + wet * softener_transition) / (dry + wet)


@computes("temperature-to-glass-transition")
def temperature_to_glass_transition(
    temperature: float,
    softener_share: float,
    dry_transition: float,
    softener_transition: float,
    mixing_constant: float,
) -> float:
    """Temperature over the glass transition of the mixture, both in K; below 1 the matrix is set."""
    return temperature / glass_transition_of_mixture(
        softener_share, dry_transition, softener_transition, mixing_constant
    )


@computes("ablated-mass")
def ablated_mass(heat_flux: float, exposure_time: float, heat_of_ablation: float) -> float:
    """q t/H in kg/m², all heat taken up by what is lost; W/m², s, J/kg: what the effective heat means."""
    positive(heat_of_ablation=heat_of_ablation)
    not_negative(heat_flux=heat_flux, exposure_time=exposure_time)
    return heat_flux * exposure_time / heat_of_ablation


@computes("confined-pressure-rise")
def confined_pressure_rise(bulk_modulus: float, expansion: float, temperature_rise: float) -> float:
    """K β ΔT in Pa, walls that do not give; Pa, 1/K, K. The identity (∂p/∂T)_V = K β of thermodynamics."""
    positive(bulk_modulus=bulk_modulus)
    return bulk_modulus * expansion * temperature_rise


@computes("frozen-thickness")
def frozen_thickness(
    conductivity: float, temperature_difference: float, duration: float, density: float, latent_heat: float
) -> float:
    """√(2kΔT t/(ρL)) in m, all the heat that leaves is latent heat; W/m/K, K, s, kg/m³, J/kg. Stefan 1891."""
    positive(density=density, latent_heat=latent_heat)
    not_negative(conductivity=conductivity, temperature_difference=temperature_difference, duration=duration)
    thickness: float = (2 * conductivity * temperature_difference * duration / (density * latent_heat)) ** 0.5
    return thickness


@computes("heat-loss-density")
def heat_loss_density(
    transfer_coefficient: float, temperature_step: float, exposed_area: float, volume: float
) -> float:
    """h ΔT A/V in W/m³; W/m²/K, K, m², m³. Newton's law of cooling over the volume."""
    positive(volume=volume)
    not_negative(transfer_coefficient=transfer_coefficient, exposed_area=exposed_area)
    return transfer_coefficient * temperature_step * exposed_area / volume
