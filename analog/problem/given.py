"""Conditions: what is absent or present, the medium, and ranges of quantities, in an engineer's words.

    "no water available", "without electricity"      absent
    "compressed air available", "there is wind"      present
    "must work under water", "in soil"               medium
    "-30 degC", "between -20 and 60 °C"              temperature, kept in kelvin; also "-40 F", "5 degrees Celsius"
    "tilt 25 deg"                                    angle, kept in degree
    "particle size 5-50 um", "humidity below 20 %"   range

Numbers are read the same in every locale: a point before decimals, commas or spaces only between thousands.
"""

# ruff: noqa: E501 - patterns are easier to read whole

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from analog.errors import InputError
from analog.problem.spelling import units_spelt
from analog.problem.tables import table
from analog.problem.text import plain_text
from analog.problem.types import Condition
from analog.problem.units import CommonUnit, common, read_unit, to_kelvin

if TYPE_CHECKING:
    from analog.vocabulary import Vocabulary

EXAMPLES = (
    '"no water available", "without electricity", "compressed air available", "must work under water", '
    '"-30 degC", "between -20 and 60 °C", "tilt 25 deg", "particle size 5-50 um", "humidity below 20 %"'
)
MAXIMUM_CONDITION = 200
FREEZING_K = 273.15

NUMBER = (
    r"(?<![\d.])[-+]?(?:(?:\d{1,3}(?:[,' ]\d{3})+(?!\d)|\d+(?!\d))(?:\.\d+(?!\d))?|\.\d+(?!\d))"
    r"(?:[eE][-+]?\d+(?![A-Za-z\d])| ?x ?10\^?[-+]?\d+(?!\d)|(?![eE][-+]?\d))"
)
_UNIT_TEXT = r"(?:°\s?[CF]\b|deg\s?[CF]\b|%|°|(?!(?:to|and|or|through|in|at|of|for|when|while|with|below|above|from|is|are|on|as)\b)[A-Za-z][A-Za-z0-9]*(?:\^-?\d+|[²³])?(?:\s?[/*·]\s?\(?[A-Za-z][A-Za-z0-9]*(?:\^-?\d+|[²³])?(?:\*[A-Za-z]+\))?)*)"

_UPPER = r"up to|at most|no more than|not more than|below|under|less than|lower than|smaller than|max(?:imum)?(?: of)?|<=?|down from"
_LOWER = r"at least|no less than|not less than|above|over|more than|higher than|greater than|larger than|min(?:imum)?(?: of)?|>=?|from|down to"
_ABOUT = r"about|around|approximately|approx\.?|roughly|~|=|:|is|are|of|at"

_RANGE = re.compile(
    rf"(?:between\s+|from\s+)?(?P<a>{NUMBER})\s*(?P<ua>{_UNIT_TEXT})?\s*(?:to|and|through|\.\.\.?|-)\s*(?P<b>{NUMBER})\s*(?P<u>{_UNIT_TEXT})?(?![\w.])"
)
_PLUS_MINUS = re.compile(rf"(?P<a>{NUMBER})\s*(?:±|\+/-|\+-)\s*(?P<b>{NUMBER})\s*(?P<u>{_UNIT_TEXT})?(?![\w.])")
_ONE = re.compile(rf"(?P<sign>{_UPPER}|{_LOWER}|{_ABOUT})?\s*(?P<a>{NUMBER})\s*(?P<u>{_UNIT_TEXT})?(?![\w.])", re.I)
_UPPER_SIGN = re.compile(rf"(?:{_UPPER})", re.I)
_DOWN_TO = re.compile(r"down to", re.I)
_LOWER_SIGN = re.compile(rf"(?:{_LOWER})", re.I)
_DECIMAL_COMMA = re.compile(r"(?<![\d,])\d+,(?:\d{1,2}|\d{4,})(?![\d,])|(?<![\d,])0,\d+")
_NOT_FINITE = re.compile(r"(?<![\w])[-+]?(?:nan|inf|infinity|infinite|∞)(?![\w])", re.I)
_FREEZING = re.compile(
    r"\b(?:(\d+(?:\.\d+)?)\s*(?:K|degC|°C|degrees?)\s+)?(below|under|above)\s+(?:the\s+)?freez\w*(?:\s+point)?\b", re.I
)
_LEAD = re.compile(
    r"^(?:it |this |that |we |the (?:part|device|system|thing|product|solution) )?(?:must|has to|have to|should|needs? to|shall|will|can|is to)?\s*"
    r"(?:also )?(?:work|works|working|operate|operates|operating|function|functions|run|runs|survive|survives|be used|used|sit|sits|stay|stays|live|lives)\s+", re.I
)  # fmt: skip

