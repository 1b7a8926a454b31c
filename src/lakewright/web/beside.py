"""Two designs side by side: what they say alike is left out, what differs stands in two columns."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from markupsafe import Markup

from lakewright.api.look import Look, changed, draft_of, look
from lakewright.errors import JobError
from lakewright.report import Finding
from lakewright.web.jobs import JobAt
from lakewright.web.money import dollars
from lakewright.web.posts import Refused, text_of, texts_of, today
from lakewright.web.view import render

DRAFT, FILE = "draft", "file"

WORST = ("fails", "unknown", "tight", "holds", "not asked")


def beside(job: JobAt, text: str, given: Mapping[str, Any]) -> str:
    """Two designs side by side, as a piece of HTML.

    Parameters
    ----------
    given : `designs`, each with its name and what it writes into the draft, as the shortlist offers it; `one` and
        `other`, which of them are looked at: the draft itself, what the file says, or a design by its number
    """
    designs = _designs(given)
    offered = {DRAFT: "the draft as it stands"}
    if job.file.exists():
        offered[FILE] = f"as {job.file.name} has it"
    offered |= {str(number): name for number, (name, _) in enumerate(designs)}
    usual = [DRAFT, next((each for each in offered if each != DRAFT), DRAFT)]
    chosen = [
        each if (each := text_of(given, side)) in offered else usual[n] for n, side in enumerate(("one", "other"))
    ]
    writes = [designs[int(each)][1] if each.isdecimal() else {} for each in chosen]
    texts = [
        changed(draft_of(job.file) if each == FILE else text, writing, {}, today())
        for each, writing in zip(chosen, writes, strict=True)
    ]
    try:
        one, other = (look(each, job.file) for each in texts)
    except JobError as error:
        head = "One of the two cannot be judged."
        table = render("mistakes.html", mistakes=error.mistakes, head=head)
    else:
        table = _table(one, other, writes)
    return render(
        "leaf_beside.html", offered=offered, chosen=chosen, writes=writes, table=Markup(table), designs=designs
    )


def _designs(given: Mapping[str, Any]) -> list[tuple[str, dict[str, str]]]:
    found = given.get("designs", [])
    if not isinstance(found, list) or not all(isinstance(each, dict) for each in found):
        raise Refused("what was posted is not what the page posts: designs")
    return [(text_of(each, "name"), texts_of(each, "writes")) for each in found]


def _table(one: Look, other: Look, writes: list[dict[str, str]]) -> str:
    rows = [_facing(*pair) for pair in _pairs(one, other)]
    return render(
        "beside.html",
        titles=[each.report.first_line for each in (one, other)],
        prices=[_price(each) for each in (one, other)],
        counts=[_counts(each) for each in (one, other)],
        parts=_parts(one, other),
        rows=[row for row in rows if row["differs"]],
        alike=sum(not row["differs"] for row in rows),
        writes=writes,
    )


def _price(seen: Look) -> str:
    priced = seen.report.priced
    if priced is None:
        return "no price"
    return f"{'at least ' if priced.quote.missing else ''}{dollars(priced.quote.total)}"


def _counts(seen: Look) -> str:
    statuses = [finding.status for finding in seen.report.findings if finding.force != "note"]
    return ", ".join(f"{statuses.count(each)} {each}" for each in WORST[:4] if each in statuses)


def _pairs(one: Look, other: Look) -> list[tuple[Finding, Finding]]:
    """The findings of both by name, in the order of the worse of the two."""
    names = {finding.name: finding for finding in other.report.findings}
    pairs = [(finding, names[finding.name]) for finding in one.report.findings if finding.name in names]
    return sorted(pairs, key=lambda pair: min(WORST.index(each.status) for each in pair))


def _facing(one: Finding, other: Finding) -> dict[str, Any]:
    return {
        "name": one.name,
        "sides": [(each.status, each.message) for each in (one, other)],
        "differs": (one.status, one.message) != (other.status, other.message),
    }


def _parts(one: Look, other: Look) -> list[tuple[str, list[str], list[str]]]:
    """By station, the parts that only one of the two has, or has otherwise many of."""
    bills = [
        {(line.station, f"{line.quantity:g} x {line.what}" if line.unit != "m" else line.what): None for line in lines}
        for lines in (each.report.priced.bill.lines if each.report.priced else () for each in (one, other))
    ]
    stations = dict.fromkeys(station for bill in bills for station, _ in bill)
    found = []
    for station in stations:
        has = [{what for place, what in bill if place == station} for bill in bills]
        sides = [
            [what for place, what in bill if place == station and what not in has[1 - n]]
            for n, bill in enumerate(bills)
        ]
        if any(sides):
            found.append((station, sides[0], sides[1]))
    return found
