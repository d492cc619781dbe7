"""WordNet 3.0 as a safety net under the thesaurus: words the thesaurus lacks climb to the nearest kind it has.

Source: Fellbaum (ed.), WordNet: An Electronic Lexical Database, MIT Press 1998; database 3.0, Princeton
University 2006, licence beside the data. Its files are read when the index is built (laid out for nltk's reader,
which serves as second opinion but takes half a minute to say the same); at search time only the text blocks made
here are used, each searched without parsing it.

Senses run wild unless held: only the first three senses by frequency count, with falling weight; only senses that
lexicographers filed under physical things; each step up costs; and nothing may be linked through the top levels.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any

ARCHIVE = Path(__file__).parent / "data" / "wordnet" / "wordnet.zip"

SENSE_WEIGHT = (0.9, 0.65, 0.45)
STEP_UP = 0.88
MOST_STEPS = 9
PERSON = 0.5
"""Factor on senses that name persons: to an engineer a toaster or a roller is a thing."""
SAME_SYNSET = 0.9

PHYSICAL = {
    "noun.animal", "noun.artifact", "noun.body", "noun.food", "noun.object", "noun.person", "noun.phenomenon",
    "noun.plant", "noun.process", "noun.shape", "noun.state", "noun.substance", "noun.Tops",
}  # fmt: skip
"""Lexicographer files whose senses may become kinds; acts, feelings, times, relations and the like may not."""

TOP = {
    "entity.n.01", "physical_entity.n.01", "abstraction.n.06", "object.n.01", "whole.n.02", "matter.n.03",
    "thing.n.12", "causal_agent.n.01", "living_thing.n.01", "organism.n.01", "artifact.n.01", "attribute.n.02",
    "instrumentality.n.03", "substance.n.01", "substance.n.07", "substance.n.04", "relation.n.01", "part.n.01",
    "part.n.03", "unit.n.03", "natural_object.n.01", "body_part.n.01", "person.n.01", "material.n.01",
    "phenomenon.n.01", "natural_phenomenon.n.01", "process.n.06", "state.n.02", "psychological_feature.n.01",
    "group.n.01", "measure.n.02", "shape.n.02", "plant_part.n.01", "plant_organ.n.01", "natural_process.n.01",
    "physical_phenomenon.n.01", "physical_condition.n.01", "condition.n.01", "structure.n.01", "device.n.01",
    "covering.n.02", "way.n.06", "commodity.n.01", "creation.n.02", "location.n.01", "region.n.03",
    "physical_process.n.01", "fundamental_quantity.n.01", "solid.n.01", "fluid.n.01", "fluid.n.02",
    "chemical.n.01", "compound.n.02", "animal.n.01", "plant.n.02", "food.n.01", "food.n.02", "equipment.n.01",
    "container.n.01", "implement.n.01", "mechanism.n.05", "body_waste.n.01", "organ.n.01", "surface.n.01",
}  # fmt: skip
"""Synsets at which two words may not meet: a clock and a whale are both wholes. A kind anchored to one of them can
still be reached; what two kinds share is then judged by the thesaurus."""

DETACH = {
    "n": (("ses", "s"), ("xes", "x"), ("zes", "z"), ("ches", "ch"), ("shes", "sh"), ("men", "man"), ("ies", "y"),
          ("ves", "f"), ("s", "")),
    "v": (("ies", "y"), ("es", "e"), ("es", ""), ("ed", "e"), ("ed", ""), ("ing", "e"), ("ing", ""), ("s", "")),
    "a": (("er", ""), ("est", ""), ("er", "e"), ("est", "e")),
}  # fmt: skip
"""Rules of detachment of WordNet's morphy(7WN); "ves" is our addition."""

LINE, FIELD = "|", ";"
"""Marks inside a block. Neither stands in a lemma, and JSON need not escape them: the blocks load five times faster."""

BASE36 = "0123456789abcdefghijklmnopqrstuvwxyz"
Blocks = dict[str, str]


def _base36(number: int) -> str:
    digits = ""
    while True:
        number, rest = divmod(number, 36)
        digits = BASE36[rest] + digits
        if not number:
            return digits


