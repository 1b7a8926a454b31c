"""The hydraulic grade line along the path, over the pipe: suction side and pressed side, each at its own scale."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from lakewright import units
from lakewright.documents import ink
from lakewright.documents.chart import Axis, Name, Plot, band, curve, frame, header, names, spread, wrapped_name
from lakewright.documents.paper import MARGIN, PAPERS, STRIP, title_strip
from lakewright.documents.prose import Block, Run, flowed, paragraph, put
from lakewright.documents.scale import unit_length
from lakewright.documents.scene import Box, Circle, Scene, centred, ending_at, line
from lakewright.physics.types import Array
from lakewright.report import Report
from lakewright.state.grade_line import GradeLine

FIGURES, NAMES, GAP = 12.0, 38.0, 5.0
"""ours: columns of figures and of names, and the space between the two sides [mm]."""
SHARE = 0.46
"""ours: of the width, for the suction side, where the water may boil."""
WORDS = 30.0
"""ours: height of the words under the plots [mm]."""
BOILS = (0.5, 0.6)
REST = (2.0, 1.0)
PIPE = 0.9
"""Dashes of where water boils and of the pump at rest, and how thick the pipe is [mm]: told apart in grey."""


@dataclass(frozen=True)
class Along:
    """What the chart shows besides the grade line itself.

    worst : the running case that comes closest to boiling at the pump, its name; room : by how much [m]
    pressed : whether a running case has the tank under pressure; on its side of the pump no others are shown
    tap : height [m], and pressure head over it with the tank at cut-in on the worst day [m]; nan where not known
    tap_name : of that tap
    levels : the lowest and the highest water [m]
    """

    worst: int
    worst_name: str
    room: float
    pressed: Array
    tap: float
    tap_grade: float
    tap_name: str
    levels: tuple[float, float]


def grade_chart(grade: GradeLine, path: Along, report: Report) -> Scene:
    """The chart as a sheet."""
    width, height = PAPERS[report.units]
    page = Scene(width, height, f"{report.title}: grade line")
    room = ink.typeset(units.show(path.room, "head", report.units))
    what = "it boils at the pump" if path.room <= 0.0 else f"{room} from boiling at the pump"
    first = f"Hydraulic grade line: at worst {what}" if math.isfinite(path.room) else "Hydraulic grade line"
    top, bottom = header(page, report.title, first, MARGIN), height - MARGIN - STRIP - 2.0
    foot = bottom - WORDS - 11.0
    whole = width - 2.0 * (MARGIN + FIGURES + NAMES) - GAP - 2.0 * FIGURES
    middle = MARGIN + NAMES + FIGURES + SHARE * whole
    before = Plot(Box(MARGIN + NAMES + FIGURES, top + 5.0, middle, foot), *_spans(grade, path, True))
    after = Plot(
        Box(middle + GAP + 2.0 * FIGURES, top + 5.0, width - MARGIN - NAMES, foot), *_spans(grade, path, False)
    )
    _side(page, before, grade, path, True, report.units)
    _side(page, after, grade, path, False, report.units)
    _words(page, before, after, path, Box(MARGIN, bottom - WORDS, width - MARGIN, bottom))
    title_strip(page, report, "grade line, 1 of 1", "each side at its own")
    return page


def _places(grade: GradeLine, suction: bool) -> slice:
    return slice(0, grade.suction) if suction else slice(grade.suction, None)


def _shown(grade: GradeLine, path: Along, suction: bool) -> Array:
    """The running cases that a side shows, (case, place)."""
    found: Array = (grade.grade if suction else grade.grade[path.pressed])[:, _places(grade, suction)]
    return found


def _spans(grade: GradeLine, path: Along, suction: bool) -> tuple[tuple[float, float], tuple[float, float]]:
    """What the axes of a side show."""
    part = _places(grade, suction)
    at, known = grade.at[part], _shown(grade, path, suction)
    heights = [*np.ravel(known), *grade.grade[path.worst, part], *grade.pipe[part], *np.ravel(grade.rest[:, part])]
    if suction:
        # Where no water stands at rest but the tank's, the line at rest would flatten all else.
        rest = np.ravel(grade.rest[:, part])
        calm = rest[rest < np.nanmax(grade.pipe[part]) + 3.0] if len(rest) else rest
        heights = [*np.ravel(known), *grade.pipe[part], *calm, *np.ravel(grade.boils[:, part]), *path.levels]
    else:
        heights += [path.tap, path.tap_grade]
    end = max(float(at[-1]), float(at[0]) + 1.0)
    # Room at the end for the taps.
    return (float(at[0]), end if suction else end + 0.18 * max(end - float(at[0]), 1.0)), spread(heights, 0.06)


def _side(page: Scene, plot: Plot, grade: GradeLine, path: Along, suction: bool, system: str) -> None:
    part = _places(grade, suction)
    at, grades, pipe, rest = grade.at[part], _shown(grade, path, suction), grade.pipe[part], grade.rest[:, part]
    unit, name = unit_length(system)
    frame(page, plot, Axis(unit, f"{name} along the pipe from the inlet", 14.0), Axis(unit, name, 6.5, signed=True))
    title = "from the water to the pump" if suction else "from the pump to the taps"
    page.add(centred(plot.box.middle[0], plot.box.top - 1.6, title, "side", ink.BODY, weight=ink.BOLD))
    low, high = grades.min(axis=0), grades.max(axis=0)
    band(page, plot, at, low, high, "grade", ink.WATER[1])
    for edge in (low, high):
        curve(page, plot, at, edge, "grade", ink.WATERLINE, ink.FINE)
    curve(page, plot, at, pipe, "pipe", ink.GREY, PIPE)
    for row in (rest.min(axis=0), rest.max(axis=0)):
        curve(page, plot, at, row, "rest", ink.WATERLINE, ink.THIN, REST)
    curve(page, plot, at, grade.grade[path.worst, part], "worst", ink.INK, 0.55)
    if suction:
        boils = grade.boils[:, part].max(axis=0)
        curve(page, plot, at, boils, "boils", ink.RED, ink.BOLD_LINE, BOILS)
        found = _before(page, plot, at, 0.5 * (low + high), pipe, rest, boils)
    else:
        found = _after(page, plot, at, 0.5 * (low + high), pipe, rest, path, system)
        worst = float(grade.grade[path.worst, -1])
        if not path.pressed[path.worst]:
            found += _named(plot, [(at[-1], worst, "running, the heavy line, tank open")], NAMES - 4.0)
    box = plot.box
    left = Box(MARGIN, box.top, MARGIN + NAMES - 1.0, box.bottom)
    right = Box(box.right + 3.0, box.top, box.right + NAMES - 1.0, box.bottom)
    names(page, found, left if suction else right, right=not suction)


def _before(page: Scene, plot: Plot, at: Array, middle: Array, pipe: Array, rest: Array, boils: Array) -> list[Name]:
    x, y = plot.at(float(at[-1]), float(pipe[-1]))
    if math.isfinite(y):
        page.add(
            Circle(x, y, 1.3, "pump", ink.INK, ink.BOLD_LINE, ink.SHEET), ending_at(x - 2.2, y - 0.6, "pump", "name")
        )
    calm = rest[:, 0][rest[:, 0] <= plot.y[1]]
    return _named(
        plot,
        [
            (at[0], middle[0], "running, every case"),
            (at[0], pipe[0], "the inlet, and the pipe from there"),
            (at[0], calm.max() if len(calm) else math.nan, "at rest, from the lowest water to the highest"),
            (at[0], boils[0], "under this the water boils"),
        ],
        NAMES - 4.0,
    )


def _after(
    page: Scene, plot: Plot, at: Array, middle: Array, pipe: Array, rest: Array, path: Along, system: str
) -> list[Name]:
    wide = NAMES - 4.0
    said = [
        (at[-1], middle[-1], "running, tank at cut-in and cut-out"),
        (at[-1], pipe[-1], "the tank\u2019s tee"),
        (at[-1], rest[:, -1].max(), "at rest, tank at cut-out"),
    ]
    if math.isfinite(path.tap) and math.isfinite(path.tap_grade):
        x = 0.5 * (at[-1] + plot.x[1])
        tap, stands = plot.at(x, path.tap), plot.at(x, path.tap_grade)
        page.add(
            line([plot.at(at[-1], pipe[-1]), tap], "pipe", ink.GREY, PIPE),
            line([tap, stands], "tap", ink.INK, ink.THIN),
            Circle(*tap, 0.9, "tap", ink.INK, ink.THIN, ink.SHEET),
            line([(stands[0] - 1.5, stands[1]), (stands[0] + 1.5, stands[1])], "tap", ink.INK, ink.BOLD_LINE),
        )
        over = units.show(path.tap_grade - path.tap, "head", system)
        tap_name = wrapped_name(stands, f"at {path.tap_name}, tank at cut-in", wide, f"{over} over it")
        return [*_named(plot, said, wide), tap_name]
    return _named(plot, said, wide)


def _named(plot: Plot, said: list[tuple[float, float, str]], wide: float) -> list[Name]:
    return [
        wrapped_name(plot.at(float(x), float(y)), words, wide)
        for x, y, words in said
        if math.isfinite(float(x)) and plot.y[0] <= float(y) <= plot.y[1]
    ]


def _words(page: Scene, before: Plot, after: Plot, path: Along, box: Box) -> None:
    """What the lines mean, in two columns under the plots."""
    times = [
        (plot.box.height / (plot.y[1] - plot.y[0])) / (plot.box.width / (plot.x[1] - plot.x[0]))
        for plot in (before, after)
    ]
    lines = (
        "The grade line is how high water would stand in a tube at that place: over the pipe it is pressed, under it "
        "it is sucked. It falls by what is lost on the way, and the pump lifts it.",
        f"The heavy line is {path.worst_name}: of all cases it comes closest to boiling at the pump’s inlet. Inside "
        "a pump the pressure falls further: that is what its required NPSH, or its maker’s table, is for.",
        "Losses of screen and valve lie at the inlet, those of fittings before the pump at the pump, those after it "
        "all along the delivery line: nobody says where they sit.",
        f"Heights are drawn {times[0]:.1f} times as large as lengths on the left, {times[1]:.1f} times on the right; "
        "the pipe after the pump is drawn straight, that to the tap not to scale.",
        "Dashes: at rest, all that should hold holding. Dots: where water boils, on the day that lies highest.",
        "A gauge reads the grade line less the height of the gauge. Pump curves are invented until the shop’s own "
        "stock is read in.",
    )
    wide = (box.width - GAP) / 2.0
    rows = [paragraph([Run(ink.typeset(words))], wide, ink.SMALL, after=1.0) for words in lines]
    for kept in range(len(rows), 0, -1):
        columns = flowed([Block("How to read it", rows[:kept])], 2, box.height)
        if columns is not None:
            put(page, columns, box.left, box.top, wide, GAP)
            return
