"""Whether more models drown the right ones: the same development problems over the first models and over all of them.

`python -m analog.bench.growth` builds an index of the models that were there when the problems were written, beside the
one in use, and searches both.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from analog.bench.grades import graded_problems
from analog.bench.metrics import Floats, Rankings, measure, paired_difference
from analog.bench.problems import GradedProblem, judged_models, load_problems, problems_file
from analog.bench.report import Table, interval, markdown, number
from analog.bench.run import only, rankings_of
from analog.search import Searcher


@dataclass(frozen=True)
class Growth:
    """nDCG@10 of the problems, (problems,) each.

    first : over the first models alone. condensed : over all models, those that came later taken out of the lists.
    whole : over all models, with the grades of both judgements.
    """

    first: Floats
    condensed: Floats
    whole: Floats


def growth(small: Searcher, large: Searcher) -> Growth:
    """Search the development problems in an index of the first models and in one of all."""
    problems = load_problems(problems_file("development"))
    models = {name: large.index.model(name) for name in large.index.ids}
    complete = {problem.id: problem for problem in graded_problems("development", models)}
    asked = [problem for problem in problems if problem.covered]
    before, after = rankings_of(small, asked), rankings_of(large, asked)
    first = judged_models()
    return Growth(
        first=_ndcg(asked, only(first, before)),
        condensed=_ndcg(asked, only(first, after)),
        whole=_ndcg([complete[problem.id] for problem in asked], after),
    )


def _ndcg(problems: Sequence[GradedProblem], rankings: Rankings) -> Floats:
    return measure(problems, rankings)["nDCG@10"]


def first_corpus(corpus: Path, target: Path, files: Mapping[str, str]) -> None:
    """Copy the models of the first view, and the sentences expected for them, into a folder.

    files : model id -> its file below `corpus`.
    """
    first = judged_models()
    for name, file in files.items():
        if name in first:
            (target / file).parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(corpus / file, target / file)
    for table in corpus.rglob("expected-questions.tsv"):
        header, *lines = table.read_text(encoding="utf-8").splitlines()
        kept = [line for line in lines if line.partition("\t")[0] in first]
        folder = target / table.parent.relative_to(corpus)
        if kept and folder.is_dir():
            (folder / table.name).write_text("\n".join([header, *kept]) + "\n", encoding="utf-8")


def main() -> int:
    """Print the comparison as Markdown."""
    from analog.api import open_library
    from analog.locate import corpus_folder

    large = open_library().searcher
    with tempfile.TemporaryDirectory() as folder:
        corpus, index = Path(folder) / "corpus", Path(folder) / "index"
        corpus.mkdir()
        first_corpus(corpus_folder(), corpus, dict(zip(large.index.ids, large.index.files, strict=True)))
        small = open_library(corpus, index).searcher
        found = growth(small, large)
        counts = len(small.index.ids), len(large.index.ids)
    sys.stdout.write(markdown(_table(found, *counts)) + "\n")
    return 0


def _table(found: Growth, few: int, many: int) -> Table:
    rows = (
        (f"the first {few} models alone", found.first),
        (f"all {many} models, later ones taken out of the lists", found.condensed),
        (f"all {many} models, grades of both judgements", found.whole),
    )
    header = ["development problems", "nDCG@10", "against the first row, 95 % interval"]
    return header, [
        [name, number(float(np.mean(values))), interval(paired_difference(values, found.first))]
        for name, values in rows
    ]


if __name__ == "__main__":
    sys.exit(main())