@lru_cache(maxsize=1)
def reader() -> Any:
    """The WordNet 3.0 reader of nltk on the database shipped here (unpacked into a temporary folder: nltk reads
    files about three times as fast as archive members). Slow to make (seconds): to look senses up and for tests."""
    import atexit
    import shutil
    import tempfile
    import warnings
    import zipfile

    import nltk
    from nltk.corpus.reader.wordnet import WordNetCorpusReader

    folder = tempfile.mkdtemp(prefix="analog-wordnet-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    with zipfile.ZipFile(ARCHIVE) as archive:
        archive.extractall(Path(folder) / "corpora")
    if folder not in nltk.data.path:
        nltk.data.path.insert(0, folder)  # nltk refuses folders outside its search path
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns that translations are missing: none are wanted
        return WordNetCorpusReader(nltk.data.find("corpora/wordnet"), None)


def _lines(name: str) -> list[str]:
    """The lines of one file of the database."""
    import zipfile

    with zipfile.ZipFile(ARCHIVE) as archive:
        return archive.read(f"wordnet/{name}").decode("utf-8").splitlines()


def _sense_lines() -> Iterator[tuple[str, int, int, int, int, int]]:
    """(lemma, part of speech 1-5, lexicographer file, offset, sense number, count) for every sense; senseidx(5WN)."""
    for line in _lines("index.sense"):
        key, offset, number, count = line.split()
        lemma, _, sense = key.partition("%")
        kind, file, *_ = sense.split(":")
        yield lemma.replace("_", " "), int(kind), int(file), int(offset), int(number), int(count)


def _weighted(senses: list[tuple[int, int, int]], persons: set[int]) -> list[tuple[int, int]]:
    """[(sense number, count, offset)] → [(offset, weight in hundredths)], for the senses allowed.

    A sense far rarer than the commonest allowed one keeps at least half of its rank's weight.
    """
    most = max(count for _, count, _ in senses)
    found = []
    for number, count, offset in sorted(senses):
        share = 1.0 if most == 0 else count / most
        weight = SENSE_WEIGHT[number - 1] * (0.5 + 0.5 * share) * (PERSON if offset in persons else 1.0)
        found.append((offset, round(100 * weight)))
    return found


def build_blocks() -> Blocks:
    """Everything search needs of WordNet as a few long strings, one entry a line.

    nouns: lemma; synset:weight …; noun_synsets: line number = id; name; synsets below; parents;
    verbs, verb_synsets (with lemmas) alike; noun_exceptions, verb_exceptions: form; bases;
    other_nouns, adjectives, adverbs: bare lemmas. Blocks of lemmas start and end with LINE. Numbers of synsets are
    written to the base 36.
    """
    lexnames = [line.split()[1] for line in _lines("lexnames")]
    senses: dict[str, dict[str, list[tuple[int, int, int]]]] = {"n": {}, "v": {}}
    persons: set[int] = set()
    number_in: dict[tuple[str, str, int], int] = {}
    words: dict[str, set[str]] = {"n": set(), "v": set(), "a": set(), "r": set()}
    for lemma, kind, file, offset, number, count in _sense_lines():
        part = "nvara"[kind - 1]
        number_in[lemma, part, offset] = number
        words[part].add(lemma)
        if number <= len(SENSE_WEIGHT) and (part == "v" or (part == "n" and lexnames[file] in PHYSICAL)):
            senses[part].setdefault(lemma, []).append((number, count, offset))
            if lexnames[file] == "noun.person":
                persons.add(offset)
    blocks: Blocks = {}
    for part, name in (("n", "noun"), ("v", "verb")):
        parents, individuals, lemmas = _synsets(name)
        below = _count_below(parents)
        used = {o for lines in senses[part].values() for *_, o in lines} - individuals
        stack = list(used)
        while stack:
            for parent in parents[stack.pop()]:
                if parent not in used:
                    used.add(parent)
                    stack.append(parent)
        number_of = {offset: _base36(line) for line, offset in enumerate(sorted(used))}
        lines = []
        for offset in sorted(used):
            extra = [",".join(lemmas[offset])] if part == "v" else []
            above = " ".join(number_of[parent] for parent in parents[offset])
            first = lemmas[offset][0]
            usual = f"{first.replace(' ', '_').lower()}.{part}.{number_in[first.lower(), part, offset]:02d}"
            lines.append(FIELD.join([usual, str(below[offset]), above, *extra]))
        blocks[f"{name}_synsets"] = LINE.join(lines)
        entries = []
        for lemma in sorted(senses[part]):
            kept = [sense for sense in senses[part][lemma] if sense[2] in used]
            if kept:
                entries.append(f"{lemma}{FIELD}{' '.join(f'{number_of[o]}:{w}' for o, w in _weighted(kept, persons))}")
                words[part].discard(lemma)
        blocks[f"{name}s"] = LINE + LINE.join(entries) + LINE
        exceptions = [line.replace("_", " ") for line in _lines(f"{name}.exc")]
        forms = [FIELD.join(line.split(" ", 1)) for line in sorted(exceptions) if line]
        blocks[f"{name}_exceptions"] = LINE + LINE.join(forms) + LINE
    for part, name in (("n", "other_nouns"), ("a", "adjectives"), ("r", "adverbs")):
        single = sorted(word for word in words[part] if " " not in word and not word[0].isdigit())
        blocks[name] = LINE + LINE.join(single) + LINE
    return blocks


def _synsets(name: str) -> tuple[dict[int, list[int]], set[int], dict[int, list[str]]]:
    """Hypernyms, the offsets that are individuals (instances), and the words of every synset; wndb(5WN).

    The tests compare a sample with nltk's reader.
    """
    parents: dict[int, list[int]] = {}
    individuals: set[int] = set()
    lemmas: dict[int, list[str]] = {}
    for line in _lines(f"data.{name}"):
        if line.startswith("  "):
            continue  # the licence, which opens the file
        fields = line.split(" | ", 1)[0].split()
        offset, words = int(fields[0]), int(fields[3], 16)
        lemmas[offset] = [word.replace("_", " ") for word in fields[4 : 4 + 2 * words : 2]]
        pointers = fields[5 + 2 * words : 5 + 2 * words + 4 * int(fields[4 + 2 * words])]
        parents[offset] = [int(at) for sign, at in zip(pointers[::4], pointers[1::4], strict=True) if sign == "@"]
        if "@i" in pointers[::4]:
            individuals.add(offset)
    return parents, individuals, lemmas


def _count_below(parents: dict[int, list[int]]) -> dict[int, int]:
    """Number of synsets below each one, counted once however many ways lead up."""
    below = dict.fromkeys(parents, 0)
    for start in parents:
        seen: set[int] = set()
        stack = list(parents[start])
        while stack:
            offset = stack.pop()
            if offset not in seen:
                seen.add(offset)
                below[offset] += 1
                stack += parents[offset]
    return below


class WordNet:
    """The blocks of `build_blocks`, asked word by word."""

    def __init__(self, blocks: Mapping[str, str]) -> None:
        self.blocks = blocks

    @cached_property
    def _found(self) -> dict[tuple[str, str], bool]:
        """(block, key) to whether it is there, of those that were asked for."""
        return {}

    def _entry(self, block: str, key: str) -> str | None:
        text = self.blocks[block]
        start = text.find(f"{LINE}{key}{FIELD}")
        if start < 0:
            return None
        start += len(key) + 2
        return text[start : text.index(LINE, start)]

    def _has(self, block: str, key: str) -> bool:
        found = self._found.get((block, key))
        if found is None:  # looking through a block takes half a millisecond, and words come again
            text = self.blocks[block]
            found = f"{LINE}{key}{LINE}" in text or f"{LINE}{key}{FIELD}" in text
            self._found[block, key] = found
        return found

    def is_noun(self, lemma: str) -> bool:
        """Whether the base form is a noun of WordNet (physical or not)."""
        return self._has("nouns", lemma) or self._has("other_nouns", lemma)

    def is_verb(self, lemma: str) -> bool:
        """Whether the base form is a verb of WordNet."""
        return self._has("verbs", lemma)

    def is_adjective(self, lemma: str) -> bool:
        """Whether the word is an adjective of WordNet."""
        return self._has("adjectives", lemma)

    def is_adverb(self, lemma: str) -> bool:
        """Whether the word is an adverb of WordNet."""
        return self._has("adverbs", lemma)

    def bases(self, word: str, part: str) -> tuple[str, ...]:
        """Possible base forms of an inflected word as noun ("n") or verb ("v"), likeliest first; () if none.

        Exceptions first, then the word itself, then WordNet's rules of detachment, each checked against the
        lemmas; doubled consonants ("stopped") are undone too. Source: morphy(7WN).
        """
        name = {"n": "noun", "v": "verb"}[part]
        check = self.is_noun if part == "n" else self.is_verb
        forms = (self._entry(f"{name}_exceptions", word) or "").split()
        forms.append(word)
        for ending, replacement in DETACH[part]:
            if word.endswith(ending) and len(word) > len(ending) + 1:
                stem = word[: len(word) - len(ending)]
                forms.append(stem + replacement)
                if part == "v" and not replacement and len(stem) > 3 and stem[-1] == stem[-2]:
                    forms.append(stem[:-1])
        return tuple(dict.fromkeys(form for form in forms if form and check(form)))

    @cached_property
    def _noun_synsets(self) -> list[str]:
        return self.blocks["noun_synsets"].split(LINE)

    @cached_property
    def _verb_synsets(self) -> list[str]:
        return self.blocks["verb_synsets"].split(LINE)

    def noun_senses(self, lemma: str) -> list[tuple[int, float]]:
        """[(synset id, weight)] of a base form, commonest first; [] for a word without a physical sense."""
        entry = self._entry("nouns", lemma)
        return _senses(entry) if entry else []

    def name(self, synset: int) -> str:
        """The usual name of a noun synset, such as dust.n.01."""
        return self._noun_synsets[synset].split(FIELD, 1)[0]

    def strength(self, synset: int) -> float:
        """How much meeting at this synset means: Seco, Veale & Hayes' intrinsic information content; 0 at the top."""
        name, below, _ = self._noun_synsets[synset].split(FIELD)[:3]
        return 0.0 if name in TOP else 1.0 - math.log1p(int(below)) / math.log(82116)

    def climb(self, synset: int) -> dict[int, tuple[float, tuple[int, ...]]]:
        """Everything above a noun synset: id → (weight, the ids walked, the synset first)."""
        best: dict[int, tuple[float, tuple[int, ...]]] = {synset: (1.0, (synset,))}
        ring = [synset]
        for _ in range(MOST_STEPS):
            following = []
            for at in ring:
                weight, path = best[at]
                for parent in self._noun_synsets[at].split(FIELD)[2].split():
                    above = int(parent, 36)
                    if above not in best:
                        best[above] = (weight * STEP_UP, (*path, above))
                        following.append(above)
            ring = following
        return best

    def verb_relatives(self, lemma: str) -> list[tuple[str, float, str]]:
        """Verbs that mean the same or something more general: [(verb, weight, the path in words)], best first."""
        entry = self._entry("verbs", lemma)
        found: dict[str, tuple[float, str]] = {}
        for synset, weight in _senses(entry) if entry else []:
            at, path = [synset], lemma
            for step in range(3):
                following: list[int] = []
                for number in at:
                    _, _, parents, lemmas = self._verb_synsets[number].split(FIELD)
                    for other in lemmas.split(","):
                        value = weight * SAME_SYNSET * STEP_UP ** (2 * step)
                        if other != lemma and value > found.get(other, (0.0, ""))[0]:
                            found[other] = (value, f"{path} → {other}")
                    following += [int(parent, 36) for parent in parents.split()]
                at = following
                path = lemma + " → " * (step + 1)
        return sorted(((v, w, p) for v, (w, p) in found.items()), key=lambda entry: (-entry[1], entry[0]))


def _senses(entry: str) -> list[tuple[int, float]]:
    pairs = (sense.split(":") for sense in entry.split())
    return [(int(number, 36), int(weight) / 100) for number, weight in pairs]
