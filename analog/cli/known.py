"""What the vocabularies and the principle records allow, for the checker."""

from __future__ import annotations

from analog.model.findings import KnownTerms


def known_terms() -> KnownTerms:
    """The terms a model may use."""
    from analog.locate import principles_folder
    from analog.model.load import load_principles
    from analog.vocabulary.expand import Vocabulary

    vocabulary = Vocabulary.from_sources()
    principles = load_principles(principles_folder())
    return KnownTerms(
        verbs=frozenset(vocabulary.verbs.all()),
        flows=frozenset(vocabulary.flows.all()),
        kinds=frozenset(vocabulary.kinds.all()),
        relations=frozenset(vocabulary.relations.all()),
        principles=frozenset(principles),
        symbols={name: principle.units for name, principle in principles.items()},
        kind_similarity=vocabulary.kinds.similarity,
    )
