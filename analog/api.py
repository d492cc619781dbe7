"""The Python interface: what the command line does, as functions that return records.

import analog

library = analog.open_library()
problem = library.read("remove dust from solar panels", given=["no water available"])
for result in library.search(problem).results:
    print(result.rank, result.model.title, result.score)
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from analog import __version__
from analog.search import Searcher, SearchResult

if TYPE_CHECKING:
    from analog.align.report import AlignmentReport
    from analog.align.term_lists import TermReport
    from analog.brief.content import Brief
    from analog.brief.draft import Draft
    from analog.explain.explanation import Explanation
    from analog.model.types import Model
    from analog.problem.types import Problem
    from analog.vocabulary.expand import Link, Vocabulary


class Library:
    """A corpus with its index, open for questions."""

    def __init__(self, searcher: Searcher) -> None:
        self.searcher = searcher

    @property
    def vocabulary(self) -> Vocabulary:
        """Verbs, flows, kinds and relations."""
        return self.searcher.vocabulary

    @property
    def ids(self) -> tuple[str, ...]:
        """Ids of the models, sorted."""
        return self.searcher.index.ids

    def model(self, model_id: str) -> Model:
        """A model by id. Raises UnknownTermError with the nearest ids."""
        return self.searcher.index.model(model_id)

    def read(self, text: str, given: Sequence[str] = ()) -> Problem:
        """A problem from a sentence. Raises ReadingError or InputError for what cannot be read."""
        from analog.problem.read import read_problem

        return read_problem(text, given, self.vocabulary, self.searcher.phrases)

    def read_file(self, path: Path, given: Sequence[str] = (), text: str | None = None) -> Problem:
        """A problem from a YAML or JSON file; `text` stands in for the file's own sentence.

        Raises FormatError with file, line and field.
        """
        from analog.problem.file import load_problem

        return load_problem(path, self.vocabulary, self.searcher.phrases, given, text)

    def search(self, problem: Problem | str, given: Sequence[str] = (), top: int = 10) -> SearchResult:
        """The best analogues of a problem or a sentence, ranked and explained."""
        return self.searcher.search(self.read(problem, given) if isinstance(problem, str) else problem, top)

    def explain(self, model_id: str, problem: Problem | str, given: Sequence[str] = ()) -> Explanation:
        """One model under a problem. Raises UnknownTermError for an unknown id."""
        self.searcher.position(model_id)
        return self.searcher.explain(model_id, self.read(problem, given) if isinstance(problem, str) else problem)

    def brief(
        self,
        problem: Problem | str,
        models: Sequence[str] = (),
        given: Sequence[str] = (),
        *,
        portfolio: bool = False,
        top: int = 1,
    ) -> Brief:
        """The content of a transfer brief; see `draft_brief`."""
        return self.draft_brief(problem, models, given, portfolio=portfolio, top=top).content

    def draft_brief(
        self,
        problem: Problem | str,
        models: Sequence[str] = (),
        given: Sequence[str] = (),
        *,
        portfolio: bool = False,
        top: int = 1,
        command: str = "",
    ) -> Draft:
        """A transfer brief with what its figures are drawn from.

        models : ids, in their order, without repeats. Without any, the smallest set that covers every purpose of the
        problem (portfolio), or the `top` best results. command : the command line, for the record.
        Raises UnknownTermError for an unknown id.
        """
        from analog.brief.alternatives import COUNT
        from analog.brief.analogue import Teller
        from analog.brief.draft import draft

        read = self.read(problem, given) if isinstance(problem, str) else problem
        for model in models:
            self.searcher.position(model)
        found = self.search(read, top=COUNT + max(top, len(models), len(read.purposes)))
        ranked = {result.model.id: result for result in found.results}
        if models:
            names = list(dict.fromkeys(models))
        elif portfolio and found.portfolio.members:
            names = list(found.portfolio.members)
        else:
            names = list(ranked)[:top]
        chosen = [ranked[name] if name in ranked else self.explain(name, read) for name in names]
        weights = self.searcher.weights.terms
        shares = {name: weight / sum(weights.values()) for name, weight in weights.items()}
        teller = Teller(read, self.vocabulary.kinds, self.searcher.models, self.searcher.principles, shares)
        made = {**self.versions(), **({"command": command} if command else {})}
        return draft(teller, chosen, found.results, made, named=bool(models))

    def link(self, term: str, other: str) -> Link:
        """How two terms connect."""
        return self.vocabulary.link(term, other)

    def align_terms(self, base: Sequence[str], target: Sequence[str], time_limit_seconds: float = 10.0) -> TermReport:
        """Pair two lists of terms one to one, no relations given. Raises FormatError for a list that cannot be used."""
        from analog.align.term_lists import align_terms

        encoder = self.searcher.index.encoder
        return align_terms(base, target, self.vocabulary, encoder, time_limit_seconds=time_limit_seconds)

    def versions(self) -> dict[str, str]:
        """Program, index and corpus, so that a result can be made again."""
        manifest = self.searcher.index.manifest
        return {
            "program": f"analog {__version__}",
            "index": f"built {manifest.created} with the encoder {manifest.encoder['name']}",
            "corpus": f"{len(self.ids)} models, contents {manifest.sources['corpus'][:12]}",
        }


def open_library(
    corpus: str | Path | None = None,
    index: str | Path | None = None,
    *,
    progress: Callable[[str, int, int], None] | None = None,
    tell: Callable[[str], None] | None = None,
) -> Library:
    """Open the corpus and its index; the index is built or rebuilt first where it is missing or stale.

    corpus, index : folders; None takes those that --corpus and --index would. progress : receives stage, done, total.
    """
    from analog.index.build import ensure_index
    from analog.locate import corpus_folder, index_folder

    return Library(Searcher(ensure_index(corpus_folder(corpus), index_folder(index), progress=progress, tell=tell)))


def align_relations(base: Any, target: Any, time_limit_seconds: float = 10.0) -> AlignmentReport:
    """Align two labelled relation lists (see `analog.align.report.align`)."""
    from analog.align.report import align

    return align(base, target, time_limit_seconds=time_limit_seconds)
