"""The design low level from a record of levels, a file of dates and levels beside the job."""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from lakewright import units
from lakewright.errors import JobError, Mistake
from lakewright.job.models import Job
from lakewright.job.quantity import Quantity
from lakewright.state.columns import measurements
from lakewright.state.extremes import Lows, lows_of
from lakewright.state.gather import Assumed

NAMES = {"date": ("date", "time", "year", "day", "month"), "level": ("level", "stage", "elevation", "height")}

PERIODS = (10.0, 20.0, 50.0)
"""ours: once in ten years, in twenty, and in the fifty that a line in the lake is built for."""

FEWEST = 10
"""ours: of fewer years than this only the lowest is told, and no law is fitted."""

OCTOBER = 10
"""Source: United States Geological Survey: the water year runs from October to September, by the year it ends in."""

SUMMER = (6, 7, 8)
"""ours: months whose middle level is taken as the usual summer level, where nobody says what the record reads then."""

WHOLE_YEAR = 0.5
"""ours: a year with fewer readings than this share of a usual year's is left out of the law, not of the record low."""

_DAY_NOUGHT = datetime.date(1899, 12, 30)  # from which a spreadsheet counts its days
_YEARS = (1600, 2200)  # what is a year and not a spreadsheet's count of days


@dataclass(frozen=True, slots=True)
class Reading:
    """A level [m] as the record counts it, and its date; a record of one level a year has no month."""

    year: int
    month: int  # 0 where only the year is told
    level: float

    @property
    def water_year(self) -> int:
        """The year it counts in."""
        return self.year + 1 if self.month >= OCTOBER else self.year


@dataclass(frozen=True, slots=True)
class Record:
    """What a record says. Levels [m] as the record counts them.

    lows : what the law says, None of too few years
    usual : the level that is the job's zero; told : whether the job says so
    """

    file: str
    years: tuple[int, ...]
    yearly: tuple[float, ...]
    lowest: Reading
    lows: Lows | None
    usual: float
    told: bool

    @property
    def design(self) -> float:
        """The lower of the record low and what falls short once in the longest period."""
        return min(self.lowest.level, self.lows.lows[-1].level) if self.lows is not None else self.lowest.level


def recorded(job: Job, folder: Path) -> tuple[Job, tuple[Assumed, ...]]:
    """The job with its low level from the record it names, where it gives none itself; and what was taken.

    Raises
    ------
    JobError where the file cannot be used, with every row that cannot
    """
    levels = job.site.levels
    if levels.record is None or levels.low is not None:
        return job, ()
    record = record_of(job, folder)
    system, value = job.job.units, record.design - record.usual
    text = units.show(value, "height", system)
    low = Quantity(value, value, value, 0.0, "looked up", None, in_words(record, system), False, text)
    site = job.site.model_copy(update={"levels": levels.model_copy(update={"low": low})})
    place = "[site.levels] record"
    said = [Assumed("site.levels.low", value, "height", "looked up", in_words(record, system), "", place)]
    if not record.told:
        why = "the middle of the record's summers is taken as the usual level, [site.levels] record_zero"
        said.append(Assumed("site.levels.record_zero", record.usual, "elevation", "assumed", why, "", place))
    return job.model_copy(update={"site": site}), tuple(said)


def record_of(job: Job, folder: Path) -> Record:
    """What the record that a job names says of its lows.

    Raises
    ------
    JobError where the file cannot be used, with every row that cannot
    """
    name = job.site.levels.record or ""
    readings = readings_of(folder / name)
    zero = job.site.levels.record_zero
    if zero is None and job.job.grade == "build":
        wanted = "what the record reads at the usual summer level"
        why = "a record, and nothing that ties it to the job's zero"
        raise JobError([Mistake("", 0, "[site.levels] record", why, wanted, 'write record_zero = "579.0 ft"')])
    summer = [each.level for each in readings if each.month in SUMMER] or [each.level for each in readings]
    usual = zero.value if zero is not None and not zero.open else median(summer)
    years, yearly = yearly_lows(readings)
    lows = lows_of(yearly, PERIODS) if len(years) >= FEWEST else None
    lowest = min(readings, key=lambda each: each.level)
    return Record(name, years, yearly, lowest, lows, usual, zero is not None)


