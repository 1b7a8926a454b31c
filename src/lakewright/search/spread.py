"""From circuits to designs: failures counted exactly, and whatever may be chosen kept."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.checks.registry import CHECKS
from lakewright.physics.types import Array
from lakewright.search.circuits import MUST_WORD, TANK_CHECKS, UNKNOWN_SHIFT, Solved, Word, word_and_margin
from lakewright.search.parts import Problem
from lakewright.state.facts import Facts
from lakewright.state.walk import Filling, ShutOff

SHORTLIST = 6
"""ours: as many designs as fit on a counter's paper."""

Index = NDArray[np.intp]


@dataclass(frozen=True)
class Candidates:
    """Some designs: the option of each part, and what is known of them."""

    spot: Index
    line: Index
    place: Index
    pump: Index
    tank: Index
    word: Word
    margin: Array
    price: Array  # cents
    cost: Array  # cents, price and expected call-back

    def take(self, which: Index) -> Candidates:
        """Some of them."""
        return Candidates(*(getattr(self, name)[which] for name in Candidates.__dataclass_fields__))

    def __len__(self) -> int:
        return len(self.word)


@dataclass(frozen=True)
class Tally:
    """What stood in the way of how many designs: each check by its number, and where it alone did."""

    failed: NDArray[np.int64]
    alone: NDArray[np.int64]
    holding: int
    passing: int


def words_of(problem: Problem, solved: Solved) -> Iterator[tuple[int, Word, Array]]:
    """Word and worst margin of every design, a pump at a time, shape (spot, line, place, tank)."""
    spots, lines, places = solved.inverse
    _, line_rows, place_rows = solved.distinct
    circuit = (spots[:, None, None] * line_rows + lines[None, :, None]) * place_rows + places[None, None, :]
    volume, bears = (problem.tank.columns[f"delivery.{name}"] for name in ("tank_volume", "tank_bears"))
    for number, pump in enumerate(problem.pumps):
        fill = solved.least_fill[number][circuit][..., None] * volume
        most = solved.most_shut_off[number][circuit][..., None]
        blocks = {
            "filling": Filling(fill[..., None], fill[..., None], pump.facts.minimum_run),
            "shut_off": ShutOff(most[..., None], bears[:, None], most[..., None], problem.facts.delivery.pipe_bears),
        }
        verdicts = [(n, CHECKS[n].function(blocks[CHECKS[n].block], problem.facts.limits)) for n in TANK_CHECKS]
        tank_word, tank_margin = word_and_margin(verdicts)
        word = solved.word[number][circuit][..., None] | tank_word
        yield number, word, np.minimum(solved.margin[number][circuit][..., None], tank_margin)


def prices_of(problem: Problem, pump: int) -> Array:
    """Price of every design with one pump [cents], shape (spot, line, place, tank)."""
    spot, line, place = problem.spot, problem.line, problem.place
    bed, bank = spot.columns["suction.bed_length"], place.columns["suction.bank_length"]
    length = (bed[:, None, None] + bank[None, None, :]) * (1.0 + problem.facts.suction.along[0])
    pipe = line.price_per_length[None, :, None] * length
    plain = spot.price[:, None, None] + line.price[None, :, None] + place.price[None, None, :]
    price: Array = np.rint((pipe + plain)[..., None] + problem.tank.price + problem.pumps[pump].price)
    return price


def cost_of(price: Array, margin: Array, call_back: float) -> Array:
    """Price and expected call-back [cents].

    ours: a design with nothing to spare is called back to every second time, one with comfort never; a straight line
    between. The price of a visit is the job's.
    """
    return price + 0.5 * call_back * (1.0 - np.minimum(np.maximum(margin, 0.0), 1.0))


def spread(problem: Problem, solved: Solved) -> tuple[Tally, Candidates, Candidates]:
    """Count what failed and keep what may be chosen.

    Returns
    -------
    the tally; designs of which the shortlist is made, cheapest first; the nearest misses, best first, where none passes
    """
    failed, alone = np.zeros(len(CHECKS), dtype=np.int64), np.zeros(len(CHECKS), dtype=np.int64)
    kept: list[Candidates] = []
    missed: list[Candidates] = []
    holding = passing = 0
    for pump, word, margin in words_of(problem, solved):
        must = word & MUST_WORD
        _count(word, must, margin, failed, alone)
        passes = must == 0
        passing += int(np.count_nonzero(passes))
        holding += int(np.count_nonzero(passes & (margin >= 1.0)))
        price = prices_of(problem, pump)
        if passes.any():
            kept.append(_best(_candidates(problem, pump, word, margin, price, passes)))
        elif not kept:
            single = (must & (must - np.uint64(1))) == 0
            if single.any():
                missed.append(_nearest(_candidates(problem, pump, word, margin, price, single)))
    tally = Tally(failed, alone, holding, passing)
    if kept:
        return tally, _best(_join(kept)), _join([])
    return tally, _join([]), _nearest(_join(missed))


