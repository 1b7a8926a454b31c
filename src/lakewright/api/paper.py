"""The sheets of a packet that are paper: one function and one line in PAPER each."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from lakewright.api.curve_sheets import grade_scene, pump_scene
from lakewright.api.place_sheets import places_of, plan_of
from lakewright.api.site import site_of
from lakewright.documents.bench import bench
from lakewright.documents.bind import SIDE, STANDING, Drawn, Page
from lakewright.documents.dxf import dxf
from lakewright.documents.pick_ticket import pick_ticket
from lakewright.documents.place_chart import place_chart
from lakewright.documents.plan import plan
from lakewright.documents.pump_card import pump_card
from lakewright.documents.quote_sheet import quote_sheet
from lakewright.documents.said import Sayer, fixed
from lakewright.documents.scene import Scene
from lakewright.documents.season_sheet import season_sheet
from lakewright.documents.section import section
from lakewright.documents.sheet import SECTION_SIZE, sheet
from lakewright.documents.shore_sheet import shore_sheet
from lakewright.documents.start_sheet import start_sheet
from lakewright.documents.svg import svg
from lakewright.documents.working_sheet import working_sheet
from lakewright.errors import AskError
from lakewright.job.models import Job
from lakewright.report import Report
from lakewright.search.spots import spots_of
from lakewright.state.assemble import Assembly
from lakewright.state.stand import stand_of
from lakewright.stock.load import Stock

SECTION_HIGH = 88.0
"""ours: height of the section on a quote [mm], a third of the page."""


@dataclass(frozen=True)
class Told:
    """What a sheet is made from."""

    job: Job
    stock: Stock
    assembly: Assembly
    report: Report
    say: Sayer
    paper: str  # a name of `bind.STANDING`


def _as_svg(name: str, scene: Scene) -> dict[str, Callable[[], bytes]]:
    """A drawing as SVG, by the end of the file's name."""
    return {f"{name}.svg": lambda: svg(scene).encode("utf-8")}


def _quote(told: Told) -> Page:
    width = STANDING[told.paper][0] - 2.0 * SIDE
    site = site_of(told.job, told.assembly.facts)
    return quote_sheet(told.say, section(site, told.report.findings, width, SECTION_HIGH))


def _pick(told: Told) -> Page:
    if told.report.priced is None:
        raise AskError("no pick ticket: no suction pump will do here, so nothing is built and nothing picked")
    return pick_ticket(told.say)


def _card(told: Told) -> Page:
    if told.report.ways_out:
        raise AskError("no pump-house card: no suction pump will do here")
    return pump_card(told.say)


def _site(told: Told) -> Page:
    standings = told.assembly.standings.items()
    names = tuple(name for name, standing in standings if standing == "told")
    site = site_of(told.job, told.assembly.facts)
    alone = section(site, told.report.findings, *SECTION_SIZE).scene
    return Drawn(fixed("drawings.site"), sheet(told.report, site, names), _as_svg("section", alone))


def _plan(told: Told) -> Page:
    drawn = plan(plan_of(told.job, told.assembly), told.report)
    return Drawn(fixed("drawings.plan"), drawn, _as_svg("plan", drawn))


def _chart(told: Told) -> Page:
    spots = spots_of(told.job, told.stock, told.assembly)
    drawn = place_chart(places_of(told.job, told.assembly, spots), told.report)
    return Drawn(fixed("drawings.chart"), drawn, _as_svg("chart", drawn))


def _bench(told: Told) -> Page:
    drawn = bench(stand_of(told.job, told.stock, told.assembly), told.stock, told.report)
    files = {**_as_svg("bench", drawn.scene), "bench.dxf": lambda: dxf(drawn, told.report.units)}
    return Drawn(fixed("drawings.bench"), drawn.scene, files)


def _season(told: Told) -> Page:
    drawn = season_sheet(told.report)
    return Drawn(fixed("drawings.season"), drawn, _as_svg("season", drawn))


def _pump(told: Told) -> Page:
    drawn = pump_scene(told.assembly, told.report)
    return Drawn(fixed("drawings.pump"), drawn, _as_svg("pump", drawn))


def _grade(told: Told) -> Page:
    drawn = grade_scene(told.assembly, told.report)
    return Drawn(fixed("drawings.grade"), drawn, _as_svg("grade", drawn))


def _shore(told: Told) -> Page:
    if told.report.ways_out:
        raise AskError("no shore sheet: no suction pump will do here, so nothing is set")
    return shore_sheet(told.say)


def _start(told: Told) -> Page:
    if told.report.ways_out:
        raise AskError("no start-up sheet: no suction pump will do here, so nothing is started")
    return start_sheet(told.say)


def _working(told: Told) -> Page:
    return working_sheet(told.say)


PAPER: Mapping[str, Callable[[Told], Page]] = {
    "quote": _quote,
    "pick": _pick,
    "card": _card,
    "site": _site,
    "plan": _plan,
    "chart": _chart,
    "bench": _bench,
    "pump": _pump,
    "grade": _grade,
    "shore": _shore,
    "start": _start,
    "season": _season,
    "working": _working,
}
"""Sheets by the names they are asked by, in the order they are bound."""

USUAL = ("quote", "pick", "card")
"""Sheets of every packet, which need not be asked for."""
