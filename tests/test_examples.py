"""The examples say what their own first lines promise."""

from __future__ import annotations

from pathlib import Path

import pytest

from lakewright.api.check import check

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"

FIRST_LINES = {
    "year_round_cabin": "9.5 gpm at 30 psi on the worst day · lift with losses 14.9 ft · $13,409"
    " · not for drinking yet · 2 tight",
    "stream_irrigation": "1.19 L/s at 140 kPa on the worst day · lift with losses 3.0 m · $7,201 · 3 tight",
    "stock_tank": "0.62 L/s at 140 kPa on the worst day · lift with losses 2.9 m · at least $6,359 · 1 tight",
    "no_suction_pump": "No suction pump will do this: it would have to stand above +5.0 ft to stay clear of the highest"
    " water and below -0.3 ft to lift from the lowest.",
}


@pytest.mark.golden
@pytest.mark.parametrize("name", FIRST_LINES)
def test_the_first_line_of_an_example(name: str) -> None:
    assert check(EXAMPLES / f"{name}.toml").first_line == FIRST_LINES[name]


@pytest.mark.law
@pytest.mark.parametrize("name", FIRST_LINES)
def test_an_example_passes_unless_no_suction_pump_will_do(name: str) -> None:
    report = check(EXAMPLES / f"{name}.toml")
    assert report.passed == (name != "no_suction_pump")
    assert not report.passed or not [f for f in report.findings if f.status == "unknown"]


@pytest.mark.law
def test_each_kind_of_water_gets_only_the_questions_that_make_sense_for_it() -> None:
    asked = {
        name: {f.name for f in check(EXAMPLES / f"{name}.toml").findings if f.status != "not asked"}
        for name in FIRST_LINES
    }
    assert "inlet_stays_below_the_ice" in asked["year_round_cabin"]
    assert "inlet_stays_below_the_ice" not in asked["stream_irrigation"] | asked["stock_tank"]
    assert "screen_is_slow_enough" not in asked["stock_tank"]
    assert "suction_stays_liquid" not in asked["stock_tank"]
