"""What `analog check --review` and `--coverage` hand to the model room and how they show what comes back."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from analog.cli.output import as_json, data, progress, wrapped
from analog.errors import UsageError

if TYPE_CHECKING:
    from analog.model.coverage import Functions

SHOWN_KINDS = 12


def show_review(paths: Sequence[Path], corpus: Path, top: int | None, as_json_wanted: bool) -> None:
    """Print the models by weakness, weakest first: all as JSON, or the first `top` (20) for a reader."""
    from analog.model.review import KindWords, review_paths
    from analog.vocabulary.expand import Vocabulary

    kinds = Vocabulary.from_sources().kinds
    words = {
        name: KindWords(
            others=len(record["alt"]),
            matches=len(record["matches"]),
            above=tuple(a for a in kinds.ancestors(name) if a != name and kinds.strength(a) > 0),
        )
        for name, record in kinds.records.items()
    }
    found = review_paths(paths, corpus, words)
    if as_json_wanted:
        record = found.to_dict()
        data(as_json({**record, "models": record["models"][:top]}))
        return
    shown = found.models[: top or 20]
    for reviewed in shown:
        data(f"{reviewed.score:.2f}  {reviewed.model}  ({reviewed.file})")
        for weakness in reviewed.weaknesses:
            data(wrapped(f"{weakness.part:.2f} {weakness.rule}: {weakness.found}", "           ", "      "))
    if len(shown) < len(found.models):
        data(f"… and {len(found.models) - len(shown)} more; --top N shows N of them")
    rare = [f"{kind} ({model})" for kind, model in found.kinds_of_one_model.items()]
    data(_listed("kinds used by one model only", rare))
    data(_listed("kinds to which no engineer's word leads", list(found.unconnected_kinds)))


def _listed(title: str, names: list[str]) -> str:
    shown = names[:SHOWN_KINDS]
    more = f" … and {len(names) - len(shown)} more (--json lists all)" if len(shown) < len(names) else ""
    return wrapped(f"{len(names)} {title}" + (f": {', '.join(shown)}{more}" if names else ""), "    ", "")


def functions() -> Functions:
    """The secondary functions, class by class, and the one that each verb stands under (a secondary one: itself)."""
    from analog.model.coverage import Functions
    from analog.vocabulary.expand import Vocabulary

    verbs = Vocabulary.from_sources().verbs
    secondary = [name for name in verbs.all() if verbs.level(name) == "secondary"]
    # the alphabet of the classes is also their order in the published table
    ordered = sorted(secondary, key=lambda name: (verbs.class_of(name), name))
    above = {name: next(a for a in verbs.ancestors(name) if verbs.level(a) == "secondary") for name in verbs.all()}
    return Functions(tuple(ordered), above)


def show_coverage(paths: Sequence[Path], write: Path | None, as_json_wanted: bool) -> None:
    """Print the coverage as Markdown or JSON, or write coverage.md and coverage.svg into a folder."""
    from analog.files import write_text
    from analog.model.coverage import cover, markdown
    from analog.model.coverage_figure import draw
    from analog.model.load import load_corpus

    if write is not None and not write.is_dir():
        raise UsageError(f"expected a folder to write coverage.md and coverage.svg into, found none at {write}")
    found = cover(load_corpus(*paths).models, functions())
    if write is not None:
        draw(found, write / "coverage.svg")
        write_text(write / "coverage.md", markdown(found), replace=True)
        progress(f"Written: {write / 'coverage.md'}, {write / 'coverage.svg'}")
        return
    data(as_json(found.to_dict()) if as_json_wanted else markdown(found))
