"""Published systems with known correspondences, encoded as relation lists.

Water flow and heat flow, solar system and atom: Falkenhainer, Forbus, Gentner (1989), The structure-mapping engine:
algorithm and examples, Artificial Intelligence 41, 1-63 (predicate lists as in two public re-encodings of that paper).
Hawk and hunter, set 5: the same paper and Gentner, Rattermann, Forbus (1993), Cognitive Psychology 25, 524-575.
Radiation and fortress: Duncker (1945); Gick & Holyoak (1980), Cognitive Psychology 12, 306-355; encoding from memory.
"""

from __future__ import annotations

from typing import Any

from analog.align.graph import RelationGraph, relation_graph

FUNCTIONS = ("pressure", "diameter", "temperature", "mass", "charge")


def graph(*facts: Any, **options: Any) -> RelationGraph:
    """A graph with the value-bearing functions of the examples."""
    return relation_graph(facts, functions=FUNCTIONS, **options)


PRESSURE_HIGHER = "greater(pressure(beaker), pressure(vial))"
WATER_FLOWS = "flow(beaker, vial, water, pipe)"
WATER = graph(
    WATER_FLOWS,
    PRESSURE_HIGHER,
    f"cause({PRESSURE_HIGHER}, {WATER_FLOWS})",
    "greater(diameter(beaker), diameter(vial))",
    "liquid(water)",
    "flat_top(water)",
)
HEAT = graph(
    "flow(coffee, ice_cube, heat, bar)",
    "greater(temperature(coffee), temperature(ice_cube))",
    "liquid(coffee)",
    "flat_top(coffee)",
)

HEAVIER = "greater(mass(sun), mass(planet))"
ATTRACTS = "attracts(sun, planet)"
REVOLVES = "revolves(planet, sun)"
GRAVITY = "gravity(mass(sun), mass(planet))"
SOLAR_SYSTEM = graph(
    HEAVIER,
    ATTRACTS,
    REVOLVES,
    f"cause(and({HEAVIER}, {ATTRACTS}), {REVOLVES})",
    f"cause({GRAVITY}, {ATTRACTS})",
    "greater(temperature(sun), temperature(planet))",
    "yellow(sun)",
    "hot(sun)",
    "massive(sun)",
)
OPPOSITE = "opposite_sign(charge(nucleus), charge(electron))"
ATOM = graph(
    "greater(mass(nucleus), mass(electron))",
    "attracts(nucleus, electron)",
    "revolves(electron, nucleus)",
    f"cause({OPPOSITE}, attracts(nucleus, electron))",
)


def _attack_story(owner: str, attacker: str, useful: str, weapon: str) -> list[str]:
    """The causal chain that base and true analogy share: an attack fails for want of something, which is then given."""
    attack = f"attack({attacker}, {owner})"
    lacking = f"not(used_for({useful}, {weapon}))"
    realise = f"realise({owner}, desire({attacker}, {useful}))"
    offer = f"offer({owner}, {useful}, {attacker})"
    obtain = f"obtain({attacker}, {useful})"
    return [
        attack,
        f"cause({lacking}, fails({attack}))",
        f"cause({realise}, {offer})",
        f"cause({offer}, {obtain})",
        f"cause({obtain}, happy({attacker}))",
        f"cause(happy({attacker}), promise({attacker}, {owner}, not({attack})))",
    ]


HAWK = graph(
    *_attack_story("hawk", "hunter", "feathers", "crossbow"),
    "bird(hawk)",
    "person(hunter)",
    "warlike(hunter)",
    "weapon(crossbow)",
)
COUNTRIES = graph(
    *_attack_story("zerdia", "gagrach", "supercomputer", "missiles"),
    "country(zerdia)",
    "country(gagrach)",
    "warlike(gagrach)",
    "weapon(missiles)",
)
_EAGLE_ATTACK = "attack(sportsman, eagle)"
EAGLE = graph(
    "desire(sportsman, feathers)",
    "offer(eagle, feathers, sportsman)",
    "obtain(sportsman, feathers)",
    "promise(sportsman, eagle, not(attack(sportsman, eagle)))",
    _EAGLE_ATTACK,
    f"follows({_EAGLE_ATTACK}, promise(sportsman, eagle, not({_EAGLE_ATTACK})))",
    "used_for(feathers, crossbow)",
    f"cause(used_for(feathers, crossbow), succeeds({_EAGLE_ATTACK}))",
    "bird(eagle)",
    "person(sportsman)",
    "warlike(sportsman)",
    "weapon(crossbow)",
)

FORTRESS = graph(
    "goal(general, capture(fortress))",
    "surrounds(villages, fortress)",
    "leads_to(roads, fortress)",
    "sufficient(army, capture(fortress))",
    "cause(moves_along(army, roads), harms(army, villages))",
    "prevents(harms(army, villages), moves_along(army, roads))",
    "cause(and(divide(general, army), converge(army, fortress)), capture(fortress))",
    "cause(divide(general, army), not(harms(army, villages)))",
)
TUMOUR = graph(
    "goal(doctor, capture(tumour))",
    "surrounds(tissue, tumour)",
    "leads_to(directions, tumour)",
    "sufficient(rays, capture(tumour))",
    "cause(moves_along(rays, directions), harms(rays, tissue))",
    "prevents(harms(rays, tissue), moves_along(rays, directions))",
)
OPEN_SUPPLY_ROUTE = graph(
    "goal(general, capture(fortress))",
    "surrounds(river, fortress)",
    "leads_to(tunnel, fortress)",
    "cause(unguarded(tunnel), moves_along(army, tunnel))",
    "cause(moves_along(army, tunnel), capture(fortress))",
)
