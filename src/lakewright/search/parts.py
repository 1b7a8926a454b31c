"""What a job leaves open, part by part: each option a row, each fact it sets a column, one axis a part."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import prod
from typing import Any

import numpy as np
from numpy.typing import NDArray

from lakewright.physics.types import Array
from lakewright.state.facts import Facts

Index = NDArray[np.intp]

Ends = tuple[int, int, NDArray[np.bool_]]
"""Two axes, and what of the one joins what of the other."""

SLAB = 1 << 17
"""ours: designs looked at together; a word of each fits in a core's cache."""


@dataclass(frozen=True)
class Part:
    """One part of a design: its options, what each writes in the job, what facts it sets, what it costs."""

    name: str
    labels: tuple[str, ...]
    says: tuple[Mapping[str, Any], ...]
    columns: Mapping[str, Array]  # by fact, shape (option, the fact's own)
    price: Array  # cents, that each option changes in the price of the first design
    price_per_length: Array  # cents for each metre of the line it is
    line: str = ""  # whose length that is: "suction", "delivery", or none

    @property
    def size(self) -> int:
        """How many options there are."""
        return len(self.labels)

    def take(self, which: Index | slice) -> Part:
        """Some of its options."""
        kept = np.arange(self.size)[which]
        return replace(
            self,
            labels=tuple(self.labels[n] for n in kept),
            says=tuple(self.says[n] for n in kept),
            columns={name: column[kept] for name, column in self.columns.items()},
            price=self.price[kept],
            price_per_length=self.price_per_length[kept],
        )


@dataclass(frozen=True)
class PumpOption:
    """What one pump sets beside its height: its kind, and facts that are curves and tables too."""

    kind: str
    facts: Mapping[str, Any]


@dataclass(frozen=True)
class Pair:
    """Which options of two parts join; those that do not are no candidates."""

    one: str
    other: str
    joins: NDArray[np.bool_]  # (options of the one, options of the other)


@dataclass(frozen=True)
class Problem:
    """All that a job leaves open. Parts stand in the order water flows, tank last."""

    facts: Facts  # of the job with the first option of every part
    missing: Mapping[str, str]  # facts that nobody gave and no choice gives, and why
    parts: tuple[Part, ...]
    pumps: tuple[PumpOption, ...]  # one for each option of the part called pump
    pairs: tuple[Pair, ...]
    price: float  # cents, of the first design without the pipe of its lines
    call_back: float  # cents, of one visit after the job

    def position(self, name: str) -> int:
        """Where in the order a part stands."""
        return next(n for n, part in enumerate(self.parts) if part.name == name)

    def part(self, name: str) -> Part:
        """A part by its name."""
        return self.parts[self.position(name)]

    @property
    def open_parts(self) -> tuple[Part, ...]:
        """The parts that have a choice."""
        return tuple(part for part in self.parts if part.size > 1)

    @property
    def sizes(self) -> tuple[int, ...]:
        """Options of each part."""
        return tuple(part.size for part in self.parts)

    @property
    def choices(self) -> int:
        """How many designs there are whose parts join."""
        return count_of(self.sizes, self.ends_that_join)

    @property
    def ends_that_join(self) -> list[Ends]:
        """The pairs, by the places of their parts."""
        return [(self.position(pair.one), self.position(pair.other), pair.joins) for pair in self.pairs]

    def take(self, **which: Index | slice) -> Problem:
        """The same with some options of the parts named; a blank in a name is written as an underscore."""
        chosen = {name.replace("_", " "): kept for name, kept in which.items()}
        every = slice(None)
        kept = chosen.get("pump", every)
        return replace(
            self,
            parts=tuple(part.take(chosen.get(part.name, every)) for part in self.parts),
            pumps=tuple(self.pumps[n] for n in np.arange(len(self.pumps))[kept]),
            pairs=tuple(
                replace(pair, joins=pair.joins[chosen.get(pair.one, every)][:, chosen.get(pair.other, every)])
                for pair in self.pairs
            ),
        )

    def with_pump(self, pump: int) -> Facts:
        """The facts with one pump for all rows."""
        option = self.pumps[pump]
        return replace(self.facts.with_values(option.facts), pump_kind=option.kind)

    def joins_at(self, index: Sequence[Index]) -> NDArray[np.bool_]:
        """Whether the parts of designs join; `index` holds the option of each part, broadcast against each other."""
        return joined(self.ends_that_join, index)

    def slabs(self) -> Iterator[tuple[int, tuple[Index, ...]]]:
        """Every design once, a slab of the product at a time: its pump, and each part's options, one axis a part."""
        at = self.position("pump")
        for pump in range(len(self.pumps)):
            sizes = tuple(1 if n == at else size for n, size in enumerate(self.sizes))
            for index in _blocks(sizes):
                index[at] = np.array([pump])
                yield pump, np.ix_(*index)


def count_of(sizes: Sequence[int], ends: Sequence[Ends]) -> int:
    """How many of a product of axes are left when what does not join is taken out."""
    paired = {n for one, other, _ in ends for n in (one, other)}
    alone = prod(size for n, size in enumerate(sizes) if n not in paired)
    masks = [part for one, other, joins in ends for part in (joins.astype(np.int64), [one, other])]
    return alone * int(np.einsum(*masks, [], optimize=True)) if masks else alone


def joined(ends: Sequence[Ends], index: Sequence[Index]) -> NDArray[np.bool_]:
    """Whether all ends join, at rows of each axis that are broadcast against each other."""
    found = np.ones(np.broadcast_shapes(*(rows.shape for rows in index)), dtype=bool)
    for one, other, joins in ends:
        found &= joins[index[one], index[other]]
    return found


def _blocks(sizes: tuple[int, ...]) -> Iterator[list[Index]]:
    """Blocks of a product of axes, no larger than a slab where they can be."""
    if 0 in sizes:
        return
    axis = next(n for n in range(len(sizes)) if prod(sizes[n + 1 :]) <= SLAB)
    step = max(1, SLAB // prod(sizes[axis + 1 :]))
    rest = [np.arange(size) for size in sizes[axis + 1 :]]
    for head in product(*(range(size) for size in sizes[:axis])):
        for start in range(0, sizes[axis], step):
            yield [*(np.array([n]) for n in head), np.arange(start, min(start + step, sizes[axis])), *rest]


def line_length(facts: Facts, line: str) -> Array:
    """Length of a line [m], its wander with it: the suction line or the delivery line."""
    suction = facts.suction
    if line == "delivery":
        return facts.delivery.length[..., 0]
    return ((suction.bed_length + suction.bank_length) * (1.0 + suction.along))[..., 0]


def values_at(columns: Sequence[Mapping[str, Array]], index: Sequence[Index]) -> dict[str, Array]:
    """The facts that parts set, at rows given for each part; the fact's own axis stays last."""
    return {name: column[rows] for part, rows in zip(columns, index, strict=True) for name, column in part.items()}
