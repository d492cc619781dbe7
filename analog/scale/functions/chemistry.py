"""Chemistry of living systems: weak bonds, nuclei, enzymes, acids, ligands, doses, heat and light.

Every function takes and returns numbers in SI units, or arrays of them element by element.
"""

from __future__ import annotations

import numpy

from analog.scale.functions._between import between
from analog.scale.functions._constants import FARADAY_CONSTANT, MOLAR_GAS_CONSTANT
from analog.scale.functions._inputs import half_turn, not_negative, positive, power
from analog.scale.functions._molecular_constants import (
    AVOGADRO_CONSTANT,
    BOLTZMANN_CONSTANT,
    PLANCK_CONSTANT,
    SPEED_OF_LIGHT,
)
from analog.scale.registry import computes


@computes("bond-over-thermal-energy")
def bond_over_thermal_energy(bond_energy: float, temperature: float) -> float:
    """E/(R T), pure number; J/mol, K."""
    positive(temperature=temperature)
    not_negative(bond_energy=bond_energy)
    return bond_energy / (MOLAR_GAS_CONSTANT * temperature)


@computes("weak-bond-lifetime")
def weak_bond_lifetime(attempt_time: float, bond_energy: float, temperature: float) -> float:
    """t₀ exp(E/(R T)) in s, without load; s, J/mol, K. Arrhenius; for bonds between cells Bell 1978."""
    positive(attempt_time=attempt_time)
    result: float = attempt_time * numpy.exp(bond_over_thermal_energy(bond_energy, temperature))
    return result


@computes("templated-nucleation-barrier")
def templated_nucleation_barrier(
    interface_energy: float, molecular_volume: float, temperature: float, supersaturation: float, template_angle: float
) -> float:
    """16π γ³v² f(θ)/(3 (k T ln S)²) in J, f = (2 + cos θ)(1 - cos θ)²/4; J/m², m³, K, pure number, radian.

    Kashchiev 2000.
    """
    positive(temperature=temperature)
    not_negative(interface_energy=interface_energy, molecular_volume=molecular_volume)
    half_turn(template_angle=template_angle)
    if not numpy.all(supersaturation > 1):
        raise ValueError(f"expected a supersaturation above 1 (else crystals dissolve), found {supersaturation}")
    drive = BOLTZMANN_CONSTANT * temperature * numpy.log(supersaturation)
    cosine = numpy.cos(template_angle)
    share = (2 + cosine) * (1 - cosine) ** 2 / 4
    result: float = 16 * numpy.pi * interface_energy**3 * molecular_volume**2 / (3 * drive**2) * share
    return result


@computes("barrier-over-thermal-energy")
def barrier_over_thermal_energy(
    interface_energy: float, molecular_volume: float, temperature: float, supersaturation: float, template_angle: float
) -> float:
    """Barrier of a nucleus on its template over k T, pure number."""
    barrier = templated_nucleation_barrier(
        interface_energy, molecular_volume, temperature, supersaturation, template_angle
    )
    return barrier / (BOLTZMANN_CONSTANT * temperature)


@computes("enzyme-rate")
def enzyme_rate(largest_rate: float, substrate_concentration: float, half_saturation: float) -> float:
    """V S/(K + S) in mol/m³/s; mol/m³/s, mol/m³, mol/m³. Michaelis and Menten 1913."""
    positive(half_saturation=half_saturation)
    not_negative(largest_rate=largest_rate, substrate_concentration=substrate_concentration)
    return largest_rate * substrate_concentration / (half_saturation + substrate_concentration)


@computes("buffer-ph")
def buffer_ph(acid_strength: float, base_concentration: float, acid_concentration: float) -> float:
    """pKa + log₁₀(A/HA); pure number, mol/m³, mol/m³. Henderson and Hasselbalch."""
    positive(base_concentration=base_concentration, acid_concentration=acid_concentration)
    result: float = acid_strength + numpy.log10(base_concentration / acid_concentration)
    return result


