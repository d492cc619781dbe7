"""Which words a problem shares with a model: the mark of near and far wording."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from analog.index.tokens import stem, tokens
from analog.model.types import Model

_FUNCTION_WORDS = frozenset(
    """
    above across along behind beneath beside cannot down find nobody stay through time together under whichever
    whole within about after again all alone also always any at away back before below between both each either
    else every few first get give given half here high just keep last let like little long low made make many
    more most much need never nor not now off once one only other out over own per put same second set small
    still take too twice two until up want way well whenever whether whatever yet without no ought if itself
    themselves he she his her who whose
    """.split()  # noqa: SIM905
)
"""Words that carry no subject although the index counts them. Common practice, no source."""

_FUNCTION_STEMS = frozenset(stem(word) for word in _FUNCTION_WORDS)


def words_of(texts: Iterable[str]) -> frozenset[str]:
    """Stems of the content words of some texts; words without a subject are left out."""
    return frozenset(token for text in texts for token in tokens(text)) - _FUNCTION_STEMS


def shared_words(text: str, model: Model | Mapping[str, Any]) -> frozenset[str]:
    """Stems of a problem's text that stand in the model's title, summary or questions as well.

    model : the record, or the plain mapping read from its file. Far wording shares none with the right model.
    """
    return words_of([text]) & words_of(told(model))


def told(model: Model | Mapping[str, Any]) -> list[str]:
    """Title, summary and questions of a model."""
    if isinstance(model, Model):
        return [model.title, model.summary, *(question.text for question in model.questions)]
    return [model["title"], model["summary"], *(question["text"] for question in model.get("questions", ()))]
