"""A job's numbers depend on that job alone, to the last bit: on no neighbour, no chunk, no order of days."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, replace
from functools import cache
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from benchmarks import plain
from lakewright.checks.registry import CHECKS, judge
from lakewright.state.cases import cases_of
from lakewright.state.control_facts import HELD, STORE
from lakewright.state.facts import DayFacts, Facts
from lakewright.state.walk import State, walk
from tests.made import (
    batch_of_numbers,
    blocks_of,
    facts_of_numbers,
    random_batch,
    random_controlled,
    rows_of_facts,
)

pytestmark = pytest.mark.law

KINDS = ("centrifugal", "jet")
EVERY = (*KINDS, *HELD, STORE)
"""Of pump, with a pressure switch; and a centrifugal pump with each of the others in its place."""
JOBS = 500
DAYS = 3
"""ours: with both kinds a thousand jobs, eighteen running cases each."""


def bits(array: NDArray[Any]) -> NDArray[Any]:
    """The raw bits of an array, every nan the same one."""
    if array.dtype.kind != "f":
        return array
    whole = np.where(np.isnan(array), np.nan, array)
    return np.ascontiguousarray(whole).view(np.uint64)


def same_bits(one: NDArray[Any], other: NDArray[Any]) -> bool:
    return one.dtype == other.dtype and np.array_equal(bits(one), bits(other))


def row_of(array: NDArray[Any], row: int | NDArray[np.intp]) -> NDArray[Any]:
    """One row of a block's array; what has no leading axis is the same for all rows."""
    return array[row] if array.ndim > 1 else array


def different(batch: State, rows: int | NDArray[np.intp], other: State) -> list[str]:
    """Names of the fields of `other` whose bits are not those of these rows of the batch."""
    pairs = zip(blocks_of(batch), blocks_of(other), strict=True)
    return [name for (name, whole), (_, part) in pairs if not same_bits(row_of(whole, rows), part)]


@cache
def batch(kind: str) -> tuple[Facts, State]:
    facts = (random_batch if kind in KINDS else random_controlled)(11, JOBS, kind, DAYS)
    return facts, walk(facts)


@pytest.mark.parametrize("kind", KINDS)
def test_alone_equals_its_row(kind: str) -> None:
    facts, state = batch(kind)
    found = {n: names for n in range(JOBS) if (names := different(state, n, walk(rows_of_facts(facts, n))))}
    assert found == {}


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", ["delivery.flow_control", "delivery.length", "suction.bed_length", "site.elevation"])
def test_a_batch_in_which_one_fact_alone_differs_equals_its_rows(kind: str, name: str) -> None:
    """Three rows, as many as there are pipes: what is one for all rows must not be taken for one a pipe."""
    job = rows_of_facts(batch(kind)[0], 3)
    values = np.array([[0.4], [0.7], [1.0]]) * (1e-3 if name == "delivery.flow_control" else job.value(name))
    whole = walk(job.with_values({name: values}))
    for n in range(3):
        assert different(whole, n, walk(job.with_values({name: values[n]}))) == []


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("size", [1, 7, 64])
def test_any_chunk_size_gives_the_same_bits(kind: str, size: int) -> None:
    facts, state = batch(kind)
    # Chunks of one are as many walks as jobs: a part of them is enough beside the test above.
    for start in range(0, JOBS if size > 1 else 100, size):
        rows = np.arange(start, min(start + size, JOBS))
        assert different(state, rows, walk(rows_of_facts(facts, rows))) == [], f"rows from {start}"


@pytest.mark.parametrize("kind", EVERY)
@pytest.mark.parametrize("seed", range(3))
def test_any_neighbours_give_the_same_bits(kind: str, seed: int) -> None:
    facts, state = batch(kind)
    random = np.random.default_rng(seed)
    shuffled = random.permutation(JOBS)
    repeated = random.integers(JOBS, size=3 * JOBS)
    alone_among_one = np.where(np.arange(JOBS) == seed, seed, JOBS - 1)
    for rows in (shuffled, repeated, alone_among_one):
        assert different(state, rows, walk(rows_of_facts(facts, rows))) == []


