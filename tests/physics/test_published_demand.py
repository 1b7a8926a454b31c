"""Demand against print, and its laws."""

from __future__ import annotations

import csv
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

import lakewright
from lakewright.physics.curve import Curve, straight_lines
from lakewright.physics.demand import Allowances, Watering, peak_allowance, peak_flow
from lakewright.physics.types import Array
from lakewright.state.demand_tables import allowances, chart_of, fixtures
from tests.physics.inch_pound import FOOT, GALLON, GPM, INCH
from tests.published import assert_printed, published

ACRE = 43560.0 * FOOT**2
DAY, HOUR = 86400.0, 3600.0
TABLES = Path(lakewright.__file__).parent / "job" / "demand_tables"


def gpm(units: float, chart: Curve) -> float:
    return float(peak_flow(np.array([units]), chart)[0]) / GPM


# Rows two copies agree on. A row of a table is met as it stands.
@published("ipc-2018-flows", "table E103.3(3), flush tanks")
@pytest.mark.parametrize(
    "units, printed", [(1, "3.0"), (5, "9.4"), (8, "12.8"), (12, "16.0"), (19, "19.2"), (30, "23.3"), (50, "29.1")]
)
def test_flow_of_fixture_units_by_the_international_code(units: float, printed: str) -> None:
    assert_printed(gpm(units, chart_of("A", "tank")), printed)


@published("ipc-2018-flows", "table E103.3(3), flushometer valves")
@pytest.mark.parametrize("units, printed", [(5, "15.0"), (7, "19.8"), (10, "27.0"), (15, "31.0"), (20, "35.0")])
def test_flow_with_flush_valves_by_the_international_code(units: float, printed: str) -> None:
    assert_printed(gpm(units, chart_of("A", "flush valve")), printed)


@published("nspc-flows", "table B.5.4, flush tanks")
@pytest.mark.parametrize(
    "units, printed", [(5, "4.5"), (10, "8"), (14, "10.5"), (120, "49"), (225, "70"), (1000, "210")]
)
def test_flow_of_fixture_units_by_the_national_code(units: float, printed: str) -> None:
    assert_printed(gpm(units, chart_of("B", "tank")), printed)


@published("nspc-flows", "table B.5.4, flush valves")
@pytest.mark.parametrize("units, printed", [(5, "22"), (13, "29.5"), (225, "95"), (750, "175"), (1000, "210")])
def test_flow_with_flush_valves_by_the_national_code(units: float, printed: str) -> None:
    assert_printed(gpm(units, chart_of("B", "flush valve")), printed)


@published("ipc-2018-units", "table E103.3(2), private use, total")
@pytest.mark.parametrize(
    "name, printed",
    [("bathroom group", "3.6"), ("bathtub", "1.4"), ("lavatory", "0.7"), ("kitchen sink", "1.4"), ("bidet", "2.0")],
)
def test_units_of_a_fixture_by_the_international_code(name: str, printed: str) -> None:
    assert_printed(fixtures()[name].units_of("A", 1), printed)


# Computed here from the rows on either side: 15.4 and 16.0; 8.5 and 9.
def test_straight_lines_lie_between_rows() -> None:
    assert gpm(11.4, chart_of("A", "tank")) == pytest.approx(15.64, abs=1e-9)
    assert gpm(11.4, chart_of("B", "tank")) == pytest.approx(8.7, abs=1e-9)


HOUSE = {"lavatory": 2, "toilet": 1, "kitchen sink": 1, "dishwasher": 1, "clothes washer": 1, "bathtub": 1}


def house() -> tuple[Array, Allowances]:
    names, uses = allowances()
    return np.array([[float(HOUSE.get(name, 0)) for name in names]]), uses


@published("farm-home-pages", "worked house, sum of allowances")
def test_sum_of_allowances() -> None:
    counts, uses = house()
    nothing_extra = Allowances(uses.allowance, uses.allowance, uses.group)
    assert_printed(peak_allowance(counts, nothing_extra)[0] / GPM, "7.25")


# The text's own rule carried on from its sum: one allowance of 2.0 becomes a flow of 8.0. Computed here.
def test_largest_use_counts_in_full() -> None:
    counts, uses = house()
    assert peak_allowance(counts, uses)[0] / GPM == pytest.approx(13.25, abs=1e-9)


def watered(area: float, depth: float, running: float = 1.0, efficiency: float = 1.0) -> Watering:
    return Watering(*(np.array([value]) for value in (area, depth, DAY, running, efficiency)))


