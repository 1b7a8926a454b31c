"""What every sheet has: its paper and margins, the title strip at its foot, the fingerprint of what it says."""

from __future__ import annotations

import hashlib
import json

from lakewright.documents import ink
from lakewright.documents.scene import Scene, Text, line
from lakewright.report import Report

PAPERS = {"US": (279.4, 215.9), "SI": (297.0, 210.0)}
"""Letter and A4, lying [mm], by the units they are usual with."""
UNITS_OF = {"letter": "US", "a4": "SI"}
"""The papers by their names."""
MARGIN, STRIP = 12.0, 10.0  # mm; ours


def lying(report: Report) -> tuple[float, float]:
    """The paper that a report's drawings lie on [mm]: the one it asks for, else that of its units."""
    return PAPERS[UNITS_OF.get(report.paper, report.units)]


def fingerprint(report: Report) -> str:
    """Twelve hexadecimal digits that change with anything the report says."""
    text = json.dumps(report.as_json(), sort_keys=True, ensure_ascii=False, allow_nan=False)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:12]


def mark_of(report: Report) -> str:
    """What a list or a calendar says of where it comes from, as a title strip says it of a sheet."""
    return f"version {report.version}, fingerprint {fingerprint(report)}, {report.grade}"


def title_strip(page: Scene, report: Report, name: str, scale: str) -> None:
    """The title strip at the foot of a sheet, with its name and scale."""
    top, bottom = page.height - MARGIN - STRIP + 4.0, page.height - MARGIN + 4.0
    left, right = MARGIN, page.width - MARGIN
    cells = (
        ("job", report.title or "Job"),
        ("sheet", name),
        ("scale", scale),
        ("grade", report.grade),
        ("date", report.date or "not given"),
        ("version", report.version),
        ("fingerprint", fingerprint(report)),
    )
    page.add(line([(left, top), (right, top)], "strip", ink.INK, ink.THIN))
    needed = [max(ink.width(words, ink.BODY, ink.BOLD), ink.width(name, ink.SMALL)) for name, words in cells]
    # The job's title takes what the others leave.
    needed[0] = min(needed[0], right - left - sum(needed[1:]) - 4.0 * len(cells))
    spare = (right - left - sum(needed)) / (len(cells) - 1)
    x = left
    for n, ((name, words), wide) in enumerate(zip(cells, needed, strict=True)):
        shown = ink.wrapped(words, max(wide, 10.0) + 0.01, ink.BODY, ink.BOLD)
        value = shown[0] if len(shown) == 1 else shortened(words, wide)
        page.add(
            Text(x, top + 3.4, name, "strip", colour=ink.SOFT),
            Text(x, top + 7.2, value, "strip", ink.BODY, ink.BOLD),
        )
        if n:
            page.add(line([(x - 0.5 * spare, top), (x - 0.5 * spare, bottom)], "strip", ink.HAIR, ink.THIN))
        x += wide + spare


def shortened(words: str, wide: float) -> str:
    """Words in the strip's type, cut with three dots where they are wider than so much [mm]."""
    kept = ink.plain(words)
    if ink.width(kept, ink.BODY, ink.BOLD) <= wide:
        return kept
    while kept and ink.width(f"{kept}\u2026", ink.BODY, ink.BOLD) > wide:
        kept = kept[:-1]
    return f"{kept.rstrip()}\u2026"