@pytest.mark.parametrize("kind", EVERY)
def test_verdicts_are_the_same_alone(kind: str) -> None:
    facts, state = batch(kind)
    whole = judge(state, facts.limits)
    for row in range(0, JOBS, 5):
        alone = judge(walk(rows_of_facts(facts, row)), facts.limits)
        for check, many, one in zip(CHECKS, whole, alone, strict=True):
            assert same_bits(np.broadcast_to(many.margin, (JOBS,))[row], one.margin), (check.name, row)
            assert np.broadcast_to(many.status, (JOBS,))[row] == one.status, (check.name, row)
            assert np.broadcast_to(many.case, (JOBS,))[row] == one.case, (check.name, row)


@pytest.mark.parametrize("kind", KINDS)
def test_jobs_read_one_by_one_equal_their_batch(kind: str) -> None:
    jobs = [plain.random_job(seed, kind) for seed in range(80)]
    for days in range(1, 7):
        alike = [job for job in jobs if len(job["days"]["level"]) == days]
        state = walk(batch_of_numbers(alike))
        for row, job in enumerate(alike):
            assert different(state, row, walk(facts_of_numbers(job))) == [], (days, row)


# Days

ORDERS = ([2, 0, 1], [0, 2, 1], [2, 1, 0])


def with_days(facts: Facts, order: Sequence[int]) -> Facts:
    """The same jobs with some of their days, in this order, copied: no reversed view."""
    picked = (np.ascontiguousarray(getattr(facts.days, f.name)[..., list(order)]) for f in fields(DayFacts))
    return replace(facts, days=DayFacts(*picked), day_names=tuple(facts.day_names[n] for n in order))


BY_GERM = "barriers."
"""Blocks whose last axis is the germs, each on its worst day."""


def in_order(array: NDArray[Any], order: Sequence[int]) -> NDArray[Any]:
    """A block's array over all days as it should be over some of them in this order."""
    each = array.shape[-1] // DAYS
    if each == 0:
        return array
    by_day = array.reshape(*array.shape[:-1], DAYS, each)[..., list(order), :]
    return by_day.reshape(*array.shape[:-1], len(order) * each)


@pytest.mark.parametrize("kind", EVERY)
@pytest.mark.parametrize("order", [*ORDERS, [0], [2], [1, 2], [1, 1, 0]], ids=str)
def test_days_in_any_order_give_the_same_bits(kind: str, order: list[int]) -> None:
    facts, state = batch(kind)
    other = walk(with_days(facts, order))
    pairs = zip(blocks_of(state), blocks_of(other), strict=True)
    by_germ = [pair for pair in pairs if pair[0][0].startswith(BY_GERM)]
    by_case = zip(blocks_of(state), blocks_of(other), strict=True)
    found = [
        name
        for (name, whole), (_, part) in by_case
        if not (name.startswith(BY_GERM) or same_bits(in_order(whole, order), part))
    ]
    assert found == []
    # Of all its days in any order the worst is the same; of some of them it is no worse.
    for (name, whole), (_, part) in by_germ:
        assert np.all(part >= whole), name
        assert sorted(set(order)) != list(range(DAYS)) or same_bits(whole, part), name


@pytest.mark.parametrize("kind", EVERY)
def test_another_day_never_raises_a_margin(kind: str) -> None:
    facts, state = batch(kind)
    more = judge(state, facts.limits)
    for some in ([0], [1], [0, 1], [1, 2]):
        less = judge(walk(with_days(facts, some)), facts.limits)
        for check, one, other in zip(CHECKS, less, more, strict=True):
            before, after = np.broadcast_arrays(one.margin, other.margin)
            # Unknown stays unknown; what was known may become so.
            assert ((after <= before) | np.isnan(after)).all(), (check.name, some)
            assert np.isnan(after[np.isnan(before)]).all(), (check.name, some)


def test_the_lists_of_cases_have_the_days_of_the_job() -> None:
    cases = cases_of(DAYS)
    assert len(cases.running_day) == 6 * DAYS
    assert len(cases.standing_day) == len(cases.filling_day) == DAYS
