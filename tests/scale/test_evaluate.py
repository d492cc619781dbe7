"""Values written by hand, and the command that takes them."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner

from analog.cli import scale as command
from analog.errors import InputError, UnknownTermError, UsageError
from analog.scale.evaluate import evaluate, find_principle, read_value
from analog.scale.report import assigned
from tests.scale.helpers import principle

OWN = {"small-enough": principle()}
app = typer.Typer()
command.register(app)
app.callback()(lambda: None)


def run(*arguments: str) -> str:
    result = CliRunner().invoke(app, ["scale", *arguments], catch_exceptions=False)
    assert result.exit_code == 0, result.output
    return result.stdout


def test_the_capillary_length_of_water() -> None:
    """√(0.0727 / (997 × 9.80665)) = 2.727 mm: the figure of every textbook, 2.7 mm."""
    check = evaluate("capillary-length", {"surface tension": "72.7 mN/m", "density difference": 997.0})
    assert check.output is not None and check.output.low == pytest.approx(2.727e-3, rel=1e-3)


def test_ranges_stay_ranges() -> None:
    check = evaluate("small-enough", {"particle diameter": "5-50 um", "gap width": "0.1 mm"}, OWN)
    assert (check.groups[0].low, check.groups[0].high) == (pytest.approx(0.05), pytest.approx(0.5))


@pytest.mark.parametrize(
    "values",
    [
        {"particle-diameter": "20 um", "gap-width": "100 um"},
        {"d": "0.02 mm", "w": "0.01 cm"},
        {"grain size": "20 micrometer", "width of the gap": "1e-4 m"},
        {"particle diameter": 2e-5, "gap width": 1e-4},
        {"particle diameter": "0.000787401575 inch", "gap width": "100 µm"},
    ],
)
def test_the_unit_and_the_name_do_not_matter(values: dict[str, str | float]) -> None:
    assert evaluate("small-enough", values, OWN).groups[0].low == pytest.approx(0.2, rel=1e-6)


def test_a_diameter_given_for_a_radius_is_halved_and_told() -> None:
    check = evaluate("coalescence-jumping", {"drop diameter": "20 um"})
    assert check.values["drop-radius"].low == pytest.approx(1e-5)
    assert "half" in check.values["drop-radius"].where


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2 mm", (0.002, 0.002)),
        ("5-50 um", (5e-6, 5e-5)),
        ("5 um to 0.1 mm", (5e-6, 1e-4)),
        ("1e-3 m", (1e-3, 1e-3)),
        ("1e-6-2e-6 m", (1e-6, 2e-6)),
        (".5 m", (0.5, 0.5)),
    ],
)
def test_values_are_read(text: str, expected: tuple[float, float]) -> None:
    assert read_value("x", text, principle().symbols[0]) == pytest.approx(expected)


@pytest.mark.parametrize(
    "text", ["2", "two mm", "2 kg", "5..", "nan m", "1e999 m", "50-5 um", "2 mm; rm", "2 degC", "-"]
)
def test_wrong_values_name_what_was_expected_and_found(text: str) -> None:
    with pytest.raises(InputError, match="Expected 'gap width'"):
        evaluate("small-enough", {"gap width": text}, OWN)


def test_an_unknown_quantity_lists_the_allowed_ones_with_units() -> None:
    with pytest.raises(InputError, match=r"'colour'.*particle-diameter \[m\].*temperature"):
        evaluate("small-enough", {"colour": "3 m"}, OWN)


def test_a_quantity_said_twice_is_refused() -> None:
    with pytest.raises(InputError, match="once"):
        evaluate("small-enough", {"gap width": "1 mm", "w": "2 mm"}, OWN)
    with pytest.raises(InputError, match="twice"):
        assigned(["a=1 m", "a=2 m"])


@pytest.mark.parametrize("name", ["capilary-length", "../capillary-length", "", "/etc/passwd"])
def test_an_unknown_principle_is_refused(name: str) -> None:
    with pytest.raises(UnknownTermError, match="principle"):
        find_principle(name)


def test_near_names_are_offered() -> None:
    with pytest.raises(UnknownTermError, match="capillary-length"):
        find_principle("capilary-length")


def test_surroundings_set_the_fluid() -> None:
    cold = evaluate("reynolds-regime", {"medium": "air", "temperature": "-30 degC", "speed": "1 m/s", "length": "1 m"})
    high = evaluate("reynolds-regime", {"medium": "air", "altitude": "2000 m", "speed": "1 m/s", "length": "1 m"})
    assert cold.values["fluid-density"].low == pytest.approx(101325 / (287.05 * 243.15), rel=2e-3)  # ideal gas
    assert high.values["fluid-density"].low == pytest.approx(1.0065, rel=2e-3)  # ISA at 2000 m, ISO 2533
    assert "2000 m altitude" in high.values["fluid-density"].where


@pytest.mark.parametrize(
    "values",
    [{"medium": "mercury"}, {"altitude": "500 km"}, {"temperature": "-300 degC"}, {"temperature": "20"}],
)
def test_impossible_surroundings_are_refused(values: dict[str, str | float]) -> None:
    with pytest.raises(InputError):
        evaluate("reynolds-regime", values)


def test_the_command_prints_equation_groups_and_what_would_decide() -> None:
    text = run("riblet-drag-reduction", "--with", "speed=10 m/s", "--with", "C_f=0.003", "--at", "medium=water")
    assert "distance between ribs must stay between" in " ".join(text.split())


def test_json_is_one_object_with_the_equations_result() -> None:
    record = json.loads(run("capillary-length", "--with", "surface tension=72.7 mN/m", "--json"))
    assert record["principle"] == "capillary-length"
    assert record["output"]["low"] == pytest.approx(math.sqrt(0.0727 / (997.0025 * 9.80665)), rel=1e-4)
    assert {"status", "groups", "values", "assumptions"} <= record.keys()


def test_a_model_stands_beside() -> None:
    text = run("riblet-drag-reduction", "--with", "speed=10 m/s", "--model", "shark-skin-ribs")
    assert "In the model shark-skin-ribs" in text
    with pytest.raises(UnknownTermError):
        run("riblet-drag-reduction", "--model", "shark")


@pytest.mark.parametrize("pair", ["drop", "=2 mm", "drop=", ""])
def test_what_is_no_assignment_is_refused(pair: str) -> None:
    with pytest.raises(InputError, match="NAME=VALUE"):
        assigned([pair])


# Figures -------------------------------------------------------------------------------------------------------

SIEVE = ("sieving", "--with", "particle size=5-50 um", "--with", "gap width=4 um")


@pytest.mark.parametrize(("ending", "start"), [("svg", b"<?xml"), ("png", b"\x89PNG")])
def test_a_figure_is_written_with_its_text_alternative(tmp_path: Path, ending: str, start: bytes) -> None:
    pytest.importorskip("matplotlib")
    path = tmp_path / f"figure.{ending}"
    result = CliRunner().invoke(app, ["scale", *SIEVE, "--plot", str(path)], catch_exceptions=False)
    assert path.read_bytes().startswith(start)
    assert "must be at least 1" in result.stderr
    assert [p.name for p in tmp_path.iterdir()] == [path.name]


def test_the_same_check_gives_the_same_file(tmp_path: Path) -> None:
    pytest.importorskip("matplotlib")
    for name in ("a.svg", "b.svg"):
        run(*SIEVE, "--plot", str(tmp_path / name))
    assert (tmp_path / "a.svg").read_bytes() == (tmp_path / "b.svg").read_bytes()


def test_nothing_of_a_figure_is_cut(tmp_path: Path) -> None:
    """Every text begins inside the picture, the lowest line with its height above the edge."""
    pytest.importorskip("matplotlib")
    path = tmp_path / "figure.svg"
    run(*SIEVE, "--plot", str(path))
    svg = path.read_text(encoding="utf-8")
    box = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)
    assert box is not None
    places = re.findall(r'<text [^>]*x="([\d.-]+)" y="([\d.-]+)"', svg)
    assert len(places) >= 3
    for x, y in places:
        assert 0 <= float(x) < float(box[1])
        assert 0 < float(y) < float(box[2])


def test_markup_in_a_title_stays_text() -> None:
    pytest.importorskip("matplotlib")
    from analog.figures.regime import regime

    named = principle(title="<script>alert(1)</script> $\\frac{x$")
    check = evaluate("small-enough", {"particle diameter": "1 um", "gap width": "2 um"}, {"small-enough": named})
    assert "<script>" not in regime({"given": check}).svg


def test_a_figure_is_never_written_over_another_unasked(tmp_path: Path) -> None:
    path = tmp_path / "figure.svg"
    path.write_text("mine", encoding="utf-8")
    with pytest.raises(UsageError, match="exists"):
        run(*SIEVE, "--plot", str(path))
    assert path.read_text(encoding="utf-8") == "mine"


def test_other_endings_and_empty_figures_are_refused(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match=r"\.svg"):
        run(*SIEVE, "--plot", str(tmp_path / "figure.pdf"))
    with pytest.raises(UsageError, match="missing quantities"):
        run("sieving", "--plot", str(tmp_path / "figure.svg"))
    assert not list(tmp_path.iterdir())


def test_the_record_lists_every_symbol_with_its_unit() -> None:
    """What a writer of a model needs to know before giving values."""
    listed = evaluate("diffusion", {}).to_dict()["symbols"]
    units = {symbol["id"]: symbol["unit"] for symbol in listed}  # type: ignore[attr-defined]
    assert units["diffusivity"] == "m**2/s"
    assert units["distance"] == "m"


def test_the_lighter_of_two_liquids_is_not_the_water_around() -> None:
    """Diesel on water: with the density of water for both, the check would say that nothing floats."""
    from analog.scale.surroundings import fluid_symbol

    lens = {symbol.id: symbol for symbol in find_principle("floating-lens-balance").symbols}
    assert fluid_symbol(lens["light-density"]) is None
