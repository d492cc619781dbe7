"""The pipeline on one page: read, encode, recall, align, judge, score, explain."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, TypeVar

import numpy as np

from analog.align.case import Case, case_of_model, case_of_problem
from analog.align.things import ThingAlignment, ThingPolicy, align_things, facts_found
from analog.encode.facets import FACETS, problem_texts, problem_words
from analog.explain.build import explanation, roles_of
from analog.explain.explanation import Explanation, principles_of
from analog.explain.surroundings import Surroundings
from analog.explain.verdict import Judge, TransitionVerdict
from analog.index.store import Index
from analog.index.tokens import tokens
from analog.model.types import Model, Principle, Purpose
from analog.problem.types import Problem, ProblemPurpose
from analog.rank import recall, terms
from analog.rank.diversity import diversified
from analog.rank.fuse import DEFAULT_WEIGHTS, FusionWeights
from analog.rank.portfolio import Portfolio, smallest_cover
from analog.vocabulary.expand import Vocabulary

if TYPE_CHECKING:
    from analog.problem.phrases import PhraseMemory

_Record = TypeVar("_Record")

CANDIDATES = 50
"""How many models are aligned; recall before that is wide and cheap."""

REMEMBERED_TEXTS = 1024

COVERING_VERB, COVERING_SHARE = 0.6, 0.5
"""Likeness of functions, and share of the problem found again, from which on a model counts as serving a purpose."""


@dataclass(frozen=True)
class SearchResult:
    """A problem as read and its ranked, explained analogues.

    portfolio : the smallest set of analogues that covers every purpose of the problem that can be covered.
    elapsed_ms : from reading done to results ready.
    """

    problem: Problem
    results: tuple[Explanation, ...]
    portfolio: Portfolio
    elapsed_ms: float

    def to_dict(self) -> dict[str, object]:
        """The object of the command contract: problem, results, elapsed_ms."""
        reading = self.problem.model_dump(mode="json", exclude={"text"})
        return {
            "problem": {
                "text": self.problem.text,
                "reading": reading,
                "given": list(dict.fromkeys(condition.text for condition in self.problem.conditions)),
            },
            "results": [result.to_dict() for result in self.results],
            "portfolio": self.portfolio.to_dict(),
            "elapsed_ms": round(self.elapsed_ms, 3),
        }


@dataclass(frozen=True)
class _Candidate:
    """A model aligned, judged and scored, but not yet explained."""

    model: Model
    aligned: _Aligned
    verdicts: tuple[TransitionVerdict, ...]
    scores: Mapping[str, float]
    score: float
    covers: tuple[str, ...]


@dataclass(frozen=True)
class _Aligned:
    problem_purpose: ProblemPurpose
    purpose: Purpose
    cases: tuple[Case, Case]
    alignment: ThingAlignment


class Searcher:
    """Answers problems from one open index."""

    def __init__(self, index: Index, weights: FusionWeights = DEFAULT_WEIGHTS) -> None:
        self.index, self.weights = index, weights
        self.vocabulary = Vocabulary.from_baked(index.vocabulary)
        self.policy = ThingPolicy(
            kinds=self.vocabulary.kinds.similarity,
            relations=self.vocabulary.relations.similarity,
            symmetric=self.vocabulary.relations.symmetric,
        )

        self._encoded: dict[str, np.ndarray] = {}
        self._cases: dict[tuple[str, str], Case] = {}
        self.models: Mapping[str, Model] = _OnDemand(index.ids, index.model)
        self.principles: Mapping[str, Principle] = _OnDemand(index.principle_ids, index.principle)

    @cached_property
    def phrases(self) -> PhraseMemory | None:
        """The labelled phrasings by whose nearness a problem is read; None where the index has none."""
        from analog.problem.phrases import PhraseMemory, label_of

        rows, vectors = self.index.phrases
        if not rows:
            return None
        texts = [row["text"] for row in rows]
        return PhraseMemory(texts, [label_of(row) for row in rows], vectors, self._encode)

    def search(self, problem: Problem, top: int = 10, candidates: int = CANDIDATES) -> SearchResult:
        """The `top` analogues of a problem, best first."""
        started = time.perf_counter()
        cosines, words = self._likenesses(problem)
        worth_aligning = self._recall(problem, cosines, words, max(top, candidates))
        judge = self._judge(problem)
        found = [self._candidate(judge, self.index.ids[i], _row(cosines, i), float(words[i])) for i in worth_aligning]
        found.sort(key=lambda candidate: (-candidate.score, candidate.model.id))
        order = diversified([c.score for c in found], [principles_of(c.model) for c in found], top)
        ranked = tuple(
            self._explained(problem, found[i], rank, distinct) for rank, (i, distinct) in enumerate(order, start=1)
        )
        return SearchResult(problem, ranked, _portfolio(problem, found), (time.perf_counter() - started) * 1000)

    def terms_of_all(self, problem: Problem) -> Iterator[tuple[str, Mapping[str, float]]]:
        """(id, terms of the score) of every model, unranked: for measuring and for choosing weights."""
        cosines, words = self._likenesses(problem)
        judge = self._judge(problem)
        for position, model_id in enumerate(self.index.ids):
            yield model_id, self._candidate(judge, model_id, _row(cosines, position), float(words[position])).scores

    def explain(self, model_id: str, problem: Problem) -> Explanation:
        """One model under one problem; rank 0, since it was not ranked. Raises UnknownTermError for an unknown id."""
        position = self.position(model_id)
        cosines, words = self._likenesses(problem)
        judge = self._judge(problem)
        candidate = self._candidate(judge, model_id, _row(cosines, position), float(words[position]))
        return self._explained(problem, candidate, rank=0)

    def _judge(self, problem: Problem) -> Judge:
        return Judge(Surroundings(problem, self.vocabulary.kinds), self.models, self.principles)

    def position(self, model_id: str) -> int:
        """Position of a model in the index. Raises UnknownTermError, with the nearest ids."""
        self.index.model(model_id)
        return self.index.position[model_id]

    def _likenesses(self, problem: Problem) -> tuple[dict[str, np.ndarray], np.ndarray]:
        """(facet -> (models,) best cosine, (models,) lexical score over the best)."""
        texts = problem_texts(problem)
        distinct = list(dict.fromkeys(text.text for text in texts))
        vectors = self._vectors(distinct)
        cosines = {}
        for name in FACETS:
            rows = [self.index.dense.all_scores(name, vectors[text.text]) for text in texts if text.facet == name]
            cosines[name] = np.max(rows, axis=0) if rows else np.zeros(len(self.index.ids))
        words = self.index.lexical.scores(tokens(problem_words(problem)))
        best = float(words.max(initial=0.0))
        return cosines, words / best if best > 0 else words

    def _vectors(self, texts: Sequence[str]) -> dict[str, np.ndarray]:
        """Text -> vector; the last texts are remembered, since reading a problem has encoded some of them already."""
        fresh = [text for text in texts if text not in self._encoded]
        if len(self._encoded) + len(fresh) > REMEMBERED_TEXTS:
            self._encoded.clear()
            fresh = list(texts)
        if fresh:
            self._encoded.update(zip(fresh, self.index.encoder.encode(fresh), strict=True))
        return {text: self._encoded[text] for text in texts}

    def _encode(self, texts: Sequence[str]) -> np.ndarray:
        vectors = self._vectors(list(texts))
        return np.stack([vectors[text] for text in texts])

    def _recall(self, problem: Problem, cosines: Mapping[str, np.ndarray], words: np.ndarray, count: int) -> list[int]:
        """Positions of the models worth aligning."""
        purpose = self.index.signatures.scores(recall.wanted(problem, self.vocabulary))
        return recall.candidates(recall.by_text(cosines, words, self.weights.terms), purpose, count)

    def _align(self, problem: Problem, model: Model) -> list[_Aligned]:
        """For each purpose of the problem the best alignment over the purposes of the model."""
        found = []
        for mine in problem.purposes:
            problem_case = case_of_problem(problem, mine)
            cases = [(theirs, (problem_case, self._case(model, theirs))) for theirs in model.purposes]
            aligned = [_Aligned(mine, theirs, both, align_things(*both, self.policy)) for theirs, both in cases]
            found.append(max(aligned, key=lambda a: a.alignment.share))
        return found

    def _case(self, model: Model, purpose: Purpose) -> Case:
        """The model's side of an alignment, the same for every problem."""
        key = model.id, purpose.id
        if key not in self._cases:
            self._cases[key] = case_of_model(model, purpose)
        return self._cases[key]

    def _candidate(self, judge: Judge, model_id: str, cosines: Mapping[str, float], words: float) -> _Candidate:
        problem, model = judge.surroundings.problem, self.index.model(model_id)
        by_purpose = self._align(problem, model)
        aligned = max(by_purpose, key=lambda a: a.alignment.share)
        verdicts = judge.judge(model, roles_of(problem, *aligned.cases, aligned.alignment))
        course = tuple(verdict.verdict for verdict in verdicts if verdict.on_course)
        alignment = aligned.alignment
        evidence = terms.Evidence(model, cosines, words, alignment.share, course, alignment.turned)
        scores = self._scores(problem, evidence)
        covers = tuple(a.problem_purpose.text for a in by_purpose if self._covers(a)) if "breaks" not in course else ()
        return _Candidate(model, aligned, verdicts, scores, self.weights.score(scores), covers)

    def _explained(self, problem: Problem, candidate: _Candidate, rank: int, distinct: float = 1.0) -> Explanation:
        aligned = candidate.aligned
        return explanation(
            rank=rank,
            problem=problem,
            model=candidate.model,
            purpose=aligned.purpose,
            cases=aligned.cases,
            alignment=aligned.alignment,
            facts=facts_found(*aligned.cases, self.policy, aligned.alignment.pairs),
            verdicts=candidate.verdicts,
            score=candidate.score * distinct,
            scores={**candidate.scores, "distinct": distinct},
            covers=candidate.covers,
            vocabulary=self.vocabulary,
        )

    def _covers(self, aligned: _Aligned) -> bool:
        """Whether a model serves a purpose: functions agree and most of the structure is found again."""
        verbs = self.vocabulary.verbs.similarity(aligned.problem_purpose.verb, aligned.purpose.verb)
        return verbs >= COVERING_VERB and aligned.alignment.share >= COVERING_SHARE

    def _scores(self, problem: Problem, evidence: terms.Evidence) -> dict[str, float]:
        purposes = evidence.model.purposes
        verb = terms.verb(problem.purposes, purposes, self.vocabulary.verbs)
        return {
            **terms.facets(evidence),
            "words": evidence.words,
            "verb": verb,
            "flow": terms.flow(problem.purposes, purposes, self.vocabulary.flows),
            "structure": evidence.structure,
            "function": terms.function(problem.purposes, verb),
            "direction": terms.direction(evidence.turned),
            "conditions": terms.conditions(evidence.verdicts),
        }


def _portfolio(problem: Problem, results: Sequence[_Candidate]) -> Portfolio:
    covers = {result.model.id: frozenset(result.covers) for result in results}
    scores = {result.model.id: result.score for result in results}
    return smallest_cover([purpose.text for purpose in problem.purposes], covers, scores)


def _row(cosines: Mapping[str, np.ndarray], position: int) -> dict[str, float]:
    return {name: float(values[position]) for name, values in cosines.items()}


class _OnDemand(Mapping[str, _Record]):
    """Records of the index by id, each read when it is first asked for."""

    def __init__(self, ids: Sequence[str], read: Callable[[str], _Record]) -> None:
        self._ids, self._read = dict.fromkeys(ids), read

    def __getitem__(self, key: str) -> _Record:
        if key not in self._ids:
            raise KeyError(key)
        return self._read(key)

    def __iter__(self) -> Iterator[str]:
        return iter(self._ids)

    def __len__(self) -> int:
        return len(self._ids)


def search_batch(searcher: Searcher, problems: Iterable[Problem], top: int = 10) -> Iterable[SearchResult]:
    """Results of many problems, one by one, in their order."""
    return (searcher.search(problem, top) for problem in problems)
