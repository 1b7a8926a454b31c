"""Parts joined port to port: the path of the water while it is put together, and when it is whole."""

from __future__ import annotations

import functools
import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from lakewright.state.gather import OPEN
from lakewright.stock.joints import Joint, joint, loss_on, oriented
from lakewright.stock.load import Stock
from lakewright.stock.ports import Port, meets
from lakewright.stock.rows import FootValve, Jet, Part, Pipe, Pump, Screen, Tank

Row: TypeAlias = Part | Pipe | FootValve | Screen | Pump | Jet | Tank

BY_THE_WATER = ("brass", "PVC")
"""common practice, no source: fittings under suction and in lake water; galvanized rusts shut, nylon creeps."""


@dataclass(frozen=True, slots=True)
class End:
    """One port of one piece of a path, by their numbers."""

    piece: int
    port: int


@dataclass(frozen=True, slots=True)
class Piece:
    """One part of a path.

    station: where in the bill it stands; length [m] of pipe used, and sold [m] the coil it is cut from, both nan
    for a piece; through: the ports by which running water enters and leaves it, nothing in a dead end.
    """

    station: str
    row: Row
    length: float = math.nan
    sold: float = math.nan
    through: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class WaterPath:
    """The parts of a job in the order water meets them, a branch before what comes after it.

    meetings: ports that meet; openings: ports left open on purpose, and to what; gaps: what does not join, or is
    not chosen, in words; notes: what was taken where nobody said; pump_at: how many pieces come before the pump, or
    before where it would be.
    """

    pieces: tuple[Piece, ...]
    meetings: tuple[tuple[End, End], ...]
    openings: tuple[tuple[End, str], ...]
    gaps: tuple[str, ...]
    notes: tuple[str, ...]
    pump_at: int

    def port(self, end: End) -> Port:
        """The port at an end."""
        return ports_of(self.pieces[end.piece].row)[end.port]

    @property
    def unmet(self) -> tuple[End, ...]:
        """Ports that nothing meets and nobody left open."""
        ends = (End(n, p) for n, piece in enumerate(self.pieces) for p in range(len(ports_of(piece.row))))
        taken = {end for pair in self.meetings for end in pair} | {end for end, _ in self.openings}
        return tuple(end for end in ends if end not in taken)

    @property
    def suction_side(self) -> tuple[Piece, ...]:
        """The pieces before the pump."""
        return self.pieces[: self.pump_at]

    @property
    def delivery_side(self) -> tuple[Piece, ...]:
        """The pieces after the pump, as far as the tank's tees."""
        return tuple(piece for piece in self.pieces[self.pump_at :] if piece.station in ("pump", "delivery"))


def ports_of(row: Row) -> tuple[Port, ...]:
    """The ports of any row of the stock; a screen stands round a valve and has none."""
    return () if isinstance(row, Screen) else row.ports


def fittings_passed(pieces: Iterable[Piece]) -> dict[str, int]:
    """The fittings that water passes, counted in the words of a job file."""
    words: Counter[str] = Counter()
    for piece in pieces:
        if isinstance(piece.row, Part) and piece.through is not None:
            words.update(_counted_as(piece.row, turns=max(piece.through) > 1))
    return dict(words)


def _counted_as(part: Part, turns: bool) -> tuple[str, ...]:
    if part.kind in ("tee", "priming tee", "cross"):
        return ("tee_branches",) if turns else ("tees",)
    by_kind = {
        "elbow": "elbows",
        "elbow 45": "elbows45",
        "union": "unions",
        "ball valve": "valves",
        "gate valve": "valves",
        "spring check": "checks",
        "swing check": "checks",
    }
    if part.kind in by_kind:
        return (by_kind[part.kind],)
    pushed = sum(port.kind in ("barb", "hose") for port in part.ports)
    return ("inserts",) * min(pushed, 1)


def loss_coefficient(pieces: Iterable[Piece], stock: Stock, bore: float) -> float:
    """Loss coefficient [-] of the fittings that water passes, on the velocity in pipe of a bore [m].

    Foot valve, screen, pipe and pump are not among them: each has its own loss elsewhere.
    """
    return math.fsum(
        loss_on(piece.row, stock, bore, branch=max(piece.through) > 1)
        for piece in pieces
        if isinstance(piece.row, Part) and piece.through is not None
    )


