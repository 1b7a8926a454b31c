"""What a supply wants through the years, as days: closing and starting it, and the rounds of `upkeep.toml` between."""

from __future__ import annotations

import calendar
import datetime
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from lakewright import units
from lakewright.gauges import gauge_words
from lakewright.job.models import Job
from lakewright.report import Report
from lakewright.state.facts import Facts
from lakewright.state.schedule import month_levels
from lakewright.state.season_days import closing_day, opening_day
from lakewright.state.waters import WINTER
from lakewright.state.winter import EMPTIED

MONTHS = tuple(calendar.month_name)
AHEAD = 14
"""ours: days before closing and starting that a reminder comes, to find hands, a boat and a weekend."""
ALIKE = 0.01
"""ours: levels [m] that no one could tell apart on a shore."""
FILTERS = ("sediment filter", "carbon filter", "absolute filter", "membrane")
"""Steps of a treatment that have something to be changed."""


@dataclass(frozen=True)
class Entry:
    """Something to be done on a day, and again.

    key : by which it is known from one calendar of a job to the next
    first : the first such day
    months : on the same day of which months of every year; none: on that day of the year
    years : every so many of them
    rows : what to do, in order
    ahead : days before that one is reminded; 0 for never
    """

    key: str
    what: str
    first: datetime.date
    months: tuple[int, ...]
    years: int
    rows: tuple[str, ...]
    ahead: int = 0


@dataclass(frozen=True)
class Year:
    """The year of a supply: the days it is closed and started, where they are known; of which months it is in use all
    year or on a day of the month.
    """

    start: datetime.date | None
    close: datetime.date | None
    day: int
    months: tuple[int, ...]


@cache
def rounds() -> Mapping[str, Mapping[str, Any]]:
    """The rows of `upkeep.toml`, in file order."""
    return tomllib.loads(resources.files("lakewright.job").joinpath("upkeep.toml").read_text(encoding="utf-8"))


def year_of(job: Job, facts: Facts) -> Year:
    """The year of a job’s supply; one that is emptied on no day that is known does without the months of winter."""
    start, close = opening_day(job, facts.season), closing_day(job, facts.season)
    if job.need.season not in EMPTIED:
        return Year(None, None, 1, tuple(range(1, 13)))
    used = [month for month in range(1, 13) if MONTHS[month] not in WINTER]
    day = min(start.day, 28) if start else 1
    first, last = start.month if start else used[0], close.month if close else used[-1]
    run = [(month - 1) % 12 + 1 for month in range(first, last + 1 if last >= first else last + 13)]
    if close is not None and close.day < day and len(run) > 1:
        run.pop()
    return Year(start, close, day, tuple(run))


def entries(job: Job, facts: Facts, report: Report, since: datetime.date) -> tuple[Entry, ...]:
    """All that is to be done, from a day on.

    Parameters
    ----------
    job, facts, report : of one supply
    since : the day before which nothing is to be done
    """
    year = year_of(job, facts)
    season = {part.title: part.rows for part in report.season}
    found = [*_turns(season, year, since), *_dam(job, year, since)]
    calls = _calls(job)
    for key, row in rounds().items():
        if row["when"] in calls:
            rows = (*_own(key, job, facts, report), *row["words"])
            found.append(_round(key, str(row["what"]), int(row["months"]), rows, year, since))
    return tuple(found)


def _turns(season: Mapping[str, Sequence[str]], year: Year, since: datetime.date) -> Iterator[Entry]:
    """Closing and starting: what the season sheet says of each."""
    if year.close is not None:
        titles = ("Winter", "Emptying it, in this order", "What it weighs", "Blowing it out")
        rows = tuple(row for title in titles for row in season.get(title, ()))
        yield Entry("close", "Close the supply for the winter", _next(year.close, since), (), 1, rows, AHEAD)
    if year.start is not None:
        rows = tuple(row for title in ("Starting it", "Shock chlorination") for row in season.get(title, ()))
        yield Entry("start", "Start the supply", _next(year.start, since), (), 1, rows, AHEAD)


def _dam(job: Job, year: Year, since: datetime.date) -> Iterator[Entry]:
    """The months in which the dam holds the water lowest while the supply is in use."""
    named = month_levels(job)
    held = {month: named[MONTHS[month]].value for month in year.months if MONTHS[month] in named}
    if not held:
        return
    least = min(held.values())
    months = tuple(sorted(month for month, level in held.items() if level < least + ALIKE))
    level = units.show(least, "height", job.job.units)
    rows = (
        f"By what is on record the dam then holds it lowest, at {level} from the usual level. Ask whoever controls it.",
        "Read the suction gauge; look that water covers the inlet and that nothing lies bare.",
    )
    first = min(_next(datetime.date(since.year, month, year.day), since) for month in months)
    yield Entry("dam", "The water is drawn down", first, months, 1, rows)


def _calls(job: Job) -> set[str]:
    steps = {step.what for step in job.treatment.steps}
    called = {"always"}
    if steps & set(FILTERS):
        called.add("filters")
    if "UV" in steps or job.treatment.uv.stock:
        called.add("lamp")
    if job.need.drinking != "no":
        called.add("drinking")
    return called


def _own(key: str, job: Job, facts: Facts, report: Report) -> Iterator[str]:
    """What the job's own figures say of a round."""
    system, delivery = job.job.units, facts.delivery
    if key == "gauges":
        yield from (f"{words[:1].upper()}{words[1:]}." for words in gauge_words(report.gauges, system))
    elif key == "filters":
        lost = units.show(float(delivery.filters_dirty[0]), "pressure_difference", system)
        names = [step.stock or str(step.what) for step in job.treatment.steps if step.what in FILTERS]
        yield f"{'; '.join(names)}."
        if "unknown" not in lost:
            yield f"Sooner where the gauges before and after them differ by {lost} with water running."
    elif key == "tests":
        yield from (f"{each.water.capitalize()}: {each.what}; {each.at}." for each in report.samples)
    elif key == "round":
        air = units.show(float(delivery.precharge[0]), "gauge", system)
        if "unknown" not in air and float(delivery.tank_volume[0]) > 0.0:
            yield f"Air in the tank, pump off and a tap open till it is empty: {air}."


def _round(key: str, what: str, apart: int, rows: tuple[str, ...], year: Year, since: datetime.date) -> Entry:
    """A round while the supply is in use: in months so far apart; or each year or more, first that much later."""
    whole = len(year.months) == 12
    if apart >= 12:
        day = since if whole else datetime.date(since.year, year.months[0], year.day)
        years = apart // 12
        later = datetime.date(min(since.year + years, datetime.MAXYEAR), since.month, min(since.day, 28))
        return Entry(key, what, _next(day, later), (), years, rows)
    begin = since.month - 1 if whole else 0
    months = tuple(sorted((*year.months[begin:], *year.months[:begin])[::apart]))
    first = min(_next(datetime.date(since.year, month, year.day), since) for month in months)
    return Entry(key, what, first, months, 1, rows)


def _next(day: datetime.date, since: datetime.date) -> datetime.date:
    """The first such day of the year that is not before a day; the 29th of February is the 28th."""
    month, number = day.month, 28 if (day.month, day.day) == (2, 29) else day.day
    this = datetime.date(since.year, month, number)
    return this if this >= since or since.year == datetime.MAXYEAR else datetime.date(since.year + 1, month, number)
