"""The winter of a job: what is emptied, what stays full, where it freezes, and what nobody has said."""

from __future__ import annotations

import datetime
import math

import numpy as np
import pytest

from lakewright.api.report import report_on
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.report import Finding, Report
from lakewright.season import season_of
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.cold import frost_by_index
from lakewright.state.volumes import volumes_of
from lakewright.state.walk import walk
from lakewright.state.winter import DAY, in_autumn, in_spring, low_length
from lakewright.stock.load import load_stock
from tests.physics.inch_pound import FOOT, GALLON, INCH, PSI
from tests.state.still_table import EXAMPLES

CABIN = (EXAMPLES / "year_round_cabin.toml").read_text(encoding="utf-8")
GARDEN = (EXAMPLES / "stream_irrigation.toml").read_text(encoding="utf-8")
DRAINED = {"need.season": "drained", "suction.trench_depth": "", "delivery.trench_depth": ""}


def assembled(text: str, changes: dict[str, str]) -> Assembly:
    return facts_of(read_job_text(set_values(text, changes)), load_stock())


def reported(text: str, changes: dict[str, str]) -> Report:
    job = read_job_text(set_values(text, changes))
    return report_on(job, facts_of(job, load_stock()))


def finding(text: str, changes: dict[str, str], name: str) -> Finding:
    return next(each for each in reported(text, changes).findings if each.name == name)


def rows(text: str, changes: dict[str, str], title: str) -> str:
    return "\n".join(
        row for part in reported(text, changes).season if part.title.startswith(title) for row in part.rows
    )


# Where water stays


@pytest.mark.law
@pytest.mark.parametrize(
    "line, wet",
    [
        ([(0, 0), (10, 5)], 0.0),
        ([(0, 5), (10, 0)], 0.0),
        ([(0, 0), (10, -1), (20, 0)], 20.0),
        ([(0, 0), (10, -1), (20, 3)], 12.5),
        ([(0, 0), (10, 4), (20, 1), (30, 2), (40, 0)], 10.0 * (1.0 / 3.0) + 10.0),
        ([(0, 2), (10, 2), (20, 2)], 0.0),
    ],
)
def test_water_stays_in_low_places(line: list[tuple[float, float]], wet: float) -> None:
    assert low_length(line) == pytest.approx(wet)
    turned = [(line[-1][0] - where, height) for where, height in reversed(line)]
    assert low_length(turned) == pytest.approx(wet)


@pytest.mark.law
def test_a_low_place_is_that_of_rain_on_fine_steps() -> None:
    random = np.random.default_rng(4)
    for _ in range(50):
        heights = random.uniform(-2.0, 2.0, 7)
        where = np.linspace(0.0, 60.0, 7)
        fine = np.linspace(0.0, 60.0, 60_001)
        ground = np.interp(fine, where, heights)
        full = np.minimum(np.maximum.accumulate(ground), np.maximum.accumulate(ground[::-1])[::-1])
        wet = float((full > ground + 1e-9).mean() * 60.0)
        # A step of the fine ground at each shore of a pool.
        assert low_length(list(zip(where, heights, strict=True))) == pytest.approx(wet, abs=0.02)


def sagging(changes: dict[str, str]) -> str:
    """The garden's line with a hollow between pump and tank."""
    return set_values(GARDEN, {"site.ground.3.distance": "40 m", "site.ground.3.height": "1 m", **changes})


@pytest.mark.law
def test_a_delivery_line_through_a_hollow_does_not_drain() -> None:
    left = float(assembled(sagging({}), {}).facts.season.delivery_left[0])
    assert 30.0 < left < 60.0
    found = finding(sagging({}), {}, "supply_drains_empty")
    assert found.status == "fails"
    assert "of it lie in low places" in rows(sagging({}), {}, "Emptying")


@pytest.mark.message
def test_a_build_asks_whether_a_foot_valve_opens_where_the_line_stays() -> None:
    found = finding(CABIN, DRAINED, "supply_drains_empty")
    why = "[holding] foot_valve_opens is not given: a foot valve keeps the line full by design"
    assert (found.status, found.message) == ("unknown", why)
    opens = {**DRAINED, "holding.foot_valve_opens": "yes"}
    assert finding(CABIN, opens, "supply_drains_empty").status == "holds"
    kept = finding(CABIN, {**DRAINED, "holding.foot_valve_opens": "no"}, "supply_drains_empty")
    assert (kept.status, kept.message) == ("fails", "3.4 gal of water left when all is opened, at most 0.3 gal")


@pytest.mark.law
def test_a_line_without_a_foot_valve_is_not_asked_about_one() -> None:
    changes = {**DRAINED, "holding.arrangement": "check at pump only", "stand.inlet.kind": "screen"}
    changes |= {"stand.inlet.stock": "", "stand.inlet.attitude": ""}
    assert float(assembled(CABIN, changes).facts.season.suction_left[0]) == 0.0


