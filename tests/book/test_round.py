"""The service round: a short way, days that end at the shop, dates that are asked for; its calendar read by another."""

from __future__ import annotations

import datetime
import random
from itertools import pairwise, permutations

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lakewright.book.calendar import calendar
from lakewright.book.records import Way, minutes_between
from lakewright.book.round import Call, _exact, _nearest, _turned, length_of, round_rows, stops_of

MONDAY = datetime.date(2026, 9, 21)


def roads(places: list[str], seed: int) -> dict[frozenset[str], float]:
    """Minutes between places thrown on a map, and the shop."""
    chance = random.Random(seed)
    at = {place: complex(chance.uniform(0, 60), chance.uniform(0, 60)) for place in [*places, "shop"]}
    return {frozenset((a, b)): float(round(abs(at[a] - at[b]))) for a in at for b in at if a < b}


@given(st.integers(1, 6), st.integers(0, 1000))
@pytest.mark.law
def test_the_way_is_the_shortest_of_all_orders(count: int, seed: int) -> None:
    places = [f"lake {n}" for n in range(count)]
    road = roads(places, seed)
    least = min(length_of(order, road) for order in permutations(places))
    assert length_of(_exact(places, road), road) == least


@pytest.mark.law
@pytest.mark.parametrize("seed", range(5))
def test_many_places_are_all_met_and_turned_to_no_longer_a_way(seed: int) -> None:
    places = [f"lake {n}" for n in range(20)]
    road = roads(places, seed)
    near = _nearest(places, road)
    turned = _turned(near, road)
    assert sorted(turned) == sorted(places)
    assert length_of(turned, road) <= length_of(near, road)


def call(number: int, place: str, minutes: float = 60.0, by: datetime.date | None = None) -> Call:
    return Call(f"job {number}", number, place, minutes, 2, by=by)


@given(st.lists(st.tuples(st.integers(0, 5), st.sampled_from([30.0, 90.0, 200.0, 600.0])), min_size=1, max_size=15))
@pytest.mark.law
def test_each_is_visited_once_and_every_day_ends_at_the_shop_in_time(asked: list[tuple[int, float]]) -> None:
    road = roads([f"lake {n}" for n in range(6)], 7)
    calls = [call(number, f"lake {place}", minutes) for number, (place, minutes) in enumerate(asked)]
    stops = stops_of(calls, road, MONDAY)
    assert sorted(stop.call.number for stop in stops) == list(range(len(calls)))
    row = round_rows()["day"]
    for day in {stop.day for stop in stops}:
        of_day = [stop for stop in stops if stop.day == day]
        assert day.weekday() < 5
        assert of_day[0].begin == row["begins"] + of_day[0].drive
        for before, after in pairwise(of_day):
            assert after.begin == before.begin + before.call.minutes + after.drive
        last = of_day[-1]
        home = last.begin + last.call.minutes + road[frozenset((last.call.place, "shop"))]
        # A visit that no day is long enough for has one of its own.
        assert home <= row["begins"] + row["lasts"] or len(of_day) == 1


def test_who_asks_for_an_earlier_day_goes_first_where_the_road_would_be_late() -> None:
    road = {frozenset(("shop", "near")): 10.0, frozenset(("shop", "far")): 60.0, frozenset(("near", "far")): 50.0}
    near, far = call(1, "near", 400.0), call(2, "far", 300.0, by=MONDAY)
    assert [stop.call for stop in stops_of([near, far], road, MONDAY)] == [far, near]
    late = stops_of([near, far], road, MONDAY + datetime.timedelta(days=1))
    assert [stop.trouble for stop in late if stop.call == far] == ["late: by 2026-09-21"]


def test_a_road_that_nobody_timed_is_said() -> None:
    row = round_rows()["day"]
    stops = stops_of([call(1, "a"), call(2, "a"), call(3, "b")], {frozenset(("shop", "a")): 12.0}, MONDAY)
    there = {(stop.call.place, stop.drive, stop.timed) for stop in stops if stop.call.number != 1}
    assert there == {("a", row["same_water"], True), ("b", row["drive"], False)}


def test_the_last_that_was_said_of_a_road_counts_either_way() -> None:
    signed = {"day": "2026-05-03", "author": "Ann"}
    ways = [Way(start="shop", finish="Long Arm", minutes=40.0, **signed),
            Way(start="long_arm", finish="Shop", minutes=35.0, **signed)]  # fmt: skip
    assert minutes_between(ways) == {frozenset(("shop", "long arm")): 35.0}


ODD = "Étang, de; l'Ouest\\ \n" + "très " * 40 + "بحيرة BEGIN:VEVENT"


def test_the_calendar_is_read_by_another() -> None:
    calls = [Call("Heron, Point", 1, ODD, 95.0, 2, truck=("O-rings; a set",)), call(2, "b")]
    text = calendar(stops_of(calls, {}, MONDAY), "haul-out", MONDAY)
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
    events = icalendar.Calendar.from_ical(text).walk("VEVENT")
    assert len(events) == 2
    event = next(each for each in events if each["UID"] == "haul-out-2026-1@book.lakewright")
    assert event["SUMMARY"] == "haul-out: Heron, Point"
    assert event["LOCATION"] == ODD
    assert event["DESCRIPTION"] == "2 to go\nO-rings; a set"
    assert (event["DTEND"].dt - event["DTSTART"].dt).seconds == 95 * 60
    assert calendar(stops_of(calls, {}, MONDAY), "haul-out", MONDAY) == text
