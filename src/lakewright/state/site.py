"""The site as facts: levels, days, bed, rules."""

from __future__ import annotations

import math

import numpy as np

from lakewright.job.models import Job
from lakewright.physics.types import Array
from lakewright.state.cold import design_ice
from lakewright.state.exposure import SILTY, bed_facts, is_soft, stream_current
from lakewright.state.facts import DayFacts, SiteFacts
from lakewright.state.gather import Gather, ScreenRule, defaults, first_given, one, screen_rules, usual_days
from lakewright.state.schedule import level_on, lowest_held
from lakewright.state.screen_rules import ASK, rule_for, rule_words
from lakewright.stock.load import Stock


def by_bed(job: Job, name: str) -> str:
    """The row of `defaults.toml` for this job's bed."""
    if is_soft(job):
        return f"{name} in soft bed"
    return f"{name} on {'silt' if job.site.bed.kind in SILTY else 'firm bed'}"


def site_facts(job: Job, stock: Stock, gather: Gather) -> SiteFacts:
    """What the site asks and allows."""
    site = job.site
    boats = site.boats in ("some", "many") or (site.boats in (None, "unknown") and site.kind not in ("tank", "stream"))
    floor = defaults()["site.cover_floor with boats" if boats else "site.cover_floor"].value
    rule = _screen_rule(job, gather)
    friction, roughness, strength, grain = bed_facts(job, gather)
    return SiteFacts(
        elevation=one(gather.number("site.elevation", site.elevation, "[site] elevation")),
        weather=one(gather.default("site.weather", "", "site.weather")),
        flood=one(gather.number("site.flood", site.levels.flood, "[site.levels] flood")),
        waves=one(gather.number("site.waves", site.levels.waves, "[site.levels] waves")),
        walled=one(site.kind == "tank"),
        cover_floor=one(floor),
        bed_wanted=one(defaults()["site.bed_wanted"].value),
        screen_velocity=one(rule.velocity if rule else math.nan),
        screen_on_open=one(rule.on_open if rule else math.nan),
        screen_asked=one(rule is not NO_RULE if rule else math.nan),
        screen_opening=one(_widest(job, rule, stock) if rule else math.nan),
        bed_friction=one(friction),
        bed_roughness=one(roughness),
        mud_strength=one(strength),
        grain=one(grain),
    )


NO_RULE = ScreenRule(math.inf, False, math.inf, math.inf)
"""Where no rule of screens is in force: any velocity, any opening, and a bare strainer too."""


def _screen_rule(job: Job, gather: Gather) -> ScreenRule | None:
    """The rule the screen is judged by; nothing where a build does not say."""
    rule: str | None = job.site.rules.screen
    if rule == "none":
        return NO_RULE
    if rule is None:
        known = rule_for(job.site.rules.region)
        if gather.grade == "build":
            near = f"; of {job.site.rules.region} we know of {rule_words(known, job.job.units)}" if known else ""
            for fact in ("screen_velocity", "screen_on_open", "screen_asked", "screen_opening"):
                why = f"[site.rules] screen is not given: ask the authority which rule is in force{near}"
                gather.lack(f"site.{fact}", why)
            return None
        rule = known or "federal passive"
        why = f"{rule}: the strictest rule in common use, until the authority is asked"
        if known:
            why = f"what we know of {job.site.rules.region} is {rule_words(known, job.job.units)}; {ASK}"
        gather.assume("site.screen_velocity", screen_rules()[rule].velocity, "face_speed", why)
    return screen_rules()[rule]


def _widest(job: Job, rule: ScreenRule, stock: Stock) -> float:
    """The widest opening the rule allows this kind of screen [m]; of a kind nobody has told, the narrower."""
    inlet = job.stand.inlet
    if inlet.screen == "none":
        return rule.opening
    screen = stock.screens.get(inlet.screen or "")
    return rule.slot if screen is None or screen.kind == "profile wire" else rule.opening