def _count(word: Word, must: Word, margin: Array, failed: NDArray[np.int64], alone: NDArray[np.int64]) -> None:
    # A design sorted out unsolved has no margin: what else stands against it nobody knows.
    single = (must != 0) & ((must & (must - np.uint64(1))) == 0) & (margin != -np.inf)
    only = must[single]
    for number in range(len(CHECKS)):
        bits = np.uint64((1 << number) | (1 << (number + UNKNOWN_SHIFT)))
        failed[number] += np.count_nonzero(word & bits)
        alone[number] += np.count_nonzero(only & bits)


def _candidates(
    problem: Problem, pump: int, word: Word, margin: Array, price: Array, which: NDArray[np.bool_]
) -> Candidates:
    spot, line, place, tank = np.nonzero(which)
    chosen, found = price[which], margin[which]
    return Candidates(
        spot,
        line,
        place,
        np.full(len(spot), pump),
        tank,
        word[which],
        found,
        chosen,
        cost_of(chosen, found, problem.call_back),
    )


def _join(parts: list[Candidates]) -> Candidates:
    if not parts:
        empty, zero = np.empty(0, dtype=np.intp), np.empty(0)
        return Candidates(empty, empty, empty, empty, empty, np.empty(0, dtype=np.uint64), zero, zero, zero)
    return Candidates(*(np.concatenate([getattr(p, name) for p in parts]) for name in Candidates.__dataclass_fields__))


def _order(some: Candidates, *keys: Array) -> Index:
    """Sorted by the keys, first key first, then by the options themselves, so that ties fall the same way always."""
    last = (some.tank, some.pump, some.place, some.line, some.spot)
    return np.lexsort((*last, *reversed(keys)))


def _best(some: Candidates) -> Candidates:
    """The staircase of cost and margin: each one cheaper than all that have as much margin. Cheapest first.

    Margins past comfort buy nothing, so they count as 1; what holds comes down to the cheapest.
    """
    useful = np.minimum(some.margin, 1.0)
    order = _order(some, some.cost, -useful)
    best_before = np.concatenate([[-np.inf], np.maximum.accumulate(useful[order])[:-1]])
    front = order[useful[order] > best_before]
    # What holds rides along, the cheapest of each line, pump and tank: a shop likes a choice, not one stand moved by
    # a foot.
    holds = order[useful[order] >= 1.0]
    kind = np.stack([some.line[holds], some.pump[holds], some.tank[holds]], axis=1)
    first = np.sort(np.unique(kind, axis=0, return_index=True)[1])[: SHORTLIST * 4]
    chosen = some.take(np.unique(np.concatenate([front, holds[first]])))
    return chosen.take(_order(chosen, chosen.cost, -np.minimum(chosen.margin, 1.0)))


def _nearest(some: Candidates) -> Candidates:
    """Designs that only one check stands against, the least wrong first."""
    return some.take(_order(some, -np.nan_to_num(some.margin, nan=-np.inf), some.price)[:SHORTLIST])


def facts_of_designs(problem: Problem, some: Candidates) -> list[tuple[Index, Facts]]:
    """The designs as ordinary batches, one a kind of pump: which of them, and their facts."""
    from lakewright.search.circuits import with_pump
    from lakewright.state.batch import pumps_of

    batches = []
    for kind in ("centrifugal", "jet"):
        which = np.array([n for n, p in enumerate(some.pump) if problem.pumps[p].kind == kind], dtype=np.intp)
        if not len(which):
            continue
        picked = some.take(which)
        columns: dict[str, Array] = {}
        for part, index in (
            (problem.spot, picked.spot),
            (problem.line, picked.line),
            (problem.place, picked.place),
            (problem.tank, picked.tank),
        ):
            columns |= {name: np.ascontiguousarray(column[index])[:, None] for name, column in part.columns.items()}
        first = with_pump(problem.facts, problem.pumps[int(picked.pump[0])])
        columns |= pumps_of([p.facts for p in problem.pumps], picked.pump, kind)
        batches.append((which, first.with_values(columns)))
    return batches
