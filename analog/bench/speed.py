"""How long a search takes: cold, as a whole process beside a plain script, and warm, inside one.

    python -m analog.bench.speed

Whole processes are timed in turn (A B A B …), so that a machine that slows down slows both; the ratio is taken pair by
pair. Warm times are medians over the development problems, each read and searched once after a first round.
"""

from __future__ import annotations

import os
import platform
import statistics
import subprocess
import sys
import time

from analog.bench.problems import load_problems, problems_file
from analog.errors import InputError

RUNS = 7
QUERY = "remove dust from solar panels"


def process_seconds(*arguments: str) -> float:
    """Wall time of one Python process that may keep its compiled modules, as an installed program does."""
    surroundings = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    started = time.perf_counter()
    subprocess.run([sys.executable, "-m", *arguments], check=True, capture_output=True, env=surroundings)
    return time.perf_counter() - started


def cold() -> list[str]:
    """Lines of a table: the search, the plain script, and their ratio; the first of each is a warm-up."""
    pairs = []
    for run in range(RUNS + 1):
        pair = process_seconds("analog", "search", QUERY), process_seconds("analog.bench.bare", QUERY)
        if run:
            pairs.append(pair)
    ours, bare = [a for a, _ in pairs], [b for _, b in pairs]
    ratios = [a / b for a, b in pairs]
    rows = (
        ("analog search, whole process, s", ours),
        ("plain sentence-transformers script, s", bare),
        ("ratio", ratios),
    )
    return [f"| {name} | {min(x):.2f} | {statistics.median(x):.2f} | {max(x):.2f} |" for name, x in rows]


def warm() -> list[str]:
    """Lines of a table: reading and searching in a running process, in milliseconds."""
    from analog.api import open_library

    library = open_library()
    problems = load_problems(problems_file("development"))
    rows: dict[str, list[float]] = {"reading, ms": [], "search (50 aligned), ms": []}
    for measured in (False, True):
        for problem in problems[:80]:
            started = time.perf_counter()
            try:
                read = library.read(problem.text, problem.given)
            except InputError:
                continue
            after_reading = time.perf_counter()
            library.searcher.search(read)
            if measured:
                rows["reading, ms"].append(1000 * (after_reading - started))
                rows["search (50 aligned), ms"].append(1000 * (time.perf_counter() - after_reading))
    return [
        f"| {name} | {min(values):.0f} | {statistics.median(values):.0f} | {max(values):.0f} |"
        for name, values in rows.items()
    ]


def main() -> None:
    """Print the tables as Markdown."""
    load = os.getloadavg()[0] if hasattr(os, "getloadavg") else float("nan")
    lines = [
        f"Python {platform.python_version()}, {os.cpu_count()} cores, load {load:.1f} at the start, {RUNS} runs each.",
        "",
        "| what | least | median | most |",
        "| --- | ---: | ---: | ---: |",
        *cold(),
        *warm(),
    ]
    sys.stdout.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
