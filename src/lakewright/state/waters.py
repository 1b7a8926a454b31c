"""What a job does not say of its site, taken from the record of its water, with whose word it is.

The order is job, then water, then default. A quote takes all the record has; a build only what was measured or
looked up.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from lakewright import units
from lakewright.job.fact import Fact
from lakewright.job.fields import shape_at, shapes
from lakewright.job.models import Job
from lakewright.job.models_site import Day
from lakewright.job.quantity import Quantity
from lakewright.job.table import Table
from lakewright.job.water import SEEN_ON_A_DAY, Water, WaterDay, known
from lakewright.state.gather import Assumed, defaults

SURE = ("measured", "looked up")
STRICT = "a build takes only what was measured or looked up"
NO_DRAWDOWN = "nobody has measured or looked up how far this water is drawn down in winter"
WEAKEST_FIRST = ("assumed", "", "told", "looked up", "measured")

# common practice, no source: months in which a dam's water stands low, where its record names none.
WINTER = ("December", "January", "February", "March")
GONE_IN_WINTER = ("hauled", "drained")

# What a field of the job is filled from. Levels, days and who controls the water have their own ways below.
FILLS = {
    "site.kind": "kind",
    "site.elevation": "elevation",
    "site.dam": "dam",
    "site.dam_drawdown": "levels.drawdown",
    "site.weed": "weed",
    "site.mussels": "mussels",
    "site.levels.flood": "levels.flood",
    "site.bed.kind": "bed",
    "site.ice.thickness": "ice.thickness",
    "site.ice.freezing_index": "ice.freezing_index",
    "site.clarity.secchi": "clarity.secchi",
    "site.clarity.turbidity": "clarity.turbidity",
    "site.clarity.colour": "clarity.colour",
    "site.clarity.uv_transmittance": "clarity.uv_transmittance",
    "site.clarity.bloom": "clarity.bloom",
    "site.clarity.bloom_months": "clarity.bloom_months",
    "site.rules.region": "rules.region",
    "site.rules.screen": "rules.screen",
    "site.rules.permit": "rules.permit",
    "site.rules.call": "rules.call",
    "site.rules.drinking": "rules.drinking",
    "site.rules.answer": "rules.answer",
}


@dataclass(frozen=True)
class Merge:
    """A job with its gaps filled from its water."""

    job: Job
    filled: tuple[Assumed, ...]  # each with whose word it is, by its place in the job file
    left_out: dict[str, str]  # what the record has and a build does not take, by its place, and why


def merge_water(job: Job, water: Water) -> Merge:
    """Fill what a job leaves out of its site from the record of its water.

    Parameters
    ----------
    job : as read; it is not changed, and is not to be written back filled
    water : its record

    Returns
    -------
    Merge; what the job says itself is never touched, except that "unknown" counts as nothing said
    """
    filling = _Filling(job, job.job.grade)
    dammed = (water.dam.value if water.dam else "") if _is_gap(job.site.dam) else job.site.dam
    for place, source in FILLS.items():
        filling.fill(place, _at(water, source), _kind(source))
    if filling.has("site.rules.drinking") and water.rules.drinking and water.rules.drinking.since:
        filling.put("site.rules.asked", water.rules.drinking.since)
    filling.fill("site.levels.who", _who(water))
    _fill_days(filling, water)
    low_wanted = job.site.levels.low is None and job.site.levels.lowest_seen is None
    winter = _winter_days(filling.job, water)
    if (
        dammed == "yes"
        and filling.job.site.dam_drawdown is None
        and (winter or (low_wanted and _is_usual(filling.job)))
    ):
        _assume_drawdown(filling)
    _fill_winter_levels(filling, winter)
    if low_wanted:
        _fill_low(filling, water, dammed == "yes")
    return Merge(filling.job, tuple(filling.filled), filling.left_out)


def whose_word(fact: Fact[Any]) -> str:
    """Who said so and when, as it is printed of the record.

    >>> whose_word(Fact("silt", "told", None, "the neighbour", ""))
    'told by the neighbour'
    """
    if not fact.standing:
        return "which does not say by whom"
    by = f" by {fact.said_by}" if fact.said_by else ""
    on = f" on {fact.since.isoformat()}" if fact.since else ""
    return f"{fact.standing}{by}{on}"


def _on_record(fact: Fact[Any]) -> str:
    """Whose word it is where nothing else says that the record has it."""
    return f"from the water's record, {whose_word(fact)}"


@dataclass
class _Filling:
    """Collects while a job is filled."""

    job: Job
    grade: str
    filled: list[Assumed] = field(default_factory=list)
    left_out: dict[str, str] = field(default_factory=dict)

    def fill(self, place: str, fact: Fact[Any] | None, kind: str = "") -> None:
        """One field, if the job has not said it and this grade takes what the record has."""
        if fact is None or not known(fact) or not _is_gap(_at(self.job, place)):
            return
        if self.takes(place, fact, kind):
            self.put(place, _plain(fact))
            self.note(place, fact, kind)

    def takes(self, place: str, fact: Fact[Any], kind: str) -> bool:
        """Whether this grade takes a fact on the word it stands on; if not, why it does not is kept."""
        if self.grade != "build" or fact.standing in SURE:
            return True
        self.left_out[place] = f"{_shown(fact, kind, self.job.job.units)}, {_on_record(fact)}: {STRICT}"
        return False

    def put(self, place: str, value: Any) -> None:
        """A field of the job at its value."""
        self.job = _with(self.job, tuple(place.split(".")), value)

    def note(self, place: str, fact: Fact[Any], kind: str, more: str = "") -> None:
        """Keep whose word a filled field is."""
        number = fact.value.value if isinstance(fact.value, Quantity) else math.nan
        text = "" if isinstance(fact.value, Quantity) else _shown(fact, kind, self.job.job.units)
        why = whose_word(fact) + more
        self.filled.append(Assumed(place, number, kind, fact.standing or "told", why, text, from_record=True))

    def has(self, place: str) -> bool:
        """Whether a field was filled."""
        return any(assumed.key == place for assumed in self.filled)


def _fill_days(filling: _Filling, water: Water) -> None:
    """The record's days, for a job that has none: all that come in its season or, in a build, perhaps none."""
    stays = filling.job.need.season not in GONE_IN_WINTER
    days = [day for day in water.days if stays or not _is_all_winter(day)]
    if filling.job.site.days or not days:
        return
    if filling.grade == "build":
        for day in days:
            # A day short of its ice or its level would be a milder one.
            for name in SEEN_ON_A_DAY:
                fact = getattr(day, name)
                if fact is not None and fact.standing not in SURE:
                    filling.left_out["site.days"] = f"{name} of {day.name}, {_on_record(fact)}: {STRICT}"
                    return
    filling.put("site.days", [_day(day) for day in days])
    facts = [fact for day in days for fact in _seen_on(day)]
    signed = [fact for fact in facts if fact.standing]
    words = list(dict.fromkeys(whose_word(fact) for fact in signed))
    if len(signed) < len(facts):
        words.append("the rest on nobody's word" if signed else "which does not say by whom")
    weakest = min((fact.standing for fact in facts), key=WEAKEST_FIRST.index, default="")
    names = ", ".join(day.name for day in days)
    why = "; ".join(words) or "which does not say by whom"
    filling.filled.append(Assumed("site.days", math.nan, "", weakest or "told", why, names, from_record=True))


