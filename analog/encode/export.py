"""Export of a sentence-transformers model to a form that onnxruntime and tokenizers run without torch."""

from __future__ import annotations

import json
import warnings
from pathlib import Path
from typing import Any

import numpy as np

from analog.encode.onnx import GRAPH, POOLINGS, SETTINGS, TOKENIZER, WEIGHTS, OnnxEncoder, runtime
from analog.encode.sentence import SentenceEncoder, embedding_dimension

TOLERANCE = 1e-4
"""Largest difference in any coordinate between the exported encoder and the original, on the trial texts."""

OPERATOR_SET = 17
"""The ONNX operator set of the export: the first with layer normalisation as one operator."""

TRIAL_TEXTS = (
    "",
    "dust",
    "remove dust from solar panels",
    "Wie hält man Eis von −30 °C kalten Flügeln fern? 除尘 🌵",
    "a long account of how a rough surface sheds water and takes the dust along " * 60,
)


class NotExportableError(Exception):
    """The model is built in a way the export does not cover; the text says which."""


def export_encoder(encoder: SentenceEncoder, folder: Path) -> None:
    """Write graph, weights, tokeniser and settings of a query encoder into a folder.

    The graph holds the transformer only; pooling and normalisation are a few lines of numpy at query time.
    It is stored after the graph optimisation of onnxruntime, its weights in a file of their own: that file is
    mapped into memory, not read (session ready in 0.02 s instead of 0.27 s for MiniLM).
    Raises NotExportableError for an architecture other than transformer, pooling, normalisation, or if the vectors
    differ from the original.
    """
    settings = _settings(encoder.model)
    folder.mkdir(parents=True, exist_ok=True)
    try:
        settings["inputs"] = _export_graph(encoder.model, folder)
    except NotExportableError:
        raise
    except Exception as fault:  # the exporter raises many kinds; the build then goes on without an export
        raise NotExportableError(f"the graph cannot be exported: {type(fault).__name__}: {fault}") from fault
    _save_tokenizer(encoder.model, settings["max_length"], folder / TOKENIZER)
    (folder / SETTINGS).write_text(json.dumps(settings, indent=1), encoding="utf-8")
    difference = largest_difference(encoder, folder)
    if not difference <= TOLERANCE:
        raise NotExportableError(
            f"exported vectors differ from the original by {difference:.1e}, allowed {TOLERANCE:.0e}"
        )


def largest_difference(encoder: SentenceEncoder, folder: Path) -> float:
    """Largest difference in any coordinate over the trial texts, alone and in one batch."""
    exported, original = OnnxEncoder(folder), encoder.encode(TRIAL_TEXTS)
    together = np.abs(exported.encode(TRIAL_TEXTS) - original).max()
    alone = max(np.abs(exported.encode([text])[0] - row).max() for text, row in zip(TRIAL_TEXTS, original, strict=True))
    return float(max(together, alone))


def _settings(model: Any) -> dict[str, Any]:
    """What the modules after the transformer do, as far as the query encoder can do it too."""
    names = [type(module).__name__ for module in model]
    if names[:2] != ["Transformer", "Pooling"] or names[2:] not in ([], ["Normalize"]):
        raise NotExportableError(
            f"expected the modules Transformer, Pooling and perhaps Normalize, found {', '.join(names)}"
        )
    pooling = _pooling(model[1].get_config_dict())
    if pooling not in POOLINGS:
        raise NotExportableError(f"expected one pooling of {', '.join(POOLINGS)}, found {pooling!r}")
    prompt = (model.prompts or {}).get(model.default_prompt_name, "") if model.default_prompt_name else ""
    if prompt and not getattr(model[1], "include_prompt", True):
        raise NotExportableError("expected pooling over the prompt too, found a prompt that is left out of pooling")
    if not model.max_seq_length:
        raise NotExportableError("expected a longest length of text, found none")
    return {
        "pooling": pooling,
        "prompt": prompt or "",
        "max_length": int(model.max_seq_length),
        "dimension": embedding_dimension(model),
    }


def _pooling(config: dict[str, Any]) -> str:
    """The pooling by name; releases before 5 of sentence-transformers tell it by one switch for each kind."""
    if "pooling_mode" in config:
        return str(config["pooling_mode"])
    names = {"pooling_mode_mean_tokens": "mean", "pooling_mode_cls_token": "cls", "pooling_mode_max_tokens": "max"}
    chosen = [names.get(key, key) for key, on in config.items() if key.startswith("pooling_mode_") and on]
    return "+".join(chosen)


def _export_graph(model: Any, folder: Path) -> list[str]:
    """Write the transformer as graph and weights; returns the names of its inputs."""
    import onnx
    import torch

    transformer = model[0].auto_model.eval()
    sample = model.tokenizer(["a sample of some length", "another"], padding=True, return_tensors="pt")
    names = [name for name in ("input_ids", "attention_mask", "token_type_ids") if name in sample]

    class TokenVectors(torch.nn.Module):
        def __init__(self) -> None:
            super().__init__()
            self.transformer = transformer

        def forward(self, *inputs: Any) -> Any:
            return self.transformer(**dict(zip(names, inputs, strict=True))).last_hidden_state

    raw, optimised = folder / "raw.onnx", folder / "optimised.onnx"
    with warnings.catch_warnings(), torch.no_grad():
        # The exporter that traces is announced as old, and warns of every Python condition it passes. What it
        # produces is compared with the original below; the newer exporter needs one more dependency.
        warnings.simplefilter("ignore")
        torch.onnx.export(
            TokenVectors().eval(),
            tuple(sample[name] for name in names),
            str(raw),
            input_names=names,
            output_names=["tokens"],
            dynamic_axes={name: {0: "texts", 1: "tokens"} for name in [*names, "tokens"]},
            opset_version=OPERATOR_SET,
            dynamo=False,
        )
    onnxruntime = runtime()
    options = onnxruntime.SessionOptions()
    options.log_severity_level = 4
    # "extended" and not "all": the last level ties the file to the processor it was made on
    options.graph_optimization_level = onnxruntime.GraphOptimizationLevel.ORT_ENABLE_EXTENDED
    options.optimized_model_filepath = str(optimised)
    onnxruntime.InferenceSession(str(raw), options, providers=["CPUExecutionProvider"])
    onnx.save(
        onnx.load(str(optimised)),
        str(folder / GRAPH),
        save_as_external_data=True,
        all_tensors_to_one_file=True,
        location=WEIGHTS,
        size_threshold=1024,
    )
    raw.unlink()
    optimised.unlink()
    return names


def _save_tokenizer(model: Any, max_length: int, path: Path) -> None:
    from tokenizers import Tokenizer

    backend = getattr(model.tokenizer, "backend_tokenizer", None)
    if backend is None:
        raise NotExportableError("expected a tokeniser of the tokenizers library, found one written in Python")
    tokenizer = Tokenizer.from_str(backend.to_str())
    tokenizer.enable_truncation(max_length)
    tokenizer.no_padding()
    tokenizer.save(str(path), pretty=False)
