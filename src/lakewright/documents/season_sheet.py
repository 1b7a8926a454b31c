"""The season sheet: how the supply winters, step by step, for the one who closes it and starts it."""

from __future__ import annotations

from lakewright.documents import ink
from lakewright.documents.paper import MARGIN, STRIP, lying, title_strip
from lakewright.documents.prose import Block, Column, Row, Run, flowed, paragraph, put
from lakewright.documents.scene import Scene, Text, line
from lakewright.errors import AskError
from lakewright.report import Report

GAP = 6.0  # mm; ours
COLUMNS = (
    ("Winter", "Emptying it, in this order", "If it must be emptied in the cold, in this order"),
    ("What it weighs", "Blowing it out", "Cautions"),
    ("Starting it", "Shock chlorination"),
)
"""What stands in each column: closing it, what to mind, starting it."""
SIZES = (ink.HEAD, ink.BODY, ink.SMALL)
"""ours: sizes of type, the largest in which each column holds what it should."""
NUMBERED = ("in this order", "Starting it")
"""Ends of the headings whose rows are steps."""


def season_sheet(report: Report) -> Scene:
    """The season sheet of a job.

    Raises
    ------
    AskError where there is nothing to winter: no suction pump will do
    """
    if not report.season:
        raise AskError("no season sheet: no suction pump will do here, so there is nothing to winter")
    width, height = lying(report)
    page = Scene(width, height, report.title)
    top, bottom = _header(page, report), height - MARGIN - STRIP - 2.0
    column = (width - 2.0 * MARGIN - (len(COLUMNS) - 1) * GAP) / len(COLUMNS)
    put(page, _columns(report, column, bottom - top), MARGIN, top, column, GAP)
    title_strip(page, report, "season sheet, 1 of 1", "none")
    return page


def _columns(report: Report, width: float, height: float) -> list[Column]:
    """The columns in the largest type in which all find room; one after the other where none does."""
    for size in SIZES:
        blocks = {block.title: block for block in _blocks(report, width, size)}
        each = [flowed([blocks[title] for title in titles if title in blocks], 1, height) for titles in COLUMNS]
        if all(each):
            return [column for found in each if found is not None for column in found]
    found = flowed(_blocks(report, width, SIZES[-1]), len(COLUMNS), height)
    if found is None:
        raise AssertionError("more to say of a season than a sheet holds")
    return found


def _header(page: Scene, report: Report) -> float:
    """The job's title and how it winters; returns where the columns may begin."""
    wide, y = page.width - 2.0 * MARGIN, MARGIN + 2.6
    title = ink.wrapped(report.title or "Job", wide, ink.LINE)[0]
    page.add(Text(MARGIN, y, title, "title", ink.LINE, colour=ink.SOFT))
    y += 1.2 + ink.leading(ink.TITLE)
    said = ink.typeset(report.season[0].rows[0])
    size = next((each for each in (ink.TITLE, ink.LINE) if len(ink.wrapped(said, wide, each, ink.BOLD)) == 1), ink.LINE)
    page.add(Text(MARGIN, y, ink.wrapped(said, wide, size, ink.BOLD)[0], "first line", size, ink.BOLD))
    y += 2.8
    page.add(line([(MARGIN, y), (page.width - MARGIN, y)], "rule", ink.HAIR, ink.THIN))
    return y + 2.0


def _blocks(report: Report, column: float, size: float) -> list[Block]:
    first, *rest = report.season
    shown = [(first.title, first.rows[1:]), *((part.title, part.rows) for part in rest)]
    blocks = [
        Block(
            title, [_row(n if title.endswith(NUMBERED) else 0, words, column, size) for n, words in enumerate(rows, 1)]
        )
        for title, rows in shown
        if rows
    ]
    return [*blocks, Block("Cautions", [_row(0, caution, column, size) for caution in report.cautions])]


def _row(number: int, words: str, column: float, size: float) -> Row:
    """A step with its number, or a sentence with a dash."""
    mark = Text(0.0, ink.rise(size), f"{number}." if number else "\u2013", "prose", size, colour=ink.SOFT)
    indent = ink.width("10. " if number else "\u2013 ", size) + 0.6
    return paragraph([Run(ink.typeset(words))], column, size, indent=indent, before=[mark], after=1.3)
