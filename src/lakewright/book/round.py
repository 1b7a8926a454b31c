"""A round of visits: its stops in an order that saves the road, filled into working days."""

from __future__ import annotations

import datetime
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from itertools import pairwise
from typing import Any

from lakewright import units
from lakewright.job.naming import folded

SHOP = "shop"
"""Where a day begins and ends."""

EXACT = 9
"""ours: up to so many places every order is tried, by halves; beyond, the nearest next and turns of the way."""

MINUTE = 60.0
"""Seconds [s]."""


@cache
def round_rows() -> Mapping[str, Any]:
    """The tables of `rounds.toml`: times in minutes, the rest as it stands."""
    text = resources.files("lakewright.book").joinpath("rounds.toml").read_text(encoding="utf-8")
    return {name: {key: _minutes(value) for key, value in row.items()} for name, row in tomllib.loads(text).items()}


def _minutes(value: Any) -> Any:
    return units.read(value, "time") / MINUTE if isinstance(value, str) else value


@dataclass(frozen=True)
class Call:
    """One visit to be made.

    minutes : on the site, of everyone there; place : the water, by which the road is known
    by, after : days by and from which it is to be done, None where nobody has said
    """

    job: str
    number: int
    place: str
    minutes: float
    people: int
    by: datetime.date | None = None
    after: datetime.date | None = None
    customer: str = ""
    truck: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Stop:
    """A visit with its day: begin in minutes after midnight, drive in minutes; timed: whether anyone timed the road."""

    call: Call
    day: datetime.date
    begin: float
    drive: float
    timed: bool

    @property
    def trouble(self) -> str:
        """What is wrong with its day; empty where nothing is."""
        if self.call.by is not None and self.day > self.call.by:
            return f"late: by {self.call.by}"
        if self.call.after is not None and self.day < self.call.after:
            return f"early: not before {self.call.after}"
        return ""


Road = Mapping[frozenset[str], float]
"""Minutes between two places by their folded names."""


def stops_of(calls: Sequence[Call], road: Road, first: datetime.date) -> tuple[Stop, ...]:
    """The stops of a round in their order, from the first working day on or after `first`.

    The way that is shortest on the road is taken; where that leaves somebody too late or too early, the order of the
    days asked for is, if it leaves fewer so.
    """
    short = _by_road(calls, road)
    dated = sorted(short, key=lambda call: call.by or call.after or datetime.date.max)
    plans = [tuple(_days(order, road, first)) for order in (short, dated)]
    return min(plans, key=lambda plan: sum(bool(stop.trouble) for stop in plan))


def road_between(one: str, other: str, road: Road) -> tuple[float, bool]:
    """Minutes on the road between two places, and whether anyone has timed them."""
    day = round_rows()["day"]
    if folded(one) == folded(other):
        return day["same_water"], True
    timed = road.get(frozenset((folded(one), folded(other))))
    return (day["drive"], False) if timed is None else (timed, True)


def _by_road(calls: Sequence[Call], road: Road) -> list[Call]:
    """The calls place by place, in an order of places that is short on the road; at one place, the earliest asked."""
    places = list(dict.fromkeys(folded(call.place) for call in calls))
    order = _exact(places, road) if len(places) <= EXACT else _turned(_nearest(places, road), road)
    asked = sorted(calls, key=lambda call: (call.by or call.after or datetime.date.max, call.number))
    return [call for place in order for call in asked if folded(call.place) == place]


def _exact(places: Sequence[str], road: Road) -> list[str]:
    """The shortest way from the shop through all places and back: the best way to each last place of each set."""
    best: dict[tuple[frozenset[str], str], tuple[float, list[str]]] = {
        (frozenset((place,)), place): (road_between(SHOP, place, road)[0], [place]) for place in places
    }
    for _ in places[1:]:
        longer: dict[tuple[frozenset[str], str], tuple[float, list[str]]] = {}
        for (seen, last), (minutes, way) in best.items():
            for place in places:
                if place not in seen:
                    key, far = (seen | {place}, place), minutes + road_between(last, place, road)[0]
                    if key not in longer or far < longer[key][0]:
                        longer[key] = (far, [*way, place])
        best = longer
    ends = ((minutes + road_between(last, SHOP, road)[0], way) for (_, last), (minutes, way) in best.items())
    return min(ends, key=lambda end: end[0], default=(0.0, []))[1]


def _nearest(places: Sequence[str], road: Road) -> list[str]:
    way, left = [SHOP], list(places)
    while left:
        near = min(left, key=lambda place: road_between(way[-1], place, road)[0])
        left.remove(near)
        way.append(near)
    return way[1:]


def _turned(way: list[str], road: Road) -> list[str]:
    """A way with every stretch turned about that is shorter so, until none is."""
    while True:
        turns = (
            [*way[:low], *way[low:high][::-1], *way[high:]]
            for low in range(len(way))
            for high in range(low + 2, len(way) + 1)
        )
        shorter = min(turns, key=lambda each: length_of(each, road), default=way)
        if length_of(shorter, road) >= length_of(way, road):
            return way
        way = shorter


def length_of(way: Sequence[str], road: Road) -> float:
    """Minutes on the road from the shop through some places and back."""
    return sum(road_between(*leg, road)[0] for leg in pairwise([SHOP, *way, SHOP]))


def _days(calls: Sequence[Call], road: Road, first: datetime.date) -> Iterator[Stop]:
    """Fill the calls into working days: one more where the shop is still reached in time, else on the next day."""
    row = round_rows()["day"]
    day, at, now = _working(first), SHOP, 0.0
    for call in calls:
        drive, timed = road_between(at, call.place, road)
        home, _ = road_between(call.place, SHOP, road)
        if at != SHOP and now + drive + call.minutes + home > row["lasts"]:
            day, now = _working(day + datetime.timedelta(days=1)), 0.0
            drive, timed = road_between(SHOP, call.place, road)
        yield Stop(call, day, row["begins"] + now + drive, drive, timed)
        at, now = call.place, now + drive + call.minutes


def _working(day: datetime.date) -> datetime.date:
    # common practice, no source: Monday to Friday.
    while day.weekday() > 4:
        day += datetime.timedelta(days=1)
    return day
