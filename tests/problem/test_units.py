"""The short cut for common units says what pint says (pint is the reference)."""

from __future__ import annotations

import subprocess
import sys

import pytest

from analog.errors import InputError
from analog.model.quantity import registry
from analog.problem.units import BASES, COMMON, common, plain_unit, read_unit, to_kelvin


@pytest.mark.parametrize("spelling", sorted(COMMON))
def test_every_entry_is_what_pint_says(spelling: str) -> None:
    unit = COMMON[spelling]
    for value in (1.0, 7.25):
        expected = registry().Quantity(value, unit.pint).to(BASES[unit.dimension]).magnitude
        assert value * unit.factor + unit.offset == pytest.approx(expected, rel=1e-9)


def test_fixed_points_of_the_temperature_scales() -> None:
    """0 °C is 273.15 K and 212 °F is 100 °C by definition of the scales (BIPM SI brochure; NIST SP 811)."""
    assert to_kelvin(0, COMMON["degC"]) == 273.15
    assert to_kelvin(212, COMMON["degF"]) == pytest.approx(373.15)


def test_spellings_and_case() -> None:
    assert plain_unit("µm") == plain_unit("μm") == "um"
    assert common("℃") is common("°C") is not None
    assert common("mN") != common("MN")
    assert common("Celsius") is not None
    assert common("m²").pint == "m**2"  # type: ignore[union-attr]


def test_pint_answers_for_the_rest_and_unknown_units_name_their_neighbours() -> None:
    unit = read_unit("furlong")
    assert unit.factor == pytest.approx(201.168, rel=1e-4)  # 660 ft of 0.3048 m, NIST Handbook 44 appendix C
    with pytest.raises(InputError, match=r"Unknown unit 'umm'; nearest: .*um"):
        read_unit("umm")


def test_common_units_never_import_pint() -> None:
    code = (
        "import sys\n"
        "from analog.problem.units import read_unit\n"
        "[read_unit(u) for u in ('degC', 'um', 'm/s', '%', 'deg', 'bar')]\n"
        "assert 'pint' not in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)