@computes("binding-number")
def binding_number(stability_constant: float, ligand_concentration: float) -> float:
    """K L, pure number; m³/mol, mol/m³."""
    not_negative(stability_constant=stability_constant, ligand_concentration=ligand_concentration)
    return stability_constant * ligand_concentration


@computes("bound-share")
def bound_share(stability_constant: float, ligand_concentration: float) -> float:
    """K L/(1 + K L), 0 to 1, one ligand to a metal ion; m³/mol, mol/m³. Law of mass action."""
    bound = binding_number(stability_constant, ligand_concentration)
    return bound / (1 + bound)


@computes("affected-share")
def affected_share(dose: float, half_effect_dose: float, hill_exponent: float) -> float:
    """x^h/(x₅₀^h + x^h), 0 to 1; doses in one unit, pure number. Hill 1910."""
    positive(half_effect_dose=half_effect_dose, hill_exponent=hill_exponent)
    not_negative(dose=dose)
    raised = power(dose / half_effect_dose, hill_exponent)
    return raised / (1 + raised)


@computes("adiabatic-temperature-rise")
def adiabatic_temperature_rise(
    reaction_heat: float, reactant_concentration: float, mixture_density: float, heat_capacity: float
) -> float:
    """ΔH c/(ρ c_p) in K, no loss, no boiling; J/mol set free, mol/m³, kg/m³, J/kg/K."""
    positive(mixture_density=mixture_density, heat_capacity=heat_capacity)
    not_negative(reactant_concentration=reactant_concentration)
    return reaction_heat * reactant_concentration / (mixture_density * heat_capacity)


@computes("reaction-over-cooling-time")
def reaction_over_cooling_time(reaction_time: float, thermal_diffusivity: float, chamber_size: float) -> float:
    """t α/L², pure number; s, m²/s, m."""
    positive(chamber_size=chamber_size)
    not_negative(reaction_time=reaction_time, thermal_diffusivity=thermal_diffusivity)
    return reaction_time * thermal_diffusivity / chamber_size**2


@computes("chemical-light-power")
def chemical_light_power(quantum_yield: float, molar_rate: float, wavelength: float) -> float:
    """Φ n N_A h c/λ in W; photons for each molecule, mol/s, m."""
    between(0, 1, quantum_yield=quantum_yield)
    positive(wavelength=wavelength)
    not_negative(molar_rate=molar_rate)
    return quantum_yield * molar_rate * AVOGADRO_CONSTANT * PLANCK_CONSTANT * SPEED_OF_LIGHT / wavelength


@computes("photon-over-reaction-energy")
def photon_over_reaction_energy(wavelength: float, reaction_energy: float) -> float:
    """N_A h c/(λ ΔE), pure number: energy of a mole of photons over that of a mole of reaction; m, J/mol."""
    positive(wavelength=wavelength, reaction_energy=reaction_energy)
    return AVOGADRO_CONSTANT * PLANCK_CONSTANT * SPEED_OF_LIGHT / (wavelength * reaction_energy)


@computes("net-assimilation")
def net_assimilation(
    light_level: float, initial_efficiency: float, largest_assimilation: float, respiration: float
) -> float:
    """α I A/(α I + A) - R in mol/m²/s; mol/m²/s of photons, mol/mol, mol/m²/s, mol/m²/s. Thornley 1976."""
    not_negative(respiration=respiration)
    return _gross_assimilation(light_level, initial_efficiency, largest_assimilation) - respiration


@computes("gain-over-respiration")
def gain_over_respiration(
    light_level: float, initial_efficiency: float, largest_assimilation: float, respiration: float
) -> float:
    """Gross fixing of carbon over respiration, pure number; inputs as for the net rate."""
    positive(respiration=respiration)
    return _gross_assimilation(light_level, initial_efficiency, largest_assimilation) / respiration


def _gross_assimilation(light_level: float, initial_efficiency: float, largest_assimilation: float) -> float:
    positive(largest_assimilation=largest_assimilation)
    not_negative(light_level=light_level, initial_efficiency=initial_efficiency)
    offered = initial_efficiency * light_level
    return offered * largest_assimilation / (offered + largest_assimilation)


