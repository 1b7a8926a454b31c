"""The search says of every design what the walk says of it alone, and ranks what a plain sort would."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

import numpy as np
import pytest

from lakewright.checks.registry import FLOW_CHECKS
from lakewright.physics.types import Array
from lakewright.search import circuits
from lakewright.search.circuits import MUST, Solved, Word, circuits_of, solve
from lakewright.search.flat import evaluate, facts_of_designs
from lakewright.search.option import said
from lakewright.search.options import problem_of
from lakewright.search.parts import Index, Pair, Problem
from lakewright.search.prune import hopeless
from lakewright.search.spread import FEW, Candidates, Tally, cost_of, slabs_of, spread
from lakewright.search.tank import HANDED, tank_checks
from lakewright.state.assemble import facts_of
from lakewright.state.facts import PICKED_TABLES, every_fact
from lakewright.stock.load import load_stock
from lakewright.stock.table import NOMINAL
from tests.search.problems import CONTROLLED, EVERYTHING, controlled, good, job_with, small, some_of, whole

pytestmark = pytest.mark.law

# Seeds under which something passes, something holds, only one check stands in the way, nothing is near, nothing joins;
# every third seed leaves every part open, the others all but the stand's and the delivery's.
PROBLEMS = {f"seed {seed}": seed for seed in (1, 3, 4, 6, 9, 10, 12, 16, 18, 21, 24, 32, 39)} | {"good": -1}


@cache
def problem_called(name: str) -> Problem:
    return good() if name == "good" else small(PROBLEMS[name])


@dataclass(frozen=True)
class Everything:
    """What the search says of the whole product, one axis a part."""

    word: Word
    margin: Array
    price: Array
    joins: np.ndarray


def spread_out(problem: Problem, solved: Solved) -> Everything:
    found = Everything(*(np.empty(problem.sizes, dtype=kind) for kind in (np.uint64, float, float, bool)))
    seen = np.zeros(problem.sizes, dtype=int)
    for slab in slabs_of(problem, solved):
        seen[slab.index] += 1
        for name in ("word", "margin", "price", "joins"):
            getattr(found, name)[slab.index] = getattr(slab, name)
    assert np.all(seen == 1)
    return found


def joins(problem: Problem, options: Index) -> np.ndarray:
    """Design by design and pair by pair."""
    names = [part.name for part in problem.parts]
    return np.array(
        [
            all(pair.joins[row[names.index(pair.one)], row[names.index(pair.other)]] for pair in problem.pairs)
            for row in options
        ],
        dtype=bool,
    )


def price_of(problem: Problem, option: Index) -> float:
    """One design's price, added up by hand."""
    ((_, batch),) = facts_of_designs(problem, option[None, :])
    facts, total = batch.first_row(), problem.price
    suction = float((facts.suction.bed_length + facts.suction.bank_length)[0] * (1.0 + facts.suction.along[0]))
    for part, n in zip(problem.parts, option, strict=True):
        total += part.price[n]
        if part.line:
            total += part.price_per_length[n] * (suction if part.line == "suction" else facts.delivery.length[0])
    return float(np.rint(total))


@cache
def flat_of(name: str) -> Candidates:
    return all_of(problem_called(name))


def all_of(problem: Problem) -> Candidates:
    """Every design of a small problem whose parts join, flat, with the words and margins of the walk."""
    options = np.stack([axis.ravel() for axis in np.indices(problem.sizes)], axis=1)
    options = options[joins(problem, options)]
    word, margin = evaluate(problem, options)
    price = np.array([price_of(problem, option) for option in options])
    return Candidates(options, word, margin, price, cost_of(price, margin, problem.call_back))


@pytest.mark.parametrize("name", PROBLEMS)
def test_every_bit_margin_and_price_equals_flat_evaluation(name: str) -> None:
    problem = problem_called(name)
    flat, solved = flat_of(name), solve(problem, chunk=64)
    found = spread_out(problem, solved)
    assert problem.choices == len(flat) == np.count_nonzero(found.joins)
    at = tuple(flat.options.T)
    assert np.array_equal(found.word[at], flat.word)
    assert found.margin[at].tobytes() == flat.margin.tobytes()
    assert np.array_equal(found.price[at], flat.price)
    assert solved.circuits == circuits_of(problem) <= problem.choices


@pytest.mark.parametrize("seed", [4, 7])
@pytest.mark.parametrize("kind", CONTROLLED)
def test_with_something_else_than_a_switch_every_bit_equals_flat_evaluation(kind: str, seed: int) -> None:
    problem = controlled(kind, seed)
    flat, solved, sorted_out = all_of(problem), solve(problem, chunk=64), solve(problem, sort_out=hopeless)
    found = spread_out(problem, solved)
    at = tuple(flat.options.T)
    assert len(flat) > 0
    assert np.array_equal(found.word[at], flat.word)
    assert found.margin[at].tobytes() == flat.margin.tobytes()
    # What is sorted out before solving surely fails one of what is asked of this kind.
    assert np.array_equal(sorted_out.word & solved.word, sorted_out.word)
    unsolved = (sorted_out.margin == -np.inf) & (solved.margin != -np.inf)
    assert np.all((solved.word[unsolved] & MUST) != 0)