# Frost and ice


@pytest.mark.law
def test_only_what_stays_full_in_the_ground_is_held_against_frost() -> None:
    for name in ("trench_is_below_frost", "frozen_band_is_buried"):
        assert finding(CABIN, {}, name).status == "holds" or name == "trench_is_below_frost"
        assert finding(GARDEN, {}, name).status == "not asked"
    assert finding(CABIN, {}, "trench_is_below_frost").status == "holds"
    assert finding(CABIN, {"delivery.buried": "false"}, "trench_is_below_frost").status == "fails"


@pytest.mark.message
def test_a_build_names_the_frost_and_the_trench_that_nobody_gave() -> None:
    found = finding(CABIN, {"delivery.trench_depth": "", "site.frost_depth": ""}, "trench_is_below_frost")
    assert found.status == "unknown"
    assert found.message == "[delivery] trench_depth is not given; [site] frost_depth is not given"


QUOTE = """
[job]
grade = "quote"
[site]
kind = "lake"
dam = "no"
[need]
baths = 1
season = "year-round"
[pump]
stock = "centrifugal, two-stage, 1/2 hp"
"""


@pytest.mark.law
def test_ice_comes_from_the_cold_only_where_nobody_has_measured_it() -> None:
    cold = {"site.ice.freezing_index": "1000 F days"}
    winter = float(assembled(QUOTE, cold).facts.days.ice.max())
    # The thicker end of a lake with snow: 0.70 in for the root of a Fahrenheit-day.
    assert winter == pytest.approx(0.70 * INCH * math.sqrt(1000.0))
    assert float(assembled(QUOTE, {**cold, "site.kind": "stream"}).facts.days.ice.max()) < winter
    seen = assembled(QUOTE, {**cold, "site.ice.thickness": "20 in"})
    assert float(seen.facts.days.ice.max()) == pytest.approx(20.0 * INCH)
    assert float(assembled(QUOTE, {}).facts.days.ice.max()) == pytest.approx(30.0 * INCH)


@pytest.mark.message
def test_what_is_taken_of_the_cold_says_so() -> None:
    found = {each.key: each for each in assembled(QUOTE, {"site.ice.freezing_index": "1000 F days"}).assumed}
    assert found["days.ice"].why == "1000 F days of frost, lake with snow at its fastest (crrel-04-3)"
    assert found["season.frost_depth"].why.startswith("1000 F days of frost on bare soil, wet silty sand")
    assert found["days.ice"].standing == found["season.frost_depth"].standing == "assumed"


@pytest.mark.law
def test_colder_winters_freeze_the_ground_deeper_and_none_of_ours_past_stefan() -> None:
    index = np.linspace(100.0, 4000.0, 50) * 48000.0
    depth = frost_by_index(index)
    assert np.all(np.diff(depth) > 0.0)
    # ours: a winter of 1,800 F-days, the usual one of a quote, freezes between the 3 and the 6 ft that codes ask.
    assert 3.0 * FOOT < float(frost_by_index(np.array([1800.0 * 48000.0]))[0]) < 6.0 * FOOT


# Slack, hauling, dates


@pytest.mark.law
def test_a_hose_gives_and_a_hauled_line_is_not_asked_for_slack() -> None:
    assert finding(GARDEN, {}, "line_has_slack_for_the_cold").status == "not asked"
    assert finding(CABIN, {}, "line_has_slack_for_the_cold").status == "holds"
    straight = finding(CABIN, {"suction.along": "0 %"}, "line_has_slack_for_the_cold")
    assert straight.status == "fails"
    assert finding(CABIN, {"suction.length": "204 ft"}, "line_has_slack_for_the_cold").status == "holds"


@pytest.mark.law
def test_only_what_is_hauled_is_asked_whether_it_can_be() -> None:
    assert finding(GARDEN, {}, "line_can_be_hauled").status == "holds"
    assert finding(CABIN, {}, "line_can_be_hauled").status == "not asked"
    heavy = finding(GARDEN, {"suction.weights.mass": "150 kg"}, "line_can_be_hauled")
    assert heavy.status == "fails"


@pytest.mark.law
def test_the_customers_date_is_held_against_the_frost_and_no_other() -> None:
    assert finding(GARDEN, {}, "closes_before_the_frost").status == "holds"
    assert finding(GARDEN, {"need.close_by": "2026-09-20"}, "closes_before_the_frost").status == "tight"
    assert finding(GARDEN, {"need.close_by": "2026-10-06"}, "closes_before_the_frost").status == "fails"
    assert finding(GARDEN, {"need.close_by": ""}, "closes_before_the_frost").status == "not asked"
    assert finding(GARDEN, {"need.open_from": "2026-05-01"}, "opens_after_the_frost").status == "fails"
    for name in ("closes_before_the_frost", "opens_after_the_frost"):
        assert finding(CABIN, {}, name).status == "not asked"


