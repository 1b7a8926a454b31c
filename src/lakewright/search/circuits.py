"""Every distinct circuit solved once, judged, and its failures spread to all the designs that share it.

A State is never held: a chunk of circuits is walked, judged, reduced to one word of failed checks and the worst
margin, and dropped. Circuits are gone through pump by pump, so that a chunk shares one pump's curve.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from lakewright.checks.registry import CHECKS
from lakewright.checks.verdict import FAILS, UNKNOWN, Check, Verdict
from lakewright.physics.types import Array
from lakewright.search.memory import keep_freed_memory
from lakewright.search.parts import Part, Problem, PumpOption
from lakewright.state.facts import Facts
from lakewright.state.limits import Limits
from lakewright.state.walk import State, walk

CHUNK = 2048
"""ours: circuits walked together; a chunk's arrays stay in a core's cache."""

THREADS = min(2, os.cpu_count() or 1)
"""ours: numpy lets go of the interpreter's lock in long enough strokes for two threads."""

TANK = {"delivery.tank_volume", "delivery.tank_bears"}
Word = NDArray[np.uint64]

TANK_CHECKS = tuple(n for n, check in enumerate(CHECKS) if TANK & {*check.needs})
FLOW_CHECKS = tuple(n for n in range(len(CHECKS)) if n not in TANK_CHECKS)
UNKNOWN_SHIFT = 32
"""Low half of a word: checks that fail; high half: checks that are unknown."""

MUST = np.uint64(sum(1 << n for n, check in enumerate(CHECKS) if check.force == "must"))
MUST_WORD = np.uint64(MUST | (MUST << np.uint64(UNKNOWN_SHIFT)))


@dataclass(frozen=True)
class Solved:
    """What is kept of the circuits. Axes: pump, circuit (distinct spot x line x place)."""

    word: Word
    margin: Array  # worst margin of the musts that do not hang on the tank
    least_fill: Array  # s/m3, shortest filling for each unit of tank volume
    most_shut_off: Array  # Pa gauge, that the tank must bear
    inverse: tuple[NDArray[np.intp], ...]  # for spot, line and place: option -> distinct row
    distinct: tuple[int, int, int]
    exact: bool  # whether every circuit was solved, and so every failure counted

    @property
    def circuits(self) -> int:
        """How many circuits were solved."""
        return int(self.word.size)


def word_and_margin(verdicts: Sequence[tuple[int, Verdict]]) -> tuple[Word, Array]:
    """One word of failed and unknown checks, and the worst margin of the musts."""
    shape = verdicts[0][1].margin.shape
    word, worst = np.zeros(shape, dtype=np.uint64), np.full(shape, np.inf)
    for number, verdict in verdicts:
        word |= (verdict.status == FAILS) * np.uint64(1 << number)
        word |= (verdict.status == UNKNOWN) * np.uint64(1 << (number + UNKNOWN_SHIFT))
        if CHECKS[number].force == "must":
            worst = np.minimum(worst, verdict.margin)
    return word, worst


def judge_some(state: State, limits: Limits, numbers: Sequence[int]) -> list[tuple[int, Verdict]]:
    """Verdicts of some checks, by their numbers in `CHECKS`."""
    return [(n, _ask(CHECKS[n], state, limits)) for n in numbers]


def _ask(check: Check, state: State, limits: Limits) -> Verdict:
    return check.function(getattr(state, check.block), limits)


def distinct_rows(part: Part) -> tuple[dict[str, Array], NDArray[np.intp]]:
    """A part's distinct rows of what the flow depends on, and which of them each option has."""
    names = sorted(part.columns)
    table = np.stack([part.columns[name] for name in names], axis=1)
    rows, inverse = np.unique(table, axis=0, return_inverse=True)
    return {name: np.ascontiguousarray(rows[:, n]) for n, name in enumerate(names)}, inverse.reshape(-1)


def with_pump(facts: Facts, pump: PumpOption) -> Facts:
    """The facts with one pump for all rows."""
    return replace(facts, pump=replace(pump.facts, height=facts.pump.height), pump_kind=pump.kind)


def solve(
    problem: Problem,
    progress: Callable[[int, int], None] | None = None,
    chunk: int = CHUNK,
    sort_out: Callable[[Facts], Word] | None = None,
) -> Solved:
    """Solve and judge every distinct circuit.

    Parameters
    ----------
    problem : parts and the facts they stand on
    progress : called with circuits done and circuits in all, from time to time
    chunk : circuits walked together; changes the time and nothing else
    sort_out : gives the words of circuits that surely fail; they are not solved, and failures are then counted at least
    """
    keep_freed_memory()
    parts = [distinct_rows(part) for part in (problem.spot, problem.line, problem.place)]
    sizes = tuple(len(_any_column(rows)) for rows, _ in parts)
    count, pumps = int(np.prod(sizes)), len(problem.pumps)
    word = np.zeros((pumps, count), dtype=np.uint64)
    margin, fill = np.full((pumps, count), -np.inf), np.full((pumps, count), np.inf)
    shut_off = np.full((pumps, count), -np.inf)

    def facts_at(pump: int, circuits: NDArray[np.intp]) -> Facts:
        columns = {
            name: np.ascontiguousarray(column[where])[:, None]
            for (rows, _), where in zip(parts, np.unravel_index(circuits, sizes), strict=True)
            for name, column in rows.items()
        }
        return with_pump(problem.facts, problem.pumps[pump]).with_values(columns)

    def one(task: tuple[int, int]) -> int:
        pump, start = task
        circuits = np.arange(start, min(start + chunk, count))
        done = len(circuits)
        if sort_out is not None:
            word[pump, circuits] = out = np.broadcast_to(sort_out(facts_at(pump, circuits)), circuits.shape)
            circuits = circuits[out == 0]
        if len(circuits):
            facts = facts_at(pump, circuits)
            state = walk(facts)
            word[pump, circuits], margin[pump, circuits] = word_and_margin(judge_some(state, facts.limits, FLOW_CHECKS))
            fill[pump, circuits] = state.filling.per_volume.min(axis=-1)
            shut_off[pump, circuits] = state.shut_off.at_tank.max(axis=-1)
        return done

    tasks = [(pump, start) for pump in range(pumps) for start in range(0, count, chunk)]
    done = 0
    for finished in _run(one, tasks):
        done += finished
        if progress is not None:
            progress(done, pumps * count)
    inverse = tuple(inv for _, inv in parts)
    return Solved(word, margin, fill, shut_off, inverse, (sizes[0], sizes[1], sizes[2]), exact=sort_out is None)


def circuits_of(problem: Problem) -> int:
    """How many distinct circuits a problem has."""
    parts = (problem.spot, problem.line, problem.place)
    return len(problem.pumps) * int(np.prod([len(_any_column(distinct_rows(part)[0])) for part in parts]))


def _any_column(rows: dict[str, Array]) -> Array:
    """Any one column of a table of distinct rows: they all have its length."""
    return next(iter(rows.values()))


def _run(one: Callable[[tuple[int, int]], int], tasks: Sequence[tuple[int, int]]) -> Iterator[int]:
    if THREADS == 1 or len(tasks) < 4:
        yield from map(one, tasks)
        return
    with ThreadPoolExecutor(THREADS) as pool:
        yield from pool.map(one, tasks)