_ABSENT_BEFORE = re.compile(
    r"^(?:there (?:is|are|will be) |we have |we've |with |you have |one has |has |have |having )?"
    r"(?:no|without|without any|zero|lack of|lacking|free of|absence of|not any|no more|out of|must not use|may not use|cannot use|can't use|do not use|don't use|avoid using|not using|using no|there isn't(?: any)?|there is not(?: any)?|we have no|we don't have(?: any)?)\s+"
    r"(?:any |use of |supply of |source of )?(?P<what>[^\d].*?)"
    r"(?: (?:is |are )?(?:available|allowed|present|at hand|on site|at all|permitted|possible|to hand|around|here|there))*$", re.I
)  # fmt: skip
_ABSENT_AFTER = re.compile(
    r"^(?:the )?(?P<what>[^\d].*?) (?:is|are|will be)?\s*(?:not available|unavailable|absent|missing|not allowed|forbidden|ruled out|not permitted|not present|not possible|lacking|scarce|banned|cannot be used|can't be used|may not be used|must not be used)$", re.I
)  # fmt: skip
_FREE = re.compile(r"^(?P<what>[a-z]+)-free$", re.I)
_PRESENT_BEFORE = re.compile(
    r"^(?:there (?:is|are|will be)|we have|you have|one has|plenty of|there's|with plenty of|supply of|access to|we can use|may use|can use|uses?|using|with)\s+"
    r"(?:some |a |an |the |plenty of |enough |always |access to )*(?P<what>[^\d].*?)(?: (?:available|allowed|present|at hand|on site|here|there|around))*$", re.I
)  # fmt: skip
_PRESENT_AFTER = re.compile(
    r"^(?:the |some |a )?(?P<what>[^\d].*?) (?:is |are )?(?:available|at hand|present|allowed|permitted|on site|on tap|to hand|plentiful|abundant)$", re.I
)  # fmt: skip
_IN_MEDIUM = re.compile(
    r"^(?:in|inside|within|under|through|surrounded by|immersed in|medium:?)\s+(?:a |an |the )?(?P<what>[^\d]+)$", re.I
)

QUANTITIES = (
    "contact angle", "flow rate", "flow speed", "wind speed", "relative humidity", "surface tension", "reynolds number",
    "particle size", "temperature", "tilt", "slope", "inclination", "angle", "size", "diameter", "radius", "speed",
    "velocity", "pressure", "humidity", "thickness", "length", "width", "height", "depth", "mass", "weight", "force",
    "frequency", "viscosity", "density", "load", "stress", "power", "voltage", "concentration", "roughness", "porosity",
    "spacing", "gap", "pitch", "distance", "time", "lifetime", "duration", "area", "volume", "acceleration", "stiffness",
    "strength", "strain", "incline", "salinity", "ph", "number", "ratio", "count", "energy", "amplitude", "wavelength", "span", "share",
)  # fmt: skip
"""Words that name a quantity; what stands before them says of what."""

