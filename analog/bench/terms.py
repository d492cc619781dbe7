"""How well links between terms agree with pairs graded by hand.

Two lists of pairs, an engineer's term against a biologist's or a general one, graded yes or no before the thesaurus
was filled: the development list may be looked at while the thesaurus is tuned, the report list may not.
Run: python -m analog.bench.terms
"""

from __future__ import annotations

import csv
from pathlib import Path
from typing import Any

from analog.vocabulary import Vocabulary

DATA = Path(__file__).parent / "data"
LISTS = ("development", "report")


def read_pairs(name: str) -> list[tuple[str, str, bool]]:
    """[(engineer's term, other term, related)] of one list."""
    with (DATA / f"term-pairs-{name}.tsv").open(encoding="utf-8", newline="") as lines:
        return [
            (row["engineer"], row["other"], row["related"] == "yes") for row in csv.DictReader(lines, delimiter="\t")
        ]


def measure(vocabulary: Vocabulary, name: str) -> dict[str, Any]:
    """Area under the receiver operating characteristic, recall at any link, false links, and the pairs got wrong."""
    from sklearn.metrics import roc_auc_score

    pairs = read_pairs(name)
    values = [vocabulary.link(a, b).similarity for a, b, _ in pairs]
    truth = [related for *_, related in pairs]
    missed = [(a, b) for (a, b, related), value in zip(pairs, values, strict=True) if related and value == 0.0]
    false = [(a, b, v) for (a, b, related), v in zip(pairs, values, strict=True) if not related and v > 0.0]
    return {
        "list": name,
        "pairs": len(pairs),
        "related": sum(truth),
        "area_under_curve": round(float(roc_auc_score(truth, values)), 4),
        "missed": missed,
        "false": false,
    }


def main() -> None:
    """Print both lists' figures; the single pairs only for the list that may be looked at."""
    vocabulary = Vocabulary.from_sources()
    for name in LISTS:
        found = measure(vocabulary, name)
        print(
            f"{name}: {found['pairs']} pairs, {found['related']} related; area under the curve "
            f"{found['area_under_curve']:.3f}; related without a link {len(found['missed'])}, "
            f"unrelated with one {len(found['false'])}"
        )
        if name == "development":
            for pair in found["missed"]:
                print("  missed:", *pair, sep="\t")
            for pair in found["false"]:
                print("  false:", *pair, sep="\t")


if __name__ == "__main__":
    main()
