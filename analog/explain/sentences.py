"""Facts and counts as English sentences: articles, plurals and the verb in the right form.

The rules cover the relations of the vocabulary and the way parts are named in models (a noun with what belongs to it).
They are own rules over plain English grammar, no parser: a wrong form is ugly, never wrong in content.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from analog.model.facts import Argument, Fact
from analog.model.types import Model


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


_AFTER_HEAD = _words(
    """of in with that on at to from which between through around round over under near without where for by who whose
    kept drawn turned held made set laid filled covered against along inside outside behind above below beside before
    after as than when while into onto across among within per lit worn called fed run running left driven bound
    dissolved sealed seen shut grown packed taken given put cut bent built joined stuck
    needed used"""
)
"""Words after which a name only describes: the noun before them decides about singular and plural."""

_PLURALS = _words(
    """setae larvae hyphae bacteria cilia feet teeth people mice nuclei villi papillae barbulae spicules fungi algae
    mitochondria stomata data media geese men women children antennae pupae mycelia flagella alveoli ostia cattle
    police ommatidia rhabdomeres"""
)
_SINGULARS = _words(
    """lens gas mucus mass abyss grass glass brass loss moss chess boss class moss cross press stress pus iris pelvis
    basis axis epidermis dermis chassis canvas thermos species series means bus virus fungus nucleus hippocampus
    thorax abdomen plus minus byssus thallus cirrus stimulus humus circus apparatus esophagus chorus radius process
    access success excess mess mantis tuberculosis photosynthesis osmosis analysis news physics mathematics hummus
    proboscis pancreas atlas bias alias cosmos chaos pathos compass trellis penis synapsis callus isthmus locus focus
    rhombus torus"""
)
_DETERMINERS = _words("the a an its their his her this that these those each every any some no one")

_VOWEL_SOUND = re.compile(r"^(?:[aeio]|u(?!ni|se|su|ti|bi)|hour|honest|heir|8|11|18)", re.IGNORECASE)

_PREDICATES = {
    "part-of": "part of",
    "higher-pressure-than": "at a higher pressure than",
    "grown": "fully grown",
}
_VERBS = {"vibrates": ("makes {0} vibrate", "make {0} vibrate")}
_BASE = {"focuses": "focus", "is": "are", "has": "have", "does": "do", "goes": "go"}
JOINS_ONE = "connects"
"""With one thing after it, it says where a passage leads: "connects to the throat"."""
_CHANGES = frozenset({"falls", "rises", "grows", "shrinks", "increases", "decreases", "varies", "changes"})


def spoken(name: str) -> str:
    """An identifier in words: hyphens become blanks."""
    return name.replace("-", " ")


def is_plural(name: str) -> bool:
    """Whether a name takes a verb in the plural: "wax tubules of the leaf" does, "film of drops" does not."""
    words = re.sub(r"\(.*?\)", " ", name.lower()).replace(",", " , ").split()
    head: list[str] = []
    for word in words:
        if head and word in _AFTER_HEAD:
            break
        head.append(word)
    if "and" in head[1:-1]:  # "sodium and chloride", "liver, muscle and fat"
        return True
    head = head[: head.index(",")] if "," in head[1:] else head
    last = head[-1] if head else ""
    if last in _PLURALS:
        return True
    return last.endswith("s") and not last.endswith(("ss", "us", "is", "'s")) and last not in _SINGULARS


def definite(name: str) -> str:
    """A name with its article: "the leaf"; names that bring a determiner of their own keep it."""
    first = name.split(" ", 1)[0].lower()
    return name if first in _DETERMINERS else f"the {name}"


def capital(text: str) -> str:
    """A text that begins a sentence; a word with a capital inside it (pH, mRNA) is left alone."""
    first = text.split(" ", 1)[0]
    return text if any(letter.isupper() for letter in first) else text[:1].upper() + text[1:]


def lowered(text: str) -> str:
    """A text for the middle of a sentence: a capital first letter goes, unless an abbreviation or a name has it."""
    return text[:1].lower() + text[1:] if text[1:2].islower() or text[:2] in {"A ", "I "} else text


def shortened(text: str, most: int) -> str:
    """A text, cut between words with an ellipsis where it is longer than `most` signs."""
    text = " ".join(text.split())
    if len(text) <= most:
        return text
    cut = text[: most - 1]
    return f"{cut.rsplit(' ', 1)[0] if ' ' in cut[most // 2 :] else cut}…"


def with_article(noun: str) -> str:
    """ "an axle", "a part", "a unit"."""
    return f"{'an' if _VOWEL_SOUND.match(noun) else 'a'} {noun}"


def sentence(text: str) -> str:
    """A text as a sentence: capital first, one full stop."""
    clean = " ".join(text.split())
    return capital(clean) + ("" if clean.endswith((".", "!", "?", "…")) else ".")


def counted(number: int, noun: str, plural: str = "") -> str:
    """ "1 step", "2 steps", "no steps"."""
    many = plural or noun + "s"
    return f"{number or 'no'} {noun if number == 1 else many}"


_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def in_words(number: int) -> str:
    """ "three", "14": a number as it stands in running text."""
    return _NUMBERS[number] if number < len(_NUMBERS) else str(number)


def counted_in_words(number: int, noun: str, plural: str = "") -> str:
    """ "one step", "three steps", "14 steps": a count for running text."""
    return f"{in_words(number)} {noun if number == 1 else plural or noun + 's'}"


def joined(names: Iterable[str], last: str = "and") -> str:
    """ "a", "a and b", "a, b and c"."""
    items = list(names)
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


def is_verb(relation: str) -> bool:
    """Whether a relation of the vocabulary is a verb ("touches", "flows-into"), not an adjective or a preposition."""
    first = relation.split("-", 1)[0]
    return first.endswith("s") and first not in {"porous", "less", "stress"}


def base_form(verb: str) -> str:
    """ "carries" → "carry", "touches" → "touch", "moves" → "move"."""
    if verb in _BASE:
        return _BASE[verb]
    if verb.endswith("ies"):
        return verb[:-3] + "y"
    if verb.endswith(("sses", "shes", "ches", "xes", "zzes")):
        return verb[:-2]
    return verb.removesuffix("s")


def relation_words(relation: str, *, plural: bool = False, negated: bool = False) -> str:
    """The relation between subject and object, as a predicate: "is part of", "do not touch"."""
    if is_verb(relation):
        verb, _, rest = relation.partition("-")
        if negated:
            verb = f"{'do' if plural else 'does'} not {base_form(verb)}"
        elif plural:
            verb = base_form(verb)
        return f"{verb} {spoken(rest)}".strip()
    copula = "are" if plural else "is"
    return f"{copula}{' not' if negated else ''} {_PREDICATES.get(relation, spoken(relation))}"


def fact_words(fact: Fact, names: Mapping[str, str]) -> str:
    """A fact as a clause without full stop. names : part id -> name; an unknown part is told by its id."""
    subject = _named(fact.arguments[0], names)
    plural = is_plural(subject)
    rest = fact.arguments[1:]
    if rest and not rest[-1].is_part and not is_verb(fact.relation):
        return _property(fact, subject, names)
    others = joined(_definite(argument, names) for argument in rest)
    if fact.relation in _VERBS and others and not fact.negated:
        return f"{definite(subject)} {_VERBS[fact.relation][plural].format(others)}"
    words = relation_words(fact.relation, plural=plural, negated=fact.negated)
    towards = "to " if fact.relation == JOINS_ONE and len(rest) == 1 else ""
    return f"{definite(subject)} {words} {towards}{others}".rstrip()


def fact_sentence(fact: Fact, names: Mapping[str, str]) -> str:
    """A fact as a sentence: "The hollows are part of the spine."."""
    return sentence(fact_words(fact, names))


def names_of(model: Model) -> dict[str, str]:
    """Part id -> name."""
    return {part.id: part.name for part in model.parts}


def _property(fact: Fact, subject: str, names: Mapping[str, str]) -> str:
    *between, value = fact.arguments[1:]
    towards = f" to {joined(_definite(argument, names) for argument in between)}" if between else ""
    copula = " is not" if fact.negated else "" if value.text.split(" ", 1)[0] in _CHANGES else " is"
    return f"the {spoken(fact.relation)} of {definite(subject)}{towards}{copula} {value.text}"


def _named(argument: Argument, names: Mapping[str, str]) -> str:
    return names.get(argument.text, spoken(argument.text)) if argument.is_part else argument.text


def _definite(argument: Argument, names: Mapping[str, str]) -> str:
    return definite(_named(argument, names)) if argument.is_part else argument.text