def equal_to_flat(problem: Problem, drawn: int) -> None:
    """So many designs drawn from a whole problem, each equal to the last bit."""
    solved, draw = solve(problem), np.random.default_rng(9)
    options = np.stack([draw.integers(0, size, drawn) for size in problem.sizes], axis=1)
    options = options[problem.joins_at(list(options.T))]
    found = spread_out(problem, solved)
    word, margin = evaluate(problem, options)
    at = tuple(options.T)
    assert np.array_equal(word, found.word[at])
    assert margin.tobytes() == found.margin[at].tobytes()


@pytest.mark.parametrize("drawn", [500, pytest.param(10_000, marks=pytest.mark.slow)])
def test_designs_drawn_from_all_stock_equal_flat_evaluation(drawn: int) -> None:
    step = 9 if drawn > 500 else 17
    every = {"spot": slice(None, None, step), "pump place": slice(None, None, step), "pump": slice(None, None, 2)}
    equal_to_flat(some_of(whole(), every), drawn)


@pytest.mark.parametrize("drawn", [500, pytest.param(10_000, marks=pytest.mark.slow)])
def test_designs_drawn_with_every_part_open_equal_flat_evaluation(drawn: int) -> None:
    problem, draw = whole(EVERYTHING), np.random.default_rng(4)
    most = {"pump": 4, "line": 4, "foot valve": 3}
    few = {
        part.name: np.sort(draw.choice(part.size, min(part.size, most.get(part.name, 2)), replace=False))
        for part in problem.parts
    }
    few["foot valve"] = np.arange(problem.part("foot valve").size)[-3:]
    equal_to_flat(some_of(problem, few), drawn)


@pytest.mark.parametrize("seed", [0, 4, 6, 18, 21])
def test_a_design_is_the_job_with_its_choices_written_in(seed: int) -> None:
    """What is put together part by part is what the job itself would say with every choice in its place."""

    problem, job = small(seed), job_with(EVERYTHING if seed % 3 == 0 else {})
    draw = np.random.default_rng(seed)
    for _ in range(12):
        option = np.array([draw.integers(0, size) for size in problem.sizes])
        written = job
        for part, n in zip(problem.parts, option, strict=True):
            written = said(written, part.says[n])
        alone = facts_of(written, load_stock()).facts
        ((_, batch),) = facts_of_designs(problem, option[None, :])
        facts = batch.first_row()
        assert facts.pump_kind == alone.pump_kind
        for name in every_fact():
            if name.partition(".")[0] in PICKED_TABLES:
                continue  # of what is picked alone: no check of all designs reads them
            one, other = facts.value(name), alone.value(name)
            if isinstance(one, np.ndarray):
                assert np.array_equal(one, other, equal_nan=True), name
            else:
                for field in type(one).__dataclass_fields__:
                    assert np.array_equal(getattr(one, field), getattr(other, field), equal_nan=True), name


