"""The service round: whom to visit, in which order and on which day, what to take; what was done, and is to invoice."""

from __future__ import annotations

import datetime
import math
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from lakewright.api.book import Card, Signed, card_of, listed
from lakewright.api.book_checks import placed
from lakewright.book import papers
from lakewright.book.calendar import calendar
from lakewright.book.file import BookFile
from lakewright.book.records import WORKS, Invoice, Standing, Visit, Way, all_of, minutes_between, put
from lakewright.book.round import Call, Stop, road_between, round_rows, stops_of
from lakewright.errors import AskError, LakewrightError
from lakewright.job.write import write_or_say

if TYPE_CHECKING:
    from lakewright.job.models import Job
    from lakewright.state.facts import Facts

BEFORE = {"haul-out": "put in", "start-up": "wintered"}
"""How a job stands that is visited for a work."""

HAULS = 20.0
"""Times that `bother.toml` counts the hauling of a kg: out and in, ten years."""


@dataclass(frozen=True)
class Round:
    """A round: its stops in order, what the truck takes and how many of each, and whom it leaves out, with why."""

    work: str
    stops: tuple[Stop, ...]
    truck: tuple[tuple[str, int], ...]
    left_out: tuple[tuple[str, str], ...]
    road: float  # minutes, the way home each day with them

    @property
    def minutes(self) -> float:
        """Minutes on the sites, of everyone there."""
        return sum(stop.call.minutes for stop in self.stops)


@dataclass(frozen=True)
class Ready:
    """A visit that no invoice went out for; hours and amount [cents] of its labour, and at which rate."""

    visit: Visit
    customer: str
    hours: float
    amount: int
    why: str


def round_of(book: BookFile, work: str, first: datetime.date) -> Round:
    """The round of everybody who is due for a work.

    Parameters
    ----------
    work : haul-out or start-up
    first : the day it begins, or the next working day

    Raises
    ------
    AskError where there is no such round, or the book cannot be used
    """
    if work not in BEFORE:
        raise AskError(f"found {work!r}; wanted one of: {', '.join(BEFORE)}")
    calls, left_out = [], []
    for card in listed(book, stage=BEFORE[work]):
        try:
            found = _call(book, card, work, first)
        except LakewrightError as error:
            found = str(error)
        if isinstance(found, str):
            left_out.append((card.last.name, found))
        else:
            calls.append(found)
    with book.reading() as rows:
        road = minutes_between(all_of(rows, Way))
    stops = stops_of(calls, road, first)
    taken: dict[str, int] = {}
    for part in (part for stop in stops for part in stop.call.truck):
        taken[part] = taken.get(part, 0) + 1
    last_of_days = {stop.day: stop for stop in stops}
    home = sum(road_between(stop.call.place, "shop", road)[0] for stop in last_of_days.values())
    return Round(work, stops, tuple(taken.items()), tuple(left_out), home + sum(stop.drive for stop in stops))


def write_calendar(found: Round, to: Path, said: datetime.date) -> None:
    """Write a round as a calendar file.

    Raises
    ------
    AskError where it cannot be written there
    """
    write_or_say(to, calendar_of(found, said))


def calendar_of(found: Round, said: datetime.date) -> str:
    """A round as the text of a calendar file."""
    return calendar(found.stops, found.work, said)


def done(book: BookFile, visit: Visit) -> None:
    """Put down a visit that was made, and how the job stands after it.

    Raises
    ------
    AskError where its job is not in the book, or what it says has no meaning
    """
    with book.writing() as rows:
        put(rows, visit)
        stage, job = WORKS[visit.work], visit.job
        if stage:
            put(rows, Standing(job=job, stage=stage, note=visit.work, day=visit.day, author=visit.author))


def ready(book: BookFile) -> list[Ready]:
    """The visits that no invoice went out for, the oldest first."""
    with book.reading() as rows:
        sent = {each.visit for each in all_of(rows, Invoice)}
        visits = [visit for visit in all_of(rows, Visit) if visit.number not in sent]
        cards = {visit.job: card_of(rows, "job", visit.job) for visit in visits}
    return [_ready(visit, cards[visit.job]) for visit in visits]


