"""Many designs over few possible truths: flow checks alone drop those that cannot be sure enough."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.checks.registry import FLOW_CHECKS
from lakewright.checks.verdict import FAILS, Check
from lakewright.physics.types import Array
from lakewright.search.circuits import CHUNK, in_threads
from lakewright.search.parts import Index, Problem, values_at
from lakewright.search.tank import tank_checks
from lakewright.state.facts import Facts
from lakewright.state.unknowns import Unknown, sampled
from lakewright.state.walk import walk_flow

STAGES = (8, 32, 128, 1024)
"""ours: truths in which designs are looked at, each stage the first of the next; only what stays goes on."""

SLIP = 1e-3
"""ours: chance that a design just sure enough is dropped at a stage, and passed over for a dearer one."""

MUSTS = tuple(check for check in FLOW_CHECKS if check.force == "must")


@dataclass(frozen=True)
class Sieved:
    """What a sieve left of some designs.

    stays : whether it may be sure enough; share : of the truths looked at in which every must of the flow holds;
    truths : how many were looked at
    """

    stays: NDArray[np.bool_]
    share: Array
    truths: Index

    def take(self, which: Index) -> Sieved:
        """Of some of them."""
        return Sieved(self.stays[which], self.share[which], self.truths[which])


def most_failing(truths: int, sure: float) -> int:
    """In how many truths a design may fail before it is dropped.

    Source: binomial distribution; failing in more has a chance under `SLIP` for what holds in a share `sure` of truths.

    >>> [most_failing(truths, 0.95) for truths in (8, 1024)]
    [3, 74]
    """
    from scipy.stats import binom

    return int(binom.isf(SLIP, truths, 1.0 - sure))


class Sieve:
    """Designs looked at stage by stage, all in the same truths; each circuit once for all the tanks it may feed."""

    def __init__(self, problem: Problem, unknowns: Sequence[Unknown], off: Array, sure: float) -> None:
        """Designs of a problem.

        Parameters
        ----------
        off : how far each unknown is off, shape (truth, unknown), as many truths as the last stage has
        sure : share of the truths in which a design must hold
        """
        self.problem, self.unknowns, self.off, self.sure = problem, unknowns, off, sure
        self.tank = problem.position("tank")
        hang_on_it = [FLOW_CHECKS[n] for n in tank_checks(problem)]
        self.of_circuits = tuple(check for check in MUSTS if check not in hang_on_it)
        self.known: dict[bytes, tuple[bool, float, int]] = {}  # of circuits

    def sieved(self, options: Index) -> Sieved:
        """Look at designs: the option of each part, shape (design, part)."""
        bare = options.copy()
        bare[:, self.tank] = 0
        circuits, first, of_design = np.unique(bare, axis=0, return_index=True, return_inverse=True)
        keys = [circuit.tobytes() for circuit in circuits]
        new = np.array([n for n, key in enumerate(keys) if key not in self.known], dtype=np.intp)
        found = self._staged(options[first[new]], self.of_circuits)
        rows = zip(found.stays.tolist(), found.share.tolist(), found.truths.tolist(), strict=True)
        self.known |= dict(zip((keys[n] for n in new), rows, strict=True))
        stays, share, truths = (
            np.array(each)[of_design.reshape(-1)] for each in zip(*(self.known[key] for key in keys), strict=True)
        )
        left = np.flatnonzero(stays)
        if len(left):
            with_tank = self._staged(options[left], MUSTS)
            stays[left], share[left], truths[left] = with_tank.stays, with_tank.share, with_tank.truths
        return Sieved(stays, share, truths)

    def _staged(self, options: Index, musts: Sequence[Check]) -> Sieved:
        stays = np.ones(len(options), dtype=bool)
        failing, seen = np.zeros(len(options), dtype=np.intp), np.ones(len(options), dtype=np.intp)
        before = 0
        for truths in STAGES:
            which = np.flatnonzero(stays)
            if not len(which):
                break
            failing[which] += self._failing(options[which], self.off[before:truths], musts)
            seen[which] = before = truths
            stays &= failing <= most_failing(truths, self.sure)
        return Sieved(stays, 1.0 - failing / seen, seen)

    def _failing(self, options: Index, off: Array, musts: Sequence[Check]) -> Index:
        """In how many truths each design fails in a must of the flow."""
        found, pumps = np.zeros(len(options), dtype=np.intp), options[:, self.problem.position("pump")]
        step = max(1, CHUNK // len(off))
        tasks = [
            rows[start : start + step]
            for pump in np.unique(pumps)
            for rows in (np.flatnonzero(pumps == pump),)
            for start in range(0, len(rows), step)
        ]

        def one(rows: Index) -> None:
            truths = np.tile(off, (len(rows), 1))
            facts = sampled(_repeated(self.problem, options[rows], len(off)), self.unknowns, truths)
            state = walk_flow(facts)
            fails = np.zeros(len(truths), dtype=bool)
            for check in musts:
                fails |= check.function(getattr(state, check.block), facts.limits).status == FAILS
            found[rows] = fails.reshape(len(rows), len(off)).sum(axis=1)

        list(in_threads(one, tasks))
        return found


def _repeated(problem: Problem, options: Index, times: int) -> Facts:
    """The facts of designs of one pump, each so many times, one a row."""
    rows = np.repeat(options, times, axis=0)
    values = values_at([part.columns for part in problem.parts], list(rows.T))
    return problem.with_pump(int(options[0, problem.position("pump")])).with_values(values)
