"""The winter as facts: what is emptied and what stays full, how deep it lies, and the dates."""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence
from itertools import pairwise

from lakewright.job.models import Job
from lakewright.job.quantity import is_given, value_of
from lakewright.physics.cold_line import EXPANSION
from lakewright.state.cold import ground_frost, usual_cover_over_frost
from lakewright.state.facts import SuctionFacts
from lakewright.state.gather import Gather, one, why_not
from lakewright.state.holding import has_no_foot_valve
from lakewright.state.profile import ground_profile
from lakewright.state.route import bank_points
from lakewright.state.season_facts import SeasonFacts
from lakewright.stock.load import Stock

EMPTIED = ("hauled", "drained")
DAY = 86400.0
"""Seconds [s]."""
WHOLE_YEAR = 365.0 * DAY
MATERIALS = {"PE": "polyethylene", "PVC": "PVC", "copper": "copper", "steel": "steel"}
"""How the compound of a pipe begins, and what its wall then is; hose gives, and takes up what it shortens."""


def low_length(line: Sequence[tuple[float, float]]) -> float:
    """Length of a line in which water stays though both its ends are open [m].

    Parameters
    ----------
    line : places along it, length and height [m]

    >>> low_length([(0, 0), (10, -1), (20, 1), (30, 0)])
    15.0
    """
    wet = 0.0
    for number, ((start, one_end), (end, other)) in enumerate(pairwise(line)):
        before, after = (max(height for _, height in part) for part in (line[: number + 1], line[number + 1 :]))
        full, low, high = min(before, after), min(one_end, other), max(one_end, other)
        if full > low:
            wet += (end - start) * min(1.0, (full - low) / (high - low) if high > low else 1.0)
    return wet


def season_facts(
    job: Job, stock: Stock, suction: SuctionFacts, pump_height: float, tee_height: float, gather: Gather
) -> SeasonFacts:
    """What becomes of the supply in winter.

    Parameters
    ----------
    suction : the suction line's facts
    pump_height, tee_height : [m] of the pump, and of the tank's tee
    """
    emptied, hauled = job.need.season in EMPTIED, job.need.season == "hauled"
    trench, frost = _trench(job, gather) if not emptied else (math.inf, 0.0)
    closes, opens, first, last, spread = _dates(job, gather) if emptied else (math.inf, math.inf, 0.0, 0.0, 0.0)
    expansion, slack = (0.0, 0.0) if hauled else _shrinks(job, stock, suction, gather)
    return SeasonFacts(
        emptied=one(emptied),
        hauled=one(hauled),
        suction_left=one(_suction_left(job, suction, pump_height, gather) if emptied else 0.0),
        delivery_left=one(_delivery_left(job, pump_height, tee_height, gather) if emptied else 0.0),
        trench_depth=one(trench),
        frost_depth=one(frost),
        expansion=one(expansion),
        slack=one(slack),
        closes=one(closes),
        first_frost=one(first),
        opens=one(opens),
        last_frost=one(last),
        frost_spread=one(spread),
    )


# What stays full.


def _suction_left(job: Job, suction: SuctionFacts, pump_height: float, gather: Gather) -> float:
    """Length of suction line over the water that stays full [m]: none where it comes out."""
    if job.need.season == "hauled":
        return 0.0
    name = "season.suction_left"
    if not has_no_foot_valve(job):
        place = "[holding] foot_valve_opens"
        opens = gather.usual_word("holding.foot_valve_opens", job.holding.foot_valve_opens, "yes", place)
        if opens in (None, "unknown"):
            return gather.lack(name, f"{place} is not given: a foot valve keeps the line full by design")
        if opens == "no":
            return _over_water(job, suction)
    bank = bank_points(job, value_of(job.pump.distance), pump_height)
    return low_length(bank) if bank and not math.isnan(pump_height) else 0.0


def _over_water(job: Job, suction: SuctionFacts) -> float:
    """Length of suction line from the water's edge to the pump [m]; the whole of it where nobody has said."""
    bank = float(suction.bank_length[0]) * (1.0 + float(suction.along[0]))
    if bank > 0.0:
        return bank
    return job.pump.distance.value if is_given(job.pump.distance) else float(suction.bed_length[0])


