"""The search says of every design what the walk says of it alone, and ranks what a plain sort would."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from lakewright.checks.registry import CHECKS
from lakewright.search.circuits import MUST_WORD, UNKNOWN_SHIFT, circuits_of, solve
from lakewright.search.flat import evaluate
from lakewright.search.parts import Problem
from lakewright.search.prune import hopeless
from lakewright.search.spread import Candidates, cost_of, prices_of, spread, words_of
from tests.search.problems import every, good, small, whole

pytestmark = pytest.mark.law

# Seeds under which something passes, something holds, only one check stands in the way, and nothing is near.
PROBLEMS = {f"seed {seed}": seed for seed in (0, 1, 4, 5, 7, 8, 10, 13, 18, 28, 38, 55)} | {"good": -1}


def problem_called(name: str) -> Problem:
    return good() if name == "good" else small(PROBLEMS[name])


def all_of(problem: Problem) -> Candidates:
    """Every design of a small problem, flat, with the words and margins of the walk."""
    sizes = (problem.spot.size, problem.line.size, problem.place.size, len(problem.pumps), problem.tank.size)
    index = [np.array(column, dtype=np.intp) for column in zip(*product(*map(range, sizes)), strict=True)]
    blank = np.zeros(len(index[0]))
    bare = Candidates(*index, np.zeros(len(index[0]), dtype=np.uint64), blank, blank, blank)
    word, margin = evaluate(problem, bare)
    prices = {pump: prices_of(problem, pump) for pump in range(len(problem.pumps))}
    price = np.array([prices[q][a, b, c, e] for a, b, c, q, e in zip(*index, strict=True)])
    return replace(bare, word=word, margin=margin, price=price, cost=cost_of(price, margin, problem.call_back))


@pytest.mark.parametrize("name", PROBLEMS)
def test_every_bit_and_margin_equals_flat_evaluation(name: str) -> None:
    problem = problem_called(name)
    flat = all_of(problem)
    solved = solve(problem, chunk=64)
    words = {pump: (word, margin) for pump, word, margin in words_of(problem, solved)}
    for n in range(len(flat)):
        place = (flat.spot[n], flat.line[n], flat.place[n], flat.tank[n])
        word, margin = words[int(flat.pump[n])]
        assert word[place] == flat.word[n]
        assert np.array_equal(margin[place], flat.margin[n], equal_nan=True)
    assert solved.circuits == circuits_of(problem) <= problem.choices


def test_ten_thousand_designs_drawn_from_all_stock_equal_flat_evaluation() -> None:
    problem = whole()
    problem = replace(problem, spot=every(problem.spot, 9), place=every(problem.place, 9), pumps=problem.pumps[::2])
    solved = solve(problem)
    words = {pump: (word, margin) for pump, word, margin in words_of(problem, solved)}
    draw = np.random.default_rng(9)
    sizes = (problem.spot.size, problem.line.size, problem.place.size, len(problem.pumps), problem.tank.size)
    index = [draw.integers(0, size, 10_000) for size in sizes]
    found = [words[q][0][a, b, c, e] for a, b, c, q, e in zip(*index, strict=True)]
    margins = np.array([words[q][1][a, b, c, e] for a, b, c, q, e in zip(*index, strict=True)])
    blank = np.zeros(10_000)
    word, margin = evaluate(problem, Candidates(*index, np.array(found), blank, blank, blank))
    assert np.array_equal(word, np.array(found))
    assert np.array_equal(margin.view(np.uint64), margins.view(np.uint64))


@pytest.mark.parametrize("chunk", [1, 7, 100_000])
def test_the_size_of_a_chunk_changes_nothing(chunk: int) -> None:
    problem = small(3)
    one, other = solve(problem, chunk=64), solve(problem, chunk=chunk)
    for name in ("word", "margin", "least_fill"):
        assert getattr(one, name).tobytes() == getattr(other, name).tobytes()


@pytest.mark.parametrize("name", PROBLEMS)
def test_failures_are_counted_as_a_plain_count_would(name: str) -> None:
    problem = problem_called(name)
    flat = all_of(problem)
    tally, _, _ = spread(problem, solve(problem))
    must = flat.word & MUST_WORD
    for number in range(len(CHECKS)):
        bits = np.uint64((1 << number) | (1 << (number + UNKNOWN_SHIFT)))
        assert tally.failed[number] == np.count_nonzero(flat.word & bits)
        assert tally.alone[number] == sum(int(w) in (1 << number, 1 << (number + UNKNOWN_SHIFT)) for w in must)
    assert tally.passing == np.count_nonzero(must == 0)
    assert tally.holding == np.count_nonzero((must == 0) & (flat.margin >= 1.0))


@pytest.mark.parametrize("name", PROBLEMS)
def test_the_first_that_holds_is_the_cheapest_that_holds(name: str) -> None:
    problem = problem_called(name)
    flat = all_of(problem)
    _, kept, missed = spread(problem, solve(problem))
    passes = (flat.word & MUST_WORD) == 0
    if not passes.any():
        assert len(kept) == 0
        single = (flat.word & MUST_WORD & ((flat.word & MUST_WORD) - np.uint64(1))) == 0
        assert len(missed) == min(6, int(single.sum()))
        if len(missed):
            assert missed.margin[0] == np.nanmax(flat.margin[single])
        return
    holds = passes & (flat.margin >= 1.0)
    if holds.any():
        assert kept.cost[kept.margin >= 1.0][0] == flat.cost[holds].min()
    assert kept.cost[0] == flat.cost[passes].min()
    assert np.all(np.diff(kept.cost) >= 0.0)
    # Nothing that passes is both cheaper and has more to spare than one on the staircase.
    for n in range(len(kept)):
        useful, mine = np.minimum(flat.margin, 1.0), min(float(kept.margin[n]), 1.0)
        better = passes & (flat.cost < kept.cost[n]) & (useful > mine)
        assert mine >= 1.0 or not better.any()


def test_the_problems_above_meet_every_end() -> None:
    ends = []
    for name in PROBLEMS:
        tally, kept, missed = spread(problem_called(name), solve(problem_called(name)))
        ends.append((tally.holding > 0, tally.passing > 0, len(kept) > 0, len(missed) > 0))
    assert (True, True, True, False) in ends
    assert (False, True, True, False) in ends
    assert (False, False, False, True) in ends
    assert (False, False, False, False) in ends


def test_twice_the_same_search_is_the_same_choice() -> None:
    problem = good()
    first, second = (spread(problem, solve(problem))[1] for _ in range(2))
    for name in Candidates.__dataclass_fields__:
        assert getattr(first, name).tobytes() == getattr(second, name).tobytes()


def test_ties_fall_to_the_earlier_option() -> None:
    problem = good()
    twin = replace(problem.tank, labels=problem.tank.labels * 2)
    twin = replace(
        twin,
        columns={name: np.tile(column, 2) for name, column in twin.columns.items()},
        price=np.tile(twin.price, 2),
        price_per_length=np.tile(twin.price_per_length, 2),
    )
    _, plain, _ = spread(problem, solve(problem))
    _, doubled, _ = spread(replace(problem, tank=twin), solve(replace(problem, tank=twin)))
    both = [set(zip(some.cost, some.margin, strict=True)) for some in (plain, doubled)]
    assert both[0] == both[1]
    first = doubled.take(np.arange(1))
    assert int(first.tank[0]) < problem.tank.size


@pytest.mark.parametrize("seed", range(6))
def test_sorting_out_the_hopeless_loses_no_design_and_tells_no_untruth(seed: int) -> None:
    problem = small(seed)
    exact, sorted_out = solve(problem), solve(problem, sort_out=hopeless)
    solved = sorted_out.margin != -np.inf
    assert np.array_equal(sorted_out.word[solved], exact.word[solved])
    assert np.array_equal(sorted_out.margin[solved], exact.margin[solved], equal_nan=True)
    assert np.array_equal(sorted_out.word & exact.word, sorted_out.word)
    assert np.all((exact.word[~solved] & MUST_WORD) != 0)
    assert (~solved).any()


def test_unknown_facts_pass_nothing_and_are_named() -> None:
    problem = small(2, {"site.elevation": ""})
    tally, kept, _ = spread(problem, solve(problem))
    assert len(kept) == 0
    lift = next(n for n, check in enumerate(CHECKS) if check.name == "lift_is_within_practice")
    assert tally.failed[lift] == problem.choices
