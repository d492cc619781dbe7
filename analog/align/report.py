"""An alignment of two relation lists as a record people and programs can read."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from analog.align.compatible import STRUCTURE_MAPPING, Compatibility
from analog.align.graph import RelationGraph, graph_from_data
from analog.align.infer import Inference, infer
from analog.align.objective import SURFACE, SYSTEMATIC, Weights
from analog.align.solve import Alignment, align_graphs, own_worth
from analog.errors import FormatError
from analog.files import unique_keys

MAXIMUM_BYTES = 1_000_000


@dataclass(frozen=True)
class Match:
    """What corresponds to what, as written in the two lists."""

    base: str
    target: str

    def __str__(self) -> str:
        return f"{self.base} -> {self.target}"


@dataclass(frozen=True)
class AlignmentReport:
    """Correspondences of things, functions and relations, inferences, and how good the match is.

    value, bound : worth and proven upper bound under the systematic weights. soundness : value over the smaller
    system's own worth, 0..1. surface : the same share when only single things and relations count.
    """

    things: tuple[Match, ...]
    functions: tuple[Match, ...]
    relations: tuple[Match, ...]
    inferences: tuple[Inference, ...]
    value: float
    bound: float
    gap: float
    optimal: bool
    soundness: float
    surface: float
    seconds: float

    @property
    def surface_likeness(self) -> bool:
        """Whether the two are alike in things and single relations more than in connected systems."""
        return self.surface > self.soundness

    def to_dict(self) -> dict[str, Any]:
        """As the command line prints it."""
        return {
            "things": [{"base": m.base, "target": m.target} for m in self.things],
            "functions": [{"base": m.base, "target": m.target} for m in self.functions],
            "relations": [{"base": m.base, "target": m.target} for m in self.relations],
            "inferences": [
                {"text": i.text, "base": i.base_text, "conjectured": list(i.conjectured), "attached": i.attached}
                for i in self.inferences
            ],
            "value": round(self.value, 6),
            "bound": round(self.bound, 6),
            "gap": round(self.gap, 6),
            "optimal": self.optimal,
            "soundness": round(self.soundness, 4),
            "surface": round(self.surface, 4),
            "surface_likeness": self.surface_likeness,
            "elapsed_ms": round(self.seconds * 1000, 3),
        }


def align(
    base: RelationGraph | Sequence[Any] | dict[str, Any],
    target: RelationGraph | Sequence[Any] | dict[str, Any],
    *,
    compatibility: Compatibility = STRUCTURE_MAPPING,
    weights: Weights = SYSTEMATIC,
    time_limit_seconds: float = 10.0,
) -> AlignmentReport:
    """Align two labelled relation lists.

    base, target : a list of facts ("attracts(sun, planet)" or nested lists), the object form with functions and
    symmetric relations (see `graph_from_data`), or a RelationGraph.

    Raises FormatError for a list that cannot be read.
    """
    first, second = _graph(base, "base"), _graph(target, "target")
    found = align_graphs(first, second, compatibility, weights, time_limit_seconds)

    def share(by: Weights, compare: Compatibility, worth: float) -> float:
        whole = min(own_worth(graph, compare, by) for graph in (first, second))
        return min(1.0, worth / whole) if whole > 0 else 0.0

    by_name = _by_name(compatibility)
    left = max(0.05, time_limit_seconds - found.seconds)
    surface = align_graphs(first, second, by_name, SURFACE, left)
    return AlignmentReport(
        things=_matches(first, second, found, "entity"),
        functions=_functions(first, second, found),
        relations=_matches(first, second, found, "relation"),
        inferences=infer(first, second, found),
        value=found.value,
        bound=found.bound,
        gap=found.gap,
        optimal=found.optimal,
        soundness=share(weights, compatibility, found.value),
        surface=share(SURFACE, by_name, surface.value),
        seconds=found.seconds,
    )


def align_files(base: Path, target: Path, time_limit_seconds: float = 10.0) -> AlignmentReport:
    """The same for two JSON files. Raises FormatError naming the file."""
    graphs = [graph_from_data(read_json(path), str(path)) for path in (base, target)]
    return align(graphs[0], graphs[1], time_limit_seconds=time_limit_seconds)


def _graph(system: Any, name: str) -> RelationGraph:
    return system if isinstance(system, RelationGraph) else graph_from_data(_listed(system), name)


def _listed(system: Any) -> Any:
    return list(system) if isinstance(system, tuple) else system


def _by_name(compatibility: Compatibility) -> Compatibility:
    """On the surface, things pair by what they are called."""
    return Compatibility(
        entities=lambda a, b: 1.0 if a == b else 0.05,
        functions=compatibility.functions,
        relations=compatibility.relations,
    )


def _matches(base: RelationGraph, target: RelationGraph, found: Alignment, role: str) -> tuple[Match, ...]:
    return tuple(Match(base.text(b), target.text(t)) for b, t in found.pairs if base.nodes[b].role == role)


def _functions(base: RelationGraph, target: RelationGraph, found: Alignment) -> tuple[Match, ...]:
    pairs = [(base.nodes[b], target.nodes[t]) for b, t in found.pairs]
    names = dict.fromkeys((mine.name, theirs.name) for mine, theirs in pairs if mine.role == "function")
    return tuple(Match(mine, theirs) for mine, theirs in names)


def read_json(path: Path) -> Any:
    """What a JSON file says. Raises FormatError naming the file: unreadable, too large, no JSON, or a key twice."""
    try:
        with path.open("rb") as file:
            raw = file.read(MAXIMUM_BYTES + 1)
    except OSError as error:
        raise FormatError(f"cannot be read: {error.strerror or error}", path=str(path)) from None
    if len(raw) > MAXIMUM_BYTES:
        raise FormatError(f"larger than the {MAXIMUM_BYTES:,} bytes allowed", path=str(path))
    try:
        return json.loads(raw.decode("utf-8-sig"), object_pairs_hook=unique_keys)
    except FormatError as error:
        raise FormatError(error.message, path=str(path)) from None
    except UnicodeDecodeError:
        raise FormatError("expected UTF-8 text", path=str(path)) from None
    except json.JSONDecodeError as error:
        raise FormatError(f"not valid JSON: {error.msg}", path=str(path), line=error.lineno) from None
    except (RecursionError, ValueError):
        raise FormatError("nested too deeply, or a number too long, to be read", path=str(path)) from None
