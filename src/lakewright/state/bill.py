"""What a job's parts cost and weigh, line by line, as a shop would write it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import groupby

from lakewright import units
from lakewright.job.models import Job
from lakewright.job.models_need import Have
from lakewright.state.assemble import Assembly
from lakewright.state.bill_extras import LOCALLY, Extra, extras_of
from lakewright.state.money import cents, exact
from lakewright.state.path import Piece, Row, WaterPath
from lakewright.state.piping import length_above_water, path_of
from lakewright.state.works import WORDS_FOR
from lakewright.stock.load import Stock
from lakewright.stock.rows import Part, Pipe, Prices

IN_WATER = ("stand", "suction line")
STATIONS = ("stand", "suction line", "pump", "delivery", "tank", "treatment", "used up")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a bill.

    quantity: pieces, or metres of what is sold by length (bought: whole coils); each [cents] a piece or a coil at
    the job's level; price [cents] and mass [kg] of the line, mass of what is installed and no leftover;
    have: there already, at price 0; note: leftovers, risk, where to buy; bin: where it lies in the shop;
    local: bought near the site, never shipped.
    """

    station: str
    what: str
    stock: str
    quantity: float
    unit: str
    each: int
    price: int
    mass: float
    have: bool
    note: str
    bin: str = ""
    local: bool = False


@dataclass(frozen=True, slots=True)
class Bill:
    """The lines of a job in the order water meets the parts.

    gaps: what does not join, is not chosen or cannot be had, and is in no price; notes: what was taken where nobody
    said, and what the buyer should know; joints: how many are made up.
    """

    lines: tuple[Line, ...]
    gaps: tuple[str, ...]
    notes: tuple[str, ...]
    joints: int

    @property
    def price(self) -> int:
        """Price of all lines [cents]."""
        return sum(line.price for line in self.lines)

    @property
    def in_water(self) -> int:
        """Price of what goes in the water, the stand and the suction line [cents]."""
        return sum(line.price for line in self.lines if line.station in IN_WATER)

    @property
    def mass_in_water(self) -> float:
        """Mass of what goes in the water, the stand and the suction line [kg], as installed, empty."""
        return sum(line.mass for line in self.lines if line.station in IN_WATER)

    @property
    def mass(self) -> float:
        """Mass of all lines [kg], as installed, empty."""
        return sum(line.mass for line in self.lines)

    @property
    def by_station(self) -> dict[str, tuple[Line, ...]]:
        """The lines of each station that has any."""
        found = {station: tuple(line for line in self.lines if line.station == station) for station in STATIONS}
        return {station: lines for station, lines in found.items() if lines}


def bill_of(job: Job, stock: Stock, assembly: Assembly) -> Bill:
    """The bill of parts of a job.

    Parameters
    ----------
    job : as read; its [price] level says which price is taken, over the counter where it does not
    stock : what can be had
    assembly : its facts, with the names of the parts taken

    Returns
    -------
    Bill; what is open, not given or does not join is said in its gaps
    """
    path = path_of(job, stock, assembly)
    extras, gaps = extras_of(job, stock, assembly, path)
    level = job.price.level or "counter"
    lines = [*_pipe_lines(path, level, job), *_piece_lines(path, level), *(_extra_line(each, level) for each in extras)]
    kept, strangers = _kept(lines, job, stock)
    kept.sort(key=lambda line: STATIONS.index(line.station))
    notes = (*path.notes, *_joints_above_water(path, job, assembly), *strangers)
    return Bill(tuple(kept), (*path.gaps, *gaps), notes, len(path.meetings))


def price_at(prices: Prices, level: str) -> int:
    """The price of a level: counter, trade or web [cents]."""
    return int(getattr(prices, level))


def _line(station: str, row: Row | Part, count: int, level: str, note: str = "", installed: bool = True) -> Line:
    each = price_at(row.prices, level)
    mass = row.mass * count if installed else 0.0
    return Line(
        station, row.name, row.name, float(count), "piece", each, each * count, mass, False, note, row.prices.bin
    )


def _piece_lines(path: WaterPath, level: str) -> list[Line]:
    counts: dict[tuple[str, str], list[Row]] = {}
    for piece in path.pieces:
        if not isinstance(piece.row, Pipe):
            counts.setdefault((piece.station, piece.row.name), []).append(piece.row)
    return [_line(station, rows[0], len(rows), level) for (station, _), rows in counts.items()]


def _pipe_lines(path: WaterPath, level: str, job: Job) -> list[Line]:
    """A line for each length of coil; the leftover is noted with the coil it is cut from."""
    pipes = [piece for piece in path.pieces if isinstance(piece.row, Pipe)]
    return [
        _coil_line(list(group), level, job.job.units)
        for _, group in groupby(pipes, key=lambda piece: (piece.station, piece.row.name, piece.sold))
    ]


