"""Constants of molecules and photons: exact values of the SI since 2019 (BIPM, SI Brochure, 9th edition)."""

from __future__ import annotations

BOLTZMANN_CONSTANT = 1.380649e-23
"""J/K."""

AVOGADRO_CONSTANT = 6.02214076e23
"""1/mol."""

PLANCK_CONSTANT = 6.62607015e-34
"""J·s."""

SPEED_OF_LIGHT = 299792458.0
"""m/s, in a vacuum."""
