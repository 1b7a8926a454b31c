"""From circuits to designs: failures counted exactly, and whatever may be chosen kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.checks.registry import FLOW_CHECKS
from lakewright.physics.types import Array
from lakewright.search.circuits import MUST, Solved, Word, word_and_margin
from lakewright.search.parts import Index, Problem, line_length, values_at
from lakewright.search.tank import HANDED, tank_checks
from lakewright.state.facts import Facts

FEW = 64
"""ours: so many designs that pass are all kept, and priced by their bills; of more, those that may be the best."""

SHORTLIST = 6
"""ours: as many designs as fit on a counter's paper."""

Mask = NDArray[np.bool_]

Barred = Mapping[tuple[int, ...], Mask]
"""What a search is told not to keep: by the places of some parts, which of their options together."""


@dataclass(frozen=True)
class Candidates:
    """Some designs: the option of each part, and what is known of them."""

    options: Index  # shape (design, part)
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


@dataclass(frozen=True)
class Slab:
    """Some designs of one pump, one axis a part."""

    index: tuple[Index, ...]  # options of each part, broadcast against each other
    joins: Mask  # which of them are candidates
    word: Word
    margin: Array  # the worst
    price: Array  # cents


def slabs_of(problem: Problem, solved: Solved) -> Iterator[Slab]:
    """Word, worst margin and price of every design, slab by slab."""
    numbers = tank_checks(problem)
    columns = [part.columns for part in problem.parts]
    for pump, index in problem.slabs():
        circuit = solved.circuit_at(index)
        facts = problem.with_pump(pump).with_values(values_at(columns, index))
        blocks = {name: HANDED[name].block(kept[circuit][..., None], facts) for name, kept in solved.handed.items()}
        verdicts = [(n, FLOW_CHECKS[n].function(blocks[FLOW_CHECKS[n].block], facts.limits)) for n in numbers]
        joins = problem.joins_at(index)
        word, margin = word_and_margin(verdicts, joins.shape)
        word |= solved.word[circuit]
        margin = np.minimum(margin, solved.margin[circuit])
        yield Slab(index, joins, word, margin, np.broadcast_to(prices_at(problem, facts, index), joins.shape))


def prices_at(problem: Problem, facts: Facts, index: tuple[Index, ...]) -> Array:
    """Price of designs, estimated [cents]: of the first, what the options change in it, and the pipe of each line.

    Parameters
    ----------
    facts : of the designs; index : the option of each part, broadcast against each other
    """
    price: Array = np.array([problem.price])
    for part, options in zip(problem.parts, index, strict=True):
        price = price + part.price[options]
        if part.price_per_length.any():
            price = price + part.price_per_length[options] * line_length(facts, part.line)
    return np.rint(price)


def cost_of(price: Array, margin: Array, call_back: float) -> Array:
    """Price and expected call-back [cents].

    ours: a design with nothing to spare is called back to every second time, one with comfort never; a straight line
    between. The price of a visit is the job's.
    """
    return price + 0.5 * call_back * (1.0 - np.minimum(np.maximum(margin, 0.0), 1.0))


def spread(problem: Problem, solved: Solved, barred: Barred | None = None) -> tuple[Tally, Candidates, Candidates]:
    """Count what failed and keep what may be chosen.

    Parameters
    ----------
    problem, solved : the designs, and what their circuits do
    barred : designs that pass and are not to be kept; they are counted with the others

    Returns
    -------
    the tally; designs of which the shortlist is made, cheapest first; the nearest misses, best first, where none passes
    """
    failed, alone = np.zeros(len(FLOW_CHECKS), dtype=np.int64), np.zeros(len(FLOW_CHECKS), dtype=np.int64)
    kept: list[Candidates] = []
    missed: list[Candidates] = []
    holding = passing = open_to_choice = 0
    for slab in slabs_of(problem, solved):
        must = slab.word & MUST
        _count(slab, must, failed, alone)
        passes = (must == 0) & slab.joins
        passing += int(np.count_nonzero(passes))
        holding += int(np.count_nonzero(passes & (slab.margin >= 1.0)))
        for places, mask in (barred or {}).items():
            passes = passes & ~mask[tuple(slab.index[place] for place in places)]
        open_to_choice += int(np.count_nonzero(passes))
        if passes.any():
            found = _candidates(problem, slab, passes)
            kept.append(found if open_to_choice <= FEW else _best(found))
        elif not passing:
            single = ((must & (must - np.uint64(1))) == 0) & slab.joins
            if single.any():
                missed.append(_nearest(_candidates(problem, slab, single)))
    tally, nothing = Tally(failed, alone, holding, passing), _none(problem)
    if kept:
        found = _join(kept)
        return tally, _in_order(found) if open_to_choice <= FEW else _best(found), nothing
    if passing:
        return tally, nothing, nothing
    return tally, nothing, _nearest(_join([nothing, *missed]))


