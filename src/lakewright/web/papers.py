"""What of the packet can be taken away from the page."""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import PurePath

from lakewright.api.packet import packet_files
from lakewright.api.sheets import SHEETS
from lakewright.errors import AskError
from lakewright.web.jobs import JobAt

KINDS = {
    ".pdf": "application/pdf",
    ".svg": "image/svg+xml",
    ".csv": "text/csv",
    ".dxf": "image/vnd.dxf",
    ".zip": "application/zip",
}

ABOUT = {
    "sheet.pdf": "The sheet: the section to scale, what decides it, the price",
    "section.svg": "The section alone, as a drawing",
    "parts.csv": "The parts, for a spreadsheet",
    "bench.pdf": "The stand on the bench: views, parts, cut lengths",
    "bench.dxf": "The same for a drawing program",
    "season.pdf": "The season: start-up, haul-out, drain-down",
    "plan.pdf": "The plan of the site",
    "chart.pdf": "Every place along the soundings, judged",
}
"""What is offered, by the end of each file's name."""

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
        content = packed(_every_file(job, text))
    else:
        sheet = end.partition(".")[0]
        files = packet_files(job.file, [sheet] if sheet in SHEETS else [], text)
        content = next((each for name, each in files.items() if name.endswith(f"-{end}")), b"")
        if not content:
            raise AskError(f"there is no {end} of this job: nothing in it is priced yet")
    return f"{_plain(job.file.stem)}-{end}", content, KINDS[PurePath(end).suffix]


def _plain(stem: str) -> str:
    """A name that any machine can write and any header carry."""
    return re.sub("[^A-Za-z0-9_-]+", "-", stem).strip("-") or "job"


def _every_file(job: JobAt, text: str) -> dict[str, bytes]:
    """Every file that this job has; a sheet that cannot be drawn is left out, and its reason is in one of its own."""
    try:
        return packet_files(job.file, tuple(SHEETS), text)
    except AskError:
        files = packet_files(job.file, (), text)
    left_out = []
    for sheet in SHEETS:
        try:
            files |= packet_files(job.file, [sheet], text)
        except AskError as error:
            left_out.append(f"{sheet}: {error}")
    if left_out:
        files["left-out.txt"] = "\n".join(left_out).encode("utf-8")
    return files


def packed(files: dict[str, bytes]) -> bytes:
    """Files in one, byte for byte the same for the same files."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as pack:
        for name, content in sorted(files.items()):
            info = zipfile.ZipInfo(name, FIRST_DAY)
            info.compress_type = zipfile.ZIP_DEFLATED
            pack.writestr(info, content)
    return out.getvalue()
