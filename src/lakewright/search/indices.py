"""A second view of doubt: Sobol indices of one number, or of a job's worst margin."""

from __future__ import annotations

import warnings
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from lakewright.checks.registry import FLOW_CHECKS
from lakewright.physics.types import Array
from lakewright.search.circuits import in_threads
from lakewright.search.truths import CHUNK, offs
from lakewright.state.facts import Facts
from lakewright.state.unknowns import Unknown, sampled
from lakewright.state.walk import walk_flow

RESAMPLES = 200
"""ours: enough for ends of 95 %."""

MARGINS = 3.0
"""ours: surplus beyond so many comfortable ones, or lack of as much, tells the indices nothing more."""


@dataclass(frozen=True)
class Index:
    """Sobol indices of one unknown, each with its 95 % ends: by itself, and with all it meets."""

    unknown: Unknown
    first: float
    first_ends: tuple[float, float]
    total: float
    total_ends: tuple[float, float]


def worst_margin(facts: Facts, unknowns: Sequence[Unknown], off: Array) -> Array:
    """Worst margin of the musts that rest on the flow or the place, one a truth, within `MARGINS`."""
    found = np.empty(len(off))
    musts = [check for check in FLOW_CHECKS if check.force == "must"]

    def one(start: int) -> None:
        rows = slice(start, start + CHUNK)
        state = walk_flow(sampled(facts, unknowns, off[rows]))
        worst = np.full(len(off[rows]), MARGINS)
        for check in musts:
            worst = np.minimum(worst, check.function(getattr(state, check.block), facts.limits).margin)
        found[rows] = np.maximum(worst, -MARGINS)

    list(in_threads(one, range(0, len(off), CHUNK)))
    return found


def indices(
    number: Callable[[Array], Array],
    unknowns: Sequence[Unknown],
    seed: int = 0,
    rows: int = 2048,
    resamples: int = RESAMPLES,
) -> tuple[Index, ...]:
    """Sobol indices of a number over the unknowns, a second view beside what is worth measuring.

    What is not known together is one unknown already, so that all are independent of each other.

    Parameters
    ----------
    number : of truths, shape (truth, unknown), one number a truth
    rows : a power of two; the number is asked for rows (unknowns + 2) truths
    resamples : from which the ends are taken; without any there are none

    Raises
    ------
    ValueError where the number is not finite: the estimate would take it for nothing without a word
    Source: Saltelli's estimators and a bootstrap for the ends, in scipy.stats.sobol_indices.
    """
    from scipy.stats import sobol_indices, uniform

    def asked(points: Array) -> Array:
        shares_of = np.clip(points.reshape(len(unknowns), -1).T, 2.0**-40, 1.0 - 2.0**-40)
        found = number(offs(unknowns, shares_of))
        if not np.isfinite(found).all():
            raise ValueError("a number that is not finite has no Sobol indices; leave out what is missing")
        return found.reshape(points.shape[1:])

    dists: Any = [uniform()] * len(unknowns)
    with warnings.catch_warnings():
        # An unknown on which nothing rests has no spread to draw from again: its ends are then nan.
        warnings.simplefilter("ignore")
        found = sobol_indices(func=asked, n=rows, dists=dists, rng=np.random.default_rng(seed))
        ends = found.bootstrap(confidence_level=0.95, n_resamples=resamples) if resamples else None
    nothing = np.full((2, len(unknowns)), np.nan)
    first = nothing if ends is None else np.array(ends.first_order.confidence_interval)
    total = nothing if ends is None else np.array(ends.total_order.confidence_interval)
    return tuple(
        Index(
            each,
            float(found.first_order[n]),
            (float(first[0, n]), float(first[1, n])),
            float(found.total_order[n]),
            (float(total[0, n]), float(total[1, n])),
        )
        for n, each in enumerate(unknowns)
    )
