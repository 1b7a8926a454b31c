"""Many possible truths of a job: an evenly spread sample of what nobody knows, and what every check says of each."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from lakewright.checks.verdict import Check
from lakewright.physics.types import Array
from lakewright.search.circuits import in_threads
from lakewright.search.memory import keep_freed_memory
from lakewright.state.facts import Facts
from lakewright.state.unknowns import Unknown, names_of_unknowns, sampled
from lakewright.state.walk import State, walk

TRUTHS = 1 << 16
"""ours: possible truths looked at; a chance is then known to a fifth of a percent."""

CHUNK = 2048
"""ours: truths walked together; a chunk's arrays stay in a core's cache."""


def shares(rows: int, unknowns: int, seed: int) -> Array:
    """Points spread evenly through a cube, each side from 0 to 1, ends left out: a scrambled Sobol sequence.

    Source: Owen's scrambling, in scipy.stats.qmc. `rows` is a power of two.
    """
    from scipy.stats import qmc

    engine = qmc.Sobol(max(unknowns, 1), scramble=True, seed=seed)
    points: Array = engine.random_base2(int(math.log2(rows)))
    return np.clip(points, 2.0**-40, 1.0 - 2.0**-40)


def points_of(unknowns: Sequence[Unknown], truths: int, seed: int) -> Array:
    """A sample of truths, each unknown of the table having one column whatever the job, shape (truth, unknown).

    Two designs of one site are then looked at in the same truths.
    """
    names = names_of_unknowns()
    places = [names.index(each.name) if each.name in names else len(names) + n for n, each in enumerate(unknowns)]
    return shares(truths, max([len(names) - 1, *places]) + 1, seed)[:, places]


def offs(unknowns: Sequence[Unknown], points: Array) -> Array:
    """How far each unknown is off, one a column, at these points."""
    if not unknowns:
        return np.zeros((len(points), 0))
    return np.stack([each.quantile(points[:, n]) for n, each in enumerate(unknowns)], axis=1)


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
    size = CHUNK // 16 if walked is walk else CHUNK

    def one(start: int) -> None:
        rows = slice(start, start + size)
        some = sampled(facts, unknowns, off[rows])
        state = walked(some)
        for n, check in enumerate(checks):
            found[rows, n] = check.function(getattr(state, check.block), facts.limits).status

    list(in_threads(one, range(0, len(off), size)))
    return found
