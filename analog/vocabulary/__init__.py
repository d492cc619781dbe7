"""Words: functions, flows, kinds and relations, and explainable links between free terms."""

from analog.vocabulary.expand import KindMatch, Link, Vocabulary
from analog.vocabulary.kinds import Step
from analog.vocabulary.verbs import VerbMatch

__all__ = ["KindMatch", "Link", "Step", "VerbMatch", "Vocabulary"]
