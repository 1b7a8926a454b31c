"""The lists of a job as tables: parts at three prices, what is cut, what it takes, what is asked.

A table says what each cell holds and how it is worked out; a spreadsheet keeps the working, a CSV the result.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from lakewright.state.bill import Bill, Line
from lakewright.state.cut_list import Bundle, CutPiece, Making
from lakewright.state.quote import Quote, total_in_words
from lakewright.stock.load import Stock
from lakewright.stock.rows import Prices
from lakewright.units.showing import shown_unit, unit_of

INVENTED = "Prices are invented until the shop’s own stock is read in."

LEVELS = ("counter", "trade", "web")
"""The three prices of a part, as the stock has them."""

Form = Literal["text", "money", "count", "length", "part", "part_mass"]


@dataclass(frozen=True)
class Column:
    """A column: its head, with the unit in it; what its cells hold; whether the list says their sum."""

    head: str
    form: Form = "text"
    wide: float = 12.0  # letters
    summed: bool = False


@dataclass(frozen=True)
class Worked:
    """A cell worked out from others of its row, which the formula names by their heads in braces."""

    formula: str
    value: float


Cell = str | int | float | Worked
"""Words, a number in the unit of its column (money in cents), or one worked out; nan where nobody knows."""


@dataclass(frozen=True)
class Table:
    """A list: rows of as many cells as it has columns, the words before their sums, and what is to be said under it."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    total: str = ""
    notes: tuple[str, ...] = ()


def value_of(cell: Cell) -> str | float:
    """What a cell says."""
    return cell.value if isinstance(cell, Worked) else cell


def sum_of(table: Table, place: int) -> float:
    """The sum of a column; what nobody knows counts for nothing."""
    numbers = [value for row in table.rows if not isinstance(value := value_of(row[place]), str)]
    return math.fsum(number for number in numbers if math.isfinite(number))


def parts_table(bills: Mapping[str, Bill], level: str, stock: Stock, system: str) -> Table:
    """The parts of a job, each at three prices.

    Parameters
    ----------
    bills : of the same parts, by the level of their prices
    level : the job's own
    stock : where a part lies and who has it
    system : "US" or "SI"
    """
    own = bills[level]
    heads = [f"{each}, this job’s" if each == level else each for each in LEVELS]
    columns = (
        *(Column("station"), Column("part", wide=48.0), Column("bought", "count", 8.0), Column("as", wide=8.0)),
        Column(f"length, {unit_of('length', system)}", "length", 11.0),
        *(
            column
            for head in heads
            for column in (Column(f"{head}, each", "money", 13.0), Column(head, "money", 13.0, summed=True))
        ),
        Column(f"weight, {unit_of('part_mass', system)}", "part_mass", 11.0, summed=True),
        *(Column("there already", wide=8.0), Column("bin", wide=8.0), Column("supplier", wide=18.0)),
        *(Column("days to come", "count", 8.0), Column("note", wide=48.0)),
    )
    rows = []
    for number, line in enumerate(own.lines):
        count = _bought(line)
        priced = [
            cell for head, name in zip(heads, LEVELS, strict=True) for cell in _price(bills[name].lines[number], head)
        ]
        prices = _prices(stock, line.stock)
        where = ("", "", math.nan) if prices is None else (prices.bin, prices.supplier, prices.lead_days)
        rows.append(
            (
                *(line.station, line.what, count, "length" if line.unit == "m" else line.unit),
                _in(line.quantity, "length", system) if line.unit == "m" else math.nan,
                *priced,
                _in(line.mass, "part_mass", system),
                *("yes" if line.have else "", *where, line.note),
            )
        )
    notes = (*(f"not in it: {gap}" for gap in own.gaps), *own.notes, INVENTED)
    return Table("Parts", columns, tuple(rows), "total", notes)


def _bought(line: Line) -> int | float:
    """How many pieces, coils or lengths are bought, so that as many times their price is the line's."""
    return line.price // line.each if line.each else line.quantity if line.unit != "m" else 1


def _price(line: Line, head: str) -> tuple[Cell, Cell]:
    return line.each, Worked(f"ROUND({{bought}}*{{{head}, each}},2)", line.price)


