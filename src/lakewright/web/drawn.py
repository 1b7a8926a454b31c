"""Drawings of the packet as the page shows them: the same scenes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from xml.sax.saxutils import quoteattr

from markupsafe import Markup

from lakewright.api.packet import told_of
from lakewright.api.paper import PAPER
from lakewright.documents.bind import Drawn
from lakewright.documents.scene import Scene
from lakewright.documents.svg import shape_rows, view_box
from lakewright.errors import AskError
from lakewright.web.jobs import JobAt
from lakewright.web.view import render


def bench(job: JobAt, text: str, _: Mapping[str, Any]) -> str:
    """The bench drawing of the stand, as a piece of HTML."""
    return _sheets(job, text, {"bench": "The stand on the bench"})


def spots(job: JobAt, text: str, _: Mapping[str, Any]) -> str:
    """The chart of places along the soundings, and the plan, as a piece of HTML."""
    return _sheets(job, text, {"chart": "Every place along the soundings", "plan": "Plan of the site"})


def curves(job: JobAt, text: str, _: Mapping[str, Any]) -> str:
    """The curves of pump and system, and the grade line along the path, as a piece of HTML."""
    return _sheets(job, text, {"pump": "Pump and system", "grade": "The grade line, from lake to tap"})


def _sheets(job: JobAt, text: str, titles: Mapping[str, str]) -> str:
    told = told_of(job.file, search=False, text=text)
    sheets = []
    for name, title in titles.items():
        try:
            sheet = PAPER[name](told)
        except AskError as error:
            sheets.append((title, "", str(error)))
        else:
            sheets += [(title, Markup(on_page(sheet.scene, title)), "")] if isinstance(sheet, Drawn) else []
    return render("leaf_drawn.html", sheets=sheets)


def on_page(scene: Scene, title: str) -> str:
    """A scene as SVG for the page, with its words for those who do not see it."""
    rows = [f'<svg {view_box(scene)} class="drawn" role="img" aria-label={quoteattr(title)}>']
    return "\n".join([*rows, *shape_rows(scene), "</svg>"])
