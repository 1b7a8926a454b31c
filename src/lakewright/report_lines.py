"""What `check` prints of a job: what a person needs on a screen or two, or all of it."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import TYPE_CHECKING

from lakewright.lines import WIDTH, answer_lines, as_typed, hung

if TYPE_CHECKING:
    from pathlib import Path

    from lakewright.report import Finding, Report
    from lakewright.state.gather import Assumed

MARKS = {"fails": "x", "unknown": "?", "tight": "!", "holds": "+", "not asked": "-"}

DECIDING = (
    *("water_covers_the_inlet", "inlet_stays_below_the_ice", "stand_does_not_slide"),
    *("lift_is_within_practice", "suction_stays_liquid", "line_rises_to_the_pump"),
    *("delivers_the_need", "pressure_holds_at_the_need", "pump_fills_the_store", "taps_have_pressure"),
    "barriers_meet_their_targets",
)
"""ours: the figures a supply stands or falls by, shown in brief though they hold."""

NAMED = 8
"""ours: so many names of what waits or is assumed are said in brief; more are no longer read."""


def report_lines(report: Report) -> Iterator[str]:
    """All that was found about a job, worst first."""
    from lakewright.gauges import gauge_words
    from lakewright.haul import haul_words

    yield from _head_lines(report)
    if not report.ways_out:
        for line in gauge_words(report.gauges, report.units):
            yield from hung("", line)
        if words := haul_words(report.haul, report.units):
            yield from textwrap.wrap(words, WIDTH)
        yield from [report.energy] if report.energy else []
    yield from _way_lines(report)
    yield ""
    shown = _shown(report)
    yield from _findings_lines(shown, len(shown))
    if report.ways_out:
        yield ""
        yield "The other checks wait for a place from which a pump can lift."
    yield from _winter_lines(report)
    yield from _price_lines(report)
    yield from _assumed_lines(report)
    yield from _unjudged_lines(report)
    if report.samples:
        yield ""
        yield "To have tested"
        for sample in report.samples:
            yield from hung(f"  {sample.water:9}", f"{sample.what}: {sample.at}")
    yield from _caution_lines(report)


def brief_lines(report: Report) -> Iterator[str]:
    """What decides about a job: what fails, is unknown or tight, the figures it stands by, its price, the cautions."""
    yield from _head_lines(report)
    yield from _way_lines(report)
    yield ""
    shown = _shown(report)
    told = tuple(f for f in shown if f.status in ("fails", "unknown", "tight") or _decides(f))
    yield from _findings_lines(told, NAMED)
    yield from _left_lines(report, [finding for finding in shown if finding not in told])
    yield from _price_in_brief(report)
    if report.assumed:
        quoted = ", to be confirmed before build" if report.grade == "quote" else ""
        names = list(dict.fromkeys(taken.name for taken in report.assumed if not taken.from_record))
        yield ""
        yield from hung("", f"Assumed{quoted}: {_some(names) or 'nothing besides the water on record'}")
    yield from _unjudged_lines(report)
    yield from _caution_lines(report)


def next_lines(report: Report, file: Path, whole: bool) -> Iterator[str]:
    """What to do next about a job in a file, and where the rest of what was found is, where that was not all."""
    name = as_typed(file)
    wrong = {finding.status for finding in report.findings if finding.force == "must"}
    if report.ways_out:
        yield "Next: take one of the ways out above."
    elif any(finding.waits_for_design for finding in report.findings):
        yield f"Next: lakewright design {name}, which chooses what is open."
    elif "fails" in wrong:
        yield f'Next: what "do:" says, in {name}, and check again.'
    elif "unknown" in wrong:
        yield f"Next: say in {name} what is not known, and check again."
    else:
        yield f"Next: lakewright packet {name}, which prints its papers."
    if not whole:
        yield f"All of it: lakewright check {name} --all"


def _shown(report: Report) -> tuple[Finding, ...]:
    if report.ways_out:
        return tuple(f for f in report.findings if f.name == "pump_stands_in_its_window")
    return tuple(f for f in report.findings if not f.goes_without_saying)


def _decides(finding: Finding) -> bool:
    return finding.name in DECIDING and finding.status == "holds"


def _head_lines(report: Report) -> Iterator[str]:
    yield f"{report.title or 'Job'}   {report.grade} grade{', ' + report.date if report.date else ''}"
    yield from textwrap.wrap(report.first_line, WIDTH)
    if report.window:
        yield report.window


def _way_lines(report: Report) -> Iterator[str]:
    for way in report.ways_out:
        yield f"  - {way}"
    yield from answer_lines(report.answers)


def _findings_lines(shown: tuple[Finding, ...], named: int) -> Iterator[str]:
    """Findings worst first; those that wait for design on one line, so many of them by name."""
    waiting = [finding for finding in shown if finding.waits_for_design]
    said = ""
    for finding in shown:
        if finding not in waiting:
            again = finding.status == "unknown" and finding.message == said
            yield from _finding_lines(finding, "the same" if again else finding.message)
            said = finding.message
        elif finding is waiting[0]:
            names = _some([each.name.replace("_", " ") for each in waiting], named)
            yield from hung(f"{MARKS['unknown']} unknown   {f'until design chooses ({len(waiting)})':36}", names)


def _left_lines(report: Report, left: list[Finding]) -> Iterator[str]:
    """How many findings brevity leaves out."""
    if report.ways_out:
        yield "  The other checks wait for a place from which a pump can lift."
        return
    hold, rest = (sum(f.status == status for f in left) for status in ("holds", "not asked"))
    yield f"  {hold} more hold, {rest} are not asked here."


def _price_in_brief(report: Report) -> Iterator[str]:
    """What it comes to, what is not in that, and how it is paid."""
    if report.priced is None:
        return
    from lakewright.state.quote import summary, total_in_words

    quote = report.priced.quote
    rows = summary(quote)
    total = next(n for n, (what, _) in enumerate(rows) if what == total_in_words(quote))
    without = [what for what, much in rows if much == "not in it"]
    yield ""
    for what, much in rows[total:]:
        if what not in without:
            yield from hung("", f"{what}: {much}" if much != "unknown" else what)
        elif what == without[0]:
            yield from hung("", f"Not in it on purpose: {'; '.join(without)}")


def _unjudged_lines(report: Report) -> Iterator[str]:
    if report.unjudged:
        yield ""
        yield from hung("Read and kept, judged by no check of this version: ", ", ".join(report.unjudged))


def _caution_lines(report: Report) -> Iterator[str]:
    yield ""
    for caution in report.cautions:
        yield from textwrap.wrap(caution, WIDTH, initial_indent="* ", subsequent_indent="  ")


def _some(names: list[str], most: int = NAMED) -> str:
    """The first of some names, and how many more there are."""
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return f"{', '.join(names[:most])}{more}"


def _winter_lines(report: Report) -> Iterator[str]:
    """How it winters; the rest is on the season sheet."""
    for part in report.season[:1]:
        yield ""
        yield part.title
        for row in part.rows:
            yield from textwrap.wrap(row, WIDTH, initial_indent="  ", subsequent_indent="  ")


def _price_lines(report: Report) -> Iterator[str]:
    """What it costs, what the price lacks, and what of the parts one should know."""
    if report.priced is None:
        return
    from lakewright.state.quote import summary

    yield ""
    yield "Price"
    for what, much in summary(report.priced.quote):
        first, *rest = textwrap.wrap(what, WIDTH - 16)
        yield f"  {first:{WIDTH - 16}}{much:>12}"
        yield from (f"  {words}" for words in rest)
    for note in report.priced.bill.notes:
        yield from textwrap.wrap(note, WIDTH, initial_indent="  ", subsequent_indent="  ")


def _finding_lines(finding: Finding, message: str) -> Iterator[str]:
    force = "" if finding.force == "must" else f" ({finding.force})"
    name = finding.name.replace("_", " ") + force
    yield from hung(f"{MARKS[finding.status]} {finding.status:10}{name:36}", message)
    if finding.case and finding.status in ("fails", "tight"):
        yield from hung(" " * 48, f"in: {finding.case}")
    if finding.status == "fails":
        yield from hung(" " * 48, f"do: {finding.remedy}")


def _assumed_lines(report: Report) -> Iterator[str]:
    record = [a for a in report.assumed if a.from_record]
    taken = [a for a in report.assumed if not a.from_record]
    quoted = ", to be confirmed before build" if report.grade == "quote" else ""
    for head, rows in (("From the water's record", record), (f"Assumed{quoted}", taken)):
        if rows:
            yield ""
            yield head
        for row in rows:
            yield from _taken_lines(row, report.units)


def _taken_lines(taken: Assumed, system: str) -> Iterator[str]:
    from lakewright import units

    why = f"{taken.why} \u00b7 {taken.place}" if taken.place else taken.why
    if taken.text:
        yield from hung(f"  {taken.name:34}", f"{taken.text}: {why}")
    else:
        yield from hung(f"  {taken.name:34}{units.show(taken.value, taken.kind, system):>10}   ", why)