@computes("transfer-energy")
def transfer_energy(contact_energy: float, hidden_area: float) -> float:
    """N_A γ A in J/mol set free when each molecule hides an area from water; J/m², m². Tanford 1980."""
    not_negative(contact_energy=contact_energy, hidden_area=hidden_area)
    return AVOGADRO_CONSTANT * contact_energy * hidden_area


@computes("transfer-over-thermal-energy")
def transfer_over_thermal_energy(contact_energy: float, hidden_area: float, temperature: float) -> float:
    """Energy of leaving the water over R T, pure number; J/m², m², K."""
    positive(temperature=temperature)
    return transfer_energy(contact_energy, hidden_area) / (MOLAR_GAS_CONSTANT * temperature)


@computes("packing-parameter")
def packing_parameter(chain_volume: float, head_area: float, chain_length: float) -> float:
    """v/(a₀ l), pure number; m³, m², m. Israelachvili, Mitchell and Ninham 1976."""
    positive(head_area=head_area, chain_length=chain_length)
    not_negative(chain_volume=chain_volume)
    return chain_volume / (head_area * chain_length)


@computes("charged-chain-parting")
def charged_chain_parting(charge_density: float, chain_length: float) -> float:
    """σ³ r/0.53, pure number, above 1 two kinds of opposite chains part from water; charge density 0 to 1, units.

    No salt added, long equal chains in equal amounts. Overbeek and Voorn 1957.
    """
    between(0, 1, charge_density=charge_density)
    positive(chain_length=chain_length)
    return charge_density**3 * chain_length / 0.53


@computes("reached-depth")
def reached_depth(diffusion_coefficient: float, surface_concentration: float, removal_rate: float) -> float:
    """√(2 D c₀/q) in m, steady supply from one side and removal at a constant rate; m²/s, mol/m³, mol/m³/s.

    Warburg 1923, for oxygen in slices of tissue.
    """
    positive(removal_rate=removal_rate)
    not_negative(diffusion_coefficient=diffusion_coefficient, surface_concentration=surface_concentration)
    return power(2 * diffusion_coefficient * surface_concentration / removal_rate, 0.5)


@computes("front-speed")
def front_speed(diffusivity: float, release_rate: float) -> float:
    """2 √(D k) in m/s, front of a substance that multiplies at the rate k and spreads; m²/s, 1/s. Fisher 1937."""
    not_negative(diffusivity=diffusivity, release_rate=release_rate)
    return 2 * power(diffusivity * release_rate, 0.5)


@computes("store-hold-time")
def store_hold_time(reserve: float, draw: float) -> float:
    """R/d in s until a reserve is spent; mol/m³, mol/m³/s drawn beyond what is supplied."""
    positive(draw=draw)
    not_negative(reserve=reserve)
    return reserve / draw


@computes("exchange-quotient")
def exchange_quotient(loaded_sites: float, freed_ion: float, free_sites: float, wanted_ion: float) -> float:
    """[MR₂][H⁺]²/([HR]²[M²⁺]), pure number, one ion of two charges against two of one; all in mol/m³ of the mixture.

    Law of mass action; at balance it is the exchange constant. Crist and others 1996.
    """
    positive(free_sites=free_sites, wanted_ion=wanted_ion)
    not_negative(loaded_sites=loaded_sites, freed_ion=freed_ion)
    return loaded_sites * freed_ion**2 / (free_sites**2 * wanted_ion)


@computes("ion-energy-per-turn")
def ion_energy_per_turn(ions_per_turn: float, driving_voltage: float) -> float:
    """n e Δp in J set free by n ions of one charge; number, V (potential and concentration together). Mitchell 1961."""
    not_negative(ions_per_turn=ions_per_turn)
    return ions_per_turn * (FARADAY_CONSTANT / AVOGADRO_CONSTANT) * driving_voltage
