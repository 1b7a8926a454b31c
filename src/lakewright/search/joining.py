"""Which options of two parts join with what the stock has: no more than two fittings between their ports."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from lakewright.search.option import Option
from lakewright.state.path import BY_THE_WATER, tee_for
from lakewright.state.piping import INDOORS
from lakewright.stock.joints import joint
from lakewright.stock.load import Stock
from lakewright.stock.ports import Port

Joins = NDArray[np.bool_]


def line_joins_pump(stock: Stock, lines: Sequence[Option], pumps: Sequence[Option]) -> Joins:
    """Suction lines and pumps that join, through threaded fittings of the line's size."""
    return _grid(lines, pumps, lambda line, pump: _through(stock, line[1], pump[0], line[1].size, BY_THE_WATER))


def pump_joins_delivery(stock: Stock, pumps: Sequence[Option], lines: Sequence[Option]) -> Joins:
    """Pumps and delivery lines that join, through threaded fittings of the line's size."""
    return _grid(pumps, lines, lambda pump, line: _through(stock, pump[1], line[0], line[0].size, INDOORS))


def delivery_joins_tank(stock: Stock, lines: Sequence[Option], tanks: Sequence[Option]) -> Joins:
    """Delivery lines and tanks that join: the tank hangs on a tee of the line's size."""

    def hangs(line: Sequence[Port], tank: Sequence[Port]) -> bool:
        tee = tee_for(stock, line[1].size, tank[0])
        return tee is not None and joint(stock, tee.ports[2], tank[0], INDOORS) is not None

    return _grid(lines, tanks, hangs)


def _through(stock: Stock, one: Port, other: Port, size: str, preferred: tuple[str, ...]) -> bool:
    """Whether two ports join with a threaded fitting of a size between them, and its fittings."""
    thread = Port(size, "NPT", "thread in")
    return all(joint(stock, *ends, preferred) is not None for ends in ((one, thread), (thread, other)))


def _grid(
    some: Sequence[Option], others: Sequence[Option], join: Callable[[Sequence[Port], Sequence[Port]], bool]
) -> Joins:
    """Which join which. Of an option that is no row of the stock nobody knows the ports, and its bill says so."""
    return np.array([[not (a.ports and b.ports) or join(a.ports, b.ports) for b in others] for a in some], dtype=bool)
