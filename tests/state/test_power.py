"""Motor, cable and supply: what is asked of each, by hand and by the tables; what is taken, and what stays unknown."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from lakewright.checks.registry import judge
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.physics.electric import HORSEPOWER
from lakewright.report import Finding, Report
from lakewright.report import report as report_of
from lakewright.running_cost import energy_per_volume
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.power_facts import cable_named
from lakewright.state.walk import walk
from lakewright.stock.load import load_stock

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
STOCK = load_stock()
NO_POWER = r"(?s)\[power\].*?(?=\[access\])"
FOOT = 0.3048

# A quote of a 1 hp motor at 230 V, its cable not named.
QUOTE = """
[pump]
stock = "centrifugal, 1 hp"
[power]
voltage = "230 V"
distance = "{}"
"""


def cabin(changes: dict[str, str], without: str = "") -> str:
    text = (EXAMPLES / "year_round_cabin.toml").read_text(encoding="utf-8")
    return set_values(re.sub(without, "", text) if without else text, changes)


def assembled(text: str) -> Assembly:
    return facts_of(read_job_text(text), STOCK, "job.toml")


def reported(text: str) -> Report:
    job = read_job_text(text)
    assembly = facts_of(job, STOCK, "job.toml")
    state = walk(assembly.facts)
    return report_of(job, assembly, assembly.facts, state, judge(state, assembly.facts.limits))


def finding(report: Report, name: str) -> Finding:
    return next(each for each in report.findings if each.name == name)


# By hand: 1/2 hp at 230 V takes 4.9 A, 29.4 A to start; 200 ft of 12 AWG, 1.93 ohm in 1000 ft, there and back.
BY_HAND = {
    "motor_runs_on_its_cable": 2 * 4.9 * 0.200 * 1.93 / 230.0,
    "motor_starts_on_its_cable": 2 * 29.4 * 0.200 * 1.93 / 230.0,
    "cable_carries_the_current": 1.25 * 4.9,
    "breaker_fits_the_motor": 15.0,
}


@pytest.mark.law
@pytest.mark.parametrize("name, value", BY_HAND.items())
def test_the_cabin_by_hand(name: str, value: float) -> None:
    assert finding(reported(cabin({})), name).value == pytest.approx(value)


# Longest cable that loses 3 % with a motor of 1 hp at 230 V, one way in feet: worked apart from tables 430.248 and 8,
# whole feet.
LONGEST = {14: 140, 12: 223, 10: 356, 8: 564, 6: 878, 4: 1400}


@pytest.mark.law
@pytest.mark.parametrize("gauge, feet", LONGEST.items())
def test_a_quote_takes_the_thinnest_cable_that_will_do(gauge: int, feet: int) -> None:
    just, over = (assembled(QUOTE.format(f"{length} ft")) for length in (feet - 1, feet + 1))
    taken = next(each.text for each in just.assumed if each.key == "power.wire")
    assert taken == f"cable, buried, copper, {gauge} AWG"
    after = next((each.text for each in over.assumed if each.key == "power.wire"), None)
    assert after != taken


# A quarter over full load (table 430.248) that is to the ampere what a cable carries at 60 C (table 310.16).
# By hand: 1.25 of 12 A is 15 A, of 16 A is 20 A, of 24 A is 30 A.
@pytest.mark.law
@pytest.mark.parametrize("power, voltage, gauge", [("2 hp", "230 V", 14), ("1 hp", "115 V", 12), ("2 hp", "115 V", 10)])
def test_a_cable_that_carries_just_what_is_asked_will_do(power: str, voltage: str, gauge: int) -> None:
    text = f'[pump]\npower = "{power}"\n[power]\nvoltage = "{voltage}"\ndistance = "10 ft"\n'
    taken = [each.text for each in assembled(text).assumed if each.key == "power.wire"]
    assert taken == [f"cable, buried, copper, {gauge} AWG"]


# The same from a plate whose voltage no table has: there the numbers are those on the plate, to the last bit.
@pytest.mark.law
@pytest.mark.parametrize("plate, gauge", [("12 A", 14), ("16 A", 12), ("24 A", 10), ("12.1 A", 12)])
def test_a_cable_that_carries_just_what_the_plate_asks_will_do(plate: str, gauge: int) -> None:
    power = f'[power]\nvoltage = "480 V"\ndistance = "10 ft"\nmotor_current = "{plate}"\n'
    taken = [each.text for each in assembled(f'[pump]\npower = "2 hp"\n{power}').assumed if each.key == "power.wire"]
    assert taken == [f"cable, buried, copper, {gauge} AWG"]


@pytest.mark.message
def test_where_no_cable_is_thick_enough_it_says_so() -> None:
    assembly = assembled(QUOTE.format("1500 ft"))
    assert assembly.missing["power.resistance"] == (
        "no cable in stock is thick enough: a higher voltage, or the panel nearer"
    )


@pytest.mark.message
def test_a_build_that_names_no_cable_is_told_which_would_do() -> None:
    report = reported(cabin({}, without=r"wire .*\n"))
    unknown = finding(report, "motor_runs_on_its_cable")
    assert (unknown.status, unknown.message) == ("unknown", "[power] wire is not given: 14 AWG copper would do")


@pytest.mark.law
@pytest.mark.parametrize("wire", ["12 AWG", "#12 copper", "12-2 with ground"])
def test_a_cable_is_known_by_its_marking(wire: str) -> None:
    found = cable_named(STOCK, wire)
    assert found is not None
    assert found.size == "12"


@pytest.mark.law
@pytest.mark.parametrize("wire", ["12 AWG aluminum", "2.5 mm2 copper", "thick", "2 AWG"])
def test_a_cable_that_is_not_in_stock_is_unknown(wire: str) -> None:
    assert cable_named(STOCK, wire) is None
    report = reported(cabin({"power.wire": wire}))
    assert finding(report, "motor_runs_on_its_cable").status == "unknown"
    assert finding(report, "cable_carries_the_current").status == "unknown"


@pytest.mark.law
def test_nothing_said_of_the_power_asks_nothing_and_a_caution_says_so() -> None:
    report = reported(cabin({}, without=NO_POWER))
    for name in (*BY_HAND, "supply_starts_the_motor", "ground_faults_are_caught", "voltage_suits_the_motor"):
        assert finding(report, name).status == "not asked", name
    words = "Nothing is said of the power: cable, breaker and voltage are not judged here."
    assert words in report.cautions
    assert words not in reported(cabin({})).cautions


@pytest.mark.law
def test_the_plate_stands_over_the_table_for_what_is_lost_and_not_for_what_is_carried() -> None:
    facts = assembled(cabin({"power.motor_current": "6 A"})).facts
    assert (facts.power.running_current[0], facts.power.table_current[0]) == (6.0, pytest.approx(4.9))


@pytest.mark.law
def test_a_code_letter_stands_over_six_times_full_load() -> None:
    facts = assembled(cabin({"power.code_letter": "L"})).facts
    assert facts.power.start_current[0] == pytest.approx(9.99 * 1000.0 * 0.5 / 230.0)
    assert np.isnan(assembled(cabin({"power.code_letter": "V"})).facts.power.start_current[0])


@pytest.mark.law
def test_a_voltage_without_a_table_needs_the_plate() -> None:
    assembly = assembled(cabin({"power.voltage": "400 V"}))
    assert "give [power] motor_current" in assembly.missing["power.table_current"]
    known = assembled(cabin({"power.voltage": "400 V", "power.motor_current": "2 A"})).facts
    assert known.power.table_current[0] == 2.0


@pytest.mark.law
def test_a_motor_connected_for_the_wrong_voltage_fails() -> None:
    report = reported(cabin({"pump.voltage": "115 V"}))
    assert finding(report, "voltage_suits_the_motor").status == "fails"
    assert finding(reported(cabin({"pump.voltage": "230 V"})), "voltage_suits_the_motor").status == "holds"


# By hand, 1/2 hp of code letter L: 1127 VA running, 5.0 kVA starting.
@pytest.mark.law
@pytest.mark.parametrize(
    "power, status", [("1.2 kW", "fails"), ("3 kW", "fails"), ("3.5 kW", "tight"), ("6 kW", "holds")]
)
def test_a_generator_runs_and_starts_the_motor_or_does_not(power: str, status: str) -> None:
    changes = {"power.supply": "generator", "power.source_power": power, "power.code_letter": "L"}
    assert finding(reported(cabin(changes)), "supply_starts_the_motor").status == status


@pytest.mark.law
def test_a_generator_of_unknown_size_is_unknown() -> None:
    assert finding(reported(cabin({"power.supply": "generator"})), "supply_starts_the_motor").status == "unknown"


@pytest.mark.law
def test_ground_fault_protection_is_asked_after_with_the_edition_of_the_rule() -> None:
    found = finding(reported(cabin({"power.gfci": "no"})), "ground_faults_are_caught")
    assert found.status == "fails"
    assert "2020 and 2023" in found.remedy
    assert "2026" in found.remedy
    assert "electrician" in found.remedy
    assert finding(reported(cabin({"power.gfci": "unknown"})), "ground_faults_are_caught").status == "unknown"


# The motor.


@pytest.mark.law
def test_the_pump_asks_of_its_motor_what_its_curve_says() -> None:
    text = cabin({})
    facts = assembled(text).facts
    row = STOCK.pumps["centrifugal, two-stage, 1/2 hp"]
    state = walk(facts)
    assert state.motor is not None
    asked = np.interp(state.flow.flow, row.flow, row.brake_power)
    assert np.allclose(state.motor.shaft, asked, rtol=1e-12)
    assert state.motor.bears[0] == pytest.approx(1.25 * 0.5 * HORSEPOWER)


@pytest.mark.law
def test_a_slower_pump_asks_for_less_by_the_cube() -> None:
    # At flows in proportion to speed: the same place on the curve of power.
    facts = assembled(cabin({})).facts
    half = walk(facts.with_values({"faults.speed": np.array([0.9])}))
    assert half.motor is not None
    x = half.flow.flow / 0.9
    row = STOCK.pumps["centrifugal, two-stage, 1/2 hp"]
    assert np.allclose(half.motor.shaft, 0.9**3 * np.interp(x, row.flow, row.brake_power), rtol=1e-12)


OWN_PUMP = """
[pump]
height = "7 ft"
power = "1/2 hp"
curve = [ { flow = "0 gpm", head = "150 ft" }, { flow = "14 gpm", head = "58 ft" } ]
"""


@pytest.mark.message
def test_an_own_curve_without_its_power_says_whom_to_ask() -> None:
    found = finding(reported(OWN_PUMP), "motor_is_not_overloaded")
    assert found.status == "unknown"
    assert "ask the pump's maker for its curve of power" in found.message


@pytest.mark.law
@pytest.mark.parametrize("most, status", [("0.4 hp", "holds"), ("0.9 hp", "fails")])
def test_an_own_curve_with_its_power_is_judged(most: str, status: str) -> None:
    power = f'shaft_power = [ {{ flow = "0 gpm", power = "0.3 hp" }}, {{ flow = "14 gpm", power = "{most}" }} ]\n'
    assert finding(reported(OWN_PUMP + power), "motor_is_not_overloaded").status == status


# What the meter says.


@pytest.mark.law
def test_energy_is_power_over_efficiency_and_flow() -> None:
    facts = assembled(cabin({})).facts
    state = walk(facts)
    assert state.motor is not None
    # By hand, a motor of 1/2 hp gives its shaft 60 % (memory); cut-in and cut-out of five days, line clean.
    ends = [day * 6 + end for day in range(5) for end in (0, 1)]
    taken = [state.motor.shaft[n] / 0.6 / state.flow.flow[n] for n in ends]
    assert energy_per_volume(facts, state) == pytest.approx(float(np.mean(taken)))


@pytest.mark.message
@pytest.mark.parametrize(
    "name, words",
    [
        ("year_round_cabin", "the motor takes about 1.8 kWh for 1,000 gal, 257 kWh a year at 400 gal/day"),
        ("stream_irrigation", "the motor takes about 0.3 kWh for 1 m3, 6 kWh a day at 17860 L/day"),
        ("stock_tank", ""),
    ],
)
def test_what_the_motor_takes_is_told_where_the_pump_has_a_curve_of_power(name: str, words: str) -> None:
    assert reported((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")).energy == words