_USUAL = {
    "length": "size", "speed": "speed", "share": "share", "pressure": "pressure", "time": "time", "mass": "mass",
    "force": "force", "frequency": "frequency", "area": "area", "volume": "volume", "power": "power", "energy": "energy",
    "voltage": "voltage", "density": "density", "acceleration": "acceleration", "flow rate": "flow rate",
    "viscosity": "viscosity",
}  # fmt: skip
_SHAPE_WORDS = {
    "length": {
        "deep": "depth", "thick": "thickness", "long": "length", "wide": "width", "tall": "height", "high": "height",
        "across": "diameter",
    },
    "angle": {
        "tilted": "tilt", "inclined": "tilt", "sloped": "slope", "sloping": "slope", "slanted": "tilt",
        "slanting": "tilt", "leaning": "tilt", "steep": "slope",
    },
    "share": {"rh": "relative humidity", "humid": "humidity"},
}  # fmt: skip
"""Words other than its name that say which quantity is meant, by what the unit measures."""
_CEILING = re.compile(r"\b(?:max(?:imum|imal)?|within|limited to|limit of|not exceeding|no greater than)\b", re.I)
_FLOOR = re.compile(r"\b(?:minimum|minimal|at the least)\b", re.I)
_CEILING_AFTER = re.compile(
    r"^\s*\(?(?:or (?:less|smaller|lower|below|under|thinner|shorter|fewer|colder)|max(?:imum)?\b|at (?:the )?most\b)",
    re.I,
)
_FLOOR_AFTER = re.compile(
    r"^\s*\(?(?:or (?:more|larger|bigger|higher|above|over|thicker|longer|hotter|warmer)|minimum\b|at (?:the )?least\b)",
    re.I,
)
_DIFFERENCE = re.compile(r"\btemperature (?:difference|rise|drop|swing|lift|gap|step|change)\b")
_POSITIVE = {"length", "pressure", "time", "mass", "frequency", "area", "volume", "density"}
_NOISE = {
    "a", "an", "the", "of", "with", "is", "are", "at", "be", "must", "should", "it", "in", "our", "from", "to", "work",
    "works", "operate", "and", "temperature", "temperatures", "operating", "ambient", "air", "outside", "by", "for", "use",
    "range", "between", "down", "up", "or", "less", "more", "smaller", "larger", "maximum", "minimum", "max", "within",
    "limited", "as", "low", "high", "has", "have", "will", "can", "surrounding", "about",
}  # fmt: skip


def read_conditions(text: str, vocabulary: Vocabulary) -> tuple[Condition, ...]:
    """Everything one given says: "indoors" rules out sun, wind and rain alike. Raises as `read_condition` does."""
    first = read_condition(text, vocabulary)
    plain = plain_text(text).strip(" .;,!").lower()
    return (first, *_settings_said(plain, first.text)[1:]) if first.type != "note" else (first,)


def read_condition(text: str, vocabulary: Vocabulary) -> Condition:
    """Read one condition; of a setting that says several things, the first (`read_conditions` gives all).

    Raises InputError, naming what was found and what is allowed, for an unknown unit, a number that is not finite,
    a reversed range, or a temperature below absolute zero. Words without a number that say no condition come back as
    a `note`: an engineer's remark is kept rather than refused, and `noted` tells that it decides nothing.
    """
    shown = text.strip()[:80].encode("utf-8", "replace").decode()  # half a character, from a wrong locale, is no text
    if len(text) > MAXIMUM_CONDITION:
        raise InputError(
            f"Expected a condition of at most {MAXIMUM_CONDITION} characters, got {len(text):,}: {shown!r} …"
        )
    plain = plain_text(text).strip(" .;,!")
    if not plain:
        raise InputError(f"Expected a condition, got nothing; examples: {EXAMPLES}")
    plain = units_spelt(plain)
    if match := _FREEZING.search(plain):
        return _freezing(match, plain)
    if any(c.isdigit() for c in plain) or _NOT_FINITE.search(plain):
        return _quantity(plain, shown)
    return _words(plain, vocabulary) or Condition(type="note", text=shown)


def noted(condition: Condition) -> str:
    """The sentence that tells the reader of a condition that was not understood."""
    return (
        f"“{condition.text}” was not understood as a condition: it is kept with the problem but decides nothing. "
        f"Conditions are understood like: {EXAMPLES}."
    )


