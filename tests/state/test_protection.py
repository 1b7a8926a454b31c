"""What keeps the pump from harm: a cut-off that cannot open, one that opens needlessly, a relief valve too small."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from lakewright.api.check import check
from lakewright.checks.registry import judge
from lakewright.errors import JobError
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.report import Finding, Report
from lakewright.report import report as report_of
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.cases import CUT_IN, CUT_OUT, cases_of
from lakewright.state.facts import Facts
from lakewright.state.walk import walk, walk_flow
from lakewright.stock.load import load_stock
from tests.made import sound, sound_jet

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"
FOOT, PSI, GALLON, GPM = 0.3048, 6894.757, 3.785412e-3, 6.30902e-5
SOUND: dict[str, Callable[[], Facts]] = {"centrifugal": sound, "jet": sound_jet}

# The cabin's house carried 60 ft over a pump that has switch and cut-off beside it.
UPHILL = {"delivery.tap_height": '"68 ft"', "protection.switch_at": '"pump"'}


def assembled(changes: dict[str, str], without: str = "") -> Assembly:
    text = re.sub(without, "", EXAMPLE.read_text(encoding="utf-8")) if without else EXAMPLE.read_text(encoding="utf-8")
    plain = {key: value.strip('"') if value.startswith('"') else value for key, value in changes.items()}
    return facts_of(read_job_text(set_values(text, plain)), load_stock(), "job.toml")


def reported(changes: dict[str, str]) -> Report:
    plain = {key: value.strip('"') if value.startswith('"') else value for key, value in changes.items()}
    job = read_job_text(set_values(EXAMPLE.read_text(encoding="utf-8"), plain))
    assembly = facts_of(job, load_stock(), "job.toml")
    state = walk(assembly.facts)
    return report_of(job, assembly, assembly.facts, state, judge(state, assembly.facts.limits))


def finding(report: Report, name: str) -> Finding:
    return next(each for each in report.findings if each.name == name)


# A cut-off that cannot trip.


@pytest.mark.message
def test_a_house_uphill_holds_the_cut_off_closed_for_ever() -> None:
    report = reported(UPHILL)
    cannot, caught = finding(report, "cut_off_can_trip"), finding(report, "running_dry_is_caught")
    assert (cannot.status, caught.status) == ("fails", "fails")
    assert cannot.message == "26 psi that never leave the low-pressure cut-off, and it opens at 20 psi"
    assert caught.message == "0 guard that can stop a pump running dry"
    assert cannot.remedy == (
        "put switch and cut-off at the house, or let a current relay, flow switch or thermostat stop the pump"
    )


@pytest.mark.law
def test_what_holds_it_closed_is_the_water_standing_in_the_pipe() -> None:
    found = finding(reported(UPHILL), "cut_off_can_trip")
    # By hand: 68 ft less 7.7 ft of cold water, near enough 1000 kg/m3 on the coldest day.
    assert found.value == pytest.approx(1000.0 * 9.80665 * (68.0 - 7.7) * FOOT, rel=2e-4)


@pytest.mark.law
@pytest.mark.parametrize("guard", ["current relay", "flow switch", "casing thermostat", "float switch"])
def test_another_guard_catches_a_dry_pump_where_the_cut_off_cannot(guard: str) -> None:
    guards = f'["low-pressure cut-off", "{guard}"]'
    text = EXAMPLE.read_text(encoding="utf-8").replace('["low-pressure cut-off"]', guards)
    uphill = {key: value.strip('"') for key, value in UPHILL.items()}
    facts = facts_of(read_job_text(set_values(text, uphill)), load_stock()).facts
    assert walk(facts).guards_at_rest.guards.tolist() == [1.0] * 5  # type: ignore[union-attr]


@pytest.mark.law
def test_at_the_house_the_same_cut_off_opens() -> None:
    report = reported({"delivery.tap_height": "68 ft", "delivery.height": "60 ft"})
    assert finding(report, "cut_off_can_trip").status == "holds"


# What is said, and what is taken where nothing is.


@pytest.mark.message
def test_a_cut_off_over_cut_in_is_refused() -> None:
    with pytest.raises(JobError) as error:
        assembled({"protection.cut_off": '"35 psi"'})
    assert str(error.value).splitlines()[1:] == [
        "job.toml, [protection] cut_off",
        '    found   "35 psi"',
        "    wanted  less than cut_in, 30 psi",
        "    do      a cut-off at or over cut-in never lets the pump start: 10 psi under it is usual",
    ]


@pytest.mark.law
def test_a_cut_off_without_a_setting_opens_ten_under_cut_in() -> None:
    facts = assembled({}, without=r'cut_off = "20 psi"\n').facts
    assert facts.protection.cut_off[0] == pytest.approx(20.0 * PSI)


@pytest.mark.law
def test_a_build_that_says_nothing_has_no_guard_known_and_a_quote_takes_the_usual_one() -> None:
    nothing = r"(?s)\[protection\].*?(?=\[power\])"
    build = assembled({}, without=nothing)
    assert np.isnan(build.facts.protection.guards[0])
    assert build.missing["protection.guards"].startswith("[protection] dry_run is not given")
    assert build.missing["protection.guarded"].startswith("[protection] frost is not given")
    quote = assembled({"job.grade": '"quote"'}, without=nothing)
    assert quote.facts.protection.cut_off[0] == pytest.approx(20.0 * PSI)
    taken = {each.key: each.text for each in quote.assumed}
    assert taken["protection.dry_run"] == "low-pressure cut-off"
    assert taken["protection.frost"] == "heater"


@pytest.mark.law
def test_none_is_known_to_be_nothing() -> None:
    text = re.sub(r'cut_off = "20 psi"\n', "", EXAMPLE.read_text(encoding="utf-8"))
    facts = facts_of(read_job_text(text.replace('["low-pressure cut-off"]', '["none"]')), load_stock()).facts
    assert facts.protection.cut_off[0] == -np.inf
    assert walk(facts).guards_at_rest.guards.max() == 0.0  # type: ignore[union-attr]


@pytest.mark.law
@pytest.mark.parametrize("season, asked", [("year-round", True), ("hauled", False), ("drained", False)])
def test_frost_is_asked_after_where_water_is_drawn_in_winter(season: str, asked: bool) -> None:
    facts = assembled({"need.season": f'"{season}"'}).facts
    assert bool(facts.protection.winter[0]) == asked


# Laws: two straight lines in place of solving again, each on its cautious side of the true curve.


def flow_at(facts: Facts, pressure: float, end: int) -> np.ndarray:
    """Flow of the running cases at one end of the run, that end moved to a pressure."""
    name = "delivery.cut_in" if end == CUT_IN else "delivery.cut_out"
    flow = walk_flow(facts.with_values({name: np.array([pressure])})).flow.flow
    found: np.ndarray = flow[cases_of(len(facts.day_names)).running_end == end]
    return found


@pytest.mark.law
@pytest.mark.parametrize("kind, need", [("centrifugal", 1.42e-3), ("centrifugal", 1.5e-3), ("jet", 6.7e-4)])
def test_the_true_pressure_at_a_draw_past_the_pump_is_no_lower(kind: str, need: float) -> None:
    facts = SOUND[kind]().with_values({"need.flow": np.array([need]), "delivery.tank_volume": np.array([1e3])})
    cases = cases_of(2)
    runs = cases.running_end == CUT_IN
    told = walk(facts).guards_in_use.lowest[runs]  # type: ignore[union-attr]
    wanted = need * facts.days.demand[cases.running_day[runs]]
    low, high = np.zeros(len(told)), np.full(len(told), float(facts.delivery.cut_in[0]))
    for _ in range(30):
        middle = 0.5 * (low + high)
        enough = np.array([flow_at(facts, p, CUT_IN)[n] >= wanted[n] for n, p in enumerate(middle)])
        low, high = np.where(enough, middle, low), np.where(enough, high, middle)
    short = told < float(facts.delivery.cut_in[0]) * 0.999
    assert short.any()
    assert np.all(told[short] <= low[short] + 1.0)


@pytest.mark.law
@pytest.mark.parametrize("kind", SOUND)
@pytest.mark.parametrize("relief", [345e3, 400e3, 440e3, 600e3])
def test_no_more_comes_to_the_relief_valve_than_it_is_asked_to_pass(kind: str, relief: float) -> None:
    facts = SOUND[kind]().with_values({"delivery.relief": np.array([relief])})
    told = walk(facts).guards_in_use.relief_asked[cases_of(2).running_end == CUT_OUT]  # type: ignore[union-attr]
    true = flow_at(facts, relief, CUT_OUT)
    assert np.all(told >= true - 1e-12)
    assert relief < 600e3 or true.max() == 0.0


@pytest.mark.law
def test_a_start_draws_the_tank_down_by_what_boyle_says() -> None:
    facts = assembled({}).facts
    lowest = walk(facts).guards_in_use.lowest[0] / PSI  # type: ignore[union-attr]
    # By hand, July weekend at 1340 ft, 62 gal, 28 psi of precharge: 3 s at 8 gpm draw 0.4 gal from 2.7.
    air = 14.0
    held = 62.0 * (28.0 + air)
    assert lowest == pytest.approx(held / (held / (30.0 + air) + 0.4) - air, abs=0.01)


@pytest.mark.law
def test_an_example_says_what_guards_it() -> None:
    report = check(EXAMPLE)
    assert finding(report, "running_dry_is_caught").message == "1 guard that can stop a pump running dry"
    assert finding(report, "pump_house_stays_warm").status == "holds"
