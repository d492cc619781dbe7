"""Whose temperature a given temperature is."""

from __future__ import annotations

import pytest

from analog.problem.ambient import surrounding_temperatures
from analog.problem.read import read_problem
from analog.vocabulary import Vocabulary


@pytest.mark.parametrize(
    ("given", "around"),
    [
        (["-20 °C"], ["-20 °C"]),
        (["outdoor temperature -5 to 40 °C"], ["outdoor temperature -5 to 40 °C"]),
        (["room temperature"], ["room temperature"]),
        (["waste heat at 200 °C"], []),
        (["-20 °C", "dust at 80 °C"], ["-20 °C"]),
        (["dust at 80 °C"], ["dust at 80 °C"]),
    ],
)
def test_the_surroundings(given: list[str], around: list[str], vocabulary: Vocabulary) -> None:
    problem = read_problem("remove dust from a lens", given, vocabulary)
    assert [condition.text for condition in surrounding_temperatures(problem)] == around