@pytest.mark.message
def test_a_date_without_the_stations_frost_is_unknown_and_says_whom_to_ask() -> None:
    found = finding(GARDEN, {"site.frost.first": ""}, "closes_before_the_frost")
    why = "[site.frost] first is not given: ask the nearest weather station for its first night of 28 F or -2 C"
    assert (found.status, found.message) == ("unknown", why)


@pytest.mark.law
def test_a_frost_of_january_belongs_to_the_autumn_before_it() -> None:
    assert in_autumn(datetime.date(2026, 1, 5)) > in_autumn(datetime.date(2026, 12, 30))
    assert in_spring(datetime.date(2027, 4, 1)) == in_spring(datetime.date(2026, 4, 1)) == 90.0 * DAY


# Volumes and words


@pytest.mark.law
def test_volumes_are_those_of_the_pipes_and_of_boyles_tank() -> None:
    facts = assembled(CABIN, {}).facts
    held = volumes_of(facts, casing=1e-3, heater=0.15)
    bore = float(facts.delivery.bore[0])
    assert held.delivery == pytest.approx(0.25 * math.pi * bore**2 * 160.0 * FOOT)
    air = 101325.0 * (1.0 - 2.25577e-5 * 1340.0 * FOOT) ** 5.25588
    full, empty = 50.0 * PSI + air, 28.0 * PSI + air
    # A little of the air's law: its second writing here is rounded.
    assert held.tank == pytest.approx(62.0 * GALLON * (1.0 - empty / full), rel=1e-3)
    assert held.after_pump == pytest.approx(held.casing + held.delivery + held.tank + held.heater)
    assert held.suction == pytest.approx(held.riser + held.suction_bed + held.suction_bank)


@pytest.mark.message
def test_the_year_of_the_garden_in_words() -> None:
    winter = rows(GARDEN, {}, "Winter").splitlines()
    assert winter == [
        "The suction line comes out, and everything is drained before the frost; by the gardener.",
        "Close by 12 September: the customer's own date.",
        "One autumn in ten has its first night of -2 C by 24 September; the mean is 6 October (30 years, the valley's,"
        " 12 km away).",
        "Start from 15 May: the customer's own date; one spring in ten still has a night of -2 C after 5 May.",
    ]
    assert "Close by 24 September at the latest." in rows(GARDEN, {"need.close_by": ""}, "Winter")
    assert "Nobody has looked up the first night of -2 C" in rows(GARDEN, {"site.frost.first": ""}, "Winter")


@pytest.mark.message
def test_a_stream_in_use_all_winter_is_told_of_fine_ice_and_a_shore_of_shove() -> None:
    stays = {"need.season": "year-round", "need.close_by": "", "need.open_from": ""}
    assert "carries fine ice that plugs a screen" in rows(GARDEN, stays, "Winter")
    assert "fine ice" not in rows(GARDEN, {}, "Winter")
    pushed = reported(CABIN, {"site.ice.shove": "yes"})
    assert any(row.startswith("Ice piles up on this shore") for row in pushed.season[0].rows)
    assert any(caution.startswith("Ice is pushed up this shore") for caution in pushed.cautions)


@pytest.mark.message
def test_nothing_is_blown_out_beyond_what_the_weaker_pipe_bears() -> None:
    assert "Never over 30 psi" in rows(CABIN, {}, "Blowing")
    assert "Never over 12 psi" in rows(CABIN, {"delivery.pressure_rating": "12 psi"}, "Blowing")
    unknown = rows(CABIN, {"delivery.stock": "", "delivery.bore": "1.38 in"}, "Blowing")
    assert unknown.startswith("Only where gravity leaves water, and never beyond what the weaker pipe bears")


@pytest.mark.message
def test_what_nobody_drinks_is_not_shocked() -> None:
    assert rows(GARDEN, {}, "Shock") == ""
    said = rows(CABIN, {}, "Shock")
    assert "50 mg/L for 24 hours: 4 fl oz of 6 % or 3 fl oz of 8.25 % bleach" in said
    assert "heater 40.0 gal" in rows(CABIN, {"delivery.heater_volume": "40 gal"}, "Shock")
    text = set_values(CABIN, {"delivery.tank": "open"})
    job = read_job_text(text)
    facts = facts_of(job, load_stock()).facts
    found = {part.title: part.rows for part in season_of(job, facts, walk(facts))}
    assert found["Shock chlorination"] == ("How much bleach is not known until delivery line and tank are.",)
