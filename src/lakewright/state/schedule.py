"""What a dam does to the level: its schedule by month, or its winter drawdown, as levels of the days."""

from __future__ import annotations

from lakewright.job.models import Job
from lakewright.job.models_site import Day
from lakewright.job.quantity import Quantity, is_given
from lakewright.state.waters import GONE_IN_WINTER, WINTER, under


def month_levels(job: Job) -> dict[str, Quantity]:
    """The level of each month that the job's dam is known to hold; without a schedule the winter's drawdown.

    A line that is hauled or drained does not see the winter.
    """
    found: dict[str, Quantity] = {month: row.level for row in job.site.levels.schedule for month in row.months}
    if not found and is_given(job.site.dam_drawdown):
        found = dict.fromkeys([*WINTER], under(job.site.dam_drawdown, job.job.units))
    stays = job.need.season not in GONE_IN_WINTER
    return {month: level for month, level in found.items() if stays or month not in WINTER}


def lowest_held(job: Job, of_winter: bool = True) -> Quantity | None:
    """The lowest level that the dam holds while the supply is in use, or in the rest of the year than its winter."""
    held = month_levels(job).items()
    return min((level for month, level in held if of_winter or month not in WINTER), key=_value, default=None)


def level_on(job: Job, day: Day) -> Quantity | None:
    """The level of a day: its own, else the lowest that the dam holds in its months; of one with ice, in winter."""
    if day.level is not None:
        return day.level
    ice = day.ice is not None and day.ice.value > 0.0
    months = day.months or (WINTER if ice else ())
    held = month_levels(job)
    return min((held[month] for month in months if month in held), key=_value, default=None)


def _value(level: Quantity) -> float:
    return level.value