def _freezing(match: re.Match[str], text: str) -> Condition:
    by = float(match[1]) if match[1] else 0.0
    if match[2].lower() == "above":
        return Condition(type="temperature", text=text, low=FREEZING_K + by, unit="K")
    return Condition(type="temperature", text=text, high=round(FREEZING_K - by, 6), unit="K")


# Words ---------------------------------------------------------------------------------------------------------


@lru_cache(maxsize=1)
def _settings() -> dict[str, tuple[dict[str, str], ...]]:
    found: dict[str, tuple[dict[str, str], ...]] = {}
    for row in table("settings"):
        found[row["phrase"]] = (*found.get(row["phrase"], ()), row)
    return found


@lru_cache(maxsize=1)
def _supplies() -> dict[str, str]:
    return {row["word"]: row["kind"] for row in table("supplies")}


def _setting(phrase: str, text: str) -> tuple[Condition, ...]:
    for candidate in (phrase, re.sub(r"^(?:in|at|during|under|within|inside)\s+(?:a |an |the )?", "", phrase)):
        if rows := _settings().get(candidate):
            return tuple(_of_setting(row, text) for row in rows)
    return ()


def _of_setting(row: dict[str, str], text: str) -> Condition:
    low, high = (float(row[end]) if row[end] else None for end in ("low", "high"))
    return Condition(
        type=row["type"],
        text=text,
        kind=row["kind"] or None,
        about=row["note"] or None,
        low=low,
        high=high,
        unit="K" if row["type"] == "temperature" else None,
    )


def _settings_said(lower: str, text: str) -> tuple[Condition, ...]:
    bare = _LEAD.sub("", lower)
    return (
        _setting(lower, text) or _setting(bare, text) or _setting(re.sub(r" (?:use|only|operation)$", "", bare), text)
    )


def supply_kind(phrase: str, vocabulary: Vocabulary) -> str | None:
    """The kind of a thing that may be at hand or not: energies and media by our own table, else the thesaurus."""
    phrase = phrase.lower().strip()
    if phrase in _supplies():
        return _supplies()[phrase]
    phrase = re.sub(r"^(?:a|an|the|any|some|much|extra|supplied|liquid|external|running|fresh)\s+", "", phrase)
    if phrase in _supplies():
        return _supplies()[phrase]
    match = vocabulary.kind_of(phrase)
    return match.kind if match is not None and match.similarity >= 0.5 else None


def absent_kind(phrase: str, vocabulary: Vocabulary) -> str | None:
    """The kind of what is absent, None for a word known only by something more general.

    Without magnets there still are devices: what rules out the narrow must not rule out the broad.
    """
    kind = supply_kind(phrase, vocabulary)
    match = vocabulary.kind_of(phrase)
    if match is not None and match.kind == kind and any(step.relation == "hypernym" for step in match.path):
        return None
    return kind


def _words(plain: str, vocabulary: Vocabulary) -> Condition | None:
    lower = plain.lower()
    bare = _LEAD.sub("", lower)
    if settings := _settings_said(lower, plain):
        return settings[0]
    for pattern in (_ABSENT_AFTER, _ABSENT_BEFORE, _FREE):
        if match := pattern.match(lower):
            what = match["what"].strip()
            return Condition(type="absent", text=plain, kind=absent_kind(what, vocabulary), about=what)
    if match := _IN_MEDIUM.match(bare):
        kind = supply_kind(match["what"], vocabulary)
        if kind is not None and _is_medium(kind, vocabulary):
            return Condition(type="medium", text=plain, kind=kind)
    for pattern in (_PRESENT_AFTER, _PRESENT_BEFORE):
        if match := pattern.match(lower):
            what = match["what"].strip()
            return Condition(type="present", text=plain, kind=supply_kind(what, vocabulary), about=what)
    return None


def _is_medium(kind: str, vocabulary: Vocabulary) -> bool:
    return any(
        vocabulary.kinds.is_a(kind, medium)
        for medium in ("liquid", "gas", "soil", "mixture", "sediment", "snow", "ice", "particulate", "tissue")
    )


