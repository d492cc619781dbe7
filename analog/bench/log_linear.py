"""Weights of a log-linear choice: how likely each of several options is the right one, from weighted evidence.

P(option) is proportional to exp(weights · evidence). The weights maximise the likelihood of the right options less a
ridge, none below 0, so the optimum is unique. Source: McFadden (1974), Conditional logit analysis of qualitative choice
behavior, in Zarembka (ed.), Frontiers in Econometrics, 105-142; ridge: Hoerl & Kennard (1970), Technometrics 12, 55-67.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

RIDGES = (0.3, 1.0, 3.0)
PARTS = 5


@dataclass(frozen=True)
class Choice:
    """options : (o, f) evidence for each option. right : row of the right one."""

    options: Floats
    right: int


def loss(choice: Choice, weights: Floats) -> float:
    """-log P(right)."""
    scores = choice.options @ weights
    top = scores.max()
    return float(top + np.log(np.exp(scores - top).sum()) - scores[choice.right])


def fitted(choices: Sequence[Choice], ridge: float) -> Floats:
    """(f,) weights. The ridge acts on evidence divided by its spread among the options, so that units do not matter.

    Raises ValueError without choices.
    """
    from scipy.optimize import minimize

    if not choices:
        raise ValueError("expected one choice or more")
    spread = np.sqrt(np.mean([choice.options.var(axis=0) for choice in choices], axis=0)) + 1e-9
    scaled = [Choice(choice.options / spread, choice.right) for choice in choices]

    def objective(weights: Floats) -> tuple[float, Floats]:
        total, slope = ridge * float(weights @ weights), 2 * ridge * weights
        for choice in scaled:
            scores = choice.options @ weights
            chance = np.exp(scores - scores.max())
            chance /= chance.sum()
            total -= float(np.log(chance[choice.right]))
            slope = slope - choice.options[choice.right] + chance @ choice.options
        return total, slope

    bounds = [(0.0, None)] * len(spread)
    solved = minimize(objective, np.zeros(len(spread)), jac=True, method="L-BFGS-B", bounds=bounds)
    weights: Floats = solved.x / spread
    return weights


def best_ridge(choices: Sequence[Choice], ridges: Sequence[float] = RIDGES) -> float:
    """The ridge with the least loss on choices left out of the fit, every fifth at a time."""

    def left_out(ridge: float) -> float:
        total = 0.0
        for part in range(min(PARTS, len(choices))):
            weights = fitted([choice for at, choice in enumerate(choices) if at % PARTS != part], ridge)
            total += sum(loss(choice, weights) for choice in choices[part::PARTS])
        return total

    return min(ridges, key=left_out)
