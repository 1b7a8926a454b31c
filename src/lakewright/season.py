"""The year of a supply in words: how it winters, how it is emptied and hauled, started and disinfected."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator
from dataclasses import dataclass

from lakewright import units
from lakewright.haul import haul_of, haul_words
from lakewright.job.models import Job
from lakewright.job.quantity import Quantity
from lakewright.physics.atmosphere import atmospheric_pressure
from lakewright.physics.cold_line import stored_energy
from lakewright.physics.shock import bleach_volume
from lakewright.physics.types import GRAVITY
from lakewright.state.facts import Facts
from lakewright.state.gather import one
from lakewright.state.holding import has_no_foot_valve
from lakewright.state.season_days import early_frost, late_frost
from lakewright.state.volumes import Volumes, volumes_of
from lakewright.state.walk import State
from lakewright.state.winter import EMPTIED

BLOW_OUT = units.read("30 psi", "pressure")
"""common practice, no source: the low end of what such lines are blown with [Pa gauge]; volume clears one."""

DROP = units.read("10 ft", "length")
"""ours: a height from which one can picture a weight fall [m]."""

BLEACHES = (0.06, 0.0825)
"""Label strengths of household bleach [share]. Source: EPA, Emergency Disinfection of Drinking Water, as restated."""

# Source: plumbing code on a public page, 10.9: doses [kg/m3], and how long; at every outlet 5 mg/L left.
DOSES = ((0.05, "24 hours"), (0.2, "3 hours, and never over 6"))
LEFT = 0.005

# Source: Fair, Geyer and Okun, section 2.12.4: velocity at the ports against ice [m/s].
ENTRANCE = units.read("0.30 ft/s", "speed")

WAYS = {
    "hauled": "The suction line comes out, and everything is drained before the frost",
    "drained": "The suction line stays in the water, and everything is drained before the frost",
}


@dataclass(frozen=True)
class SeasonPart:
    """One part of the season sheet: its heading and its sentences."""

    title: str
    rows: tuple[str, ...]


@dataclass(frozen=True)
class _Told:
    """What the words are made of."""

    job: Job
    facts: Facts
    state: State
    held: Volumes

    def show(self, value: float, kind: str) -> str:
        return units.show(value, kind, self.job.job.units)

    @property
    def emptied(self) -> bool:
        return self.job.need.season in EMPTIED

    @property
    def hauled(self) -> bool:
        return self.job.need.season == "hauled"


def season_of(job: Job, facts: Facts, state: State) -> tuple[SeasonPart, ...]:
    """The year of one job, in the order things are done; the first part says how it winters."""
    told = _Told(
        job, facts, state, volumes_of(facts, _given(job.pump.casing_volume), _given(job.delivery.heater_volume))
    )
    emptying = "Emptying it, in this order" if told.emptied else "If it must be emptied in the cold, in this order"
    parts = (
        ("Winter", _winter(told)),
        (emptying, _emptying(told)),
        ("What it weighs", _weights(told)),
        ("Blowing it out", _air(told)),
        ("Starting it", _starting(told)),
        ("Shock chlorination", _shock(told)),
    )
    made = ((title, tuple(rows)) for title, rows in parts)
    return tuple(SeasonPart(title, rows) for title, rows in made if rows)


def _given(quantity: Quantity | None) -> float:
    return 0.0 if quantity is None else quantity.value


# How it winters.


def _winter(told: _Told) -> Iterator[str]:
    if told.emptied:
        who = told.job.need.winter_by
        yield f"{WAYS[str(told.job.need.season)]}{f'; by {who}' if who else ''}."
        yield from _closing(told)
        yield from _opening(told)
    else:
        yield from _staying(told)
    if told.job.site.ice.shove == "yes":
        yield "Ice piles up on this shore: nothing is left on the bank or in the shallows that it can reach."


def _staying(told: _Told) -> Iterator[str]:
    season = told.facts.season
    trench, frost = float(season.trench_depth[0]), float(season.frost_depth[0])
    yield "It stays in the water and full all winter."
    if not math.isnan(trench + frost):
        under = told.show(trench, "depth")
        yield f"The shallowest line lies under {under} of earth; the ground freezes to {told.show(frost, 'depth')}."
    days = told.facts.days
    coldest = int(days.ice.argmax())
    if float(days.ice[coldest]) > 0.0:
        ice, name = told.show(float(days.ice[coldest]), "part"), told.facts.day_names[coldest]
        under = told.show(float(told.state.place.ice_clearance.reshape(-1)[coldest]), "depth")
        warm = told.show(float(days.temperature[coldest]), "temperature")
        yield f"{name}: {ice} of ice, {under} of water from there down to the inlet, taken at {warm}."
        yield "How thick ice is says nothing here about whether it bears: over an intake it is thinner."
    if told.job.site.kind == "stream":
        fast = float(told.state.stand.face_through.max())
        yield (
            "A stream that runs open on clear cold nights carries fine ice that plugs a screen; nothing cures it for"
            f" certain: {told.show(fast, 'face_speed')} through this screen, asked is"
            f" {told.show(ENTRANCE, 'face_speed')} or less."
        )


def _closing(told: _Told) -> Iterator[str]:
    season, frost = told.facts.season, told.job.site.frost
    own = told.job.need.close_by
    if own is not None:
        yield f"Close by {day_and_month(own)}: the customer's own date."
    if frost.first is None:
        yield (
            f"Nobody has looked up the first night of {_hard(told)}: ask the nearest weather station for the date one"
            " autumn in ten has it by. Until then, drain on the first forecast of one."
        )
        return
    early = day_and_month(early_frost(season))
    first = "" if own is not None else f"Close by {early} at the latest. "
    yield (
        f"{first}One autumn in ten has its first night of {_hard(told)} by {early}; the mean is"
        f" {day_and_month(frost.first)}{_record(told)}."
    )


def _opening(told: _Told) -> Iterator[str]:
    season, frost = told.facts.season, told.job.site.frost
    own = told.job.need.open_from
    words = [f"Start from {day_and_month(own)}: the customer's own date" if own else "Start once the ice is out"]
    if frost.last is not None:
        late = day_and_month(late_frost(season))
        words.append(f"one spring in ten still has a night of {_hard(told)} after {late}")
    yield f"{'; '.join(words)}."


def _hard(told: _Told) -> str:
    return "28 F" if told.job.job.units == "US" else "-2 C"


def _record(told: _Told) -> str:
    frost = told.job.site.frost
    parts = [f"{frost.years} years" if frost.years else "", frost.station or ""]
    said = ", ".join(part for part in parts if part)
    return f" ({said})" if said else ""


def day_and_month(date: datetime.date) -> str:
    """A date without its year.

    >>> day_and_month(datetime.date(2026, 9, 3))
    '3 September'
    """
    return f"{date.day} {date:%B}"


# Where each litre goes.


def _emptying(told: _Told) -> Iterator[str]:
    job, held = told.job, told.held
    yield "Pump off, its breaker off and locked. A heater is off and cold before it is drained."
    yield "Open the highest tap, then all others: where no air gets in, no water gets out. They stay open."
    yield f"Tank: the drain on its tee, {_some(told, held.tank)}."
    if held.branches > 0.0:
        yield f"Branches: the lowest tap of each, {_some(told, held.branches)}."
    yield _delivery_words(told)
    if held.heater > 0.0:
        yield f"Heater: its own drain, {_some(told, held.heater)}."
    if job.treatment.steps or job.treatment.uv.stock:
        yield "Filters and lamp: each housing by its own drain or bowl; cartridges, sleeve and lamp come indoors."
    casing = f", {_some(told, held.casing)}" if held.casing > 0.0 else ""
    yield f"Pump: its drain plug and its priming plug{casing}; tip it if it has pockets. Switch and gauge tubes too."
    yield _suction_words(told)
    yield "All drains stay open, plugs in a bag on the pump; mouse-proof what is left."


def _some(told: _Told, volume: float) -> str:
    return "nobody knows how much" if math.isnan(volume) else told.show(volume, "volume")


def _delivery_words(told: _Told) -> str:
    facts, held = told.facts, told.held
    falls_to_pump = float(facts.delivery.height[0]) >= float(facts.pump.height[0])
    where = (
        "the bib at the pump, on the tank's side of its check"
        if falls_to_pump
        else "the drain at the tank, its low end"
    )
    words = f"Delivery line: {where}, {_some(told, held.delivery)}"
    left = float(facts.season.delivery_left[0])
    if left > 0.0:
        words += f"; {told.show(left, 'length')} of it lie in low places and stay full: a drain there, or blow it out"
    return f"{words}."


def _suction_words(told: _Told) -> str:
    job, held = told.job, told.held
    if told.hauled:
        return (
            f"Suction line: open the foot valve or break the shore union before lifting, {_some(told, held.suction)}"
            " run out, or it comes up full."
        )
    over = held.suction_bank if held.suction_bank > 0.0 else held.suction
    stays = "what lies under water, below the ice, stays full"
    if has_no_foot_valve(job):
        return f"Suction line: with the plug out it runs back by itself, {_some(told, over)}; {stays}."
    if job.holding.foot_valve_opens == "no":
        return (
            f"Suction line: the foot valve keeps {_some(told, over)} in it; lift it, or break the union at the water."
        )
    return f"Suction line: open the foot valve by cord or bypass, or lift it: {_some(told, over)} run back; {stays}."


# What it weighs, and what air holds.


def _weights(told: _Told) -> Iterator[str]:
    if not told.hauled or told.state.rest is None or told.state.season is None:
        return
    line = haul_words(haul_of(told.facts, told.state), told.job.job.units)
    if line:
        yield f"{line[:1].upper()}{line[1:]}."
    lifted = float(told.state.rest.lifted.max())
    if not math.isnan(lifted) and bool(told.state.season.hauled[0]):
        yield f"Stand out of the water, iron and all: {told.show(lifted, 'mass')}."
        pull = told.show(float(told.state.season.pull.max()), "force")
        yield f"Dragged ashore along the bed, full: {pull}. Dragging is easier than lifting into a boat."


def _air(told: _Told) -> Iterator[str]:
    """A caution: what air holds at no more than the weaker line bears."""
    facts, held = told.facts, told.held
    bears = [float(facts.suction.allowed_pressure[0]), float(facts.delivery.pipe_bears[0])]
    volume = held.suction_bank + held.suction_bed + held.delivery
    if any(math.isnan(each) for each in (*bears, volume)):
        yield "Only where gravity leaves water, and never beyond what the weaker pipe bears, which nobody knows here."
        return
    most = min(BLOW_OUT, *bears)
    atmosphere = atmospheric_pressure(facts.site.elevation)
    energy = float(stored_energy(atmosphere + most, one(volume), atmosphere)[0])
    drop = f"{told.show(energy / (GRAVITY * DROP), 'mass')} falling {told.show(DROP, 'length')}"
    yield (
        f"Only where gravity leaves water: air at {told.show(most, 'gauge')} in these lines holds as much as {drop},"
        " where water holds next to nothing."
    )
    yield (
        f"Never over {told.show(most, 'gauge')}, regulated, from one end with the far end open and nobody before it;"
        " tank, filters, lamp and gauges shut off; eyes covered."
    )


# Starting it, and disinfecting it.


def _starting(told: _Told) -> Iterator[str]:
    drunk = told.job.need.drinking != "no"
    yield "Look for what ice did: stand, screen, line, weights, pins, clamps. New O-rings; plugs and drains shut."
    if told.emptied:
        air = told.show(float(told.facts.delivery.precharge[0]), "gauge")
        yield f"Tank still empty: air in it at {air}."
    yield "Fill and prime at the tee, highest tap open, until no air comes; then the pump, and feel every joint."
    yield "Flush raw water to waste before it meets the treatment; then new cartridges."
    if drunk:
        yield "Shock and flush as below, then lamp and sleeve; drink none until a test comes back clean."
    yield "Read both gauges, standing and running, and write them on the card."


def _shock(told: _Told) -> Iterator[str]:
    if told.job.need.drinking == "no":
        return
    held = told.held
    total = held.after_pump
    if math.isnan(total):
        yield "How much bleach is not known until delivery line and tank are."
        return
    named = {"delivery line": held.delivery, "tank": held.tank, "branches": held.branches, "heater": held.heater}
    named |= {"pump": held.casing}
    parts = ", ".join(f"{name} {told.show(volume, 'volume')}" for name, volume in named.items() if volume > 0.0)
    yield f"From the pump to the taps it holds {told.show(total, 'volume')}: {parts}. The house's pipes come on top."
    for dose, time in DOSES:
        bleach = " or ".join(
            f"{told.show(float(bleach_volume(one(total), one(dose), one(label))[0]), 'small_volume')} of"
            f" {100.0 * label:g} %"
            for label in BLEACHES
        )
        yield f"{told.show(dose, 'dose_in_water')} for {time}: {bleach} bleach, plain and new."
    yield (
        f"Poured in at the pump after its check, the line to the lake shut: a lake is never chlorinated. Draw it to"
        f" every tap; at the end {told.show(LEFT, 'dose_in_water')} or more by a strip at each."
    )
    yield "Heater bypassed, lamp off, carbon and membranes out. Gloves, goggles, air; never with acid or ammonia."
    yield "Flushed onto land, not into lake, stream or septic. Test five to seven days later. It mends no bad source."
