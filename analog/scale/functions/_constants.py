"""Constants of nature: exact values of the SI since 2019 (BIPM, SI Brochure, 9th edition) and one derived from them.

Written out because importing a library of constants would cost a search more than all its sums.
"""

from __future__ import annotations

MOLAR_GAS_CONSTANT = 8.31446261815324
"""J/mol/K; the product of the exact Avogadro and Boltzmann constants."""

FARADAY_CONSTANT = 96485.33212331001
"""C/mol; the product of the exact Avogadro constant and elementary charge."""

STEFAN_BOLTZMANN_CONSTANT = 5.670374419e-8
"""W/m²/K⁴."""

STANDARD_GRAVITY = 9.80665
"""m/s² (3rd General Conference on Weights and Measures, 1901)."""

GAS_CONSTANT_OF_DRY_AIR = 287.042
"""J/kg/K; molar gas constant over 0.028966 kg/mol, as ASHRAE takes it."""
