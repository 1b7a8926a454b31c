"""What a packet may hold besides its sheet: one function and one line in SHEETS each."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from lakewright.api.curve_sheets import curve_files
from lakewright.api.diary_sheets import diary_files
from lakewright.api.everything import everything_files
from lakewright.api.list_sheets import list_files
from lakewright.api.place_sheets import chart_files, plan_files
from lakewright.documents.bench import bench
from lakewright.documents.dxf import dxf
from lakewright.documents.pdf import pages
from lakewright.documents.season_sheet import season_sheet
from lakewright.documents.svg import svg
from lakewright.job.models import Job
from lakewright.report import Report
from lakewright.state.assemble import Assembly
from lakewright.state.stand import stand_of
from lakewright.stock.load import Stock


def bench_files(job: Job, stock: Stock, assembly: Assembly, report: Report) -> dict[str, bytes]:
    """The bench drawing of a job's stand as PDF, SVG and DXF, by the end of each file's name."""
    drawn = bench(stand_of(job, stock, assembly), stock, report)
    return {
        "bench.pdf": pages([drawn.scene], report.title),
        "bench.svg": svg(drawn.scene).encode("utf-8"),
        "bench.dxf": dxf(drawn, report.units),
    }


def season_files(_job: Job, _stock: Stock, _assembly: Assembly, report: Report) -> dict[str, bytes]:
    """The season sheet as PDF and SVG."""
    drawn = season_sheet(report)
    return {"season.pdf": pages([drawn], report.title), "season.svg": svg(drawn).encode("utf-8")}


SHEETS: Mapping[str, Callable[[Job, Stock, Assembly, Report], dict[str, bytes]]] = {
    "bench": bench_files,
    "season": season_files,
    "chart": chart_files,
    "plan": plan_files,
    "curves": curve_files,
    "lists": list_files,
    "calendar": diary_files,
    "everything": everything_files,
}
"""Sheets by the names they are asked by."""