def _is_all_winter(day: WaterDay) -> bool:
    ice = day.ice is not None and day.ice.value.value > 0.0
    return ice or (day.months is not None and known(day.months) and set(day.months.value) <= set(WINTER))


def _seen_on(day: WaterDay) -> list[Fact[Quantity]]:
    return [fact for name in SEEN_ON_A_DAY if isinstance(fact := getattr(day, name), Fact)]


def _day(day: WaterDay) -> Day:
    said = {name: _plain(fact) for name in shapes(WaterDay) if isinstance(fact := getattr(day, name), Fact)}
    by = "; ".join(dict.fromkeys(fact.said_by for fact in _seen_on(day) if fact.said_by))
    return Day(name=day.name, by=by or None, **said)


def _assume_drawdown(filling: _Filling) -> None:
    """What a dam draws its water down until shown otherwise; a build takes no such figure."""
    if filling.grade == "build":
        filling.left_out.setdefault("site.dam_drawdown", NO_DRAWDOWN)
        return
    row = defaults()["site.low behind a dam"]
    why = f"{row.why} ({row.source})"
    depth = -row.value
    text = units.show(depth, "length", filling.job.job.units)
    drawdown = Quantity(depth, depth, depth, 0.0, "assumed", None, why, False, text)
    filling.put("site.dam_drawdown", drawdown)
    filling.filled.append(Assumed("site.dam_drawdown", depth, "length", "assumed", why))


def _winter_days(job: Job, water: Water) -> list[Day]:
    """The days of a job on which the water stands drawn down, for nothing says otherwise."""
    told = water.levels.drawdown_months
    months = told.value if told is not None and known(told) else WINTER

    def is_winter(day: Day) -> bool:
        ice = day.ice is not None and day.ice.value > 0.0
        return any(month in months for month in day.months) if day.months else ice

    return [day for day in job.site.days if day.level is None and is_winter(day)]


