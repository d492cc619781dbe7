"""Find natural systems that already do what an engineer needs, and say step by step what carries over.

`open_library` is the way in; `align` (also `align_relations`) aligns any two lists of relations. Importing this package
loads nothing else: the interface is loaded at the first use of one of its names.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

__version__ = "0.1.0"

__all__ = ["AnalogError", "Library", "__version__", "align", "align_relations", "open_library"]

if TYPE_CHECKING:
    from analog.align.report import align
    from analog.api import Library, align_relations, open_library
    from analog.errors import AnalogError


def __getattr__(name: str) -> Any:
    if name == "AnalogError":
        from analog.errors import AnalogError

        return AnalogError
    if name == "align":
        from importlib import import_module

        return import_module("analog.align")  # a room of the package, and a function: see its __init__
    if name in __all__:
        from analog import api

        return getattr(api, name)
    raise AttributeError(f"module 'analog' has no attribute {name!r}")
