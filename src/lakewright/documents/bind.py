"""Sheets bound into one document: their pages, the strip at the foot of each, page numbers and a list of contents."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from lakewright.documents import ink
from lakewright.documents.flow import Flow, isolated, styles
from lakewright.documents.paper import MARGIN, PAPERS, UNITS_OF, fingerprint, shortened
from lakewright.documents.pdf import compiled, place_all, typst_string
from lakewright.documents.said import Words, fixed
from lakewright.documents.scene import Scene, Text
from lakewright.documents.svg import number
from lakewright.report import Report

STANDING = {name: (high, wide) for name, units in UNITS_OF.items() for wide, high in [PAPERS[units]]}
"""Papers by name, standing [mm]."""
PAPER_OF = {units: name for name, units in UNITS_OF.items()}
"""The paper that is usual with units."""
SIDE, TOP, FOOT = 15.0, 13.0, 24.0
"""Margins of a sheet of text [mm]. ours: room to punch holes at the side."""
TITLE_WIDTH = 42.0
"""ours: what of a job's title the strip has room for [mm], beside six short cells."""


@dataclass(frozen=True)
class Drawn:
    """A sheet that is a drawing, on paper of its own size."""

    name: Words
    scene: Scene
    files: Mapping[str, Callable[[], bytes]] = field(default_factory=dict)
    """Other files of it beside the PDF, by the end of each one's name; made when they are written."""


Page = Flow | Drawn


@dataclass
class Bound:
    """A document: its bytes, and what stands on it.

    printed: words of its sheets of text; foot: words of the strip on each of their pages; drawn: words of its drawings
    """

    content: bytes
    printed: list[Words] = field(default_factory=list)
    foot: list[Words] = field(default_factory=list)
    drawn: list[str] = field(default_factory=list)


@dataclass(frozen=True)
class Strip:
    """What the strip at the foot of every page says of the job."""

    title: str
    grade: str
    date: str
    version: str
    fingerprint: str


def strip_of(report: Report) -> Strip:
    """The strip of a job's papers."""
    return Strip(report.title, report.grade, report.date, report.version, fingerprint(report))


def bound(sheets: Sequence[Page], strip: Strip, paper: str) -> Bound:
    """Sheets as one PDF, the same bytes for the same sheets.

    Parameters
    ----------
    sheets : in order
    strip : of the job
    paper : a key of `STANDING`, for sheets of text; a drawing has its own

    Raises
    ------
    AskError where typst is not installed
    """
    made = Bound(b"")
    rows = [f"#set document(title: {typst_string(ink.plain(strip.title or 'Job'))}, date: none)", styles()]
    for place, sheet in enumerate(sheets):
        rows += _flow_rows(sheet, strip, paper, made) if isinstance(sheet, Flow) else _drawn_rows(sheet, made)
        if place + 1 < len(sheets):
            rows.append("#pagebreak(weak: true)")
    made.content = compiled("\n".join([*rows, ""]), "pdf")
    return made


def contents_of(sheets: Sequence[Page], report: Report) -> Flow:
    """The list of what is bound, to come first."""
    flow = Flow(fixed("contents.name"))
    flow.heading(Words(report.title or "Job", "report.title"), fixed("contents.line"))
    flow.para(Words(ink.typeset(ink.kept_together(report.first_line)), "report.first_line"))
    flow.rows.append("#contents-rows")
    flow.printed += [sheet.name for sheet in sheets]
    flow.part(fixed("common.cautions"))
    flow.bullets(Words(caution, f"report.cautions.{n}") for n, caution in enumerate(report.cautions))
    return flow


def _flow_rows(flow: Flow, strip: Strip, paper: str, made: Bound) -> list[str]:
    made.printed += flow.printed
    made.drawn += flow.drawn
    width, height = STANDING[paper]
    cells = strip_cells(strip, flow)
    made.foot = [words for _, words in cells]
    inner = ", ".join(f"({typst_string(name)}, {typst_string(isolated(words.text))})" for name, words in cells)
    size = f"width: {number(width)}mm, height: {number(height)}mm"
    margin = f"(x: {number(SIDE)}mm, top: {number(TOP)}mm, bottom: {number(FOOT)}mm)"
    look = f"fill: rgb({typst_string(ink.SHEET)}), footer-descent: 4mm, footer: strip(({inner},), true)"
    return [
        f"#set page({size}, margin: {margin}, {look})",
        *([] if flow.name.path == "fixed.contents.name" else [_hidden(flow.name)]),
        *flow.rows,
    ]


def _drawn_rows(sheet: Drawn, made: Bound) -> list[str]:
    scene = sheet.scene
    made.drawn += [shape.words for shape in scene.flat() if isinstance(shape, Text)]
    size = f"width: {number(scene.width)}mm, height: {number(scene.height)}mm"
    return [
        f"#set page({size}, margin: 0mm, fill: rgb({typst_string(ink.SHEET)}), footer: none)",
        _hidden(sheet.name),
        f"#place(top + left, {place_all(scene)})",
        f"#place(bottom + right, dx: -{number(MARGIN)}mm, dy: -3.4mm, page-number)",
    ]


def _hidden(name: Words) -> str:
    """A heading that nobody sees, for the contents and the bookmarks."""
    return f"#place(top + left, hide(heading(level: 1, text({typst_string(name.text)}))))"


def strip_cells(strip: Strip, flow: Flow) -> list[tuple[str, Words]]:
    """What the strip of a sheet of text says: the name of each cell, and its words."""
    title = shortened(strip.title or "Job", TITLE_WIDTH)
    return [
        ("job", Words(title, "report.title")),
        ("sheet", flow.name),
        ("scale", Words(flow.scale, "drawing.scale")),
        ("grade", Words(strip.grade or "none", "report.grade")),
        ("date", Words(strip.date or "not given", "report.date")),
        ("version", Words(strip.version, "report.version")),
        ("fingerprint", Words(strip.fingerprint, "report.fingerprint")),
    ]