# Quantities ----------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Span:
    """A quantity found in a text: its place and bounds, in the unit as read."""

    start: int
    end: int
    low: float | None
    high: float | None
    unit: str
    difference: bool = False


def _number(text: str) -> float:
    text = re.sub(r"(?<=\d)[,' ](?=\d{3})", "", text.strip())
    text = re.sub(r" ?x ?10\^?(?=[-+]?\d)", "e", text)
    value = float(text)
    if not math.isfinite(value):
        raise InputError(f"Expected a finite number, got {text[:40]!r}")
    return value


def find_span(text: str) -> Span | None:
    """The first number or range with its unit; None if the text holds no number.

    Raises InputError for reversed ranges, decimal commas and numbers that are not finite.
    """
    if match := _NOT_FINITE.search(text):
        raise InputError(f"Expected a finite number, got {match[0]!r} in {text[:80]!r}")
    if match := _DECIMAL_COMMA.search(text):
        raise InputError(f"Expected a decimal point, got {match[0]!r}; write {match[0].replace(',', '.')!r}")
    if match := _PLUS_MINUS.search(text):
        middle, width = _number(match["a"]), _number(match["b"])
        return Span(match.start(), match.end(), middle - abs(width), middle + abs(width), match["u"] or "")
    one = _ONE.search(text)
    if (match := _RANGE.search(text)) and (one is None or match.start() <= one.start() + 8):
        low, high = _number(match["a"]), _number(match["b"])
        unit = match["u"] or match["ua"] or ""
        if match["ua"] and match["u"] and match["ua"] != match["u"]:
            first, second = read_unit(match["ua"]), read_unit(match["u"])
            if first.dimension != second.dimension or not first.dimension:
                raise InputError(f"Expected both ends of a range in like units, got {match['ua']!r} and {match['u']!r}")
            low = (low * first.factor + first.offset - second.offset) / second.factor
        if low > high:
            raise InputError(
                f"Expected a range from low to high, got {match[0].strip()!r}; write the smaller number first"
            )
        return Span(match.start(), match.end(), low, high, unit)
    if one is None:
        return None
    value, sign = _number(one["a"]), (one["sign"] or "").lower()
    low = high = value
    if sign and _DOWN_TO.fullmatch(sign):
        high = None  # type: ignore[assignment]
    elif sign and _UPPER_SIGN.fullmatch(sign):
        low = None  # type: ignore[assignment]
    elif sign and _LOWER_SIGN.fullmatch(sign):
        high = None  # type: ignore[assignment]
    return Span(one.start(), one.end(), low, high, one["u"] or "")


def _quantity(plain: str, shown: str) -> Condition:
    span = find_span(plain)
    if span is None:
        raise InputError(f"Cannot read the condition {shown!r}; allowed are conditions like: {EXAMPLES}")
    before, after = plain[: span.start], plain[span.end :]
    return condition_of(_bounded(span, before, after), f"{before} {after}", shown)


def _bounded(span: Span, before: str, after: str) -> Span:
    """A single value that the words around it make an end: "maximum pressure 2 bar", "5 um or less"."""
    if span.low is None or span.low != span.high:
        return span
    if _CEILING.search(before) or _CEILING_AFTER.match(after):
        return replace(span, low=None)
    if _FLOOR.search(before) or _FLOOR_AFTER.match(after):
        return replace(span, high=None)
    return span


