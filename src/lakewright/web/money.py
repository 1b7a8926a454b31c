"""Parts and price, as the page shows them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from lakewright import units
from lakewright.api.parts import Parts, parts
from lakewright.state.bill import Line
from lakewright.state.quote import summary
from lakewright.web.jobs import JobAt
from lakewright.web.view import render


def money(job: JobAt, text: str, _: Mapping[str, Any]) -> str:
    """What a draft is built of and what it costs, as a piece of HTML."""
    found = parts(job.file, text)
    if found.priced is None:
        return render("no_price.html", ways=found.ways_out)
    bill, quote = found.priced.bill, found.priced.quote
    return render(
        "leaf_money.html",
        quote=summary(quote),
        stations=[(name, [_row(line, found.units) for line in rows]) for name, rows in bill.by_station.items()],
        total=dollars(bill.price),
        mass=units.show(bill.mass, "part_mass", found.units),
        levels=[(name, dollars(cents), name == found.level) for name, cents in found.levels],
        notes=bill.notes,
        gaps=bill.gaps,
        making=found.making,
        pieces=_pieces(found),
    )


def dollars(cents: float) -> str:
    """An amount as the trade writes it."""
    return units.show(cents, "money", "US")


def _row(line: Line, system: str) -> dict[str, Any]:
    by_length = line.unit == "m"
    return {
        "what": line.what,
        "much": units.show(line.quantity, "length", system) if by_length else f"{line.quantity:g}",
        "each": "" if by_length else dollars(line.each),
        "price": "there already" if line.have else dollars(line.price),
        "mass": units.show(line.mass, "part_mass", system),
        "note": line.note,
    }


def _pieces(found: Parts) -> list[dict[str, Any]]:
    """What is cut or bought at a length, with what lies at its ends."""
    return [
        {
            "count": piece.count,
            "what": piece.what,
            "role": piece.role,
            "length": units.show(piece.length, "part", found.units),
            "between": " and ".join(end or "open end" for end in piece.between),
            "make_up": " and ".join(units.show(end, "part", found.units) for end in piece.make_up),
            "cut": piece.cut,
            "holes": piece.holes,
        }
        for piece in found.making.pieces
    ]
