"""Where the corpus and the index lie: named by the caller, by an environment variable, or found by rule."""

from __future__ import annotations

import os
import tempfile
import warnings
from pathlib import Path

from analog.errors import UsageError

CORPUS_VARIABLE = "ANALOG_CORPUS"
INDEX_VARIABLE = "ANALOG_INDEX"

PACKAGE = Path(__file__).resolve().parent


def checkout() -> Path | None:
    """The checkout the package lies in (a pyproject.toml and a corpus beside the package), or None if installed."""
    root = PACKAGE.parent
    return root if (root / "pyproject.toml").is_file() and (root / "corpus").is_dir() else None


def corpus_folder(given: str | Path | None = None) -> Path:
    """The folder of model files.

    In this order: `given` (--corpus), the variable ANALOG_CORPUS, `corpus/` of a checkout, the corpus in the package.
    Raises UsageError if the folder does not exist.
    """
    place, origin = _named(given, CORPUS_VARIABLE)
    if place is None:
        root = checkout()
        place, origin = (root / "corpus", "the checkout") if root else (PACKAGE / "_corpus", "the installed package")
    if not place.is_dir():
        raise UsageError(f"expected a folder of model files at {place} (from {origin}), found none")
    return place


def index_folder(given: str | Path | None = None) -> Path:
    """The folder that is, or will be, the index itself.

    In this order: `given` (--index), the variable ANALOG_INDEX, `index/current` of a checkout, the user's cache.
    Without a writable cache a folder for temporary files is used, with a warning: it may be gone after a restart.
    The folder need not exist. Raises UsageError if a file stands there.
    """
    place, origin = _named(given, INDEX_VARIABLE)
    if place is None:
        root = checkout()
        place, origin = (root / "index" / "current", "the checkout") if root else (_cache(), "the user's cache")
    if place.exists() and not place.is_dir():
        raise UsageError(f"expected a folder for the index at {place} (from {origin}), found a file")
    return place


def principles_folder() -> Path:
    """The folder of principle records (one a file) that comes with the package."""
    return PACKAGE / "scale" / "principles"


def vocabulary_folder() -> Path:
    """The folder of the vocabulary: its program text and its data."""
    return PACKAGE / "vocabulary"


def phrases_file() -> Path:
    """The table of example sentences by which a problem is read; it need not exist."""
    return PACKAGE / "problem" / "data" / "phrases-development.tsv"


def _named(given: str | Path | None, variable: str) -> tuple[Path | None, str]:
    if given is not None:
        return Path(given).expanduser(), "the command line"
    if os.environ.get(variable):
        return Path(os.environ[variable]).expanduser(), f"the environment variable {variable}"
    return None, ""


def _cache() -> Path:
    import platformdirs  # only an installed package without any setting comes here

    try:
        folder = Path(platformdirs.user_cache_dir("analog", appauthor=False))
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            pass
        # one index a package, so that two installations do not rebuild each other's index in turn
        return folder / f"index-{_installation()}"
    except (OSError, RuntimeError) as fault:
        folder = Path(tempfile.gettempdir()) / f"analog-{_user()}"
        warnings.warn(
            f"no writable cache folder ({fault}); the index goes to {folder} and may be lost at a restart. "
            f"Set {INDEX_VARIABLE} or use --index to keep it.",
            stacklevel=3,
        )
        return folder / f"index-{_installation()}"


def _installation() -> str:
    import hashlib

    return hashlib.sha256(str(PACKAGE).encode()).hexdigest()[:12]


def _user() -> str:
    return str(os.getuid()) if hasattr(os, "getuid") else os.environ.get("USERNAME", "user")
