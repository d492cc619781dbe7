"""The registry of functions that principle records name, so that data can say what computes it."""

from __future__ import annotations

from collections.abc import Callable
from difflib import get_close_matches
from functools import lru_cache
from importlib import import_module
from pathlib import Path
from typing import TypeVar

from analog.errors import UnknownTermError

Function = Callable[..., float]
_Registered = TypeVar("_Registered", bound=Function)
_FUNCTIONS: dict[str, Function] = {}


def computes(name: str) -> Callable[[_Registered], _Registered]:
    """Register a function under the name that principle records use. Raises ValueError if the name is taken."""

    def register(function: _Registered) -> _Registered:
        if name in _FUNCTIONS and _FUNCTIONS[name] is not function:
            raise ValueError(f"{name!r} is computed by two functions")
        _FUNCTIONS[name] = function
        return function

    return register


@lru_cache(maxsize=1)
def _load() -> None:
    for path in sorted((Path(__file__).parent / "functions").glob("[a-z]*.py")):
        import_module(f"analog.scale.functions.{path.stem}")


def function(name: str) -> Function:
    """The function of this name. Raises UnknownTermError with the nearest names."""
    _load()
    if name not in _FUNCTIONS:
        raise UnknownTermError("function", name, get_close_matches(name, _FUNCTIONS, n=3))
    return _FUNCTIONS[name]


def all_functions() -> dict[str, Function]:
    """Every registered function by name."""
    _load()
    return dict(sorted(_FUNCTIONS.items()))