def condition_of(span: Span, words: str, text: str) -> Condition:
    """The condition a quantity makes, told with the words around it.

    Raises InputError for an unknown unit, a bare number without any word, or a value that cannot be.
    """
    words = re.sub(r"[^\w\s-]", " ", words).lower()
    quantity = _quantity_word(words)
    unit_text = span.unit
    if not unit_text or (
        common(unit_text) is None
        and unit_text.lower() in {"and", "or", "in", "at", "of", "for", "when", "while", "with"}
    ):
        if quantity is None:
            raise InputError(f"Expected a number with a unit, got {text[:80]!r}; examples: {EXAMPLES}")
        if quantity == "temperature":
            raise InputError(f"Expected a temperature with its unit, got {text[:80]!r}; write degC, K or degF")
        return _range(span, CommonUnit("dimensionless", "share", 1.0), quantity, words, text)
    unit = read_unit(unit_text)
    if quantity in (None, "share"):
        for word, named in _SHAPE_WORDS.get(unit.dimension, {}).items():
            if re.search(rf"\b{word}\b", words):
                quantity, words = named, re.sub(rf"\b{word}\b", " ", words)
                break
    if quantity is None and unit.dimension == "angle" and span.low is not None and span.low < 0:
        raise InputError(f"Expected degrees with their scale, got {text[:80]!r}; write degC, degF or “tilt … deg”")
    colder = re.search(r"\b(colder|cooler|warmer|hotter)\b", words)
    if unit.dimension == "temperature":
        if colder or _DIFFERENCE.search(" ".join(words.split())):
            return Condition(
                type="range", text=text[:200], about=colder[1] if colder else None, quantity="temperature difference",
                low=_scaled(span.low, unit), high=_scaled(span.high, unit), unit="K",
            )  # fmt: skip
        low, high = (None if v is None else to_kelvin(v, unit) for v in (span.low, span.high))
        for value in (low, high):
            if value is not None and value < 0:
                raise InputError(f"Expected a temperature above absolute zero, got {text[:80]!r}")
        return Condition(
            type="temperature", text=text[:200], low=low, high=high, unit="K", about=_about(words, quantity)
        )
    if unit.dimension == "angle":
        low, high = (None if v is None else round(v * unit.factor, 9) for v in (span.low, span.high))
        quantity = "slope" if quantity in {"pitch", "incline"} else quantity  # no pitch of a thread: it is an angle
        return Condition(
            type="angle", text=text[:200], low=low, high=high, unit="degree", quantity=quantity or "angle", about=_about(words, quantity)
        )  # fmt: skip
    return _range(span, unit, quantity or _USUAL.get(unit.dimension), words, text)


def _scaled(value: float | None, unit: CommonUnit) -> float | None:
    return None if value is None else round(value * unit.factor, 9)


def _range(span: Span, unit: CommonUnit, quantity: str | None, words: str, text: str) -> Condition:
    if unit.dimension in _POSITIVE:
        for value in (span.low, span.high):
            if value is not None and value < 0:
                raise InputError(f"Expected a {unit.dimension} of zero or more, got {text[:80]!r}")
    return Condition(
        type="range", text=text[:200], about=_about(words, quantity), quantity=quantity, low=span.low, high=span.high, unit=unit.pint
    )  # fmt: skip


def _quantity_word(words: str) -> str | None:
    padded = f" {' '.join(words.split())} "
    found = [q for q in QUANTITIES if f" {q} " in padded or f" {q}s " in padded]
    return max(found, key=len) if found else None


def _about(words: str, quantity: str | None) -> str | None:
    if quantity:
        words = re.sub(rf"\b{quantity}s?\b", " ", words)
        first, *rest = quantity.split()
        if rest and first not in {"contact", "relative", "surface", *words.split()}:
            words = f"{first} {words}"
    kept = [word for word in words.split() if word not in _NOISE]
    return " ".join(kept)[:200] or None


# Conditions inside a sentence ----------------------------------------------------------------------------------

