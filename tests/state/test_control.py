"""The year-round cabin with something else in place of its pressure switch: facts, findings, bill and gauges."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from lakewright.api.diagnose import advise
from lakewright.checks.registry import judge
from lakewright.errors import AskError, JobError
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.report import Finding, Report
from lakewright.report import report as report_of
from lakewright.running_cost import energy_per_volume
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.bill import bill_of
from lakewright.state.control_facts import BY_FLOW, BY_SPEED, STORE
from lakewright.state.walk import walk, walk_flow
from lakewright.stock.load import load_stock
from tests.made import sound, sound_by_flow, sound_by_speed, sound_stored

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"
PSI, GALLON, FOOT, DAY = 6894.757, 3.785412e-3, 0.3048, 86_400.0

CONTROLLED: dict[str, dict[str, str]] = {
    BY_FLOW: {
        "delivery.tank": "diaphragm tank, 20 gal",
        "delivery.controller.stock": "pressure-flow controller, 2 hp, 230 V",
    },
    BY_SPEED: {"delivery.tank": "diaphragm tank, 20 gal", "delivery.controller.holds": "32 psi"},
    STORE: {
        "delivery.store.stock": "storage tank, 550 gal",
        "delivery.store.low": "30 ft",
        "delivery.store.float": "yes",
        "delivery.store.overflow": "yes",
        "delivery.store.booster.stock": "centrifugal, 1/2 hp",
        "delivery.store.booster.height": "28 ft",
        "delivery.flow_control": "7 gpm",
        "protection.dry_run": '["current relay"]',
    },
}


def text_of(kind: str, changes: dict[str, str] | None = None) -> str:
    """The cabin's job file with a controller or a store, and nothing left of its switch."""
    text = EXAMPLE.read_text(encoding="utf-8")
    text = re.sub(r"(?m)^(cut_in|cut_out|precharge|tank|cut_off|dry_run) *=.*\n", "", text)
    given = {"delivery.control": kind, **CONTROLLED[kind], **(changes or {})}
    plain = {key: value for key, value in given.items() if not value.startswith("[")}
    text = set_values(text, plain)
    lists = "".join(f"{key.split('.')[1]} = {value}\n" for key, value in given.items() if value.startswith("["))
    return text.replace("[protection]\n", f"[protection]\n{lists}")


def assembled(kind: str, changes: dict[str, str] | None = None) -> Assembly:
    return facts_of(read_job_text(text_of(kind, changes)), load_stock(), "job.toml")


def reported(kind: str, changes: dict[str, str] | None = None) -> Report:
    job = read_job_text(text_of(kind, changes))
    assembly = facts_of(job, load_stock(), "job.toml")
    state = walk(assembly.facts)
    return report_of(job, assembly, assembly.facts, state, judge(state, assembly.facts.limits))


def finding(report: Report, name: str) -> Finding:
    return next(each for each in report.findings if each.name == name)


def refused(kind: str, changes: dict[str, str]) -> str:
    with pytest.raises(JobError) as caught:
        assembled(kind, changes)
    return str(caught.value)


# Facts


def test_a_controller_has_one_pressure_and_a_store_none() -> None:
    by_flow, by_speed, store = (assembled(kind).facts for kind in (BY_FLOW, BY_SPEED, STORE))
    assert by_flow.delivery.cut_in[0] == by_flow.delivery.cut_out[0] == by_flow.control.start[0]
    assert by_flow.delivery.cut_in[0] == pytest.approx(22.0 * PSI, rel=1e-6)
    assert by_speed.delivery.cut_in[0] == by_speed.delivery.cut_out[0] == pytest.approx(32.0 * PSI, rel=1e-6)
    assert by_speed.control.start[0] == pytest.approx(27.0 * PSI, rel=1e-6)
    assert store.delivery.cut_in[0] == store.delivery.cut_out[0] == store.delivery.tank_volume[0] == 0.0
    assert store.control.store_volume[0] == pytest.approx(0.8 * 550.0 * GALLON, rel=1e-6)
    assert store.control.per_day[0] == pytest.approx(400.0 * GALLON, rel=1e-6)


def test_the_start_of_a_controller_in_stock_is_taken_from_there_and_said_so() -> None:
    taken = [each for each in assembled(BY_FLOW).assumed if each.place == "[delivery.controller] start"]
    assert [each.why for each in taken] == ["as it is set in the stock; read its own setting"]


