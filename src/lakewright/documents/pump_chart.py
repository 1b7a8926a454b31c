"""The pump against the system: both curves with the range of all cases, and beneath what keeps the water liquid."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from lakewright import units
from lakewright.documents import ink
from lakewright.documents.chart import Axis, Name, Plot, band, curve, frame, header, names, spread, wrapped_name
from lakewright.documents.paper import MARGIN, PAPERS, STRIP, title_strip
from lakewright.documents.prose import Block, Run, flowed, paragraph, put
from lakewright.documents.scene import Box, Circle, Path, Scene, line, rectangle
from lakewright.physics.types import Array
from lakewright.report import Report
from lakewright.state.cases import CUT_IN, CUT_OUT, ENDS, OPEN, Index
from lakewright.state.curves import Curves
from lakewright.units.showing import shown_unit, unit_of

FIGURES, NAMES, WORDS, GAP = 12.0, 40.0, 60.0, 5.0
"""ours: columns of figures, of names beside the plot, of words, and between them [mm]."""
FILLS = {CUT_OUT: ink.WATER[3], CUT_IN: ink.WATER[1], OPEN: ink.SAND}
DASHES: dict[int, tuple[float, ...]] = {CUT_OUT: (), CUT_IN: (1.6, 0.8), OPEN: (0.5, 0.7)}
"""Ink and dash of the system at each end of the pump's run: told apart in grey by their edges."""
ASKED = ("delivers_the_need", "reaches_cut_out", "suction_stays_liquid", "pump_stays_on_its_curve")
"""Findings that this chart shows the ground of."""


@dataclass(frozen=True)
class Running:
    """Where pump and system meet in each running case, and what the chart needs to know of the case.

    flow [m3/s]; asked [m3/s] that is wanted then; end, fouled: of the case; held [m3/s] by a flow control valve,
    infinite without one; names : of the cases
    """

    flow: Array
    asked: Array
    end: Index
    fouled: Index
    held: float
    names: tuple[str, ...]


def pump_chart(curves: Curves, running: Running, jet: bool, report: Report) -> Scene:
    """The chart as a sheet."""
    width, height = PAPERS[report.units]
    page = Scene(width, height, f"{report.title}: pump and system")
    said = report.first_line.partition(" \u00b7 ")[0]
    top = header(page, report.title, ink.typeset(f"Pump and system: {said[:1].lower()}{said[1:]}"), MARGIN)
    bottom = height - MARGIN - STRIP - 2.0
    left, right = MARGIN + FIGURES, width - MARGIN - WORDS - GAP - NAMES - 3.0
    split = top + 0.62 * (bottom - top - 14.0)
    x = (0.0, 1.02 * float(curves.flow[-1]))
    heads = Plot(Box(left, top, right, split), x, _heads(curves))
    beneath = Plot(Box(left, split + 5.0, right, bottom - 9.0), x, _beneath(curves))
    _upper(page, heads, curves, running, jet, report.units)
    _lower(page, beneath, curves, running, jet, report.units)
    _words(page, running, jet, report, Box(right + 3.0 + NAMES + GAP, top, width - MARGIN, bottom))
    title_strip(page, report, "pump and system, 1 of 1", "none")
    return page


def _heads(curves: Curves) -> tuple[float, float]:
    """From nothing, or what a flooded system asks, to over the pump's most and over what the system asks at rest.

    ours: no higher than twice the pump's most; a system beyond that is cut off, and so is one that rises steeply.
    """
    most, asked = float(np.nanmax(curves.pump)), float(np.max(curves.system[:, 0]))
    least = min(0.0, float(np.min(curves.system[:, 0])))
    return least - (0.04 * most if least < 0.0 else 0.0), max(1.12 * most, min(1.1 * asked, 2.0 * most))


def _beneath(curves: Curves) -> tuple[float, float]:
    low, high = spread([*np.ravel(curves.available), *np.ravel(curves.required), 0.0], 0.08)
    return min(low, 0.0) if low < -0.1 * high else 0.0, high


