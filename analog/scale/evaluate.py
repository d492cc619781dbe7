"""One principle put to values that somebody writes down: what `analog scale` prints.

    evaluate("capillary-length", {"surface tension": "72 mN/m", "liquid body size": "1-3 mm"}).to_dict()

A name is a symbol's id, its letter, or any of its names; `temperature`, `altitude` and `medium` set the water or air
whose properties fill what is not given.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from functools import lru_cache
from pathlib import Path

from analog.errors import InputError, UnknownTermError
from analog.model.types import Model, Principle, Symbol, Transition
from analog.scale.fluid_properties import Fluid
from analog.scale.invert import is_difference
from analog.scale.names import match, words
from analog.scale.quantities import of_nature
from analog.scale.regime import RegimeCheck, check_regime
from analog.scale.surroundings import Environment, complete
from analog.scale.symbols import names_of
from analog.scale.units import friendly_unit, to_si
from analog.scale.values import SymbolValue

_NUMBER = r"(?>[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?)"  # taken whole: 1e-3 is no range from 1e to 3
_UNIT = re.compile(r"(?:[A-Za-z]|1/)[\w*/^()-]*(?: ?[*/] ?[\w*/^()-]+)*")
_ONE = re.compile(rf"\s*(?P<low>{_NUMBER})\s*(?P<last>\S.*?)?\s*")
_RANGE = re.compile(
    rf"\s*(?P<low>{_NUMBER})\s*(?P<first>[A-Za-z%°].*?)?\s*(?:-|–|\bto\b|\.\.\.?)\s*(?P<high>{_NUMBER})\s*(?P<last>[^\d\s].*?)?\s*"
)
SURROUNDINGS = ("temperature", "altitude", "medium")


def evaluate(
    principle_id: str, values: Mapping[str, str | float], principles: Mapping[str, Principle] | None = None
) -> RegimeCheck:
    """The regime check of a principle for values by name: texts with unit ("2 mm", "5-50 um") or numbers in SI.

    principles : the records to choose from; None takes those of the package. Raises UnknownTermError for an unknown
    principle, InputError for an unknown quantity, a value that cannot be read or a unit of something else.
    """
    principle = find_principle(principle_id, principles)
    given, environment = read_values(principle, values)
    completed = complete(principle, given, environment)
    return check_regime(principle, completed.values, completed.unavailable)


def evaluate_model(principle_id: str, model: Model, principles: Mapping[str, Principle] | None = None) -> RegimeCheck:
    """The regime check of a principle for what a model says of its own system."""
    principle = find_principle(principle_id, principles)
    steps: list[Transition | None] = [
        t for t in model.transitions if any(getattr(r, "principle", None) == principle.id for r in t.reasons)
    ]
    checks = [
        check_regime(principle, gathered.values, gathered.unavailable)
        for step in steps or (None,)
        for gathered in (of_nature(principle, model, step),)
    ]
    return max(checks, key=lambda check: sum(group.low is not None for group in check.groups))


def find_model(model_id: str, corpus: Path) -> Model:
    """The model of this id in a folder; only its file is read where it bears the name. Raises UnknownTermError."""
    from analog.model.load import load_corpus, load_model_file, model_paths

    paths = model_paths(corpus)
    for path in paths:
        if path.stem == model_id:
            model = load_model_file(path).model
            if model.id == model_id:
                return model
    models = {model.id: model for model in load_corpus(corpus).models}
    if model_id in models:
        return models[model_id]
    raise UnknownTermError("model", model_id, get_close_matches(model_id, models, 5, 0.4))


@lru_cache(maxsize=1)
def shipped_principles() -> Mapping[str, Principle]:
    """The records that come with the package, by id."""
    from analog.locate import principles_folder
    from analog.model.load import load_principles

    return load_principles(principles_folder())


def find_principle(principle_id: str, principles: Mapping[str, Principle] | None = None) -> Principle:
    """The principle of this id; of the package's own, only its file is read.

    Raises UnknownTermError with the nearest ids, or all of them where none is near.
    """
    if principles is None:
        from analog.locate import principles_folder
        from analog.model.load import load_principles

        path = principles_folder() / f"{principle_id}.yaml"
        if re.fullmatch(r"[a-z0-9-]{1,80}", principle_id) and path.is_file():
            return load_principles(path)[principle_id]
        known: Iterable[str] = sorted(file.stem for file in principles_folder().glob("*.yaml"))
    else:
        if principle_id in principles:
            return principles[principle_id]
        known = sorted(principles)
    names = list(known)
    raise UnknownTermError("principle", principle_id, get_close_matches(principle_id, names, 5, 0.4) or names)


def read_values(principle: Principle, values: Mapping[str, str | float]) -> tuple[dict[str, SymbolValue], Environment]:
    """Values by symbol id, and the surroundings. Raises as `evaluate` does."""
    found: dict[str, SymbolValue] = {}
    said: dict[str, str | float] = {}
    for name, value in values.items():
        symbol, factor = symbol_for(principle, name)
        if symbol is None:
            said[name.strip().lower()] = value
            continue
        if symbol.id in found:
            raise InputError(f"Expected each quantity once, found {symbol.name!r} twice (again as {name!r})")
        low, high = read_value(name, value, symbol)
        where = "as given" if factor == 1 else f"{'half' if factor == 0.5 else 'twice'} the {name} given"
        difference = is_difference(symbol)
        found[symbol.id] = SymbolValue(
            symbol.id, symbol.name, symbol.unit, low * factor, high * factor, "given", where, difference=difference
        )
    return found, _environment(said)


def symbol_for(principle: Principle, name: str) -> tuple[Symbol | None, float]:
    """(the symbol a name means, the factor from what is given to it); None for a word of the surroundings.

    Raises InputError listing the allowed names.
    """
    wanted = name.strip()
    for symbol in principle.symbols:
        if wanted == symbol.id or wanted == symbol.symbol:
            return symbol, 1.0
    for symbol in principle.symbols:
        if any(words(wanted) and words(wanted) == words(each) for each in names_of(symbol)):
            return symbol, 1.0
    if wanted.lower() in SURROUNDINGS:
        return None, 1.0
    scored = [(match(wanted, frozenset(), names_of(symbol)), symbol) for symbol in principle.symbols]
    found = [(result, symbol) for result, symbol in scored if result.score > 0.3]
    if found:
        result, symbol = max(found, key=lambda pair: pair[0].score)
        return symbol, result.factor
    allowed = ", ".join(f"{symbol.id} [{friendly_unit(symbol.unit) or 'pure number'}]" for symbol in principle.symbols)
    around = ", ".join(SURROUNDINGS)
    raise InputError(f"Unknown quantity {name!r} of {principle.id}; allowed: {allowed}; for its surroundings {around}")


def read_value(name: str, value: str | float, symbol: Symbol) -> tuple[float, float]:
    """(low, high) in the symbol's unit. Raises InputError with the expected unit."""
    if isinstance(value, str):
        return _quantity(name, value, symbol.unit, is_difference(symbol))
    return _checked(name, float(value), float(value))


