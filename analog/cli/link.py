"""Say how alike two terms are, and by which steps."""

from __future__ import annotations

import json
from collections.abc import Callable

from analog.vocabulary import Vocabulary


def link(
    term_a: str, term_b: str, as_json: bool = False, vocabulary: Vocabulary | Callable[[], Vocabulary] | None = None
) -> str:
    """Text, or JSON {similarity, path: [{from, to, relation, source}]}, for two free terms.

    vocabulary : the one to ask (or a function that gives it); read from the sources when none is given.
    """
    words = vocabulary() if callable(vocabulary) else vocabulary or Vocabulary.from_sources()
    found = words.link(term_a, term_b)
    if as_json:
        record = {"similarity": found.similarity, "path": [step.to_dict() for step in found.path]}
        return json.dumps(record, ensure_ascii=False, indent=2)
    if not found.path:
        return f"{term_a} and {term_b}: nothing links them"
    lines = [f"{term_a} and {term_b}: {found.similarity:.2f}"]
    lines += [f"  {step.start} → {step.end}  ({step.relation}, {step.source})" for step in found.path]
    return "\n".join(lines)
