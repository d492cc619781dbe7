"""Light: interference, refraction, scattering, absorption, polarisation and contrast.

Angles are taken from the normal of the face unless a function says otherwise. Every function takes and returns numbers
in SI units, or arrays of them element by element.
"""

from __future__ import annotations

import numpy

from analog.scale.functions._between import between
from analog.scale.functions._inputs import not_negative, positive
from analog.scale.registry import computes


@computes("film-peak-wavelength")
def film_peak_wavelength(refractive_index: float, film_thickness: float, angle_in_film: float, order: float) -> float:
    """2 n d cos θ/(m + 1/2) in m, film of higher index than both sides; pure number, m, radian, 0, 1, 2 ..."""
    positive(refractive_index=refractive_index)
    not_negative(film_thickness=film_thickness, order=order)
    between(0, numpy.pi / 2, angle_in_film=angle_in_film)
    result: float = 2 * refractive_index * film_thickness * numpy.cos(angle_in_film) / (order + 0.5)
    return result


@computes("optical-thickness-in-wavelengths")
def optical_thickness_in_wavelengths(refractive_index: float, film_thickness: float, wavelength: float) -> float:
    """n d/λ, pure number; pure number, m, m."""
    positive(wavelength=wavelength)
    not_negative(refractive_index=refractive_index, film_thickness=film_thickness)
    return refractive_index * film_thickness / wavelength


@computes("stack-peak-wavelength")
def stack_peak_wavelength(
    first_index: float,
    first_thickness: float,
    first_angle: float,
    second_index: float,
    second_thickness: float,
    second_angle: float,
) -> float:
    """2 (n₁ d₁ cos θ₁ + n₂ d₂ cos θ₂) in m, first order; angles in radians inside each layer. Land 1972."""
    positive(first_index=first_index, second_index=second_index)
    not_negative(first_thickness=first_thickness, second_thickness=second_thickness)
    between(0, numpy.pi / 2, first_angle=first_angle, second_angle=second_angle)
    first = first_index * first_thickness * numpy.cos(first_angle)
    second = second_index * second_thickness * numpy.cos(second_angle)
    result: float = 2 * (first + second)
    return result


@computes("stack-reflectance")
def stack_reflectance(first_index: float, second_index: float, pair_count: float) -> float:
    """Reflected share, 0 to 1, of N quarter-wave pairs between equal media at the peak, right angles.

    Born and Wolf 1999.
    """
    positive(first_index=first_index, second_index=second_index)
    not_negative(pair_count=pair_count)
    # tanh of the logarithm is (1 - r)/(1 + r) with r = (n₁/n₂)^(2N), without overflow for many pairs
    result: float = numpy.tanh(pair_count * numpy.log(first_index / second_index)) ** 2
    return result


@computes("bragg-wavelength")
def bragg_wavelength(mean_index: float, spacing: float, glancing_angle: float, diffraction_order: float) -> float:
    """2 n d sin θ/m in m, θ from the planes, in radians inside the material; pure number, m, radian, 1, 2 ...

    Bragg 1913.
    """
    positive(mean_index=mean_index, diffraction_order=diffraction_order)
    not_negative(spacing=spacing)
    between(0, numpy.pi / 2, glancing_angle=glancing_angle)
    result: float = 2 * mean_index * spacing * numpy.sin(glancing_angle) / diffraction_order
    return result


@computes("bragg-sine")
def bragg_sine(diffraction_order: float, wavelength: float, mean_index: float, spacing: float) -> float:
    """m λ/(2 n d), the sine of the glancing angle that diffraction would need; pure number, m, pure number, m."""
    positive(mean_index=mean_index, spacing=spacing)
    not_negative(diffraction_order=diffraction_order, wavelength=wavelength)
    return diffraction_order * wavelength / (2 * mean_index * spacing)


@computes("largest-antireflection-pitch")
def largest_antireflection_pitch(
    wavelength: float, inner_index: float, outer_index: float, incidence_angle: float
) -> float:
    """λ/(n_s + n_i sin θ) in m: a grating of smaller period sends no diffracted beam into the solid; m, radian."""
    positive(inner_index=inner_index, outer_index=outer_index)
    not_negative(wavelength=wavelength)
    between(0, numpy.pi / 2, incidence_angle=incidence_angle)
    result: float = wavelength / (inner_index + outer_index * numpy.sin(incidence_angle))
    return result


@computes("pitch-over-largest")
def pitch_over_largest(
    pitch: float, wavelength: float, inner_index: float, outer_index: float, incidence_angle: float
) -> float:
    """Spacing over the largest that does not diffract, pure number; m, m, pure numbers, radian."""
    positive(wavelength=wavelength)
    not_negative(pitch=pitch)
    return pitch / largest_antireflection_pitch(wavelength, inner_index, outer_index, incidence_angle)


@computes("sine-of-refraction")
def sine_of_refraction(outer_index: float, incidence_angle: float, inner_index: float) -> float:
    """n_i sin θ_i/n_s, the sine the refracted ray would need; above 1 all light is reflected."""
    positive(outer_index=outer_index, inner_index=inner_index)
    between(0, numpy.pi / 2, incidence_angle=incidence_angle)
    result: float = outer_index * numpy.sin(incidence_angle) / inner_index
    return result


