"""Hazards that a problem's own words point to. Common practice of engineering safety, no single source."""

from __future__ import annotations

import re
from collections.abc import Iterator

from analog.problem.types import Problem

_HAZARDS: tuple[tuple[str, str], ...] = (
    (
        r"roof|fa[cç]ade|tower|mast|wind turbine|rotor blade|ladder|bridge|high-rise|gutter|solar",
        "Work at height: secure people and parts against falling, and plan access before fitting anything.",
    ),
    (
        r"electri|solar|photovoltaic|pv|battery|inverter|cable|transformer|voltage|insulator|power line|motor",
        "Electricity: isolate and lock off before touching live parts; a change of surface may change insulation.",
    ),
    (
        r"pressur|steam|boiler|vessel|hydraulic|pneumatic|compressed|gas line|pipeline|valve|vacuum",
        "Pressure: stored energy is released suddenly when a part fails; pressure equipment has rules of its own.",
    ),
    (
        r"food|dairy|milk|bakery|brewe|drink|kitchen|packag|bottle",
        "Food contact: materials, coatings and whatever wears off them must be approved for contact with food.",
    ),
    (
        r"medic|surg|implant|catheter|patient|wound|drug|needle|hospital|endoscop|blood|tissue|skin|dental|prosthe",
        "Medical use: biocompatibility, sterility and clinical evidence are regulated; nothing here replaces them.",
    ),
    (
        r"fire|flame|explos|fuel|hydrogen|battery|solvent|grain dust|flour",
        "Fire and explosion: look at ignition sources, static charge and dust before testing.",
    ),
    (
        r"chemical|acid|caustic|biocide|poison|toxic|pesticide|coating|antifouling|solvent",
        "Hazardous substances: check what is released into air, water and soil during use, wear and disposal.",
    ),
    (
        r"aircraft|aeroplane|airplane|drone|helicopter|vehicle|car\b|train|ship|vessel|elevator|crane",
        "Transport and lifting: changes to moving machines that carry or pass over people need approval.",
    ),
    (
        r"insect|pest|bird|fish|animal|crop|plant|seed|forest|field",
        "Living organisms: mind protected species, release into the wild, and by-catch.",
    ),
    (
        r"ice|icing|frost|freez|snow|-\d+ ?(?:°|deg)",
        "Ice: falling ice and slippery ground endanger whoever is below or near.",
    ),
)


def hazards(problem: Problem) -> tuple[str, ...]:
    """Cautions for the hazards that the problem's words and conditions speak of."""
    return tuple(_found(problem))


def _found(problem: Problem) -> Iterator[str]:
    said = " ".join([problem.text, *(c.text for c in problem.conditions), *(t.name for t in problem.things)]).lower()
    for words, caution in _HAZARDS:
        if re.search(rf"\b(?:{words})", said):
            yield caution