def _coil_line(pieces: list[Piece], level: str, system: str) -> Line:
    row, sold, count = pieces[0].row, pieces[0].sold, len(pieces)
    used = sum(piece.length for piece in pieces)
    each = coil_price(row.prices, sold, level)
    coils = f"{count} x {units.show(sold, 'length', system)}"
    left = count * sold - used
    note = f"{coils}, {units.show(used, 'length', system)} used, {units.show(left, 'length', system)} left over"
    mass, lies = row.mass * used, row.prices.bin
    return Line(pieces[0].station, row.name, row.name, count * sold, "m", each, each * count, mass, False, note, lies)


def coil_price(prices: Prices, length: float, level: str) -> int:
    """Price of a length [m] of what is sold by length [cents], in whole cents."""
    return cents(exact(length / prices.length) * price_at(prices, level))


def _extra_line(extra: Extra, level: str) -> Line:
    line = _line_of_extra(extra, level)
    return replace(line, local=LOCALLY in extra.note)


def _line_of_extra(extra: Extra, level: str) -> Line:
    row, note = extra.row, extra.note
    if row is None:
        return Line(extra.station, extra.what, "", extra.count, "piece", 0, 0, extra.mass, False, note)
    if row.prices.length:
        price = coil_price(row.prices, extra.count, level)
        mass, lies = row.mass * extra.count, row.prices.bin
        return Line(extra.station, row.name, row.name, extra.count, "m", price, price, mass, False, note, lies)
    return _line(extra.station, row, int(extra.count), level, note, extra.station != "used up")


def _joints_above_water(path: WaterPath, job: Job, assembly: Assembly) -> list[str]:
    """Word of a suction line that no coil is long enough to bring from the water to the pump in one piece."""
    pipes = [piece for piece in path.suction_side if isinstance(piece.row, Pipe) and piece.station == "suction line"]
    if len(pipes) < 2 or pipes[-1].length >= length_above_water(job, assembly) - 0.001:
        return []
    longest = units.show(pipes[-1].sold, "length", job.job.units)
    return [f"the suction line has joints above the lowest water: {pipes[-1].row.name} comes in {longest} at most"]


MAIN_PARTS = {
    "stand": ("stand", ("foot_valves", "screens", "parts")),
    "suction": ("suction line", ("pipes",)),
    "pump": ("pump", ("pumps", "jets")),
    "delivery": ("delivery", ("pipes",)),
    "tank": ("tank", ("tanks",)),
}
"""Station and tables of a thing that is there already, where `[have]` names it and no row of the stock."""


def _kept(lines: list[Line], job: Job, stock: Stock) -> tuple[list[Line], list[str]]:
    """The lines with what is there already at price 0, and what is kept but is no line of the bill.

    A pump, tank or line that is no row of the stock gets a line of its own; a row that the bill does not have is a
    stranger.
    """
    strangers = []
    for name, have in job.have.items():
        if not have.keep:
            continue
        station = _place(have)[0]
        covered = [index for index, line in enumerate(lines) if _covers(have, line, stock)]
        for index in covered:
            note = "; ".join(filter(None, (_risk(have), lines[index].note)))
            lines[index] = replace(lines[index], each=0, price=0, have=True, note=note)
        if not covered and station and have.stock is None:
            note = f"{_risk(have)}; its weight and its ports are not known"
            lines.append(Line(station, have.what or name, "", 1.0, "piece", 0, 0, 0.0, True, note))
        elif not covered:
            strangers.append(f"[have.{name}] is kept, and no line of the bill is it: name its stock or its part")
    return lines, strangers


def _place(have: Have) -> tuple[str, tuple[str, ...]]:
    said = (have.part or "").strip().casefold()
    thing = next((thing for thing, words in WORDS_FOR.items() if said in words), "")
    return MAIN_PARTS.get(thing, ("", ()))


def _covers(have: Have, line: Line, stock: Stock) -> bool:
    station, tables = _place(have)
    if have.stock is not None:
        return have.stock == line.stock and station in ("", line.station)
    return station == line.station and any(line.stock in stock.tables()[table] for table in tables)


def _risk(have: Have) -> str:
    """What is not known of a thing that stays."""
    return ", ".join(
        (
            f"there already: {have.age.text} old" if have.age else "there already: age not told",
            have.condition if have.condition in ("good", "worn") else "condition unknown",
            "seen" if have.seen else "nobody has seen it",
        )
    )
