"""Every distinct circuit solved once, judged, and its failures spread to all the designs that share it.

A State is never held: a chunk of circuits is walked, judged, reduced to one word of failed checks and the worst
margin, and dropped. Circuits are gone through pump by pump, so that a chunk shares one pump's curve.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from math import prod
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from lakewright.checks.registry import FLOW_CHECKS
from lakewright.checks.verdict import FAILS, UNKNOWN, Check, Verdict
from lakewright.physics.types import Array
from lakewright.search.memory import keep_freed_memory
from lakewright.search.parts import Ends, Index, Part, Problem, count_of, joined, values_at
from lakewright.search.tank import HANDED, tank_checks
from lakewright.state.facts import Facts
from lakewright.state.limits import Limits
from lakewright.state.walk import State, walk_flow

CHUNK = 2048
"""ours: circuits walked together; a chunk's arrays stay in a core's cache."""

THREADS = min(2, os.cpu_count() or 1)
"""ours: numpy lets go of the interpreter's lock in long enough strokes for two threads."""

Task = TypeVar("Task")
Done = TypeVar("Done")

Word = NDArray[np.uint64]
"""One bit a check, set where it fails or is unknown: neither passes. A must that is unknown has a margin of nan."""

MUST = np.uint64(sum(1 << n for n, check in enumerate(FLOW_CHECKS) if check.force == "must"))


@dataclass(frozen=True)
class Rows:
    """The distinct rows of what a part does to the flow, and which of them each option has."""

    columns: Mapping[str, Array]
    of_option: Index
    size: int


@dataclass(frozen=True)
class Solved:
    """What is kept of the circuits: the product of the distinct rows of every part, laid out flat."""

    word: Word
    margin: Array  # worst margin of the musts that do not hang on the tank
    handed: Mapping[str, Array]  # by block, what the checks that hang on the tank need
    rows: tuple[Rows, ...]
    circuits: int  # solved
    exact: bool  # whether every circuit was solved, and so every failure counted

    def circuit_at(self, index: Sequence[Index]) -> Index:
        """The circuit that designs have, `index` as in `Problem.joins_at`."""
        return _flat(self.rows, [rows.of_option[some] for rows, some in zip(self.rows, index, strict=True)])


def _flat(parts: Sequence[Rows], rows: Sequence[Index]) -> Index:
    """The number of the circuit that has these rows, one a part."""
    found = np.zeros(1, dtype=np.intp)
    for part, some in zip(parts, rows, strict=True):
        found = found * part.size + some
    return found


def word_and_margin(verdicts: Sequence[tuple[int, Verdict]], shape: tuple[int, ...]) -> tuple[Word, Array]:
    """One word of the checks that fail or are unknown, and the worst margin of the musts."""
    word, worst = np.zeros(shape, dtype=np.uint64), np.full(shape, np.inf)
    for number, verdict in verdicts:
        word |= ((verdict.status == FAILS) | (verdict.status == UNKNOWN)) * np.uint64(1 << number)
        if FLOW_CHECKS[number].force == "must":
            worst = np.minimum(worst, verdict.margin)
    return word, worst


def judge_some(state: State, limits: Limits, numbers: Sequence[int]) -> list[tuple[int, Verdict]]:
    """Verdicts of some checks, by their numbers in `FLOW_CHECKS`."""
    return [(n, _ask(FLOW_CHECKS[n], state, limits)) for n in numbers]


def _ask(check: Check, state: State, limits: Limits) -> Verdict:
    return check.function(getattr(state, check.block), limits)


def distinct_rows(part: Part) -> Rows:
    """A part's distinct rows of facts; all options of a part that sets none are alike."""
    if not part.columns:
        return Rows({}, np.zeros(part.size, dtype=np.intp), 1)
    table = np.concatenate(list(part.columns.values()), axis=1)
    _, first, of_option = np.unique(table, axis=0, return_index=True, return_inverse=True)
    return Rows({name: column[first] for name, column in part.columns.items()}, of_option.reshape(-1), len(first))


