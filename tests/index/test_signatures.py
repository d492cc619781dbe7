"""The table of purposes: what a plain loop over the models finds, and damage told as such."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from analog.errors import IndexStateError
from analog.index.signatures import NAMES, Signatures, Wanted, build_signatures
from analog.model.load import load_corpus
from analog.vocabulary.expand import Vocabulary

ROOT = Path(__file__).resolve().parents[2]


def test_scores_are_those_of_a_loop_over_purposes(tmp_path: Path, vocabulary: Vocabulary) -> None:
    models = load_corpus(ROOT / "corpus" / "grooming", ROOT / "corpus" / "heat-and-cold").models
    build_signatures(models, tmp_path)
    verbs, kinds = vocabulary.verbs.similarity, vocabulary.kinds.similarity
    wanted = Wanted(lambda v: verbs("separate", v), None, lambda k: kinds("dust", k), lambda k: kinds("panel", k))
    expected = [
        max(
            (
                verbs("separate", purpose.verb)
                + kinds("dust", model.part(purpose.object).kind)
                + (kinds("panel", model.part(purpose.where.part).kind) if purpose.where else 0.0)
            )
            / 3
            for purpose in model.purposes
        )
        for model in models
    ]
    assert Signatures.open(tmp_path, len(models)).scores([wanted]) == pytest.approx(np.array(expected))


def test_a_problem_that_says_nothing_agrees_with_none(tmp_path: Path) -> None:
    models = load_corpus(ROOT / "corpus" / "grooming").models
    build_signatures(models, tmp_path)
    table = Signatures.open(tmp_path, len(models))
    assert table.scores([Wanted(None, None, None, None)]).tolist() == [0.0] * len(models)


def test_damage_is_told(tmp_path: Path) -> None:
    build_signatures(load_corpus(ROOT / "corpus" / "grooming").models, tmp_path)
    (tmp_path / NAMES).write_text("[]", encoding="utf-8")
    with pytest.raises(IndexStateError, match="do not fit together"):
        Signatures.open(tmp_path, 2)