def _fill_winter_levels(filling: _Filling, winter: Sequence[Day]) -> None:
    drawdown = filling.job.site.dam_drawdown
    if drawdown is None or not winter:
        return
    level = under(drawdown, filling.job.job.units)
    low = [day.model_copy(update={"level": level}) if day in winter else day for day in filling.job.site.days]
    filling.put("site.days", low)
    why = f"{', '.join(day.name for day in winter)}: {_why_drawdown(filling)}"
    standing, from_record = level.standing or "told", level.from_record
    filling.filled.append(Assumed("site.days.level", level.value, "height", standing, why, from_record=from_record))


def _is_usual(job: Job) -> bool:
    """Whether the usual days are taken, a winter's among them: they stand at the level the job calls low."""
    return not job.site.days and job.need.season not in GONE_IN_WINTER


def _fill_low(filling: _Filling, water: Water, dammed: bool) -> None:
    """The lowest water: an ordinary year's low, the lowest seen, or a winter's drawdown, whichever is lowest."""
    job, drawdown = filling.job, filling.job.site.dam_drawdown
    if _is_usual(job) and drawdown is None and (dammed or known(water.levels.drawdown)):
        filling.left_out["site.levels.low"] = NO_DRAWDOWN
        return
    lows: list[tuple[Quantity, str]] = []
    for name, what in (("low", "the low of an ordinary year"), ("lowest_seen", "the lowest seen")):
        fact: Fact[Quantity] | None = getattr(water.levels, name)
        if fact is not None and filling.takes(f"site.levels.{name}", fact, "height"):
            lows.append((_plain(fact), f"{whose_word(fact)}: {what}"))
    if drawdown is not None and job.need.season not in GONE_IN_WINTER:
        lows.append((under(drawdown, job.job.units), _why_drawdown(filling)))
    lowest, why = min(lows, key=lambda pair: pair[0].value, default=(None, ""))
    if lowest is None or _is_doubted(filling, water, lowest):
        return
    filling.put("site.levels.low", lowest)
    standing, from_record = lowest.standing or "told", lowest.from_record
    filling.filled.append(Assumed("site.levels.low", lowest.value, "height", standing, why, from_record=from_record))


def _is_doubted(filling: _Filling, water: Water, lowest: Quantity) -> bool:
    """Whether the record has a lower level that this grade does not take: then the higher is no answer either."""
    for name in ("low", "lowest_seen"):
        fact: Fact[Quantity] | None = getattr(water.levels, name)
        if f"site.levels.{name}" in filling.left_out and fact is not None and fact.value.value < lowest.value:
            filling.left_out.setdefault("site.levels.low", filling.left_out[f"site.levels.{name}"])
            return True
    return False


def _why_drawdown(filling: _Filling) -> str:
    """Whose word the drawdown is: the record's, the default's, or the job's own."""
    why = next((assumed.why for assumed in filling.filled if assumed.key == "site.dam_drawdown"), "")
    return why or "as far under the usual level as [site] dam_drawdown says"


def under(drawdown: Quantity, system: str) -> Quantity:
    """The level that a drawdown leaves."""
    return replace(
        drawdown,
        value=-drawdown.value,
        low=-drawdown.high,
        high=-drawdown.low,
        text=units.show(-drawdown.value, "height", system),
    )


def _who(water: Water) -> Fact[str] | None:
    """Who controls the level and how to reach them, as the job has it in one field."""
    who, reach = water.controlled_by, water.reach
    if who is None or reach is None:
        return who
    # On the weaker of two words.
    weaker = who if reach.standing in SURE else reach
    return replace(weaker, value=f"{who.value}; {reach.value}")


def _plain(fact: Fact[Any]) -> Any:
    """What a fact of the record is as a field of a job: its note says whose word it is."""
    if isinstance(fact.value, Quantity):
        note = f"{_on_record(fact)}: {fact.note}" if fact.note else _on_record(fact)
        return replace(fact.value, note=note, from_record=True)
    return list(fact.value) if isinstance(fact.value, tuple) else fact.value


def _shown(fact: Fact[Any], kind: str, system: str) -> str:
    if isinstance(fact.value, Quantity):
        return units.show(fact.value.value, kind, system)
    return ", ".join(fact.value) if isinstance(fact.value, tuple) else str(fact.value)


def _is_gap(value: object) -> bool:
    return value is None or value in ("unknown", [])


def _at(whole: Table, place: str) -> Any:
    here: Any = whole
    for name in place.split("."):
        here = getattr(here, name)
    return here


def _with(whole: Any, path: tuple[str, ...], value: Any) -> Any:
    new = value if len(path) == 1 else _with(getattr(whole, path[0]), path[1:], value)
    return whole.model_copy(update={path[0]: new})


def _kind(source: str) -> str:
    """The kind in which a quantity of the record is shown; empty for words."""
    shape = shape_at(tuple(source.split(".")), Water)
    return shape.dimension.kind if shape is not None and shape.dimension is not None else ""
