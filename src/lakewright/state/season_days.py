"""The days a supply is closed and started on: the customer's own, or one that few years are colder than."""

from __future__ import annotations

import datetime
import math

from lakewright.job.models import Job
from lakewright.physics.frost import early_date, late_date
from lakewright.state.season_facts import SeasonFacts
from lakewright.state.winter import DAY, EMPTIED


def day_of_year(seconds: float) -> datetime.date:
    """A day so many seconds after the new year of any year that is no leap year: dates of a climate have none.

    >>> day_of_year(0.0)
    datetime.date(2026, 1, 1)
    """
    return datetime.date(2026, 1, 1) + datetime.timedelta(days=math.floor(seconds / DAY))


def early_frost(season: SeasonFacts) -> datetime.date:
    """The day by which one autumn in ten has had its first night of hard frost; of a climate that is known."""
    return day_of_year(float(early_date(season.first_frost, season.frost_spread)[0]))


def late_frost(season: SeasonFacts) -> datetime.date:
    """The day after which one spring in ten still has a night of hard frost; of a climate that is known."""
    return day_of_year(float(late_date(season.last_frost, season.frost_spread)[0]))


def closing_day(job: Job, season: SeasonFacts) -> datetime.date | None:
    """When a supply that is emptied is closed; None of one that stays full, and where nobody knows."""
    if job.need.season not in EMPTIED:
        return None
    own = job.need.close_by
    return own if own is not None or job.site.frost.first is None else early_frost(season)


def opening_day(job: Job, season: SeasonFacts) -> datetime.date | None:
    """When a supply that was emptied is started; None of one that stays full, and where nobody knows."""
    if job.need.season not in EMPTIED:
        return None
    own = job.need.open_from
    return own if own is not None or job.site.frost.last is None else late_frost(season)
