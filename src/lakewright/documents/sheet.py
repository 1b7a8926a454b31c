"""One sheet: the line that says how it stands, the section of the site, what decides it, what was assumed, cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lakewright import units
from lakewright.documents import ink
from lakewright.documents.flags import COLOURS, mark
from lakewright.documents.paper import MARGIN, STRIP, lying, title_strip
from lakewright.documents.prose import Block, Column, Row, Run, flowed, in_order, paragraph, put
from lakewright.documents.scene import Scene, Text, ending_at, line
from lakewright.documents.section import section
from lakewright.documents.site import Site
from lakewright.report import Finding, Report
from lakewright.state.gather import Assumed
from lakewright.state.names import plain_name
from lakewright.state.quote import summary

GAP, COLUMNS = 5.0, 4  # mm; ours
SECTION_SIZE = (270.0, 150.0)
"""Of a section by itself [mm]: fills a lying sheet."""

# ours: heights of the section [mm] and how much is said, in the order they are tried until everything fits.
# 0 says all; 1 leaves out why a value was assumed; 2 gives names alone for what holds; 3 cuts what nobody knows short.
TRIALS = ((116.0, 0), (108.0, 0), (100.0, 0), (92.0, 0), (100.0, 1), (92.0, 1), (86.0, 1), (86.0, 2), (80.0, 2),
          (80.0, 3), (74.0, 3), (68.0, 3), (62.0, 3), (57.0, 3), (52.0, 3), (48.0, 3), (44.0, 3))  # fmt: skip

MOST_ASSUMED = 16
"""ours: on a sheet that is full, what fails comes before the last of a long list of guesses."""


ROW_OF_NAMES = 8
"""ours: names in a row of what holds; a longer row finds no room at the foot of a column."""


@dataclass(frozen=True)
class _Said:
    """What a sheet is made of."""

    report: Report
    site: Site
    told: Sequence[str]
    price: Sequence[tuple[str, str]]


def sheet(report: Report, site: Site, told: Sequence[str] = ()) -> Scene:
    """The sheet of one job.

    Parameters
    ----------
    report : what was found
    site : the numbers its drawing needs
    told : facts that somebody told, by dotted name
    """
    price = summary(report.priced.quote) if report.priced is not None else ()
    said = _Said(report, site, told, price)
    width, height = lying(report)
    page = Scene(width, height, report.title)
    top = _header(page, report)
    column = (width - 2.0 * MARGIN - (COLUMNS - 1) * GAP) / COLUMNS
    room = height - MARGIN - STRIP - 2.0
    high, columns = _fitted(said, column, top, room)
    drawn = section(site, report.findings, width - 2.0 * MARGIN, high)
    page.put(drawn.scene, MARGIN, top)
    below = top + high + 2.0
    page.add(line([(MARGIN, below), (width - MARGIN, below)], "rule", ink.HAIR, ink.THIN))
    put(page, columns, MARGIN, below + 2.5, column, GAP)
    title_strip(page, report, "section of the site, 1 of 1", drawn.scale)
    return page


def _fitted(said: _Said, column: float, top: float, room: float) -> tuple[float, list[Column]]:
    """The highest section under which everything finds room, and the columns."""
    for high, brief in TRIALS:
        left = room - top - high - 4.5
        blocks = _blocks(said, column, brief)
        columns = (
            in_order(blocks, COLUMNS, left)
            or flowed(blocks, COLUMNS, left, apart=True)
            or flowed(blocks, COLUMNS, left)
        )
        if columns is not None:
            return high, columns
    high = TRIALS[-1][0]
    return high, _cut(_blocks(said, column, 3), room - top - high - 4.5, column)


def _cut(blocks: Sequence[Block], height: float, column: float) -> list[Column]:
    """Where even that is too much, the longest blocks lose their last rows, and say how many."""
    lost = [0] * len(blocks)
    while True:
        shown = [
            Block(block.title, [*block.rows[: len(block.rows) - gone], *([_more(gone, column)] if gone else [])])
            for block, gone in zip(blocks, lost, strict=True)
        ]
        columns = flowed(shown, COLUMNS, height)
        if columns is not None:
            return columns
        longest = max(range(len(blocks)), key=lambda n: len(blocks[n].rows) - lost[n])
        if len(blocks[longest].rows) - lost[longest] <= 1:
            return (flowed(shown, 99, height) or [])[:COLUMNS]
        lost[longest] += 1


def _more(count: int, column: float) -> Row:
    return paragraph([Run(f"and {count} more: lakewright check lists all", ink.BOLD)], column)


def _header(page: Scene, report: Report) -> float:
    """Title, the one line, the grade; returns where the drawing may begin."""
    wide = page.width - 2.0 * MARGIN
    record = sum(assumed.from_record for assumed in report.assumed)
    counts = [f"{report.told} told", *([f"{record} from the water's record"] if record else [])]
    grade = f"{report.grade} grade: {', '.join(counts)}, {len(report.assumed) - record} assumed"
    side = ending_at(page.width - MARGIN, MARGIN + 2.6, grade, "grade", ink.BODY, weight=ink.BOLD)
    title = ink.wrapped(report.title or "Job", wide - side.width - 8.0, ink.LINE)[0]
    page.add(Text(MARGIN, MARGIN + 2.6, title, "title", ink.LINE, colour=ink.SOFT), side)
    y = MARGIN + 2.6
    said = ink.typeset(report.first_line)
    size = next((size for size in (ink.TITLE, 12.0, 11.0, ink.LINE) if len(_bold(said, wide, size)) <= 2), ink.HEAD)
    y += 1.6
    for words in _bold(said, wide, size)[:3]:
        y += ink.leading(size)
        page.add(Text(MARGIN, y, words, "first line", size, ink.BOLD))
    if report.window:
        y += ink.leading(ink.BODY) + 0.6
        page.add(Text(MARGIN, y, ink.typeset(report.window), "window", ink.BODY, colour=ink.SOFT))
    y += 2.6
    page.add(line([(MARGIN, y), (page.width - MARGIN, y)], "rule", ink.HAIR, ink.THIN))
    return y + 1.6


def _bold(words: str, wide: float, size: float) -> list[str]:
    return ink.wrapped(words, wide, size, ink.BOLD)


# What is said.


def _blocks(said: _Said, column: float, brief: int) -> list[Block]:
    report = said.report
    blocks = []
    if report.ways_out:
        blocks.append(Block("Ways out", [_bullet(ink.typeset(way), column) for way in report.ways_out]))
        blocks.append(Block("What decides it", _waiting_rows(report, column, brief)))
    else:
        blocks.append(Block("What decides it", _finding_rows(report.findings, column, brief)))
    if said.price:
        blocks.append(Block("Price", [_price_row(*line_, column) for line_ in said.price]))
    later = ", to be confirmed before build" if report.grade == "quote" else ""
    for title, from_record in (("From the water's record", True), (f"Assumed{later}", False)):
        taken = [assumed for assumed in report.assumed if assumed.from_record is from_record]
        if taken:
            blocks.append(Block(title, _assumed_rows(taken, report.units, column, brief)))
    if said.told:
        words = ", ".join(dict.fromkeys(plain_name(name) for name in said.told))
        blocks.append(Block("Told, not measured", [paragraph([Run(words)], column)]))
    blocks.append(Block("Cautions", [_bullet(caution, column) for caution in report.cautions]))
    return blocks


def _waiting_rows(report: Report, column: float, brief: int) -> list[Row]:
    """Where no suction pump will do, that alone decides, as on the screen; nothing else has a pump to be asked of."""
    window = [finding for finding in report.findings if finding.name == "pump_stands_in_its_window"]
    waits = paragraph([Run("The other checks wait for a place from which a pump can lift.")], column)
    return [*_finding_rows(window, column, brief), waits]


def _finding_rows(findings: Sequence[Finding], column: float, brief: int) -> list[Row]:
    """Worst first. Nothing that fails is ever cut short; what was not asked is counted together at the end."""
    rows = []
    asked = [finding for finding in findings if finding.status != "not asked"]
    for finding in asked:
        if finding.status == "holds" and brief >= 2:
            continue
        rows.append(_finding_row(finding, column, brief))
    held = [_sentence(finding.name) for finding in asked if finding.status == "holds"]
    if brief >= 2:
        for first in range(0, len(held), ROW_OF_NAMES):
            names = "; ".join(held[first : first + ROW_OF_NAMES])
            rows.append(_marked("holds", [Run("holds:", ink.BOLD, ink.GREEN), Run(names)], column))
    unasked = [finding for finding in findings if finding.status == "not asked" and not finding.goes_without_saying]
    skipped = [_sentence(finding.name) for finding in unasked]
    if skipped:
        runs = [Run("not asked here:", ink.BOLD, ink.GREY), Run("; ".join(skipped), ink.REGULAR, ink.SOFT)]
        rows.append(_marked("not asked", runs, column))
    return rows


def _finding_row(finding: Finding, column: float, brief: int) -> Row:
    colour = COLOURS[finding.status]
    message = ink.typeset(finding.message)
    if finding.status == "unknown" and brief >= 1:
        first, _, rest = message.partition("; ")
        message = f"{first}; and more" if rest else first
    if finding.status == "unknown" and brief >= 3:
        message = ""
    runs = [Run(finding.status, ink.BOLD, colour), Run(_sentence(finding.name), ink.BOLD), Run(message)]
    if finding.case and (finding.status == "fails" or (finding.status == "tight" and brief < 3)):
        runs.append(Run(f"in: {finding.case}.", ink.REGULAR, ink.SOFT))
    if finding.status == "fails" or (finding.status == "tight" and brief == 0):
        runs.append(Run(f"Do: {finding.remedy}.", ink.REGULAR, ink.INK))
    return _marked(finding.status, [run for run in runs if run.words], column)


def _marked(status: str, runs: Sequence[Run], column: float) -> Row:
    colour = COLOURS.get(status, ink.GREY)
    return paragraph(runs, column, indent=4.0, before=mark(status, 1.5, 1.35, 2.5, colour))


def _assumed_rows(taken: Sequence[Assumed], system: str, column: float, brief: int) -> list[Row]:
    """What was taken unmeasured: what the job overrides comes last."""
    pairs = []
    for assumed in sorted(taken, key=lambda a: a.standing == "override"):
        value = assumed.text or ink.typeset(units.show(assumed.value, assumed.kind, system))
        name = assumed.name + (" (overridden)" if assumed.standing == "override" else "")
        pairs.append((name, value, assumed.why))
    if brief >= 2:
        left_out = max(0, len(pairs) - MOST_ASSUMED) if brief >= 3 else 0
        pairs = pairs[: len(pairs) - left_out]
        runs = [run for name, value, _ in pairs for run in (Run(name), Run(f"{value};", ink.BOLD))]
        told = paragraph([*runs[:-1], Run(pairs[-1][1], ink.BOLD)], column)
        return [told, _more(left_out, column)] if left_out else [told]
    rows = []
    for name, value, why in pairs:
        runs = [Run(f"{name}:"), Run(value, ink.BOLD)]
        if brief == 0:
            runs.append(Run(ink.typeset(why), ink.REGULAR, ink.SOFT))
        rows.append(paragraph(runs, column, indent=0.0))
    return rows


def _price_row(what: str, much: str, column: float) -> Row:
    base = ink.rise(ink.SMALL)
    amount = ending_at(column, base, much, "price", ink.SMALL, weight=ink.BOLD)
    words = ink.wrapped(what, column - amount.width - 2.0, ink.SMALL)
    rows = [Text(0.0, base + n * ink.leading(ink.SMALL), text, "price") for n, text in enumerate(words)]
    return Row((*rows, amount), base + (len(words) - 1) * ink.leading(ink.SMALL) + 1.6)


def _bullet(words: str, column: float) -> Row:
    dash = Text(0.0, ink.rise(ink.SMALL), "\u2013", "prose", colour=ink.SOFT)
    return paragraph([Run(words)], column, indent=2.6, before=[dash])


def _sentence(name: str) -> str:
    words = name.replace("_", " ")
    return words[:1].upper() + words[1:]
