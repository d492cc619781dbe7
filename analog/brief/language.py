"""Words for sentences: counts, lists, articles, quantities and facts as a person would write them."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from analog.model.facts import Argument, Fact
from analog.model.types import Quantity
from analog.problem.types import Condition
from analog.scale.units import friendly_unit, spell_range

_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")

_UNIT_WORDS = {"um": "µm", "uN": "µN", "uPa": "µPa", "degC": "°C", "percent": "%", "degree": "°", "ohm": "Ω"}

_VOWEL_SOUND = re.compile(r"^(?:[aeio]|u(?!ni|se|su|ti|bi)|hour|honest|heir|8|11|18)", re.IGNORECASE)


def in_words(count: int) -> str:
    """ "three", "14": a number as it stands in a sentence."""
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)


def counted(count: int, noun: str, plural: str | None = None) -> str:
    """ "one step", "three steps", "14 steps"; the plural adds an s unless it is given."""
    return f"{in_words(count)} {noun if count == 1 else plural or noun + 's'}"


def joined(pieces: Sequence[str], last: str = "and") -> str:
    """ "a", "a and b", "a, b and c"."""
    if len(pieces) < 2:
        return "".join(pieces)
    return f"{', '.join(pieces[:-1])} {last} {pieces[-1]}"


def sentence(text: str) -> str:
    """The text with a capital first letter and a full stop, unless it ends with a mark of its own."""
    text = text.strip()
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "!", "?", "…", ":")) else f"{text}."


def lowered(text: str) -> str:
    """The text for the middle of a sentence: a capital first letter goes, unless an abbreviation or a name has it."""
    return text[:1].lower() + text[1:] if text[1:2].islower() or text[:2] in {"A ", "I "} else text


def shortened(text: str, most: int) -> str:
    """The text, cut between words with an ellipsis where it is longer than `most` signs."""
    text = " ".join(text.split())
    if len(text) <= most:
        return text
    cut = text[: most - 1]
    return f"{cut.rsplit(' ', 1)[0] if ' ' in cut[most // 2 :] else cut}…"


def with_article(noun: str) -> str:
    """ "an axle", "a part", "a unit"."""
    return f"{'an' if _VOWEL_SOUND.match(noun) else 'a'} {noun}"


def the(name: str) -> str:
    """A thing by name with its article; a name that brings a determiner of its own keeps it."""
    return name if re.match(r"(?:the|a|an|its|our|each|every|any)\b", name, re.IGNORECASE) else f"the {name}"


def is_plural(name: str) -> bool:
    """Whether a name speaks of several things, judged by the end of its head noun ("flat hair ends on the pad")."""
    words = re.split(r"\s+(?:of|in|on|at|that|with|for|to|from|under|over|between)\s+", name.strip().lower())[0].split()
    last = re.sub(r"[^a-z]", "", words[-1]) if words else ""
    if "and" in words or last in {"setae", "bacteria", "hyphae", "cilia", "people"}:
        return True
    return last.endswith("s") and not last.endswith(("ss", "us", "is", "as", "ens"))


def are(name: str) -> str:
    """ "is" or "are", as the name asks."""
    return "are" if is_plural(name) else "is"


def unit_text(unit: str) -> str:
    """A unit as people write it: um -> µm, kg/m**3 -> kg/m³; "" for a pure number."""
    shown = friendly_unit(unit)
    return re.sub(r"[A-Za-z]+", lambda match: _UNIT_WORDS.get(match[0], match[0]), shown) if unit != "degree" else "°"


def units_told(text: str) -> str:
    """A sentence of another room with its units and minus signs as people write them."""
    text = re.sub(r"(?<=\d )(?:degC|um|percent)\b", lambda match: _UNIT_WORDS[match[0]], text)
    return re.sub(r"(?<=[\s(])-(?=\d)", "−", text)


def number_text(value: float) -> str:
    """A number as it was written down, without the noise of binary fractions."""
    text = f"{value:.6g}"
    if "e" in text:
        mantissa, exponent = text.split("e")
        return f"{mantissa} × 10{str(int(exponent)).translate(str.maketrans('0123456789-', '⁰¹²³⁴⁵⁶⁷⁸⁹⁻'))}"
    return text.replace("-", "−")


def span_text(low: float | None, high: float | None, unit: str) -> str:
    """ "5 to 50 µm", "at least 4 °", "200 nm"."""
    shown = unit_text(unit)
    unit_part = shown if shown == "°" else f" {shown}" if shown else ""
    if low is not None and high is not None:
        number = number_text(low) if low == high else f"{number_text(low)} to {number_text(high)}"
    elif low is not None:
        number = f"at least {number_text(low)}"
    else:
        number = f"at most {number_text(high)}" if high is not None else "any value"
    return f"{number}{unit_part}"


def quantity_text(quantity: Quantity) -> str:
    """ "hair length: 60 to 110 µm"."""
    return f"{quantity.name}: {span_text(*quantity.bounds, quantity.unit)}"


def value_text(low: float | None, high: float | None) -> str:
    """A pure number or range of a scale check for people."""
    return "not known" if low is None or high is None else spell_range(low, high, "dimensionless")


def condition_text(condition: Condition) -> str:
    """A condition as it was understood: "the particle size is 5 to 50 µm"."""
    what = condition.about or condition.kind or ""
    if condition.type in {"absent", "present", "medium"}:
        what = (condition.kind or what).replace("-", " ")
        return {"absent": f"there is no {what}", "present": f"there is {what}", "medium": f"it happens in {what}"}[
            condition.type
        ]
    if condition.type == "note" or (condition.low is None and condition.high is None):
        return "not understood; it is kept with the problem and decides nothing"
    if condition.type == "temperature":
        owner = f" of {the(condition.about)}" if condition.about and "temperature" not in condition.about else ""
        low, high = (None if value is None else round(value - 273.15, 2) for value in (condition.low, condition.high))
        return f"the temperature{owner} is {span_text(low, high, 'degC')}"
    quantity = condition.quantity or condition.type
    name = quantity if not condition.about or condition.about in quantity else f"{condition.about} {quantity}"
    return f"the {name} is {span_text(condition.low, condition.high, condition.unit or 'dimensionless')}"


def fact_sentence(fact: Fact, name: Callable[[str], str]) -> str:
    """A fact as a sentence without its full stop: adheres-to(dirt, leaf) -> "the dirt adheres to the leaf".

    name : the id of a thing or part -> its name.
    """
    first = name(fact.arguments[0].text)
    words = fact.relation.replace("-", " ")
    rest = fact.arguments[1:]
    values = [argument for argument in rest if not argument.is_part]
    others = [the(name(argument.text)) for argument in rest if argument.is_part]
    if values and not others:
        verb = "is not" if fact.negated else "is"
        return f"the {words} of {the(first)} {verb} {joined([_value(value) for value in values])}"
    told = f"{the(first)} {_predicate(words, is_plural(first), fact.negated)}"
    if others:
        told += f" {joined(others)}"
    return told + "".join(f" ({_value(value)})" for value in values)


def _value(argument: Argument) -> str:
    if argument.number is None:
        return argument.text
    return span_text(argument.number, argument.number, argument.unit or "dimensionless")


def _predicate(words: str, plural: bool, negated: bool) -> str:
    """The relation as a verb: "touches", "does not touch", "is not inside", "are clean"."""
    first, _, rest = words.partition(" ")
    if not first.endswith("s") or first.endswith("ss"):
        return f"{'are' if plural else 'is'}{' not' if negated else ''} {words}"
    if not negated and not plural:
        return words
    stem = f"{_base_form(first)} {rest}".strip()
    if not negated:
        return stem
    return f"{'do' if plural else 'does'} not {stem}"


def _base_form(verb: str) -> str:
    """The plain form of a verb in the third person: "carries" -> "carry"."""
    if verb in {"has", "focuses"}:
        return {"has": "have", "focuses": "focus"}[verb]
    if verb.endswith("ies"):
        return verb[:-3] + "y"
    if verb.endswith(("sses", "shes", "ches", "xes", "zzes", "oes")):
        return verb[:-2]
    return verb[:-1]