def _quantity(name: str, text: str, wanted: str, difference: bool = False) -> tuple[float, float]:
    """Read "2 mm" or "5-50 um" into `wanted`."""
    shown = friendly_unit(wanted) or "a pure number or %"
    plain = text.replace("−", "-").replace("µ", "u").replace("μ", "u").replace("²", "**2").replace("³", "**3")
    parts = _ONE.fullmatch(plain)
    spread = _RANGE.fullmatch(plain)
    if spread is not None:
        parts = spread
    if parts is None or len(text) > 200:
        raise InputError(f"Expected {name!r} as a number with a unit like {shown}, found {text[:60]!r}")
    unit = (parts["last"] or "").strip()
    first_unit = (parts["first"] or "").strip() if spread is not None else ""
    low, high = float(parts["low"]), float(spread["high"]) if spread is not None else float(parts["low"])
    low = _convert(name, low, first_unit or unit, wanted, shown, difference)
    high = _convert(name, high, unit or first_unit, wanted, shown, difference)
    if low > high:
        raise InputError(f"Expected {name!r} from low to high, found {text[:60]!r}")
    return _checked(name, low, high)


def _convert(name: str, value: float, unit: str, wanted: str, shown: str, difference: bool) -> float:
    spelling = {"%": "percent", "°": "degree", "deg": "degree", "°C": "degC", "°F": "degF"}.get(unit, unit)
    if not spelling:
        if wanted != "dimensionless":
            raise InputError(f"Expected {name!r} with a unit like {shown}, found the bare number {value:g}")
        return value
    if not _UNIT.fullmatch(spelling.replace("·", "*")):
        raise InputError(f"Expected {name!r} as a number with a unit like {shown}, found {unit[:40]!r} after {value:g}")
    try:
        return to_si(value, spelling.replace("^", "**").replace("·", "*"), wanted, difference=difference)
    except ValueError:
        raise InputError(f"Expected {name!r} in a unit like {shown}, found {unit!r}") from None


def _checked(name: str, low: float, high: float) -> tuple[float, float]:
    if not (math.isfinite(low) and math.isfinite(high)):
        raise InputError(f"Expected {name!r} as a finite number, found {low:g}")
    return low, high


def _environment(said: Mapping[str, str | float]) -> Environment:
    temperature: tuple[float, float] | None = None
    altitude: float | None = None
    medium: Fluid | None = None
    for name, value in said.items():
        if name == "medium":
            if value not in {"water", "air"}:
                raise InputError(f"Expected the medium as water or air, found {str(value)[:40]!r}")
            medium = "water" if value == "water" else "air"
        elif name == "altitude":
            low, high = _quantity(name, value, "m") if isinstance(value, str) else (value, value)
            if low != high:
                raise InputError(f"Expected one altitude, found the range {value!r}")
            if not -610 <= low <= 80000:
                raise InputError(f"Expected an altitude of -610 to 80 000 m, found {low:g} m")
            altitude = low
        else:
            temperature = _quantity(name, value, "K") if isinstance(value, str) else (value, value)
            if temperature[0] <= 0:
                raise InputError(f"Expected a temperature above absolute zero, found {value!r}")
    return Environment(temperature, altitude, medium, "given")
