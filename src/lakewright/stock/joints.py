"""What goes between two ports that do not meet: the shortest chain of stock fittings, or word that none joins them."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from lakewright.stock.load import Stock
from lakewright.stock.measure import INCH
from lakewright.stock.ports import Port, meets
from lakewright.stock.rows import Part
from lakewright.stock.table import NOMINAL

JOINS = ("nipple", "reducing nipple", "coupling", "reducing coupling", "bushing", "male adapter", "female adapter")
"""Kinds of part made to join two others in one line. A tee, a union, a valve or a cap is asked for by name."""


@dataclass(frozen=True, slots=True)
class Joint:
    """The fittings between two ports, in the order water meets them; none where the ports meet.

    length [m]: between the mouths of the two ports, make-up taken off; under nothing where one goes into the
    other. bore [m]: the narrowest, infinite without a part. mass [kg]; price [cents] over the counter.
    """

    parts: tuple[Part, ...]
    length: float
    bore: float
    mass: float
    price: int

    def loss_coefficient(self, stock: Stock, bore: float) -> float:
        """Loss coefficient [-] of the fittings together, on the velocity in pipe of that bore [m]."""
        return math.fsum(loss_on(part, stock, bore) for part in self.parts)


def loss_on(part: Part, stock: Stock, bore: float, branch: bool = False) -> float:
    """Loss coefficient [-] of a part, into its branch or straight through, on the velocity in pipe of a bore [m].

    A part's own coefficient stands on the velocity in pipe of the smallest port the water passes; velocities go as
    the squares of the bores, and heads as the squares of those.
    """
    passed = (part.ports[0], part.ports[2]) if branch else part.ports[:2]
    size = min((port.size for port in passed), key=NOMINAL.__getitem__)
    friction = stock.turbulent_friction.get(size, 0.0)
    own = part.branch_loss_coefficient(friction) if branch else part.loss_coefficient(friction)
    return own * (bore / _reference_bore(size, stock)) ** 4


def _reference_bore(size: str, stock: Stock) -> float:
    """Bore [m] of the pipe a nominal size stands for: schedule 40 steel, on which TP-410 rates its fittings."""
    pipe = stock.pipes.get(f"galvanized steel, schedule 40, {size} in")
    if pipe is not None:
        return pipe.bore
    # memory: 0.364 in for 1/4 in. ours: a size that is no pipe of ours has the bore its name says.
    return INCH * (0.364 if size == "1/4" else NOMINAL[size])


@functools.lru_cache(maxsize=1 << 16)
def joint(stock: Stock, upstream: Port, downstream: Port, preferred: tuple[str, ...] = ()) -> Joint | None:
    """The shortest chain of stock fittings that joins two ports.

    Parameters
    ----------
    stock : what can be had
    upstream, downstream : the two ports, in the order water meets them
    preferred : materials fit for the place; another is taken only where these do not join; empty, any

    Returns
    -------
    Joint of none to two fittings, the fewest, then the most of preferred materials, then the cheapest over the
    counter, then the first by name; None where no such chain joins them

    >>> from lakewright.stock.load import load_stock
    >>> line, pump = Port("1-1/2", "SIDR", "plain end"), Port("1-1/4", "NPT", "thread in")
    >>> [part.name for part in joint(load_stock(), line, pump, ("brass",)).parts]
    ['male adapter, SIDR insert, brass, 1-1/2 x 1-1/4 in']
    """
    if meets(upstream, downstream):
        return _joint(stock, upstream, downstream, ())
    for chains in (_ones(stock, upstream, downstream), _twos(stock, upstream, downstream)):

        def rank(parts: tuple[Part, ...]) -> tuple[int, int, list[str]]:
            strange = sum(bool(preferred) and part.material not in preferred for part in parts)
            return strange, sum(part.price for part in parts), [part.name for part in parts]

        best = min(chains, key=rank, default=None)
        if best is not None:
            return _joint(stock, upstream, downstream, best)
    return None


def _ones(stock: Stock, upstream: Port, downstream: Port) -> Iterator[tuple[Part, ...]]:
    for part, out in takers(stock, upstream):
        if meets(out, downstream):
            yield (part,)


def _twos(stock: Stock, upstream: Port, downstream: Port) -> Iterator[tuple[Part, ...]]:
    for first, between in takers(stock, upstream):
        for second, out in takers(stock, between):
            if meets(out, downstream):
                yield first, second


def takers(stock: Stock, port: Port) -> tuple[tuple[Part, Port], ...]:
    """Every fitting that takes a port, and the port at its other end."""
    return tuple(
        (part, out) for part, taking, out in _by_size(stock).get((port.size, port.series), ()) if meets(taking, port)
    )


@functools.lru_cache(maxsize=8)
def _by_size(stock: Stock) -> Mapping[tuple[str, str], tuple[tuple[Part, Port, Port], ...]]:
    """Each fitting by size and series of either end: the fitting, that end, the other end."""
    found: dict[tuple[str, str], list[tuple[Part, Port, Port]]] = {}
    for part in stock.parts_of(*JOINS):
        if len(part.ports) == 2:
            one, other = part.ports
            for taking, out in dict.fromkeys(((one, other), (other, one))):
                found.setdefault((taking.size, taking.series), []).append((part, taking, out))
    return {key: tuple(fittings) for key, fittings in found.items()}


def oriented(parts: tuple[Part, ...], upstream: Port) -> list[tuple[int, int]]:
    """The ports by which water enters and leaves each fitting of a chain, by their place among its ports."""
    ways, at = [], upstream
    for part in parts:
        enters = 0 if meets(at, part.ports[0]) else 1
        ways.append((enters, 1 - enters))
        at = part.ports[1 - enters]
    return ways


def engagement(stock: Stock, port: Port) -> float:
    """How far what joins a port goes in, or over it [m]; nothing for what is itself pushed in, such as a pipe's end."""
    kind = "thread" if port.kind.startswith("thread") else port.kind
    name = f"{kind} {port.size} {port.series}"
    return stock.make_up.get(name, 0.0)


def _joint(stock: Stock, upstream: Port, downstream: Port, parts: tuple[Part, ...]) -> Joint:
    ways = oriented(parts, upstream)
    mouths = [part.ports[side] for part, way in zip(parts, ways, strict=True) for side in way]
    met = [upstream, *mouths, downstream]
    lost = math.fsum(
        max(engagement(stock, one), engagement(stock, other)) for one, other in zip(met[::2], met[1::2], strict=True)
    )
    return Joint(
        parts=parts,
        length=math.fsum(part.length for part in parts) - lost,
        bore=min((part.bore for part in parts), default=math.inf),
        mass=math.fsum(part.mass for part in parts),
        price=sum(part.price for part in parts),
    )
