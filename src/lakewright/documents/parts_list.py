"""The bill of parts as a table for a spreadsheet."""

from __future__ import annotations

import csv
import io

from lakewright import units
from lakewright.documents.outcome_tables import inert
from lakewright.state.bill import Bill, Line

HEAD = ("station", "part", "quantity", "unit", "each", "price", "weight", "weight unit", "there already", "note")


def parts_csv(bill: Bill, system: str) -> str:
    """The bill as CSV, a line a part and the sum last; lengths and weights in the job's units, prices in dollars."""
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow(HEAD)
    for line in bill.lines:
        rows.writerow([inert(cell) for cell in _cells(line, system)])
    mass = _whole(bill.mass, "part_mass", system)
    rows.writerow(["total", "", "", "", "", dollars(bill.price), mass, units.unit_of("part_mass", system), "", ""])
    for gap in bill.gaps:
        rows.writerow(["not in it", inert(gap), *[""] * (len(HEAD) - 2)])
    return out.getvalue()


def _cells(line: Line, system: str) -> tuple[str, ...]:
    if line.unit == "m":
        quantity, unit = _whole(line.quantity, "length", system), units.unit_of("length", system)
    else:
        quantity, unit = f"{line.quantity:g}", line.unit
    mass = (_whole(line.mass, "part_mass", system), units.unit_of("part_mass", system))
    there = "yes" if line.have else ""
    return (line.station, line.what, quantity, unit, dollars(line.each), dollars(line.price), *mass, there, line.note)


def _whole(value: float, kind: str, system: str) -> str:
    """A figure for a spreadsheet, which adds it up: with all of its kind's places."""
    return units.figure(value, kind, system, most=units.EVERY_DIGIT)


def dollars(cents: int) -> str:
    """Whole cents in dollars.

    >>> dollars(-205)
    '-2.05'
    """
    return f"{'-' if cents < 0 else ''}{abs(cents) // 100}.{abs(cents) % 100:02d}"