def invoiced(book: BookFile, name: str, signed: Signed) -> int:
    """Put down that invoices went out for all that was ready of a job. Returns for how many visits.

    Raises
    ------
    AskError where the job is not in the book, or nothing of it is ready
    """
    with book.writing() as rows:
        sent = {each.visit for each in all_of(rows, Invoice)}
        open_visits = [visit for visit in all_of(rows, Visit, name) if visit.number not in sent]
        if not open_visits:
            raise AskError(f"nothing of {name} is ready to invoice; lakewright book invoices lists what is")
        for visit in open_visits:
            put(rows, Invoice(visit=visit.number, day=signed.day, author=signed.author))
    return len(open_visits)


def _call(book: BookFile, card: Card, work: str, first: datetime.date) -> Call | str:
    """A visit of a job, or why it is left out."""
    from lakewright.api.read import assembled
    from lakewright.api.report import report_on
    from lakewright.state.bother import bother_rows

    with placed(book, card.last) as path:
        job, _, assembly = assembled(card.last.text, path)
        haul = report_on(job, assembly).haul if job.need.season == "hauled" else None
    season, by = job.need.season, (job.need.winter_by or "").casefold()
    if season not in ("hauled", "drained"):
        return "it stays in all winter" if season == "year-round" else "nobody has said how it winters"
    if by and "shop" not in by:
        return f"wintered by {job.need.winter_by}"
    row, drunk = round_rows()[work], job.need.drinking == "yes"
    steps = [step.stock or step.what or "a step" for step in job.treatment.steps]
    minutes = row["base"] + row["drain"] + row["step"] * len(steps)
    notes = []
    if work == "start-up" and drunk:
        minutes += row["drunk"]
    if haul is not None:
        each = bother_rows()["haul"] / HAULS / 60.0
        minutes += row["metre"] * haul.length + each * (haul.drained + haul.weights)
    elif season == "hauled":
        notes.append("what the line weighs is not known: allow more time")
    truck = [*row["truck"], *(row.get("truck_drunk", ()) if drunk else ())]
    if work == "start-up":
        truck += [f"cartridge or spares for {step}" for step in steps]
    by_day, after = _asked(job, assembly.facts, work, first.year)
    return Call(
        job=card.last.name,
        number=_number(book, card.last.name),
        place=card.water or card.last.name,
        minutes=float(math.ceil(minutes / 5.0) * 5),  # ours: nobody plans to the minute
        people=row["people"] if season == "hauled" else row["people_drain"],
        by=by_day,
        after=after,
        customer=card.customer,
        truck=tuple(truck),
        notes=tuple(notes),
    )


def _asked(job: Job, facts: Facts, work: str, year: int) -> tuple[datetime.date | None, datetime.date | None]:
    """The day by which, and the day from which, a visit is asked for in a year."""
    if work == "start-up":
        return None, _in_year(job.need.open_from, year)
    if job.need.close_by is not None:
        return _in_year(job.need.close_by, year), None
    if job.site.frost.first is None:
        return None, None
    from lakewright.physics.frost import early_date
    from lakewright.state.winter import DAY

    early = float(early_date(facts.season.first_frost, facts.season.frost_spread)[0])
    return datetime.date(year, 1, 1) + datetime.timedelta(days=math.floor(early / DAY)), None


def _in_year(date: datetime.date | None, year: int) -> datetime.date | None:
    """A date of any year, in this one; the end of February where it has no such day."""
    if date is None:
        return None
    try:
        return date.replace(year=year)
    except ValueError:
        return date.replace(year=year, day=28)


def _number(book: BookFile, name: str) -> int:
    with book.reading() as rows:
        return papers.number_of(rows, "job", name)


def _ready(visit: Visit, card: Card) -> Ready:
    """What a visit's labour comes to: half hours begun, at the job's rate, or the shop's."""
    from lakewright.job.read import read_job_text
    from lakewright.state.gather import defaults
    from lakewright.state.labour import HOUR, hours_counted
    from lakewright.state.money import cents, exact

    hours = hours_counted(visit.minutes * 60.0) or Fraction(0)
    why = "the job's rate"
    try:
        said = read_job_text(card.last.text).price.labour_rate
    except LakewrightError:
        said, why = None, "the job cannot be read: the usual rate"
    if said is None:
        rate, why = defaults()["price.labour_rate"].value, why if "cannot" in why else "the usual rate"
    else:
        rate = said.value
    amount = cents(exact(rate * 100.0 * HOUR) * hours * visit.people)
    return Ready(visit, card.customer, float(hours), amount, why)