@dataclass
class Laying:
    """A path under way. Each method puts down a part and whatever fittings bring it to what is there."""

    stock: Stock
    preferred: tuple[str, ...] = BY_THE_WATER
    pump_at: int = 0
    pieces: list[Piece] = field(default_factory=list)
    meetings: list[tuple[End, End]] = field(default_factory=list)
    openings: list[tuple[End, str]] = field(default_factory=list)
    gaps: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def path(self) -> WaterPath:
        """The path as far as it is laid."""
        gaps, notes = (tuple(dict.fromkeys(words)) for words in (self.gaps, self.notes))
        return WaterPath(tuple(self.pieces), tuple(self.meetings), tuple(self.openings), gaps, notes, self.pump_at)

    def place(self, piece: Piece) -> int:
        """Put a part down joined to nothing yet, and give its number."""
        self.pieces.append(piece)
        return len(self.pieces) - 1

    def follow(self, at: End | None, piece: Piece, enters: int = 0) -> int:
        """Put a part down after an end, with the fittings between; where the end is not known, alone."""
        if at is None:
            return self.place(piece)
        port = ports_of(piece.row)[enters]
        between = joint(self.stock, self._port(at), port, self.preferred)
        if between is None:
            self._strangers(at, piece.row, port)
            return self.place(piece)
        at = self._fittings(at, between, piece)
        number = self.place(piece)
        self.meetings.append((at, End(number, enters)))
        return number

    def run(self, at: End | None, station: str, row: Row | None) -> End | None:
        """Put down a part that water passes straight through, and give the end by which it leaves."""
        return at if row is None else End(self.follow(at, Piece(station, row, through=(0, 1))), 1)

    def end(self, at: End | None, station: str, row: Row) -> End:
        """Put down a part in which nothing flows, and give its other end."""
        return End(self.follow(at, Piece(station, row)), 1)

    def hang(
        self, at: End | None, station: str, size: str, row: Part | Tank, kinds: tuple[str, ...] = ("tee",)
    ) -> tuple[End | None, End]:
        """Put down a tee of a size with a part on its branch, and give the ends by which the two go on."""
        tee = tee_for(self.stock, size, row.ports[0], kinds)
        if tee is None:
            self.gaps.append(f"no tee of {size} in is in stock")
            return at, self.end(None, station, row)
        number = self.follow(at, Piece(station, tee, through=(0, 1)))
        return End(number, 1), self.end(End(number, 2), station, row)

    def meet(self, one: End, other: End) -> None:
        """Join two ends that are both there, with the fittings between."""
        between = joint(self.stock, self._port(one), self._port(other), self.preferred)
        piece = self.pieces[other.piece]
        if between is None:
            self._strangers(one, piece.row, self._port(other))
            return
        self.meetings.append((self._fittings(one, between, piece), other))

    def open(self, end: End, to: str) -> None:
        """Leave an end open on purpose."""
        self.openings.append((end, to))

    def part(self, kind: str, size: str) -> Part | None:
        """The part of a kind and size a shop would take, or a gap."""
        found = usual_part(self.stock, kind, size)
        if found is None:
            self.gaps.append(f"no {kind} of {size} in is in stock")
        return found

    def _fittings(self, at: End, between: Joint, piece: Piece) -> End:
        flows = piece.through is not None
        for part, (enters, leaves) in zip(between.parts, oriented(between.parts, self._port(at)), strict=True):
            number = self.place(Piece(piece.station, part, through=(0, 1) if flows else None))
            self.meetings.append((at, End(number, enters)))
            at = End(number, leaves)
        return at

    def _strangers(self, at: End, row: Row, port: Port) -> None:
        before = self.pieces[at.piece].row.name
        self.gaps.append(
            f"{before} ({self._port(at)}) and {row.name} ({port}) do not join: no chain of one or two fittings in stock"
        )

    def _port(self, end: End) -> Port:
        return ports_of(self.pieces[end.piece].row)[end.port]


def why_none(given: str | None, what: str) -> str:
    """Why a job that says this of a part has none on its path."""
    if given is None:
        return "is not given"
    return "is open: design chooses it" if given == OPEN else f"is not {what} in stock"


MOUTHS = {"cross": 4, "tee": 3, "priming tee": 3, "cap": 1, "plug": 1, "sample tap": 1}
"""How many ports a kind has; two where it is not among them. A shop's own row may say otherwise, and is not taken."""


def is_threaded(part: Part, size: str, ports: Sequence[int] = (0,)) -> bool:
    """Whether a part has the ports of its kind, and some of them are threads of a size."""
    wanted = [Port(size, "NPT", kind) for kind in ("thread in", "thread out")]
    whole = len(part.ports) == MOUTHS.get(part.kind, 2)
    return whole and all(part.ports[port] in wanted for port in ports)


def _rank(part: Part) -> tuple[bool, int, str]:
    return part.material not in BY_THE_WATER, part.price, part.name


@functools.lru_cache(maxsize=1 << 12)
def usual_part(stock: Stock, kind: str, size: str) -> Part | None:
    """The threaded part of a kind and size that a shop would take: fit for water, then cheapest, then by name."""
    rows = (part for part in stock.parts_of(kind) if part.size == size)
    return min((part for part in rows if is_threaded(part, size)), key=_rank, default=None)


@functools.lru_cache(maxsize=1 << 12)
def tee_for(stock: Stock, size: str, hung: Port, kinds: tuple[str, ...] = ("tee",)) -> Part | None:
    """The tee of a size whose branch takes a port with the fewest fittings, then for the least money."""

    def rank(tee: Part) -> tuple[int, bool, int, str]:
        between = joint(stock, tee.ports[2], hung, BY_THE_WATER)
        if between is None:
            return 9, True, tee.price, tee.name
        return len(between.parts), tee.material not in BY_THE_WATER, tee.price + between.price, tee.name

    return min((tee for tee in stock.parts_of(*kinds) if is_threaded(tee, size, (0, 1))), key=rank, default=None)


def is_met(path: WaterPath) -> bool:
    """Whether every meeting of a path is one of ports made for each other, and no port is left over."""
    return not path.unmet and all(meets(path.port(one), path.port(other)) for one, other in path.meetings)