def yearly_lows(readings: Sequence[Reading]) -> tuple[tuple[int, ...], tuple[float, ...]]:
    """Water years that were watched whole, and the lowest level of each."""
    by_year: dict[int, list[float]] = {}
    for each in readings:
        by_year.setdefault(each.water_year, []).append(each.level)
    usual = median(len(levels) for levels in by_year.values())
    whole = {year: min(levels) for year, levels in sorted(by_year.items()) if len(levels) >= WHOLE_YEAR * usual}
    return tuple(whole), tuple(whole.values())


def in_words(record: Record, system: str) -> str:
    """What the record says of its lows, each from the job's zero."""

    def shown(level: float) -> str:
        return units.show(level - record.usual, "height", system)

    years = f"{len(record.years)} years, {min(record.years)} to {max(record.years)}"
    words = [f"{record.file}: {years}; record low {shown(record.lowest.level)} in {record.lowest.year}"]
    if record.lows is None:
        return f"{words[0]}; too few years for a law, {FEWEST} or more"
    for low in record.lows.lows:
        band = f"{shown(low.lowest)} to {shown(low.highest)}"
        words.append(f"once in {low.years:.0f} years {shown(low.level)} ({band} nine times in ten)")
    memory = f"a year follows the one before by {record.lows.correlation:.2f}, so they tell as much as"
    words.append(f"{record.lows.law} law; {memory} {record.lows.independent:.0f} without memory")
    return "; ".join(words)


# What a file says.


def readings_of(path: Path) -> list[Reading]:
    """The readings of a file of dates and levels, the unit of the levels in its head.

    Raises
    ------
    JobError where it cannot be used, with every row that cannot
    """
    found = measurements(path, NAMES)
    if {"date", "level"} - set(found.columns) and not found.mistakes:
        heads = ", ".join(found.columns) or "no name we know"
        found.refuse(1, "", f"a head with {heads}", "columns of date and level", 'write it as "date, level ft"')
    if found.mistakes:
        raise JobError(found.mistakes, path.name)
    if not found.columns["level"][1]:
        found.refuse(1, "level", "no unit", "a unit of length in the head", 'write "level ft" or "level m"')
        raise JobError(found.mistakes, path.name)
    readings = []
    for row in found.rows:
        cell, level = found.text(row, "date"), found.figure(row, "level", "length")
        date = date_of(cell)
        if date is None:
            wanted = "a date, or a year"
            found.refuse(row.line, "date", f'"{cell}"' if cell else "nothing", wanted, "write it as 1964-03-21")
        elif not math.isnan(level):
            readings.append(Reading(*date, level))
    if not readings and not found.mistakes:
        found.refuse(0, "", "no readings", "a row a reading", "fill the file")
    if found.mistakes:
        raise JobError(found.mistakes, path.name)
    return readings


def date_of(cell: str) -> tuple[int, int] | None:
    """Year and month of a date as written; month 0 of a year alone. A day and a month that read two ways are neither.

    >>> date_of("1964-03-21"), date_of("1964"), date_of("3/4/1964"), date_of("21.3.1964")
    ((1964, 3), (1964, 0), None, (1964, 3))
    """
    if re.fullmatch(r"\d{3,6}(\.0*)?", cell):
        number = int(float(cell))
        if _YEARS[0] <= number <= _YEARS[1]:
            return number, 0
        day = _DAY_NOUGHT + datetime.timedelta(days=number)
        return (day.year, day.month) if number > _YEARS[1] else None
    if found := re.match(r"(\d{4})[-/.](\d{1,2})(?:[-/.]\d{1,2})?(?:$|[T ])", cell):
        return _month(int(found[1]), int(found[2]))
    if found := re.match(r"(\d{1,2})([-/.])(\d{1,2})\2(\d{4})(?:$|[T ])", cell):
        one, other, year = int(found[1]), int(found[3]), int(found[4])
        if one > 12 or other > 12:
            return _month(year, min(one, other))
        return _month(year, one) if one == other else None
    return None


def _month(year: int, month: int) -> tuple[int, int] | None:
    return (year, month) if 1 <= month <= 12 else None
