"""Polite and roundabout beginnings of a request: "could you tell me how to", "we are looking for a way to"."""

from __future__ import annotations

import re

_MOST_LEADS = 3
"""Beginnings that may stand one after the other: "please, we want a way to"."""

_LEADS = (
    (
        (
            "please",
            "also",
            "first",
            "then",
            "finally",
            "so",
            "and",
            "but",
            "ideally",
            "basically",
            "well",
            "hello",
            "hi",
            "ok",
        ),
        r"^(?:please|also|first|then|finally|so|and|but|ideally|basically|well|hello|hi|ok|okay)\b[,:]?\s+",
    ),
    (
        ("can", "could", "would", "will"),
        r"^(?:can|could|would|will) (?:you|anyone|somebody|someone)(?: please)? "
        r"(?:help (?:me|us)(?: to)?|tell (?:me|us) how to|suggest (?:a |some )?ways? (?:to|of)"
        r"|find (?:me |us )?(?:a |some )?ways? (?:to|of))\s+",
    ),
    (
        ("help", "i want to", "tell", "show", "i wonder", "does anyone"),
        r"^(?:help (?:me|us)(?: to)?|i want to know how to|tell (?:me|us) how to|show (?:me|us) how to"
        r"|i wonder how to|does anyone know how to)\s+",
    ),
    (
        ("we", "i", "they", "you", "one", "my", "our", "customer", "user"),
        r"^(?:we|i|they|you|one|my (?:client|team|company)|our (?:client|team|company|customers?)|customers?|users?)"
        r"(?:'d| would)? (?:really )?(?:also )?"
        r"(?:like|want|need|wish|have|hope|aim|try|are trying|am trying|are looking|am looking|plan|intend)s? to\s+",
    ),
    (
        (
            "the ",
            "our ",
            "my ",
            "your ",
            "goal",
            "aim",
            "task",
            "purpose",
            "challenge",
            "problem",
            "objective",
            "idea",
            "job",
            "question",
            "point",
        ),
        r"^(?:the |our |my |your )?(?:goal|aim|task|purpose|challenge|problem|objective|idea|job|question|point)"
        r"(?: here)? is (?:how )?to\s+",
    ),
    (
        ("we", "i", "they"),
        r"^(?:we|i|they)(?: are|'re| am|'m)? ?(?:need|want|seek|looking for|searching for|after)\s+"
        r"(?:a |an |some |the )?(?:\w+ ){0,2}"
        r"(?:ways?|methods?|means|mechanisms?|ideas?|solutions?|device|system|coating|material|surface|approach"
        r"|technique|structure|mechanism|tool|trick)\s+(?:to|of|for|that|which)(?: can| could| will| would)?\s+",
    ),
    (
        (
            "looking",
            "searching",
            "seeking",
            "wanted",
            "needed",
            "find",
            "suggest",
            "design",
            "invent",
            "develop",
            "give",
            "propose",
        ),
        r"^(?:looking|searching|seeking|wanted|needed|find|suggest|design|invent|develop|give me|propose)(?: for)?:? "
        r"(?:a |an |some |the )?(?:\w+ ){0,2}"
        r"(?:ways?|methods?|means|mechanisms?|ideas?|solutions?|device|system|approach|technique|trick)\s+"
        r"(?:to|of|for|that|which)(?: can| could| will| would)?\s+",
    ),
    (
        ("is ",),
        r"^is (?:there|it) (?:a |an |any |some )?(?:\w+ )?(?:ways?|methods?|means|tricks?|possible) (?:to|of|for)\s+",
    ),
    (
        (
            "a ",
            "an ",
            "any ",
            "some ",
            "the ",
            "better ",
            "new ",
            "good ",
            "simple ",
            "way",
            "method",
            "means",
            "device",
            "mechanism",
            "approach",
        ),
        r"^(?:a |an |any |some |the )?(?:better |new |good |simple )?"
        r"(?:ways?|methods?|means|device|mechanism|approach) (?:to|of|for|that)(?: can| could)?\s+",
    ),
    (
        ("how ", "way"),
        r"^(?:how|ways?) (?:best )?to\s+",
    ),
    (
        ("it ",),
        r"^it (?:must|should|has to|shall) be possible to\s+",
    ),
    (
        ("there ",),
        r"^there (?:must|should) be a way to\s+",
    ),
    (
        ("what ", "which "),
        r"^(?:what|which) (?:\w+ ){0,3}?(?:would |could |can |might |will |should )?"
        r"(?=(?:keep|let|stop|make|prevent|move|help|allow|hold)s?\b)",
    ),
)
"""(the openings without which it cannot match, pattern): a pattern is compiled only when a text opens so, for compiling
all of them takes longer than reading a sentence."""
_LONGEST_OPENING = max(len(opening) for openings, _ in _LEADS for opening in openings)


def strip_leads(text: str) -> tuple[str, bool]:
    """Take the polite beginning away: (rest, whether anything was taken)."""
    before = text
    for _ in range(_MOST_LEADS):
        shorter = _without_lead(text)
        if shorter is None:
            break
        text = shorter
    return text, text != before


def _without_lead(text: str) -> str | None:
    """The text after the first pattern that takes something from it and leaves something."""
    opening = text[:_LONGEST_OPENING].casefold()
    for openings, pattern in _LEADS:
        if opening.startswith(openings):
            shorter = re.sub(pattern, "", text, count=1, flags=re.I)
            if shorter and shorter != text:
                return shorter
    return None