def all_passing(problem: Problem, solved: Solved, most: int) -> Candidates:
    """The designs that pass, the cheapest first by the search's estimate, and no more than so many of them."""
    kept = _none(problem)
    for slab in slabs_of(problem, solved):
        passes = ((slab.word & MUST) == 0) & slab.joins
        if passes.any():
            kept = _join([kept, _candidates(problem, slab, passes)])
            if len(kept) > 4 * most:
                kept = _by_price(kept).take(np.arange(most))
    return _by_price(kept).take(np.arange(min(len(kept), most)))


def _by_price(some: Candidates) -> Candidates:
    return some.take(_order(some, some.price, -np.minimum(some.margin, 1.0)))


def _count(slab: Slab, must: Word, failed: NDArray[np.int64], alone: NDArray[np.int64]) -> None:
    # A design sorted out unsolved has no margin: what else stands against it nobody knows.
    single = (must != 0) & ((must & (must - np.uint64(1))) == 0) & (slab.margin != -np.inf) & slab.joins
    word, only = slab.word if slab.joins.all() else slab.word[slab.joins], must[single]
    seen = int(np.bitwise_or.reduce(word, axis=None))
    for number in range(len(FLOW_CHECKS)):
        bit = 1 << number
        if seen & bit:
            failed[number] += np.count_nonzero(word & np.uint64(bit))
            alone[number] += np.count_nonzero(only & np.uint64(bit))


def _candidates(problem: Problem, slab: Slab, which: Mask) -> Candidates:
    at = np.nonzero(which)
    options = np.stack([np.broadcast_to(i, which.shape)[at] for i in slab.index], axis=1)
    price, margin = slab.price[at], slab.margin[at]
    return Candidates(options, slab.word[at], margin, price, cost_of(price, margin, problem.call_back))


def _none(problem: Problem) -> Candidates:
    zero = np.empty(0)
    return Candidates(np.empty((0, len(problem.parts)), dtype=np.intp), np.empty(0, dtype=np.uint64), zero, zero, zero)


def _join(parts: list[Candidates]) -> Candidates:
    return Candidates(*(np.concatenate([getattr(p, name) for p in parts]) for name in Candidates.__dataclass_fields__))


def _order(some: Candidates, *keys: Array) -> Index:
    """Sorted by the keys, first key first, then by the options themselves, so that ties fall the same way always."""
    return np.lexsort((*some.options.T[::-1], *reversed(keys)))


def _best(some: Candidates) -> Candidates:
    """The staircase of cost and margin, each step cheaper than all that have as much margin. Cheapest first.

    Margins past comfort buy nothing, so they count as 1. Of what holds, the cheapest with each option of each part
    rides along: which of them is the best its own bill will say.
    """
    useful = np.minimum(some.margin, 1.0)
    order = _order(some, some.cost, -useful)
    best_before = np.concatenate([[-np.inf], np.maximum.accumulate(useful[order])[:-1]])
    front = order[useful[order] > best_before]
    holds = order[useful[order] >= 1.0]
    first = [holds[np.unique(option, return_index=True)[1]] for option in some.options[holds].T]
    return _in_order(some.take(np.unique(np.concatenate([front, *first]))))


def _in_order(some: Candidates) -> Candidates:
    """Cheapest first, and of one cost the one with the most to spare."""
    return some.take(_order(some, some.cost, -np.minimum(some.margin, 1.0)))


def _nearest(some: Candidates) -> Candidates:
    """Designs that only one check stands against, the least wrong first."""
    return some.take(_order(some, -np.nan_to_num(some.margin, nan=-np.inf), some.price)[:SHORTLIST])
