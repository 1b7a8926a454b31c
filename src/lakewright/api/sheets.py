"""What a packet may hold besides its sheet: one function and one line in SHEETS each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from lakewright.api.place_sheets import chart_files, plan_files
from lakewright.documents.bench import Bench, bench
from lakewright.documents.dxf import dxf
from lakewright.documents.pdf import pages
from lakewright.documents.scene import Scene
from lakewright.documents.season_sheet import season_sheet
from lakewright.documents.svg import svg
from lakewright.job.models import Job
from lakewright.report import Report
from lakewright.state.assemble import Assembly
from lakewright.state.stand import stand_of
from lakewright.stock.load import Stock


def bench_files(job: Job, stock: Stock, assembly: Assembly, report: Report) -> dict[str, bytes]:
    """The bench drawing of a job's stand as PDF, SVG and DXF, by the end of each file's name."""
    drawn = _bench(job, stock, assembly, report)
    return {
        "bench.pdf": pages([drawn.scene], report.title),
        "bench.svg": svg(drawn.scene).encode("utf-8"),
        "bench.dxf": dxf(drawn, report.units),
    }


def bench_drawn(job: Job, stock: Stock, assembly: Assembly, report: Report) -> Scene:
    """The same as a scene."""
    return _bench(job, stock, assembly, report).scene


def _bench(job: Job, stock: Stock, assembly: Assembly, report: Report) -> Bench:
    return bench(stand_of(job, stock, assembly), stock, report)


def season_files(_job: Job, _stock: Stock, _assembly: Assembly, report: Report) -> dict[str, bytes]:
    """The season sheet as PDF and SVG."""
    drawn = season_sheet(report)
    return {"season.pdf": pages([drawn], report.title), "season.svg": svg(drawn).encode("utf-8")}


SHEETS: Mapping[str, Callable[[Job, Stock, Assembly, Report], dict[str, bytes]]] = {
    "bench": bench_files,
    "season": season_files,
    "chart": chart_files,
    "plan": plan_files,
}
"""Sheets by the names they are asked by."""