def _upper(page: Scene, plot: Plot, curves: Curves, running: Running, jet: bool, system: str) -> None:
    unit = shown_unit("head", system).factor
    frame(page, plot, None, Axis(unit, unit_of("head", system), 8.0))
    found: list[Name] = []
    wide = NAMES - 1.0
    for end in (OPEN, CUT_IN, CUT_OUT):
        rows = curves.system[running.end == end]
        low, high = rows.min(axis=0), rows.max(axis=0)
        band(page, plot, curves.flow, low, high, "system", FILLS[end])
        for edge in (low, high):
            curve(page, plot, curves.flow, edge, "system", ink.WATERLINE, ink.THIN, DASHES[end])
        found += _named(plot, curves.flow, 0.5 * (low + high), f"the system, {ENDS[end]}")
    rows = _least_and_most(curves)
    said = ("the jet at its least lift", "the jet at its most lift") if jet else ("the pump",)
    for row, words in zip(rows, said, strict=True):
        curve(page, plot, curves.flow, row, "pump", ink.INK, 0.6)
        found += _named(plot, curves.flow, row, words)
    found += _uprights(page, plot, running, system, wide)
    _points(page, plot, curves, curves.system, running)
    names(page, found, Box(plot.box.right + 3.0, plot.box.top, plot.box.right + 3.0 + wide, plot.box.bottom))


def _least_and_most(curves: Curves) -> list[Array]:
    """The pump's one line; of a jet, whose line is another at every lift, those of its least and its most."""
    if len(curves.pump) == 1:
        return [curves.pump[0]]
    lift = curves.available[:, 0]
    return [curves.pump[int(np.argmin(lift))], curves.pump[int(np.argmax(lift))]]


def _named(plot: Plot, xs: Array, ys: Array, words: str) -> list[Name]:
    """A name where a line leaves the frame, or ends in it; none of a line that is not there."""
    inside = [(x, y) for x, y in zip(xs, ys, strict=True) if math.isfinite(y) and plot.y[0] <= y <= plot.y[1]]
    return [wrapped_name(plot.at(*inside[-1]), words, NAMES - 1.0)] if inside else []


def _uprights(page: Scene, plot: Plot, running: Running, system: str, wide: float) -> list[Name]:
    """The flow asked for, and that which a valve holds."""
    most = float(np.nanmax(running.asked)) if np.isfinite(running.asked).any() else math.nan
    found = []
    marks = [(most, "most asked for", (2.4, 0.8, 0.5, 0.8)), (running.held, "the flow control valve holds", (0.5, 0.5))]
    alike = math.isclose(most, running.held, rel_tol=1e-6)
    for n, (flow, words, dash) in enumerate(marks):
        if not math.isfinite(flow) or flow > plot.x[1] or (alike and n == 1):
            continue
        x = plot.across(flow)
        page.add(line([(x, plot.box.top), (x, plot.box.bottom)], "flow", ink.INK, ink.THIN, dash))
        said = "asked for, and what the flow control valve holds" if alike else words
        found.append(wrapped_name((x, plot.box.top + 2.0 + 3.0 * n), said, wide, units.show(flow, "flow", system)))
    return found


def _points(page: Scene, plot: Plot, curves: Curves, rows: Array, running: Running) -> None:
    """A dot a case where the line is clean, a ring where it is fouled."""
    for n, flow in enumerate(running.flow):
        row = rows[n if len(rows) > 1 else 0]
        y = float(np.interp(flow, curves.flow, row)) if math.isfinite(flow) else math.nan
        if flow > 0.0 and plot.y[0] <= y <= plot.y[1]:
            page.add(_mark(*plot.at(float(flow), y), bool(running.fouled[n])))


def _mark(x: float, y: float, fouled: bool) -> Circle:
    return Circle(x, y, 0.75, "case", ink.INK, ink.THIN, ink.SHEET if fouled else ink.INK)


