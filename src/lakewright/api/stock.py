"""List what can be had."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from lakewright import units
from lakewright.errors import AskError, Mistake
from lakewright.stock.kinds import FIGURES, KINDS
from lakewright.stock.load import Stock, load_stock
from lakewright.stock.overlay import overlay
from lakewright.stock.rows import FootValve, Jet, Part, Pipe, Prices, Pump, Screen, Tank

INVENTED = "Prices, price dates, suppliers and bins are invented, as are pumps, jets, tanks and screens."

ROW_KINDS = ("pipe", "foot valve", "screen", "pump", "jet pump", "tank")
"""What a list may be asked for beside the kinds of small part."""

# ours: how each dimension of a part's figures is written in a list.
_SHOWN_AS = {
    "area": "screen_area",
    "current": "current",
    "dose": "dose",
    "flow": "flow",
    "force": "force",
    "length": "bore",
    "power": "power",
    "pressure": "gauge",
    "pressure_difference": "pressure_difference",
    "resistance_per_length": "resistance_per_length",
    "share": "share",
    "time": "hours",
    "voltage": "voltage",
    "volume": "volume",
}


@dataclass(frozen=True)
class StockRow:
    """One part, as it is printed."""

    kind: str
    name: str
    detail: str
    counter: str
    trade: str
    web: str
    priced: str
    supplier: str
    lead: str
    bin: str


@dataclass(frozen=True)
class StockList:
    """What was asked for, and what of the shop's own sheet could not be read."""

    rows: tuple[StockRow, ...]
    mistakes: tuple[Mistake, ...]
    note: str


def every_kind() -> tuple[str, ...]:
    """All kinds a list may be asked for."""
    return (*ROW_KINDS, *KINDS)


def stock_list(
    kind: str | None = None, text: str | None = None, system: str = "US", own: Path | None = None
) -> StockList:
    """The parts of a kind whose name, kind or supplier holds every word of a text, with the shop's own over ours.

    Raises
    ------
    AskError for a kind that is none, with the nearest ones
    """
    asked = _kind(kind) if kind else ""
    stock, mistakes = overlay(load_stock(), own) if own else (load_stock(), ())
    words = (text or "").lower().split()
    rows = tuple(
        _row(each, part, system)
        for each, part in _parts(stock)
        if (not asked or each == asked)
        and all(word in f"{part.name} {each} {part.prices.supplier}".lower() for word in words)
    )
    return StockList(rows, mistakes, INVENTED)


def _kind(kind: str) -> str:
    """A kind as its table writes it; "tees", "hose-bib" and "O-Ring" are understood."""
    known = {each.lower().replace("-", " "): each for each in every_kind()}
    wanted = " ".join(kind.lower().replace("-", " ").replace("_", " ").split())
    for each in (wanted, wanted.removesuffix("s"), wanted.removesuffix("es"), wanted.removesuffix("ies") + "y"):
        if each in known:
            return known[each]
    near = [known[each] for each in get_close_matches(wanted, known, n=3, cutoff=0.5)]
    raise AskError(f"found {kind!r}; wanted a kind of part; write one of: {', '.join(near or every_kind())}")


Listed = Pipe | FootValve | Screen | Pump | Jet | Tank | Part


def _parts(stock: Stock) -> Iterator[tuple[str, Listed]]:
    tables: tuple[Mapping[str, Listed], ...] = (
        stock.pipes,
        stock.foot_valves,
        stock.screens,
        stock.pumps,
        stock.jets,
        stock.tanks,
    )
    for kind, table in zip(ROW_KINDS, tables, strict=True):
        yield from ((kind, part) for part in table.values())
    yield from ((part.kind, part) for part in stock.parts.values())


def _row(kind: str, part: Listed, system: str) -> StockRow:
    prices = part.prices
    lead = "in stock" if prices.lead_days == 0 else "1 day" if prices.lead_days == 1 else f"{prices.lead_days} days"
    return StockRow(
        kind=kind,
        name=part.name,
        detail=", ".join(_detail(part, system)),
        counter=_money(prices.counter, prices, system),
        trade=_money(prices.trade, prices, system),
        web=_money(prices.web, prices, system),
        priced=prices.priced.isoformat(),
        supplier=prices.supplier,
        lead=lead,
        bin=prices.bin,
    )


def _money(cents: int, prices: Prices, system: str) -> str:
    """A price as the trade writes it: a piece, or a length."""
    if prices.length:
        return units.show(cents / 100.0 / prices.length, "money_per_length", system)
    return units.show(cents, "money", system)


def _detail(part: Listed, system: str) -> Iterator[str]:
    """What tells one row from the next, in words."""

    def show(value: float, kind: str) -> str:
        return units.show(value, kind, system)

    if isinstance(part, Pipe):
        yield f"{part.compound}, bore {show(part.bore, 'bore')}, {show(part.rating, 'gauge')}"
        if not math.isnan(part.vacuum_rating):
            yield f"vacuum {show(part.vacuum_rating, 'vacuum')}"
        yield "for drinking" if part.potable else "not for drinking"
        if not part.sunlight:
            yield "keep from the sun"
        coils = " ".join(units.figure(coil, "length", system) for coil in part.coils)
        yield f"lengths {coils} {units.unit_of('length', system)}"
    elif isinstance(part, FootValve):
        yield f"seats {', '.join(part.attitudes)}"
        yield f"opens at {show(part.opening_pressure, 'pressure_difference')}"
    elif isinstance(part, Screen):
        yield f"{part.kind}, opening {show(part.opening, 'bore')}, area {show(part.area, 'screen_area')}"
        yield f"{show(part.open_fraction, 'share')} open"
    elif isinstance(part, Pump):
        yield f"shut-off {show(part.head[0], 'head')}, to {show(part.flow[-1], 'flow')}"
        yield f"{part.inlet_size} x {part.outlet_size} in"
    elif isinstance(part, Jet):
        yield f"shut-off {show(part.pressure[-1], 'gauge')}, to {show(part.flow[0][0], 'flow')}"
        yield f"{part.inlet_size} x {part.outlet_size} in"
    elif isinstance(part, Tank):
        yield f"lets in {show(part.acceptance, 'volume')}, {show(part.max_pressure, 'gauge')}"
    else:
        yield from _part_detail(part, system)


def _part_detail(part: Part, system: str) -> Iterator[str]:
    if part.material:
        yield part.material
    yield from dict.fromkeys(str(port) for port in part.ports)
    if not math.isnan(part.rating):
        yield units.show(part.rating, "gauge", system)
    for name, value in part.figures.items():
        if name == "particle":  # micrometres, which its name gives
            continue
        if name.startswith("ampacity_"):
            yield f"{units.show(value, 'current', system)} at {name.removeprefix('ampacity_')} C"
            continue
        as_kind = "vacuum" if name == "most_vacuum" else _SHOWN_AS[FIGURES[name]]
        lamp = name == "power" and part.kind == "ultraviolet"  # watts everywhere: it burns electricity
        yield f"{name.replace('_', ' ')} {units.show(value, as_kind, 'SI' if lamp else system)}"
