"""Hazards that a problem's own words point to. Common practice of engineering safety, no single source.

The published rules beside a hazard are examples of where to look first, named from memory; which of them apply is for
the place, the product and those responsible to say.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from analog.brief.content import Caution
from analog.problem.types import Problem

STANDING = (
    Caution(
        text="This brief is a proposal to test, drawn up by a program from a library of models. It is no design, no "
        "calculation of safety and no permission to build.",
        standards=(),
        basis="practice",
    ),
    Caution(
        text="Local codes, standards and licensed practice decide; where they and this brief differ, they are right.",
        standards=("ISO 12100 (risk assessment of machinery)",),
        basis="practice",
    ),
    Caution(
        text="Try it on the bench at low energy before it goes into the field, and with people only under supervision.",
        standards=(),
        basis="practice",
    ),
)

_HAZARDS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    (
        r"roof|fa[cç]ade|tower|mast|wind turbine|rotor blade|ladder|bridge|high-rise|gutter|solar",
        "Work at height: secure people and parts against falling, and plan access before fitting anything.",
        ("ISO 10333 (personal fall-arrest systems)",),
    ),
    (
        r"electri|solar|photovoltaic|pv\b|battery|inverter|cable|transformer|voltage|insulator|power line|motor",
        "Electricity: isolate and lock off before touching live parts; a change of surface may change insulation.",
        ("IEC 60364 (low-voltage installations)", "EN 50110 (work on electrical installations)"),
    ),
    (
        r"solar panel|solar module|photovoltaic|pv\b",
        "Photovoltaic modules give voltage whenever light falls on them, and coatings or devices on them may void "
        "their qualification.",
        ("IEC 61215 and IEC 61730 (qualification and safety of modules)",),
    ),
    (
        r"pressur|steam|boiler|vessel|hydraulic|pneumatic|compressed|gas line|pipeline|valve|vacuum",
        "Pressure: stored energy is released suddenly when a part fails; pressure equipment has rules of its own.",
        ("Directive 2014/68/EU", "ASME Boiler and Pressure Vessel Code"),
    ),
    (
        r"food|dairy|milk|bakery|brewe|drink|beverage|kitchen|packag|bottle|meat|fruit|vegetable",
        "Food contact: materials, coatings and whatever wears off them must be approved for contact with food.",
        ("Regulation (EC) No 1935/2004", "EN 1672-2 (hygiene of food machinery)"),
    ),
    (
        r"medic|surg|implant|catheter|patient|wound|drug|needle|hospital|endoscop|blood|tissue|skin|dental|prosthe",
        "Medical use: biocompatibility, sterility and clinical evidence are regulated; nothing here replaces them.",
        (
            "ISO 14971 (risk management of medical devices)",
            "ISO 10993-1 (biological evaluation)",
            "ISO 14155 (clinical investigations)",
        ),
    ),
    (
        r"fire|flame|explos|fuel|hydrogen|battery|solvent|grain dust|flour",
        "Fire and explosion: look at ignition sources, static charge and dust before testing.",
        ("IEC 60079 (explosive atmospheres)",),
    ),
    (
        r"chemical|acid|caustic|biocide|poison|toxic|pesticide|coating|antifouling|solvent",
        "Hazardous substances: check what is released into air, water and soil during use, wear and disposal.",
        ("Regulation (EC) No 1907/2006 (chemicals)", "Regulation (EU) No 528/2012 (biocidal products)"),
    ),
    (
        r"aircraft|aeroplane|airplane|drone|helicopter|vehicle|car\b|train\b|ship|vessel|elevator|crane",
        "Transport and lifting: changes to moving machines that carry or pass over people need approval.",
        ("the rules of the authority that licenses the vehicle or lift",),
    ),
    (
        r"insect|pest|bird|fish|animal|crop|plant|seed|forest|field",
        "Living organisms: mind protected species, release into the wild, and by-catch.",
        ("national law on protected species", "Nagoya Protocol (use of genetic resources)"),
    ),
    (
        r"ice|icing|frost|freez|snow|-\d+ ?(?:°|deg)",
        "Ice: falling ice and slippery ground endanger whoever is below or near.",
        ("ISO 12494 (atmospheric icing of structures)",),
    ),
    (
        r"desert|sun\b|sunlight|(?<![-−.\d])(?:[4-9]\d|1\d\d) ?(?:°|deg) ?c",
        "Heat: hot surfaces burn, and people who test in heat need shade, water and breaks.",
        ("ISO 13732-1 (contact with hot surfaces)",),
    ),
    (
        r"wafer|semiconductor|clean ?room|lithograph|photomask|microchip",
        "Clean room: whatever touches the product must shed no particles, ions or vapours, and process chemicals are "
        "hazardous.",
        ("ISO 14644-1 (classes of air cleanliness)", "SEMI S2 (safety of manufacturing equipment)"),
    ),
    (
        r"satellite|spacecraft|orbit|space probe|rocket|space station|solar sail|lunar|mars\b",
        "Space: parts must survive launch, thermal cycles and radiation, give off nothing in vacuum and leave no "
        "debris.",
        ("ECSS-E-ST-10-03 (testing)", "ASTM E595 (outgassing)", "ISO 24113 (space debris)"),
    ),
    (
        r"deep sea|sea ?bed|seabed|subsea|underwater|under water|offshore|diver|diving|submarine",
        "Under water: a housing may implode, lines tangle, and nobody can reach a fault quickly; test in a pressure "
        "tank first.",
        ("ISO 13628-1 (subsea production systems)", "the rules of a classification society"),
    ),
    (
        r"house\b|houses|building|dwelling|wall\b|roof|fa[cç]ade|facade|attic|basement",
        "Buildings: fire behaviour, moisture in the structure, loads and fresh air are regulated.",
        ("EN 13501-1 (reaction to fire)", "ISO 13788 (moisture in building components)", "the local building code"),
    ),
    (
        r"jacket|garment|cloth|textile|shoe|glove|wearer|helmet|sock",
        "Worn on the body: protective clothing has rules of its own; mind skin irritation, heat stress and washing.",
        ("ISO 13688 (protective clothing)", "Regulation (EU) 2016/425 (personal protective equipment)"),
    ),
    (
        r"drinking water|tap water|irrigat|farm|greenhouse|(?:harvest|collect|store)\w* (?:\w+ )?water",
        "Water for people, animals or crops: test what is collected, and what materials give off into it.",
        ("WHO guidelines for drinking-water quality", "ISO 5667-5 (sampling of drinking water)"),
    ),
)


def hazards(problem: Problem) -> tuple[Caution, ...]:
    """Cautions for the hazards that the problem's words and conditions speak of."""
    return tuple(_found(problem))


def _found(problem: Problem) -> Iterator[Caution]:
    there = [condition.text for condition in problem.conditions if condition.type != "absent"]
    said = " ".join([problem.text, *there, *(thing.name for thing in problem.things)]).lower()
    for words, caution, standards in _HAZARDS:
        if re.search(rf"(?<!\w)(?:{words})", said):
            yield Caution(text=caution, standards=standards, basis="practice")