def _lower(page: Scene, plot: Plot, curves: Curves, running: Running, jet: bool, system: str) -> None:
    unit, flow_unit = shown_unit("head", system).factor, shown_unit("flow", system).factor
    frame(
        page, plot, Axis(flow_unit, f"flow, {unit_of('flow', system)}", 14.0), Axis(unit, unit_of("head", system), 6.5)
    )
    low, high = curves.available.min(axis=0), curves.available.max(axis=0)
    band(page, plot, curves.flow, low, high, "available", ink.WATER[1])
    for edge in (low, high):
        curve(page, plot, curves.flow, edge, "available", ink.WATERLINE, ink.THIN)
    required = np.broadcast_to(curves.required, (1, len(curves.flow)))
    curve(page, plot, curves.flow, required[0], "required", ink.INK, 0.6)
    _points(page, plot, curves, curves.available, running)
    wide = NAMES - 1.0
    has, wants = (
        ("suction lift with losses, all cases", "the most lift in the maker\u2019s table")
        if jet
        else ("NPSH available, all cases", "NPSH required by the pump")
    )
    found = [*_named(plot, curves.flow, 0.5 * (low + high), has), *_named(plot, curves.flow, required[0], wants)]
    names(page, found, Box(plot.box.right + 3.0, plot.box.top, plot.box.right + 3.0 + wide, plot.box.bottom))


def _words(page: Scene, running: Running, jet: bool, report: Report, box: Box) -> None:
    """What is found here, and what the marks mean."""
    found = {finding.name: finding for finding in report.findings}
    said = [found[name] for name in ASKED if name in found and found[name].status != "not asked"]
    runs = [f"{_sentence(each.name.replace('_', ' '))}: {each.status}, {each.message}." for each in said]
    least, most = _extremes(running, report.units)
    block = Block("What it comes to", [paragraph([Run(ink.typeset(words))], box.width, ink.BODY, after=1.8)
                                       for words in (*runs, least, most)])  # fmt: skip
    key = Block("In the chart")
    for fouled, words in ((False, "a case, line clean"), (True, "the same, line fouled")):
        key.rows.append(paragraph([Run(words)], box.width, ink.SMALL, 8.0, [_mark(2.5, 1.6, fouled)], 1.4))
    for end in (CUT_OUT, CUT_IN, OPEN):
        key.rows.append(paragraph([Run(f"the system, {ENDS[end]}: from the least of all days to the most")],
                                  box.width, ink.SMALL, 8.0, _swatch(end), 1.4))  # fmt: skip
    what = "over the jet\u2019s outlet" if jet else "from the water to the tank"
    key.rows.append(paragraph([Run(
        f"Heads are {what}; every case of every day is here. Where a mark stands under the line of the pump, a valve "
        "takes the rest. Curves are never carried past the last point of their maker, and are invented until the "
        "shop’s own stock is read in."
    )], box.width, ink.SMALL))  # fmt: skip
    for size in (3, 2, 1):
        columns = flowed([Block(block.title, block.rows[: size * len(block.rows) // 3]), key], 1, box.height)
        if columns is not None:
            put(page, columns, box.left, box.top, box.width, GAP)
            return


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]


def _swatch(end: int) -> Sequence[Path]:
    box = Box(0.0, 0.4, 5.0, 2.8)
    edges = (line([(box.left, y), (box.right, y)], "key", ink.WATERLINE, ink.THIN, DASHES[end]) for y in (0.4, 2.8))
    return [rectangle(box, "key", FILLS[end]), *edges]


def _extremes(running: Running, system: str) -> tuple[str, str]:
    """The least and the most flow of all cases, and when."""
    known = np.where(np.isfinite(running.flow), running.flow, math.nan)
    said = []
    for words, place in (("Least flow", int(np.nanargmin(known))), ("Most flow", int(np.nanargmax(known)))):
        said.append(f"{words} of all cases: {units.show(float(known[place]), 'flow', system)}, {running.names[place]}.")
    return said[0], said[1]