@pytest.mark.message
def test_what_belongs_to_another_kind_of_control_is_refused() -> None:
    assert '[delivery] cut_in\n    found   it beside control = "store and booster"' in refused(
        STORE, {"delivery.cut_in": "30 psi"}
    )
    assert "[delivery.controller] holds" in refused(BY_FLOW, {"delivery.controller.holds": "40 psi"})
    assert "[delivery.controller] start" in refused(BY_SPEED, {"delivery.controller.start": "40 psi"})
    assert "[delivery] tank" in refused(STORE, {"delivery.tank": "diaphragm tank, 62 gal"})
    assert "a current relay, a flow switch or a casing thermostat" in refused(STORE, {"protection.cut_off": "10 psi"})


@pytest.mark.message
def test_what_a_build_does_not_know_of_a_store_is_named() -> None:
    job = re.sub(r'(?m)^(stock = "(storage|centrifugal, 1/2 hp)|low|height = "28).*\n', "", text_of(STORE))
    missing = facts_of(read_job_text(job), load_stock(), "job.toml").missing
    assert missing["control.store_volume"] == "[delivery.store] volume is not given"
    assert missing["control.low"] == "[delivery.store] low is not given"
    assert missing["control.booster"] == "[delivery.store.booster] stock and curve are not given"
    assert missing["control.booster_height"] == "[delivery.store.booster] height is not given"


# The walk


def test_a_need_that_just_holds_the_pressure_is_the_flow_at_that_pressure() -> None:
    """What is left over at the need, and the flow found at the set pressure, are two sides of one equation."""
    facts = sound_by_speed()
    flow = walk_flow(facts).flow.flow[2 * 3]  # the second day asks a fifth less; the first has the lower water
    worst = float(walk_flow(facts).flow.flow[0::3].min())
    held = walk_flow(facts.with_values({"need.flow": np.array([worst]), "days.demand": np.array([1.0, 1.0])}))
    least = float(held.control_in_use.pressure[0::3].min())
    assert flow > 0.0
    assert least == pytest.approx(float(facts.delivery.cut_in[0]), rel=1e-8)


def test_a_controller_changes_nothing_of_the_flow_at_its_pressure() -> None:
    switch, by_flow, by_speed = (walk_flow(facts()) for facts in (sound, sound_by_flow, sound_by_speed))
    for other in (by_flow, by_speed):
        np.testing.assert_array_equal(other.flow.flow[0::3], switch.flow.flow[0::3])
        np.testing.assert_array_equal(other.taps.pressure[0::3], switch.taps.pressure[0::3])


def test_a_line_on_a_foot_valve_alone_rests_at_the_shut_off_of_a_pump_that_a_controller_of_flow_stops() -> None:
    alone = {"holding.at_pump": np.array([0.0])}
    state = walk_flow(sound_by_flow().with_values(alone))
    by_speed = walk_flow(sound_by_speed().with_values(alone))
    assert (state.standing.pressure > by_speed.standing.pressure).all()
    np.testing.assert_allclose(
        state.standing.pressure - by_speed.standing.pressure, state.shut_off.at_tank - 200e3, rtol=1e-9
    )


def test_a_store_keeps_the_house_from_the_pump() -> None:
    """The lake pump never feels what the taps want, and the taps nothing of the lake."""
    facts = sound_stored()
    deeper = facts.with_values({"days.level": facts.days.level - 1.0})
    np.testing.assert_array_equal(walk_flow(deeper).taps.pressure, walk_flow(facts).taps.pressure)
    high = facts.with_values({"taps.height": facts.taps.height + 5.0})
    np.testing.assert_array_equal(walk_flow(high).flow.flow, walk_flow(facts).flow.flow)


# Findings


@pytest.mark.message
def test_what_a_controller_of_flow_is_told() -> None:
    report = reported(BY_FLOW)
    said = {f.name: f.message for f in report.findings}
    assert said["controller_feels_an_open_tap"] == "2 psi that never leave the controller, and it starts at 22 psi"
    assert said["controller_lets_the_pump_rest"] == "58 psi when flow dies, for the pump to rest 27 psi"
    assert said["pressure_holds_at_the_need"] == "37 psi with the need running, and the controller is set to 22 psi"
    assert {finding(report, name).status for name in ("reaches_cut_out", "runs_long_enough")} == {"not asked"}
    assert any("full shut-off pressure" in caution for caution in report.cautions)
    assert "at the controller's pressure" in " ".join(report.cases["running"])


