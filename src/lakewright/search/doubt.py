"""How sure: the same walk over many possible truths, and what is worth measuring first."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.checks.registry import CHECKS
from lakewright.checks.verdict import FAILS, NOT_ASKED, UNKNOWN
from lakewright.physics.types import Array
from lakewright.search.truths import TRUTHS, offs, points_of, statuses
from lakewright.state.facts import Facts
from lakewright.state.unknowns import Unknown
from lakewright.state.walk import DEAR, walk, walk_but_the_dear

DEAR_TRUTHS = 1 << 10
"""ours: of these, those in which waves on the stand and the blow of a stop are judged too: they are dear."""

CHEAP_CHECKS = tuple(check for check in CHECKS if check.block not in DEAR)
DEAR_CHECKS = tuple(check for check in CHECKS if check.block in DEAR)

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


def doubt(facts: Facts, unknowns: Sequence[Unknown], seed: int = 0, truths: int = TRUTHS) -> Doubt:
    """How sure a job is, check by check, and what is worth measuring.

    Parameters
    ----------
    seed : of the sample; the same gives the same answer
    truths : a power of two; in the first of them, one in sixteen at the most, the dear checks are asked too
    """
    off = offs(unknowns, points_of(unknowns, truths, seed))
    dear = max(1, min(DEAR_TRUTHS, truths // 16))
    near = statuses(facts, unknowns, off, walk_but_the_dear, CHEAP_CHECKS)
    far = statuses(facts, unknowns, off[:dear], walk, DEAR_CHECKS)
    names = [check.name for check in (*CHEAP_CHECKS, *DEAR_CHECKS)]
    status = dict(zip(names, (*near.T, *far.T), strict=True))
    asked = [check for check in CHECKS if np.any(status[check.name] != NOT_ASKED)]
    lacking = tuple(check.name for check in asked if np.all(status[check.name] == UNKNOWN))
    judged = [check for check in asked if check.name not in lacking]
    holds = {name: (each != FAILS) & (each != UNKNOWN) for name, each in status.items()}
    whole, also = np.ones(truths, dtype=bool), np.ones(dear, dtype=bool)
    for check in judged:
        if check.force == "must" and check in CHEAP_CHECKS:
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