def _delivery_left(job: Job, pump_height: float, tee_height: float, gather: Gather) -> float:
    """Length of delivery line that stays full with both its ends open [m], as the ground lies."""
    name, distance, length = "season.delivery_left", job.pump.distance, job.delivery.length
    if not job.site.ground or not is_given(distance) or not is_given(length):
        return gather.default(name, "[[site.ground]] from the pump to the tank", name)
    between = [
        (where - distance.value, height)
        for where, height in zip(*ground_profile(job), strict=True)
        if distance.value < where < distance.value + length.value
    ]
    line = [(0.0, pump_height), *between, (length.value, tee_height)]
    return low_length(line) if not math.isnan(pump_height + tee_height) else 0.0 * (pump_height + tee_height)


# What stays in the ground and in the water.


def _trench(job: Job, gather: Gather) -> tuple[float, float]:
    """Earth over the shallowest line that stays full, and how deep the ground freezes [m]."""
    frost = ground_frost(job, gather)
    name, place = "season.trench_depth", "[delivery] trench_depth"
    if job.delivery.buried is False:
        return 0.0, frost
    given = [each for each in (job.suction.trench_depth, job.delivery.trench_depth) if each is not None]
    if given:
        return gather.number(name, min(given, key=lambda each: each.value), place, kind="depth"), frost
    if gather.grade != "quote":
        return gather.lack(name, f"{place} is not given"), frost
    why = "a line that stays full in winter is laid under the frost (ours)"
    return gather.assume(name, frost + usual_cover_over_frost(), "depth", why, place), frost


def _shrinks(job: Job, stock: Stock, suction: SuctionFacts, gather: Gather) -> tuple[float, float]:
    """Expansion of the suction line's wall [1/K], and the share by which the line is longer than its way."""
    pipe = stock.pipes.get(gather.parts.get("[suction] stock", ""))
    if pipe is None:
        return gather.lack("season.expansion", why_not("[suction] stock", job.suction.stock)), 0.0
    hose = pipe.family.endswith("hose")
    material = next((name for start, name in MATERIALS.items() if pipe.compound.startswith(start)), None)
    if hose or material is None:
        return 0.0, 0.0
    return EXPANSION[material], _slack(job, suction, gather)


def _slack(job: Job, suction: SuctionFacts, gather: Gather) -> float:
    length, at, distance = job.suction.length, job.stand.at, job.pump.distance
    if not is_given(length):
        return float(suction.along[0])
    if not is_given(at) or not is_given(distance):
        place = "[pump] distance" if is_given(at) else "[stand] at"
        return gather.lack("season.slack", f"{place} is not given")
    return length.value / (at.value + distance.value) - 1.0


# The dates.


def _dates(job: Job, gather: Gather) -> tuple[float, float, float, float, float]:
    """When it closes and opens, the first and the last hard frost on the mean, and how they spread [s]."""
    closes, opens, frost = job.need.close_by, job.need.open_from, job.site.frost
    named = [date for date in (closes, opens, frost.first, frost.last) if date is not None]
    first = _frost_date(frost.first, "first", closes is not None, gather)
    last = _frost_date(frost.last, "last", opens is not None, gather)
    spread = gather.number("season.frost_spread", frost.spread, "[site.frost] spread") if named else 0.0
    return (
        math.inf if closes is None else in_autumn(closes),
        math.inf if opens is None else in_spring(opens),
        first if frost.first is None else in_autumn(frost.first),
        last if frost.last is None else in_spring(frost.last),
        spread,
    )


def _frost_date(given: datetime.date | None, which: str, asked: bool, gather: Gather) -> float:
    """Nothing, where nobody has named a day that would be held against it."""
    if given is not None or not asked:
        return 0.0
    why = f"[site.frost] {which} is not given: ask the nearest weather station for its {which} night of 28 F or -2 C"
    return gather.lack(f"season.{which}_frost", why)


def in_spring(date: datetime.date) -> float:
    """Time from the new year to a date [s].

    >>> in_spring(datetime.date(2026, 1, 31)) / DAY
    30.0
    """
    return (date - datetime.date(date.year, 1, 1)).days * DAY


def in_autumn(date: datetime.date) -> float:
    """The same of a date in autumn or the winter after it: where frost comes late, past the end of the year.

    >>> in_autumn(datetime.date(2026, 1, 31)) / DAY
    395.0
    """
    # ours: no first frost comes between February and midsummer.
    return in_spring(date) + (WHOLE_YEAR if date.month <= 6 else 0.0)
