"""What of the packet can be taken away from the page."""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import PurePath

from lakewright.api.packet import packet_files, sheets_of, told_of, whole
from lakewright.errors import AskError
from lakewright.web.jobs import JobAt

KINDS = {
    ".pdf": "application/pdf",
    ".svg": "image/svg+xml",
    ".csv": "text/csv",
    ".dxf": "image/vnd.dxf",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    ".ics": "text/calendar",
    ".json": "application/json",
    ".zip": "application/zip",
}

ABOUT = {
    "packet.pdf": "Every sheet there is, bound in one",
    "quote.pdf": "The quote, for the customer",
    "pick.pdf": "The pick ticket, for the counter",
    "card.pdf": "The card for the pump house",
    "site.pdf": "The site: the section to scale, and what decides it",
    "section.svg": "The section alone, as a drawing",
    "plan.pdf": "The plan of the site",
    "chart.pdf": "Every place along the soundings, judged",
    "bench.pdf": "The stand on the bench: views, parts, cut lengths",
    "bench.dxf": "The same for a drawing program",
    "shore.pdf": "The shore sheet: the steps in their order",
    "start.pdf": "The start-up sheet: said, found, off by",
    "season.pdf": "The season: start-up, haul-out, drain-down",
    "working.pdf": "The working of every finding",
    "pump.pdf": "The pump's curve, and where the line meets it",
    "grade.pdf": "The grade line, from lake to tap",
    "parts.csv": "The parts, for a spreadsheet",
    "lists.xlsx": "Parts, cut list and prices as a workbook",
    "cut-list.csv": "The cut list, for a spreadsheet",
    "calendar.ics": "What the season asks, for a calendar",
    "everything.json": "All of it, to be opened again",
}
"""What is offered, by the end of each file's name."""

SHEET_OF = {"section.svg": "site", "parts.csv": "quote", "lists.xlsx": "lists", "cut-list.csv": "lists"}
"""The sheet with which a file comes, where that has another name."""

WHOLE = "packet.zip"
FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The day that a packed file bears: the first a ZIP can say, so that the same job packs to the same bytes."""


def paper(job: JobAt, text: str, end: str) -> tuple[str, bytes, str]:
    """Name, content and kind of one file of the packet, by the end of its name, or of all of them packed in one.

    Raises
    ------
    JobError where the draft cannot be used
    AskError where there is no such file, or it cannot be drawn
    """
    if end != WHOLE and end not in ABOUT:
        raise AskError(f"found {end!r}; wanted one of {', '.join((*ABOUT, WHOLE))}")
    if end == WHOLE:
        content = packed(packet_files(job.file, everything=True, text=text))
    elif end == "packet.pdf":
        told = told_of(job.file, search=False, text=text)
        content = whole(told, sheets_of(told, (), everything=True)).content
    else:
        sheet = SHEET_OF.get(end, end.partition(".")[0])
        files = packet_files(job.file, (sheet,), text=text, only=(sheet,))
        content = next((each for name, each in files.items() if name.endswith(f"-{end}")), b"")
        if not content:
            raise AskError(f"there is no {end} of this job: nothing in it is priced yet")
    return f"{_plain(job.file.stem)}-{end}", content, KINDS[PurePath(end).suffix]


def _plain(stem: str) -> str:
    """A name that any machine can write and any header carry."""
    return re.sub("[^A-Za-z0-9_-]+", "-", stem).strip("-") or "job"


def packed(files: dict[str, bytes]) -> bytes:
    """Files in one, byte for byte the same for the same files."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as pack:
        for name, content in sorted(files.items()):
            info = zipfile.ZipInfo(name, FIRST_DAY)
            info.compress_type = zipfile.ZIP_DEFLATED
            pack.writestr(info, content)
    return out.getvalue()