@published("irrigation-pages", "gallons for an inch of depth")
@pytest.mark.parametrize("area, printed", [(1000.0 * FOOT**2, "623"), (ACRE, "27154")])
def test_gallons_of_an_inch(area: float, printed: str) -> None:
    assert_printed(watered(area, INCH).volume()[0] / GALLON, printed)


# Computed here: 0.25 in a day in 8 hours, before efficiency.
def test_flow_for_an_acre() -> None:
    assert watered(ACRE, 0.25 * INCH, 8.0 * HOUR / DAY).flow()[0] / GPM == pytest.approx(14.14, abs=5e-3)


# Laws.


@pytest.mark.law
@pytest.mark.parametrize("family", ["A", "B"])
@pytest.mark.parametrize("toilets", ["tank", "flush valve"])
def test_more_units_never_draw_less(family, toilets) -> None:  # type: ignore[no-untyped-def]
    chart = chart_of(family, toilets)
    flows = peak_flow(np.linspace(0.0, float(chart.last[0]), 2000), chart)
    assert flows[0] == 0.0
    assert np.all(np.diff(flows) >= 0.0)
    assert np.isnan(peak_flow(np.array([float(chart.last[0]) * 1.001, np.nan]), chart)).all()


@pytest.mark.law
def test_one_more_use_never_asks_less() -> None:
    names, uses = allowances()
    counts = np.random.default_rng(2).integers(0, 4, (300, len(names))).astype(float)
    before = peak_allowance(counts, uses)
    for place in range(len(names)):
        more = counts.copy()
        more[:, place] += 1.0
        assert np.all(peak_allowance(more, uses) >= before - 1e-15)
    assert peak_allowance(np.zeros((1, len(names))), uses)[0] == 0.0


@pytest.mark.law
def test_watering_closes_its_balance() -> None:
    some = Watering(*(np.random.default_rng(3).uniform(0.1, 1.0, (5, 50))))
    pumped = some.flow() * some.period * some.running
    assert np.allclose(pumped * some.efficiency, some.area * some.depth, rtol=1e-12)


@pytest.mark.law
def test_row_is_its_own() -> None:
    random = np.random.default_rng(5)
    units, chart = random.uniform(0.0, 60.0, 200), chart_of("A", "tank")
    counts, uses = random.integers(0, 4, (200, len(allowances()[0]))).astype(float), allowances()[1]
    fields = random.uniform(0.1, 1.0, (5, 200))
    watering = Watering(*fields)
    for row in range(200):
        one = slice(row, row + 1)
        alone = Watering(*(fields[:, one]))
        assert peak_flow(units, chart)[one].tobytes() == peak_flow(units[one].copy(), chart).tobytes()
        assert peak_allowance(counts, uses)[one].tobytes() == peak_allowance(counts[one].copy(), uses).tobytes()
        assert watering.flow()[one].tobytes() == alone.flow().tobytes()
        assert watering.volume()[one].tobytes() == alone.volume().tobytes()


# Tables.


def lines(name: str) -> list[dict[str, str]]:
    text = (TABLES / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in text if line and not line.startswith("#")))


def test_families_of_flows_rise_row_by_row() -> None:
    rows = lines("flows.csv")
    assert len(rows) == 26 + 15 + 37 + 28
    for before, after in pairwise(rows):
        if (before["family"], before["toilets"]) == (after["family"], after["toilets"]):
            assert float(after["units"]) > float(before["units"])
            assert float(after["gpm"]) >= float(before["gpm"])


@pytest.mark.parametrize("name", ["flows.csv", "fixtures.csv"])
def test_every_row_says_whether_it_was_read(name: str) -> None:
    for row in lines(name):
        pairs = [("standing", "gpm")] if name == "flows.csv" else [("a_standing", "a_units"), ("b_standing", "b_units")]
        for standing, value in pairs:
            assert row[standing] in (("read", "remembered") if row[value] else ("",)), row


def test_remembered_flows_lie_between_those_read() -> None:
    for toilets in ("tank", "flush valve"):
        rows = [row for row in lines("flows.csv") if (row["family"], row["toilets"]) == ("B", toilets)]
        read = [row for row in rows if row["standing"] == "read"]
        chart = straight_lines([float(row["units"]) for row in read], [float(row["gpm"]) for row in read])
        for row in rows:
            # A chord lies below a run that bends down: a remembered row is at least the chord's.
            assert float(row["gpm"]) >= chart.at(np.array([float(row["units"])]))[0] - 1e-9, row