def _prices(stock: Stock, name: str) -> Prices | None:
    """What the stock says of a part's price; None of what is no row of it."""
    found = (rows[name] for rows in stock.tables().values() if name in rows)
    prices = getattr(next(found, None), "prices", None)
    return prices if isinstance(prices, Prices) else None


def cut_table(making: Making, system: str) -> Table:
    """The pieces of pipe of a stand: how each length comes about, and how much of each there is."""
    unit = unit_of("part", system)
    length, each = f"length, {unit}", f"each, {unit}"
    ends = [f"{what} {end}, {unit}" for what in ("to mouth", "make-up") for end in (1, 2)]
    formula = f"{{centre to centre, {unit}}}-{{{ends[0]}}}-{{{ends[1]}}}+{{{ends[2]}}}+{{{ends[3]}}}"
    columns = (
        *(Column("for", wide=10.0), Column("pipe or nipple", wide=42.0), Column("work", wide=16.0)),
        *(Column("between", wide=14.0), Column("and", wide=14.0), Column(f"centre to centre, {unit}", "part")),
        *(Column(end, "part") for end in ends),
        *(Column(each, "part"), Column("how many", "count", 9.0), Column(length, "part", summed=True)),
        Column("holes in each", "count", 9.0),
    )
    rows = tuple(_cut_row(piece, formula, f"{{{each}}}*{{how many}}", system) for piece in making.pieces)
    note = (
        "Length is from end to end, threads and all: centre to centre, less both to mouth, plus both make-ups. "
        "Fittings differ by maker: measure those in hand before pipe is cut."
    )
    return Table("Cut list", columns, rows, "in all", (note,) if rows else ("nothing is cut",))


def _cut_row(piece: CutPiece, formula: str, all_of_it: str, system: str) -> tuple[Cell, ...]:
    def shown(length: float) -> float:
        return _in(length, "part", system)

    steps = (piece.centre_to_centre, *piece.centre_to_mouth, *piece.make_up)
    long = shown(piece.length)
    each: Cell = Worked(formula, long) if all(map(math.isfinite, steps)) else long
    return (
        *(piece.role, piece.what, "cut and thread" if piece.cut else "as bought"),
        *(end or "open" for end in piece.between),
        *map(shown, steps),
        *(each, piece.count, Worked(all_of_it, long * piece.count), piece.holes),
    )


def making_table(making: Making, bundles: Sequence[Bundle], system: str) -> Table:
    """What it takes to put a stand together, and what it weighs in the pieces it is carried in."""
    unit = unit_of("part_mass", system)
    columns = (
        *(Column("what", wide=42.0), Column("how many", "count", 9.0)),
        *(Column(f"weight {how}, {unit}", "part_mass", summed=True) for how in ("dry", "wet")),
    )
    counts = [
        *making.fittings.items(),
        *(("threads to make up", making.threads), ("turns of tape", making.tape_turns), ("clamps", making.clamps)),
        *(("holes to drill", making.holes),),
    ]
    rows: list[tuple[Cell, ...]] = [(what, count, math.nan, math.nan) for what, count in counts if count]
    rows += [
        (f"to carry: {each.what}", 1, _in(each.dry, "part_mass", system), _in(each.wet, "part_mass", system))
        for each in bundles
    ]
    return Table("Putting together", columns, tuple(rows), "to carry in all")


def price_table(quote: Quote) -> Table:
    """What the job costs and what is asked for it, for the shop alone."""
    columns = (
        *(Column("what", wide=48.0), Column("why", wide=36.0), Column("cost", "money", 13.0, summed=True)),
        *(Column("asked", "money", 13.0, summed=True), Column("over cost", "money", 13.0, summed=True)),
    )
    rows = tuple(
        (line.what, line.why, line.cost, line.amount, Worked("ROUND({asked}-{cost},2)", line.amount - line.cost))
        for line in quote.lines
    )
    missing = (f"not in it yet: {words}" for words in quote.missing)
    notes = (
        *missing,
        *(f"not in it: {words}" for words in quote.excluded),
        f"The shop’s own: cost is on no customer’s paper. {INVENTED}",
    )
    return Table("Price", columns, rows, total_in_words(quote), notes)


def _in(value: float, kind: str, system: str) -> float:
    """A number in the unit that such numbers are shown in."""
    return value / shown_unit(kind, system).factor
