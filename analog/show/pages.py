"""Pages: one self-contained HTML file each, escaped everywhere, without script or network, made to be printed."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any

from analog.errors import printable
from analog.figures import available
from analog.model.types import Model
from analog.show.account import Account, in_turn

TEMPLATES = Path(__file__).parent / "templates"

NO_FIGURES = "The figures are left out: matplotlib is not installed (pip install 'analog[plot]')."


@lru_cache(maxsize=2)
def page_environment(templates: Path) -> Any:
    """What fills in the templates of a folder: every text escaped and printable, and an undefined name an error."""
    import jinja2

    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(templates),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=lambda value: printable(value) if type(value) is str else value,
    )


def rendered(template: str, **content: Any) -> str:
    """A template of this room filled in; text is escaped, figures are not."""
    text: str = page_environment(TEMPLATES).get_template(template).render(**content)
    return text


def model_page(model: Model, told: Account) -> str:
    """A model as a page, with its parts and, for each purpose, before and after as figures where they can be drawn."""
    graph, changes = None, []
    if available():
        from analog.figures.change import before_after
        from analog.figures.model_graph import model_graph

        graph = model_graph(model)
        states = {state.id for state in model.states}
        changes = [before_after(model, p) for p in model.purposes if {p.initial, p.objective} <= states]
    course, others = in_turn(told)
    return rendered(
        "model.html",
        told=told,
        graph=graph,
        changes=changes,
        missing="" if available() else NO_FIGURES,
        course=course,
        beside=[step for step in told.steps if not step.number],
        other_states=others,
    )
