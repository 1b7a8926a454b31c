"""How sure: the same walk over many possible truths, and what is worth measuring first."""

from __future__ import annotations

import math
import warnings
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from lakewright.checks.registry import CHECKS, FLOW_CHECKS
from lakewright.checks.verdict import FAILS, NOT_ASKED, UNKNOWN, Check
from lakewright.physics.types import Array
from lakewright.search.circuits import in_threads
from lakewright.search.memory import keep_freed_memory
from lakewright.state.facts import Facts
from lakewright.state.unknowns import Unknown, sampled
from lakewright.state.walk import State, walk, walk_flow

TRUTHS = 1 << 16
"""ours: possible truths looked at; a chance is then known to a fifth of a percent."""

DEAR_TRUTHS = 1 << 10
"""ours: of these, those in which what stands on the bed is judged too: it costs a hundred times as much."""

CHUNK = 2048
"""ours: truths walked together; a chunk's arrays stay in a core's cache."""

BINS, IN_A_CLASS = 32, 128
"""ours: most classes in which a measurement is looked at, and truths in each at least: enough to count and follow."""

WORTH_A_WORD = 0.05
"""ours: share of the doubt; what clears less of it is not named."""

Mask = NDArray[np.bool_]


@dataclass(frozen=True)
class Chance:
    """How often a check holds over the possible truths, and one standard error of that."""

    check: str
    force: str
    chance: float
    error: float


@dataclass(frozen=True)
class Worth:
    """What a measurement is worth.

    surer : how much surer one would decide rightly after it, and one standard error of that
    clears : share of the doubt whether the job holds that goes with it, where no decision turns on it too
    """

    unknown: Unknown
    surer: float
    error: float
    clears: float


@dataclass(frozen=True)
class Doubt:
    """How sure a job is.

    job : of all musts together, those that wait left out
    unknown : checks nobody can judge, as a fact is missing; waits : the musts among them
    worth : the largest first
    """

    job: Chance
    waits: tuple[str, ...]
    checks: tuple[Chance, ...]
    unknown: tuple[str, ...]
    worth: tuple[Worth, ...]
    truths: int
    dear_truths: int


def shares(rows: int, unknowns: int, seed: int) -> Array:
    """Points spread evenly through a cube, each side from 0 to 1, ends left out: a scrambled Sobol sequence.

    Source: Owen's scrambling, in scipy.stats.qmc. `rows` is a power of two.
    """
    from scipy.stats import qmc

    engine = qmc.Sobol(max(unknowns, 1), scramble=True, seed=seed)
    points: Array = engine.random_base2(int(math.log2(rows)))
    return np.clip(points, 2.0**-40, 1.0 - 2.0**-40)


def offs(unknowns: Sequence[Unknown], points: Array) -> Array:
    """How far each unknown is off, one a column, at these points."""
    if not unknowns:
        return np.zeros((len(points), 0))
    return np.stack([each.quantile(points[:, n]) for n, each in enumerate(unknowns)], axis=1)


