"""What designs cost as far as a search knows: the bill of the first, and what each option changes in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from lakewright.job.models import Job
from lakewright.search.parts import line_length
from lakewright.state.assemble import Assembly
from lakewright.state.facts import Facts
from lakewright.state.priced import priced
from lakewright.stock.load import Stock

LINES = {"line": "suction", "delivery": "delivery"}
"""Parts that are sold by length, and which line each is."""


@dataclass(frozen=True)
class Prices:
    """The price of the first design, from which that of every other is estimated.

    An option costs what it changes in the whole price of the first design, work and all; the pipe of a line so much
    for each metre that a design's line is longer. What two options change together is not in it: the few designs that
    are shown are priced each by its own bill.
    """

    stock: Stock
    total: int  # cents
    length: Mapping[str, float]  # m, by part
    per_length: Mapping[str, float]  # cents a metre, by part

    @property
    def without_lines(self) -> float:
        """The first design without the pipe of its lines [cents]."""
        return self.total - sum(self.per_length[part] * self.length[part] for part in LINES)

    def change(self, part: str, per_length: float, job: Job, assembly: Assembly) -> float:
        """What an option changes in the price [cents], the length of pipe apart.

        Parameters
        ----------
        part : the option is one of; per_length : of the option [cents/m]
        job, assembly : the first design with the option in it
        """
        change = priced(job, self.stock, assembly).quote.total - self.total
        lengths = lengths_of(assembly.facts)
        longer = sum(self.per_length[line] * (lengths[line] - self.length[line]) for line in LINES)
        dearer = (per_length - self.per_length[part]) * self.length[part] if part in LINES else 0.0
        return change - longer - dearer


def prices_of(job: Job, stock: Stock, assembly: Assembly, per_length: Mapping[str, float]) -> Prices:
    """The prices of a first design, its pipe's cents a metre by part."""
    return Prices(stock, priced(job, stock, assembly).quote.total, lengths_of(assembly.facts), per_length)


def lengths_of(facts: Facts) -> dict[str, float]:
    """Length of each line [m], by part; nothing where it is not known."""
    return {part: float(np.nan_to_num(line_length(facts, line))) for part, line in LINES.items()}