_SENTENCE_QUANTITY = re.compile(
    rf"(?:\b(?:at|of|below|above|under|over|between|from|up to|down to|at least|at most|less than|more than|in|about|around)\s+){{0,4}}"
    rf"(?<![\w.]){NUMBER}(?:\s*(?:{_UNIT_TEXT})?\s*(?:to|and|-|\.\.)\s*{NUMBER})?\s*(?P<u>{_UNIT_TEXT})(?!\w)", re.I
)  # fmt: skip
_WITHOUT = re.compile(
    r"(?:,\s*)?\b(?:without(?: any| using(?: any)?| the use of)?|with no|using no|and no|with out)\s+(?P<what>(?!(?:it|its|them|their|the)\b(?:\s+\w+)?\s+\w+ing\b)(?!\w+ing\b(?!\s+(?:agent|parts?|fluid)))[a-z][\w'-]*(?:\s+(?!and\b|or\b|at\b|in\b|on\b|from\b|to\b|for\b|that\b|when\b|while\b|but\b|so\b|as\b|if\b|into\b)[a-z][\w'-]*){0,2})",
    re.I,
)
_ELSEWHERE = {
    "space",
    "dry",
    "passive",
    "dark",
    "freezing",
    "frost",
    "sunny",
    "humid",
    "in wind",
    "in the wind",
    "in frost",
    "in the dark",
    "overnight",
}
"""Settings that are conditions when given alone but are left in a sentence, where they say something else."""


def find_conditions(text: str, vocabulary: Vocabulary) -> tuple[str, list[Condition], list[str]]:
    """Conditions told inside a plain sentence: (the sentence without them, the conditions, notes on doubtful ones).

    Only what is surely a condition is taken out; what cannot be read stays in the sentence.
    """
    text = units_spelt(text)
    found: list[Condition] = []
    notes: list[str] = []

    def cut(match: re.Match[str]) -> str:
        piece = match[0].strip(" ,")
        unit = match["u"]
        if common(unit) is None:
            return match[0]
        before = text[max(0, match.start() - 40) : match.start()].split(",")[-1]
        noun = " ".join(re.findall(r"[A-Za-z]+", before)[-2:])
        quantity = _quantity_word(noun.lower())
        if quantity is None and not re.match(r"(?:of\b|[-+.\d])", piece, re.I):
            noun = ""  # "from the panel at 5 °C": the panel is not what has five degrees
        try:
            span = find_span(piece)
            if span is not None:
                found.append(condition_of(span, noun if quantity else noun.split(" ")[-1], f"{noun} {piece}".strip()))
        except InputError as error:
            notes.append(f"A figure was left out: {error}")
            return match[0]
        return " "

    if _FREEZING.search(text):
        match = _FREEZING.search(text)
        assert match is not None
        found.append(_freezing(match, match[0]))
        text = text[: match.start()] + " " + text[match.end() :]
    text = _SENTENCE_QUANTITY.sub(cut, text)
    for match in list(_WITHOUT.finditer(text))[::-1]:
        what = match["what"].lower()
        words = what.split()
        while len(words) > 1 and supply_kind(" ".join(words), vocabulary) is None:
            words.pop()
        kind = absent_kind(" ".join(words), vocabulary)
        kept = what if kind is None else " ".join(words)
        found.append(Condition(type="absent", text=f"without {kept}", kind=kind, about=kept))
        end = match.end() if kind is None else match.start("what") + len(kept)
        text = text[: match.start()] + " " + text[end:]
    for phrase in sorted(_settings(), key=len, reverse=True):
        if phrase in _ELSEWHERE:
            continue
        bare = (
            phrase
            if phrase.split()[0]
            in {
                "in",
                "at",
                "under",
                "below",
                "above",
                "inside",
                "off",
                "underwater",
                "indoors",
                "outdoors",
                "submerged",
                "underground",
                "passively",
                "sub",
            }
            else rf"(?:in|at|on|under|inside)\s+(?:a |an |the )?(?:\w+ )?{phrase}"
        )
        if match := re.search(rf"\b{bare}\b", text, re.I):
            if phrase.startswith("in ") and re.search(
                r"^\s+(?:of|flow|film|heater|tank|pipe|air)\b", text[match.end() :]
            ):
                continue
            conditions = _setting(phrase, match[0])
            if conditions:
                found += conditions
                if conditions[0].type == "medium" and match[0].lower().startswith(("in ", "inside ")):
                    continue  # it may also be the place: "emulsify oil in water"
                text = text[: match.start()] + " " + text[match.end() :]
    return " ".join(text.split()).strip(" ,;"), found, notes
