"""What a dam does to the level: its schedule by month, or its winter drawdown, in the days of a job."""

from __future__ import annotations

import pytest

from lakewright.job.read import read_job_text
from lakewright.state.assemble import facts_of
from lakewright.state.schedule import level_on, lowest_held, month_levels
from lakewright.stock.load import load_stock

HEAD = '[job]\nunits = "US"\n[site]\nkind = "reservoir"\ndam = "yes"\n'
SCHEDULE = """
[[site.levels.schedule]]
months = ["November", "December"]
level  = "-6 ft"
[[site.levels.schedule]]
months = ["January", "February", "March"]
level  = "-12 ft"
[[site.levels.schedule]]
months = ["June", "July", "August"]
level  = "0 ft"
"""
DAYS = """
[[site.days]]
name   = "July weekend"
months = ["July", "August"]
[[site.days]]
name   = "first snow"
months = ["November", "January"]
[[site.days]]
name = "under ice"
ice  = "20 in"
[[site.days]]
name  = "as read"
level = "-1 ft"
months = ["February"]
"""


def levels(text: str) -> dict[str, float]:
    """Level of each day in feet."""
    facts = facts_of(read_job_text(HEAD + text), load_stock()).facts
    return dict(zip(facts.day_names, (facts.days.level / 0.3048).round(3).tolist(), strict=True))


def test_days_stand_at_the_lowest_level_held_in_their_months() -> None:
    found = levels(SCHEDULE + DAYS)
    assert found == {"July weekend": 0.0, "first snow": -12.0, "under ice": -12.0, "as read": -1.0}


def test_a_drawdown_lowers_the_winter() -> None:
    drawn = '[site]\nkind = "reservoir"\ndam_drawdown = "12 ft"\n'
    job = read_job_text(f'[job]\nunits = "US"\n{drawn}{DAYS}')
    wanted = {"July weekend": None, "first snow": "-12.0 ft", "under ice": "-12.0 ft", "as read": "-1 ft"}
    found = {day.name: level_on(job, day) for day in job.site.days}
    assert {name: level and level.text for name, level in found.items()} == wanted


@pytest.mark.parametrize("season, lowest", [("year-round", -12.0), ("hauled", -6.0), ("drained", -6.0)])
def test_a_line_that_is_hauled_sees_no_winter(season: str, lowest: float) -> None:
    job = read_job_text(f'{HEAD}[need]\nseason = "{season}"\n{SCHEDULE}')
    held = lowest_held(job)
    assert held is not None
    assert held.value / 0.3048 == pytest.approx(lowest)
    assert ("February" in month_levels(job)) == (season == "year-round")


def test_twelve_feet_of_drawdown_move_the_worst_day() -> None:
    """The usual days of a quote: a natural lake is as low in September as under ice, a drawn-down one is not."""
    unknown, natural = levels(""), levels('[site.levels]\nlow = "-3 ft"\n')
    drawn = levels('[site.levels]\nlow = "-3 ft"\n' + SCHEDULE)
    summer, winter = "late summer, lowest water", "February under ice"
    assert (natural[summer], natural[winter]) == (-3.0, -3.0)
    assert (drawn[summer], drawn[winter]) == (-6.0, -12.0)  # November is no winter to a schedule
    assert (unknown[summer], unknown[winter]) == (-10.0, -10.0)  # nobody has looked the dam up
    job = read_job_text('[job]\nunits = "US"\n[site]\nkind = "reservoir"\ndam = "yes"\ndam_drawdown = "12 ft"\n')
    facts = facts_of(job, load_stock()).facts
    found = dict(zip(facts.day_names, (facts.days.level / 0.3048).round(3).tolist(), strict=True))
    assert (found[summer], found[winter]) == (-3.0, -12.0)
