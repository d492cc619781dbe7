"""Alignment: one-to-one correspondences between two systems of relations, solved to proven optimality.

The package can be called: `analog.align(base, target)` is `analog.align.report.align`, loaded at the first call.
"""

from __future__ import annotations

import sys
from types import ModuleType
from typing import Any


class _Callable(ModuleType):
    """A module that can be called. Python reference manual, "Customizing module attribute access": `__class__`."""

    def __call__(self, base: Any, target: Any, **options: Any) -> Any:
        """Align two labelled relation lists; see `analog.align.report.align`."""
        from analog.align.report import align

        return align(base, target, **options)


sys.modules[__name__].__class__ = _Callable