def _levels(job: Job, gather: Gather) -> dict[str, float]:
    """The levels that the usual days stand at, by their word; winter's low is no higher than the rest of the year's."""
    levels = job.site.levels
    winter, rest = lowest_held(job), lowest_held(job, of_winter=False)
    default = "site.low behind a dam" if job.site.dam == "yes" and winter is None else "site.low"
    low = gather.number("days.level", first_given(levels.low, levels.lowest_seen, rest), "[site.levels] low", default)
    if rest is not None:
        low = min(low, rest.value)
    return {
        "usual": 0.0,
        "low": low,
        "low in winter": low if winter is None else min(low, winter.value),
        "flood": gather.number("site.flood", levels.flood, "[site.levels] flood"),
    }


def day_facts(job: Job, gather: Gather) -> tuple[DayFacts, tuple[str, ...]]:
    """The days, the job's own or the usual ones, and their names."""
    _refuse_odd_levels(job, gather)
    if not job.site.days:
        return _usual_days(job, gather)

    def column(fact: str, field: str, default: str | None = None) -> Array:
        place = f"[[site.days]] {field}"
        return np.array([gather.number(fact, getattr(day, field), place, default) for day in job.site.days])

    place = "[[site.days]] level"
    days = DayFacts(
        level=np.array([gather.number("days.level", level_on(job, day), place, "site.low") for day in job.site.days]),
        temperature=column("days.temperature", "water"),
        ice=column("days.ice", "ice"),
        dirt=column("days.dirt", "dirt"),
        demand=column("days.demand", "demand"),
        current=np.array([stream_current(job, day.current, gather) for day in job.site.days]),
    )
    return _with_lowest(job, days, tuple(day.name for day in job.site.days))


def _with_lowest(job: Job, days: DayFacts, names: tuple[str, ...]) -> tuple[DayFacts, tuple[str, ...]]:
    """The days, and one more at the lowest water the job names where none of them goes as low."""
    named = (job.site.levels.low, job.site.levels.lowest_seen, lowest_held(job))
    given = [q.value for q in named if q is not None]
    if not given or np.isnan(days.level).any() or min(given) >= days.level.min():
        return days, names
    lowest = int(np.argmin(days.level))
    like = {name: np.append(getattr(days, name), getattr(days, name)[lowest]) for name in DayFacts.__dataclass_fields__}
    like["level"][-1] = min(given)
    return DayFacts(**like), (*names, f"lowest water, else as {names[lowest]}")


def _refuse_odd_levels(job: Job, gather: Gather) -> None:
    """Heights are from the usual level: a lost sign is a mistake that would drown or starve a pump."""
    levels = job.site.levels
    for field, sign, word in (("low", -1.0, "below"), ("lowest_seen", -1.0, "below"), ("flood", 1.0, "above")):
        quantity = getattr(levels, field)
        if quantity is not None and quantity.value * sign < 0.0:
            text = quantity.text.lstrip("+-")
            gather.mistake(
                f"[site.levels] {field}",
                f'"{quantity.text}"',
                f"a height at or {word} the usual water level, which is 0",
                f'write "{"-" if sign < 0 else ""}{text}", or count all heights from another level',
            )


def _usual_days(job: Job, gather: Gather) -> tuple[DayFacts, tuple[str, ...]]:
    levels = _levels(job, gather)
    seasons = {"open"} if job.need.season in ("hauled", "drained") else {"open", "winter"}
    rows = [row for row in usual_days() if row["season"] in seasons]

    def column(fact: str) -> Array:
        def one(row: dict[str, str]) -> float:
            if fact == "days.ice" and row["season"] == "winter":
                return design_ice(job, gather)
            winter = f"{fact} in winter"
            name = winter if row["season"] == "winter" and winter in defaults() else fact
            return gather.default(fact, "[[site.days]]", name)

        return np.array([one(row) for row in rows])

    names = ("temperature", "ice", "dirt", "demand")
    words = [f"{row['level']} in winter" if row["season"] == "winter" else row["level"] for row in rows]
    level = np.array([levels[word] for word in words])
    current = np.full(level.shape, stream_current(job, None, gather))
    temperature, ice, dirt, demand = (column(f"days.{name}") for name in names)
    days = DayFacts(level, temperature, ice, dirt, demand, current)
    return days, tuple(row["name"] for row in rows)
