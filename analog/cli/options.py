"""Options shared by commands, so that the same thing is called the same everywhere."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

CorpusOption = Annotated[
    Path | None,
    typer.Option(
        "--corpus", envvar="ANALOG_CORPUS", metavar="DIR", help="Folder of model files. Default: the shipped corpus."
    ),
]
IndexOption = Annotated[
    Path | None,
    typer.Option(
        "--index",
        envvar="ANALOG_INDEX",
        metavar="DIR",
        help="Folder of the index. Default: index/ of a checkout, else the cache folder.",
    ),
]
GivenOption = Annotated[
    list[str] | None,
    typer.Option(
        "--given",
        metavar="TEXT",
        help='A condition: "no water available", "particle size 5-50 um", "-30 degC". Repeatable.',
    ),
]
ProblemFileOption = Annotated[
    Path | None,
    typer.Option("--problem", metavar="FILE", help="Problem file (YAML or JSON); what it says overrules the reading."),
]
JsonOption = Annotated[bool, typer.Option("--json", help="Print JSON on standard output.")]
SetOption = Annotated[
    list[str] | None,
    typer.Option(
        "--set", metavar="FIELD=VALUE", help="Overrule the reading: verb=…, object=…, where=…, kind=…. Repeatable."
    ),
]
TopOption = Annotated[int, typer.Option("--top", metavar="N", min=1, max=1000, help="How many results.")]
EncoderOption = Annotated[
    str | None,
    typer.Option(
        "--encoder",
        envvar="ANALOG_ENCODER",
        metavar="NAME",
        help="sentence-transformers model, by name or folder. Default: the packaged MiniLM.",
    ),
]
