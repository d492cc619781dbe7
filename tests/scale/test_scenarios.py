"""The three worked cases of docs/scale.md: the arithmetic there, here, and the program agree."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from analog.scale.evaluate import evaluate

GUIDE = (Path(__file__).resolve().parents[2] / "docs" / "scale.md").read_text(encoding="utf-8")


def told(*texts: str) -> None:
    """The guide says these figures."""
    for text in texts:
        assert text in GUIDE, text


def test_ribs_on_the_skin_of_an_aircraft() -> None:
    density = 26_500 / (287.05 * 223.25)
    wall_spacing = 50e-6 * 230 * math.sqrt(0.0025 / 2) * density / 1.457e-5
    check = evaluate(
        "riblet-drag-reduction",
        {
            "speed": "230 m/s",
            "rib spacing": "50 um",
            "local skin friction coefficient": 0.0025,
            "altitude": "10000 m",
            "medium": "air",
        },
    )
    group = check.groups[0]
    assert group.low == pytest.approx(wall_spacing, rel=3e-3)
    assert group.status == "holds"
    told(f"= {wall_spacing:.2f}", "8.132 m/s", f"ρ = 26 500 / (287.05 × 223.25) = {density:.4f}")
    open_spacing = evaluate(
        "riblet-drag-reduction",
        {"speed": "230 m/s", "C_f": 0.0025, "altitude": "10000 m", "medium": "air"},
    ).groups[0]
    [(low, high)] = open_spacing.decisions[0].intervals
    assert low == pytest.approx(5 / wall_spacing * 50e-6, rel=3e-3)
    assert high == pytest.approx(30 / wall_spacing * 50e-6, rel=3e-3)
    told("21.7 µm", "130 µm")


@pytest.mark.parametrize(
    ("altitude", "ambient", "status"), [(0, 101.325e3, "holds"), (2000, 79.50e3, "holds"), (8000, 35.65e3, "fails")]
)
def test_a_suction_cup_on_a_mountain(altitude: int, ambient: float, status: str) -> None:
    area = math.pi * 0.020**2
    check = evaluate(
        "suction", {"pressure difference": "60 kPa", "cup area": "12.566 cm**2", "altitude": f"{altitude} m"}
    )
    assert check.groups[0].low == pytest.approx(60e3 / ambient, rel=1e-3)
    assert check.groups[0].status == status
    assert check.output is not None and check.output.low == pytest.approx(60e3 * area, rel=1e-3)
    told(f"= {60e3 / ambient:.3f}", "75.4 N")


def test_catching_fog_with_wires() -> None:
    stokes = 998 * 5 * (15e-6) ** 2 / (18 * 1.746e-5 * 1e-4)
    fog = {
        "particle density": "998 kg/m**3",
        "speed": "5 m/s",
        "drop diameter": "15 um",
        "temperature": "5 degC",
        "medium": "air",
    }
    wire = evaluate("particle-impaction", fog | {"collector radius": "0.1 mm"})
    assert wire.groups[0].low == pytest.approx(stokes, rel=2e-3)
    assert wire.groups[0].status == "holds"
    assert wire.output is not None and wire.output.low == pytest.approx(stokes / (stokes + math.pi / 2), rel=1e-3)
    told(f"= {stokes:.1f}", "= 0.958")
    pole = evaluate("particle-impaction", fog | {"collector radius": "50 mm"})
    assert pole.groups[0].low == pytest.approx(stokes / 500, rel=2e-3)
    assert pole.groups[0].status == "edge"
    assert pole.output is not None and pole.output.low == pytest.approx(0.043, rel=0.02)
    open_radius = evaluate("particle-impaction", fog).groups[0].decisions[0]
    assert open_radius.intervals[0][1] == pytest.approx(stokes / 0.1 * 1e-4, rel=2e-3)
    told("35.7 mm")