@pytest.mark.message
def test_a_pressure_the_pump_cannot_hold_at_the_need_is_found_and_told() -> None:
    failed = finding(reported(BY_SPEED, {"delivery.controller.holds": "40 psi"}), "pressure_holds_at_the_need")
    assert failed.status == "fails"
    assert failed.message == "37 psi with the need running, and the controller is set to 40 psi"
    assert "July weekend" in str(failed.case)


@pytest.mark.message
def test_what_a_store_is_told() -> None:
    report = reported(STORE)
    said = {f.name: f.message for f in report.findings}
    assert said["pump_fills_the_store"] == "7.0 gpm into the store, asked 0.6 gpm"
    assert said["store_holds_a_day"] == "440.0 gal in the store, and a day uses 400.0 gal"
    assert said["booster_stands_under_the_store"] == "2.0 ft of water over the booster with the store nearly empty"
    assert "into the store on the worst day" in report.first_line
    assert any(caution.startswith("An open store needs a lid") for caution in report.cautions)


def test_a_small_store_that_fills_slowly_runs_dry_in_the_peak_and_overflows_without_a_float() -> None:
    report = reported(
        STORE,
        {
            "delivery.store.stock": "storage tank, 210 gal",
            "delivery.flow_control": "1 gpm",
            "delivery.store.float": "no",
            "delivery.store.overflow": "no",
        },
    )
    names = ("store_lasts_through_the_peak", "store_holds_a_day", "store_cannot_run_over")
    assert {name: finding(report, name).status for name in names} == dict.fromkeys(names, "fails")


def test_nothing_of_control_is_said_of_a_job_with_a_switch() -> None:
    job = read_job_text(EXAMPLE.read_text(encoding="utf-8"))
    assembly = facts_of(job, load_stock(), "job.toml")
    state = walk(assembly.facts)
    report = report_of(job, assembly, assembly.facts, state, judge(state, assembly.facts.limits))
    assert finding(report, "store_holds_a_day").goes_without_saying
    assert not finding(report, "delivers_the_need").goes_without_saying


# Gauges, energy, bill


def test_gauges_read_up_to_where_the_pump_stops() -> None:
    report = reported(BY_FLOW)
    standing = next(each for each in report.gauges if (each.gauge, each.when) == ("pressure", "standing"))
    assert standing.low == pytest.approx(22.0 * PSI + 9810.0 * 12.3 * FOOT, rel=2e-3)
    assert standing.high > 60.0 * PSI


def test_a_drive_takes_less_than_a_pump_throttled_by_its_own_curve() -> None:
    """At the same flow a slower pump asks less of its motor than one at full speed, by more than the drive loses."""
    assembly = assembled(BY_SPEED)
    facts = assembly.facts
    state = walk(facts)
    slow = energy_per_volume(facts, state)
    flow = facts.need.flow * facts.days.demand
    at_full = facts.power.brake.at(flow) / flow
    assert 0.0 < slow < float(at_full.mean()) / 0.6


@pytest.mark.parametrize(
    "kind, names",
    [
        (BY_FLOW, ["pressure-flow controller, 2 hp, 230 V"]),
        (BY_SPEED, ["variable-speed controller, 1 hp, 230 V"]),
        (
            STORE,
            [
                "storage tank, 550 gal",
                "float switch, pump down",
                "centrifugal, 1/2 hp",
                "pressure-flow controller, 1 hp, 115 V",
            ],
        ),
    ],
)
def test_the_bill_has_what_starts_and_stops_the_pump_and_no_switch(kind: str, names: list[str]) -> None:
    job = read_job_text(text_of(kind))
    assembly = facts_of(job, load_stock(), "job.toml")
    lines = [line.what for line in bill_of(job, load_stock(), assembly).lines]
    assert [name for name in names if not any(line.startswith(name) for line in lines)] == []
    assert not any(line.startswith("pressure switch") for line in lines)


@pytest.mark.message
def test_a_visit_to_a_system_with_a_controller_is_not_weighed(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text(re.sub(r'(?m)^record *=.*"waters.*$', "", text_of(BY_FLOW)), encoding="utf-8")
    with pytest.raises(AskError, match=r'found .delivery. control = "pressure-flow controller"; wanted a "pressure sw'):
        advise(file)