@computes("refraction-angle")
def refraction_angle(outer_index: float, incidence_angle: float, inner_index: float) -> float:
    """Angle of the refracted ray in radians (Snell). Raises ValueError where the light is totally reflected."""
    sine = sine_of_refraction(outer_index, incidence_angle, inner_index)
    if not numpy.all(sine <= 1):
        raise ValueError(f"expected a sine of at most 1 (else the light is totally reflected), found {sine}")
    result: float = numpy.arcsin(sine)
    return result


@computes("size-parameter")
def size_parameter(particle_diameter: float, wavelength: float, medium_index: float) -> float:
    """π d n/λ, pure number, λ in a vacuum; m, m, pure number."""
    positive(wavelength=wavelength, medium_index=medium_index)
    not_negative(particle_diameter=particle_diameter)
    return numpy.pi * particle_diameter * medium_index / wavelength


@computes("sphere-scattering-efficiency")
def sphere_scattering_efficiency(
    particle_diameter: float, wavelength: float, particle_index: float, medium_index: float
) -> float:
    """Scattered power over the power that falls on the shadow of a clear sphere, pure number; m, m, pure numbers.

    The series of Mie with the recurrences of Bohren and Huffman 1983, chapter 4 and appendix A: logarithmic derivative
    downward, which is stable, Riccati-Bessel functions upward.
    """
    positive(particle_diameter=particle_diameter, particle_index=particle_index)
    size = size_parameter(particle_diameter, wavelength, medium_index)
    result: float = numpy.vectorize(_mie_scattering)(size, particle_index / medium_index)[()]
    return result


def _mie_scattering(size: float, relative_index: float) -> float:
    """Σ 2(2n+1)(|a|²+|b|²)/x² for one sphere."""
    inside = size * relative_index
    terms = int(size + 4 * size ** (1 / 3) + 2)
    first = int(max(terms, abs(inside)) + 16)
    derivative = numpy.zeros(first + 1)
    for n in range(first, 0, -1):
        derivative[n - 1] = n / inside - 1 / (derivative[n] + n / inside)
    psi_before, psi = numpy.cos(size), numpy.sin(size)
    chi_before, chi = -numpy.sin(size), numpy.cos(size)
    total = 0.0
    for n in range(1, terms + 1):
        psi_before, psi = psi, (2 * n - 1) * psi / size - psi_before
        chi_before, chi = chi, (2 * n - 1) * chi / size - chi_before
        xi, xi_before = psi - 1j * chi, psi_before - 1j * chi_before
        electric = derivative[n] / relative_index + n / size
        magnetic = relative_index * derivative[n] + n / size
        a = (electric * psi - psi_before) / (electric * xi - xi_before)
        b = (magnetic * psi - psi_before) / (magnetic * xi - xi_before)
        total += (2 * n + 1) * (abs(a) ** 2 + abs(b) ** 2)
    return float(2 * total / size**2)


@computes("absorbance")
def absorbance(molar_absorption: float, concentration: float, path_length: float) -> float:
    """ε c l, pure number, decadic; m²/mol, mol/m³, m. Law of Beer and Lambert."""
    not_negative(molar_absorption=molar_absorption, concentration=concentration, path_length=path_length)
    return molar_absorption * concentration * path_length


@computes("transmitted-share")
def transmitted_share(molar_absorption: float, concentration: float, path_length: float) -> float:
    """10^(-ε c l), 0 to 1; m²/mol, mol/m³, m."""
    result: float = numpy.exp(-numpy.log(10) * absorbance(molar_absorption, concentration, path_length))
    return result


@computes("sky-polarisation-degree")
def sky_polarisation_degree(largest_polarisation: float, scattering_angle: float) -> float:
    """p sin²γ/(1 + cos²γ), 0 to 1, light scattered once by air at angle γ (radian) from the sun.

    Rayleigh, see Coulson 1988.
    """
    between(0, 1, largest_polarisation=largest_polarisation)
    between(0, numpy.pi * (1 + 1e-12), scattering_angle=scattering_angle)
    result: float = largest_polarisation * numpy.sin(scattering_angle) ** 2 / (1 + numpy.cos(scattering_angle) ** 2)
    return result


@computes("contrast")
def contrast(object_luminance: float, background_luminance: float) -> float:
    """|L_o - L_b|/L_b, pure number; cd/m², cd/m². Weber."""
    positive(background_luminance=background_luminance)
    not_negative(object_luminance=object_luminance)
    return abs(object_luminance - background_luminance) / background_luminance


@computes("contrast-over-threshold")
def contrast_over_threshold(object_luminance: float, background_luminance: float, contrast_threshold: float) -> float:
    """Contrast over the smallest the viewer notices, pure number; cd/m², cd/m², pure number."""
    positive(contrast_threshold=contrast_threshold)
    return contrast(object_luminance, background_luminance) / contrast_threshold


@computes("mirror-focal-length")
def mirror_focal_length(mirror_radius: float) -> float:
    """R/2 in m, rays near the axis; m. Born and Wolf 1999."""
    positive(mirror_radius=mirror_radius)
    return mirror_radius / 2


@computes("resonant-transfer-share")
def resonant_transfer_share(spacing: float, transfer_radius: float) -> float:
    """1/(1 + (r/R₀)⁶), 0 to 1: share of excitations handed on to a neighbour; m, m. Förster 1948."""
    positive(transfer_radius=transfer_radius)
    not_negative(spacing=spacing)
    return 1 / (1 + (spacing / transfer_radius) ** 6)
