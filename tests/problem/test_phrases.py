"""The labelled phrasings and the neighbours' vote, on a tiny memory with vectors of two numbers."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest

from analog.problem.phrases import Label, PhraseMemory, labelled
from analog.problem.read import read_problem
from analog.problem.types import ProblemPurpose
from analog.vocabulary import Vocabulary


def label(text: str, *verbs: str) -> Label:
    return Label(text, verbs, "solid", ("dust",), "", False, "imperative", "none")


def encode(texts: Sequence[str]) -> np.ndarray:
    return np.array([[1.0, 0.0] if "dust" in text else [0.0, 1.0] for text in texts])


MEMORY = PhraseMemory(
    ("wipe dust", "shake dust", "hoist boxes"),
    (label("wipe dust", "remove", "separate"), label("shake dust", "separate"), label("hoist boxes", "transport")),
    encode(("wipe dust", "shake dust", "hoist boxes")),
    encode,
)


def test_votes_by_hand() -> None:
    """Two neighbours at likeness 1: separate gets 1/2 + 1, remove 1; the best is scaled to the likeness, 1."""
    votes = MEMORY.votes("dust on a shelf", neighbours=2, sharpness=4.0)
    assert votes == pytest.approx({"separate": 1.0, "remove": 1.0 / 1.5})
    assert MEMORY.votes_of(np.array([0.5, 0.0, -1.0]), 1, 2.0) == pytest.approx({"remove": 0.5, "separate": 0.25})


def test_the_splits_are_large_and_share_no_sentence() -> None:
    development, report = labelled("development"), labelled("report")
    assert len(development) >= 400 and len(report) >= 150
    assert not {x.text.lower() for x in development} & {x.text.lower() for x in report}
    assert len({x.industry for x in development} & {x.industry for x in report}) <= 2
    for split in (development, report):
        assert {x.style for x in split} == {"imperative", "question", "requirement", "complaint"}


def test_labels_use_the_published_flows(vocabulary: Vocabulary) -> None:
    classes = {"material", "signal", "energy"}
    for split in ("development", "report"):
        for entry in labelled(split):
            assert vocabulary.flows.known(entry.flow) or entry.flow in classes, entry.text
            relation = entry.where.split(" ")[0]
            assert not entry.where or (len(entry.where.split(" ")) >= 2 and relation.isalpha())
            assert all(vocabulary.verbs.known(verb) for verb in entry.verbs)


def test_neighbours_shift_confidence_and_words_alone_still_work(vocabulary: Vocabulary) -> None:
    def first(memory: PhraseMemory | None) -> ProblemPurpose:
        return read_problem("remove dust from panels", (), vocabulary, memory).purposes[0]

    alone, both = first(None), first(MEMORY)
    assert both.object == alone.object == "dust"
    ranked = {both.verb: both.confidence, **{r.verb: r.confidence for r in both.runners_up}}
    assert ranked["separate"] > ranked.get("export", 0.0)
