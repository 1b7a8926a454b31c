"""Sheets of the packet as the page shows them: the same drawings, without the paper round them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any
from xml.sax.saxutils import quoteattr

from lakewright.api.place_sheets import chart_drawn, plan_drawn
from lakewright.api.read import read
from lakewright.api.report import report_on
from lakewright.api.sheets import bench_drawn
from lakewright.documents.scene import Scene
from lakewright.documents.svg import shape_rows, view_box
from lakewright.errors import AskError
from lakewright.job.models import Job
from lakewright.report import Report
from lakewright.state.assemble import Assembly
from lakewright.stock.load import Stock
from lakewright.web.jobs import JobAt
from lakewright.web.view import render

Drawn = Callable[[Job, Stock, Assembly, Report], Scene]


def bench(job: JobAt, text: str, _: Mapping[str, Any]) -> str:
    """The bench drawing of the stand, as a piece of HTML."""
    return _sheets(job, text, (("The stand on the bench", bench_drawn),))


def spots(job: JobAt, text: str, _: Mapping[str, Any]) -> str:
    """The chart of places along the soundings, and the plan, as a piece of HTML."""
    return _sheets(job, text, (("Every place along the soundings", chart_drawn), ("Plan of the site", plan_drawn)))


def _sheets(at: JobAt, text: str, asked: tuple[tuple[str, Drawn], ...]) -> str:
    job, stock, assembly = read(at.file, text)
    report = report_on(job, assembly, stock=stock)
    sheets = []
    for title, drawn in asked:
        try:
            sheets.append((title, on_page(drawn(job, stock, assembly, report), title), ""))
        except AskError as error:
            sheets.append((title, "", str(error)))
    return render("leaf_drawn.html", sheets=sheets)


def on_page(scene: Scene, title: str) -> str:
    """A scene as SVG for the page, with its words for those who do not see it."""
    rows = [f'<svg {view_box(scene)} class="drawn" role="img" aria-label={quoteattr(title)}>']
    return "\n".join([*rows, *shape_rows(scene), "</svg>"])