@pytest.mark.parametrize("threads", [1, 2])
@pytest.mark.parametrize("chunk", [1, 7, 100_000])
def test_neither_the_size_of_a_chunk_nor_threads_change_anything(
    chunk: int, threads: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    problem = small(6)
    one = solve(problem, chunk=64)
    monkeypatch.setattr(circuits, "THREADS", threads)
    other = solve(problem, chunk=chunk)
    assert one.word.tobytes() == other.word.tobytes()
    assert one.margin.tobytes() == other.margin.tobytes()
    assert {n: a.tobytes() for n, a in one.handed.items()} == {n: a.tobytes() for n, a in other.handed.items()}
    assert one.handed


@pytest.mark.parametrize("name", ["seed 18", "good"])
@pytest.mark.parametrize("few", [FEW, 30])
@pytest.mark.parametrize("slab", [1, 5, 64])
def test_the_size_of_a_slab_changes_nothing(name: str, slab: int, few: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("lakewright.search.spread.FEW", few)
    problem = problem_called(name)
    solved = solve(problem)
    whole_tally, whole_kept, whole_missed = spread(problem, solved)
    monkeypatch.setattr("lakewright.search.parts.SLAB", slab)
    tally, kept, missed = spread(problem, solved)
    assert np.array_equal(tally.failed, whole_tally.failed)
    assert np.array_equal(tally.alone, whole_tally.alone)
    assert (tally.passing, tally.holding) == (whole_tally.passing, whole_tally.holding)
    for one, other in ((kept, whole_kept), (missed, whole_missed)):
        for field in Candidates.__dataclass_fields__:
            assert getattr(one, field).tobytes() == getattr(other, field).tobytes()


@pytest.mark.parametrize("name", PROBLEMS)
def test_failures_are_counted_as_a_plain_count_would(name: str) -> None:
    problem = problem_called(name)
    counted_as(flat_of(name), spread(problem, solve(problem))[0])


def counted_as(flat: Candidates, tally: Tally) -> None:
    must = flat.word & MUST
    for number in range(len(FLOW_CHECKS)):
        assert tally.failed[number] == np.count_nonzero(flat.word & np.uint64(1 << number))
        assert tally.alone[number] == sum(int(w) == 1 << number for w in must)
    assert tally.passing == np.count_nonzero(must == 0)
    assert tally.holding == np.count_nonzero((must == 0) & (flat.margin >= 1.0))


@pytest.mark.parametrize("few", [FEW, 1])
@pytest.mark.parametrize("name", PROBLEMS)
def test_the_first_that_holds_is_the_cheapest_that_holds(name: str, few: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("lakewright.search.spread.FEW", few)
    problem = problem_called(name)
    flat = flat_of(name)
    _, kept, missed = spread(problem, solve(problem))
    passes = (flat.word & MUST) == 0
    if not passes.any():
        assert len(kept) == 0
        single = (flat.word & MUST & ((flat.word & MUST) - np.uint64(1))) == 0
        assert len(missed) == min(6, int(single.sum()))
        if len(missed):
            assert missed.margin[0] == np.nanmax(flat.margin[single])
        return
    holds = passes & (flat.margin >= 1.0)
    if holds.any():
        assert kept.cost[kept.margin >= 1.0][0] == flat.cost[holds].min()
    assert kept.cost[0] == flat.cost[passes].min()
    assert np.all(np.diff(kept.cost) >= 0.0)
    # Nothing that passes is both cheaper and has more to spare than one on the staircase, and no step is left out.
    useful = np.minimum(flat.margin, 1.0)
    if passes.sum() <= few:
        assert len(kept) == passes.sum()
    for n in range(len(kept) if passes.sum() > few else 0):
        mine = min(float(kept.margin[n]), 1.0)
        better = passes & (flat.cost < kept.cost[n]) & (useful > mine)
        assert mine >= 1.0 or not better.any()
    steps = {(cost, m) for cost, m in zip(kept.cost, np.minimum(kept.margin, 1.0), strict=True)}
    for n in np.flatnonzero(passes):
        as_good = passes & (flat.cost <= flat.cost[n]) & (useful >= useful[n])
        same = (flat.cost == flat.cost[n]) & (useful == useful[n])
        assert (as_good & ~same).any() or (flat.cost[n], useful[n]) in steps


def test_the_problems_above_meet_every_end() -> None:
    ends, kinds, choices = [], set(), []
    for name in PROBLEMS:
        problem = problem_called(name)
        tally, kept, missed = spread(problem, solve(problem))
        ends.append((tally.holding > 0, tally.passing > 0, len(kept) > 0, len(missed) > 0))
        kinds |= {option.kind for option in problem.pumps}
        choices.append(problem.choices)
    assert (True, True, True, False) in ends
    assert (False, True, True, False) in ends
    assert (False, False, False, True) in ends
    assert (False, False, False, False) in ends
    assert kinds == {"centrifugal", "jet"}
    assert 0 in choices


def test_twice_the_same_search_is_the_same_choice() -> None:
    problem = good()
    first, second = (spread(problem, solve(problem))[1] for _ in range(2))
    for name in Candidates.__dataclass_fields__:
        assert getattr(first, name).tobytes() == getattr(second, name).tobytes()


def test_ties_fall_to_the_earlier_option() -> None:
    problem = good()
    tanks = np.arange(problem.part("tank").size)
    twin = problem.take(tank=np.concatenate([tanks, tanks]))
    _, plain, _ = spread(problem, solve(problem))
    _, doubled, _ = spread(twin, solve(twin))
    both = [set(zip(some.cost, some.margin, strict=True)) for some in (plain, doubled)]
    assert both[0] == both[1]
    assert int(doubled.options[0, problem.position("tank")]) < len(tanks)


@pytest.mark.parametrize("seed", [1, 3, 4, 5, 6, 7])
def test_sorting_out_the_hopeless_loses_no_design_and_tells_no_untruth(seed: int) -> None:
    problem = some_of(small(seed), {})
    problem = replace(problem, pairs=())
    exact, sorted_out = solve(problem), solve(problem, sort_out=hopeless)
    solved = sorted_out.margin != -np.inf
    assert np.array_equal(sorted_out.word[solved], exact.word[solved])
    assert np.array_equal(sorted_out.margin[solved], exact.margin[solved], equal_nan=True)
    assert np.array_equal(sorted_out.word & exact.word, sorted_out.word)
    assert np.all((exact.word[~solved] & MUST) != 0)
    assert (~solved).any()


def test_unknown_facts_pass_nothing_and_are_named() -> None:
    problem = small(4, {"site.elevation": ""})
    tally, kept, _ = spread(problem, solve(problem))
    assert len(kept) == 0
    lift = next(n for n, check in enumerate(FLOW_CHECKS) if check.name == "lift_is_within_practice")
    assert tally.failed[lift] == problem.choices > 0


def test_a_word_has_a_bit_for_every_check() -> None:
    assert len(FLOW_CHECKS) <= 8 * np.dtype(np.uint64).itemsize


def test_every_check_that_needs_the_tank_reads_what_a_circuit_hands_on() -> None:
    """With tanks that differ in all they can, and every design equal to flat."""
    stock, job = load_stock(), job_with()
    small_tank, large_tank = list(stock.tanks.values())[:: len(stock.tanks) - 1]
    strong = replace(large_tank, max_pressure=2.0 * large_tank.max_pressure)
    unlike = replace(stock, tanks={tank.name: tank for tank in (small_tank, strong)})  # type: ignore[arg-type]
    problem = problem_of(job, unlike, facts_of(job, unlike))
    asked = [FLOW_CHECKS[n] for n in tank_checks(problem)]
    assert asked
    assert {check.block for check in asked} <= set(HANDED)
    few = some_of(problem, {"spot": slice(8, 12), "line": slice(3, 5), "pump place": slice(4, 6), "pump": slice(6, 9)})
    flat = all_of(few)
    found = spread_out(few, solve(few))
    assert np.array_equal(found.word[tuple(flat.options.T)], flat.word)
    assert found.margin[tuple(flat.options.T)].tobytes() == flat.margin.tobytes()


def test_parts_that_do_not_join_are_no_candidates() -> None:
    problem = good()
    draw = np.random.default_rng(2)
    for one, other in (("spot", "tank"), ("tank", "pump"), ("line", "pump place"), ("pump", "line")):
        shape = (problem.part(one).size, problem.part(other).size)
        mask = Pair(one, other, draw.random(shape) < 0.6)
        masked = replace(problem, pairs=(*problem.pairs, mask))
        flat, solved = all_of(masked), solve(masked, chunk=64)
        assert 0 < masked.choices == len(flat) < problem.choices
        found = spread_out(masked, solved)
        assert np.array_equal(found.word[tuple(flat.options.T)], flat.word)
        counted_as(flat, spread(masked, solved)[0])
        assert solved.circuits <= circuits_of(problem)


def test_circuits_that_no_design_has_are_not_solved() -> None:
    problem = good()
    none = np.ones((problem.part("line").size, len(problem.pumps)), dtype=bool)
    none[:, 1:] = False
    only = replace(problem, pairs=(Pair("line", "pump", none),))
    assert circuits_of(only) == circuits_of(replace(problem, pairs=())) // len(problem.pumps)
    assert solve(only).circuits == circuits_of(only)


# Source: common practice, no source: the suction line is never under the pump's port.
def test_no_suction_line_is_under_the_pumps_port() -> None:

    problem, stock = whole(), load_stock()
    (pair,) = problem.pairs
    assert (pair.one, pair.other) == ("line", "pump")
    pumps = {**stock.pumps, **stock.jets}
    for n, line in enumerate(problem.part("line").labels):
        for m, pump in enumerate(problem.part("pump").labels):
            wide = NOMINAL[stock.pipe(line).size] >= NOMINAL[pumps[pump].inlet_size]
            assert pair.joins[n, m] == wide
    assert not pair.joins.all()
    assert pair.joins.any()


def test_what_the_job_names_is_not_refused_for_its_size() -> None:
    """The example's foot valve is 1-1/2 in: wider lines stay candidates until the valve is ours to choose."""
    assert [(p.one, p.other) for p in whole().pairs] == [("line", "pump")]
    both = whole({"stand.inlet.stock": "open"}).pairs
    assert [(p.one, p.other) for p in both] == [("line", "pump"), ("foot valve", "line")]


def test_foot_valves_that_would_not_seat_are_not_tried() -> None:
    upright = whole({"stand.inlet.stock": "open"}).part("foot valve")
    hanging = whole({"stand.inlet.stock": "open", "stand.inlet.attitude": "down"}).part("foot valve")
    assert all("spring" in label for label in upright.labels)
    assert any("hinged" in label for label in hanging.labels)
    assert set(upright.labels) < set(hanging.labels)