def rows_of_parts(problem: Problem) -> tuple[Rows, ...]:
    """The distinct rows of every part. Each pump is one of its own, and the flow does not feel the tank."""
    pumps = np.arange(len(problem.pumps))
    apart = {
        "pump": Rows({}, pumps, len(pumps)),
        "tank": Rows({}, np.zeros(problem.part("tank").size, dtype=np.intp), 1),
    }
    return tuple(apart.get(part.name) or distinct_rows(part) for part in problem.parts)


def rows_that_join(problem: Problem, rows: Sequence[Rows]) -> list[Ends]:
    """Which rows of two parts some options of theirs join."""
    ends = []
    for one, other, joins in problem.ends_that_join:
        found = np.zeros((rows[one].size, rows[other].size), dtype=bool)
        np.logical_or.at(found, np.ix_(rows[one].of_option, rows[other].of_option), joins)
        ends.append((one, other, found))
    return ends


def circuits_of(problem: Problem) -> int:
    """How many distinct circuits a problem has, as far as each pair by itself tells."""
    rows = rows_of_parts(problem)
    return count_of([each.size for each in rows], rows_that_join(problem, rows))


def _tasks(problem: Problem, rows: Sequence[Rows], chunk: int) -> Iterator[tuple[int, Index]]:
    """Circuits that some design has, a pump and a chunk at a time."""
    at, ends = problem.position("pump"), rows_that_join(problem, rows)
    for pump in range(len(problem.pumps)):
        mesh = np.ix_(*(np.array([pump]) if n == at else np.arange(each.size) for n, each in enumerate(rows)))
        circuits = _flat(rows, mesh)[joined(ends, mesh)]
        for start in range(0, len(circuits), chunk):
            yield pump, circuits[start : start + chunk]


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
    rows = rows_of_parts(problem)
    sizes, columns = tuple(each.size for each in rows), [each.columns for each in rows]
    shape = prod(sizes)
    asked = [n for n in range(len(FLOW_CHECKS)) if n not in tank_checks(problem)]
    blocks = {FLOW_CHECKS[n].block for n in tank_checks(problem)}
    word, margin = np.zeros(shape, dtype=np.uint64), np.full(shape, -np.inf)
    handed = {block: np.full(shape, HANDED[block].easiest) for block in blocks}

    def one(task: tuple[int, Index]) -> int:
        pump, circuits = task
        done = len(circuits)
        if sort_out is not None:
            facts = facts_at(pump, circuits)
            word[circuits] = out = np.broadcast_to(sort_out(facts), circuits.shape)
            circuits = circuits[out == 0]
        if len(circuits):
            facts = facts_at(pump, circuits)
            state = walk_flow(facts)
            verdicts = judge_some(state, facts.limits, asked)
            word[circuits], margin[circuits] = word_and_margin(verdicts, circuits.shape)
            for block, kept in handed.items():
                kept[circuits] = HANDED[block].kept(state)
        return done

    def facts_at(pump: int, circuits: Index) -> Facts:
        return problem.with_pump(pump).with_values(values_at(columns, np.unravel_index(circuits, sizes)))

    tasks = list(_tasks(problem, rows, chunk))
    done, count = 0, sum(len(circuits) for _, circuits in tasks)
    for finished in in_threads(one, tasks):
        done += finished
        if progress is not None:
            progress(done, count)
    return Solved(word, margin, handed, rows, count, exact=sort_out is None)


def in_threads(one: Callable[[Task], Done], tasks: Sequence[Task]) -> Iterator[Done]:
    """What comes of each task, in their order, two at a time where there are enough of them."""
    if THREADS == 1 or len(tasks) < 4:
        yield from map(one, tasks)
        return
    with ThreadPoolExecutor(THREADS) as pool:
        yield from pool.map(one, tasks)
