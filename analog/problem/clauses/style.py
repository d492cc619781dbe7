"""How a sentence is put: as a request, a question, a requirement or a complaint."""

from __future__ import annotations

import re

from analog.problem.chunk import ADVERBS, Chunker
from analog.problem.clauses.leads import strip_leads
from analog.problem.clauses.request_start import starts_request
from analog.problem.clauses.wording import Wording

QUESTION = re.compile(
    r"^(?:how|in what way|by what means|why|where|what)\s+(?:else |best )?"
    r"(can|could|do|does|did|might|would|should|may|will|is|are)\s+",
    re.I,
)
"""The beginning of a question up to its subject."""
FORBIDDING = re.compile(r"^(?:do not|don't|never)\s+(?:let|allow)\s+", re.I)
"""The beginning of a request that something shall not happen."""
_QUESTION_WORD = re.compile(r"^(?:how|what|which|is there)\b", re.I)
_REQUIREMENT = re.compile(
    r"\b(?:must|shall|should|has to|have to|needs? to|ought to|is required to|are required to|is to|are to"
    r"|will have to)\b",
    re.I,
)


def style_of(text: str, chunker: Chunker) -> str:
    """imperative, question, requirement or complaint."""
    stripped, lead = strip_leads(text)
    if text.rstrip().endswith("?") or QUESTION.match(text) or _QUESTION_WORD.match(text):
        return "question"
    if lead or FORBIDDING.match(stripped):
        return "imperative"
    wording = Wording.of(stripped, chunker)
    first = next((i for i, t in enumerate(wording.tokens) if t.is_word and t.lower not in ADVERBS), None)
    if first is not None and starts_request(wording, first):
        return "imperative"
    return "requirement" if _REQUIREMENT.search(text) else "complaint"