def doubt(facts: Facts, unknowns: Sequence[Unknown], seed: int = 0, truths: int = TRUTHS) -> Doubt:
    """How sure a job is, check by check, and what is worth measuring.

    Parameters
    ----------
    seed : of the sample; the same gives the same answer
    truths : a power of two
    """
    off = offs(unknowns, shares(truths, len(unknowns), seed))
    dear = max(1, min(DEAR_TRUTHS, truths // 16))
    near = statuses(facts, unknowns, off, walk_flow, FLOW_CHECKS)
    far_checks = tuple(check for check in CHECKS if check.reach == "picked")
    far = statuses(facts, unknowns, off[:dear], walk, far_checks)
    names = [check.name for check in (*FLOW_CHECKS, *far_checks)]
    status = dict(zip(names, (*near.T, *far.T), strict=True))
    asked = [check for check in CHECKS if np.any(status[check.name] != NOT_ASKED)]
    lacking = tuple(check.name for check in asked if np.all(status[check.name] == UNKNOWN))
    judged = [check for check in asked if check.name not in lacking]
    holds = {name: (each != FAILS) & (each != UNKNOWN) for name, each in status.items()}
    whole, also = np.ones(truths, dtype=bool), np.ones(dear, dtype=bool)
    for check in judged:
        if check.force == "must" and check.reach == "all":
            whole &= holds[check.name]
        elif check.force == "must":
            also &= holds[check.name]
    # What the dear checks take away is counted among the truths in which they were asked.
    decided = whole if also.all() else whole[:dear] & also
    return Doubt(
        job=Chance("job", "must", *_together(whole, also)),
        waits=tuple(check.name for check in asked if check.name in lacking and check.force == "must"),
        checks=tuple(Chance(check.name, check.force, *_share(holds[check.name])) for check in judged),
        unknown=lacking,
        worth=worths(unknowns, off[: len(decided)], decided, seed),
        truths=truths,
        dear_truths=dear,
    )


def statuses(
    facts: Facts,
    unknowns: Sequence[Unknown],
    off: Array,
    walked: Callable[[Facts], State],
    checks: Sequence[Check],
) -> NDArray[np.int8]:
    """Status of some checks in every possible truth, shape (truth, check)."""
    keep_freed_memory()
    found = np.empty((len(off), len(checks)), dtype=np.int8)
    size = CHUNK if walked is walk_flow else CHUNK // 16

    def one(start: int) -> None:
        rows = slice(start, start + size)
        some = sampled(facts, unknowns, off[rows])
        state = walked(some)
        for n, check in enumerate(checks):
            found[rows, n] = check.function(getattr(state, check.block), facts.limits).status

    list(in_threads(one, range(0, len(off), size)))
    return found


def _share(holds: Mask) -> tuple[float, float]:
    """Share that holds, and its error as if drawn at random: an evenly spread sample is no worse."""
    share = float(np.mean(holds))
    return share, math.sqrt(share * (1.0 - share) / len(holds))


def _together(whole: Mask, also: Mask) -> tuple[float, float]:
    """Share in which both hold, the second looked at in the first rows alone."""
    first, error = _share(whole)
    met = whole[: len(also)]
    if not met.any():
        return 0.0, error
    second, more = _share(also[met])
    return first * second, math.hypot(error * second, first * more)


def worths(unknowns: Sequence[Unknown], off: Array, holds: Mask, seed: int) -> tuple[Worth, ...]:
    """How much surer one decides after each measurement, the largest first.

    Whoever decides builds where the job more likely holds than not. A measurement is worth what it adds to the share of
    truths in which that is the right decision. One half of the sample says what to decide, class by class of what the
    measurement would read; on the other half it is scored, so that chance alone is worth nothing.
    """
    noise = np.random.default_rng([seed, 1]).standard_normal(off.shape)
    found = [
        Worth(each, *_surer(off[:, n] + each.accuracy * noise[:, n], holds, seed))
        for n, each in enumerate(unknowns)
        if math.isfinite(each.accuracy) and each.accuracy < each.deviation()
    ]
    return tuple(sorted(found, key=lambda worth: (-round(worth.surer, 3), -worth.clears)))


def _surer(reading: Array, holds: Mask, seed: int) -> tuple[float, float, float]:
    """Gain in right decisions by a reading, its error, and the share of the doubt it clears."""
    bins = max(2, min(BINS, len(holds) // IN_A_CLASS))
    edges = np.quantile(reading, np.linspace(0.0, 1.0, bins + 1)[1:-1])
    of = np.searchsorted(edges, reading)
    # At random: neighbours in an evenly spread sample lie on opposite sides of it.
    first = np.random.default_rng([seed, 2]).permutation(len(holds)) % 2 == 0
    gains = []
    for half in (first, ~first):
        counted = np.bincount(of[half], minlength=bins)
        held = np.bincount(of[half], weights=holds[half], minlength=bins)
        build = held * 2.0 > counted
        usual = np.mean(holds[half]) > 0.5
        right = build[of[~half]] == holds[~half]
        before = usual == holds[~half]
        gains.append(right.astype(float) - before)
    gain = np.concatenate(gains)
    return float(np.mean(gain)), float(np.std(gain) / math.sqrt(len(gain))), _cleared(of, holds)


def _cleared(of: NDArray[np.intp], holds: Mask) -> float:
    """Variance between classes over that of all, less what chance alone would give."""
    share, classes = float(np.mean(holds)), int(of.max()) + 1
    if share in (0.0, 1.0) or classes == 1:
        return 0.0
    counted = np.bincount(of, minlength=classes)
    held = np.bincount(of, weights=holds, minlength=classes) / np.maximum(counted, 1)
    between = float(np.sum(counted * (held - share) ** 2))
    within = float(len(holds) * share * (1.0 - share)) - between
    return max(0.0, (between - (classes - 1) * within / (len(holds) - classes)) / (between + within))


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
