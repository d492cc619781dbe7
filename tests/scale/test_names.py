"""What a quantity is called decides which symbol it is; the cases below are names of the corpus and of problems."""

from __future__ import annotations

import pytest

from analog.scale.names import context_words, match

NOTHING: frozenset[str] = frozenset()


@pytest.mark.parametrize(
    ("said", "context", "symbol"),
    [
        ("contact angle", (), "contact angle"),
        ("contact angle on the leaf", (), "contact angle"),
        ("droplet size", (), "drop diameter"),  # synonyms: droplet is drop, size is diameter
        ("diameter", ("rain drop",), "drop diameter"),  # the part says which diameter
        ("size", ("dust", "particulate"), "particle diameter"),
        ("flow velocity", (), "flow speed"),
        ("density of the fluid", (), "fluid density"),
    ],
)
def test_the_same_quantity_by_another_name(said: str, context: tuple[str, ...], symbol: str) -> None:
    assert match(said, context_words(context), (symbol,)).score > 0.3


@pytest.mark.parametrize(
    ("said", "context", "symbol"),
    [
        ("apparent contact angle", (), "contact angle"),
        ("grain diameter over spacing of the bumps", (), "grain diameter"),
        ("density difference", (), "density"),
        ("diameter", ("hair",), "drop diameter"),
        ("speed", (), "wind speed"),  # nobody says that it is the wind
        ("leaf angle", (), "contact angle"),
        ("radius", (), "radius of curvature"),
        ("thickness of the film", (), "wall thickness"),
    ],
)
def test_another_quantity_of_a_like_name(said: str, context: tuple[str, ...], symbol: str) -> None:
    assert match(said, context_words(context), (symbol,)).score == 0


def test_half_a_diameter_is_a_radius() -> None:
    assert match("drop diameter", NOTHING, ("drop radius",)).factor == 0.5
    assert match("drop radius", NOTHING, ("drop diameter",)).factor == 2.0
    assert match("drop radius", NOTHING, ("drop radius",)).factor == 1.0


def test_the_full_name_beats_the_partial_and_the_generic() -> None:
    exact = match("drop diameter", NOTHING, ("drop diameter",)).score
    partial = match("diameter", context_words(["drop"]), ("drop diameter",)).score
    generic = match("diameter", NOTHING, ("diameter",)).score
    assert exact > partial > generic > 0
